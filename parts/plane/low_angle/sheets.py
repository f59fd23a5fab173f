"""The sheets of a low-angle plane, in the order of its book."""

from __future__ import annotations

from parts.plane.run import Run
from parts.plane.sheets.assembly import ASSEMBLY_SHEETS
from parts.plane.sheets.blade import BLADE_SHEETS
from parts.plane.sheets.cards import BLADE_CARDS
from parts.plane.sheets.common import SheetEntry
from parts.plane.sheets.cut_plan_card import CUT_PLAN_CARD
from parts.plane.sheets.foundry_cards import FOUNDRY_CARDS
from parts.plane.sheets.handle import handle_sheets
from parts.plane.sheets.inspection import INSPECTION
from parts.plane.sheets.low_body import LOW_BODY_SHEETS
from parts.plane.sheets.low_parts import LOW_PARTS_SHEETS
from parts.plane.sheets.match_plate import LOW_MATCH_PLATE_SHEETS
from parts.plane.sheets.toe_piece import toe_piece_sheets


def sheet_set(run: Run) -> list[SheetEntry]:
    """Return the sheets in the order of the set: the whole plane, its parts from the body on, then the cards."""
    return [
        *ASSEMBLY_SHEETS,
        *LOW_BODY_SHEETS,
        *toe_piece_sheets(run),
        *LOW_PARTS_SHEETS,
        *BLADE_SHEETS,
        *handle_sheets(run),
        *LOW_MATCH_PLATE_SHEETS,
        *FOUNDRY_CARDS,
        *BLADE_CARDS,
        CUT_PLAN_CARD,
        INSPECTION,
    ]
