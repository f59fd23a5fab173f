"""The finished body's side and plan at full size, as lines and true arcs, without any CAD.

Side drawn as (x, z), plan as (x, y), both in the plane's frame. The hand edges' small rounding is not drawn.
"""

from __future__ import annotations

from itertools import pairwise
from math import radians, tan

from parts.body.key import key
from parts.body.limits import holes
from parts.body.ribs import bosses_of, ribs_of
from parts.body.room import MOUTH_CORNER
from parts.body.size import BodySize
from parts.body.views import (
    View,
    axes_in_plan,
    boss_in_side,
    cheek_feet,
    edge_in_side,
    hole_in_side,
    mouth_front,
    plan_outline,
    ribs_in_side,
    side_outline,
)
from shared.profile import Line, Profile
from shared.segments import Segment


def mouth_at(size: BodySize, z: float) -> tuple[float, float]:
    """Return x of the mouth's front and aft wall [mm] at height z [mm] above the sole face."""
    return mouth_front(size, z), size.wall_foot_x + z / tan(radians(size.bed_angle))


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
    bosses = [Profile.circle((b.x, 0.0), b.diameter / 2, "boss") for b in bosses_of(size)]
    drills = [Profile.circle((h.x, h.y), h.tap_drill / 2, "tapped hole") for h in holes(size)]
    ribs = [rib.plan() for rib in ribs_of(size)]
    crosses = [Line((h.x, h.y - h.tap_drill), (h.x, h.y + h.tap_drill)) for h in holes(size)]
    crosses += [Line((h.x - h.tap_drill, h.y), (h.x + h.tap_drill, h.y)) for h in size.holddown]
    return View(
        (plan_outline(size), mouth_outline(size), *pad_outlines(size), key(size).plan(), *bosses, *drills),
        {"SMOOTH": (*cheek_feet(size), *ribs), "CENTRE": (*axes_in_plan(size), *crosses)},
    )


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
        hidden += boss_in_side(size, boss)
    hidden += ribs_in_side(size)
    axes = []
    # the two hold-down holes lie behind each other
    for hole in (h for h in holes(size) if h.y >= 0.0):
        shape, axis = hole_in_side(hole)
        hidden.append(shape)
        axes.append(axis)
    return View((side_outline(size),), {"HIDDEN": tuple(hidden), "CENTRE": (edge_in_side(size), *axes)})
