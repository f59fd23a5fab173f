"""Parts of the assembly's section at larger scale: the mechanism of a bench plane, and the edge in the mouth. mm."""

from __future__ import annotations

from collections.abc import Mapping
from math import cos, radians, sin, tan
from typing import TYPE_CHECKING

from shapely import box, union_all
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Place
from shapely.geometry.base import BaseGeometry

from parts.plane.sheets.assembly_views import HATCH, Spot, Together, on_middle
from parts.plane.sheets.metal import size_text
from parts.plane.sheets.silhouettes import area_of, clipped, lines_of, surface_of
from shared.drawing.plan import SheetPlan
from shared.drawing.primitives import Line
from shared.drawing.view import View
from shared.profile import Profile
from shared.segments import Point

if TYPE_CHECKING:
    from parts.plane.run import Run

MOUTH_MIDDLE = (1.0, 2.0)  # x, z [mm]: middle of the mouth's detail
MOUTH_REACH = 11.0  # mm: radius of what the mouth's detail shows
LEAST_SEEN = 4.0  # mm2 of a part that a balloon can point at, at full size
ROUND_IT = 4.0  # mm of room round the mechanism in its detail
OUTER = ("body", "toe piece", "blade", "knob", "knob rod", "knob rod nut")  # parts that no detail is made for


def balloons(view: View, spots: Mapping[str, Spot], left: dict[str, int], least: float = LEAST_SEEN) -> None:
    """Point a balloon at each part that has none yet and is seen; `left` loses it, with all that are alike.

    Args:
        view: the view.
        spots: where each part can be pointed at [mm].
        left: parts without a balloon, with their number.
        least: area of a part [mm2] that a balloon can point at.
    """
    for name, spot in spots.items():
        if name in left and spot.area >= least:
            number = left[name]
            view.balloon(number, spot.point)
            for other in [n for n, k in left.items() if k == number]:
                del left[other]


def draw_section(view: View, drawn: Together, window: BaseGeometry | None = None) -> None:
    """Draw cut faces hatched, whole parts before them, and thin lines beyond; all, or what lies in a window [mm]."""
    inside = drawn.before.buffer(-0.02)
    for name, faces in drawn.faces.items():
        for f in faces:
            edges = clipped([s for o in (f.outer, *f.holes) for s in o.segments], inside)
            view.draw(edges if window is None else clipped(edges, window, inside=True))
            area = area_of(f.outer, f.holes)
            if window is None and area.intersection(drawn.before).area < 0.5:
                view.hatch(f.outer, f.holes, HATCH[name])
            else:
                kept = area.difference(drawn.before)
                _hatched(view, kept if window is None else kept.intersection(window), HATCH[name])
    for lines in drawn.lines.values():
        view.draw(lines if window is None else clipped(lines, window, inside=True))
    for lines in drawn.beyond.values():
        view.draw(lines if window is None else clipped(lines, window, inside=True), "SMOOTH")


def _hatched(view: View, area: BaseGeometry, angle: float) -> None:
    for g in getattr(area, "geoms", [area]):
        if isinstance(g, Polygon) and g.area > 0.5:
            outer, *holes = (Profile.polygon([(x, y) for x, y in r.coords[:-1]]) for r in (g.exterior, *g.interiors))
            view.hatch(outer, holes, angle)


def mechanism(plan: SheetPlan, section: View, run: Run, left: dict[str, int]) -> View:
    """Draw detail C: frog, cap and adjusters at twice the size, with their numbers; mark it in the section."""
    drawn = on_middle(run)
    inner = [p for p in run.models.pieces if p.name not in OUTER and not p.name.startswith("tote")]
    points = [surface_of(run, p).vertices for p in inner]
    x0, z0 = (min(float(v[:, i].min()) for v in points) - ROUND_IT for i in (0, 2))
    x1, z1 = (max(float(v[:, i].max()) for v in points) + ROUND_IT for i in (0, 2))
    window = box(x0, z0, x1, z1)
    view = plan.view("C", label="DETAIL C, MECHANISM", scale="2:1")
    draw_section(view, drawn, window)
    view.draw([Profile.rectangle(x0, z0, x1, z1)], "SMOOTH")
    names = {p.name for p in inner}
    balloons(view, {n: s for n, s in drawn.spots.items() if n in names}, left, LEAST_SEEN / 2)
    section.draw([Profile.rectangle(x0, z0, x1, z1)], "SMOOTH")
    section.leader((x0, z1 - 2.0), "DETAIL C", end="none", toward=150.0)
    return view


