"""The casting's inside floor along the body: plate and frog pads, rounded, as a chain in (x, z) [mm].

The pads run from cheek to cheek: the narrow gap that a pad would leave beside the cheek would be a fin of sand that
breaks off. Milling then clears the pads between the cheeks' roots.
"""

from __future__ import annotations

from math import acos, cos, degrees, radians, tan

from parts.body.size import BodySize
from shared.profile import Pen
from shared.record import Record
from shared.segments import Segment

ROLL = 0.6  # the floor's hollow radii exceed the cheeks' root radius by this, so that the root can roll through [mm]
WALL_COVER = 0.5  # the plate under the low pad starts this far ahead of the mouth's aft wall [mm]


class Step(Record):
    """A change of level at x, where the slanted side crosses height `at` [mm]."""

    x: float
    at: float
    z0: float  # level ahead of it
    z1: float  # level behind it
    name: str


def low_pad_raw(size: BodySize) -> float:
    """Return the height of the low pad as cast [mm]."""
    return size.low_pad.z + size.cast.pad


def high_pad_raw(size: BodySize) -> float:
    """Return the height of the high pad as cast [mm]."""
    return size.high_pad.z + size.cast.pad


def hollow_radius(size: BodySize) -> float:
    """Return the radius at the foot of the pads [mm]."""
    return size.root_radius + ROLL


def steps(size: BodySize) -> list[Step]:
    """Return every change of level from toe to heel."""
    s, low, high = size.sole, low_pad_raw(size), high_pad_raw(size)
    wall_at_plate = size.wall_foot_x + s / tan(radians(size.bed_angle))
    return [
        Step(wall_at_plate - WALL_COVER, s, s, low, "low pad"),
        Step(size.high_pad.x0 - size.cast.pad, size.high_pad.z, low, high, "high pad"),
        Step(size.high_pad.x1, size.high_pad.z, high, s, "high pad"),
    ]


def slope_angle(size: BodySize, step: Step) -> float:
    """Return a step's angle to the sole [deg]: as steep as the draft lets it, flatter where its radii need room."""
    rise = abs(step.z1 - step.z0)
    both = hollow_radius(size) + size.cast.edge_radius
    fits = degrees(acos(max(-1.0, 1.0 - 0.9 * rise / both)))
    return min(90.0 - size.cast.draft_inside, fits)


def floor(size: BodySize, beyond: float) -> tuple[Segment, ...]:
    """Return the floor as an open chain from toe to heel, going on `beyond` [mm] past both ends.

    Raises:
        GeometryError: the radii of two neighbours do not fit between them.
    """
    path = Pen.at(size.toe_x - beyond, size.sole, "body floor")
    hollow, round_ = hollow_radius(size), size.cast.edge_radius
    for step in steps(size):
        run = 1.0 / tan(radians(slope_angle(size, step)))
        rising = step.z1 > step.z0
        sign = 1.0 if rising else -1.0
        for z, radius in ((step.z0, hollow if rising else round_), (step.z1, round_ if rising else hollow)):
            path = path.line_to(step.x + sign * (z - step.at) * run, z, corner=radius)
    return path.line_to(size.heel_x + beyond, size.sole).chain()


def top_edge_loss(size: BodySize, step: Step) -> float:
    """Return how far below the raw top the rounding of a step's top edge reaches [mm]."""
    return size.cast.edge_radius * (1 - cos(radians(slope_angle(size, step))))


def raised_from_to(size: BodySize) -> tuple[float, float]:
    """Return x where the pads' feet begin and end on the plate, roundings included [mm]."""
    first, last = steps(size)[0], steps(size)[-1]
    ends = []
    for step in (first, last):
        angle = radians(slope_angle(size, step))
        ends.append((step.at - size.sole) / tan(angle) + hollow_radius(size) * tan(angle / 2))
    return first.x - ends[0], last.x + ends[1]
