"""The low-angle plane's own parts: lever cap with casting sizes, stud and clamp, depth adjuster, rods and nuts."""

from __future__ import annotations

from math import acos, degrees, pi
from typing import TYPE_CHECKING

from parts.hardware.size import Screw
from parts.low_angle import outline
from parts.low_angle.cap import ARRIS
from parts.low_angle.size import FOOT_BORE_TOL, KEYHOLE_TOL, TIP_TOL, AdjusterSize, LowCapSize
from parts.low_angle.solid import EDGES, FLUTES, RECESS, sleeve_fillet, wheel_section
from parts.plane.finish import finish_of
from parts.plane.practice import as_cast_tolerance
from parts.plane.sheets.body_casting import cast_sizes
from parts.plane.sheets.common import MEDIUM, SheetEntry, new_sheet
from parts.plane.sheets.edge_text import as_cast_note, drill_text
from parts.plane.sheets.metal import MILLED, size_text
from parts.plane.sheets.shapes import (
    mass,
    on_bed_cut,
    on_bed_seen,
    piece,
    root_lines,
    texture_text,
    thread_call,
    turned,
    turned_section,
)
from parts.plane.sheets.small_parts import BRASS, STEEL, screws_sheet_of
from parts.plane.sheets.turned_views import post_view, screw_view
from shared.drawing.plan import SheetPlan
from shared.drawing.primitives import Line
from shared.drawing.title import mass_text
from shared.drawing.view import View
from shared.profile import Arc, Profile
from shared.segments import polar

if TYPE_CHECKING:
    from parts.plane.run import Run

PLACE = 0.1  # of holes and seats; common practice, no source


def _cap(run: Run) -> LowCapSize:
    found: LowCapSize = run.design.lever_cap  # type: ignore[attr-defined]
    return found


