"""What a sheet is composed of before it is written: strokes, filled shapes, dimensions, symbols. Paper mm, degrees."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from shared.drawing import lettering
from shared.drawing.primitives import Arc, Line, Note, Primitive
from shared.segments import Point, angle_of, polar, sub

Rect = tuple[float, float, float, float]
TEXT = 2.5  # capital height of dimensions and notes [mm]: ISO 3098, from memory
SMALL = 1.8  # of deviations
ARROW = 2.5  # length of an arrowhead [mm]; a third as wide
GAP = 0.8  # between a dimension line and the foot of its text [mm]


@dataclass(frozen=True, slots=True)
class Fill:
    """A filled triangle or four-sided shape: its corners [mm] in order."""

    corners: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Stroke:
    """Something drawn on a layer."""

    layer: str
    what: Primitive | Fill


@dataclass(frozen=True, slots=True)
class Sign:
    """A symbol of `shared.drawing.symbols` (drawn 1 mm high): its name, lower left corner [mm], height [mm]."""

    name: str
    at: Point
    size: float


@dataclass(frozen=True)
class Dimension:
    """A dimension as an entity of its own, with all that is drawn for it.

    `kind` is "linear" (points: two measured points and one on the dimension line; `angle` of the measured direction),
    "radius" (centre, point on the arc), "diameter" (two opposite points) or "angle" (vertex, two points on the legs,
    one on the dimension arc). `value` is in model mm or degrees; `text` has "<>" where the measured number stands.
    """

    kind: str
    points: tuple[Point, ...]
    value: float
    text: str
    shown: str
    text_at: Point
    scale: float
    unit: str
    places: int
    angle: float = 0.0
    strokes: tuple[Stroke, ...] = ()


Mark = Stroke | Sign | Dimension


@dataclass(frozen=True)
class Box:
    """A rectangle on paper: lower left corner [mm], width and height [mm], turned about that corner [deg]."""

    at: Point
    width: float
    height: float
    angle: float = 0.0

    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Return the corners [mm], counter-clockwise."""
        along, up = polar((0.0, 0.0), 1.0, self.angle), polar((0.0, 0.0), 1.0, self.angle + 90)
        (u, v), w, h = self.at, self.width, self.height
        a = (u + w * along[0], v + w * along[1])
        return (u, v), a, (a[0] + h * up[0], a[1] + h * up[1]), (u + h * up[0], v + h * up[1])

    @property
    def rect(self) -> tuple[float, float, float, float]:
        """Extent (u_min, v_min, u_max, v_max) [mm]."""
        us, vs = zip(*self.corners(), strict=True)
        return min(us), min(vs), max(us), max(vs)


def note_box(note: Note) -> Box:
    """Return the rectangle a note's letters fill [mm]."""
    w = lettering.width(note.text, note.height)
    back = {"left": 0.0, "centre": w / 2, "right": w}[note.align]
    along, up = polar((0.0, 0.0), 1.0, note.angle), polar((0.0, 0.0), 1.0, note.angle + 90)
    drop = lettering.BELOW * note.height
    at = (note.at[0] - back * along[0] - drop * up[0], note.at[1] - back * along[1] - drop * up[1])
    return Box(at, w, (lettering.ABOVE + lettering.BELOW) * note.height, note.angle)


def arrow(tip: Point, direction: float, layer: str = "DIM", size: float = ARROW) -> Stroke:
    """Return an arrowhead with its tip at a point [mm], pointing in a direction [deg]."""
    base = polar(tip, -size, direction)
    half = size / 6
    return Stroke(layer, Fill((tip, polar(base, half, direction + 90), polar(base, half, direction - 90))))


def polyline(points: Sequence[Point], layer: str) -> list[Stroke]:
    """Return lines from point to point [mm]."""
    return [Stroke(layer, Line(a, b)) for a, b in itertools.pairwise(points) if math.dist(a, b) > 1e-9]


def rectangle(u0: float, v0: float, u1: float, v1: float, layer: str) -> list[Stroke]:
    """Return the four sides of a rectangle [mm]."""
    return polyline([(u0, v0), (u1, v0), (u1, v1), (u0, v1), (u0, v0)], layer)


def dot(at: Point, layer: str = "DIM", size: float = 0.9) -> list[Stroke]:
    """Return a small filled lozenge, the end of a leader that points at a face: centre [mm], width [mm]."""
    return [Stroke(layer, Fill(tuple(polar(at, size / 2, a) for a in (0.0, 90.0, 180.0, 270.0))))]


def flat(marks: Iterable[Mark]) -> list[Stroke]:
    """Return every stroke in marks, also those inside dimensions; signs are left out."""
    out: list[Stroke] = []
    for m in marks:
        if isinstance(m, Stroke):
            out.append(m)
        elif isinstance(m, Dimension):
            out += m.strokes
    return out


def heading(a: Point, b: Point) -> float:
    """Return the direction from a to b [deg]."""
    return angle_of(sub(b, a))


def upright(angle: float) -> float:
    """Return a direction turned by 180 deg where needed, so that a text along it reads from below or from the right."""
    a = angle % 360.0
    if a > 90.0 + 1e-6 and a <= 270.0 + 1e-6:
        a -= 180.0
    return a % 360.0


@dataclass
class Piece:
    """A group of marks with the rectangle it needs: (u_min, v_min, u_max, v_max) [mm]."""

    marks: list[Mark] = field(default_factory=list)
    rect: tuple[float, float, float, float] = (0.0, 0.0, 0.0, 0.0)


def extent(marks: Iterable[Mark], base: Rect) -> Rect:
    """Return the extent of marks together with a rectangle [mm]."""
    us, vs = [base[0], base[2]], [base[1], base[3]]
    for x in marks:
        if isinstance(x, Sign):
            us += [x.at[0], x.at[0] + x.size]
            vs += [x.at[1], x.at[1] + x.size]
            continue
        for s in flat([x]):
            a, b, c, d = reach(s.what)
            us += [a, c]
            vs += [b, d]
    return min(us), min(vs), max(us), max(vs)


def reach(p: object) -> Rect:
    """Return the extent of a stroke [mm]."""
    if isinstance(p, Note):
        return note_box(p).rect
    if isinstance(p, Fill):
        pts: tuple[Point, ...] = p.corners
        return min(u for u, _ in pts), min(v for _, v in pts), max(u for u, _ in pts), max(v for _, v in pts)
    assert isinstance(p, Line | Arc)
    return p.bounds()
