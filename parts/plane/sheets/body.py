"""The sheet of a bench plane's finished body."""

from __future__ import annotations

from itertools import pairwise
from math import cos, radians, sin, tan
from typing import TYPE_CHECKING, cast

from parts.blade.bedding_numbers import BED_ANGLE_TOL_DEG, BED_POSITION_TOL_MM, FRONT_TOL_MM, mouth_deviations
from parts.body.floor import high_pad_raw, hollow_radius, low_pad_raw, raised_from_to, slope_angle, steps
from parts.body.key import key
from parts.body.machined_faces import boss_names, from_solid, machined_faces
from parts.body.outline import mouth_at
from parts.body.ribs import ribs_of
from parts.body.size import KEY_CLASS, BodySize, TappedHole
from parts.body.views import cheek_feet, mouth_front, side_outline
from parts.plane.finish import finish_of
from parts.plane.sheets.body_casting import casting_sheet, floor_radii, pattern_sheet
from parts.plane.sheets.cast_body import CastViews, Stage
from parts.plane.sheets.common import SheetEntry, letters, new_sheet, seen
from parts.plane.sheets.metal import (
    MILLED,
    SEAT_HEIGHT_TOL,
    SEAT_STEP_TOL,
    angle_zone,
    hand,
    section,
    size_text,
    sliced,
    weighed,
)
from parts.plane.sheets.trough import (
    body_notes,
    boss_heights,
    boss_table,
    cheeks,
    cheeks_beyond,
    hole_table,
    name_holes,
    past,
    plan_sizes,
    rib_feet,
    side,
)
from shared.drawing.plan import SheetPlan
from shared.drawing.view import View
from shared.profile import Line, Profile

if TYPE_CHECKING:
    from parts.plane.bench.design import BenchDesign
    from parts.plane.run import Run

ALONG, ACROSS, DETAIL, *_ = list(letters("ABC"))
LONG = 400.0  # mm: a longer body may be drawn at half size
Holes = list[tuple[str, str, TappedHole]]


def tapped(size: BodySize) -> Holes:
    """Return every tapped hole with its letter and what it takes."""
    found: Holes = [("H1", "frog hold-down", size.holddown[0]), ("H2", "frog hold-down", size.holddown[1]),
                    ("K", "knob rod", size.knob_boss.hole), ("T", "tote rod", size.tote_boss.hole)]  # fmt: skip
    if size.toe_boss is not None:
        found.append(("S", "tote's toe screw", size.toe_boss.hole))
    return found


