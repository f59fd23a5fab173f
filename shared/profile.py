"""Closed outlines of lines and true arcs, the one source for numbers, templates and solids.

A `Pen` draws piece by piece, with an optional radius at the end of each piece, and closes into a `Profile`:

    side = Pen.at(0, 0).line_to(200, 0).line_to(200, 20, corner=8).arc_to((100, 50), (0, 20), corner=8).close()

Neither ever changes; each step gives a new one. Lengths are mm, angles degrees.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from shared import rounding
from shared.errors import GeometryError
from shared.segments import (
    NEAR,
    Arc,
    Line,
    Point,
    Segment,
    add,
    angle_of,
    arc_between,
    polar,
    sub,
    tangent_arc,
    three_point_arc,
)

__all__ = ["Arc", "Line", "Pen", "Point", "Profile", "Segment"]


@dataclass(frozen=True)
class Profile:
    """A closed outline, kept counter-clockwise. Pieces must join within 1e-7 mm.

    Raises:
        GeometryError: the pieces do not join up, or enclose nothing.
    """

    segments: tuple[Segment, ...]
    name: str = "outline"

    def __post_init__(self) -> None:
        if not self.segments:
            raise GeometryError(self.name, "close the outline", "it has no pieces")
        for a, b in zip(self.segments, self.segments[1:] + self.segments[:1], strict=True):
            gap = math.dist(a.end, b.start)
            if gap > NEAR:
                raise GeometryError(self.name, "close the outline", "two pieces do not join", gap_mm=gap, at=a.end)
        area = sum(s.moments()[0] for s in self.segments)
        if abs(area) < NEAR:
            raise GeometryError(self.name, "close the outline", "it encloses no area")
        if area < 0:
            object.__setattr__(self, "segments", tuple(s.reversed() for s in reversed(self.segments)))

    # ---- ready-made outlines ------------------------------------------------------------------------------------

    @staticmethod
    def polygon(points: Sequence[Point], radii: float | Sequence[float] = 0.0, name: str = "outline") -> Profile:
        """Return a polygon with rounded corners.

        Args:
            points: corners in order [mm].
            radii: one radius for all corners, or one a corner [mm]; 0 keeps a corner sharp.
            name: what is drawn, for messages.

        Raises:
            GeometryError: a radius does not fit.
        """
        each = [float(radii)] * len(points) if isinstance(radii, int | float) else [float(r) for r in radii]
        if len(each) != len(points):
            raise GeometryError(name, "polygon", "needs one radius a corner", corners=len(points), radii=len(each))
        sides = [Line(p, q) for p, q in zip(points, [*points[1:], points[0]], strict=True)]
        return Profile(rounding.rounded(sides, each[1:] + each[:1], True, name), name)

    @staticmethod
    def rectangle(u0: float, v0: float, u1: float, v1: float, radii: float | Sequence[float] = 0.0,
                  name: str = "outline") -> Profile:  # fmt: skip
        """Return a rectangle from (u0, v0) to (u1, v1) [mm]; radii [mm] as in `polygon`, from the first corner on."""
        return Profile.polygon([(u0, v0), (u1, v0), (u1, v1), (u0, v1)], radii, name)

    @staticmethod
    def circle(centre: Point, radius: float, name: str = "outline") -> Profile:
        """Return a circle: centre [mm], radius [mm]."""
        return Profile((Arc(centre, radius, 0.0, 360.0),), name)

    @staticmethod
    def slot(a: Point, b: Point, width: float, name: str = "outline") -> Profile:
        """Return a slot with round ends: centres of the ends a and b [mm], width [mm]."""
        r = width / 2
        along = angle_of(sub(b, a))
        first, second = Arc(b, r, along - 90, 180), Arc(a, r, along + 90, 180)
        return Profile((first, Line(first.end, second.start), second, Line(second.end, first.start)), name)

    # ---- measures -----------------------------------------------------------------------------------------------

    @property
    def area(self) -> float:
        """Enclosed area, arcs included [mm2]."""
        return sum(s.moments()[0] for s in self.segments)

    @property
    def perimeter(self) -> float:
        """Length of the outline [mm]."""
        return sum(s.length for s in self.segments)

    @property
    def centroid(self) -> Point:
        """Centre of the area [mm]."""
        m = [s.moments() for s in self.segments]
        return sum(x[1] for x in m) / self.area, sum(x[2] for x in m) / self.area

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Extent (u_min, v_min, u_max, v_max) [mm]."""
        b = [s.bounds() for s in self.segments]
        return min(x[0] for x in b), min(x[1] for x in b), max(x[2] for x in b), max(x[3] for x in b)

    def crossings(self, axis: int, value: float) -> list[float]:
        """Return where the line u = value (axis 0) or v = value (axis 1) meets the outline.

        Returns:
            The other coordinate of each crossing [mm], rising; a corner lying on the line counts once.
        """
        out: list[float] = []
        for w in sorted(w for s in self.segments for w in s.crossings(axis, value)):
            if not out or w - out[-1] > NEAR:
                out.append(w)
        return out

    def distance(self, p: Point) -> float:
        """Return the shortest distance [mm] from a point to the outline (from inside or outside)."""
        return min(s.distance(p) for s in self.segments)

    def polyline(self, tolerance: float = 0.01) -> list[Point]:
        """Return corner points of a polygon within `tolerance` [mm] of the outline, the first not repeated."""
        return [p for s in self.segments for p in s.points(tolerance)]

    def contains(self, p: Point) -> bool:
        """Return whether a point [mm] lies inside: by winding of the outline about it."""
        if self.distance(p) < NEAR:
            return False
        ring = self.polyline(max(1e-4, self.distance(p) / 2))
        turn = 0.0
        for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
            step = angle_of(sub(b, p)) - angle_of(sub(a, p))
            turn += (step + 180.0) % 360.0 - 180.0
        return abs(turn) > 180.0

    # ---- moved copies -------------------------------------------------------------------------------------------

    def moved(self, du: float, dv: float) -> Profile:
        """Return a copy moved by (du, dv) [mm]."""
        return self._map(lambda p: (p[0] + du, p[1] + dv), lambda a: a)

    def rotated(self, angle_deg: float, about: Point = (0.0, 0.0)) -> Profile:
        """Return a copy turned counter-clockwise [deg] about a point [mm]."""

        def turn(p: Point) -> Point:
            v = sub(p, about)
            return add(about, polar((0.0, 0.0), math.hypot(*v), angle_of(v) + angle_deg)) if v != (0.0, 0.0) else p

        return self._map(turn, lambda a: a + angle_deg)

    def scaled(self, factor: float) -> Profile:
        """Return a copy scaled about the origin by a factor [-] above 0."""
        return self._map(lambda p: (p[0] * factor, p[1] * factor), lambda a: a, factor)

    def mirrored(self, axis: int, at: float = 0.0) -> Profile:
        """Return the mirror image in the line u = at (axis 0) or v = at (axis 1) [mm]."""
        if axis == 0:
            return self._map(lambda p: (2 * at - p[0], p[1]), lambda a: 180.0 - a, flip=True)
        return self._map(lambda p: (p[0], 2 * at - p[1]), lambda a: -a, flip=True)

    def offset(self, outward: float) -> Profile:
        """Return the outline moved outward [mm] (negative: inward), corners mitred, with the same number of pieces.

        Raises:
            GeometryError: an arc or a side would shrink to nothing.
        """
        return Profile(rounding.offset(self.segments, outward, self.name), self.name)

    def named(self, name: str) -> Profile:
        """Return the same outline under another name."""
        return Profile(self.segments, name)

    def _map(self, move: Callable[[Point], Point], angle: Callable[[float], float], factor: float = 1.0,
             flip: bool = False) -> Profile:  # fmt: skip
        out: list[Segment] = []
        for s in self.segments:
            if isinstance(s, Line):
                out.append(Line(move(s.start), move(s.end)))
            else:
                sweep = -s.sweep if flip else s.sweep
                out.append(Arc(move(s.centre), s.radius * factor, angle(s.start_angle), sweep))
        return Profile(tuple(out), self.name)

    def __iter__(self) -> Iterator[Segment]:
        """Run over the pieces."""
        return iter(self.segments)


