"""Radii, diameters, angles and dimensions parallel to their points: placed near what they measure. Paper mm."""

from __future__ import annotations

import math
from collections.abc import Iterator

from shared.drawing import marks as m
from shared.drawing.annotations import Angular, Linear, Round
from shared.drawing.canvas import Canvas
from shared.drawing.content import DimRow, stack
from shared.drawing.floats import Rect, best_spot, directions, leader_line, moved
from shared.drawing.primitives import Arc, Line
from shared.errors import GeometryError
from shared.segments import Point, polar


def round_one(note: Round, canvas: Canvas, envelope: Rect) -> list[m.Mark]:
    """Return a radius or diameter: leader that points at the centre, text and frames at its end."""
    k = canvas.k
    centre, on = (k * note.centre[0], k * note.centre[1]), (k * note.on[0], k * note.on[1])
    r, own = math.dist(centre, on), m.heading(centre, on)
    rows = [DimRow(note.text), *note.rows]
    piece = stack(list(rows))
    if note.turn:
        ways = directions(None)
    else:
        # along the ray through the arc's point: from outside, or from the side of the centre
        ways = [(own % 360.0, 0.0), ((own + 180.0) % 360.0, 3.0)]

    def touch(way: float) -> Point:
        return polar(centre, r, way) if note.turn else on

    spot = best_spot(canvas, touch, piece.rect[2:], None, envelope, ways)
    tip, corner = spot.tip, spot.corner
    canvas.grid.lead([tip, spot.elbow])
    strokes = leader_line(spot, piece.rect[2], "arrow")
    content = moved(piece.marks, corner)
    strokes += [s for s in content if isinstance(s, m.Stroke) and s.layer == "DIM"]
    rest = [s for s in content if not (isinstance(s, m.Stroke) and s.layer == "DIM")]
    pts = (centre, tip) if note.kind == "radius" else (polar(centre, r, m.heading(tip, centre)), tip)
    middle = (corner[0] + piece.rect[2] / 2, spot.elbow[1])
    return [m.Dimension(note.kind, pts, note.value, note.text.code, note.text.shown, middle, k, canvas.unit,
                        note.text.places, 0.0, tuple(strokes)), *rest]  # fmt: skip


def angular(note: Angular, canvas: Canvas) -> m.Dimension:
    """Return an angle with its arc at the smallest radius where the text has room.

    Raises:
        GeometryError: no free place within reach.
    """
    k = canvas.k
    vertex, a, b = ((k * p[0], k * p[1]) for p in (note.vertex, note.a, note.b))
    from_deg, sweep = m.heading(vertex, a), (m.heading(vertex, b) - m.heading(vertex, a)) % 360.0
    for radius, way in _arcs(from_deg, sweep):
        w, text = note.text.width, note.text
        at = polar(vertex, radius, way)
        c, s = math.cos(math.radians(way)), math.sin(math.radians(way))
        # the text stands just outside the arc
        h = text.rise + text.drop
        corner = (at[0] + (c - 1) * w / 2 + 1.2 * c, at[1] + (s - 1) * h / 2 + 1.2 * s)
        if not canvas.grid.free(m.Box(corner, w, h), 0.6):
            continue
        inside = (way - from_deg) % 360.0 <= sweep
        first, span = (from_deg, sweep) if inside else _longer(from_deg, sweep, way)
        arc = Arc(vertex, radius, first, span)
        strokes = [m.Stroke("DIM", arc)]
        strokes += _legs(vertex, a, b, radius)
        if _written_over(m.Box(corner, w, h), strokes):
            continue
        big = math.radians(sweep) * radius > 2.5 * m.ARROW
        for tip, turn in ((from_deg, -90.0), (from_deg + sweep, 90.0)):
            # an arrow along a chord of its own length lies best on the arc
            bend = math.degrees(m.ARROW / radius) / 2
            lean = bend if (turn < 0) == big else -bend
            strokes.append(m.arrow(polar(vertex, radius, tip), tip + (turn if big else -turn) + lean))
            if not big:
                tail = math.degrees(2 * m.ARROW / radius)
                strokes.append(m.Stroke("DIM", Arc(vertex, radius, tip if turn > 0 else tip - tail, tail)))
        strokes += text.strokes((corner[0], corner[1] + text.drop))
        middle = (corner[0] + w / 2, corner[1] + h / 2)
        return m.Dimension("angle", (vertex, a, b, polar(vertex, radius, from_deg + sweep / 2)), note.value, text.code,
                           text.shown, middle, k, canvas.unit, text.places, 0.0, tuple(strokes))  # fmt: skip
    raise GeometryError("sheet", "place an angle", "there is no free place near it", angle=note.value)


