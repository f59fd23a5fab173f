"""Where the walls along the draw stand: cheeks inside and outside, toe and heel, of casting and finished body."""

from __future__ import annotations

from math import radians, tan

from parts.body.size import Trough
from shared.record import Record

ABOVE = 4.0  # tools reach this far past the body, so that no faces of tool and body coincide [mm]

LEAST_CORNER = 0.3  # cast corner radius left at the highest place of the outside [mm]


def inside_half(size: Trough, z: float) -> float:
    """Return half the clear width between the cheeks at height z above the sole face [mm], root radius left out."""
    return size.inside_half_at(z)


def cheek_thickness(size: Trough, z: float) -> float:
    """Return the finished cheek's thickness at height z [mm]."""
    return size.width / 2 - inside_half(size, z)


class Envelope(Record):
    """The casting's outside: a rounded rectangle at the parting plane that shrinks away from it by the draft [mm]."""

    x0: float  # toe at the parting plane
    x1: float
    half: float  # half width at the parting plane
    corner: float  # plan radius at the parting plane
    parting_z: float
    slope: float  # tan(draft)

    def inset(self, z: float) -> float:
        """Return how far the outside has drawn in at height z [mm]."""
        return abs(z - self.parting_z) * self.slope

    def outside(self, x: float, y: float, z: float) -> float:
        """Return how far a point lies outside [mm] of the casting's outer walls at its height; negative inside."""
        k = self.inset(z)
        r = self.corner - k
        dx = max(self.x0 + k - x, x - self.x1 + k) + r
        dy = abs(y) - self.half + k + r
        reach = (max(dx, 0.0) ** 2 + max(dy, 0.0) ** 2) ** 0.5
        return reach + min(max(dx, dy), 0.0) - r


def envelope(size: Trough) -> Envelope:
    """Return the casting's outside. Each wall has its asked stock where it is thinnest, and more nearer the parting."""
    cast, slope = size.cast, tan(radians(size.cast.draft_outside))
    p = cast.parting_z
    # a wall is thinnest at the end of it that lies farthest from the parting plane: its top, or the sole face
    end = cast.end + slope * max(size.rail_height - p, p)
    side = cast.side + slope * max(size.cheek_height - p, p)
    half = size.width / 2 + side
    # concentric corners would keep the stock even, but the rail's top must keep a straight end between corner and
    # inside, or inner and outer rounding would run into each other; a smaller corner only leaves more stock
    rail_top = half - slope * abs(size.rail_height - p) - inside_half(size, size.rail_height)
    # and it must not run out before the cheek's top, where the draft has taken most of it
    top = slope * abs(size.cheek_height + ABOVE - p) + LEAST_CORNER
    corner = min(max(size.corner_radius + min(end, side), top), rail_top - 2 * cast.edge_radius)
    return Envelope(size.toe_x - end, size.heel_x + end, half, corner, p, slope)