@dataclass(frozen=True)
class Pen:
    """An open chain being drawn. `corner` is the radius [mm] of the joint at the end of the piece just drawn."""

    start: Point
    segments: tuple[Segment, ...] = ()
    radii: tuple[float, ...] = ()
    name: str = "outline"

    @staticmethod
    def at(u: float, v: float, name: str = "outline") -> Pen:
        """Start at a point [mm]."""
        return Pen((float(u), float(v)), name=name)

    @property
    def end(self) -> Point:
        """Where the pencil is [mm]."""
        return self.segments[-1].end if self.segments else self.start

    def piece(self, segment: Segment, corner: float = 0.0) -> Pen:
        """Add a ready piece that starts where the pencil is."""
        return Pen(self.start, (*self.segments, segment), (*self.radii, float(corner)), self.name)

    def line_to(self, u: float, v: float, corner: float = 0.0) -> Pen:
        """Draw a line to a point [mm]."""
        if math.dist(self.end, (u, v)) <= NEAR:
            raise GeometryError(self.name, "draw a line", "it has no length", at=self.end)
        return self.piece(Line(self.end, (float(u), float(v))), corner)

    def line_by(self, du: float, dv: float, corner: float = 0.0) -> Pen:
        """Draw a line by an offset [mm]."""
        return self.line_to(self.end[0] + du, self.end[1] + dv, corner)

    def line_along(self, angle_deg: float, length: float, corner: float = 0.0) -> Pen:
        """Draw a line in a direction [deg] for a length [mm]."""
        return self.line_to(*polar(self.end, length, angle_deg), corner=corner)

    def arc_to(self, middle: Point, end: Point, corner: float = 0.0) -> Pen:
        """Draw the arc through a middle point to an end [mm]; a line when the three are in line."""
        return self._arc(three_point_arc(self.end, middle, end), end, corner)

    def tangent_arc_to(self, u: float, v: float, corner: float = 0.0) -> Pen:
        """Draw the arc that carries on smoothly to a point [mm]; a line when that is straight ahead."""
        if not self.segments:
            raise GeometryError(self.name, "tangent arc", "there is no piece before it")
        return self._arc(tangent_arc(self.end, self.segments[-1].direction(at_end=True), (u, v)), (u, v), corner)

    def radius_arc_to(self, u: float, v: float, radius: float, left: bool, corner: float = 0.0) -> Pen:
        """Draw the arc of a radius [mm], the shorter way, turning left (counter-clockwise) or right, to a point [mm].

        Raises:
            GeometryError: the radius is less than half the distance.
        """
        chord = math.dist(self.end, (u, v))
        if chord > 2 * radius * (1 + 1e-12):
            raise GeometryError(self.name, "arc by radius", "the radius is less than half the distance",
                                radius_mm=radius, distance_mm=chord)  # fmt: skip
        rise = math.sqrt(max(0.0, radius**2 - chord**2 / 4)) / chord
        d = (u - self.end[0], v - self.end[1])
        normal = (-d[1], d[0]) if left else (d[1], -d[0])
        middle = (self.end[0] + d[0] / 2, self.end[1] + d[1] / 2)
        return self.piece(arc_between(self.end, (float(u), float(v)), add(middle, normal, rise), left), corner)

    def arc_about(self, centre: Point, sweep_deg: float, corner: float = 0.0) -> Pen:
        """Draw the arc about a centre [mm] through an angle [deg], positive counter-clockwise."""
        r = math.dist(self.end, centre)
        return self.piece(Arc(centre, r, angle_of(sub(self.end, centre)), sweep_deg), corner)

    def _arc(self, arc: Arc | None, end: Point, corner: float) -> Pen:
        return self.line_to(*end, corner=corner) if arc is None else self.piece(arc, corner)

    def close(self, corner: float = 0.0, start_corner: float = 0.0) -> Profile:
        """Close with a line to the start if the pencil is not there yet, and round the corners.

        Args:
            corner: radius [mm] where the closing line starts (ignored when the pencil is at the start).
            start_corner: radius [mm] at the start point.

        Raises:
            GeometryError: a radius does not fit, or the outline encloses nothing.
        """
        path = self
        if math.dist(self.end, self.start) > NEAR:
            radii = (*self.radii[:-1], max(corner, self.radii[-1]))
            path = Pen(self.start, (*self.segments, Line(self.end, self.start)), (*radii, 0.0), self.name)
        radii = (*path.radii[:-1], max(start_corner, path.radii[-1]))
        return Profile(rounding.rounded(path.segments, radii, True, self.name), self.name)

    def chain(self) -> tuple[Segment, ...]:
        """Return the open chain with its inner corners rounded, for spines and centre lines."""
        return rounding.rounded(self.segments, self.radii, False, self.name)
