"""Texts that find their own place near what they speak of: leaders, datums, balloons. Paper mm."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from shared.drawing import lettering
from shared.drawing import marks as m
from shared.drawing.annotations import Balloon, Datum, Leader
from shared.drawing.canvas import Canvas
from shared.drawing.content import Texture, stack
from shared.drawing.primitives import Arc, Line, Note
from shared.errors import GeometryError
from shared.segments import Point, polar

SHOULDER = 2.0  # mm of level line before a leader's text
DISTANCES = (7.0, 9.5, 12.0, 15.0, 19.0, 24.0, 30.0, 37.0, 45.0, 55.0, 67.0, 80.0, 95.0, 112.0, 130.0)
LIKED = (45.0, 60.0, 30.0, 75.0, 15.0)
Rect = tuple[float, float, float, float]


@dataclass(frozen=True)
class Spot:
    """Where a leader goes: tip, elbow, lower left corner of the content, whether that stands at the right."""

    tip: Point
    elbow: Point
    corner: Point
    right: bool


def _growth(rect: Rect, all_of: Rect) -> float:
    over = (all_of[0] - rect[0], all_of[1] - rect[1], rect[2] - all_of[2], rect[3] - all_of[3])
    return sum(max(0.0, o) for o in over)


def _inside(rect: Rect, base: Rect) -> bool:
    return rect[0] < base[2] and rect[2] > base[0] and rect[1] < base[3] and rect[3] > base[1]


def directions(toward: float | None) -> list[tuple[float, float]]:
    """Return directions [deg] with how little each is liked."""
    out = []
    for quarter in range(4):
        for i, a in enumerate(LIKED):
            d = 90.0 * quarter + (a if quarter % 2 == 0 else 90.0 - a)
            dislike = (0.0, 0.5, 1.0, 2.5, 4.0)[i]
            if toward is not None:
                dislike += abs((d - toward + 180.0) % 360.0 - 180.0) / 6.0
            out.append((d % 360.0, dislike))
    return out


def best_spot(canvas: Canvas, tips: Callable[[float], Point], size: tuple[float, float], toward: float | None,
              envelope: Rect, ways: list[tuple[float, float]] | None = None, share: float = 0.5,
              shoulder: float = SHOULDER) -> Spot:  # fmt: skip
    """Return the best free place for what hangs on a leader.

    Args:
        canvas: what is drawn already.
        tips: for a direction [deg], the point the leader touches [mm].
        size: width and height of the content [mm].
        toward: preferred direction [deg].
        envelope: extent of the view with all drawn so far [mm]; growing it is disliked.
        ways: directions with their dislike, instead of the usual ones.
        share: where the leader meets the content, from its foot [- of its height].
        shoulder: level line before the content [mm]; 0 for content that is met at its middle (balloons).

    Raises:
        GeometryError: no free place within reach.
    """
    usual = ways if ways is not None else directions(toward)
    wider = [*usual, *((float(d), 8.0) for d in range(0, 360, 5))] if ways is None else usual
    for some, fars in ((usual, DISTANCES), (wider, tuple(float(x) for x in range(5, 150, 2)))):
        found = _search(canvas, tips, size, envelope, some, fars, share, shoulder)
        if found is not None:
            return found
    raise GeometryError("sheet", "place a leader", "there is no free place near it")


def _search(canvas: Canvas, tips: Callable[[float], Point], size: tuple[float, float], envelope: Rect,
            ways: list[tuple[float, float]], fars: tuple[float, ...], share: float,
            shoulder: float) -> Spot | None:  # fmt: skip
    w, h = size
    best: tuple[float, Spot] | None = None
    for direction, dislike in ways:
        tip = tips(direction)
        for far in fars:
            if best is not None and dislike + 0.25 * far >= best[0]:
                break
            elbow = polar(tip, far, direction)
            right = math.cos(math.radians(direction)) >= -1e-9
            if shoulder:
                u = elbow[0] + shoulder if right else elbow[0] - shoulder - w
                corner = (u, elbow[1] - share * h)
                course = [elbow, (elbow[0] + (0.8 if right else -0.8) * shoulder, elbow[1])]
            else:
                corner = (elbow[0] - w / 2, elbow[1] - h / 2)
                course = [polar(elbow, w / 2, direction + 180.0)]
            rect = (corner[0], corner[1], corner[0] + w, corner[1] + h)
            cost = dislike + 0.25 * far + 0.5 * _growth(rect, envelope)
            cost += 3.0 if _inside(rect, canvas.base) else 0.0
            if (far <= w / 2 and not shoulder) or (best is not None and cost >= best[0]):
                continue
            if not canvas.grid.free(m.Box(corner, w, h), 1.0):
                continue
            hits, inks, leads = canvas.grid.crossings([polar(tip, 0.8, direction), *course])
            cost += 1.5 * inks + 15.0 * leads
            if not hits and (best is None or cost < best[0]):
                best = cost, Spot(tip, elbow, corner, right)
    return None if best is None else best[1]


def leader(note: Leader, canvas: Canvas, envelope: Rect) -> list[m.Mark]:
    """Return a leader with its content at the best free place."""
    piece = stack(list(note.rows))
    tip = (canvas.k * note.point[0], canvas.k * note.point[1])
    stands = isinstance(note.rows[-1], Texture)  # its tip stands on the leader
    spot = best_spot(canvas, lambda _: tip, piece.rect[2:], note.toward, envelope, share=0.0 if stands else 0.5)
    lead = leader_line(spot, piece.rect[2], note.end)
    if stands:
        far = spot.corner[0] + (piece.rect[2] if spot.right else 0.0)
        lead += m.polyline([spot.elbow, (far, spot.elbow[1])], "DIM")
    canvas.grid.lead([tip, spot.elbow])
    return [*lead, *moved(piece.marks, spot.corner)]


def leader_line(spot: Spot, wide: float, end: str) -> list[m.Stroke]:
    """Return the line from a tip over its elbow to content of some width [mm], with its end mark."""
    edge = (spot.corner[0] - 0.6 if spot.right else spot.corner[0] + wide + 0.6, spot.elbow[1])
    out = m.polyline([spot.tip, spot.elbow, edge], "DIM")
    if end == "arrow":
        out.append(m.arrow(spot.tip, m.heading(spot.elbow, spot.tip)))
    elif end == "dot":
        out += m.dot(spot.tip)
    return out


def datum(note: Datum, canvas: Canvas, envelope: Rect) -> list[m.Mark]:
    """Return a datum's triangle on its edge and its letter in a frame, along the way out of the material."""
    tip = (canvas.k * note.point[0], canvas.k * note.point[1])
    side = max(2 * m.TEXT, lettering.width(note.letter, m.TEXT) + 2.0)
    u0, v0, u1, v1 = canvas.base
    near = sorted(((tip[1] - v0, 270.0), (tip[0] - u0, 180.0), (v1 - tip[1], 90.0), (u1 - tip[0], 0.0)))
    ways = [note.toward] if note.toward is not None else [way for _, way in near]
    best: tuple[float, Point, float] | None = None
    for i, way in enumerate(ways):
        for far in (4.0, 5.5, *DISTANCES):
            centre = polar(tip, far + side / 2, way)
            box = m.Box((centre[0] - side / 2, centre[1] - side / 2), side, side)
            cost = 25.0 * i + 0.3 * far + 0.5 * _growth(box.rect, envelope)
            if best is not None and cost >= best[0]:
                continue
            foot = polar(tip, 1.0, way)
            if canvas.grid.free(box, 1.0) and not canvas.grid.crossings([foot, polar(tip, far, way)])[0]:
                best = cost, centre, way
    if best is None:
        raise GeometryError("sheet", "place a datum", "there is no free place near it", letter=note.letter)
    _, centre, way = best
    head = polar(tip, 2.2, way)
    tri = m.Fill((head, polar(tip, 1.3, way + 90.0), polar(tip, 1.3, way - 90.0)))
    (u, v), half = centre, side / 2
    reach = half / max(abs(math.cos(math.radians(way))), abs(math.sin(math.radians(way))))
    out: list[m.Mark] = [m.Stroke("GDT", tri), *m.rectangle(u - half, v - half, u + half, v + half, "GDT"),
                         m.Stroke("GDT", Line(head, polar(centre, -reach, way)))]  # fmt: skip
    out.append(m.Stroke("GDT", Note(note.letter, (u, v - m.TEXT / 2), m.TEXT, 0.0, "centre")))
    return out


