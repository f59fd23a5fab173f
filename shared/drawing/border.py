"""The frame of a sheet with its centring marks and zones, after ISO 5457. Paper mm."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from shared.drawing.marks import Mark, Stroke, rectangle
from shared.drawing.paper import Paper
from shared.drawing.primitives import Line, Note
from shared.segments import Point

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # no I and no O
ZONE = 50.0  # length of a field, counted from the axes of symmetry (ISO 5457, from memory)
SMALLEST = ("A4", "A")
MARK = 5.0  # mm that a centring mark reaches into the drawing space
Rect = tuple[float, float, float, float]


def border(paper: Paper, block_at: Rect | None = None) -> list[Mark]:
    """Return the frame, the centring marks and the zones with their letters and numerals.

    Args:
        paper: the sheet.
        block_at: extent of the title block [mm], which centring marks do not enter.
    """
    u0, v0, u1, v1 = paper.frame
    marks: list[Mark] = [*rectangle(u0, v0, u1, v1, "FRAME")]
    mid = paper.width / 2, paper.height / 2
    band = min(5.0, *paper.margins[1:])
    for a, b in (((u0 - band, mid[1]), (u0 + MARK, mid[1])), ((u1 + band, mid[1]), (u1 - MARK, mid[1])),
                 ((mid[0], v0 - band), (mid[0], v0 + MARK)), ((mid[0], v1 + band), (mid[0], v1 - MARK))):  # fmt: skip
        inside = block_at and block_at[0] < b[0] < block_at[2] and block_at[1] <= b[1] < block_at[3]
        marks.append(Stroke("FRAME", Line(a, (b[0], v0) if inside else b)))
    size = min(2.5, 0.55 * band)
    for name, lo, hi, first in _fields(u0, u1, mid[0], paper.fields[0], _numeral):
        # the smallest sheets have them on top only (ISO 5457, from memory); a packet's footer stands below
        for v, out in ((v1, band),) if paper.name in SMALLEST else ((v1, band), (v0, -band)):
            marks.append(_name(name, ((lo + hi) / 2, v + out / 2), size))
            if not first and abs(lo - mid[0]) > 0.1:
                marks.append(Stroke("TITLE", Line((lo, v), (lo, v + out))))
    for name, lo, hi, first in _fields(v0, v1, mid[1], paper.fields[1], _letter):
        for u, out in ((u0, -band), (u1, band)):
            marks.append(_name(name, (u + out / 2, (lo + hi) / 2), size))
            if not first and abs(lo - mid[1]) > 0.1:
                marks.append(Stroke("TITLE", Line((u, lo), (u + out, lo))))
    return marks


def _numeral(i: int, count: int) -> str:
    return str(i + 1)


def _letter(i: int, count: int) -> str:
    """Return the letter of the i-th field from below: A stands at the top."""
    return LETTERS[count - 1 - i]


def _fields(lo: float, hi: float, mid: float, count: int, name: Callable[[int, int], str],
            ) -> Iterator[tuple[str, float, float, bool]]:  # fmt: skip
    """Yield name, ends [mm] and whether it is the first of each field; the outer ones take what is left over."""
    step = ZONE if hi - lo <= count * ZONE else (hi - lo) / count
    for i in range(count):
        a = lo if i == 0 else mid + (i - count / 2) * step
        b = hi if i == count - 1 else mid + (i + 1 - count / 2) * step
        yield name(i, count), a, b, i == 0


def _name(text: str, at: Point, size: float) -> Mark:
    return Stroke("TITLE", Note(text, (at[0], at[1] - size / 2), size, 0.0, "centre"))
