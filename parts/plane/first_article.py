"""First article of a plane: the sheet to fill in, and the shop's contraction by alloy from the filled sheet."""

from __future__ import annotations

import csv
import difflib
import io
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from parts.plane.design import Design
from parts.plane.pattern_list import CastPart, pattern_list
from shared.casting.alloy import Alloy, alloy
from shared.casting.first_article import FirstArticle, Measurement, analyse, read_measurements
from shared.errors import Fault, InputError
from shared.record import replace
from shared.units import to_inch

AXES = ("x", "y", "z")  # sizes along no fixed axis, such as radii, tell no axis's contraction
DIFFERS_MM = 0.3  # a pattern that differs more from the list is said: about half of the finest casting tolerance


def template(d: Design) -> str:
    """Return a CSV with every size of the pattern maker's list that lies along an axis, ready to be filled in.

    The pattern's size is the working pattern's at the parting end of the draw, in the unit of the spec. Each size has
    a row for the first casting; further castings repeat the rows under another name in the column `casting`.
    """
    inch = d.spec.units == "inch"
    unit = "in" if inch else "mm"
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(["part", "casting", "feature", "axis", f"pattern_{unit}", f"casting_{unit}"])
    for part in pattern_list(d):
        for row in part.rows:
            if row.axis in AXES:
                size = f"{to_inch(row.pattern_mm):.4f}" if inch else f"{row.pattern_mm:.2f}"
                writer.writerow([part.part, "1", row.feature, row.axis, size, ""])
    return out.getvalue()


@dataclass(frozen=True)
class Measured:
    """What the first article of one alloy says."""

    metal: Alloy
    parts: tuple[str, ...]
    result: FirstArticle
    lines: tuple[str, ...]  # for shop.toml
    notes: tuple[str, ...]


def judge(d: Design, path: Path, confidence: float) -> list[Measured]:
    """Return the contraction of each alloy that was measured.

    Args:
        d: the plane; its list tells which part is of which alloy.
        path: the filled sheet (CSV); without a column `part` all of it is the body's.
        confidence: of the intervals [-].

    Raises:
        InputError: a fault in the file, one message each, or a part or feature that is not on the plane's sheet.
        RequestError: a contraction that no pattern is built with.
    """
    lists = {p.part: p for p in pattern_list(d)}
    measured = [replace(m, part=m.part or "body") for m in read_measurements(path)]
    allowed = "one of " + ", ".join(lists)
    strange = [Fault(f"{path}:{m.line}", "part", repr(m.part), allowed) for m in measured if m.part not in lists]
    strange += [
        _strange(m, lists[m.part], path) for m in measured if m.part in lists and not _on_sheet(m, lists[m.part])
    ]
    if strange:
        raise InputError(sorted(strange, key=lambda fault: int(fault.where.rpartition(":")[2])))
    found = []
    for alloy_id in dict.fromkeys(lists[m.part].alloy for m in measured):
        rows = [m for m in measured if lists[m.part].alloy == alloy_id]
        parts = tuple(dict.fromkeys(m.part for m in rows))
        named = [replace(m, feature=f"{m.part}: {m.feature}") for m in rows]
        result = analyse(named, confidence, _grades(parts, lists))
        notes = _pattern_notes(rows, lists)
        if d.shop.pattern.rapping:
            notes.append(
                f"pattern.rapping of {d.shop.pattern.rapping:g} mm is in these sizes: the contraction found is what "
                "pattern and mould do together; set rapping to 0 when taking it over"
            )
        lines = tuple(result.shop_lines(alloy_id))
        found.append(Measured(alloy(alloy_id), parts, result, lines, tuple(notes)))
    return found


def _grades(parts: Sequence[str], lists: dict[str, CastPart]) -> dict[str, int]:
    """Return the tolerance grade of each size of some parts, named as in the analysis."""
    return {f"{part}: {row.feature}": row.grade for part in parts for row in lists[part].rows}


def _on_sheet(m: Measurement, part: CastPart) -> bool:
    return any(row.feature == m.feature for row in part.rows if row.axis in AXES)


def _strange(m: Measurement, part: CastPart, path: Path) -> Fault:
    names = [row.feature for row in part.rows if row.axis in AXES]
    near = difflib.get_close_matches(m.feature, names, 1, 0.4)
    hint = f"did you mean {near[0]!r}?" if near else ""
    return Fault(f"{path}:{m.line}", "feature", repr(m.feature), f"a size of the {part.part} on its sheet", hint)


def _pattern_notes(rows: Sequence[Measurement], lists: dict[str, CastPart]) -> list[str]:
    """Return what differs between the measured patterns and today's list."""
    notes = []
    seen = set()
    for m in rows:
        key = (m.part, m.feature)
        if key in seen:
            continue
        seen.add(key)
        row = next(r for r in lists[m.part].rows if r.feature == m.feature and r.axis in AXES)
        if row.axis != m.axis:
            notes.append(f"{m.part}: {m.feature!r} lies along {row.axis} on the pattern maker's list, not {m.axis}")
        elif abs(row.pattern_mm - m.pattern_mm) > DIFFERS_MM:
            notes.append(
                f"{m.part}: the pattern's {m.feature} measures {m.pattern_mm:.2f} mm, the list asks for "
                f"{row.pattern_mm:.2f} mm; the measured size counts"
            )
    return notes