def _arcs(start: float, sweep: float) -> Iterator[tuple[float, float]]:
    for radius in (9.0, 12.0, 15.0, 19.0, 24.0, 30.0, 37.0, 45.0, 55.0, 67.0, 82.0, 100.0, 120.0):
        for share in (0.5, 0.35, 0.65, 0.2, 0.8):
            yield radius, (start + share * sweep) % 360.0
        past = math.degrees(9.0 / radius)
        for way in (start + sweep + past, start - past):
            yield radius, way % 360.0


def _written_over(text: m.Box, strokes: list[m.Stroke]) -> bool:
    """Return whether a text stands on its own arc or legs."""
    (u, v), shares = text.at, [i / 40 for i in range(41)]
    for s in strokes:
        if isinstance(s.what, Arc):
            points = [polar(s.what.centre, s.what.radius, s.what.start_angle + t * s.what.sweep) for t in shares]
        elif isinstance(s.what, Line):
            (a, b), (c, d) = s.what.start, s.what.end
            points = [(a + t * (c - a), b + t * (d - b)) for t in shares]
        else:
            continue
        if any(u < x < u + text.width and v < y < v + text.height for x, y in points):
            return True
    return False


def _longer(start: float, sweep: float, way: float) -> tuple[float, float]:
    """Return the arc carried on to the direction of a text outside it."""
    after = (way - start) % 360.0
    before = (start - way) % 360.0
    return (start, after) if after - sweep <= before else (way, sweep + before)


def _legs(vertex: Point, a: Point, b: Point, radius: float) -> list[m.Stroke]:
    out = []
    for p in (a, b):
        reach = math.dist(vertex, p)
        if reach < radius + 1.0:
            way = m.heading(vertex, p)
            out.append(m.Stroke("DIM", Line(polar(vertex, reach + 1.0, way), polar(vertex, radius + 1.5, way))))
    return [s for s in out if isinstance(s.what, Line) and s.what.length > 0.3]


def aligned(note: Linear, canvas: Canvas) -> m.Dimension:
    """Return a dimension parallel to its points, as near to them as its text has room.

    Raises:
        GeometryError: no free place within reach.
    """
    k = canvas.k
    a, b = (k * note.a[0], k * note.a[1]), (k * note.b[0], k * note.b[1])
    way, size, text = m.heading(a, b), math.dist(a, b), note.text
    turn = m.upright(way)
    inside = size >= 2 * m.ARROW + 1.5
    w, h = text.width, text.rise + text.drop
    for off in (8.0, -8.0, 11.0, -11.0, 15.0, -15.0, 20.0, -20.0, 26.0, -26.0, 33.0, -33.0, 45.0, -45.0, 60.0, -60.0):
        p, q = polar(a, off, way + 90.0), polar(b, off, way + 90.0)
        slides = [size / 2 - w / 2] if w + 1.0 <= size else []
        slides += [size + (1.5 if inside else 5.5), -w - (1.5 if inside else 5.5)]
        for t in slides:
            low = polar(p, t if abs(turn - way % 360.0) < 1e-6 else t + w, way)
            foot = polar(low, 0.4, turn + 90.0)
            if not canvas.grid.free(m.Box(foot, w, h, turn), 0.5):
                continue
            tail = 0.0 if inside else 2 * m.ARROW
            lo, hi = min(-tail, t), max(size + tail, t + w)
            if canvas.grid.crossings([polar(p, lo, way), polar(p, hi, way)])[0]:
                continue
            sign = math.copysign(1.0, off)
            strokes = [s for c, d in ((a, p), (b, q)) for s in m.polyline(
                [polar(c, sign * 1.0, way + 90.0), polar(d, sign * 1.5, way + 90.0)], "DIM")]  # fmt: skip
            strokes += m.polyline([polar(p, lo, way), polar(p, hi, way)], "DIM")
            flip = 180.0 if inside else 0.0
            strokes += [m.arrow(p, way + flip), m.arrow(q, way + 180.0 + flip)]
            strokes += text.strokes(polar(foot, text.drop, turn + 90.0), turn)
            middle = polar(polar(foot, w / 2, turn), h / 2, turn + 90.0)
            return m.Dimension("linear", (a, b, p), note.value, text.code, text.shown, middle, k, canvas.unit,
                               text.places, way, tuple(strokes))  # fmt: skip
    raise GeometryError("sheet", "place a dimension", "there is no free place near it", value=note.value)
