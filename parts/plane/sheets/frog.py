"""The sheets of the frog: finished, and casting with pattern."""

from __future__ import annotations

from math import cos, radians, sin, tan
from typing import TYPE_CHECKING, cast

from parts.frog.casting import EDGE
from parts.frog.finished import RECESS_CORNER, SLOT_CORNER
from parts.frog.outline import CORNER, SPOT_DIAMETER, casting_outline, mixed_corner, pocket_outline, raw_floor
from parts.frog.size import PIN_HOLE_CLASS, SLOT_CLASS, WAY_CLASS, FrogSize
from parts.plane.finish import finish_of
from parts.plane.pattern_list import pattern_list
from parts.plane.practice import as_cast_tolerance
from parts.plane.sheets.body_casting import PATTERN_COLUMNS, PATTERN_WIDTHS, pattern_notes, pattern_rows_text
from parts.plane.sheets.common import SheetEntry, cut, new_sheet, seen
from parts.plane.sheets.edge_text import drill_text, edges
from parts.plane.sheets.metal import (
    AS_CAST,
    FLAT_BED,
    MILLED,
    SEAT_STEP_TOL,
    angle_zone,
    hand,
    ra_text,
    section,
    seen_along,
    size_text,
    sliced,
    thread_call,
    weighed,
)
from parts.plane.sheets.rotated import turned_by
from parts.plane.sheets.shapes import limits_mm
from shared.cad.project import View as Sight
from shared.drawing.plan import SheetPlan
from shared.drawing.title import mass_text
from shared.drawing.view import View

if TYPE_CHECKING:
    from parts.plane.bench.design import BenchDesign
    from parts.plane.bench.models import Models
    from parts.plane.run import Run

HOLE_PLACE = 0.1  # mm: holes and spot face from the bed and its foot; common practice, no source