def cap_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the finished lever cap, its casting sizes beside."""
    size, d = _cap(run), run.design
    plan = new_sheet(run, entry, material=d.cap_alloy.name, mass_kg=mass(run, "lever_cap", "lever cap"),
                     tolerance=f"machined: {MEDIUM}; as cast: {as_cast_tolerance(d.shop)}",
                     texture=texture_text(MILLED, d.spec.units),
                     finish=finish_of("lever cap", d.cap_alloy, d.shop.heat).box,
                     scales=("2:1", "1:1"))  # fmt: skip
    solid = piece(run, "lever_cap", "lever cap").solid
    top = plan.view("top", on_bed_seen(run, "lever cap", solid, "face"))
    cut = on_bed_cut(run, "lever cap", solid)
    view = plan.view("A-A", cut.projection, faces=cut.faces, of=top, place="below", label="SECTION A-A")
    _cap_plan(top, size)
    _cap_section(view, size)
    cast_sizes(plan, run, "lever cap")
    plan.notes([
        "Datum A is the milled nose land. Lengths along the cap count from the land's front corner. Machine nose land "
        "and front first, then head seat, keyhole and the clamp's thread from them in one setting.",
        f"Break machined arrises {size_text(ARRIS, d.spec.units)}; the cap lies in the palm: no edge may be felt.",
        as_cast_note("lever cap", size.outside_draft, "the level underside of the plate"),
    ])  # fmt: skip
    return plan


def _cap_plan(view: View, size: LowCapSize) -> None:
    start, corner = size.land[0], (size.land[0], -size.width / 2)
    view.centre_line((start - 6.0, 0.0), (size.tail + 6.0, 0.0))
    view.section_marks((start - 14.0, 0.0), (size.tail + 14.0, 0.0), "A", 90.0)
    hole = size.stud.at - size.slide
    for s in (hole, size.stud.at, size.clamp.at):
        view.dim_h(corner, (s, 0.0), s - start, PLACE, side="above")
    view.dim_h(corner, (size.tail, 0.0), size.tail - start, reference=True, side="below", suffix=" as cast")
    half = size.width / 2
    view.dim_v((size.nose_at, -half), (size.nose_at, half), size.width, reference=True, side="left", suffix=" as cast")
    r = size.head_pass / 2
    view.leader((hole - r * 0.6, r * 0.8), ["keyhole", view.length_row(size.head_pass, (0.2, 0.0), prefix="Ø",
                suffix=" THRU"), view.length_row(size.shank_slot, KEYHOLE_TOL, prefix="slot ", suffix=" wide THRU")],
                toward=130.0)  # fmt: skip
    seat = (size.stud.head_diameter + 1.4) / 2
    view.leader((size.stud.at - size.slide * 0.5, -seat), ["head seat", view.length_row(2 * seat, 0.1,
                suffix=" wide, round ends")], toward=-120.0)  # fmt: skip
    tap = size.clamp.thread.tap_drill / 2
    view.draw([Profile.circle((size.clamp.at, 0.0), size.clamp.thread.major / 2)], "SMOOTH")
    view.centre_marks([((size.clamp.at, 0.0), size.clamp.thread.major / 2)])
    view.leader((size.clamp.at + tap * 0.7, -tap * 0.7), [f"{thread_call(size.clamp.thread, inside=True)} THRU",
                f"tap drill Ø{drill_text(2 * tap, view.unit)}", view.frame("perpendicularity", 0.05, ["A"])],
                toward=-40.0)  # fmt: skip


def _cap_section(view: View, size: LowCapSize) -> None:
    q, land = size.blade_top, (size.land[0] + 1.0, size.blade_top)
    view.datum("A", (size.land[0] + 2.0, q), toward=-90.0)
    view.dim_v(land, (size.stud.at - size.slide, size.head_q), size.head_q - q, 0.05, side="left")
    view.dim_v(land, (size.tail - 2.0, size.underside_q), size.underside_q - q, reference=True, side="right",
               suffix=" as cast")  # fmt: skip
    view.dim_h((size.land[0], q), (size.land[1], q), size.land[1] - size.land[0])
    view.angle(
        (size.land[0], q), (outline.front_at(size, q + 2.0), q + 2.0), (size.land[0] + 3.0, q), outline.FRONT, 1.0
    )
    view.surface((size.land[0] + 2.6, q), MILLED / 2, note="land", toward=-40.0)
    view.surface((outline.front_at(size, q + 3.0), q + 3.0), MILLED, note="front", toward=170.0)
    at = size.stud.at - size.slide - 2.0
    view.surface((at, size.head_q), MILLED, note="seat", toward=110.0)
    view.tolerance_frame(
        (size.stud.at + size.stud.head_diameter / 2, size.head_q), "parallelism", 0.05, ["A"], toward=80.0
    )


def clamp_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return stud, clamp screw and its foot."""
    size, d = _cap(run), run.design
    plan = _new(run, entry)
    s, c, units = size.stud, size.clamp, d.spec.units
    stud = Screw("lever-cap stud", s.thread, s.length, s.head_diameter, s.head_height)
    screw_view(plan, stud, "LEVER-CAP STUD, 1 OFF")
    _clamp(plan, run, size)
    lines, faces = turned_section(outline.foot_section(size))
    view = plan.view("foot", lines, label="CLAMP FOOT, 1 OFF, SECTION")
    for f in faces:
        view.hatch(f)
    r, t, bore = c.foot_diameter / 2, c.foot_thickness, c.foot_bore / 2
    view.centre_line((-2.0, 0.0), (t + 2.0, 0.0))
    view.dim_h((0.0, -r + 0.6), (t, -r + 0.8), t, side="below")
    view.dim_v((0.0, -r), (0.0, r), 2 * r, side="left", prefix="Ø")
    view.dim_v((t, -bore), (t, bore), 2 * bore, FOOT_BORE_TOL, side="right", prefix="Ø")
    ends = [p for s in outline.foot_section(size).segments for p in (s.start, s.end)]
    sink = min(radius for radius, high in ends if high < 1e-6)
    said = [view.length_row(2 * sink, prefix="countersunk 90° to Ø")]
    view.leader((0.0, -sink), said, toward=-120.0)
    view.surface((0.0, 0.7 * r), MILLED / 4, note="on the blade", toward=160.0)
    rows = [(n, "1", m, mass_text(mass(run, "lever_cap", n), units)) for n, m in (
        ("lever-cap stud", STEEL), ("clamp screw", BRASS), ("clamp foot", STEEL))]  # fmt: skip
    plan.table(("Part", "Quantity", "Material", "Mass"), rows, title="List")
    plan.notes([
        f"Clamp screw: tip Ø{size_text(c.tip_diameter, units)} turned {size_text(tip_before(size), units)} long from "
        "the shoulder; put it through the cap's thread first, then rivet its tip into the foot's countersink, dressed "
        "just under the foot's face; the foot must turn freely.",
        f"Stud: screwed {size_text(s.engaged, units)} into the body with thread locker; "
        f"{size_text(s.length - s.engaged, units)} from its head to the bed.",
        "The knob is turned by two fingers and lies in the palm: no edge may be felt.",
    ])  # fmt: skip
    return plan


