"""The inspection sheet: what is measured on a finished plane, nominal and limits beside room for the reading."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.handle.moisture import MOISTURE_TOL_PERCENT
from parts.plane.practice import as_cast_tolerance
from parts.plane.rules.seat import LATERAL_LEAST
from parts.plane.sheets.cards import card_sheet
from parts.plane.sheets.common import FLAT, SheetEntry
from parts.plane.sheets.handle import SEAT_TOL
from parts.plane.sheets.inspection_rows import (
    Row,
    blade_rows,
    body_rows,
    fit_rows,
    frog_rows,
    has_toe_piece,
    mouth_rows,
    plain,
    sized,
)
from parts.plane.sheets.knob import BORE_TOL, TURN_TOL
from parts.plane.sheets.metal import size_text
from shared.both_units import mass, ordered, temperature
from shared.drawing.dimtext import limits
from shared.drawing.plan import SheetPlan
from shared.units import G_PER_LB

if TYPE_CHECKING:
    from parts.plane.run import Run

HEAD = ["characteristic", "nominal", "limits", "instrument", "measured", "initials"]
WIDTHS = (42.0, 26.0, 51.0, 29.0, 18.0, 12.0)  # mm
MASS_SHARE = 0.05  # of the complete plane: what castings and wood differ by; common practice, no source
WOOD = {"inch": 3, "mm": 1}  # decimals: wood moves by more with the season
REST_K = 1.0  # K: difference between sole and top that is left before a body is gauged


def inspection_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the inspection sheet of one plane."""
    sheet = card_sheet(run, entry)
    sheet.table(["plane no.", "date", "castings' heat no.", "blade's load no.", "inspector", "passed"], [[""] * 6],
                title="This plane", widths=[178.0 / 6] * 6)  # fmt: skip
    for title, rows in (("Body", body_rows(run)), ("Frog", frog_rows(run)), ("Bed and mouth", mouth_rows(run)),
                        ("Blade", blade_rows(run)), ("Fits: holes and pins", fit_rows(run)),
                        ("Handles", _handles(run)), ("Whole plane", _whole(run))):  # fmt: skip
        if rows:
            sheet.table(HEAD, rows, title=title, widths=WIDTHS)
    sheet.notes(_notes(run))
    sheet.notes(["The edge cuts: blade back or guarded while anything but the edge is measured."], title="Caution",
                numbered=False)  # fmt: skip
    return sheet


def _handles(run: Run) -> list[Row]:
    d, first, n = run.design, run.design.spec.units, run.numbers["handle"]
    shop = float(n.value("shop_emc_percent"))
    damp = f"{shop - MOISTURE_TOL_PERCENT:.1f} to {shop + MOISTURE_TOL_PERCENT:.1f} %"
    rows = [
        plain("moisture of the wood", f"{shop:.1f} %", damp, "moisture meter"),
        sized("rod's bore", d.knob.bore_diameter, BORE_TOL, "drill shank", first),
        sized("knob height", d.knob.height, (TURN_TOL, -TURN_TOL), "caliper", first, WOOD),
    ]
    if d.tote is not None:
        crest = sized("tote to its crest, along the rod", d.tote.rod_height, (SEAT_TOL, -SEAT_TOL), "caliper", first,
                      WOOD)  # fmt: skip
        grain = f"within {d.shop.woodshop.grain_tolerance:g}°"
        rows += [crest, plain("grain through the narrowest grip", "along the lines", grain, "eye, template")]
    if has_toe_piece(run):
        rows.append(plain("knob on the toe piece's stud", "locks by hand",
                          "tight: no rock, piece does not shift; slackened: piece slides", "hand"))  # fmt: skip
        if d.tote is not None:
            rows.append(plain("tote under the hand", "tight", "no turning, no rock", "hand"))
    else:
        rows.append(plain("handles under the hand", "tight", "no turning, no rock", "hand"))
    return rows


def _whole(run: Run) -> list[Row]:
    d, n, first = run.design, run.numbers["bedding"], run.design.spec.units
    kg = run.models.mass_and_centre()[0]
    low, high = (1.0 - MASS_SHARE) * kg, (1.0 + MASS_SHARE) * kg
    pounds = f"{1000 * low / G_PER_LB:.2f} to {1000 * high / G_PER_LB:.2f} lb"
    # added together: a blade that sits off the middle is no fault
    clear = 2 * d.body.mouth_half_width - d.blade.width
    least, most = (2 * float(n.value(f"side_clearance_{x}_mm")) for x in ("min", "max"))
    side = limits(clear, (round(most - clear, 6), round(least - clear, 6)), first)
    turn = size_text(float(n.value("depth_per_turn_mm")), first, (4, 3))
    return [
        plain("mass, complete", mass(kg, first, 2), ordered(pounds, f"{low:.2f} to {high:.2f} kg", first), "scale"),
        plain("depth, a turn of the wheel", turn, "moves both ways, no jump", "indicator"),
        plain("blade's turn, each way", f"{float(n.value('lateral_adjust_deg')):.2f}°",
              f"{LATERAL_LEAST:g}° or more, edge to mouth's side", "protractor"),
        plain("mouth beside the blade, both sides added", side[0], side[1], "feeler gauges"),
        plain("full-width shaving", "yes", "even, both corners clear, on planed stock", "trial"),
    ]  # fmt: skip


def _notes(run: Run) -> list[str]:
    first, stack = run.design.spec.units, float(run.numbers["bedding"].value("mouth_opening_worst_mm"))
    bow = size_text(float(run.numbers["body"].value("thermal_bow_um_per_k")) / 1000, first, (5, 4))
    rest, warm = ordered(f"{1.8 * REST_K:g} °F", f"{REST_K:g} K", first), temperature(20.0, first)
    found = [
        f"Let the body rest on the plate until sole and top differ by less than {rest}: so much bows the sole by {bow} "
        f"of the {size_text(FLAT, first, (4, 3))} allowed. Plate, gauges and part at the same temperature, {warm}.",
        "Flatness is the minimum zone: the least distance of two parallel planes that hold a grid of readings between "
        "them. The program's flatness question (planewright reckon flatness) gives it from the list of readings.",
        "Measure with the lever cap shut and the blade set back "
        f"{size_text(1.0, first)}, then again with the blade at work.",
        "A reading outside its limits: mark it, tag the plane, do not pass it on.",
    ]
    if run.design.orientation == "bevel-down" or has_toe_piece(run):
        by = "toe piece" if has_toe_piece(run) else "frog"
        found.insert(3, f"Mouth: set with the {by}, then measured. By the limits of the parts alone it could be off by "
                        f"±{size_text(stack, first)}; setting the {by} takes that up.")  # fmt: skip
    return [
        *found,
        "Flat and square: the works' own rule, whatever the size. Lengths: ISO 2768-m; classes such as H7: ISO 286; "
        f"from a machined face to one left as cast: half of {as_cast_tolerance(run.design.shop)}. "
        "All other limits: common practice, no published source.",
    ]


INSPECTION = SheetEntry("inspection", "Inspection sheet", "plane", ("assembly", "machine"), inspection_sheet)
