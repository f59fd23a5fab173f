"""Measured points from a table file: x, y, z a row."""

from __future__ import annotations

import csv
import math
from pathlib import Path

from shared.errors import Fault, InputError, in_words
from shared.units import MM_PER_IN

_ALLOWED = "three numbers a row, x,y,z in mm; a first row of names may give another unit: x_in,y_in,z_in or z_um"
_SCALE = {"": 1.0, "mm": 1.0, "in": MM_PER_IN, "um": 1e-3, "thou": MM_PER_IN / 1000, "uin": MM_PER_IN * 1e-6}
MOST_FAULTS = 20


def read_points(path: str | Path) -> list[tuple[float, float, float]]:
    """Read measured points [mm] from a CSV file of x, y, z, with or without a first row of names.

    Args:
        path: the file; names such as x_in, z_um give a column's unit, otherwise it is mm. # begins a remark.

    Raises:
        InputError: the file is not there, or a row is not three finite numbers; one fault a row.
    """
    name = str(path)
    try:
        text = Path(path).read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as err:
        raise InputError(Fault(name, "file", in_words(err), "a readable CSV file of x,y,z")) from None
    scale = [1.0, 1.0, 1.0]
    found: list[tuple[float, float, float]] = []
    faults: list[Fault] = []
    first = True
    for number, row in enumerate(csv.reader(text.splitlines(), delimiter=_delimiter(text)), 1):
        cells = [c.strip() for c in row]
        if not any(cells) or cells[0].startswith("#"):
            continue
        names = first and not _is_number(cells[0])
        first = False
        if names:
            scale = _header(cells, f"{name}:{number}")
            continue
        try:
            x, y, z = (float(c) * s for c, s in zip(cells, scale, strict=True))
        except ValueError:
            faults.append(Fault(f"{name}:{number}", "row", repr(",".join(row)), _ALLOWED))
        else:
            if all(math.isfinite(v) for v in (x, y, z)):
                found.append((x, y, z))
            else:
                faults.append(Fault(f"{name}:{number}", "row", repr(",".join(row)), "finite numbers"))
    if faults:
        raise InputError(faults[:MOST_FAULTS])
    return found


def _delimiter(text: str) -> str:
    head = text[:2000]
    return ";" if ";" in head and "," not in head else ","


def _is_number(cell: str) -> bool:
    try:
        float(cell)
    except ValueError:
        return False
    return True


def _header(cells: list[str], where: str) -> list[float]:
    scale = []
    for wanted, cell in zip("xyz", [*cells, "", "", ""][:3], strict=True):
        axis, _, unit = cell.lower().partition("_")
        if axis != wanted or unit not in _SCALE:
            raise InputError(Fault(where, "names", repr(",".join(cells)), _ALLOWED))
        scale.append(_SCALE[unit])
    if len(cells) != 3:
        raise InputError(Fault(where, "names", repr(",".join(cells)), _ALLOWED))
    return scale
