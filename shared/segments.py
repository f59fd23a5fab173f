"""Lines and true arcs in a plane, with exact arithmetic on them: length, area share, extent, crossings, distance.

Plain Python only, so that the numbers, the drawings and the solids can all draw the same outline.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

Point = tuple[float, float]
NEAR = 1e-7  # mm: two points nearer than this are the same point


def add(p: Point, q: Point, k: float = 1.0) -> Point:
    """Return p + k q [mm]."""
    return p[0] + k * q[0], p[1] + k * q[1]


def sub(p: Point, q: Point) -> Point:
    """Return p - q [mm]."""
    return p[0] - q[0], p[1] - q[1]


def cross(p: Point, q: Point) -> float:
    """Return the plane cross product of two vectors."""
    return p[0] * q[1] - p[1] * q[0]


def dot(p: Point, q: Point) -> float:
    """Return the dot product of two vectors."""
    return p[0] * q[0] + p[1] * q[1]


def polar(centre: Point, radius: float, angle_deg: float) -> Point:
    """Return the point at a radius [mm] and an angle [deg] about a centre [mm]; exact at quarter turns."""
    quarter, rest = divmod(angle_deg, 90.0)
    if rest == 0.0:
        c, s = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarter) % 4]
    else:
        c, s = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))
    return centre[0] + radius * c, centre[1] + radius * s


def angle_of(v: Point) -> float:
    """Return the direction of a vector [deg], in -180 to 180."""
    return math.degrees(math.atan2(v[1], v[0]))


@dataclass(frozen=True, slots=True)
class Line:
    """A straight piece from start to end [mm]."""

    start: Point
    end: Point

    @property
    def length(self) -> float:
        """Length [mm]."""
        return math.dist(self.start, self.end)

    @property
    def middle(self) -> Point:
        """Point half way along [mm]."""
        return (self.start[0] + self.end[0]) / 2, (self.start[1] + self.end[1]) / 2

    def direction(self, at_end: bool = False) -> Point:
        """Return the unit tangent at the start, or at the end."""
        d = sub(self.end, self.start)
        return d[0] / self.length, d[1] / self.length

    def reversed(self) -> Line:
        """Return the same piece run the other way."""
        return Line(self.end, self.start)

    def bounds(self) -> tuple[float, float, float, float]:
        """Return (u_min, v_min, u_max, v_max) [mm]."""
        (a, b), (c, d) = self.start, self.end
        return min(a, c), min(b, d), max(a, c), max(b, d)

    def moments(self) -> tuple[float, float, float]:
        """Return this piece's share of the area [mm2] and first moments [mm3] of the loop it belongs to (Green)."""
        (x0, y0), (x1, y1) = self.start, self.end
        sx = (y1 - y0) / 6 * (x0 * x0 + x0 * x1 + x1 * x1)
        sy = -(x1 - x0) / 6 * (y0 * y0 + y0 * y1 + y1 * y1)
        return cross(self.start, self.end) / 2, sx, sy

    def crossings(self, axis: int, value: float) -> list[float]:
        """Return where u = value (axis 0) or v = value (axis 1) meets this piece: the other coordinate [mm]."""
        a, b = self.start[axis], self.end[axis]
        if a == b or not min(a, b) <= value <= max(a, b):
            return []
        t = (value - a) / (b - a)
        return [self.start[1 - axis] + t * (self.end[1 - axis] - self.start[1 - axis])]

    def distance(self, p: Point) -> float:
        """Return the shortest distance [mm] from a point."""
        d = sub(self.end, self.start)
        t = min(1.0, max(0.0, dot(sub(p, self.start), d) / dot(d, d)))
        return math.dist(p, add(self.start, d, t))

    def points(self, tolerance: float) -> list[Point]:
        """Return the start, which is all that a polyline needs of a line."""
        return [self.start]


