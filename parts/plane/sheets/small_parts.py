"""The bench plane's small parts: screws, rods and nuts; depth adjuster; lateral adjuster. What is bought is said."""

from __future__ import annotations

from math import radians, tan
from typing import TYPE_CHECKING

from parts.frog.size import PIN_HOLE_CLASS
from parts.hardware.adjusters import DISH, FLARE, FLUTES, HEAD, TAB_BEND, TAB_CORNER, WHEEL_EDGE
from parts.hardware.numbers import LEVER_SWING
from parts.hardware.size import (
    HEAD_PLAY,
    PIN_HOLE,
    PIN_HOLE_TOL,
    PRESSED,
    DepthAdjuster,
    HardwareSize,
    LateralLever,
    Rod,
    Screw,
)
from parts.hardware.turned import WASHER_HOLE
from parts.plane.bench.seats import seating
from parts.plane.sheets.bought import nuts, standard_length
from parts.plane.sheets.common import MEDIUM, SheetEntry, new_sheet
from parts.plane.sheets.edge_text import drill_text, edges
from parts.plane.sheets.metal import MILLED, size_text
from parts.plane.sheets.shapes import (
    limits_mm,
    mass,
    on_bed_cut,
    on_bed_seen,
    piece,
    texture_text,
    thread_call,
    turned,
    turned_section,
)
from parts.plane.sheets.turned_views import nut_view, pin_view, post_view, rod_view, screw_view
from parts.plane.sheets.yoke_view import yoke_view
from shared.drawing.plan import SheetPlan
from shared.drawing.title import mass_text
from shared.drawing.view import View
from shared.profile import Pen, Profile

if TYPE_CHECKING:
    from parts.plane.run import Run

STEEL = "mild steel, free cutting"
BRASS = "brass, free cutting"


def screw_rows(run: Run, parts: list[tuple[Screw, int]], rods: list[Rod]) -> list[tuple[str, ...]]:
    """Return the list of screws, washers, rods and nuts: name, quantity, what to buy or make, material, mass."""
    units = run.design.spec.units
    rows: list[tuple[str, ...]] = []

    def weight(name: str) -> str:
        return mass_text(mass(run, "hardware", name), units)

    for part, count in parts:
        named = part.name if count == 1 else f"{part.name} right"
        buy = (
            f"make; or buy slotted {part.thread.name} × {standard_length(part.length, units)} with a head no smaller, "
            f"cut to {size_text(part.length, units)}, turn its head to size; its slot may stay as bought"
        )
        rows.append((part.name, str(count), buy, STEEL, weight(named)))
        if part.washer_diameter:
            hole = size_text(part.thread.major + 2 * WASHER_HOLE, units)
            across, thick = size_text(part.washer_diameter, units), size_text(part.washer_thickness, units)
            ring = f"buy: Ø{across} × {thick}, hole Ø{hole}"
            rows.append((f"{part.name} washer", str(count), ring, "steel", weight(f"{part.name} washer right")))
    for rod in rods:
        bar = f"from rod Ø{size_text(rod.thread.major, units)}, {rod.thread.name} at both ends"
        rows.append((rod.name, "1", bar, STEEL, weight(rod.name)))
    for name, alike in nuts(rods):
        rows.append((name, str(len(alike)), "make", BRASS, weight(f"{alike[0].name} nut")))
    return rows


def screws_sheet_of(run: Run, entry: SheetEntry, parts: list[tuple[Screw, int]],
                    rods: list[tuple[Rod, float]]) -> SheetPlan:  # fmt: skip
    """Return the sheet of screws, rods and nuts.

    Args:
        run: the build.
        entry: the sheet.
        parts: screws and how many of each.
        rods: rods and how far each is screwed in [mm].
    """
    plan = _new(run, entry)
    units = run.design.spec.units
    for part, count in parts:
        screw_view(plan, part, f"{part.name.upper()}, {count} OFF")
    for rod, engaged in rods:
        rod_view(plan, rod, engaged, f"{rod.name.upper()}, 1 OFF")
    for name, alike in nuts([r for r, _ in rods]):
        nut_view(plan, alike[0], name, len(alike))
    rows = screw_rows(run, parts, [r for r, _ in rods])
    plan.table(("Part", "Quantity", "Bought or made", "Material", "Mass each"), rows, title="List")
    plan.notes([
        f"Threads run out cleanly; chamfer their ends {size_text(0.6, units)} by 45°. Break all edges {edges(units)}.",
        "Screws and rods blued or zinc plated; nuts polished and, where wanted, lacquered.",
        "Tighten by hand with a driver that fills the slot: rods only until the wood is firm; never more. Should a nut "
        "meet its rod's end before the wood is held, cut the rod's upper end shorter rather than let the nut bottom.",
    ])  # fmt: skip
    return plan


