"""The state of a view being written on: scale, raster of what is drawn, boxes of texts, marks so far. Paper mm."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from shared.drawing import marks as m
from shared.drawing.grid import Grid
from shared.drawing.primitives import Line
from shared.segments import Point, add, dot, sub


@dataclass
class Canvas:
    """What annotations are placed on.

    Attributes:
        k: paper mm per model mm [-].
        unit: the unit that stands first.
        grid: raster of ink and texts.
        base: extent of the view itself [mm].
        rect: extent of the view and all marks [mm].
        marks: what has been drawn.
        boxes: rectangles of every text, so that lines can be broken at them.
    """

    k: float
    unit: str
    grid: Grid
    base: tuple[float, float, float, float]
    rect: m.Rect = (0.0, 0.0, 0.0, 0.0)
    marks: list[m.Mark] = field(default_factory=list)
    boxes: list[m.Box] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.rect = self.base

    def add(self, marks: list[m.Mark]) -> None:
        """Draw marks and note what they cover."""
        self.marks += marks
        self.rect = m.extent(marks, self.rect)
        self.grid.add(marks)
        for s in m.flat(marks):
            if isinstance(s.what, m.Note):
                self.boxes.append(m.note_box(s.what))

    def own(self, note: m.Note) -> None:
        """Note the room of a text that the view itself draws, given on paper."""
        box = m.note_box(note)
        self.boxes.append(box)
        r, s = self.rect, box.rect
        self.rect = min(r[0], s[0]), min(r[1], s[1]), max(r[2], s[2]), max(r[3], s[3])

    def frame(self, marks: list[m.Mark]) -> None:
        """Draw a letter in a frame that no line may cross."""
        self.add(marks)
        lines = [s.what for s in m.flat(marks) if isinstance(s.what, Line) and s.what.length > m.TEXT]
        for s in lines:
            self.grid.path([s.start, s.end], text=True)
        letter = next(m.note_box(s.what) for s in m.flat(marks) if isinstance(s.what, m.Note))
        side = max(s.length for s in lines)
        u, v = (letter.rect[0] + letter.rect[2]) / 2, (letter.rect[1] + letter.rect[3]) / 2
        self.boxes.append(m.Box((u - side / 2, v - side / 2), side, side))

    def broken(self, a: Point, b: Point, layer: str, gap: float = 0.5) -> list[m.Stroke]:
        """Return the line from a to b [mm] with gaps where a text stands."""
        length = math.dist(a, b)
        if length < 1e-9:
            return []
        way = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
        spans = [(0.0, length)]
        for box in self.boxes:
            hit = _through(box, a, way, gap)
            if hit:
                spans = [q for s in spans for q in ((s[0], min(s[1], hit[0])), (max(s[0], hit[1]), s[1]))
                         if q[1] - q[0] > 0.3]  # fmt: skip
        return [m.Stroke(layer, Line(add(a, way, s), add(a, way, t))) for s, t in spans]


def _through(box: m.Box, a: Point, way: Point, gap: float) -> tuple[float, float] | None:
    """Return where an endless line enters and leaves a rectangle grown by `gap` [mm]."""
    lo, hi = -math.inf, math.inf
    along, up = (sub(c, box.at) for c in (box.corners()[1], box.corners()[3]))
    for axis, size in ((along, box.width), (up, box.height)):
        n = (axis[0] / size, axis[1] / size)
        p, d = dot(sub(a, box.at), n), dot(way, n)
        if abs(d) < 1e-9:
            if not -gap < p < size + gap:
                return None
            continue
        t0, t1 = sorted(((-gap - p) / d, (size + gap - p) / d))
        lo, hi = max(lo, t0), min(hi, t1)
    return (lo, hi) if lo < hi else None
