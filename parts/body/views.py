"""Any body's side and plan at full size, piece by piece, as lines and true arcs, without any CAD.

Side drawn as (x, z), plan as (x, y), both in the plane's frame.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin, tan

from parts.body.arch import rim
from parts.body.ribs import Rib, ribs_of
from parts.body.room import RING_DEPTH, ring_reach
from parts.body.size import Boss, TappedHole, Trough
from parts.body.walls import inside_half
from shared.profile import Line, Pen, Point, Profile
from shared.segments import Segment

PAST = 4.0  # centre lines run past what they mark [mm]


@dataclass(frozen=True)
class View:
    """One full-size view: closed outlines, and further things by layer name [mm]."""

    outlines: tuple[Profile, ...]
    more: dict[str, tuple[Profile | Segment, ...]]


def plan_outline(size: Trough) -> Profile:
    """Return the finished outline seen from above (x, y) [mm]."""
    half = size.width / 2
    return Profile.rectangle(size.toe_x, -half, size.heel_x, half, size.corner_radius, "body plan")


def side_outline(size: Trough) -> Profile:
    """Return the finished outline seen from the side (x, z) [mm]."""
    chain = rim(size)
    toe, heel = (size.toe_x, 0.0), (size.heel_x, 0.0)
    walls = (Line(chain[-1].end, heel), Line(heel, toe), Line(toe, chain[0].start))
    return Profile((*chain, *walls), "body side")


def mouth_front(size: Trough, z: float) -> float:
    """Return x of the mouth's front wall [mm] at height z [mm] above the sole face."""
    return -size.mouth_opening - z / tan(radians(size.mouth_front_angle))


def cheek_feet(size: Trough) -> list[Line]:
    """Return the insides of the cheeks at the plate's top, without their roots (x, y) [mm]."""
    root = inside_half(size, size.sole)
    return [Line((size.toe_x, y), (size.heel_x, y)) for y in (-root, root)]


def axes_in_plan(size: Trough) -> list[Line]:
    """Return the middle line and the line of the edge (x, y) [mm]."""
    middle = Line((size.toe_x - PAST, 0.0), (size.heel_x + PAST, 0.0))
    return [middle, Line((0.0, -size.width / 2 - PAST), (0.0, size.width / 2 + PAST))]


def edge_in_side(size: Trough) -> Line:
    """Return the upright line through the edge (x, z) [mm]."""
    return Line((0.0, -PAST), (0.0, size.cheek_height + PAST))


def hole_in_side(hole: TappedHole) -> tuple[Profile, Line]:
    """Return a tapped hole's side and its axis (x, z) [mm]."""
    lean, r = radians(hole.lean), hole.tap_drill / 2

    def at(along: float, across: float) -> Point:
        return hole.x - along * sin(lean) + across * cos(lean), hole.z_top + along * cos(lean) + across * sin(lean)

    # the mouth of a leaning hole lies in the level face that it starts from
    mouth = r * tan(lean)
    corners = [at(-hole.depth, -r), at(-hole.depth, r), at(-mouth, r), at(mouth, -r)]
    return Profile.polygon(corners, name="tapped hole"), Line(at(-hole.depth - 1.0, 0.0), at(PAST, 0.0))


def boss_in_side(size: Trough, boss: Boss) -> tuple[Segment, ...]:
    """Return a boss that a hollow mill has turned, with the ring that the mill cut (x, z) [mm]."""
    x, r, reach, low = boss.x, boss.diameter / 2, ring_reach(size, boss), size.sole - RING_DEPTH
    pen = Pen.at(x - reach, size.sole, "boss").line_to(x - reach, low).line_to(x - r, low)
    pen = pen.line_to(x - r, boss.z_top).line_to(x + r, boss.z_top).line_to(x + r, low)
    return pen.line_to(x + reach, low).line_to(x + reach, size.sole).chain()


def rib_in_side(size: Trough, rib: Rib) -> tuple[Segment, ...]:
    """Return a cross rib (x, z) [mm]."""
    thin = rib.half_thick - (rib.z - size.sole) * tan(radians(size.cast.draft_inside))
    pen = Pen.at(rib.x - rib.half_thick, size.sole, "rib").line_to(rib.x - thin, rib.z, corner=rib.edge)
    pen = pen.line_to(rib.x + thin, rib.z, corner=rib.edge)
    return pen.line_to(rib.x + rib.half_thick, size.sole).chain()


def ribs_in_side(size: Trough) -> list[Segment]:
    """Return every cross rib (x, z) [mm]."""
    return [piece for rib in ribs_of(size) for piece in rib_in_side(size, rib)]