def _new(run: Run, entry: SheetEntry, *scales: str) -> SheetPlan:
    return new_sheet(run, entry, material="see the list", tolerance=MEDIUM, kind="Part drawings",
                     texture=texture_text(MILLED, run.design.spec.units), scales=scales or ("1:1",))  # fmt: skip


def _hardware(run: Run) -> HardwareSize:
    found: HardwareSize = run.design.hardware  # type: ignore[attr-defined]
    return found


def screws_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return screws, rods and nuts of a bench plane."""
    h, at = _hardware(run), seating(run.design)  # type: ignore[arg-type]
    parts = [(h.holddown, len(at.holddown)), (h.cap_screw, 1), (h.chipbreaker_screw, 1)]
    if h.toe_screw is not None:
        parts.append((h.toe_screw, 1))
    return screws_sheet_of(run, entry, parts, [(h.tote_rod, at.tote_rod.engaged), (h.knob_rod, at.knob_rod.engaged)])


# ---- depth adjuster -------------------------------------------------------------------------------------------------


def depth_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return post, wheel, yoke and yoke pin."""
    d = _hardware(run).depth
    plan = _new(run, entry, "2:1", "1:1")
    _wheel(plan, run, d)
    yoke_view(plan, run, d)
    post_view(plan, "depth post", d.thread, d.post_to - d.post_from, d.post_engaged, "DEPTH POST, 1 OFF")
    pin_view(plan, "yoke pin", d.pivot_pin, d.pin_to - d.pin_from, limits_mm(d.pivot_pin, PRESSED), "YOKE PIN, 1 OFF")
    _list(plan, run, [("depth wheel", BRASS), ("yoke", STEEL), ("depth post", STEEL),
                      ("yoke pin", "silver steel or drill rod")])  # fmt: skip
    turn = float(run.numbers["hardware"].value("depth_per_turn_mm"))
    plan.notes([
        f"One turn of the wheel moves the depth of cut by {size_text(turn, run.design.spec.units, (4, 3))}.",
        "The wheel runs freely on the post by hand, without shake: run it in with oil, no grinding paste left.",
        "Post and yoke pin are secured in the frog: post driven in by two nuts jammed on it, with thread locker; pin "
        "pressed.",
        "Yoke: round tip and fork ends polished; they slide. Break all other edges "
        f"{edges(run.design.spec.units)}.",
    ])  # fmt: skip
    return plan


def _list(plan: SheetPlan, run: Run, names: list[tuple[str, str]], part: str = "hardware") -> None:
    units = run.design.spec.units
    rows = [(n, "1", m, mass_text(mass(run, part, n), units)) for n, m in names]
    plan.table(("Part", "Quantity", "Material", "Mass"), rows, title="List")


