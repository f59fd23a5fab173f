"""The sheets of a low-angle plane's body: finished, casting, pattern."""

from __future__ import annotations

from itertools import pairwise
from math import cos, radians, sin
from typing import TYPE_CHECKING, cast

from parts.blade.bedding_numbers import BED_ANGLE_TOL_DEG, BED_POSITION_TOL_MM, FRONT_TOL_MM, mouth_deviations
from parts.body.low_angle.block import STUD_ROOM, block_middle, pocket, throat
from parts.body.low_angle.floor import foot_reach, hollow_radius, raw_bed_z, sides
from parts.body.low_angle.machined_faces import boss_names, from_solid, machined_faces
from parts.body.low_angle.outline import mouth_outline
from parts.body.low_angle.size import LEDGE_TOL, POCKET_LENGTH_TOL, POCKET_TOL, LowBodySize
from parts.body.size import TappedHole
from parts.body.views import cheek_feet, plan_outline, side_outline
from parts.plane.finish import finish_of
from parts.plane.sheets.body_casting import casting_sheet, floor_radii, pattern_sheet
from parts.plane.sheets.cast_body import CastViews, Stage
from parts.plane.sheets.common import SheetEntry, letters, new_sheet, seen
from parts.plane.sheets.metal import (
    FLAT_BED,
    MILLED,
    SEAT_HEIGHT_TOL,
    angle_zone,
    hand,
    section,
    size_text,
    sliced,
    thread_call,
    thread_named,
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
from shared.drawing.content import Row
from shared.drawing.plan import SheetPlan
from shared.drawing.primitives import Ellipse
from shared.drawing.view import View
from shared.profile import Line, Profile

if TYPE_CHECKING:
    from parts.plane.low_angle.design import LowAngleDesign
    from parts.plane.run import Run


ALONG, ACROSS, DETAIL, WAY, *_ = list(letters("ABC"))


def tapped(size: LowBodySize) -> list[tuple[str, str, TappedHole]]:
    """Return every tapped hole with its letter and what it takes."""
    found = [("L", "lever-cap stud", size.stud)]
    for letter, what, boss in (("K", "knob rod", size.knob_boss), ("T", "tote rod", size.tote_boss),
                               ("S", "tote's toe screw", size.toe_boss)):  # fmt: skip
        if boss is not None:
            found.append((letter, what, boss.hole))
    return found


def bridge_at(size: LowBodySize) -> float:
    """Return x of the cross section through the bridge [mm]."""
    return (size.bridge.x0 + size.bridge.x1) / 2


def low_body_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the sheet of the finished body."""
    d = cast("LowAngleDesign", run.design)
    size, metal, body, first = d.body, d.body_alloy, run.models.body, d.spec.units
    mass = weighed(run, "body", body, metal.density_kg_m3)
    plan = new_sheet(run, entry, material=metal.name, mass_kg=mass, tolerance=hand(run),
                     texture="as cast unless marked",
                     finish=finish_of("body", metal, d.shop.heat).box, scales=("1:1", "1:2"))  # fmt: skip
    front, at = side(plan, size), bridge_at(size)
    front.section_marks((at, size.cheek_height + past(size)), (at, -past(size)), ACROSS, 180.0)
    _grip(front, size)
    _plan_view(run, plan, front, size)
    long = section(plan, f"{ALONG}-{ALONG}", sliced(run, "body", body, "front", (0.0, 0.0, 0.0)),
                   [side_outline(size)], of=front, place="below")  # fmt: skip
    _lengthwise(long, size)
    cross = section(plan, f"{ACROSS}-{ACROSS}", sliced(run, "body", body, "heel", (at, 0.0, 0.0)),
                    cheeks_beyond(size, at), of=front, place="right")  # fmt: skip
    cheeks(cross, size)
    half = size.mouth_half_width
    # with a toe piece its pocket is the mouth, and its limits stand there
    off = mouth_deviations(2 * half) if size.toe_way is None else None
    cross.dim_h((-half, size.bed_z(at)), (half, size.bed_z(at)), 2 * half, off, side="above",
                suffix=" bed and mouth" if off else " bed")  # fmt: skip
    _mouth(plan, size, first)
    if size.toe_way is not None:
        _toe_way(run, plan, front, size)
    hole_table(plan, tapped(size), size.toe_x, first)
    boss_table(plan, size, boss_names(size), first)
    plan.notes(body_notes(run, size, _bed_notes(size, first)))
    return plan


def _bed_notes(size: LowBodySize, first: str) -> list[str]:
    lines = [
        "Mill both lands of the bed and the mouth in one setting, the body held at the bed angle; the bed's plane "
        "passes through the edge, on the sole's face.",
        f"Upright land behind the mouth {size_text(size.feather, first)}: leave it, a feather would break.",
    ]
    for bore in size.bores:
        deep, call = bore.s_to - bore.s_from, ""
        if bore.thread:
            call = f", tap {thread_call(bore.thread)}, full thread to "
            call += size_text(deep - thread_named(bore.thread).pitch, first)
        lines.append(
            f"Bore for the depth adjuster: along the bed in the middle, axis {size_text(bore.below, first)} below the "
            f"bed, Ø {size_text(bore.diameter, first)}, {size_text(deep, first)} deep from the "
            f"bridge's aft end{call}."
        )
    for g in size.grooves:
        lines.append(
            f"Groove in the bed from {size_text(g.s_from, first)} to {size_text(g.s_to, first)} up the bed, "
            f"{size_text(2 * g.half_width, first)} wide, {size_text(g.depth, first)} deep."
        )
    return lines


def _grip(view: View, size: LowBodySize) -> None:
    g = size.grip
    if g is None:
        return
    view.draw([Ellipse((g.x, g.z), (g.length / 2, 0.0), g.height / g.length)], "SMOOTH")
    view.centre_marks([((g.x, g.z), 3.0)])
    view.leader((g.x, g.z), ["hollow for thumb and finger, both sides:", view.length_row(g.length, suffix=" long"),
                             view.length_row(g.height, suffix=" high"), view.length_row(g.depth, suffix=" deep"),
                             view.length_row(g.x - size.toe_x, suffix=" from C"),
                             view.length_row(g.z, suffix=" above A")], end="dot", toward=20.0)  # fmt: skip


def _plan_view(run: Run, plan: SheetPlan, front: View, size: LowBodySize) -> None:
    top = plan.view("plan", seen(run, "body", run.models.body, "top"), of=front, place="above")
    top.draw([*cheek_feet(size), *rib_feet(size)], "SMOOTH")
    plan_sizes(top, size, boss_names(size))
    name_holes(top, tapped(size))
    half, well = size.mouth_half_width, size.wheel_well
    top.dim_h((size.toe_x, 0.0), (size.bed_from, half), size.bed_from - size.toe_x, BED_POSITION_TOL_MM, side="above",
              suffix=" to C")  # fmt: skip
    for x in (size.ramp_to, size.bridge.x0, size.bridge.x1):
        top.dim_h((size.bed_from, half), (x, half), x - size.bed_from, side="above")
    top.section_marks((size.toe_x - past(size), 0.0), (size.heel_x + past(size), 0.0), ALONG, 90.0)
    land = (size.bed_from + size.ramp_to) / 2
    zone = angle_zone((size.bridge.x1 - size.bed_from) / cos(radians(size.bed_angle)), 1)
    top.leader((land, -0.7 * half), [top.frame("flatness", FLAT_BED, note="both lands, in one plane"),
                                     top.frame("angularity", zone, ["A"])], end="dot", toward=290.0)  # fmt: skip
    top.surface((bridge_at(size), -0.7 * half), MILLED, note="bed", toward=300.0)
    if well is not None:
        top.leader((well.x1 - 2.0, -0.6 * well.half_width),
                   ["wheel well:", top.length_row(well.x0 - size.toe_x, suffix=" from C"),
                    top.length_row(well.x1 - well.x0, suffix=" long"),
                    top.length_row(2 * well.half_width, suffix=" wide"),
                    top.length_row(well.z, suffix=" above A")], end="dot", toward=320.0)  # fmt: skip


def _lengthwise(view: View, size: LowBodySize) -> None:
    boss_heights(view, size)
    x = size.bridge.x1
    view.dim_v((x, 0.0), (x, size.bed_z(x)), size.bed_z(x), at=x + 10.0, reference=True)
    view.detail_mark(((throat(size, 0.0) + size.bed_from) / 2, size.sole / 3), 9.0, DETAIL)


def _mouth(plan: SheetPlan, size: LowBodySize, first: str) -> None:
    """Add the mouth and the front land's lower end at a larger scale (x, z), the blade's edge as phantom."""
    s, b, f = size.sole, radians(size.bed_angle), size.bed_from
    right = f + 14.0
    way = size.toe_way
    low = 0.0 if way is None else way.ledge_z
    left = throat(size, s) - 6.0
    ahead = [(left, low), (throat(size, low), low), (throat(size, s), s), (left, s)]
    behind = [(right, size.bed_z(right)), (f, size.feather), (f, 0.0), (right, 0.0)]
    lines = [Line(p, q) for chain in (ahead, behind) for p, q in pairwise(chain)]
    view = plan.view(f"detail {DETAIL}", lines, label=f"DETAIL {DETAIL}", scale="4:1" if first == "inch" else "5:1")
    view.hatch(Profile.polygon(ahead)).hatch(Profile.polygon(behind))
    view.draw([Line(ahead[-1], ahead[0]), Line(behind[-1], behind[0])], "SMOOTH")
    top = 22.0
    view.draw([Line((0.0, 0.0), (f, size.feather)), Line((right, size.bed_z(right)), (top * cos(b), top * sin(b)))],
              "PHANTOM")  # fmt: skip
    view.dim_v((f, 0.0), (f, size.feather), size.feather, (0.1, 0.0), side="right")
    view.dim_h((0.0, 0.0), (f, 0.0), f, reference=True, suffix=" edge to wall")
    view.angle((0.0, 0.0), (20.0, 0.0), (20.0 * cos(b), 20.0 * sin(b)), size.bed_angle, BED_ANGLE_TOL_DEG)
    lean = ((throat(size, low), low), (left, low), (throat(size, s), s))
    view.angle(*lean, size.mouth_front_angle, 0.5)
    if way is None:
        view.dim_h((throat(size, 0.0), 0.0), (f, 0.0), f - throat(size, 0.0), FRONT_TOL_MM)
        view.dim_h((throat(size, 0.0), 0.0), (0.0, 0.0), size.mouth_opening, reference=True, suffix=" to the edge")
    else:
        view.draw([Line((left, 0.0), (f, 0.0))], "PHANTOM")
        view.dim_h((throat(size, low), low), (f, 0.0), f - throat(size, low), FRONT_TOL_MM)
        view.dim_v((left, 0.0), (left, low), low, side="left", suffix=" ledge", reference=True)
    view.surface(((f + right) / 2, size.bed_z((f + right) / 2)), MILLED, note="bed", toward=110.0)


def _toe_way(run: Run, plan: SheetPlan, front: View, size: LowBodySize) -> None:
    """Add the sole from below (x, −y) and a cross section through the toe piece's way (y, z)."""
    way = size.toe_way
    assert way is not None
    mouth, hollow, half = mouth_outline(size), pocket(size, way), size.mouth_half_width
    sole = plan.view("sole from below", [plan_outline(size), mouth, hollow], label="SOLE FROM BELOW, TOE PIECE OUT")
    sole.dim_h((way.toe_end, half), (size.bed_from, half), size.bed_from - way.toe_end, POCKET_LENGTH_TOL, side="above")
    sole.dim_v((size.toe_x, -half), (size.toe_x, half), 2 * half, POCKET_TOL, side="left")
    corner = (way.toe_end + way.corner, half - way.corner)
    sole.radius(corner, (corner[0] - way.corner * 0.5**0.5, corner[1] + way.corner * 0.5**0.5), way.corner,
                prefix="2× ")  # fmt: skip
    x0, _, x1, _ = hollow.bounds
    sole.dim_h((x0, 0.0), (x1, 0.0), x1 - x0, suffix=" boss's pocket")
    sole.dim_h((x1, 0.0), (size.bed_from, -half), size.bed_from - x1)
    sole.radius((x1 - way.boss_radius, 0.0), (x1 - way.boss_radius * (1 - 0.5**0.5), way.boss_radius * 0.5**0.5),
                way.boss_radius, prefix="2× ")  # fmt: skip
    at = way.boss_x
    front.section_marks((at, size.cheek_height + past(size)), (at, -past(size)), WAY, 180.0)
    cut = sliced(run, "body", run.models.body, "heel", (at, 0.0, 0.0))
    cross = section(plan, f"{WAY}-{WAY}", cut)
    r, slot = way.boss_radius, way.stud_slot / 2
    cross.dim_v((half, 0.0), (half, way.ledge_z), way.ledge_z, LEDGE_TOL, side="right", suffix=" ledge")
    cross.dim_v((-r, 0.0), (-r, way.boss_z), way.boss_z, side="left")
    cross.dim_v((r + way.block_wall, 0.0), (r + way.block_wall, way.block_z), way.block_z, SEAT_HEIGHT_TOL,
                side="left")  # fmt: skip
    cross.dim_h((-r, way.ledge_z), (r, way.ledge_z), 2 * r, (0.1, 0.0), suffix=" pocket")
    cross.dim_h((-slot, way.block_z), (slot, way.block_z), 2 * slot, side="above", suffix=" slot")
    span = way.travel + 2 * STUD_ROOM + 2 * slot
    rows: list[str | Row] = [cross.length_row(span, suffix=" long, round ends,"), "in the middle of the pocket"]
    cross.leader((slot, (way.boss_z + way.block_z) / 2), rows, toward=30.0)
    cross.tolerance_frame((half - 2.0, way.ledge_z), "parallelism", 0.02, ["A"], note="ledges", toward=320.0)
    cross.surface((r + 1.0, way.block_z), MILLED, note="block", toward=60.0)
    cross.surface((2.0 - half, way.ledge_z), MILLED, note="ledges", toward=220.0)


def low_body_casting(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the sheet of the raw casting."""
    size = cast("LowAngleDesign", run.design).body
    return casting_sheet(run, entry, bridge_at(size), machined_faces(size), from_solid(size), _cast_bed)


def _cast_bed(views: CastViews, stage: Stage) -> None:
    """Dimension land, bridge and block as cast: where their sides stand and how high they are."""
    size = cast(LowBodySize, stage.size)
    w, raw = stage.walls, -size.cast.sole
    for s in sides(size):
        views.long.dim_h(stage.side(w.x0, raw), stage.side(s.x, s.bed_z), s.x - w.x0,
                         suffix=f" at {size_text(s.bed_z - raw, views.long.unit)} high, {s.angle:.0f}°")  # fmt: skip
    at = bridge_at(size)
    top = raw_bed_z(size, at)
    views.cross.dim_v(stage.across(0.0, raw), stage.across(0.0, top), top - raw, side="right", suffix=" in the middle")
    b, start = radians(size.bed_angle), size.bridge.x0
    vertex = (0.0, size.cast.pad / cos(b))
    views.long.angle(vertex, (start, vertex[1]), (start * cos(b), vertex[1] + start * sin(b)), size.bed_angle,
                     basic=True)  # fmt: skip
    way = size.toe_way
    if way is not None:
        high, wide, middle = way.block_z + size.cast.boss, way.boss_radius + way.block_wall, block_middle(size, way)
        shape = pocket(size, way, way.block_wall).bounds
        views.long.dim_v(stage.side(shape[0], raw), stage.side(way.boss_x, high), high - raw, at=shape[0] - 8.0)
        rows: list[str | Row] = ["bridge block, at its finished top:",
                views.plan.length_row(shape[2] - shape[0], suffix=" long"),
                views.plan.length_row(2 * wide, suffix=" wide, round ends"),
                views.plan.length_row(middle - w.x0, suffix=" toe end to its middle")]  # fmt: skip
        views.plan.leader((middle, wide), rows, toward=60.0)
    x = foot_reach(size, sides(size)[1])
    floor_radii(views, stage, top, (x, hollow_radius(size), "the feet of land and bridge"))


def low_body_pattern(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the sheet of the working pattern."""
    return pattern_sheet(run, entry, bridge_at(cast("LowAngleDesign", run.design).body))


LOW_BODY_SHEETS = [
    SheetEntry("body", "Body, finished", "body", ("machine", "assembly"), low_body_sheet),
    SheetEntry("body-casting", "Body, casting", "body", ("pattern", "foundry", "machine"), low_body_casting),
    SheetEntry("body-pattern", "Body, pattern", "body", ("pattern",), low_body_pattern),
]