def _new(run: Run, entry: SheetEntry) -> SheetPlan:
    return new_sheet(run, entry, material="see the list", tolerance=MEDIUM, kind="Part drawings",
                     texture=texture_text(MILLED, run.design.spec.units), scales=("2:1", "1:1"))  # fmt: skip


def _clamp(plan: SheetPlan, run: Run, size: LowCapSize) -> None:
    c = size.clamp
    half = outline.knob_section(size)
    tap = c.thread.tap_drill / 2
    own = [x for x in turned(half) if not (isinstance(x, Line) and {*_radii(x)} == {round(tap, 6)})]
    view = plan.view("clamp screw", own, label="CLAMP SCREW, 1 OFF")
    end = plan.view("knob", [_fluted(size)], of=view, place="right")
    shoulder = size.blade_top + c.foot_thickness - size.underside_q
    low = size.end_plate + c.knob_gap
    high, r, core, tip = low + c.knob_height, c.knob_diameter / 2, c.thread.major / 2, c.tip_diameter / 2
    rivet = shoulder - c.foot_thickness + 0.3
    # the thread itself; the model shows it with the tap drill's diameter where it sits in the cap
    view.draw([Line((shoulder, v), (low, v)) for v in (-core, core)])
    view.draw(root_lines(c.thread, shoulder, low), "SMOOTH")
    view.centre_line((rivet - 2.0, 0.0), (high + 2.0, 0.0))
    view.dim_h((shoulder, -core), (low, -core), low - shoulder, 0.2, side="below")
    view.dim_h((low, -r + 3.0), (high, 0.0), c.knob_height, side="below")
    view.dim_h((rivet, tip), (shoulder, tip), shoulder - rivet, side="above", reference=True, suffix=" riveted")
    view.dim_v(((low + high) / 2, -r), ((low + high) / 2, r), c.knob_diameter, side="right", prefix="Ø")
    view.dim_v((shoulder - 0.5, -tip), (shoulder - 0.5, tip), c.tip_diameter, TIP_TOL, side="left", prefix="Ø")
    view.leader(((shoulder + low) / 2, core), [thread_call(c.thread, inside=False)], toward=100.0)
    (inward, up, soft), (fall, edge) = outline.KNOB_UNDER, outline.KNOB_EDGE
    view.leader((low + up / 2, -r + inward / 2), [
        view.length_row(2 * (r - inward), prefix="cone under the knob from Ø"), view.length_row(up, suffix=" high"),
        view.length_row(soft, prefix="edge R")], toward=-100.0)  # fmt: skip
    rise, reach, dome = outline.knob_dome(size)
    at = (high - dome + (dome**2 - (0.5 * reach) ** 2) ** 0.5, 0.5 * reach)
    view.leader(at, [view.length_row(dome, prefix="dome R", places=(2, 1)), view.length_row(rise, suffix=" high"),
                view.length_row(2 * reach, prefix="from Ø")], toward=60.0)  # fmt: skip
    view.leader((high - fall * 0.8, edge * 0.25 - r), [view.length_row(edge, prefix="edge R"),
                view.length_row(fall, suffix=" under the top")], toward=-60.0)  # fmt: skip
    flutes = outline.knob_flutes(size)
    _, out, radius = flutes[0]
    end.centre_marks([((0.0, 0.0), r)])
    end.leader((out - radius, 0.0), [f"{len(flutes)} flutes", end.length_row(radius, prefix="R"),
               end.length_row(r - (out - radius), suffix=" deep, evenly spaced")], toward=40.0)  # fmt: skip


