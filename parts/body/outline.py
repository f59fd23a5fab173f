"""The finished body's side and plan at full size, as lines and true arcs, without any CAD.

Side drawn as (x, z), plan as (x, y), both in the plane's frame. The hand edges' small rounding is not drawn.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import cos, radians, sin, tan

from parts.body.arch import rim
from parts.body.key import key
from parts.body.limits import MOUTH_CORNER, RING_DEPTH, holes, ring_reach
from parts.body.ribs import bosses_of, ribs_of
from parts.body.size import BodySize, TappedHole
from parts.body.walls import inside_half
from shared.profile import Line, Pen, Point, Profile
from shared.segments import Segment

PAST = 4.0  # centre lines run past what they mark [mm]


@dataclass(frozen=True)
class View:
    """One full-size view: closed outlines, and further things by layer name [mm]."""

    outlines: tuple[Profile, ...]
    more: dict[str, tuple[Profile | Segment, ...]]


def plan_outline(size: BodySize) -> Profile:
    """Return the finished outline seen from above (x, y) [mm]."""
    half = size.width / 2
    return Profile.rectangle(size.toe_x, -half, size.heel_x, half, size.corner_radius, "body plan")


def side_outline(size: BodySize) -> Profile:
    """Return the finished outline seen from the side (x, z) [mm]."""
    chain = rim(size)
    toe, heel = (size.toe_x, 0.0), (size.heel_x, 0.0)
    walls = (Line(chain[-1].end, heel), Line(heel, toe), Line(toe, chain[0].start))
    return Profile((*chain, *walls), "body side")


def mouth_at(size: BodySize, z: float) -> tuple[float, float]:
    """Return x of the mouth's front and aft wall [mm] at height z [mm] above the sole face."""
    front = -size.mouth_opening - z / tan(radians(size.mouth_front_angle))
    return front, size.wall_foot_x + z / tan(radians(size.bed_angle))


def mouth_outline(size: BodySize) -> Profile:
    """Return the mouth in the sole face (x, y) [mm]."""
    (front, aft), half = mouth_at(size, 0.0), size.mouth_half_width
    return Profile.rectangle(front, -half, aft, half, MOUTH_CORNER, "mouth")


def pad_outlines(size: BodySize) -> tuple[Profile, Profile]:
    """Return what is milled of the low and the high frog pad (x, y) [mm]; they meet in a step."""
    low, high = size.low_pad, size.high_pad
    return (
        Profile.rectangle(low.x0, -low.half_width, low.x1, low.half_width, name="low pad"),
        Profile.rectangle(high.x0, -high.half_width, high.x1, high.half_width, name="high pad"),
    )


def plan_view(size: BodySize) -> View:
    """Return the body seen from above: outline, mouth, pads, key, bosses, tapped holes, ribs, cheeks' feet."""
    root = inside_half(size, size.sole)
    bosses = [Profile.circle((b.x, 0.0), b.diameter / 2, "boss") for b in bosses_of(size)]
    drills = [Profile.circle((h.x, h.y), h.tap_drill / 2, "tapped hole") for h in holes(size)]
    feet = [Line((size.toe_x, y), (size.heel_x, y)) for y in (-root, root)]
    ribs = [rib.plan() for rib in ribs_of(size)]
    middle = Line((size.toe_x - PAST, 0.0), (size.heel_x + PAST, 0.0))
    crosses = [Line((h.x, h.y - h.tap_drill), (h.x, h.y + h.tap_drill)) for h in holes(size)]
    crosses += [Line((h.x - h.tap_drill, h.y), (h.x + h.tap_drill, h.y)) for h in size.holddown]
    edge = Line((0.0, -size.width / 2 - PAST), (0.0, size.width / 2 + PAST))
    return View(
        (plan_outline(size), mouth_outline(size), *pad_outlines(size), key(size).plan(), *bosses, *drills),
        {"SMOOTH": (*feet, *ribs), "CENTRE": (middle, edge, *crosses)},
    )


def _hole_side(hole: TappedHole) -> tuple[Profile, Line]:
    """Return a tapped hole's side and its axis (x, z) [mm]."""
    lean, r = radians(hole.lean), hole.tap_drill / 2

    def at(along: float, across: float) -> Point:
        return hole.x - along * sin(lean) + across * cos(lean), hole.z_top + along * cos(lean) + across * sin(lean)

    # the mouth of a leaning hole lies in the level face that it starts from
    mouth = r * tan(lean)
    corners = [at(-hole.depth, -r), at(-hole.depth, r), at(-mouth, r), at(mouth, -r)]
    return Profile.polygon(corners, name="tapped hole"), Line(at(-hole.depth - 1.0, 0.0), at(PAST, 0.0))


def _seat_chain(size: BodySize) -> list[Segment]:
    """Return plate, mouth walls and pads in the middle plane beside the key (x, z) [mm], as machined."""
    low, high, s = size.low_pad, size.high_pad, size.sole
    front = [(size.toe_x, s), (mouth_at(size, s)[0], s), (mouth_at(size, 0.0)[0], 0.0)]
    back = [(mouth_at(size, 0.0)[1], 0.0), (mouth_at(size, low.z)[1], low.z), (high.x0, low.z), (high.x0, high.z),
            (high.x1, high.z), (high.x1 + (high.z - s) * tan(radians(size.cast.draft_inside)), s),
            (size.heel_x, s)]  # fmt: skip
    return [Line(p, q) for chain in (front, back) for p, q in pairwise(chain)]


def side_view(size: BodySize) -> View:
    """Return the body seen from its right side: outline, and hidden behind the cheek seats, bosses, ribs, holes."""
    hidden: list[Profile | Segment] = list(_seat_chain(size))
    k = key(size)
    hidden.append(Profile.rectangle(k.x0, size.high_pad.z, k.x1, k.z, name="key"))
    for boss in bosses_of(size):
        x, r, reach, low = boss.x, boss.diameter / 2, ring_reach(size, boss), size.sole - RING_DEPTH
        pen = Pen.at(x - reach, size.sole, "boss").line_to(x - reach, low).line_to(x - r, low)
        pen = pen.line_to(x - r, boss.z_top).line_to(x + r, boss.z_top).line_to(x + r, low)
        hidden += pen.line_to(x + reach, low).line_to(x + reach, size.sole).chain()
    for rib in ribs_of(size):
        thin = rib.half_thick - (rib.z - size.sole) * tan(radians(size.cast.draft_inside))
        pen = Pen.at(rib.x - rib.half_thick, size.sole, "rib").line_to(rib.x - thin, rib.z, corner=rib.edge)
        pen = pen.line_to(rib.x + thin, rib.z, corner=rib.edge)
        hidden += pen.line_to(rib.x + rib.half_thick, size.sole).chain()
    axes = []
    # the two hold-down holes lie behind each other
    for hole in (h for h in holes(size) if h.y >= 0.0):
        shape, axis = _hole_side(hole)
        hidden.append(shape)
        axes.append(axis)
    edge = Line((0.0, -PAST), (0.0, size.cheek_height + PAST))
    return View((side_outline(size),), {"HIDDEN": tuple(hidden), "CENTRE": (edge, *axes)})
