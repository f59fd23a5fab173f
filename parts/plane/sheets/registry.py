"""The sheet set of a plane, in the order of the book; each kind of plane says which sheets it has."""

from __future__ import annotations

from parts.plane import kinds
from parts.plane.run import Run
from parts.plane.sheets.common import SheetEntry


def sheet_set(run: Run) -> list[SheetEntry]:
    """Return the sheets of a plane: `SHEETS` of the package that composes its kind."""
    found: list[SheetEntry] = kinds.of(run.design.spec.plane.kind, "sheets").sheet_set(run)
    return found
