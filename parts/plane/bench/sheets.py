"""The sheets of a bench plane, in the order of its book."""

from __future__ import annotations

from parts.plane.run import Run
from parts.plane.sheets.assembly import ASSEMBLY_SHEETS
from parts.plane.sheets.blade import BLADE_SHEETS
from parts.plane.sheets.body import BODY_SHEETS
from parts.plane.sheets.cards import BLADE_CARDS
from parts.plane.sheets.chipbreaker import CHIPBREAKER_SHEETS
from parts.plane.sheets.common import SheetEntry
from parts.plane.sheets.cut_plan_card import CUT_PLAN_CARD
from parts.plane.sheets.foundry_cards import FOUNDRY_CARDS
from parts.plane.sheets.frog import FROG_SHEETS
from parts.plane.sheets.handle import handle_sheets
from parts.plane.sheets.inspection import INSPECTION
from parts.plane.sheets.lever_cap import LEVER_CAP_SHEETS
from parts.plane.sheets.match_plate import MATCH_PLATE_SHEETS
from parts.plane.sheets.small_parts import SMALL_PARTS_SHEETS


def sheet_set(run: Run) -> list[SheetEntry]:
    """Return the sheets in the order of the set: the whole plane, its parts from the body on, then the cards."""
    return [
        *ASSEMBLY_SHEETS,
        *BODY_SHEETS,
        *FROG_SHEETS,
        *LEVER_CAP_SHEETS,
        *BLADE_SHEETS,
        *CHIPBREAKER_SHEETS,
        *handle_sheets(run),
        *SMALL_PARTS_SHEETS,
        *MATCH_PLATE_SHEETS,
        *FOUNDRY_CARDS,
        *BLADE_CARDS,
        CUT_PLAN_CARD,
        INSPECTION,
    ]
