"""The lines of a hatch, clipped to its outline exactly, from the DXF entity. Paper mm."""

from __future__ import annotations

import math
from typing import Any

from shared.segments import Arc, Line, Point, polar

Segment = Line | Arc


def _boundary(hatch: Any) -> list[Segment]:
    out: list[Segment] = []
    for path in hatch.paths:
        for e in path.edges:
            if type(e).__name__ == "LineEdge":
                out.append(Line((e.start.x, e.start.y), (e.end.x, e.end.y)))
            else:
                sweep = (e.end_angle - e.start_angle) % 360.0 or 360.0
                out.append(Arc((e.center.x, e.center.y), e.radius, e.start_angle, sweep))
    return out


def hatch_lines(hatch: Any) -> list[tuple[Point, Point]]:
    """Return the lines of a hatch whose pattern is one family of full lines: ends [mm].

    Args:
        hatch: a HATCH entity with edge paths of lines and arcs.
    """
    line = hatch.pattern.lines[0]
    angle, base, offset = line.angle, line.base_point, line.offset
    # in axes along and across the lines: (s, t)
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    step = abs(offset.y * c - offset.x * s)
    start = base.y * c - base.x * s
    edges = [_turned(e, -angle) for e in _boundary(hatch)]
    rects = [e.bounds() for e in edges]
    low, high = min(r[1] for r in rects), max(r[3] for r in rects)
    out: list[tuple[Point, Point]] = []
    for n in range(math.ceil((low - start) / step), math.floor((high - start) / step) + 1):
        # a hair off the lattice: a line through a corner would meet it twice or not at all
        t = start + n * step + 1.37e-5
        hits = sorted(x for e, r in zip(edges, rects, strict=True) if r[1] <= t <= r[3] for x in e.crossings(1, t))
        for a, b in zip(hits[::2], hits[1::2], strict=False):
            if b - a > 0.05:
                out.append(((a * c - t * s, a * s + t * c), (b * c - t * s, b * s + t * c)))
    return out


def _turned(e: Segment, angle: float) -> Segment:
    def turn(p: Point) -> Point:
        r = math.hypot(*p)
        return polar((0.0, 0.0), r, math.degrees(math.atan2(p[1], p[0])) + angle) if r else p

    if isinstance(e, Line):
        return Line(turn(e.start), turn(e.end))
    return Arc(turn(e.centre), e.radius, e.start_angle + angle, e.sweep)
