"""What the sheets of metal parts draw with: views along the bed, turned parts from half sections, threads, limits."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

import cadquery as cq

from shared.cad.project import SectionView, View, project, section_view
from shared.cad.slope import Slope
from shared.drawing.content import ra_text
from shared.drawing.primitives import Line, Primitive, Projection
from shared.fits import tolerance_class
from shared.profile import Profile, Segment
from shared.threads import Thread

if TYPE_CHECKING:
    from parts.plane.models import Piece
    from parts.plane.run import Run

SHARP = 1.0  # deg: a lesser turn of a half section draws no edge
MINOR = 1.2269  # pitches that an outside thread is thinner at its root than its major diameter (ISO 724, from memory)
Point = tuple[float, float]


def swapped(outline: Profile) -> Profile:
    """Return an outline with its two axes changed over: (a, b) becomes (b, a) [mm]."""
    return outline.rotated(-90.0).mirrored(1)


def limits_mm(size: float, name: str) -> tuple[float, float]:
    """Return the deviations (upper, lower) [mm] of a size [mm] and class, such as "h11"."""
    found = tolerance_class(size, name)
    return found.upper / 1000, found.lower / 1000


def bed_view(run: Run, way: str) -> View:
    """Return a view square to the bed, its (u, v) the coordinates of the blade frame [mm].

    Args:
        run: the build.
        way: "side" gives (s, q), "face" (s, y) seen from above the blade, "end" (y, q) seen down the bed.
    """
    at = Slope(run.design.spec.bed.angle, 0.0)
    y = (0.0, 1.0, 0.0)
    return {"side": View(at.up, at.outward), "face": View(at.up, y), "end": View(y, at.outward)}[way]


def on_bed_seen(run: Run, name: str, solid: cq.Shape, way: str, hidden: bool = False) -> Projection:
    """Return a solid seen square to the bed, projected once a build; `way` as for `bed_view`."""
    key = f"bed {name} {way} {hidden}"
    if key not in run.drawn:
        run.drawn[key] = project(solid, bed_view(run, way), hidden=hidden)
    made: Projection = run.drawn[key]
    return made


def on_bed_cut(run: Run, name: str, solid: cq.Shape, way: str = "side") -> SectionView:
    """Return a solid cut along the middle of the plane, seen square to the bed, made once a build."""
    key = f"bed section {name} {way}"
    if key not in run.drawn:
        run.drawn[key] = section_view(solid, bed_view(run, way))
    made: SectionView = run.drawn[key]
    return made


def piece(run: Run, part: str, name: str) -> Piece:
    """Return one solid of a part of the assembly."""
    return next(p for p in run.models.pieces_of(part) if p.name == name)


def mass(run: Run, part: str, name: str) -> float:
    """Return the mass of one solid [kg]."""
    return run.models.measured(piece(run, part, name))[1]


# ---- turned parts: a half section (radius, length along the axis) drawn with its axis along u ----------------------


def _corners(half: Profile) -> list[Point]:
    """Return the sharp corners of a half section as (radius, length) [mm]."""
    found, pieces = [], half.segments
    for a, b in zip(pieces, pieces[1:] + pieces[:1], strict=True):
        (au, av), (bu, bv) = a.direction(at_end=True), b.direction(at_end=False)
        if abs(math.degrees(math.atan2(au * bv - av * bu, au * bu + av * bv))) > SHARP:
            found.append(b.start)
    return found


def _inside(half: Profile, corner: Point) -> bool:
    """Return whether a corner is on the bore's side of the metal."""
    r, at = corner
    near = [x for shift in (-1e-4, 1e-4) for x in half.crossings(1, at + shift)]
    return bool(near) and r < max(near) - 1e-3 and r <= min(near) + 1e-3


def turned(half: Profile) -> list[Primitive]:
    """Return a turned part seen from the side, axis along u, from its half section (radius, length) [mm]."""
    up = swapped(half)
    rim = [s for s in up.segments if max(abs(s.start[1]), abs(s.end[1])) > 1e-6]
    rim = [s for s in rim if not _bore(half, s)]
    down = [s for s in up.mirrored(1).segments if max(abs(s.start[1]), abs(s.end[1])) > 1e-6]
    down = [s for s in down if not _bore(half, s)]
    across = [Line((at, -r), (at, r)) for r, at in _corners(half) if r > 1e-6 and not _inside(half, (r, at))]
    return [*rim, *down, *across]


def _bore(half: Profile, segment: Segment) -> bool:
    a, b = segment.start, segment.end
    middle = (abs(a[1] + b[1]) / 2, (a[0] + b[0]) / 2)
    return _inside(half, middle)


def turned_section(half: Profile) -> tuple[list[Primitive | Profile], list[Profile]]:
    """Return a bored part cut along its axis, and the two faces to hatch; half section (radius, length) [mm]."""
    upper = swapped(half)
    lower = upper.mirrored(1)
    rim = [s for face in (upper, lower) for s in face.segments if max(abs(s.start[1]), abs(s.end[1])) > 1e-6]
    behind = [Line((at, -r), (at, r)) for r, at in _corners(half) if r > 1e-6 and _inside(half, (r, at))]
    return [*rim, *behind], [upper, lower]


# ---- threads --------------------------------------------------------------------------------------------------------


def thread_call(thread: Thread, inside: bool) -> str:
    """Return a thread as it is called out, with its class: 2A/2B unified, 6g/6H metric."""
    metric = thread.name.startswith("M")
    grade = ("-6H" if inside else "-6g") if metric else ("-2B" if inside else "-2A")
    return f"{thread.name}{grade}"


def root_lines(thread: Thread, start: float, end: float, axis: float = 0.0) -> list[Primitive]:
    """Return the two thin lines at the root of an outside thread from one length to another along u [mm]."""
    r = (thread.major - MINOR * thread.pitch) / 2
    return [Line((start, axis + side * r), (end, axis + side * r)) for side in (-1.0, 1.0)]


def closed(points: Sequence[Point], name: str = "outline") -> Profile:
    """Return a polygon [mm] as an outline."""
    return Profile.polygon(list(points), name=name)


# ---- texts ----------------------------------------------------------------------------------------------------------


def texture_text(ra_um: float, first: str) -> str:
    """Return a surface texture Ra [um] in both units, "inch" or "mm" first, for the title block."""
    return ra_text(ra_um, first)
