"""Corner rounding and parallel offset of chains of lines and arcs, in closed form."""

from __future__ import annotations

import math
from collections.abc import Sequence

from shared.errors import GeometryError
from shared.segments import NEAR, Arc, Line, Point, Segment, add, angle_of, arc_between, cross, dot, sub

_TANGENT = 1e-7  # sine of the angle below which two pieces meet smoothly


def meet(a: Segment, b: Segment) -> list[Point]:
    """Return where the endless lines or whole circles of two pieces cross [mm]; empty when they do not."""
    if isinstance(a, Line) and isinstance(b, Line):
        da, db = a.direction(), b.direction()
        k = cross(da, db)
        return [] if abs(k) < 1e-12 else [add(a.start, da, cross(sub(b.start, a.start), db) / k)]
    if isinstance(a, Line) and isinstance(b, Arc):
        d = a.direction()
        foot = add(a.start, d, dot(sub(b.centre, a.start), d))
        gap = math.dist(foot, b.centre)
        return _pair(foot, d, b.radius**2 - gap**2, b.radius)
    if isinstance(a, Arc) and isinstance(b, Line):
        return meet(b, a)
    assert isinstance(a, Arc) and isinstance(b, Arc)
    apart = math.dist(a.centre, b.centre)
    if apart < 1e-12:
        return []
    d = ((b.centre[0] - a.centre[0]) / apart, (b.centre[1] - a.centre[1]) / apart)
    along = (apart**2 + a.radius**2 - b.radius**2) / (2 * apart)
    return _pair(add(a.centre, d, along), (-d[1], d[0]), a.radius**2 - along**2, a.radius)


def _pair(foot: Point, d: Point, square: float, size: float) -> list[Point]:
    if square < -1e-9 * size * size:
        return []
    half = math.sqrt(max(0.0, square))
    return [add(foot, d, -half), add(foot, d, half)]


def moved(s: Segment, left: float) -> Segment | None:
    """Return a piece moved sideways to its left [mm]; None when an arc shrinks to nothing."""
    if isinstance(s, Line):
        d = s.direction()
        n = (-d[1] * left, d[0] * left)
        return Line(add(s.start, n), add(s.end, n))
    radius = s.radius - math.copysign(left, s.sweep * left)
    return Arc(s.centre, radius, s.start_angle, s.sweep) if radius > NEAR else None


def _touch(s: Segment, centre: Point) -> Point:
    """Return the point of the endless piece nearest to a circle's centre [mm]."""
    if isinstance(s, Line):
        d = s.direction()
        return add(s.start, d, dot(sub(centre, s.start), d))
    v = sub(centre, s.centre)
    return add(s.centre, v, s.radius / math.hypot(*v))


def place_on(s: Segment, p: Point) -> float:
    """Return how far along a piece [-] a point on its endless line or circle lies: 0 at the start, 1 at the end."""
    if isinstance(s, Line):
        d = sub(s.end, s.start)
        return dot(sub(p, s.start), d) / dot(d, d)
    turn = (angle_of(sub(p, s.centre)) - s.start_angle) * math.copysign(1.0, s.sweep) % 360.0
    if turn > 180.0 + abs(s.sweep) / 2:  # nearer to the start, from before it
        turn -= 360.0
    return turn / abs(s.sweep)


def part_of(s: Segment, t0: float, t1: float) -> Segment:
    """Return the part of a piece between two shares of its length [-]."""
    if isinstance(s, Arc):
        return Arc(s.centre, s.radius, s.start_angle + s.sweep * t0, s.sweep * (t1 - t0))
    d = sub(s.end, s.start)
    return Line(add(s.start, d, t0) if t0 else s.start, s.end if t1 == 1 else add(s.start, d, t1))