def balloon(note: Balloon, canvas: Canvas, envelope: Rect) -> list[m.Mark]:
    """Return a part's number in a circle, with a leader that ends in a dot on the part."""
    tip = (canvas.k * note.point[0], canvas.k * note.point[1])
    r = max(4.5, lettering.width(note.text, 3.5) / 2 + 1.2)
    centre = best_spot(canvas, lambda _: tip, (2 * r, 2 * r), None, envelope, shoulder=0.0).elbow
    edge = polar(centre, r, m.heading(centre, tip))
    canvas.grid.lead([tip, edge])
    return [*m.polyline([tip, edge], "DIM"), *m.dot(tip), m.Stroke("DIM", Arc(centre, r, 0.0, 360.0)),
            m.Stroke("DIM", Note(note.text, (centre[0], centre[1] - 1.75), 3.5, 0.0, "centre"))]  # fmt: skip


def moved(marks: list[m.Mark], by: Point) -> list[m.Mark]:
    """Return lines, notes, fills and signs moved by an offset [mm]."""
    out: list[m.Mark] = []
    for x in marks:
        if isinstance(x, m.Sign):
            out.append(m.Sign(x.name, (x.at[0] + by[0], x.at[1] + by[1]), x.size))
        else:
            assert isinstance(x, m.Stroke)
            out.append(m.Stroke(x.layer, _shift(x.what, by)))
    return out


def _shift(p: object, by: Point) -> Line | Note | m.Fill | Arc:
    def go(q: Point) -> Point:
        return q[0] + by[0], q[1] + by[1]

    if isinstance(p, Line):
        return Line(go(p.start), go(p.end))
    if isinstance(p, Note):
        return Note(p.text, go(p.at), p.height, p.angle, p.align)
    if isinstance(p, m.Fill):
        return m.Fill(tuple(go(c) for c in p.corners))
    assert isinstance(p, Arc)
    return Arc(go(p.centre), p.radius, p.start_angle, p.sweep)