@dataclass(frozen=True, slots=True)
class Arc:
    """A circular arc: centre [mm], radius [mm], start angle [deg], sweep [deg], positive counter-clockwise.

    A sweep of 360 is a full circle.
    """

    centre: Point
    radius: float
    start_angle: float
    sweep: float

    @property
    def end_angle(self) -> float:
        """Angle at the end [deg]."""
        return self.start_angle + self.sweep

    @property
    def full(self) -> bool:
        """Whether this is a whole circle."""
        return abs(abs(self.sweep) - 360.0) < 1e-9

    @property
    def start(self) -> Point:
        """Start point [mm]."""
        return polar(self.centre, self.radius, self.start_angle)

    @property
    def end(self) -> Point:
        """End point [mm]."""
        return self.start if self.full else polar(self.centre, self.radius, self.end_angle)

    @property
    def middle(self) -> Point:
        """Point half way along [mm]."""
        return polar(self.centre, self.radius, self.start_angle + self.sweep / 2)

    @property
    def length(self) -> float:
        """Length [mm]."""
        return self.radius * math.radians(abs(self.sweep))

    def direction(self, at_end: bool = False) -> Point:
        """Return the unit tangent at the start, or at the end."""
        angle = self.end_angle if at_end else self.start_angle
        return polar((0.0, 0.0), 1.0, angle + math.copysign(90.0, self.sweep))

    def reversed(self) -> Arc:
        """Return the same piece run the other way."""
        return Arc(self.centre, self.radius, self.end_angle, -self.sweep)

    def holds(self, angle_deg: float, slack_deg: float = 1e-9) -> bool:
        """Return whether a direction from the centre [deg] falls on the arc."""
        first = self.start_angle if self.sweep > 0 else self.end_angle
        turned = (angle_deg - first) % 360.0
        return turned <= abs(self.sweep) + slack_deg or turned >= 360.0 - slack_deg

    def bounds(self) -> tuple[float, float, float, float]:
        """Return (u_min, v_min, u_max, v_max) [mm]."""
        tips = [self.start, self.end]
        tips += [polar(self.centre, self.radius, a) for a in (0.0, 90.0, 180.0, 270.0) if self.holds(a)]
        us, vs = [p[0] for p in tips], [p[1] for p in tips]
        return min(us), min(vs), max(us), max(vs)

    def moments(self) -> tuple[float, float, float]:
        """Return this piece's share of the area [mm2] and first moments [mm3] of the loop it belongs to (Green)."""
        (cx, cy), r = self.centre, self.radius
        a, b = math.radians(self.start_angle), math.radians(self.end_angle)
        turn = b - a
        sin1, cos1 = math.sin(b) - math.sin(a), math.cos(b) - math.cos(a)
        sin2 = (math.sin(2 * b) - math.sin(2 * a)) / 4
        sin3, cos3 = math.sin(b) ** 3 - math.sin(a) ** 3, math.cos(b) ** 3 - math.cos(a) ** 3
        area = (r * r * turn + r * (cx * sin1 - cy * cos1)) / 2
        sx = r / 2 * (cx * cx * sin1 + 2 * cx * r * (turn / 2 + sin2) + r * r * (sin1 - sin3 / 3))
        sy = r / 2 * (-cy * cy * cos1 + 2 * cy * r * (turn / 2 - sin2) + r * r * (-cos1 + cos3 / 3))
        return area, sx, sy

    def crossings(self, axis: int, value: float) -> list[float]:
        """Return where u = value (axis 0) or v = value (axis 1) meets this piece: the other coordinate [mm]."""
        off = value - self.centre[axis]
        if abs(off) > self.radius:
            return []
        half = math.sqrt(self.radius**2 - off**2)
        out = []
        for other in {-half, half}:
            v = (off, other) if axis == 0 else (other, off)
            if self.holds(angle_of(v)):
                out.append(self.centre[1 - axis] + other)
        return sorted(out)

    def distance(self, p: Point) -> float:
        """Return the shortest distance [mm] from a point."""
        v = sub(p, self.centre)
        if v == (0.0, 0.0) or self.holds(angle_of(v)):
            return abs(math.hypot(*v) - self.radius)
        return min(math.dist(p, self.start), math.dist(p, self.end))

    def points(self, tolerance: float) -> list[Point]:
        """Return points from the start to just before the end, chords within `tolerance` [mm] of the arc."""
        step = 2 * math.degrees(math.acos(max(0.0, 1 - tolerance / self.radius))) or 1.0
        n = max(2, math.ceil(abs(self.sweep) / step))
        return [polar(self.centre, self.radius, self.start_angle + self.sweep * i / n) for i in range(n)]


Segment = Line | Arc


def arc_between(start: Point, end: Point, centre: Point, left: bool) -> Arc:
    """Return the arc from start to end about a centre [mm], counter-clockwise when `left`."""
    a, b = angle_of(sub(start, centre)), angle_of(sub(end, centre))
    sweep = (b - a) % 360.0 if left else -((a - b) % 360.0)
    return Arc(centre, math.dist(start, centre), a, sweep)


def three_point_arc(start: Point, middle: Point, end: Point) -> Arc | None:
    """Return the arc through three points [mm], or None when they are in line."""
    b, c = sub(middle, start), sub(end, start)
    d = 2 * cross(b, c)
    if abs(d) <= 1e-12 * max(dot(b, b), dot(c, c)):
        return None
    u = (c[1] * dot(b, b) - b[1] * dot(c, c)) / d
    v = (b[0] * dot(c, c) - c[0] * dot(b, b)) / d
    return arc_between(start, end, add(start, (u, v)), left=d > 0)


def tangent_arc(start: Point, direction: Point, end: Point) -> Arc | None:
    """Return the arc that leaves start [mm] along a direction and ends at end [mm], or None when they are in line."""
    d, size = sub(end, start), math.hypot(*direction)
    normal = (-direction[1] / size, direction[0] / size)
    side = dot(d, normal)
    if abs(side) <= 1e-12 * math.hypot(*d):
        return None
    r = dot(d, d) / (2 * side)  # signed: positive turns left
    return arc_between(start, end, add(start, normal, r), left=r > 0)