def body_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the sheet of the finished body."""
    d = cast("BenchDesign", run.design)
    size, metal = d.body, d.body_alloy
    mass = weighed(run, "body", run.models.body, metal.density_kg_m3)
    plan = new_sheet(run, entry, material=metal.name, mass_kg=mass, tolerance=hand(run),
                     texture="as cast unless marked",
                     finish=finish_of("body", metal, d.shop.heat).box,
                     scales=("1:1",) if size.length < LONG else ("1:1", "1:2"))  # fmt: skip
    front = side(plan, size)
    at = size.holddown[0].x
    front.section_marks((at, size.cheek_height + past(size)), (at, -past(size)), ACROSS, 180.0)
    _plan_view(run, plan, front, size)
    long = section(plan, f"{ALONG}-{ALONG}", sliced(run, "body", run.models.body, "front", (0.0, 0.0, 0.0)),
                   [side_outline(size)], of=front, place="below")  # fmt: skip
    _lengthwise(long, size)
    # drawn at half size a long body's cross section would be too small for its sizes
    where = {"of": front, "place": "right"} if size.length < LONG else {"scale": "1:1"}
    cross = section(plan, f"{ACROSS}-{ACROSS}", sliced(run, "body", run.models.body, "heel", (at, 0.0, 0.0)),
                    cheeks_beyond(size, at), **where)  # type: ignore[arg-type]  # fmt: skip
    _crosswise(cross, size)
    _mouth(plan, d, size)
    hole_table(plan, tapped(size), size.toe_x, d.spec.units)
    boss_table(plan, size, boss_names(size), d.spec.units)
    slot = d.mechanism.frog.holddown_slot[1]
    plan.notes(body_notes(run, size, [
        "Mill both frog pads, the step and the key in one setting, and the mouth's aft wall in the same: they carry "
        "the frog and with it the blade.",
        f"Hold-down holes stand against slots of {size_text(slot, d.spec.units)} in the frog.",
    ]))  # fmt: skip
    return plan


def _plan_view(run: Run, plan: SheetPlan, front: View, size: BodySize) -> None:
    top = plan.view("plan", seen(run, "body", run.models.body, "top"), of=front, place="above")
    top.draw([*cheek_feet(size), *rib_feet(size)], "SMOOTH")
    plan_sizes(top, size, boss_names(size))
    name_holes(top, tapped(size))
    low, high, k, half = size.low_pad, size.high_pad, key(size), size.mouth_half_width
    wall = size.wall_foot_x
    seat = mouth_at(size, low.z)[1]
    front_wall = mouth_front(size, 0.0)
    top.dim_h((size.toe_x, 0.0), (front_wall, half), front_wall - size.toe_x, FRONT_TOL_MM, side="above",
              suffix=" mouth to C")  # fmt: skip
    top.dim_h((size.toe_x, 0.0), (high.x0, high.half_width), high.x0 - size.toe_x, side="above", reference=True,
              suffix=" step to C")  # fmt: skip
    top.dim_h((high.x0, high.half_width), (high.x1, high.half_width), high.x1 - high.x0, side="below")
    top.dim_h((high.x0, k.half), (k.x0, 0.0), k.x0 - high.x0, side="below")
    top.dim_h((k.x0, 0.0), (k.x1, 0.0), k.x1 - k.x0, side="below", suffix=" key")
    # a dimension line would have to stand across the middle line, where a sheet at half size has no room for its text
    across = top.length_row(2 * half, mouth_deviations(2 * half), suffix=" mouth across")
    top.leader((wall, half), [across], toward=120.0)
    top.section_marks((size.toe_x - past(size), 0.0), (size.heel_x + past(size), 0.0), ALONG, 90.0)
    top.leader(((seat + high.x0) / 2, 0.8 * low.half_width),
               [top.frame("parallelism", angle_zone(high.x1 - seat), ["A"], note="low and high pad")], end="dot",
               toward=60.0)  # fmt: skip
    top.surface(((high.x0 + high.x1) / 2, -0.8 * high.half_width), MILLED, note="pads, key", toward=290.0)


def _lengthwise(view: View, size: BodySize) -> None:
    boss_heights(view, size)
    x = size.high_pad.x1
    # half way to what stands next on the plate
    behind = [r.x - r.half_thick for r in ribs_of(size)] + [b.x - b.diameter / 2 for b in size.bosses]
    free = min((at for at in behind if at > x), default=x + 28.0)
    view.dim_v((x, 0.0), (x, size.high_pad.z), size.high_pad.z, SEAT_HEIGHT_TOL, at=(x + free) / 2)
    middle = ((mouth_front(size, 0.0) + size.high_pad.x0) / 2, size.low_pad.z / 2)
    view.detail_mark(middle, _detail_reach(size), DETAIL)


def _crosswise(view: View, size: BodySize) -> None:
    cheeks(view, size)
    k, y = key(size), size.holddown[0].y
    view.dim_h((-k.half, k.z), (k.half, k.z), 2 * k.half, KEY_CLASS, side="above", suffix=" key")
    view.dim_v((k.half, size.high_pad.z), (k.half, k.z), size.key_height, at=0.0 - k.half - 4.0, side="left")
    view.dim_h((-y, size.high_pad.z), (y, size.high_pad.z), 2 * y, side="above", reference=True)
    pad = size.high_pad.half_width
    view.dim_h((-pad, size.high_pad.z), (pad, size.high_pad.z), 2 * pad, side="above", suffix=" pads")


def _detail_reach(size: BodySize) -> float:
    return max(size.high_pad.x0 - mouth_front(size, 0.0), size.high_pad.z) / 2 + 6.0


def _mouth(plan: SheetPlan, d: BenchDesign, size: BodySize) -> None:
    """Add the mouth and the frog's seats at a larger scale, with the blade's edge in its place."""
    s, low, high, bed = size.sole, size.low_pad.z, size.high_pad.z, size.bed_angle
    (f0, w0), (fs, _), (_, seat) = mouth_at(size, 0.0), mouth_at(size, s), mouth_at(size, low)
    step, left, right = size.high_pad.x0, mouth_front(size, s) - 9.0, size.high_pad.x0 + 9.0
    ahead = [(left, 0.0), (f0, 0.0), (fs, s), (left, s)]
    behind = [(right, high), (step, high), (step, low), (seat, low), (w0, 0.0), (right, 0.0)]
    lines = [Line(p, q) for chain in (ahead, behind) for p, q in pairwise(chain)]
    scale = "4:1" if d.spec.units == "inch" else "5:1"
    view = plan.view(f"detail {DETAIL}", lines, label=f"DETAIL {DETAIL}", scale=scale)
    view.hatch(Profile.polygon(ahead)).hatch(Profile.polygon(behind))
    view.draw([Line(ahead[-1], ahead[0]), Line(behind[-1], behind[0])], "SMOOTH")
    view.draw(_blade(d, high + 4.0), "PHANTOM")
    view.dim_h((f0, 0.0), (w0, 0.0), w0 - f0, FRONT_TOL_MM)
    view.dim_h((f0, 0.0), (0.0, 0.0), size.mouth_opening, reference=True, suffix=" to the edge")
    view.dim_h((w0, 0.0), (step, low), step - w0, BED_POSITION_TOL_MM, side="above")
    # the frog rocks by the difference of the pads, not by their height
    view.dim_v((step, low), (right, high), high - low, SEAT_STEP_TOL, side="right")
    view.dim_v((right, 0.0), (step, low), low, reference=True, side="right")
    view.angle((w0, 0.0), (right, 0.0), (seat, low), bed, BED_ANGLE_TOL_DEG)
    view.angle((f0, 0.0), (left, 0.0), (fs, s), size.mouth_front_angle, 0.5)
    view.surface(((fs + f0) / 2, s / 2), MILLED, note="mouth", toward=100.0)


def _blade(d: BenchDesign, high: float) -> list[Line]:
    """Return the blade in its place up to a height [mm]: face, bevel, back (x, z)."""
    b, t = radians(d.spec.bed.angle), d.blade.thickness
    top, heel = high / sin(b), t / tan(radians(d.blade.bevel))

    def at(s: float, q: float) -> tuple[float, float]:
        return s * cos(b) + q * sin(b), s * sin(b) - q * cos(b)

    return [Line(at(0.0, 0.0), at(top, 0.0)), Line(at(0.0, 0.0), at(heel, t)), Line(at(heel, t), at(top, t))]


def body_casting(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the sheet of the raw casting."""
    size = cast("BenchDesign", run.design).body
    return casting_sheet(run, entry, size.holddown[0].x, machined_faces(size), from_solid(size), _cast_pads)


