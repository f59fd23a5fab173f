"""A plane seen from its right side, as plain outlines at full size (x, z) [mm]; a family's picture is drawn from them.

Arithmetic only. Each kind adds what stands on its bed in its module `side`.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, radians, sin, tan

from parts.body.views import side_outline
from parts.handle.outline import knob_profile, tote_side
from parts.plane import kinds
from parts.plane.design import Design
from shared.record import Record

Point = tuple[float, float]
FINE = 0.1  # the outlines' polygons stay this near to their arcs [mm]


class Shape(Record):
    """One outline: what it shows, of what stuff ("metal", "cap", "steel", "brass", "wood"), and its corners [mm]."""

    name: str
    stuff: str
    corners: tuple[Point, ...]


def shapes(d: Design) -> list[Shape]:
    """Return a plane's outlines, the farthest first.

    Raises:
        GeometryError: a body whose outline cannot be drawn.
    """
    found: list[Shape] = kinds.of(d.spec.plane.kind, "side").shapes(d)
    return found


def on_bed(d: Design, name: str, stuff: str, points: Sequence[Point]) -> Shape:
    """Return a shape given along the bed: s [mm] from the edge up the plane through it, q [mm] square above it."""
    b = radians(d.spec.bed.angle)
    return Shape(name, stuff, tuple((s * cos(b) - q * sin(b), s * sin(b) + q * cos(b)) for s, q in points))


def box_on_bed(d: Design, name: str, stuff: str, s: Point, q: Point) -> Shape:
    """Return a rectangle along the bed, from s to s and from q to q [mm]."""
    return on_bed(d, name, stuff, [(s[0], q[0]), (s[1], q[0]), (s[1], q[1]), (s[0], q[1])])


def blade(d: Design) -> Shape:
    """Return the blade: under the plane of its face with the bevel down, over the bed with the bevel up."""
    size = d.blade
    heel = size.thickness / tan(radians(size.bevel))
    q = -size.thickness if d.orientation == "bevel-down" else size.thickness
    return on_bed(d, "blade", "steel", [(0.0, 0.0), (size.length, 0.0), (size.length, q), (heel, q)])


def body(d: Design) -> Shape:
    """Return the body's outline over its cheek."""
    return Shape("body", "metal", tuple(side_outline(d.body).polyline(FINE)))


def handles(d: Design) -> list[Shape]:
    """Return tote, where there is one, and knob."""
    found = []
    if d.tote is not None and d.tote_at is not None:
        foot, x = d.tote.foot_plane_z, d.tote_at.x
        found.append(Shape("tote", "wood", tuple((x + a, foot + z) for a, z in tote_side(d.tote, FINE).polyline(FINE))))
    foot = d.knob.foot_plane_z
    found.append(Shape("knob", "wood", tuple((d.knob_x + r, foot + z) for r, z in knob_profile(d.knob).polyline(FINE))))
    return found