def _wheel(plan: SheetPlan, run: Run, d: DepthAdjuster) -> None:
    axis = -(run.design.blade.thickness + d.post_h)
    solid = piece(run, "hardware", "depth wheel").solid
    cut = on_bed_cut(run, "depth wheel", solid)
    view = plan.view("wheel", cut.projection, faces=cut.faces, label="DEPTH WHEEL, 1 OFF, SECTION")
    end = plan.view("wheel end", on_bed_seen(run, "depth wheel", solid, "end"), of=view, place="right")
    s, front, back = d.wheel_at, d.wheel_at - d.wheel_front, d.wheel_at - d.wheel_front + d.wheel_thickness
    flange, hub, rim, g = d.flange_diameter / 2, d.hub_diameter / 2, d.wheel_diameter / 2, d.groove / 2
    view.centre_line((front - 3.0, axis), (back + 3.0, axis))
    slant = tan(radians(d.groove_flank))
    view.dim_h((front, axis - flange), (back, axis - rim), d.wheel_thickness, side="below")
    view.dim_h((s - g, axis - hub), (s + g, axis - hub), d.groove, (0.05, 0.0), side="above")
    view.dim_h((front, axis + flange), (s, axis + hub), d.wheel_front, side="above")
    view.dim_v((front, axis - flange), (front, axis + flange), d.flange_diameter, side="left", prefix="Ø")
    view.dim_v((s, axis - hub), (s, axis + hub), d.hub_diameter, side="left", prefix="Ø")
    at = s + g + (rim - hub) * slant + 2.0
    view.dim_v((at, axis - rim), (at, axis + rim), d.wheel_diameter, side="right", prefix="Ø")
    lip, dish = rim - DISH[0], DISH[1]
    view.leader((back - dish, axis - 0.5 * (lip - dish)), [view.length_row(dish, prefix="dished ", suffix=" deep,"),
                view.length_row(2 * lip, prefix="from Ø", suffix=" at the rim"),
                view.length_row(2 * (lip - dish), prefix="to Ø", suffix=" at the bottom")], toward=-30.0)  # fmt: skip
    view.leader((front + 0.3 * WHEEL_EDGE, axis - flange + 0.3 * WHEEL_EDGE),
                [view.length_row(WHEEL_EDGE, prefix="flange and rim edges R")], toward=210.0)  # fmt: skip
    view.leader((front, axis + d.thread.major / 2), [f"{thread_call(d.thread, inside=True)} THRU",
                f"tap drill Ø{drill_text(d.thread.tap_drill, run.design.spec.units)}"], toward=160.0)  # fmt: skip
    view.leader((s - g - 0.5 * (flange - hub) * slant, axis + (flange + hub) / 2),
                [f"groove's flanks slant {d.groove_flank:.1f}° each"], toward=110.0)  # fmt: skip
    end.centre_marks([((0.0, axis), rim)])
    count, radius, deep = FLUTES
    end.leader((0.0, axis + rim - deep), [f"{count} flutes", end.length_row(radius, prefix="R"),
               end.length_row(deep, suffix=" deep, evenly spaced")], toward=60.0)  # fmt: skip


# ---- lateral adjuster -----------------------------------------------------------------------------------------------


