"""What is seen of the plane put together, from above and in the section on its middle. Lengths mm.

Hidden lines are exact, with two exceptions: tote and rod seen from above, and the parts that a section draws whole.
Their free forms and flutes would cost the exact way seconds; they come from their triangles, within 0.08 mm.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import cadquery as cq
import numpy as np
import shapely
from shapely import union_all
from shapely.geometry.base import BaseGeometry

from parts.plane.sheets.metal import sliced
from parts.plane.sheets.silhouettes import area_of, clipped, inner_point, lines_of, path_of, silhouette, surface_of
from shared.cad.project import VIEWS, SectionFace
from shared.cad.together import seen_as_facets, seen_together
from shared.depth import Grid, Mask, depths, nearest_of
from shared.drawing.primitives import Primitive
from shared.segments import Point
from shared.surface import Surface

if TYPE_CHECKING:
    from parts.plane.models import Piece
    from parts.plane.run import Run

MIDDLE = (0.0, 0.0, 0.0)
FINE, COARSE = 0.4, 0.75  # mm between the spots at which the nearest part is found, from above and in the section
MIXED = 2.0  # mm2 by which a part may seem to stand both over and under another, at the rims of both
OFF = 0.2  # mm: a part that reaches farther to both sides stands on the middle
HATCH = {"body": 45.0, "toe piece": 135.0, "frog": 135.0, "blade": 60.0, "chipbreaker": 120.0,
         "lever cap cap": 30.0, "lever cap": 30.0, "lever cap lever": 150.0, "lever cap leaf spring": 75.0,
         "tote": 105.0, "knob": 105.0}  # fmt: skip


@dataclass(frozen=True)
class Spot:
    """Where a part can be pointed at: the free area about the point [mm2], and the point."""

    area: float
    point: Point


@dataclass
class Together:
    """What is seen in a view: lines of each part, thin ones beyond a cut, cut faces, and where each can be pointed at.

    `before` is the area of the parts that stand whole before the cut.
    """

    lines: dict[str, tuple[Primitive, ...]] = field(default_factory=dict)
    beyond: dict[str, tuple[Primitive, ...]] = field(default_factory=dict)
    faces: dict[str, tuple[SectionFace, ...]] = field(default_factory=dict)
    spots: dict[str, Spot] = field(default_factory=dict)
    before: BaseGeometry = field(default_factory=shapely.Polygon)


def _once(run: Run, key: str, make: Callable[[Run], Together]) -> Together:
    if key not in run.drawn:
        run.drawn[key] = make(run)
    made: Together = run.drawn[key]
    return made


def from_above(run: Run) -> Together:
    """Return what is seen from above (x, y), worked out once a build."""
    return _once(run, "assembly from above", _from_above)


def on_middle(run: Run) -> Together:
    """Return the section on the middle (x, z), worked out once a build."""
    return _once(run, "assembly on the middle", _on_middle)


def _masks(grid: Grid, pieces: Sequence[Surface], view: str, limits: Sequence[float]) -> tuple[list[Mask], list[Mask]]:
    """Return where each part is nearest, and where it is met at all."""
    v = VIEWS[view]
    fields = [depths(s, grid, v.right, v.up, limit) for s, limit in zip(pieces, limits, strict=True)]
    return nearest_of(fields), [np.isfinite(f) for f in fields]


def _from_above(run: Run) -> Together:
    pieces = run.models.pieces
    surfaces = [surface_of(run, p) for p in pieces]
    v = VIEWS["top"]
    grid = Grid.over(surfaces, v.right, v.up, FINE)
    seen, met = _masks(grid, surfaces, "top", [np.inf] * len(pieces))
    # a part that is nearest nowhere hides nothing that others do not hide
    shown = [i for i, m in enumerate(seen) if m.any()]
    soft = [i for i in shown if pieces[i].name.startswith("tote")]
    hard = [i for i in shown if i not in soft]
    over: set[int] = set()
    if soft:
        nearest, covered = (np.any([k[i] for i in soft], axis=0) for k in (seen, met))
        over = {i for i in hard if grid.area(seen[i] & covered) > 0.0}
        if any(grid.area(seen[i] & covered) > MIXED and grid.area(met[i] & nearest) > MIXED for i in over):
            soft, hard, over = [], shown, set()  # such a tangle only the exact way can tell apart
    found = Together()
    covers = {i: silhouette(surfaces[i], "top") for i in (*soft, *sorted(over))}
    away, near = (union_all([covers[i] for i in some]) for some in (soft, sorted(over)))
    for i, lines in zip(hard, seen_together([pieces[i].solid for i in hard], "top"), strict=True):
        found.lines[pieces[i].name] = lines if i in over else clipped(lines, away)
    stand = [*soft, *sorted(over)]
    for i, lines in zip(stand, seen_as_facets([pieces[i].solid for i in stand], "top"), strict=True):
        if i in soft:
            # triangles leave gaps where a side stands nearly upright: the rim of what they cover has none
            rim = lines_of(covers[i].boundary.difference(near)) if pieces[i].name == "tote" else []
            found.lines[pieces[i].name] = (*lines, *rim)
    found.spots = {pieces[i].name: Spot(grid.area(seen[i]), grid.inmost(seen[i])) for i in shown}
    return found


def _crosses(surface: Surface) -> bool:
    y = surface.vertices[:, 1]
    return bool(y.min() < -OFF and y.max() > OFF)


def _on_middle(run: Run) -> Together:
    pieces = run.models.pieces
    surfaces = {p.name: surface_of(run, p) for p in pieces}
    cut = [p for p in pieces if p.name in HATCH]
    whole = [p for p in pieces if p.name not in HATCH and _crosses(surfaces[p.name])]
    far = [p for p in pieces if p not in cut and p not in whole and surfaces[p.name].vertices[:, 1].max() > OFF]
    found = Together(faces={p.name: sliced(run, p.name, p.solid, "front", MIDDLE) for p in cut})
    found.before = union_all([silhouette(surfaces[p.name], "front") for p in whole])
    found.lines = dict(zip((p.name for p in whole), seen_as_facets([p.solid for p in whole], "front"), strict=True))
    # of a copy: the kernel may loosen the edges of what it cuts
    rest = [*(p.solid.copy().cut(_near_side()) for p in cut), *(p.solid for p in far)]
    inside = found.before.buffer(-0.02)
    for p, lines in zip([*cut, *far], seen_together(rest, "front"), strict=True):
        found.beyond[p.name] = clipped(_off_the_cut(lines, found.faces.get(p.name, ())), inside)
    _section_spots(found, cut, whole, far, surfaces)
    return found


def _off_the_cut(lines: Sequence[Primitive], faces: Sequence[SectionFace]) -> tuple[Primitive, ...]:
    """Return lines without those that are the rim of a cut face, which is drawn thick."""
    rims = union_all([area_of(f.outer, f.holes).boundary for f in faces]).buffer(0.03)
    return tuple(p for p in lines if not rims.covers(path_of(p)))


def _near_side() -> cq.Shape:
    """Return a block that takes in all that stands before the middle, y < 0."""
    made = cq.Workplane("XZ").rect(4000.0, 4000.0).extrude(1000.0).val()
    assert isinstance(made, cq.Shape)
    return made


def _section_spots(found: Together, cut: Sequence[Piece], whole: Sequence[Piece], far: Sequence[Piece],
                   surfaces: dict[str, Surface]) -> None:  # fmt: skip
    areas = {n: union_all([area_of(f.outer, f.holes) for f in some]) for n, some in found.faces.items()}
    for name, area in areas.items():
        free = area.difference(found.before)
        if not free.is_empty:
            found.spots[name] = Spot(float(free.area), inner_point(free))
    order = [*cut, *far, *whole]
    v = VIEWS["front"]
    grid = Grid.over([surfaces[p.name] for p in order], v.right, v.up, COARSE)
    limits = [np.inf if p in whole else 0.0 for p in order]
    seen, _ = _masks(grid, [surfaces[p.name] for p in order], "front", limits)
    us, vs = grid.spots()
    faces = union_all(list(areas.values()))
    shapely.prepare(faces)
    for p, mask in zip(order, seen, strict=True):
        if p in cut:
            continue
        free = mask.copy()
        if p in far:
            free[mask] = ~shapely.contains_xy(faces, us[mask], vs[mask])
        if free.any():
            found.spots[p.name] = Spot(grid.area(free), grid.inmost(free))
