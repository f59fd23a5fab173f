"""Rows of dimensions outside a view: shorter ones nearer, no text on a line, extension lines broken at texts. Paper mm.

A side has its own axes: t along it, s outward from the view's edge.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from shared.drawing import marks as m
from shared.drawing.annotations import Linear
from shared.drawing.canvas import Canvas
from shared.drawing.dimtext import DimText
from shared.segments import Point

FIRST = 8.0  # mm from the view to the first dimension line
PITCH = 7.0  # mm from line to line at least
TAIL = 2 * m.ARROW  # of an arrow that points inward from outside
OFF, PAST = 1.0, 1.5  # extension line: gap at the feature, reach past the dimension line (ISO 129-1 in spirit)
LIFT = 0.6  # mm between a dimension line and the lowest letter of its text
CLEAR = 0.9  # mm between a text and an extension line


@dataclass(frozen=True)
class Axes:
    """One side of a view: where its edge lies [mm] and which way is outward."""

    name: str
    edge: float

    @property
    def angle(self) -> float:
        """Direction of the texts [deg]."""
        return 0.0 if self.name in ("above", "below") else 90.0

    @property
    def inward(self) -> bool:
        """Whether a text stands between its line and the view."""
        return self.name in ("below", "right")

    def ts(self, p: Point) -> tuple[float, float]:
        """Return a point's (t, s) [mm]."""
        u, v = p
        match self.name:
            case "above":
                return u, v - self.edge
            case "below":
                return u, self.edge - v
            case "left":
                return v, self.edge - u
        return v, u - self.edge

    def point(self, t: float, s: float) -> Point:
        """Return the point at (t, s) [mm]."""
        match self.name:
            case "above":
                return t, self.edge + s
            case "below":
                return t, self.edge - s
            case "left":
                return self.edge - s, t
        return self.edge + s, t


@dataclass
class Placed:
    """A dimension under way: its ends along the side, the line's distance, and where its text stands."""

    dim: Linear
    words: DimText
    t0: float
    t1: float
    s_points: tuple[float, float]
    line: float = 0.0
    text: tuple[float, float] = (0.0, 0.0)
    reach: tuple[float, float] = (0.0, 0.0)
    arrows_in: bool = True
    texts: list[m.Box] = field(default_factory=list)

    @property
    def size(self) -> float:
        """Length on paper [mm]."""
        return self.t1 - self.t0


def start(dim: Linear, axes: Axes, k: float) -> Placed:
    """Return a dimension with its ends on the axes of a side, at a scale k [-]."""
    ends = sorted(axes.ts((k * p[0], k * p[1])) for p in (dim.a, dim.b))
    (t0, s0), (t1, s1) = ends
    short = dim.text.width + 1.0 > t1 - t0
    words = dim.text.two if short and dim.text.two is not None else dim.text
    return Placed(dim, words, t0, t1, (s0, s1), arrows_in=t1 - t0 >= 2 * m.ARROW + 1.5)


def spots(p: Placed) -> Iterator[tuple[float, float, float, float, float]]:
    """Yield where the text may stand: its ends, the ends of all that is drawn, and how little it is liked."""
    w, tail = p.words.width, 0.0 if p.arrows_in else TAIL
    lo, hi = p.t0 - tail, p.t1 + tail
    room = p.size - w - 1.0
    if room >= 0:
        mid = (p.t0 + p.t1 - w) / 2
        steps = int(room / 2 / 1.5)
        for i in range(steps + 1):
            for sign in (1, -1) if i else (1,):
                t = mid + sign * 1.5 * i
                yield t, t + w, lo, hi, 0.15 * i
    right, left = hi + (1.5 if p.arrows_in else 0.5), lo - (1.5 if p.arrows_in else 0.5)
    yield right, right + w, lo, right + w, 4.0
    yield left - w, left, left - w, hi, 4.5


def lines_of(p: Placed, axes: Axes, line: float, at: tuple[float, float]) -> list[tuple[m.Box, Point]]:
    """Return rectangle and foot of the text over a line at s = `line`, and of what stands below the line."""
    words = p.words
    out = [_line_of(axes, line, at, LIFT, words.rise, words.drop)]
    if words.under:
        out.append(_line_of(axes, line, at, -LIFT - words.below, words.below - words.drop, words.drop))
    return out


def _line_of(axes: Axes, line: float, at: tuple[float, float], low: float, rise: float, drop: float,
             ) -> tuple[m.Box, Point]:  # fmt: skip
    """Return one line of text whose lowest letter is `low` above the dimension line, as the text reads."""
    up = -1.0 if axes.inward else 1.0
    (u0, v0), (u1, v1) = axes.point(at[0], line + up * low), axes.point(at[1], line + up * (low + drop + rise))
    box = m.Box((min(u0, u1), min(v0, v1)), abs(u1 - u0), abs(v1 - v0))
    foot = axes.point(at[0], line + up * (low + drop))
    return box, foot


