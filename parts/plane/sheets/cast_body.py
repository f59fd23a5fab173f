"""Views of a body as cast, the finished body inside it as phantom: what casting and pattern sheet share."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

import cadquery as cq

from parts.body.arch import rim, rim_height
from parts.body.ribs import bosses_of, ribs_of
from parts.body.size import Trough
from parts.body.walls import Envelope, envelope
from parts.plane.sheets.metal import section, seen_along, sliced
from parts.plane.sheets.trough import past
from shared.drawing.plan import SheetPlan
from shared.drawing.view import View
from shared.profile import Line, Point, Profile
from shared.segments import Segment

if TYPE_CHECKING:
    from parts.plane.run import Run


@dataclass(frozen=True, eq=False, repr=False)
class Stage:
    """A body as it is drawn on one sheet: casting, or pattern, which is the casting grown by a factor an axis [-]."""

    name: str
    solid: cq.Shape
    size: Trough
    across_at: float  # x of the cross section in the casting [mm]
    factors: tuple[float, float, float] = (1.0, 1.0, 1.0)

    @property
    def walls(self) -> Envelope:
        """Outside of the casting, not grown."""
        return envelope(self.size)

    def side(self, x: float, z: float) -> Point:
        """Return a casting's point in the lengthwise views of this stage [mm]."""
        return x * self.factors[0], z * self.factors[2]

    def across(self, y: float, z: float) -> Point:
        """Return a casting's point in the cross section of this stage [mm]."""
        return y * self.factors[1], z * self.factors[2]


@dataclass(frozen=True)
class CastViews:
    """The three views of a stage."""

    plan: View
    long: View
    cross: View


def cast_views(run: Run, plan: SheetPlan, stage: Stage, finished: cq.Shape | None) -> CastViews:
    """Add plan, lengthwise section A-A and cross section B-B of a stage.

    Args:
        run: the build.
        plan: the sheet.
        stage: what is drawn.
        finished: the finished body, drawn as phantom inside its casting; None leaves it out.
    """
    name, at = stage.name, stage.across_at * stage.factors[0]
    w, s = stage.walls, stage.size
    raw, top = -s.cast.sole, s.cheek_height
    a_cut = sliced(run, name, stage.solid, "front", (0.0, 0.0, 0.0))
    b_cut = sliced(run, name, stage.solid, "heel", (at, 0.0, 0.0))
    long = section(plan, "A-A", a_cut, [*_rim(stage), *_ends(stage)])
    above = plan.view("plan", seen_along(run, name, stage.solid, "top", smooth=True), of=long, place="above")
    (x0, _), (x1, _) = stage.side(w.x0, 0.0), stage.side(w.x1, 0.0)
    above.section_marks((x0 - past(s), 0.0), (x1 + past(s), 0.0), "A", 90.0)
    above.centre_line((x0 - 3.0, 0.0), (x1 + 3.0, 0.0))
    long.section_marks((at, stage.side(0.0, top)[1] + past(s)), (at, stage.side(0.0, raw)[1] - past(s)), "B", 180.0)
    cross = section(plan, "B-B", b_cut, _cheeks(stage), of=long, place="right")
    if finished is not None:
        long.draw(_outlines(sliced(run, "body", finished, "front", (0.0, 0.0, 0.0))), "PHANTOM")
        cross.draw(_outlines(sliced(run, "body", finished, "heel", (at, 0.0, 0.0))), "PHANTOM")
    _parting(stage, long, cross)
    return CastViews(above, long, cross)


def _outlines(faces: Sequence[object]) -> list[Profile]:
    return [p for f in faces for p in (f.outer, *f.holes)]  # type: ignore[attr-defined]


def _rim(stage: Stage) -> Sequence[Segment]:
    """Return the cheek's rim as cast, seen behind the lengthwise section (x, z) [mm].

    Arcs stay arcs under one factor for all axes; where the axes differ they are drawn as short lines.
    """
    w, s = stage.walls, stage.size
    beyond = s.toe_x - w.x0 - w.inset(s.rail_height)
    fx, _, fz = stage.factors
    if fx == fz:
        return [_scaled(piece, fx) for piece in rim(s, beyond)]
    n, x0, x1 = 200, s.toe_x - beyond, s.heel_x + beyond
    points = [stage.side(x, rim_height(s, x)) for x in (x0 + (x1 - x0) * i / n for i in range(n + 1))]
    return [Line(p, q) for p, q in pairwise(points)]


