"""Tables and notes as blocks of fixed size, with text that wraps and rows that carry on. Paper mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shared.drawing import lettering
from shared.drawing.content import LINE
from shared.drawing.marks import TEXT, Mark, Piece, Stroke, rectangle
from shared.drawing.primitives import Line, Note

PAD = 1.2


@dataclass(frozen=True)
class Table:
    """Columns and rows of text with a title; `widths` [mm] or None to fit the text."""

    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    title: str = ""
    widths: tuple[float, ...] | None = None
    height: float = TEXT

    def _widths(self, room: float) -> list[float]:
        if self.widths is not None:
            return list(self.widths)
        cells = (self.columns, *self.rows)
        want = [max(lettering.width(lettering.clean(r[i]), self.height) for r in cells) + 2 * PAD + 0.1
                for i in range(len(self.columns))]  # fmt: skip
        over = sum(want) - room
        while over > 0.01:
            # take from the widest column, down to the next
            widest = max(range(len(want)), key=lambda i: want[i])
            others = [w for i, w in enumerate(want) if i != widest]
            floor = max([14.0, *(w for w in others if w < want[widest] - 0.01)])
            cut = min(over, max(want[widest] - floor, 0.5))
            want[widest] -= cut
            over -= cut
            if want[widest] < 8.0:
                break
        return want

    def pieces(self, room: float, tall: float) -> list[Piece]:
        """Return the table as one block or more.

        Args:
            room: greatest width [mm].
            tall: greatest height of a block [mm]; rows that do not fit carry on in the next with the head repeated.
        """
        widths = self._widths(room)
        head = self._row(self.columns, widths)
        body = [self._row(r, widths) for r in self.rows]
        title_high = LINE * self.height + 1.5 if self.title else 0.0
        # a cell longer than a whole block carries on in a row of its own
        most = max(1, int((tall - title_high - self._high(head) - 1.5) / (LINE * self.height)))
        body = [part for r in body for part in _parts(r, most)]
        out: list[list[list[list[str]]]] = [[]]
        used = title_high + self._high(head)
        for r in body:
            if out[-1] and used + self._high(r) > tall:
                out.append([])
                used = title_high + self._high(head)
            out[-1].append(r)
            used += self._high(r)
        return [self._block(head, rows, widths, i) for i, rows in enumerate(out)]

    def _row(self, cells: Sequence[str], widths: list[float]) -> list[list[str]]:
        return [lettering.wrap(c, self.height, w - 2 * PAD) for c, w in zip(cells, widths, strict=True)]

    def _high(self, row: list[list[str]]) -> float:
        return max(len(c) for c in row) * LINE * self.height + 1.4

    def _block(self, head: list[list[str]], rows: list[list[list[str]]], widths: list[float], i: int) -> Piece:
        h = self.height
        marks: list[Mark] = []
        total = sum(widths)
        title_high = LINE * h + 1.5 if self.title else 0.0
        high = title_high + sum(self._high(r) for r in (head, *rows))
        v = high
        if self.title:
            name = self.title if i == 0 else f"{self.title} (continued)"
            marks.append(Stroke("TEXT", Note(lettering.clean(name), (0.0, v - h - 0.4), h + 0.5)))
            v -= title_high
        top = v
        for n, row in enumerate((head, *rows)):
            u = 0.0
            for lines, w in zip(row, widths, strict=True):
                for j, text in enumerate(lines):
                    if text:
                        foot = v - 0.7 - LINE * h * j - 1.32 * h
                        marks.append(Stroke("TABLE", Note(text, (u + PAD, foot), h)))
                u += w
            v -= self._high(row)
            marks.append(Stroke("OUTLINE" if n == 0 else "TABLE", Line((0.0, v), (total, v))))
        marks += rectangle(0.0, v, total, top, "TABLE")
        u = 0.0
        for w in widths[:-1]:
            u += w
            marks.append(Stroke("TABLE", Line((u, v), (u, top))))
        return Piece(marks, (0.0, 0.0, max(total, lettering.width(self.title, h + 0.5) + 25.0 if self.title else 0.0),
                             high))  # fmt: skip


def _parts(row: list[list[str]], most: int) -> list[list[list[str]]]:
    """Return a row as one or more of no more than `most` lines each."""
    count = max(1, -(-max(len(c) for c in row) // most))
    return [[c[i * most : (i + 1) * most] for c in row] for i in range(count)]


@dataclass(frozen=True)
class Notes:
    """Numbered notes under a heading."""

    lines: tuple[str, ...]
    title: str = "Notes"
    numbered: bool = True
    height: float = TEXT
    start: int = 1

    def pieces(self, room: float, tall: float) -> list[Piece]:
        """Return the notes as one block or more of a width [mm] and a greatest height [mm]."""
        h = self.height
        indent = 6.0 if self.numbered else 0.0
        rows: list[tuple[str, str]] = []
        for n, text in enumerate(self.lines, self.start):
            for j, line in enumerate(lettering.wrap(text, h, room - indent)):
                rows.append((f"{n}" if self.numbered and j == 0 else "", line))
        per_block = max(1, int((tall - LINE * h - 2.0) / (LINE * h)))
        out = []
        for first in range(0, max(1, len(rows)), per_block):
            out.append(self._block(rows[first : first + per_block], indent, first == 0))
        return out

    def _block(self, rows: list[tuple[str, str]], indent: float, first: bool) -> Piece:
        h = self.height
        head = LINE * h + 1.5
        high = head + len(rows) * LINE * h
        name = self.title if first else f"{self.title} (continued)"
        marks: list[Mark] = [Stroke("TEXT", Note(name, (0.0, high - h - 0.5), h + 0.5))]
        wide = lettering.width(name, h + 0.5)
        for j, (number, text) in enumerate(rows):
            foot = high - head - LINE * h * j - 1.3 * h
            if number:
                marks.append(Stroke("TEXT", Note(number, (0.0, foot), h)))
            if text:
                marks.append(Stroke("TEXT", Note(text, (indent, foot), h)))
                wide = max(wide, indent + lettering.width(text, h))
        return Piece(marks, (0.0, 0.0, wide, high))


Block = Table | Notes