def lateral_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return lateral lever, its pin, roller and roller pin."""
    v, t = _hardware(run).lateral, run.design.blade.thickness
    plan = _new(run, entry, "2:1", "1:1")
    _lever(plan, run, v, t)
    _headed_pin(plan, v)
    pin_view(plan, "lateral roller pin", v.pin, v.thickness + v.roller_height, limits_mm(v.pin, PRESSED),
             "LATERAL ROLLER PIN, 1 OFF")  # fmt: skip
    bore = (v.pin + PIN_HOLE) / 2
    lines, faces = turned_section(Profile.rectangle(bore, 0.0, v.roller_diameter / 2, v.roller_height, 0.3, "roller"))
    view = plan.view("lateral roller", lines, label="LATERAL ROLLER, 1 OFF, SECTION")
    for f in faces:
        view.hatch(f)
    r = v.roller_diameter / 2
    view.centre_line((-2.0, 0.0), (v.roller_height + 2.0, 0.0))
    view.dim_h((0.0, -r), (v.roller_height, -r), v.roller_height, (0.0, -0.1), side="below")
    view.dim_v((0.0, -r), (0.0, r), v.roller_diameter, (0.0, -0.1), side="left", prefix="Ø")
    view.dim_v((v.roller_height, -bore), (v.roller_height, bore), 2 * bore, PIN_HOLE_TOL, side="right", prefix="Ø")
    _list(plan, run, [("lateral lever", "mild steel strip"), ("lateral lever pin", STEEL), ("lateral roller", STEEL),
                      ("lateral roller pin", STEEL)])  # fmt: skip
    turn = float(run.numbers["hardware"].value("lateral_blade_turn_deg"))
    stop = float(run.numbers["bedding"].value("lateral_adjust_deg"))
    plan.notes([
        f"The lever's own way, {LEVER_SWING:g}° each way, turns the blade by {turn:.2f}°; the edge already meets the "
        f"mouth's sides at {stop:.2f}°.",
        "Roller pin: pressed into the lever, flush below; the roller turns freely on it between the lever and the "
        "chipbreaker, which keeps it on; with the blade out it lifts off. Lever pin: pressed into the frog; the lever "
        "swings freely under its head with a little friction, so that it stays where it is put.",
        "Round the tab's edges smooth: a thumb pushes it.",
    ])  # fmt: skip
    return plan


def _lever(plan: SheetPlan, run: Run, v: LateralLever, steel: float) -> None:
    solid = piece(run, "hardware", "lateral lever").solid
    top = plan.view("lever", on_bed_seen(run, "lateral lever", solid, "face"))
    side = plan.view("lever side", on_bed_seen(run, "lateral lever", solid, "side"), of=top, place="below",
                     label="LATERAL LEVER, 1 OFF")  # fmt: skip
    far = v.tab_at + v.thickness
    hole = (v.pin + PIN_HOLE) / 2
    top.centre_line((v.start - 3.0, 0.0), (far + 3.0, 0.0))
    top.centre_marks([((v.pivot_at, 0.0), hole), ((v.roller_at, 0.0), v.pin / 2)])
    top.diameter((v.pivot_at, 0.0), (v.pivot_at, hole), 2 * hole, PIN_HOLE_TOL, suffix=" THRU")
    top.diameter((v.roller_at, 0.0), (v.roller_at, v.pin / 2), v.pin, PIN_HOLE_CLASS, suffix=" THRU")
    top.dim_h((v.pivot_at, 0.0), (v.roller_at, 0.0), v.roller_at - v.pivot_at, 0.1, side="below")
    top.dim_h((v.pivot_at, 0.0), (far, 0.0), far - v.pivot_at, 0.5, side="below")
    half, wide = v.width / 2, v.tab_width / 2
    at = v.pivot_at + 12.0
    top.dim_v((at, -half), (at, half), v.width, side="left")
    top.dim_v((far, -wide), (far, wide), v.tab_width, side="right")
    top.leader((v.start + 0.13 * v.width, half * 0.68), [top.length_row(half, prefix="R, full, ")], toward=150.0)
    before, inner, outer = FLARE
    top.leader((v.tab_at - before, -half), ["widens over", top.length_row(before, suffix=" before the tab"),
               top.length_row(inner, prefix="R", suffix=" inside"),
               top.length_row(outer, prefix="R", suffix=" outside")], toward=-60.0)  # fmt: skip
    high = -(steel + v.recess_depth - v.thickness)
    side.dim_v((v.roller_at, high), (v.roller_at, high - v.thickness), v.thickness, (0.0, -0.1), side="left")
    side.dim_v(
        (v.roller_at, high), (far, -(steel + v.tab_drop)), v.tab_drop - v.recess_depth + v.thickness, 0.5, side="right"
    )
    side.leader((far, -(steel + 0.6 * v.tab_drop)), [side.length_row(TAB_BEND, prefix="bent 90°, inside R"),
                side.length_row(TAB_CORNER, prefix="tab's corners R")], toward=0.0)  # fmt: skip


def _headed_pin(plan: SheetPlan, v: LateralLever) -> None:
    head, r = v.recess_depth - v.thickness - HEAD_PLAY, v.pin / 2
    long = v.pin_length
    half = (
        Pen.at(0.0, 0.0, "lateral lever pin").line_to(r + HEAD / 2, 0.0).line_to(r + HEAD / 2, head).line_to(r, head)
        .line_to(r, long - 0.3).line_to(r - 0.3, long).line_to(0.0, long).close()
    )  # fmt: skip
    view: View = plan.view("lateral lever pin", turned(half), label="LATERAL LEVER PIN, 1 OFF")
    view.centre_line((-2.0, 0.0), (long + 2.0, 0.0))
    view.dim_h((0.0, -r), (long, -r), long, side="below")
    view.dim_h((0.0, r + HEAD / 2), (head, r), head, 0.05, side="above")
    view.dim_v((0.0, -r - HEAD / 2), (0.0, r + HEAD / 2), 2 * r + HEAD, side="left", prefix="Ø")
    view.dim_v((long, -r), (long, r), v.pin, limits_mm(v.pin, PRESSED), side="right", prefix="Ø")


SMALL_PARTS_SHEETS = [
    SheetEntry("screws-rods", "Screws, rods and nuts", "plane", ("machine", "assembly"), screws_sheet),
    SheetEntry("depth-adjuster", "Depth adjuster", "plane", ("machine",), depth_sheet),
    SheetEntry("lateral-adjuster", "Lateral adjuster", "plane", ("machine",), lateral_sheet),
]