def tip_before(size: LowCapSize) -> float:
    """Return the length of the clamp screw's tip before it is riveted [mm]: as much metal as the riveted cone has."""
    c, sink, tip = size.clamp, outline.rivet_sink(size), size.clamp.tip_diameter / 2
    cone = pi * sink / 3 * (tip**2 + tip * (tip + sink) + (tip + sink) ** 2)
    return c.foot_thickness - outline.TIP_UNDER - sink + cone / (pi * tip**2)


def _radii(line: Line) -> tuple[float, float]:
    """Return how far both ends are from the axis [mm]."""
    return round(abs(line.start[1]), 6), round(abs(line.end[1]), 6)


def _fluted(size: LowCapSize) -> Profile:
    """Return the knob's outline seen from above, about its own axis [mm]."""
    r = size.clamp.knob_diameter / 2
    flutes = outline.knob_flutes(size)
    _, out, radius = flutes[0]
    step = 360.0 / len(flutes)
    half = degrees(acos((r * r + out * out - radius * radius) / (2 * r * out)))
    inner = degrees(acos((radius * radius + out * out - r * r) / (2 * radius * out)))
    arcs = []
    for angle, _, _ in flutes:
        arcs.append(Arc(polar((0.0, 0.0), out, angle), radius, angle + 180.0 + inner, -2 * inner))
        arcs.append(Arc((0.0, 0.0), r, angle + half, step - 2 * half))
    return Profile(tuple(arcs), "knob")