def _ends(stage: Stage) -> list[Segment]:
    """Return the rails' ends at toe and heel, seen behind the lengthwise section from the plate up (x, z) [mm]."""
    w, s = stage.walls, stage.size
    low, high = s.sole, s.rail_height
    return [Line(stage.side(w.x0 + w.inset(low), low), stage.side(w.x0 + w.inset(high), high)),
            Line(stage.side(w.x1 - w.inset(low), low), stage.side(w.x1 - w.inset(high), high))]  # fmt: skip


def _cheeks(stage: Stage) -> list[Segment]:
    """Return both cheeks behind the cross section, from its own rim up to the peak (y, z) [mm]."""
    w, s = stage.walls, stage.size
    low, high = rim_height(s, stage.across_at), s.cheek_height
    if high - low < 0.05:
        return []
    lines: list[Segment] = []
    for side in (-1.0, 1.0):
        foot, tip = side * s.inside_half_at(low), side * s.inside_half_at(high)
        out, peak = side * (w.half - w.inset(low)), side * (w.half - w.inset(high))
        corners = [stage.across(*p) for p in ((out, low), (peak, high), (tip, high), (foot, low))]
        lines += [Line(p, q) for p, q in pairwise(corners)]
    return lines


def _scaled(s: Segment, k: float) -> Segment:
    if isinstance(s, Line):
        return Line((k * s.start[0], k * s.start[1]), (k * s.end[0], k * s.end[1]))
    return replace(s, centre=(k * s.centre[0], k * s.centre[1]), radius=k * s.radius)


def _parting(stage: Stage, long: View, cross: View) -> None:
    """Mark the parting plane in both sections."""
    w, z = stage.walls, stage.size.cast.parting_z
    long.centre_line(stage.side(w.x0 - 12.0, z), stage.side(w.x1 + 4.0, z))
    cross.centre_line(stage.across(-w.half - 4.0, z), stage.across(w.half + 12.0, z))


def over_all(views: CastViews, stage: Stage) -> None:
    """Dimension length and width at the parting plane, and the heights above the raw sole face."""
    w, s, z = stage.walls, stage.size, stage.size.cast.parting_z
    fx, fy, fz = stage.factors
    raw = -s.cast.sole
    views.long.dim_h(stage.side(w.x0, z), stage.side(w.x1, z), (w.x1 - w.x0) * fx)
    views.cross.dim_h(stage.across(-w.half, z), stage.across(w.half, z), 2 * w.half * fy)
    rail, top = (w.x1, s.rail_height), (s.arch_peak, s.cheek_height)
    for x, height in (rail, top):
        views.long.dim_v(stage.side(w.x1, raw), stage.side(x, height), (height - raw) * fz, side="right")
    views.long.dim_v(stage.side(w.x0, raw), stage.side(w.x0, s.sole), (s.sole - raw) * fz, side="left")


def cast_heights(views: CastViews, stage: Stage) -> None:
    """Dimension bosses and ribs as cast: their places from the toe, and their heights above the raw sole face."""
    w, s, raw = stage.walls, stage.size, -stage.size.cast.sole
    fx, _, fz = stage.factors
    for b in bosses_of(s):
        top = b.z_top + s.cast.boss
        views.long.dim_v(stage.side(b.x, raw), stage.side(b.x, top), (top - raw) * fz, at=(b.x + 18.0) * fx)
        views.plan.dim_h(stage.side(w.x0, 0.0), stage.side(b.x, 0.0), (b.x - w.x0) * fx, side="above")
    for rib in ribs_of(s):
        views.plan.dim_h(stage.side(w.x0, 0.0), stage.side(rib.x, 0.0), (rib.x - w.x0) * fx, side="above",
                         suffix=" rib")  # fmt: skip
        views.long.dim_v(stage.side(rib.x, raw), stage.side(rib.x, rib.z), (rib.z - raw) * fz, at=(rib.x + 12.0) * fx)
