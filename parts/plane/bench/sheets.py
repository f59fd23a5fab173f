"""The sheets of a bench plane, in the order of its book."""

from __future__ import annotations

from parts.plane.run import Run
from parts.plane.sheets.blade import BLADE_SHEETS
from parts.plane.sheets.body import BODY_SHEETS
from parts.plane.sheets.cards import BLADE_CARDS
from parts.plane.sheets.chipbreaker import CHIPBREAKER_SHEETS
from parts.plane.sheets.common import SheetEntry
from parts.plane.sheets.cut_plan_card import CUT_PLAN_CARD
from parts.plane.sheets.foundry_cards import FOUNDRY_CARDS
from parts.plane.sheets.handle import handle_sheets
from parts.plane.sheets.inspection import INSPECTION


def sheet_set(run: Run) -> list[SheetEntry]:
    """Return the sheets in the order of the set: parts from the body on, then the cards."""
    return [
        *BODY_SHEETS,
        *BLADE_SHEETS,
        *CHIPBREAKER_SHEETS,
        *handle_sheets(run),
        *FOUNDRY_CARDS,
        *BLADE_CARDS,
        CUT_PLAN_CARD,
        INSPECTION,
    ]
