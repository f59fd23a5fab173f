"""What can be written on a view: dimensions, leaders, datums, balloons, marks. Model mm of the view, degrees."""

from __future__ import annotations

from dataclasses import dataclass

from shared.drawing.content import Row
from shared.drawing.dimtext import DimText
from shared.segments import Point


@dataclass(frozen=True)
class Linear:
    """A dimension along u ("h"), along v ("v") or along its own points ("aligned")."""

    way: str
    a: Point
    b: Point
    value: float
    text: DimText
    side: str
    at: float | None = None


@dataclass(frozen=True)
class Angular:
    """An angle at a vertex between the directions to a and b, counter-clockwise."""

    vertex: Point
    a: Point
    b: Point
    value: float
    text: DimText


@dataclass(frozen=True)
class Round:
    """A radius or a diameter: centre, a point on the arc, and rows that hang below its text."""

    kind: str
    centre: Point
    on: Point
    value: float
    text: DimText
    rows: tuple[Row, ...] = ()
    turn: bool = False  # the engine may choose where on the circle the leader ends


@dataclass(frozen=True)
class Leader:
    """A line from a point to rows of text, frames or textures; `end` is "arrow", "dot" or "none"."""

    point: Point
    rows: tuple[Row, ...]
    end: str = "arrow"
    toward: float | None = None  # preferred direction [deg]


@dataclass(frozen=True)
class Datum:
    """A datum letter on an edge; `toward` is the direction out of the material [deg], None for the nearest side."""

    letter: str
    point: Point
    toward: float | None = None


@dataclass(frozen=True)
class Balloon:
    """A part's number in a circle."""

    text: str
    point: Point


@dataclass(frozen=True)
class SectionMark:
    """A cutting plane from a to b with its letter; the arrows look in a direction [deg]."""

    a: Point
    b: Point
    letter: str
    look: float


@dataclass(frozen=True)
class DetailMark:
    """A thin circle about what a detail shows, with its letter."""

    centre: Point
    radius: float
    letter: str
    toward: float = 45.0  # where the letter stands [deg]


Annotation = Linear | Angular | Round | Leader | Datum | Balloon | SectionMark | DetailMark