def _cast_pads(views: CastViews, stage: Stage) -> None:
    """Dimension the frog pads as cast: where their sides stand, how high they are, how steep their sides."""
    size = cast(BodySize, stage.size)
    w, raw = stage.walls, -size.cast.sole
    for s in steps(size):
        views.long.dim_h(stage.side(w.x0, raw), stage.side(s.x, s.at), s.x - w.x0,
                         suffix=f" at {size_text(s.at - raw, views.long.unit)} high, "
                         f"{slope_angle(size, s):.0f}°")  # fmt: skip
    middle = (size.high_pad.x0 + size.high_pad.x1) / 2
    low, high = (size.low_pad.x0 + size.high_pad.x0) / 2, low_pad_raw(size)
    views.long.dim_v(stage.side(low, raw), stage.side(low, high), high - raw, at=size.toe_x * 0.12)
    views.long.dim_v(stage.side(middle, raw), stage.side(size.high_pad.x1 - 6.0, high_pad_raw(size)),
                     high_pad_raw(size) - raw, at=size.high_pad.x1 + 12.0)  # fmt: skip
    k = key(size)
    views.cross.dim_v(stage.across(0.0, raw), stage.across(0.0, k.raw_z), k.raw_z - raw, side="right")
    half, first = k.half + k.grown, views.plan.length_row
    views.plan.leader((k.x1 - k.half, -half), ["key, at the raw pad, round ends:",
                      first(k.x1 - k.x0 + 2 * k.grown, suffix=" long"), first(2 * half, suffix=" wide"),
                      first(k.x0 - k.grown - w.x0, suffix=" toe end to its fore end")], toward=240.0)  # fmt: skip
    foot = raised_from_to(size)[0]
    floor_radii(views, stage, high_pad_raw(size), (foot, hollow_radius(size), "the pads' feet"))


def body_pattern(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the sheet of the working pattern."""
    return pattern_sheet(run, entry, cast("BenchDesign", run.design).body.holddown[0].x)


BODY_SHEETS = [
    SheetEntry("body", "Body, finished", "body", ("machine", "assembly"), body_sheet),
    SheetEntry("body-casting", "Body, casting", "body", ("pattern", "foundry", "machine"), body_casting),
    SheetEntry("body-pattern", "Body, pattern", "body", ("pattern",), body_pattern),
]
