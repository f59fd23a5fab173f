"""The book's parts list: the lines of the assembly sheet, with the lever cap's own list below its line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from parts.plane.sheets.assembly_list import SHEETS, TURNED, Item, items, list_rows
from parts.plane.sheets.lever_cap import NAMES
from parts.plane.sheets.lever_cap import list_rows as cap_rows
from shared.book.content import PartLine, Shape
from shared.drawing.title import mass_text
from shared.record import replace

if TYPE_CHECKING:
    from parts.plane.run import Run

CAP = "lever cap"


def part_lines(run: Run, shapes: Sequence[Shape]) -> tuple[tuple[PartLine, ...], tuple[Shape, ...]]:
    """Return the parts list, and the shapes with the numbers and names that it gives them.

    Args:
        run: the build.
        shapes: of the 3-D view, those of the assembly under the names of its pieces.
    """
    by_name = {s.name: s for s in shapes}
    found, called = [], {}
    lines = items(run)
    for item, row in zip(lines, list_rows(run, lines), strict=True):
        several = item.name == CAP and len(item.pieces) > 1
        found.append(_line(item, row, by_name, several))
        inner = _cap_lines(run, item, by_name) if several else {}
        found += inner.values()
        for piece in item.pieces:
            side = piece.removeprefix(item.name) if piece != item.name and not several else ""
            line = inner.get(piece, found[-1])
            called[piece] = (line.number, line.name + side)
    told = tuple(replace(s, number=called[s.name][0], name=called[s.name][1]) if s.name in called else s
                 for s in shapes)  # fmt: skip
    return tuple(found), told


def note(lines: Sequence[PartLine]) -> str:
    """Return whose numbers the list has."""
    inner = " Parts of the lever cap have the number of their line, then that of the lever cap's sheet."
    return "Numbered as on the assembly sheet." + (inner if any(line.inner for line in lines) else "")


def whole_mass(run: Run) -> str:
    """Return the mass of the plane in both units."""
    return mass_text(run.models.mass_and_centre()[0], run.design.spec.units)


def _line(item: Item, row: Sequence[str], by_name: Mapping[str, Shape], several: bool) -> PartLine:
    number, name, quantity, material, mass, where = row
    shape = by_name[item.pieces[0]]
    return PartLine(
        number, name, quantity, material, mass, where, f"pdf/{SHEETS.get(item.name, TURNED)}.pdf",
        None if several else shape.size, () if several else tuple(shape.stages), None if several else shape.colour,
    )  # fmt: skip


def _cap_lines(run: Run, item: Item, by_name: Mapping[str, Shape]) -> dict[str, PartLine]:
    """Return the lines of the lever cap's own list by the name of their piece."""
    found = {}
    for name, row in zip(NAMES, cap_rows(run), strict=True):
        number, called, quantity, material, mass, sheet = row
        shape = by_name[f"{CAP} {name}"]
        found[shape.name] = PartLine(
            f"{item.number}.{number}", called, quantity, material, mass, sheet, f"pdf/{sheet}.pdf", shape.size,
            tuple(shape.stages), shape.colour, inner=True,
        )  # fmt: skip
    return found
