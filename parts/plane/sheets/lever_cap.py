"""The bench plane's lever cap: the assembly of its five parts, and the finished cap with its casting sizes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import cadquery as cq
from shapely import union_all

from parts.lever_cap import outline
from parts.lever_cap.cap import ARRIS, SINK, ear_face, spring_rivet_top
from parts.lever_cap.size import RIVET_PLAY, SWING, LeverCapSize
from parts.plane.finish import finish_of
from parts.plane.practice import as_cast_tolerance
from parts.plane.sheets.body_casting import cast_sizes
from parts.plane.sheets.common import MEDIUM, SheetEntry, new_sheet
from parts.plane.sheets.edge_text import as_cast_note
from parts.plane.sheets.lever_cap_parts import lever_sheet, spring_sheet
from parts.plane.sheets.metal import DRILLED, MILLED, size_text, sliced
from parts.plane.sheets.shapes import bed_view, mass, on_bed_cut, on_bed_seen, piece, texture_text
from parts.plane.sheets.silhouettes import area_of, lines_of, silhouette, surface_of
from shared.both_units import force
from shared.drawing.content import Texture
from shared.drawing.plan import SheetPlan
from shared.drawing.primitives import Line
from shared.drawing.title import mass_text
from shared.drawing.view import View

if TYPE_CHECKING:
    from parts.plane.run import Run

# Limits: common practice, no source.
PLACE = 0.1
NAMES = ("cap", "lever", "pivot rivet", "spring rivet", "leaf spring")
HATCH = {"cap": 45.0, "lever": 135.0, "leaf spring": 60.0}  # rivets are not hatched along their axis


def _size(run: Run) -> LeverCapSize:
    found: LeverCapSize = run.design.mechanism.lever_cap  # type: ignore[attr-defined]
    return found


def _solid(run: Run, name: str) -> cq.Solid:
    return piece(run, "lever_cap", f"lever cap {name}").solid


def assembly_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the lever cap put together, shut, with its list of parts."""
    size, d = _size(run), run.design
    whole_mass = sum(mass(run, "lever_cap", f"lever cap {n}") for n in NAMES)
    plan = new_sheet(run, entry, material="see the list", mass_kg=whole_mass, kind="Assembly drawing",
                     tolerance=MEDIUM, scales=("2:1", "1:1"))  # fmt: skip
    whole = cq.Compound.makeCompound([_solid(run, n) for n in NAMES])
    top = plan.view("top", on_bed_seen(run, "lever cap whole", whole, "face"))
    tip = size.pivot_at + size.lever_length
    front = outline.front_at(size, size.nose_q)
    top.centre_line((front - 5.0, 0.0), (tip + 5.0, 0.0))
    top.section_marks((front - 12.0, 0.0), (tip + 12.0, 0.0), "A", 90.0)
    top.dim_v((size.nose_at, -size.width / 2), (size.nose_at, size.width / 2), size.width, reference=True)
    view = plan.view("A-A", of=top, place="below", label="SECTION A-A, SHUT")
    _cut_whole(view, run)
    press = (size.press_at, size.press_q)
    view.draw([Line((front - 4.0, size.press_q), (tip, size.press_q))], "PHANTOM")  # the chipbreaker's plate
    view.dim_h((front, size.nose_q), (tip, 0.0), tip - front, reference=True)
    view.dim_h((size.screw_at, size.head_q), press, size.press_at - size.screw_at, reference=True)
    view.centre_marks([((size.pivot_at, size.pivot_q), size.pivot_diameter / 2)])
    for number, at in (
        (1, (size.land[1] + 6.0, size.underside_q + 1.5)),
        (2, (tip - 8.0, size.stop_q + outline.TIP_RISE)),
        (3, (size.pivot_at + 0.6, size.pivot_q + 0.6)),
        (4, (size.spring_rivet_at, size.strap_q)),
        (5, (size.press_at + 0.7 * size.spring_half, size.press_q + size.spring_thickness / 2)),
    ):
        view.balloon(number, at)
    plan.table(("No", "Part", "Quantity", "Material", "Mass", "Sheet"), list_rows(run), title="Parts")
    units, cap = d.spec.units, run.numbers["lever_cap"]
    cam, nose, hand = (force(float(cap.value(k)), units) for k in ("cam_force_n", "nose_force_n", "lever_hand_force_n"))
    plan.notes([
        "Order: leaf (5) and spring rivet (4) into the cap; head of the rivet free by "
        f"{size_text(RIVET_PLAY, units)} so that the leaf can flatten; peen into the countersink, dress flush. Lever "
        "(2) between the ears with an oiled pivot (3); peen both ends, dress flush; the lever must swing freely.",
        f"The lever opens by {SWING:g}°. Shut, it stands {float(cap.value('past_center_deg')):g}° past the cam's "
        "highest lift against its stop, and the leaf lies flat.",
        "Set the lever-cap screw so that the lever just presses the leaf flat: then cam "
        f"{cam}, nose {nose}, {hand} at the lever's tip. Never force it.",
        "Caution: fingers out from under the lever when it shuts; eye protection when peening.",
    ])  # fmt: skip
    return plan


