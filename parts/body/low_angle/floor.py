"""The low-angle casting's inside floor along the body: plate, front land and bridge, rounded, as a chain (x, z) [mm].

Land and bridge run from cheek to cheek: a narrow gap beside the cheek would be a fin of sand that breaks off, and the
bridge stiffens the cheeks. Their tops lie parallel to the bed under their stock; milling then clears the width of
the blade between the cheeks' roots.
"""

from __future__ import annotations

from math import cos, degrees, radians, sin, tan
from typing import NamedTuple

from parts.body.arch import rim_height
from parts.body.low_angle.size import LowBodySize
from parts.body.room import LAND
from shared.profile import Pen
from shared.record import Record
from shared.segments import Segment

ROLL = 1.2  # the floor's hollow radii exceed the cheeks' root radius by this, so that the root can roll through [mm]
FITS = 0.9  # of a side's length that its two roundings may take
FLATTEST = 25  # least angle of a side to the sole [deg]


class Corner(NamedTuple):
    """A corner of the floor before it is rounded [mm]."""

    x: float
    z: float
    radius: float


class Side(Record):
    """A slanted side of land or bridge as cast, through the end of its finished top at x on the bed plane."""

    x: float
    bed_z: float
    top_z: float  # where it meets the raw top [mm]
    angle: float  # to the sole [deg]
    turn: float  # at its top edge [deg]
    rises: bool  # toward the heel

    def at(self, z: float) -> float:
        """Return x [mm] at height z [mm]."""
        run = (z - self.bed_z) / tan(radians(self.angle))
        return self.x + run if self.rises else self.x - run


def hollow_radius(size: LowBodySize) -> float:
    """Return the radius at the foot of land and bridge [mm]; more than the cheeks' root, which must roll through."""
    return size.root_radius + ROLL


def raw_bed_z(size: LowBodySize, x: float) -> float:
    """Return the height of the bed as cast, under its stock [mm], at x [mm]."""
    return size.bed_z(x) + size.cast.pad / cos(radians(size.bed_angle))


def side_at(size: LowBodySize, x: float, rises: bool) -> Side:
    """Return the side through the bed plane at x [mm]: as steep as the draft lets it, flatter where radii need room."""
    b, edge, hollow = radians(size.bed_angle), size.cast.edge_radius, hollow_radius(size)
    stock, bed_z = size.cast.pad / cos(b), size.bed_z(x)
    steepest = 90.0 - size.cast.draft_inside
    for less in range(int(steepest) - FLATTEST + 1):
        angle = steepest - less
        a = radians(angle)
        lean = tan(b) / tan(a)
        top_z = bed_z + stock / (1 - lean if rises else 1 + lean)
        turn = a - b if rises else a + b
        room = (top_z - size.sole) / sin(a)
        if hollow * tan(a / 2) + edge * tan(turn / 2) <= FITS * room:
            break
    return Side(x, bed_z, top_z, angle, degrees(turn), rises)


def sides(size: LowBodySize) -> tuple[Side, Side, Side]:
    """Return the aft side of the front land, and the bridge's two sides."""
    ends = ((size.ramp_to, False), (size.bridge.x0, True), (size.bridge.x1, False))
    land, front, aft = (side_at(size, x, rises) for x, rises in ends)
    return land, front, aft


def land_from(size: LowBodySize) -> float:
    """Return x where the front land's raw top rises out of the plate [mm]."""
    b = radians(size.bed_angle)
    return (size.sole - size.cast.pad / cos(b)) / tan(b)


def corners(size: LowBodySize) -> list[Corner]:
    """Return the floor's corners from toe to heel."""
    edge, hollow = size.cast.edge_radius, hollow_radius(size)
    out = [Corner(land_from(size), size.sole, hollow)]
    for side in sides(size):
        top, foot = Corner(side.at(side.top_z), side.top_z, edge), Corner(side.at(size.sole), size.sole, hollow)
        out += [foot, top] if side.rises else [top, foot]
    return out


def floor(size: LowBodySize, beyond: float) -> tuple[Segment, ...]:
    """Return the floor as an open chain from toe to heel, going on `beyond` [mm] past both ends.

    Raises:
        GeometryError: the radii of two neighbours do not fit between them.
    """
    path = Pen.at(size.toe_x - beyond, size.sole, "body floor")
    for c in corners(size):
        path = path.line_to(c.x, c.z, corner=c.radius)
    return path.line_to(size.heel_x + beyond, size.sole).chain()


def foot_reach(size: LowBodySize, side: Side) -> float:
    """Return x where a side's foot, rounding included, meets the plate [mm]."""
    more = hollow_radius(size) * tan(radians(side.angle) / 2)
    return side.at(size.sole) - more if side.rises else side.at(size.sole) + more


def top_edge_loss(size: LowBodySize, side: Side) -> float:
    """Return how far below the raw top, square to it, the rounding of a side's top edge reaches [mm]."""
    return size.cast.edge_radius * (1 - cos(radians(side.turn)))


def clear_from_side(size: LowBodySize, side: Side) -> float:
    """Return how far along x [mm] from a finished land's end the stock is less than whole.

    There the top edge is rounded, and the side may lean in over the land.
    """
    b = radians(size.bed_angle)
    back = 90.0 - side.angle + (size.bed_angle if side.rises else -size.bed_angle)
    along = size.cast.edge_radius * tan(radians(side.turn) / 2) + size.cast.pad * max(0.0, tan(radians(back)))
    return along * cos(b) + 0.05


def rim_room(size: LowBodySize) -> list[tuple[str, float, float]]:
    """Return for land and bridge as cast: name, x where the cheek's rim is nearest above it [mm], and how near [mm]."""
    land, front, aft = sides(size)
    spans = (("front land", max(0.0, land_from(size)), land.at(land.top_z)),
             ("bridge", front.at(front.top_z), aft.at(aft.top_z)))  # fmt: skip
    found = []
    for name, x0, x1 in spans:
        places = [x0 + (x1 - x0) * i / 8 for i in range(9)]
        least, x = min((rim_height(size, x) - raw_bed_z(size, x), x) for x in places)
        found.append((name, x, least))
    return found


def rim_need(size: LowBodySize) -> float:
    """Return how far a rim must stand above land and bridge [mm], so that root and rim can both be rounded."""
    return size.root_radius + size.cast.edge_radius + LAND
