"""A section drawn once, turned and moved for a second view: no second projection by the kernel. Lengths mm."""

from __future__ import annotations

from math import cos, radians, sin

from shared.cad.project import SectionFace, SectionView
from shared.drawing.primitives import Arc, Curve, Ellipse, Line, Primitive, Projection
from shared.segments import Point


def turned_by(view: SectionView, angle: float, shift: Point) -> SectionView:
    """Return a section view turned about its origin, then moved.

    Args:
        view: as the kernel gave it.
        angle: counter-clockwise [deg].
        shift: where the origin goes [mm].
    """
    seen = view.projection
    groups = [tuple(_one(p, angle, shift) for p in group) for group in (seen.visible, seen.hidden, seen.smooth)]
    faces = tuple(
        SectionFace(f.outer.rotated(angle).moved(*shift), tuple(h.rotated(angle).moved(*shift) for h in f.holes))
        for f in view.faces
    )
    return SectionView(Projection(*groups), faces)


def _one(p: Primitive, angle: float, shift: Point) -> Primitive:
    c, s = cos(radians(angle)), sin(radians(angle))

    def at(q: Point) -> Point:
        return c * q[0] - s * q[1] + shift[0], s * q[0] + c * q[1] + shift[1]

    if isinstance(p, Line):
        return Line(at(p.start), at(p.end))
    if isinstance(p, Arc):
        return Arc(at(p.centre), p.radius, p.start_angle + angle, p.sweep)
    if isinstance(p, Ellipse):
        major = (c * p.major[0] - s * p.major[1], s * p.major[0] + c * p.major[1])
        return Ellipse(at(p.centre), major, p.ratio, p.start_param, p.end_param)
    if isinstance(p, Curve):
        return Curve(tuple(at(q) for q in p.through))
    raise TypeError(f"not a part of a projection: {type(p).__name__}")
