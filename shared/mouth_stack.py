"""Tolerance stack of the mouth opening: every contribution listed, worst case and root sum square."""

from __future__ import annotations

import math

from shared.record import Value


class Contribution(Value):
    """One cause of a spread: its own tolerance, and how much of it reaches the result."""

    name: str
    tolerance: float  # plus/minus, in the cause's own unit
    unit: str
    sensitivity: float  # result [mm] per unit of the cause

    @property
    def effect(self) -> float:
        """Plus/minus effect on the result [mm]."""
        return abs(self.tolerance * self.sensitivity)


class Stack(Value):
    """A set of independent contributions to one size."""

    contributions: tuple[Contribution, ...]

    @property
    def worst(self) -> float:
        """Every contribution at its limit at once [plus/minus mm]."""
        return math.fsum(c.effect for c in self.contributions)

    @property
    def rss(self) -> float:
        """Root of the sum of squares, for independent contributions [plus/minus mm]."""
        return math.sqrt(math.fsum(c.effect**2 for c in self.contributions))

    @property
    def largest(self) -> Contribution:
        """The contribution with the greatest effect."""
        return max(self.contributions, key=lambda c: c.effect)


def mouth_stack(
    bed: float,
    *,
    steel_under_edge: float,
    thickness_matters: bool,
    bed_position_tol: float,
    bed_angle_tol: float,
    thickness_tol: float,
    front_tol: float,
    datum_height: float = 0.0,
) -> Stack:
    """Return the stack of a mouth opening m = x_edge - x_front.

    The edge stands at x = x_p - h/tan(b) - s/sin(b) where x_p is the place of the bed at its datum height h and s the
    steel between edge and bed, so an angle error db moves it by (h + s*cos b)/sin^2(b)*db.

    Args:
        bed: bed angle [deg].
        steel_under_edge: distance from edge to bed plane, square to the bed [mm].
        thickness_matters: True for bevel down, where the bed lies under the blade's thickness.
        bed_position_tol: tolerance of the bed's place along the sole [plus/minus mm].
        bed_angle_tol: tolerance of the bed angle [plus/minus deg].
        thickness_tol: tolerance of the blade's thickness [plus/minus mm].
        front_tol: tolerance of the mouth's front wall along the sole [plus/minus mm].
        datum_height: height above the sole at which the bed's place is dimensioned [mm].
    """
    b = math.radians(bed)
    per_degree = math.radians(1) * (datum_height + steel_under_edge * math.cos(b)) / math.sin(b) ** 2
    parts = [
        Contribution("bed position along the sole", bed_position_tol, "mm", 1.0),
        Contribution("bed angle", bed_angle_tol, "deg", per_degree),
        Contribution("mouth front wall", front_tol, "mm", -1.0),
    ]
    if thickness_matters:
        parts.insert(2, Contribution("blade thickness", thickness_tol, "mm", -1 / math.sin(b)))
    return Stack(tuple(parts))
