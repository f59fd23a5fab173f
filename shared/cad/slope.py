"""The bed as a place to draw on: s up the bed from the edge, h below it, y across the plane."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin

import cadquery as cq

from shared.cad.solids import Frame, Vector, extrude_in, revolve
from shared.profile import Pen, Profile

DRILL_POINT = 0.3  # height of a 118 deg drill's point over its diameter


@dataclass(frozen=True)
class Slope:
    """A bed at an angle to the sole [deg] that lies `steel` [mm] square below the blade's upper face.

    The face runs through the origin; h = 0 on the bed, h = -steel on the face.
    """

    angle: float
    steel: float

    @property
    def up(self) -> Vector:
        """Unit direction of growing s."""
        b = radians(self.angle)
        return cos(b), 0.0, sin(b)

    @property
    def inward(self) -> Vector:
        """Unit direction of growing h, into the bed."""
        b = radians(self.angle)
        return sin(b), 0.0, -cos(b)

    @property
    def outward(self) -> Vector:
        """Unit direction away from the bed."""
        x, y, z = self.inward
        return -x, y, -z

    def point(self, s: float, h: float = 0.0, y: float = 0.0) -> Vector:
        """Return the point in the plane's frame [mm] at s, h, y [mm]."""
        u, n, d = self.up, self.inward, self.steel + h
        return s * u[0] + d * n[0], y, s * u[2] + d * n[2]

    def plan(self, h: float = 0.0) -> Frame:
        """Return the frame for outlines drawn as (s, y) at a depth h [mm]."""
        return Frame(self.point(0.0, h), self.up, (0.0, 1.0, 0.0))

    def side(self, y: float = 0.0) -> Frame:
        """Return the frame for outlines drawn as (s, h) at a width y [mm]."""
        return Frame(self.point(0.0, 0.0, y), self.up, self.inward)

    def across(self, s: float) -> Frame:
        """Return the frame for outlines drawn as (y, h) at a station s [mm]."""
        return Frame(self.point(s), (0.0, 1.0, 0.0), self.inward)

    def push_down(self, outline: Profile, h0: float, h1: float, part: str = "") -> cq.Solid:
        """Return an outline (s, y) pushed square to the bed from depth h0 to h1 [mm]."""
        return extrude_in(outline, self.plan(h0), self.inward, h1 - h0, part=part)

    def push_across(self, outline: Profile, y0: float, y1: float, part: str = "") -> cq.Solid:
        """Return an outline (s, h) pushed across the plane from y0 to y1 [mm]."""
        return extrude_in(outline, self.side(y0), (0.0, 1.0, 0.0), y1 - y0, part=part)


def on_bed(solid: cq.Solid, angle: float) -> cq.Solid:
    """Return a solid of the blade's frame (x up the blade, z off it) turned into the plane's frame; bed angle [deg]."""
    return cq.Solid(solid.moved(cq.Location((0, 0, 0), (0, 1, 0), -angle)).wrapped)


def off_bed(solid: cq.Solid, angle: float) -> cq.Shape:
    """Return a seated solid turned back into the blade's frame; bed angle [deg]."""
    return solid.moved(cq.Location((0, 0, 0), (0, 1, 0), angle))


def drilled(mouth: Vector, along: Vector, diameter: float, depth: float, lead: float = 1.0, part: str = "") -> cq.Solid:
    """Return what a 118 deg drill takes away.

    Args:
        mouth: centre of the hole's mouth [mm].
        along: unit direction into the metal.
        diameter: of the drill [mm].
        depth: of the full diameter below the mouth [mm]; the point goes 0.3 diameters deeper.
        lead: how far the tool reaches out of the mouth [mm].
        part: name for messages.
    """
    r = diameter / 2
    side = Pen.at(0, -lead).line_to(r, -lead).line_to(r, depth).line_to(0, depth + DRILL_POINT * diameter)
    return revolve(side.close().named("drill"), mouth, along, part=part)


def cylinder(foot: Vector, along: Vector, diameter: float, length: float, part: str = "") -> cq.Solid:
    """Return a plain round bar: centre of one end [mm], unit direction, diameter and length [mm]."""
    return revolve(Profile.rectangle(0, 0, diameter / 2, length, name="bar"), foot, along, part=part)