def frog_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the sheet of the finished frog."""
    d, m = cast("BenchDesign", run.design), cast("Models", run.models)
    f, metal = d.mechanism.frog, d.frog_alloy
    mass = weighed(run, "frog", m.frog, metal.density_kg_m3)
    plan = new_sheet(run, entry, material=metal.name, mass_kg=mass, tolerance=hand(run),
                     texture="as cast unless marked",
                     finish=finish_of("frog", metal, d.shop.heat).box, scales=("2:1",))  # fmt: skip
    sight = cut(run, "frog", m.frog, "front", (0.0, 0.0, 0.0))
    side = plan.view("section A-A", sight.projection, faces=sight.faces, label="SECTION A-A")
    _side(side, f)
    foot = plan.view("foot from below", seen(run, "frog", m.frog, "sole"), of=side, place="below",
                     label="FOOT FROM BELOW")  # fmt: skip
    _foot(foot, f)
    b = radians(f.bed_angle)
    square = Sight.along((sin(b), 0.0, -cos(b)), (cos(b), 0.0, sin(b)))
    bed = plan.view("bed", seen_along(run, "frog", m.frog, square), label="BED, SEEN SQUARE")
    _bed(bed, f)
    upright = turned_by(sight, 90.0 - f.bed_angle, (-f.blade_thickness, 0.0))
    level = plan.view("bed upright", upright.projection, faces=upright.faces, of=bed, place="right",
                      label="SECTION A-A, BED UPRIGHT")  # fmt: skip
    first = d.spec.units
    _upright(level, f, first)
    post, screw = d.hardware.depth.thread, d.hardware.cap_screw.thread
    plan.table(["hole", "place", "drill Ø", "full Ø deep", "thread", "full thread", "axis"], [
        ["depth post", f"{size_text(f.post_h, first)} below the bed, on the middle",
         drill_text(f.post_tap_drill, first), size_text(f.post_tap_depth, first), thread_call(post.name),
         size_text(f.post_tap_depth - post.pitch, first), "along the bed, from the spot face"],
        ["lever-cap screw", f"{size_text(f.cap_screw_at - f.bed_foot, first)} up the bed, on the middle",
         drill_text(f.cap_screw_tap_drill, first), size_text(f.cap_screw_depth, first), thread_call(screw.name),
         size_text(f.cap_screw_depth - screw.pitch, first), "square to the bed; depths from its lands"],
    ], title="Tapped holes: blind, drill point 118° below the full Ø; bottoming tap")  # fmt: skip
    plan.notes([
        "Datum A: high seat. B: step between the seats. C: middle of the way. The bed's foot is its sharp corner with "
        "the low seat.",
        "Mill the foot first: both seats, step and way in one setting; then clamp on the seats and mill the bed.",
        "Seats and lands: no rock on a surface plate. The slots let it slide "
        f"{size_text(f.travel, first)} each way; aft of the mouth's aft wall the blade would lie on that wall.",
        "Pin holes: reamed for m6 dowel pins, light drive fit. Surfaces without a texture sign stay as cast.",
        f"Break edges {edges(first)}; the foot of the bed stays sharp, burr off.",
        "Caution: the bed's foot is a sharp edge; clamp on the seats, never on the bed's upper end.",
    ])  # fmt: skip
    return plan


def _side(view: View, f: FrogSize) -> None:
    foot, top = f.bed_point(f.bed_foot), f.bed_point(f.bed_top)
    step, aft = f.high_from, f.aft
    view.dim_h(foot, (step, f.low_z), step - foot[0])
    view.dim_h(foot, (aft, f.high_z), aft - foot[0])
    view.dim_v((step, f.low_z), (step, f.high_z), f.high_z - f.low_z, SEAT_STEP_TOL, side="right")
    view.dim_v((aft, f.high_z), top, top[1] - f.high_z, side="right", reference=True)
    view.angle(foot, (step, f.low_z), top, f.bed_angle, basic=True)
    length = f.bed_top - f.bed_foot
    at = f.bed_point(f.bed_top - 0.4 * (f.bed_top - f.relief[1]))
    view.leader(at, [view.frame("angularity", angle_zone(length), ["A"]), view.frame("flatness", FLAT_BED)],
                toward=135.0)  # fmt: skip
    view.surface(f.bed_point(f.bed_foot + 6.0), MILLED, note="lands", toward=160.0)
    view.datum("A", ((f.holddown_at + aft) / 2 + 4.0, f.high_z), toward=270.0)
    view.datum("B", (step, (f.low_z + f.high_z) / 2), toward=0.0)
    view.surface((aft - 3.0, f.high_z), MILLED, note="seats, way", toward=300.0)
    view.tolerance_frame((foot[0] + 4.0, f.low_z), "parallelism", SEAT_STEP_TOL, ["A"], toward=250.0)


def _upright(view: View, f: FrogSize, first: str) -> None:
    """Dimension what counts from the bed and its foot: the section with the bed upright (h, s)."""
    low, h, s = f.bed_foot, f.yoke_pivot_h, f.yoke_at
    view.dim_v((0.0, low), (h, s), s - low, HOLE_PLACE, side="right")
    view.dim_v((0.0, low), (f.post_h + SPOT_DIAMETER / 2, f.rear_at), f.rear_at - low, HOLE_PLACE, side="right",
               suffix=" spot face")  # fmt: skip
    view.dim_h((0.0, f.bed_top), (h, s), h, HOLE_PLACE, side="above")
    end = f.bed_top + 2.0
    view.centre_line((f.post_h, f.rear_at - f.post_tap_depth - 4.0), (f.post_h, end))
    view.centre_line((-3.0, f.cap_screw_at), (f.cap_screw_depth + 4.0, f.cap_screw_at))
    view.centre_line((-3.0, f.lateral_at), (f.bed_plate + 3.0, f.lateral_at))
    view.centre_marks([((h, s), f.yoke_pin / 2)])
    view.dim_h((0.0, f.bed_top), (f.post_h, end), f.post_h, HOLE_PLACE, side="above")
    view.dim_h((0.0, f.bed_top), (f.bed_plate, f.bed_top - 6.0), f.bed_plate, side="above", suffix=" as cast")
    view.diameter((h, s), (h + f.yoke_pin / 2, s), f.yoke_pin, PIN_HOLE_CLASS, more=[
        "yoke pin, from the right side:", f"full Ø to {size_text(f.yoke_pin_to, first)} past the middle"])  # fmt: skip
    view.leader((f.relief_depth, (f.relief[0] + f.cap_screw_at) / 2), [view.length_row(f.relief_depth,
                suffix=" relief")], toward=180.0)  # fmt: skip
    view.leader((f.lateral_recess[2], (f.lateral_at + f.bed_top) / 2 + 0.5), [view.length_row(f.lateral_recess[2],
                suffix=" recess")], toward=160.0)  # fmt: skip
    view.leader((f.post_h + SPOT_DIAMETER / 2 - 0.8, f.rear_at), [view.length_row(SPOT_DIAMETER, prefix="spot face Ø")],
                toward=30.0)  # fmt: skip


def _foot(view: View, f: FrogSize) -> None:
    """Dimension the foot seen from below (x, −y)."""
    length, width = f.holddown_slot
    x, y, reach = f.holddown_at, f.holddown_y, (f.holddown_slot[0] - f.holddown_slot[1]) / 2
    view.dim_h((f.high_from, y), (x, y), x - f.high_from)
    view.dim_h((x - length / 2, y), (x + length / 2, y), length, prefix="2× ", suffix=" slot")
    view.dim_v((x, -y), (x, y), 2 * y, side="right")
    view.radius((x + reach, y), (x + reach + width / 2 * cos(radians(45)), y + width / 2 * sin(radians(45))), width / 2,
                prefix="4× ")  # fmt: skip
    view.dim_v((x, y - width / 2), (x, y + width / 2), width, limits_mm(width, SLOT_CLASS), side="left",
               prefix="2× ", suffix=" wide")  # fmt: skip
    k, out = f.key_half, f.bed_point(f.bed_top, f.bed_plate)[0] + 7.0
    view.dim_v((f.aft, -k), (f.aft, k), 2 * k, WAY_CLASS, at=out, suffix=" way")
    view.datum("C", (out, k), toward=90.0)
    view.dim_h((f.high_from - k, 0.0), (f.high_from, f.half_width), k, side="above", suffix=" way's round end")
    view.leader((f.high_from + 0.6 * (f.aft - f.high_from), 0.5 * k),
                [view.length_row(f.key_depth, (0.2, 0.0), suffix=" deep")], end="dot", toward=300.0)  # fmt: skip
    view.dim_v((f.high_from, -f.half_width), (f.high_from, f.half_width), 2 * f.half_width, side="left")
    view.centre_marks([((x, s * y), width / 2) for s in (-1.0, 1.0)])
    x0 = f.bed_point(f.bed_foot)[0]
    view.section_marks((x0 - 8.0, 0.0), (f.aft + 10.0, 0.0), "A", 270.0)
    view.leader((x, -y), [view.frame("position", 0.2, ["A", "B", "C"], note="both slots")], end="dot", toward=80.0)


def _bed(view: View, f: FrogSize) -> None:
    """Dimension the bed seen square to it (−y, s)."""
    low, half = f.bed_foot, f.half_width
    s0, s1, slot = f.yoke_slot
    r0, recess, _ = f.lateral_recess
    for s in (*f.relief, f.bed_top):
        view.dim_v((-half, low), (-half, s), s - low, side="left")
    view.dim_v((half, low), (slot, s0), s0 - low, side="right")
    view.dim_v((half, low), (0.0, f.cap_screw_at), f.cap_screw_at - low, side="right")
    view.dim_v((half, low), (0.0, f.lateral_at), f.lateral_at - low, side="right")
    view.dim_v((half, low), (recess, r0), r0 - low, side="right")
    view.dim_h((-slot, s0), (slot, s0), 2 * slot, side="above")
    view.dim_v((slot, s0), (slot, s1), s1 - s0, at=slot + 5.0)
    view.dim_h((-recess, f.bed_top), (recess, f.bed_top), 2 * recess, side="above", suffix=" recess")
    c = RECESS_CORNER * (1.0 - 0.5**0.5)
    view.leader((-recess + c, r0 + c), [view.length_row(RECESS_CORNER, prefix="2× R")], toward=200.0)
    c = SLOT_CORNER * (1.0 - 0.5**0.5)
    view.leader((-slot + c, s0 + c), [view.length_row(SLOT_CORNER, prefix="4× R"), "slot through the plate"],
                toward=210.0)  # fmt: skip
    r = f.lateral_pin / 2
    view.diameter((0.0, f.lateral_at), (r, f.lateral_at), f.lateral_pin, PIN_HOLE_CLASS, suffix=" THRU",
                  more=["lateral lever's pivot"])  # fmt: skip
    tap = f.cap_screw_tap_drill / 2
    view.centre_marks([((0.0, f.lateral_at), r), ((0.0, f.cap_screw_at), tap)])
    view.leader((tap, f.cap_screw_at), "lever-cap screw", toward=20.0)
    length, width = f.access
    view.leader((-f.holddown_y, (f.relief[0] + f.relief[1]) / 2 - 2.0),
                ["over each hold-down slot, square to the foot:", view.length_row(length, suffix=" long"),
                 view.length_row(width, suffix=" wide, round ends"),
                 view.length_row(f.floor, suffix=" floor left over the high seat")],
                end="dot", toward=200.0)  # fmt: skip
    view.centre_line((0.0, low - 3.0), (0.0, f.bed_top + 3.0))


def frog_casting(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the sheet of the frog's casting, with its pattern maker's list."""
    d, m = cast("BenchDesign", run.design), cast("Models", run.models)
    f, metal, shop = d.mechanism.frog, d.frog_alloy, d.shop.casting
    first, part = d.spec.units, next(p for p in pattern_list(d) if p.part == "frog")
    mass = weighed(run, "frog casting", m.frog_casting, metal.density_kg_m3)
    plan = new_sheet(run, entry, material=metal.name, mass_kg=mass, kind="Casting and pattern drawing",
                     tolerance=as_cast_tolerance(d.shop),
                     texture=f"{ra_text(AS_CAST, d.spec.units)}, as cast")  # fmt: skip
    outline, pocket = casting_outline(f), pocket_outline(f)
    lines = [outline] if pocket is None else [outline, pocket]
    side = plan.view("side", lines)
    side.draw([o for face in sliced(run, "frog", m.frog, "front", (0.0, 0.0, 0.0)) for o in (face.outer,)], "PHANTOM")
    _casting_side(side, f)
    at = (f.high_from + f.aft) / 2
    side.section_marks((at, outline.bounds[3] + 8.0), (at, outline.bounds[1] - 8.0), "A", 180.0)
    cross = section(plan, "A-A", sliced(run, "frog casting", m.frog_casting, "heel", (at, 0.0, 0.0)), of=side,
                    place="right")  # fmt: skip
    _casting_cross(cross, f, m.frog_casting.BoundingBox().zmin)
    plan.table(["face", "stock", "machined by"], [
        ["low seat, high seat, step", size_text(f.stock, first), "mill, one setting, with the way"],
        ["bed", size_text(f.stock, first), "mill, clamped on the seats"],
        ["rear face, at the spot face's edge", size_text(f.stock, first), "spot-face round the depth post"],
        ["washers' floors, where a pocket is", size_text(f.stock, first), "cutter of the openings above them"],
    ], title="Stock at the frog's sides; the draft adds the crown at the parting plane")  # fmt: skip
    plan.table(PATTERN_COLUMNS, pattern_rows_text(part, first), "Pattern maker's list: frog", PATTERN_WIDTHS)
    crown, edge = f.half_width * tan(radians(f.draft)), min(EDGE, mixed_corner(f) - 0.1)
    finished = weighed(run, "frog", m.frog, metal.density_kg_m3)
    plan.notes([
        f"Drawn along the width from the middle plane (parting): draft {f.draft:g}° both ways; its crown of "
        f"{size_text(crown, first)} at the parting plane is in the outline drawn.",
        f"Required machining allowance RMA {size_text(f.required, first)}, grade {shop.machining_grade} (ISO 8062-3).",
        f"Pockets: walls at their least at the frog's sides: {size_text(f.bed_wall, first)} under the finished bed, "
        f"{size_text(raw_floor(f) - f.high_z, first)} over the high seat (its stock in it), "
        f"{size_text(f.rear_wall, first)} to rear face and aft end; corners "
        f"R {size_text(f.root_radius, first)} at the web.",
        f"Outside corners R {size_text(CORNER, first)}, hollows R {size_text(f.root_radius, first)} at the sides; by "
        f"the draft's crown larger at the parting plane. Edges at the sides R {size_text(edge, first)}.",
        "Cast solid: hold-down slots and their openings, way, yoke slot, recess, every hole.",
        "Phantom lines: the finished frog cut on the middle plane.",
        f"Casting {mass_text(mass, first)}, finished {mass_text(finished, first)}.",
        *pattern_notes(run, part),
    ])  # fmt: skip
    return plan