def _cut_whole(view: View, run: Run) -> None:
    """Draw the cap cut along its middle: castings and leaf hatched, rivets whole, the far ear behind."""
    way, cut = bed_view(run, "side"), []
    for n, angle in HATCH.items():
        for f in sliced(run, f"lever cap {n}", _solid(run, n), way, (0.0, 0.0, 0.0)):
            view.draw([f.outer, *f.holes])
            view.hatch(f.outer, f.holes, angle)
            cut.append(area_of(f.outer, f.holes))
    rivets = [silhouette(surface_of(run, piece(run, "lever_cap", f"lever cap {n}")), way) for n in NAMES[2:4]]
    for r in rivets:
        view.draw(lines_of(r.boundary))
    ear = silhouette(surface_of(run, piece(run, "lever_cap", "lever cap cap")), way)
    view.draw(lines_of(ear.boundary.difference(union_all([*cut, *rivets]).buffer(0.03))))


def list_rows(run: Run) -> list[tuple[str, ...]]:
    """Return the rows of the list of the lever cap's own parts."""
    alloy, units = run.design.cap_alloy.name, run.design.spec.units
    sheets = {"cap": "lever-cap-cap", "lever": "cam-lever"}
    made = {"cap": alloy, "lever": alloy, "leaf spring": "spring steel strip"}
    return [(str(i), "cam lever" if n == "lever" else n, "1", made.get(n, "mild steel"),
             mass_text(mass(run, "lever_cap", f"lever cap {n}"), units), sheets.get(n, "leaf-rivets"))
            for i, n in enumerate(NAMES, 1)]  # fmt: skip


