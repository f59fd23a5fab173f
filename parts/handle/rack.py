"""The lumber rack: a CSV of the boards really there, read with every fault said, and written back for leftovers."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from parts.handle.grading import GRADES, read_grade
from parts.handle.lumber import exact_board_feet, usable_thickness_mm
from parts.handle.wood import nearest_hint, species_ids
from shared.errors import Fault, InputError
from shared.units import MM_PER_IN, QuantityError, split_number

PLAIN_COLUMNS = ("board", "species", "grade", "moisture_percent")
SIZED_COLUMNS = ("thickness", "width", "length", "defects")
LIMITS_MM = {"thickness": (3.0, 160.0), "width": (20.0, 1000.0), "length": (100.0, 6500.0)}


@dataclass(frozen=True)
class Defect:
    """A rectangle to avoid, from the board's lower-left corner [mm]."""

    x: float
    y: float
    dx: float
    dy: float


@dataclass(frozen=True)
class Board:
    """One board of the rack: nominal or measured thickness, width, length [mm], moisture [percent]."""

    name: str
    species: str
    thickness_mm: float
    width_mm: float
    length_mm: float
    grade: str
    moisture_percent: float
    defects: tuple[Defect, ...] = ()

    @property
    def usable_thickness_mm(self) -> float:
        """Thickness to count on [mm], kiln-dried scant taken off a nominal one."""
        return usable_thickness_mm(self.thickness_mm)

    @property
    def board_feet(self) -> float:
        """Plain volume of the board at its listed thickness [bf]."""
        return exact_board_feet(self.length_mm, self.width_mm, self.thickness_mm)


def _number(text: str) -> float:
    value, unit = split_number(text)
    if unit:
        raise QuantityError(text, "a number without unit; the column says it")
    return value


class _Reader:
    """Reads one file and gathers its faults."""

    def __init__(self, path: str, text: str) -> None:
        self.path, self.faults = path, list[Fault]()
        lines = text.lstrip("\ufeff").splitlines()
        self.rows = [(i, line) for i, line in enumerate(lines, 1) if line.strip() and not line.lstrip().startswith("#")]
        self.scale: dict[str, tuple[str, float]] = {}

    def fault(self, line: int, column: str, read: object, allowed: str, hint: str = "") -> None:
        self.faults.append(Fault(f"{self.path}:{line}", column, repr(read), allowed, hint))

    def header(self) -> list[str]:
        wanted = ", ".join([*PLAIN_COLUMNS[:2], *(f"{c}_in (or _mm)" for c in SIZED_COLUMNS[:3]), *PLAIN_COLUMNS[2:]])
        if not self.rows:
            self.faults.append(Fault(self.path, "header", "an empty file", wanted + ", defects_in (or _mm)"))
            return []
        line, text = self.rows[0]
        names = [c.strip() for c in next(csv.reader([text]))]
        for name in sorted({n for n in names if names.count(n) > 1}):
            self.fault(line, name, "twice in the header", "each column once")
        known = set(PLAIN_COLUMNS) | {f"{c}_{u}" for c in SIZED_COLUMNS for u in ("in", "mm")}
        for name in names:
            if name not in known:
                self.fault(line, "header", name, ", ".join(sorted(known)))
        for name in PLAIN_COLUMNS:
            if name not in names:
                self.fault(line, name, "no such column", "a column of this name")
        for name in SIZED_COLUMNS:
            units = [u for u in ("in", "mm") if f"{name}_{u}" in names]
            if len(units) != 1:
                self.fault(line, name, units, f"one column, {name}_in or {name}_mm")
                continue
            self.scale[name] = (f"{name}_{units[0]}", MM_PER_IN if units[0] == "in" else 1.0)
        return names

    def size(self, line: int, cells: dict[str, str], what: str) -> float | None:
        column, scale = self.scale[what]
        low, high = LIMITS_MM[what]
        said = f"{low / scale:.4g} to {high / scale:.4g} {'mm' if scale == 1 else 'in'}, such as 6.5 or 6-1/2"
        try:
            value = _number(cells[column]) * scale
        except QuantityError:
            self.fault(line, column, cells[column], said)
            return None
        if not low <= value <= high:
            self.fault(line, column, cells[column], said)
            return None
        return value

    def defects(
        self, line: int, cells: dict[str, str], width: float | None, length: float | None
    ) -> tuple[Defect, ...]:
        column, scale = self.scale["defects"]
        found = []
        for text in filter(None, (t.strip() for t in cells[column].split(";"))):
            bits = text.split()
            try:
                x, y, dx, dy = (_number(b) * scale for b in bits)
            except (ValueError, QuantityError):
                self.fault(line, column, text, "four numbers x y dx dy, ';' between defects")
                continue
            if x < 0 or y < 0 or dx <= 0 or dy <= 0:
                self.fault(line, column, text, "x and y 0 or more, dx and dy more than 0")
            elif length is not None and width is not None and (x + dx > length + 0.05 or y + dy > width + 0.05):
                at = f"{(x + dx) / scale:.4g} by {(y + dy) / scale:.4g}"
                self.fault(
                    line, column, text, f"on the board, {length / scale:.4g} by {width / scale:.4g}", f"it ends at {at}"
                )
            else:
                found.append(Defect(x, y, dx, dy))
        return tuple(found)

    def board(self, line: int, cells: dict[str, str], seen: dict[str, int]) -> Board | None:
        before = len(self.faults)
        name = cells["board"]
        if not name:
            self.fault(line, "board", name, "a name, each board its own")
        elif name in seen:
            self.fault(line, "board", name, "each board its own name", f"first on line {seen[name]}")
        seen.setdefault(name, line)
        if cells["species"] not in species_ids():
            self.fault(line, "species", cells["species"], ", ".join(species_ids()), nearest_hint(cells["species"]))
        thickness, width, length = (self.size(line, cells, w) for w in SIZED_COLUMNS[:3])
        try:
            grade = read_grade(cells["grade"], f"{self.path}:{line}", "grade")
        except InputError:
            self.fault(line, "grade", cells["grade"], ", ".join(g.replace("_", " ") for g in GRADES))
            grade = ""
        try:
            moisture = _number(cells["moisture_percent"])
        except QuantityError:
            moisture = -1.0
        if not 0 < moisture <= 100:
            self.fault(line, "moisture_percent", cells["moisture_percent"], "more than 0 to 100, percent of dry mass")
        defects = self.defects(line, cells, width, length)
        if len(self.faults) > before or thickness is None or width is None or length is None:
            return None
        return Board(name, cells["species"], thickness, width, length, grade, moisture, defects)

    def read(self) -> list[Board]:
        names = self.header()
        boards: list[Board] = []
        seen: dict[str, int] = {}
        if not self.faults:
            for line, text in self.rows[1:]:
                bits = [c.strip() for c in next(csv.reader([text]))]
                if len(bits) == len(names) - 1 and names[-1].startswith("defects"):
                    bits.append("")  # a clear board may leave its last, empty cell out
                if len(bits) != len(names):
                    self.fault(line, "row", f"{len(bits)} cells", f"{len(names)} cells: {', '.join(names)}")
                    continue
                board = self.board(line, dict(zip(names, bits, strict=True)), seen)
                if board is not None:
                    boards.append(board)
            if len(self.rows) == 1:
                self.faults.append(Fault(self.path, "rows", "no board", "at least one board below the header"))
        if self.faults:
            raise InputError(self.faults)
        return boards