def mouth(plan: SheetPlan, run: Run) -> None:
    """Draw detail B: the edge in the mouth, with the angles that make it cut."""
    d = run.design
    view = plan.view("B", label="DETAIL B, MOUTH", scale="5:1")
    window = Place(*MOUTH_MIDDLE).buffer(MOUTH_REACH, quad_segs=32)
    metal = []
    for name, faces in on_middle(run).faces.items():
        if name in ("tote", "knob"):
            continue
        for f in faces:
            kept = area_of(f.outer, f.holes).intersection(window)
            metal.append(kept)
            for g in getattr(kept, "geoms", [kept]):
                if isinstance(g, Polygon) and g.area > 0.5:
                    _hatched(view, g, HATCH[name])
                    view.draw(lines_of(g.boundary.intersection(window.buffer(-0.01))))
    _mouth_angles(view, run, union_all(metal), window)
    opening = d.body.mouth_opening
    view.dim_h((-opening, 0.0), (0.0, 0.0), opening, side="below", suffix=" mouth")


def _along(angle: float, reach: float, off: float = 0.0) -> Point:
    """Return the point at a reach along a line that rises at an angle [deg] from the edge, or `off` below it [mm]."""
    c, s = cos(radians(angle)), sin(radians(angle))
    return reach * c + off * s, reach * s - off * c


def _mouth_angles(view: View, run: Run, metal: BaseGeometry, window: BaseGeometry) -> None:
    d, edge = run.design, (0.0, 0.0)
    bed, honed, back, units = d.spec.bed.angle, d.blade.honed_bevel, d.blade.back_bevel, d.spec.units
    cutting, clearance = (float(run.numbers["blade"].value(k)) for k in ("cutting_angle_deg", "clearance_angle_deg"))
    down = d.orientation == "bevel-down"
    # the sole's plane and the honed facet, too short to be seen, drawn out
    facet, short = clearance if down else cutting, abs(honed - d.blade.bevel) > 0.01
    thin = [LineString([edge, (9.0, 0.0)])] + ([LineString([edge, _along(facet, 8.0)])] if short else [])
    for path in thin:
        view.draw(lines_of(path.difference(metal.buffer(0.02))), "SMOOTH")
    view.draw([Line(edge, (8.0, 0.0))], "SMOOTH")
    view.angle(edge, (9.0, 0.0), _along(cutting, 9.0), cutting, reference=True, suffix=" cutting")
    view.angle(edge, (5.0, 0.0), _along(clearance, 5.0), clearance, reference=True, suffix=" clearance")
    bevel = f"honed bevel {honed:g}°" + (f", back bevel {back:g}°" if back else "")
    view.leader(_along(facet, 6.5), f"{bevel}: facet drawn out" if short else bevel, toward=-60.0 if down else 120.0)
    off = d.blade.thickness if down else 0.0
    reach = off / tan(radians(d.blade.bevel)) if down else 0.0
    seat = LineString([_along(bed, reach, off), _along(bed, 40.0, off)]).intersection(window)
    view.leader(_middle(seat), f"bed {bed:g}°", toward=-20.0)
    if down:
        setback = d.mechanism.chipbreaker.setback  # type: ignore[attr-defined]
        view.leader(_along(bed, setback), [f"chipbreaker set back {size_text(setback, units)} along the face"],
                    toward=150.0)  # fmt: skip


def _middle(path: BaseGeometry) -> Point:
    at = path.interpolate(0.5, normalized=True)
    return float(at.x), float(at.y)
