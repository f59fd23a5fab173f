"""The sheet of the handles' blanks: rectangles to saw out, the shapes inside them, the grain. Lengths mm."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from parts.handle.blank_view import BlankView, knob_blank_view, tote_blank_view
from parts.handle.blanks import Blank
from parts.handle.cutplan.words import bare_footage, footage, footage_column
from parts.plane.handle_blanks import HANDLE_SETS
from parts.plane.sheets.common import SheetEntry, new_sheet
from parts.plane.sheets.metal import one_unit, size_text
from parts.plane.sheets.wood_notes import wood_name, wood_notes
from parts.plane.wood import grain, handle_blanks
from shared.drawing.plan import SheetPlan
from shared.wording import counted

if TYPE_CHECKING:
    from parts.plane.run import Run

BLANK_TOL = (1.0, 0.0)  # mm: sawn over, never under


def blanks_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the sheet of tote's (where there is one) and knob's blank."""
    d = run.design
    first = d.spec.units
    over = one_unit(BLANK_TOL[0], first)
    plan = new_sheet(run, entry, material=wood_name(d), kind="Blank drawing", tolerance=f"sawn +{over} / 0",
                     texture="sawn", scales=("2:1", "1:1", "1:2"))  # fmt: skip
    blanks, found = handle_blanks(d), grain(d)
    if d.tote is not None and found is not None:
        _view(plan, "TOTE", tote_blank_view(d.tote, blanks[0], found.direction_deg), blanks[0])
    _view(plan, "KNOB", knob_blank_view(d.knob, blanks[-1]), blanks[-1])
    volume = footage_column(first)
    rows = [
        [b.name, b.buy.name, size_text(b.buy.nominal_mm, first), bare_footage(b.board_feet, first, 3)] for b in blanks
    ]
    plan.table(["blank", "lumber to buy", "nominal thickness", volume], rows, title="Lumber for one plane")
    plan.notes([*_blank_notes(run, blanks), *wood_notes(d, run.numbers["handle"], "blanks")])
    return plan


def _blank_notes(run: Run, blanks: Sequence[Blank]) -> list[str]:
    """Return what the sheet says of lumber, allowances and grain; a plane without a tote is not told of one."""
    d, first = run.design, run.design.spec.units
    each = sum(b.board_feet for b in blanks)
    practice = d.shop.wood_practice()
    tote = d.tote is not None
    outside = f"{size_text(practice.bandsaw_allowance_mm, first)} outside the tote's line, " if tote else ""
    faces = f"{size_text(practice.planing_per_face_mm, first)} a face to plane, " if tote else ""
    lay = (
        "Lay the tote's template on so that its grain line lies along the fibres; tote and knob of one plane from one "
        "board where possible."
    )
    return [
        f"Lumber for one set {footage(each, first, 3)}, for {counted(HANDLE_SETS, 'set')} "
        f"{footage(HANDLE_SETS * each, first)}, no saw waste or defects counted: the cut plan says which boards.",
        f"In the blanks: {outside}{faces}{size_text(practice.turning_allowance_mm, first)} outside the knob, "
        f"{size_text(practice.knob_end_allowance_mm, first)} at each of its ends.",
        f"Grain within {practice.grain_tolerance_deg:g}° of the lines drawn, no knot, check or pin hole inside the "
        "outline; look at both faces: runout through the thickness counts as much.",
        *([lay] if tote else []),
    ]


def _view(plan: SheetPlan, name: str, shown: BlankView, blank: Blank) -> None:
    view = plan.view(name.lower(), [shown.outline], label=f"{name} BLANK")
    view.draw(shown.blank, "PHANTOM")
    view.draw(shown.fibres, "SMOOTH")
    view.draw(shown.arrow, "TEXT")
    corners = [line.start for line in shown.blank]
    view.dim_aligned(corners[3], corners[2], blank.length_mm, BLANK_TOL, suffix=" along the grain")
    view.dim_aligned(corners[2], corners[1], blank.width_mm, BLANK_TOL)
    middle = (
        (shown.arrow[0].start[0] + shown.arrow[0].end[0]) / 2,
        (shown.arrow[0].start[1] + shown.arrow[0].end[1]) / 2,
    )
    view.leader(middle, "grain", end="none")
    inside = ((corners[0][0] + 3 * corners[2][0]) / 4, (corners[0][1] + 3 * corners[2][1]) / 4)
    view.leader(inside, [view.length_row(blank.thickness_mm, BLANK_TOL, suffix=" thick")], end="dot")


BLANKS_SHEET = SheetEntry("blanks", "Handle blanks", "knob", ("wood",), blanks_sheet)
