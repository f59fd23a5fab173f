"""Reading a list of pieces for one board: name,length_mm,width_mm,count,value."""

from __future__ import annotations

import csv
import math
from pathlib import Path

from parts.handle.cutplan.guillotine import Item
from shared.errors import Fault, InputError

COLUMNS = ("name", "length_mm", "width_mm", "count", "value")
MOST_KINDS = 200


def parse_pieces(text: str, path: str) -> list[Item]:
    """Return the pieces of a CSV's text; an empty count means any number, an empty or 0 value the area.

    Raises:
        InputError: with every fault: file, line, column, value read, values allowed.
    """
    faults: list[Fault] = []
    lines = text.lstrip("\ufeff").splitlines()
    rows = [(i, s) for i, s in enumerate(lines, 1) if s.strip() and not s.lstrip().startswith("#")]
    names = [c.strip() for c in next(csv.reader([rows[0][1]]))] if rows else []
    missing = [c for c in COLUMNS[:4] if c not in names]
    if missing or sorted(set(names)) != sorted(names) or not set(names) <= set(COLUMNS):
        raise InputError(Fault(path, "header", ",".join(names) or "an empty file", ",".join(COLUMNS)))

    def number(line: int, column: str, text: str, low: float, allowed: str) -> float | None:
        try:
            value = float(text)
        except ValueError:
            value = math.nan
        if not math.isfinite(value) or value < low:
            faults.append(Fault(f"{path}:{line}", column, repr(text), allowed))
            return None
        return value

    items: list[Item] = []
    for line, row in rows[1:]:
        bits = [c.strip() for c in next(csv.reader([row]))]
        if len(bits) != len(names):
            faults.append(
                Fault(f"{path}:{line}", "row", f"{len(bits)} cells", f"{len(names)} cells: {','.join(names)}")
            )
            continue
        cells = dict(zip(names, bits, strict=True))
        if not cells["name"]:
            faults.append(Fault(f"{path}:{line}", "name", "''", "a name"))
        length = number(line, "length_mm", cells["length_mm"], 0.01, "a length of 0.01 mm or more")
        width = number(line, "width_mm", cells["width_mm"], 0.01, "a width of 0.01 mm or more")
        count: float | None = None
        if cells["count"]:
            count = number(line, "count", cells["count"], 1, "a whole number, 1 or more; empty: any number")
            if count is not None and count != int(count):
                faults.append(Fault(f"{path}:{line}", "count", repr(cells["count"]), "a whole number"))
        value = number(line, "value", cells.get("value") or "0", 0, "0 (area) or more")
        if length and width and value is not None:
            items.append(Item(cells["name"], length, width, None if count is None else int(count), value))
    if not faults and not items:
        faults.append(Fault(path, "rows", "no piece", "at least one piece below the header"))
    if len(items) > MOST_KINDS:
        faults.append(Fault(path, "rows", f"{len(items)} kinds", f"at most {MOST_KINDS}"))
    if faults:
        raise InputError(faults)
    return items


def read_pieces(path: Path) -> list[Item]:
    """Return the pieces of a CSV file.

    Raises:
        InputError: unreadable file or any fault in it.
    """
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as err:
        why = getattr(err, "strerror", None) or "not UTF-8 text"
        raise InputError(Fault(str(path), "file", str(why), "a readable CSV file, UTF-8")) from None
    return parse_pieces(text, str(path))
