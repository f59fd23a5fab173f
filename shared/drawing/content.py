"""What a leader carries: lines of text, tolerance frames (ISO 1101 / ASME Y14.5), surface texture. Paper mm."""

from __future__ import annotations

from dataclasses import dataclass

from shared.drawing import lettering
from shared.drawing.dimtext import DimText
from shared.drawing.marks import TEXT, Mark, Piece, Sign, Stroke, rectangle
from shared.drawing.primitives import Line, Note
from shared.drawing.symbols import SYMBOLS, TOLERANCED
from shared.errors import Fault, InputError
from shared.segments import Point
from shared.units import MM_PER_IN

# Ra [um] of the usual series, and the step of the inch series [microinch] each is called by (ISO 1302, from memory)
SERIES = {0.025: 1, 0.05: 2, 0.1: 4, 0.2: 8, 0.4: 16, 0.8: 32, 1.6: 63, 3.2: 125, 6.3: 250, 12.5: 500, 25.0: 1000}
LINE = 1.65  # from foot to foot of two lines of text, per capital height


def ra_text(ra_um: float, unit: str) -> str:
    """Return a surface texture Ra [um] in both units, "inch" or "mm" first: "Ra 125 µin [3.2 µm]"."""
    inch, metric = f"{SERIES.get(ra_um, round(ra_um / MM_PER_IN * 1000))} µin", f"{ra_um:g} µm"
    return f"Ra {inch} [{metric}]" if unit == "inch" else f"Ra {metric} [{inch}]"


@dataclass(frozen=True)
class TextRow:
    """A line of text."""

    text: str
    height: float = TEXT

    @property
    def size(self) -> tuple[float, float]:
        """Width and height [mm]."""
        return lettering.width(self.text, self.height), LINE * self.height

    def marks(self, at: Point) -> list[Mark]:
        """Return what is drawn with the lower left corner at a point [mm]."""
        foot = (at[0], at[1] + lettering.BELOW * self.height)
        return [Stroke("DIM", Note(self.text, foot, self.height))]


@dataclass(frozen=True)
class DimRow:
    """A dimension's text on a line of its own."""

    text: DimText

    @property
    def size(self) -> tuple[float, float]:
        """Width and height [mm]."""
        return self.text.width, self.text.rise + self.text.drop + 0.8

    def marks(self, at: Point) -> list[Mark]:
        """Return what is drawn with the lower left corner at a point [mm]."""
        return list(self.text.strokes((at[0], at[1] + self.text.drop)))


@dataclass(frozen=True)
class Frame:
    """A tolerance frame: symbol, value [mm], datum letters; `diameter` for a round zone, `modifier` such as "M".

    `note` stands over the frame ("4×"), `unit` is the unit that is shown first.
    """

    symbol: str
    value: float
    datums: tuple[str, ...] = ()
    diameter: bool = False
    modifier: str = ""
    note: str = ""
    unit: str = "inch"

    def __post_init__(self) -> None:
        if self.symbol not in TOLERANCED:
            raise InputError(Fault("sheet", "tolerance symbol", repr(self.symbol), ", ".join(TOLERANCED)))

    @property
    def text(self) -> str:
        """The tolerance in both units."""
        inch, mm = f"{self.value / MM_PER_IN:.4f}", f"{self.value:.3f}"
        inch = inch[:-1] if inch.endswith("0") else inch
        first, other = (inch, mm) if self.unit == "inch" else (mm, inch)
        sign = "Ø" if self.diameter else ""
        tail = f" ({self.modifier})" if self.modifier else ""
        return f"{sign}{first} [{other}]{tail}"

    def _cells(self) -> list[tuple[str, float]]:
        h = TEXT
        cells = [(self.text, lettering.width(self.text, h) + 2.0)]
        return cells + [(d, max(2 * h, lettering.width(d, h) + 2.0)) for d in self.datums]

    @property
    def size(self) -> tuple[float, float]:
        """Width and height [mm]."""
        note = lettering.width(self.note, TEXT) if self.note else 0.0
        wide = 2 * TEXT + sum(w for _, w in self._cells())
        return max(note, wide), 2 * TEXT + 0.8 + (LINE * TEXT if self.note else 0.0)

    def marks(self, at: Point) -> list[Mark]:
        """Return what is drawn with the lower left corner at a point [mm]."""
        h = TEXT
        u, v = at[0], at[1] + 0.4
        foot = v + h / 2
        out: list[Mark] = [*rectangle(u, v, u + 2 * h, v + 2 * h, "GDT"),
                           Sign(self.symbol, (u + 0.4 * h, v + 0.4 * h), 1.2 * h)]  # fmt: skip
        u += 2 * h
        for text, w in self._cells():
            out += rectangle(u, v, u + w, v + 2 * h, "GDT")
            out.append(Stroke("GDT", Note(text, (u + w / 2, foot), h, 0.0, "centre")))
            u += w
        if self.note:
            out.append(Stroke("GDT", Note(self.note, (at[0], v + 2 * h + 1.0), h)))
        return out


@dataclass(frozen=True)
class Texture:
    """Surface texture after ISO 21920-1: Ra [um], machined ("machined"), as cast ("as cast") or any process ("")."""

    ra_um: float
    process: str = "machined"
    note: str = ""
    unit: str = "inch"

    def __post_init__(self) -> None:
        if f"texture {self.process}".strip() not in SYMBOLS:
            raise InputError(Fault("sheet", "surface process", repr(self.process), '"machined", "as cast" or ""'))

    @property
    def text(self) -> str:
        """Roughness in both units: micrometres, and microinches."""
        return ra_text(self.ra_um, self.unit) + (f" {self.note}" if self.note else "")

    @property
    def size(self) -> tuple[float, float]:
        """Width and height [mm]."""
        return 1.2 * 2.4 * TEXT + lettering.width(self.text, TEXT) + 0.8, 2.4 * TEXT + 0.4

    def marks(self, at: Point) -> list[Mark]:
        """Return what is drawn with the lower left corner at a point [mm]."""
        tall = 2.4 * TEXT
        u = at[0] + 1.2 * tall
        w = lettering.width(self.text, TEXT)
        name = f"texture {self.process}".strip()
        return [Sign(name, at, tall), Stroke("GDT", Line((at[0] + 1.08 * tall, at[1] + tall), (u + w, at[1] + tall))),
                Stroke("GDT", Note(self.text, (u, at[1] + tall - 1.35 * TEXT - 0.1), TEXT))]  # fmt: skip


Row = TextRow | DimRow | Frame | Texture


def stack(rows: list[Row]) -> Piece:
    """Return rows one under the other, left-aligned, with the lower left corner of all at the origin."""
    height = sum(r.size[1] for r in rows)
    width = max(r.size[0] for r in rows)
    marks: list[Mark] = []
    v = height
    for r in rows:
        v -= r.size[1]
        marks += r.marks((0.0, v))
    return Piece(marks, (0.0, 0.0, width, height))
