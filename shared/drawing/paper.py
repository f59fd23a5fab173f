"""Sheets of paper and drawing scales. All lengths mm.

ISO sizes: ISO 216 (A series) with the frame of ISO 5457: 20 mm filing margin at the left, 10 mm elsewhere, A4 upright.
ANSI sizes: ASME Y14.1 A to E; their margins are written from memory. Scales: ISO 5455, from memory.
"""

from __future__ import annotations

from dataclasses import dataclass

from shared.errors import Fault, InputError
from shared.units import MM_PER_IN

Rect = tuple[float, float, float, float]  # u_min, v_min, u_max, v_max [mm]


@dataclass(frozen=True)
class Paper:
    """A sheet: name, width and height [mm] as it lies, and the margins left, right, below and above the frame [mm]."""

    name: str
    width: float
    height: float
    margins: tuple[float, float, float, float]
    fields: tuple[int, int]  # zones along the width and up the height [-]

    @property
    def frame(self) -> Rect:
        """The frame of the drawing space (u_min, v_min, u_max, v_max) [mm], from the lower left corner of the paper."""
        left, right, low, high = self.margins
        return left, low, self.width - right, self.height - high

    def turned(self) -> Paper:
        """Return the sheet lying the other way, with the same margins."""
        return Paper(self.name, self.height, self.width, self.margins, (self.fields[1], self.fields[0]))

    def with_margin(self, margin: float) -> Paper:
        """Return the sheet with one margin [mm] all round, for pages that are not drawing sheets."""
        return Paper(self.name, self.width, self.height, (margin,) * 4, self.fields)


_ISO_MARGINS = (20.0, 10.0, 10.0, 10.0)
# zones of 50 mm counted from the axes of symmetry: ISO 5457, from memory
ISO = {
    "A4": Paper("A4", 210.0, 297.0, _ISO_MARGINS, (4, 6)),
    "A3": Paper("A3", 420.0, 297.0, _ISO_MARGINS, (8, 6)),
    "A2": Paper("A2", 594.0, 420.0, _ISO_MARGINS, (12, 8)),
    "A1": Paper("A1", 841.0, 594.0, _ISO_MARGINS, (16, 12)),
    "A0": Paper("A0", 1189.0, 841.0, _ISO_MARGINS, (24, 16)),
}


def _inch(name: str, width: float, height: float, across: float, up: float, fields: tuple[int, int]) -> Paper:
    """Return a sheet given in inches; `across` is the margin left and right, `up` that below and above [in]."""
    k = MM_PER_IN
    return Paper(name, width * k, height * k, (across * k, across * k, up * k, up * k), fields)


# ASME Y14.1: sizes known, margins and zones from memory
ANSI = {
    "A": _inch("A", 11.0, 8.5, 0.38, 0.25, (2, 2)),
    "B": _inch("B", 17.0, 11.0, 0.62, 0.38, (4, 2)),
    "C": _inch("C", 22.0, 17.0, 0.50, 0.75, (4, 4)),
    "D": _inch("D", 34.0, 22.0, 1.00, 0.50, (8, 4)),
    "E": _inch("E", 44.0, 34.0, 0.50, 1.00, (8, 8)),
}
PAPERS = {**ISO, **ANSI}

SCALES = ("50:1", "20:1", "10:1", "5:1", "2:1", "1:1", "1:2", "1:5", "1:10", "1:20", "1:50", "1:100")


def paper(name: str) -> Paper:
    """Return a sheet by name.

    Raises:
        InputError: no such size.
    """
    if name not in PAPERS:
        raise InputError(Fault("sheet", "paper", repr(name), ", ".join(PAPERS)))
    return PAPERS[name]


def family(name: str) -> tuple[str, ...]:
    """Return the names of a family of sheets, "iso" or "ansi", smallest first.

    Raises:
        InputError: no such family.
    """
    rows = {"iso": ISO, "ansi": ANSI}
    if name not in rows:
        raise InputError(Fault("sheet", "paper family", repr(name), '"iso" or "ansi"'))
    return tuple(rows[name])


def scale_factor(scale: str) -> float:
    """Return paper mm per model mm of a scale such as "1:2".

    Raises:
        InputError: not written as two positive numbers with a colon.
    """
    a, colon, b = scale.partition(":")
    try:
        top, bottom = float(a), float(b)
    except ValueError:
        top = bottom = 0.0
    if not colon or top <= 0 or bottom <= 0:
        raise InputError(Fault("sheet", "scale", repr(scale), 'two numbers such as "1:2" or "2:1"'))
    return top / bottom


def smaller_scales(scale: str) -> tuple[str, ...]:
    """Return the standard scales smaller than one, largest first."""
    k = scale_factor(scale)
    return tuple(s for s in SCALES if scale_factor(s) < k * (1 - 1e-9))