def cap_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the finished cap: what is machined, with the sizes of its casting beside."""
    size, d = _size(run), run.design
    plan = new_sheet(run, entry, material=d.cap_alloy.name, mass_kg=mass(run, "lever_cap", "lever cap cap"),
                     tolerance=f"machined: {MEDIUM}; as cast: {as_cast_tolerance(d.shop)}",
                     texture=texture_text(MILLED, d.spec.units),
                     finish=finish_of("lever cap", d.cap_alloy, d.shop.heat).box,
                     scales=("2:1",))  # fmt: skip
    solid = _solid(run, "cap")
    top = plan.view("top", on_bed_seen(run, "lever cap cap", solid, "face"))
    cut = on_bed_cut(run, "lever cap cap", solid)
    view = plan.view("A-A", cut.projection, faces=cut.faces, of=top, place="below", label="SECTION A-A")
    _cap_plan(top, size)
    _cap_section(view, run, size)
    cast_sizes(plan, run, "lever cap")
    units = d.spec.units
    plan.notes([
        "Datum A is the milled nose land, B the milled lever slot. Lengths along the cap count from the land's front "
        "corner. Machine nose land and front first, then head seat, keyhole, window and slot from them in one setting.",
        f"Break machined arrises {size_text(ARRIS, units)}; where the thumb comes, round them smooth.",
        "Rivet holes are countersunk 90°: the peened rivet must fill them.",
        as_cast_note("lever cap", size.outside_draft, "the level underside of the plate"),
        "Bronze dust and filings: no dry grinding without extraction.",
    ][: 5 if "bronze" in d.cap_alloy.family else 4])  # fmt: skip
    return plan


def _cap_plan(view: View, size: LeverCapSize) -> None:
    """Dimension the cap from above."""
    corner = (size.land[0], -size.width / 2)
    start = size.land[0]
    view.centre_line((start - 6.0, 0.0), (size.tail + 6.0, 0.0))
    view.section_marks((start - 14.0, 0.0), (size.tail + 14.0, 0.0), "A", 90.0)
    hole = size.screw_at - size.slide
    for s, tol in ((hole, PLACE), (size.screw_at, PLACE), (size.spring_rivet_at, PLACE), (size.pivot_at, 0.05)):
        view.dim_h(corner, (s, 0.0), s - start, tol, side="above")
    for s in size.window:
        view.dim_h(corner, (s, -size.slot_half), s - start, side="below")
    view.dim_h(corner, (size.tail, -size.slot_half), size.tail - start, reference=True, suffix=" as cast")
    view.draw([Line((size.pivot_at, -size.tail_width / 2 - 2.0), (size.pivot_at, size.tail_width / 2 + 2.0))], "CENTRE")
    half = size.width / 2
    view.dim_v((size.nose_at, -half), (size.nose_at, half), size.width, reference=True, side="left", suffix=" as cast")
    h = size.slot_half
    out = size.tail + 9.0
    view.dim_v((size.tail, -h), (size.tail, h), 2 * h, (0.1, 0.0), at=out)
    view.datum("B", (out, h), toward=90.0)
    c = outline.CUTTER * (1.0 - 0.5**0.5)
    view.leader((size.window[1] - c, -h + c), ["window", view.length_row(outline.CUTTER, prefix="4× R")],
                toward=-60.0)  # fmt: skip
    r = size.head_pass / 2
    view.leader((hole - r * 0.6, r * 0.8), ["keyhole", view.length_row(size.head_pass, (0.2, 0.0), prefix="Ø",
                suffix=" THRU"), view.length_row(size.shank_slot, (0.1, 0.0), prefix="slot ", suffix=" wide THRU")],
                toward=130.0)  # fmt: skip
    seat = (size.screw_head + 1.4) / 2
    view.leader((size.screw_at - size.slide * 0.7, -seat), ["head seat",
                view.length_row(2 * seat, 0.1, suffix=" wide, round ends")], toward=-120.0)  # fmt: skip


def _cap_section(view: View, run: Run, size: LeverCapSize) -> None:
    """Dimension the section: heights count from the nose land."""
    q, land = size.nose_q, (size.land[0] + 1.0, size.nose_q)
    view.datum("A", (size.land[0] + 2.0, q), toward=-90.0)
    far = size.tail
    view.dim_v(land, (far, size.stop_q), size.stop_q - q, PLACE, side="right")
    view.dim_v(land, (size.pivot_at, size.pivot_q), size.pivot_q - q, PLACE, side="right")
    view.dim_v(land, (size.screw_at - size.slide, size.head_q), size.head_q - q, 0.05, side="left")
    view.dim_v(land, (size.land[1] + 12.0, size.underside_q), size.underside_q - q, reference=True, side="left",
               suffix=" as cast")  # fmt: skip
    view.dim_h((size.land[0], q), (size.land[1], q), size.land[1] - size.land[0])
    foot, top = (size.land[0], q), (outline.front_at(size, q + 2.0), q + 2.0)
    view.angle(foot, top, (size.land[0] + 3.0, q), outline.FRONT, 1.0)
    p = size.pivot_diameter
    view.centre_marks([((size.pivot_at, size.pivot_q), p / 2)])
    wide = 2 * ear_face(size)
    view.leader((size.pivot_at + p * 0.4, size.pivot_q + p * 0.3), [
        view.length_row(p, (0.02, 0.0), prefix="Ø", suffix=" THRU both ears"),
        view.length_row(2 * SINK, prefix="countersunk 90° to Ø"), view.length_row(wide, prefix="over both sinks "),
        Texture(DRILLED, "machined", "bore", view.unit),
        view.frame("perpendicularity", 0.05, ["B"])], toward=60.0)  # fmt: skip
    rivet = (size.spring_rivet_at + size.rivet_diameter / 2, (size.underside_q + spring_rivet_top(size)) / 2)
    view.leader(rivet, [view.length_row(size.rivet_diameter, (0.05, 0.0), prefix="Ø", suffix=" THRU"),
                        view.length_row(2 * SINK, prefix="countersunk 90° to Ø", suffix=" at the top"),
                        Texture(DRILLED, "machined", "bore", view.unit)],
                toward=100.0)  # fmt: skip
    view.surface((size.land[0] + 2.6, q), MILLED / 2, note="land", toward=-40.0)
    view.surface((outline.front_at(size, q + 3.5), q + 3.5), MILLED, note="front", toward=170.0)
    view.surface((size.screw_at - size.slide - 3.0, size.head_q), MILLED, note="seat", toward=110.0)
    view.surface((far - 2.0, size.stop_q), MILLED, note="stop", toward=-60.0)
    view.tolerance_frame((size.screw_at - size.slide - 5.0, size.head_q), "parallelism", 0.05, ["A"], toward=100.0)


LEVER_CAP_SHEETS = [
    SheetEntry("lever-cap", "Lever cap, assembly", "lever-cap", ("machine", "assembly"), assembly_sheet),
    SheetEntry("lever-cap-cap", "Lever cap, finished", "lever-cap", ("pattern", "foundry", "machine"), cap_sheet),
    SheetEntry("cam-lever", "Cam lever", "lever-cap", ("pattern", "foundry", "machine"), lever_sheet),
    SheetEntry("leaf-rivets", "Leaf spring and rivets", "lever-cap", ("machine",), spring_sheet),
]