def adjuster_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return depth post and depth wheel."""
    size: AdjusterSize = run.design.adjuster  # type: ignore[attr-defined]
    plan = _new(run, entry)
    half = wheel_section(size)
    lines, faces = turned_section(half)
    view = plan.view("wheel", lines, label="DEPTH WHEEL, 1 OFF, SECTION")
    for f in faces:
        view.hatch(f)
    solid = piece(run, "adjuster", "depth wheel").solid
    end = plan.view("wheel end", on_bed_seen(run, "depth wheel", solid, "end"))
    start = size.at - size.flange_thickness / 2
    r0, r1, deep = size.rim_from - start, size.rim_to - start, size.bore_to - start
    rim, flange, sleeve, t = size.rim_radius, size.flange_radius, size.sleeve_radius, size.flange_thickness
    view.centre_line((-3.0, 0.0), (r1 + 3.0, 0.0))
    view.dim_h((0.0, -flange), (r1, -rim), r1, side="below")
    view.dim_h((0.0, -flange), (r0, -rim), r0, side="below")
    view.dim_h((0.0, flange), (t, flange), t, (0.0, -0.05), side="above")
    view.dim_h((0.0, flange), (deep, size.thread.major / 2), deep, side="above")
    view.dim_v((0.0, -flange), (0.0, flange), 2 * flange, (0.0, -0.1), side="left", prefix="Ø")
    view.dim_v((r1, -rim), (r1, rim), 2 * rim, side="right", prefix="Ø")
    view.leader((0.5 * (t + r0), sleeve), [view.length_row(2 * sleeve, (0.0, -0.05), prefix="sleeve Ø")], toward=70.0)
    view.leader((0.0, -size.thread.major / 2), [thread_call(size.thread, inside=True),
                f"tap drill Ø{drill_text(size.thread.tap_drill, view.unit)}, flat bottom",
                view.length_row(deep - size.thread.pitch, prefix="full thread at least ", suffix=" deep")],
                toward=-150.0)  # fmt: skip
    lip, floor, hollow = rim - RECESS[0], rim - RECESS[1], RECESS[2]
    view.leader((r1 - hollow, -0.5 * floor), [view.length_row(hollow, prefix="end recess ", suffix=" deep"),
                view.length_row(2 * lip, prefix="from Ø"), view.length_row(2 * floor, prefix="to Ø")],
                toward=-40.0)  # fmt: skip
    for at, radius, way in (((r0, -rim), EDGES[2], -100.0), ((r1, rim), EDGES[3], 60.0)):
        sign = 1.0 if at[0] == r0 else -1.0
        c = radius * (1.0 - 0.5**0.5)
        point = (at[0] + sign * c, at[1] - (c if at[1] > 0.0 else -c))
        view.leader(point, [view.length_row(radius, prefix="R")], toward=way)
    view.leader((r0 - 0.2, sleeve + 0.2), [view.length_row(sleeve_fillet(size), prefix="fillet R")], toward=110.0)
    view.leader((EDGES[0] * 0.3, flange - EDGES[0] * 0.3), [view.length_row(EDGES[0], prefix="2× R")], toward=150.0)
    count, radius, cut = FLUTES
    axis = -size.axis_h
    end.centre_marks([((0.0, axis), rim)])
    end.leader((0.0, axis - rim + cut), [f"{count} flutes", end.length_row(radius, prefix="R"),
               end.length_row(cut, suffix=" deep, evenly spaced")], toward=-60.0)  # fmt: skip
    post_view(plan, "depth post", size.thread, size.post_to - size.post_from, size.post_engaged, "DEPTH POST, 1 OFF")
    units = run.design.spec.units
    rows = [(n, "1", m, mass_text(mass(run, "adjuster", n), units)) for n, m in (("depth wheel", BRASS),
                                                                                ("depth post", STEEL))]  # fmt: skip
    plan.table(("Part", "Quantity", "Material", "Mass"), rows, title="List")
    turn = float(run.numbers["adjuster"].value("depth_per_turn_mm"))
    plan.notes([
        f"One turn of the wheel moves the depth of cut by {size_text(turn, units, (4, 3))}; "
        f"travel {size_text(size.travel, units)} each way.",
        "The flange stands in a cross slot of the blade: its two faces are square to the thread and "
        "polished, without burr.",
        "The wheel runs freely on the post by hand, without shake: run it in with oil.",
        "Post: driven in by two nuts jammed on it, with thread locker.",
    ])  # fmt: skip
    return plan


def rods_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return rods, nuts and screw of the handles."""
    rods = run.design.rods  # type: ignore[attr-defined]
    parts = [] if rods.toe_screw is None else [(rods.toe_screw[0], 1)]
    return screws_sheet_of(run, entry, parts, [(rod, axis.engaged) for rod, axis in rods.rods])


LOW_PARTS_SHEETS = [
    SheetEntry("lever-cap", "Lever cap, finished", "lever-cap", ("pattern", "foundry", "machine"), cap_sheet),
    SheetEntry("clamp-stud", "Stud, clamp screw and foot", "lever-cap", ("machine",), clamp_sheet),
    SheetEntry("depth-adjuster", "Depth adjuster", "plane", ("machine",), adjuster_sheet),
    SheetEntry("screws-rods", "Screws, rods and nuts", "plane", ("machine", "assembly"), rods_sheet),
]