def parse_rack(text: str, path: str = "rack.csv") -> list[Board]:
    """Return the boards of a rack CSV's text; lines that start with # are comments.

    Raises:
        InputError: with every fault found: file, row, column, value read, values allowed.
    """
    return _Reader(path, text).read()


def _text(path: Path | str) -> str:
    try:
        return Path(path).read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as err:
        why = getattr(err, "strerror", None) or "not UTF-8 text"
        raise InputError(Fault(str(path), "file", str(why), "a readable CSV file of boards, UTF-8")) from None


def read_rack(path: Path | str) -> list[Board]:
    """Return the boards of a rack CSV file.

    Raises:
        InputError: unreadable file, or any fault in it.
    """
    return parse_rack(_text(path), str(path))


def rack_unit(path: Path | str) -> str:
    """Return the unit that a rack CSV file keeps its lengths in: "in" or "mm", as `write_rack` takes it.

    Raises:
        InputError: unreadable file, or a fault in its header.
    """
    reader = _Reader(str(path), _text(path))
    reader.header()
    if reader.faults:
        raise InputError(reader.faults)
    return reader.scale["length"][0].removeprefix("length_")


def write_rack(boards: Iterable[Board], comment: str = "", unit: str = "in") -> str:
    """Return a rack CSV's text for boards, columns in inches or "mm", with a comment line first if one is given."""
    scale = MM_PER_IN if unit == "in" else 1.0
    out = io.StringIO()
    for line in comment.splitlines():
        out.write(f"# {line}\n")
    head = ["board", "species", *(f"{c}_{unit}" for c in SIZED_COLUMNS[:3]), "grade", "moisture_percent"]
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow([*head, f"defects_{unit}"])

    def say(mm: float) -> str:
        return f"{round(mm / scale, 4):g}"

    for b in boards:
        defects = "; ".join(" ".join(say(v) for v in (d.x, d.y, d.dx, d.dy)) for d in b.defects)
        sizes = [say(b.thickness_mm), say(b.width_mm), say(b.length_mm)]
        writer.writerow([b.name, b.species, *sizes, b.grade.replace("_", " "), f"{b.moisture_percent:g}", defects])
    return out.getvalue()