def place_side(dims: list[Linear], axes: Axes, canvas: Canvas) -> list[Placed]:
    """Give every dimension of a side its row and its text a place.

    Args:
        dims: dimensions of this side.
        axes: the side.
        canvas: what is drawn already; the result is added to it.
    """
    todo = sorted((start(d, axes, canvas.k) for d in dims), key=lambda p: (round(p.size, 6), round(p.t0, 6)))
    over = max((p.words.rise + p.words.drop + LIFT for p in todo), default=0.0)
    under = max((p.words.below + LIFT for p in todo if p.words.under), default=0.0)
    pitch = max(PITCH, over + under + 1.6)
    first = max(FIRST, (over if axes.inward else under) + 3.0)
    rows: dict[int, list[Placed]] = {}
    done: list[Placed] = []
    for i, p in enumerate(todo):
        later = [t for q in todo[i + 1 :] for t in (q.t0, q.t1)]
        row = _choose(p, axes, canvas, rows, later, first, pitch)
        rows.setdefault(row, []).append(p)
        p.texts = [box for box, _ in lines_of(p, axes, p.line, p.text)]
        done.append(p)
        for box in p.texts:
            canvas.grid.box(box)
        canvas.grid.path([axes.point(p.reach[0], p.line), axes.point(p.reach[1], p.line)])
    for p in done:
        canvas.boxes += p.texts
    return done


def _choose(p: Placed, axes: Axes, canvas: Canvas, rows: dict[int, list[Placed]], later: list[float],
            first: float, pitch: float) -> int:  # fmt: skip
    best: tuple[float, int, tuple[float, float], tuple[float, float]] | None = None
    for row in range(60):
        if best is not None and 10.0 * row >= best[0]:
            break
        line = first + row * pitch
        crossed = sum(_crosses(t, q.text) for r, qs in rows.items() if r < row for q in qs for t in (p.t0, p.t1))
        for a, b, lo, hi, dislike in spots(p):
            cost = 10.0 * row + dislike + 12.0 * crossed + 6.0 * sum(_crosses(t, (a, b)) for t in later)
            if best is not None and cost >= best[0]:
                continue
            if any(lo < q.reach[1] - 0.01 and hi > q.reach[0] + 0.01 for q in rows.get(row, [])):
                continue
            if any(_crosses(t, (a, b)) for qs in rows.values() for q in qs if q.line > line for t in (q.t0, q.t1)):
                continue
            if not all(canvas.grid.free(box, 0.5) for box, _ in lines_of(p, axes, line, (a, b))):
                continue
            if canvas.grid.crossings([axes.point(lo, line), axes.point(hi, line)])[0]:
                continue
            best = cost, row, (a, b), (lo, hi)
    assert best is not None  # a row far enough out is always free
    _, row, p.text, p.reach = best
    p.line = first + row * pitch
    return row


def _crosses(t: float, text: tuple[float, float]) -> bool:
    return text[0] - CLEAR < t < text[1] + CLEAR


def drawn(p: Placed, axes: Axes, canvas: Canvas) -> m.Dimension:
    """Return a placed dimension as an entity; extension lines are broken where a text of another stands."""
    strokes: list[m.Stroke] = []
    for t, s in zip((p.t0, p.t1), p.s_points, strict=True):
        sign = 1.0 if p.line >= s else -1.0
        if abs(p.line - s) > OFF:
            a, b = axes.point(t, s + sign * OFF), axes.point(t, p.line + sign * PAST)
            strokes += canvas.broken(a, b, "DIM")
    inner = [axes.point(t, p.line) for t in (p.t0, p.t1)]
    out = [axes.point(t, p.line) for t in p.reach]
    strokes += m.polyline([out[0], out[1]], "DIM")
    way = m.heading(inner[0], inner[1])
    turn = 180.0 if p.arrows_in else 0.0
    strokes += [m.arrow(inner[0], way + turn), m.arrow(inner[1], way + 180.0 + turn)]
    text = p.words
    for i, (_, foot) in enumerate(lines_of(p, axes, p.line, p.text)):
        strokes += text.strokes(foot, axes.angle, under=i == 1)
    k = canvas.k
    pts = tuple((k * q[0], k * q[1]) for q in (p.dim.a, p.dim.b))
    middle = axes.point(sum(p.text) / 2, p.line)
    return m.Dimension("linear", (*pts, inner[0]), p.dim.value, text.code, text.shown, middle, k, canvas.unit,
                       text.places, axes.angle, tuple(strokes))  # fmt: skip


def place_inside(dim: Linear, axes: Axes, line: float, canvas: Canvas) -> Placed | None:
    """Give a dimension a place with its line near s = `line` [mm] of the side, inside the view; None: no room."""
    p = start(dim, axes, canvas.k)
    for i in range(25):
        for sign in (1.0, -1.0) if i else (1.0,):
            s = line + sign * 1.5 * i
            for a, b, lo, hi, _ in sorted(spots(p), key=lambda x: x[4]):
                boxes = [box for box, _ in lines_of(p, axes, s, (a, b))]
                course = [axes.point(lo, s), axes.point(hi, s)]
                if all(canvas.grid.free(box, 0.5) for box in boxes) and not canvas.grid.crossings(course)[0]:
                    p.line, p.text, p.reach, p.texts = s, (a, b), (lo, hi), boxes
                    return p
    return None
