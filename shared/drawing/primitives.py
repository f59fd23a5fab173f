"""What a flat drawing is made of, in mm and degrees: lines, arcs and circles, ellipses, curves, hatches, notes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from shared.profile import Profile
from shared.segments import Arc, Line, Point

__all__ = ["Arc", "Curve", "Ellipse", "Hatch", "Line", "Note", "Primitive", "Projection", "bounds", "sort_key"]


@dataclass(frozen=True, slots=True)
class Ellipse:
    """An elliptic arc: centre [mm], vector of the longer half-axis [mm], ratio of the axes [-], parameters [deg].

    It runs counter-clockwise from `start` to `end` (end > start; 360 apart for a whole ellipse).
    """

    centre: Point
    major: Point
    ratio: float
    start_param: float = 0.0
    end_param: float = 360.0

    def at(self, param_deg: float) -> Point:
        """Return the point [mm] at a parameter [deg]."""
        c, s = math.cos(math.radians(param_deg)), math.sin(math.radians(param_deg)) * self.ratio
        return (
            self.centre[0] + c * self.major[0] - s * self.major[1],
            self.centre[1] + c * self.major[1] + s * self.major[0],
        )

    def points(self, n: int = 65) -> list[Point]:
        """Return n points along the arc [mm], both ends included."""
        step = (self.end_param - self.start_param) / (n - 1)
        return [self.at(self.start_param + i * step) for i in range(n)]


@dataclass(frozen=True, slots=True)
class Curve:
    """A smooth curve through points [mm]; only for what is truly neither line, arc nor ellipse."""

    through: tuple[Point, ...]

    def points(self) -> list[Point]:
        """Return the points [mm]."""
        return list(self.through)


@dataclass(frozen=True, slots=True)
class Hatch:
    """Section lines inside an outline and outside its holes: angle [deg] and spacing on paper [mm]."""

    outer: Profile
    holes: tuple[Profile, ...] = ()
    angle: float = 45.0
    spacing: float = 3.0


@dataclass(frozen=True, slots=True)
class Note:
    """A line of text: foot point [mm], capital height [mm], angle [deg], `align` left, centre or right."""

    text: str
    at: Point
    height: float = 3.5
    angle: float = 0.0
    align: str = "left"


Primitive = Line | Arc | Ellipse | Curve | Hatch | Note


@dataclass(frozen=True)
class Projection:
    """A view of a shape: lines seen, lines hidden, and smooth (tangent) edges that are seen."""

    visible: tuple[Primitive, ...]
    hidden: tuple[Primitive, ...] = ()
    smooth: tuple[Primitive, ...] = ()

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Extent of what is seen (u_min, v_min, u_max, v_max) [mm]."""
        return bounds(self.visible)


def _reach(p: Primitive) -> list[Point]:
    if isinstance(p, Line | Arc):
        a, b, c, d = p.bounds()
        return [(a, b), (c, d)]
    if isinstance(p, Ellipse):
        # the extremes of c + cos t a + sin t b lie at tan t = b/a, in each coordinate
        minor = (-p.major[1] * p.ratio, p.major[0] * p.ratio)
        tips = [p.at(p.start_param), p.at(p.end_param)]
        for k in (0, 1):
            t = math.degrees(math.atan2(minor[k], p.major[k]))
            tips += [p.at(u) for u in (t, t + 180) if (u - p.start_param) % 360 <= p.end_param - p.start_param]
        return tips
    if isinstance(p, Curve):
        return list(p.through)
    if isinstance(p, Hatch):
        a, b, c, d = p.outer.bounds
        return [(a, b), (c, d)]
    return [p.at]


def bounds(primitives: tuple[Primitive, ...] | list[Primitive]) -> tuple[float, float, float, float]:
    """Return the extent (u_min, v_min, u_max, v_max) [mm] of primitives; notes count with their foot point only."""
    tips = [q for p in primitives for q in _reach(p)]
    us, vs = [q[0] for q in tips], [q[1] for q in tips]
    return min(us), min(vs), max(us), max(vs)


def sort_key(p: Primitive) -> tuple[object, ...]:
    """Return a key that puts primitives in the same order whatever order the kernel gave them in."""

    def r(*xs: float) -> tuple[float, ...]:
        return tuple(round(x, 3) + 0.0 for x in xs)

    if isinstance(p, Line):
        return (0, *r(*p.start, *p.end))
    if isinstance(p, Arc):
        return (1, *r(*p.centre, p.radius, p.start_angle, p.sweep))
    if isinstance(p, Ellipse):
        return (2, *r(*p.centre, *p.major, p.ratio, p.start_param, p.end_param))
    if isinstance(p, Curve):
        return (3, *r(*p.through[0], *p.through[-1], *p.through[len(p.through) // 2]))
    if isinstance(p, Hatch):
        return (4, *r(*p.outer.bounds, p.angle))
    return (5, *r(*p.at), p.text)
