"""Clean lines: overlaps joined, hidden lines that lie under seen ones taken out, in a stable order. mm, deg."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence

from shared.drawing.primitives import Curve, Ellipse, Primitive, sort_key
from shared.drawing.refit import counted
from shared.segments import Arc, Line, Point, add, cross, dot, sub

SAME = 0.004  # mm: nearer than this is the same line; twice the tolerance of a fit
SHORT = 0.02  # mm: leftovers shorter than this are dropped

Span = tuple[float, float]


def joined(spans: Iterable[Span], slack: float) -> list[Span]:
    """Return intervals with overlaps and gaps up to `slack` closed, rising."""
    out: list[Span] = []
    for a, b in sorted(spans):
        if out and a <= out[-1][1] + slack:
            out[-1] = (out[-1][0], max(out[-1][1], b))
        else:
            out.append((a, b))
    return out


def without(spans: Iterable[Span], taken: Sequence[Span]) -> list[Span]:
    """Return intervals less those taken."""
    left = list(spans)
    for lo, hi in taken:
        left = [piece for a, b in left for piece in ((a, min(b, lo)), (max(a, hi), b)) if piece[1] > piece[0]]
    return left


class _Track:
    """An endless line, with the stretches of it that are drawn as distances from its origin."""

    def __init__(self, first: Line) -> None:
        self.origin, self.way = first.start, first.direction()
        self.spans: list[Span] = []

    def carries(self, line: Line) -> bool:
        """Whether both ends of a line lie on this track."""
        return all(abs(cross(self.way, sub(p, self.origin))) <= SAME for p in (line.start, line.end))

    def span(self, line: Line) -> Span:
        """Return a line's stretch."""
        a, b = (dot(self.way, sub(p, self.origin)) for p in (line.start, line.end))
        return min(a, b), max(a, b)

    def at(self, t: float) -> Point:
        """Return the point at a distance [mm]."""
        return add(self.origin, self.way, t)


def _tracks(lines: Iterable[Line]) -> list[_Track]:
    tracks: list[_Track] = []
    # the longest first: a short line would be a poor guide for the direction
    for line in sorted(lines, key=lambda s: (-round(s.length, 4), sort_key(s))):
        track = next((t for t in tracks if t.carries(line)), None)
        if track is None:
            track = _Track(line)
            tracks.append(track)
        track.spans.append(track.span(line))
    for t in tracks:
        t.spans = joined(t.spans, SAME)
    return tracks


def _unroll(arc: Arc) -> list[Span]:
    """Return an arc's stretches of 0 to 360 deg."""
    if arc.full:
        return [(0.0, 360.0)]
    a = counted(arc)
    if a.end_angle <= 360.0:
        return [(a.start_angle, a.end_angle)]
    return [(a.start_angle, 360.0), (0.0, a.end_angle - 360.0)]


class _Ring:
    """A whole circle, with the stretches of it that are drawn as angles."""

    def __init__(self, first: Arc) -> None:
        self.centre, self.radius = first.centre, first.radius
        self.spans: list[Span] = []

    @property
    def slack(self) -> float:
        """The angle [deg] that `SAME` spans."""
        return math.degrees(SAME / self.radius)

    def carries(self, arc: Arc) -> bool:
        """Whether an arc lies on this circle."""
        if math.dist(self.centre, arc.centre) <= SAME and abs(self.radius - arc.radius) <= SAME:
            return True
        # a short arc knows its centre badly but its course well
        course = (arc.start, arc.middle, arc.end)
        return all(abs(math.dist(p, self.centre) - self.radius) <= SAME / 2 for p in course) and arc.sweep < 60.0

    def arcs(self, spans: Sequence[Span]) -> list[Arc]:
        """Return stretches as arcs, joined over the angle 0."""
        s = list(spans)
        if len(s) == 1 and s[0][1] - s[0][0] >= 360.0 - 2 * self.slack:
            return [Arc(self.centre, self.radius, 0.0, 360.0)]
        if len(s) > 1 and s[0][0] <= self.slack and s[-1][1] >= 360.0 - self.slack:
            s = [*s[1:-1], (s[-1][0], s[0][1] + 360.0)]
        return [Arc(self.centre, self.radius, a % 360.0, b - a) for a, b in s]


def _rings(arcs: Iterable[Arc]) -> list[_Ring]:
    rings: list[_Ring] = []
    for arc in sorted(arcs, key=lambda s: (-round(s.length, 4), sort_key(s))):
        ring = next((r for r in rings if r.carries(arc)), None)
        if ring is None:
            ring = _Ring(arc)
            rings.append(ring)
        ring.spans += _unroll(arc)
    for r in rings:
        r.spans = joined(r.spans, r.slack)
    return rings


def tidy(drawn: Iterable[Primitive], under: Iterable[Primitive] = ()) -> tuple[Primitive, ...]:
    """Return primitives with overlaps joined and whatever lies under others taken out.

    Args:
        drawn: what is to be drawn.
        under: what is drawn over it already (the seen lines, when `drawn` are the hidden ones).

    Returns:
        Lines, arcs, ellipses and curves in an order that depends on the geometry only.
    """
    drawn, under = list(drawn), list(under)
    out: list[Primitive] = []
    over = _tracks(p for p in under if isinstance(p, Line))
    for t in _tracks(p for p in drawn if isinstance(p, Line)):
        left = t.spans
        ends = [Line(o.at(a), o.at(b)) for o in over for a, b in o.spans]
        left = without(left, [t.span(e) for e in ends if t.carries(e)])
        for a, b in left:
            if b - a > SHORT:
                p, q = t.at(a), t.at(b)
                out.append(Line(p, q) if (round(p[0], 3), p[1]) < (round(q[0], 3), q[1]) else Line(q, p))
    over_rings = _rings(p for p in under if isinstance(p, Arc))
    for r in _rings(p for p in drawn if isinstance(p, Arc)):
        taken = [s for o in over_rings for a in o.arcs(o.spans) if r.carries(a) for s in _unroll(a)]
        left = without(r.spans, joined(taken, r.slack))
        out += [a for a in r.arcs(joined(left, 1e-9)) if a.length > SHORT]
    out += _loose(drawn, under)
    return tuple(sorted(out, key=sort_key))


def _loose(drawn: Sequence[Primitive], under: Sequence[Primitive]) -> list[Primitive]:
    """Return ellipses and curves, each once, less those that lie wholly under another."""
    kept: list[Primitive] = []
    covers = [p.points() for p in under if isinstance(p, Ellipse | Curve)]
    for p in sorted((p for p in drawn if isinstance(p, Ellipse | Curve)), key=sort_key):
        assert isinstance(p, Ellipse | Curve)
        mine = p.points()
        probes = [mine[len(mine) * i // 8] for i in range(8)] + [mine[-1]]
        if not any(all(_near(q, c) for q in probes) for c in covers):
            kept.append(p)
            covers.append(mine)
    return kept


def _near(p: Point, chain: Sequence[Point]) -> bool:
    return any(a != b and Line(a, b).distance(p) <= 5 * SAME for a, b in itertools.pairwise(chain))