def fillet(a: Segment, b: Segment, radius: float) -> tuple[float, Arc, float] | None:
    """Return the rounding arc where piece a ends and b starts.

    Args:
        a: the piece before the corner.
        b: the piece after it.
        radius: radius of the rounding [mm].

    Returns:
        Share of a that stays before the arc [-], the arc, and share of b at which it ends [-]; None when no such
        arc touches both pieces.
    """
    turn = cross(a.direction(at_end=True), b.direction())
    side = math.copysign(radius, turn)
    a2, b2 = moved(a, side), moved(b, side)
    if a2 is None or b2 is None:
        return None
    best: tuple[float, float, Arc, float] | None = None
    for centre in meet(a2, b2):
        pa, pb = _touch(a, centre), _touch(b, centre)
        ta, tb = place_on(a, pa), place_on(b, pb)
        if -1e-9 <= ta <= 1 + 1e-9 and -1e-9 <= tb <= 1 + 1e-9:
            away = math.dist(centre, a.end)
            if best is None or away < best[0]:
                best = (away, ta, arc_between(pa, pb, centre, left=turn > 0), tb)
    return None if best is None else best[1:]


def rounded(segments: Sequence[Segment], radii: Sequence[float], closed: bool, name: str) -> tuple[Segment, ...]:
    """Round corners of a chain of pieces.

    Args:
        segments: the pieces, each starting where the one before ends.
        radii: radius at the end of each piece [mm]; 0 leaves the corner, and a smooth joint is left as it is.
        closed: whether the last piece ends at the start of the first.
        name: what is drawn, for the message.

    Returns:
        The chain with its arcs.

    Raises:
        GeometryError: a radius does not fit between its neighbours.
    """
    n = len(segments)
    begin, finish = [0.0] * n, [1.0] * n
    arcs: list[Arc | None] = [None] * n
    for i, r in enumerate(radii):
        if r <= 0 or (i == n - 1 and not closed):
            continue
        a, b = segments[i], segments[(i + 1) % n]
        ends = a.direction(at_end=True), b.direction()
        if abs(cross(*ends)) < _TANGENT and dot(*ends) > 0:
            continue
        made = fillet(a, b, r)
        if made is None:
            raise GeometryError(name, "round a corner", "the radius does not fit between its two sides",
                                corner=_show(a.end), radius_mm=round(r, 4))  # fmt: skip
        finish[i], arcs[i], begin[(i + 1) % n] = made
    out: list[Segment] = []
    for s, t0, t1, arc in zip(segments, begin, finish, arcs, strict=True):
        left = (t1 - t0) * s.length
        if left < -NEAR:
            raise GeometryError(name, "round a corner", "the roundings at both ends of a side overlap",
                                side=f"{_show(s.start)} to {_show(s.end)}", short_by_mm=round(-left, 4))  # fmt: skip
        if left > NEAR:
            out.append(part_of(s, t0, t1))
        if arc is not None:
            out.append(arc)
    return tuple(out)


def offset(segments: Sequence[Segment], outward: float, name: str) -> tuple[Segment, ...]:
    """Move a closed counter-clockwise chain outward, corners mitred, keeping the number of pieces.

    Args:
        segments: the chain.
        outward: distance [mm]; negative shrinks.
        name: what is drawn, for the message.

    Raises:
        GeometryError: an arc or a side would shrink to nothing.
    """
    shifted = [moved(s, -outward) for s in segments]
    if any(s is None for s in shifted):
        raise GeometryError(name, "offset", "an arc would shrink to nothing", offset_mm=round(outward, 4))
    whole = [s for s in shifted if s is not None]
    n = len(whole)
    joints: list[Point] = []
    for i, s in enumerate(whole):
        nxt = whole[(i + 1) % n]
        if abs(cross(segments[i].direction(at_end=True), segments[(i + 1) % n].direction())) < _TANGENT:
            joints.append(s.end)
            continue
        found = meet(s, nxt)
        if not found:
            raise GeometryError(name, "offset", "two neighbours no longer meet", offset_mm=round(outward, 4))
        joints.append(min(found, key=lambda p: math.dist(p, s.end)))
    out: list[Segment] = []
    for i, s in enumerate(whole):
        if isinstance(s, Arc) and s.full:
            out.append(s)
            continue
        t0, t1 = place_on(s, joints[i - 1]), place_on(s, joints[i])
        if t1 <= t0:
            raise GeometryError(name, "offset", "a side would shrink to nothing", offset_mm=round(outward, 4))
        cut = part_of(s, t0, t1)
        out.append(Line(joints[i - 1], joints[i]) if isinstance(cut, Line) else cut)
    return tuple(out)


def _show(p: Point) -> str:
    return f"({p[0]:.3f}, {p[1]:.3f})"
