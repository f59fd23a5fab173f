"""The sheets of a bench plane, in the order of its book."""

from __future__ import annotations

from parts.plane.run import Run
from parts.plane.sheets.body import BODY_SHEETS
from parts.plane.sheets.common import SheetEntry
from parts.plane.sheets.handle import HANDLE_SHEETS


def sheet_set(run: Run) -> list[SheetEntry]:
    """Return the sheets in the order of the set."""
    return [*BODY_SHEETS, *HANDLE_SHEETS]