def _casting_side(view: View, f: FrogSize) -> None:
    outline = casting_outline(f)
    x0, z0, x1, z1 = outline.bounds
    # the list's sizes are to the corners without their radii
    view.dim_h((x0, z0), (x1, z0), x1 - x0, suffix=" over the radii")
    view.dim_v((x1, z0), (x1, z1), z1 - z0, side="right", suffix=" over the radii")
    view.angle(*_bed_corner(f), f.bed_angle, basic=True)
    if pocket_outline(f) is not None:
        px, pz = pocket_outline(f).centroid  # type: ignore[union-attr]
        view.leader((px, pz), "pocket, both sides", end="dot", toward=20.0)


def _bed_corner(f: FrogSize) -> tuple[tuple[float, float], tuple[float, float], tuple[float, float]]:
    foot = f.bed_point(f.bed_foot)
    return foot, (foot[0] + 20.0, foot[1]), f.bed_point(f.bed_foot + 20.0)


def _casting_cross(view: View, f: FrogSize, low: float) -> None:
    z = f.high_z + f.floor + 6.0
    view.dim_h((-f.half_width, low), (f.half_width, low), 2 * f.half_width)
    view.dim_h((-f.web_half, z), (f.web_half, z), 2 * f.web_half, side="above", suffix=" web")


FROG_SHEETS = [
    SheetEntry("frog", "Frog, finished", "frog", ("machine", "assembly"), frog_sheet),
    SheetEntry("frog-casting", "Frog, casting and pattern", "frog", ("pattern", "foundry", "machine"), frog_casting),
]
