"""The body as it leaves the grinder: the casting less what the machine shop takes off, and nothing else."""

from __future__ import annotations

from math import radians, sin

import cadquery as cq

from parts.body.floor import high_pad_raw, low_pad_raw
from parts.body.key import Key, key
from parts.body.limits import check_limits, holes
from parts.body.machining import AIR, NEAR, PART, boss_cuts, break_hand_edges, drilled, skimmed
from parts.body.outline import mouth_at
from parts.body.room import MOUTH_CORNER
from parts.body.size import BodySize
from shared.cad.edges import fillet_named
from shared.cad.solids import cut_away, extrude, extrude_both, one_valid_solid, pick_edges
from shared.errors import GeometryError
from shared.profile import Profile


def finished(size: BodySize, casting: cq.Solid) -> cq.Solid:
    """Return the finished body in the plane's frame [mm].

    Args:
        size: the body's sizes, the same that made the casting.
        casting: what `parts.body.casting.casting` gave.

    Raises:
        GeometryError: a size that cannot be built, or a kernel step that failed; names the step.
    """
    check_limits(size)
    body = break_hand_edges(size, skimmed(size, casting))
    tools = [*pad_cuts(size), mouth_cut(size), *boss_cuts(size), *(drilled(h) for h in holes(size))]
    return cut_away(body, tools, PART, "machining")


def _box(x0: float, x1: float, half: float, z0: float, z1: float) -> cq.Solid:
    return extrude(Profile.rectangle(x0, -half, x1, half), "z", z0, z1, part=PART)


def pad_cuts(size: BodySize) -> list[cq.Solid]:
    """Return what milling takes off both frog pads and round the key."""
    low, high, k = size.low_pad, size.high_pad, key(size)
    top = high_pad_raw(size) + size.key_height + AIR
    around_key = _box(high.x0, high.x1 + AIR, high.half_width, high.z, top).cut(_key_left(k, high.z))
    # ahead of the low pad there is only the mouth
    return [_box(0.0, high.x0, low.half_width, low.z, top), one_valid_solid(around_key, PART, "high pad")]


def _key_left(k: Key, z: float) -> cq.Solid:
    return extrude(k.plan(), "z", z - AIR, k.z, part=PART)


def mouth_cut(size: BodySize) -> cq.Solid:
    """Return the mouth: front wall leaning forward, aft wall at the bed angle, upright ends with a cutter's radius."""
    # up through the cast roots between pads and cheeks too, or a blade turned to its end meets what is left of them
    low, high = -2 * AIR, low_pad_raw(size) + size.root_radius + AIR

    def front(z: float) -> tuple[float, float]:
        return mouth_at(size, z)[0], z

    def aft(z: float) -> tuple[float, float]:
        return mouth_at(size, z)[1], z

    throat = front(low)[0], aft(low)[0]
    # on a leaning wall a rounding reaches farther along the plane's length than its radius
    both = MOUTH_CORNER / sin(radians(size.mouth_front_angle)) + MOUTH_CORNER / sin(radians(size.bed_angle))
    if throat[1] - throat[0] < both + 0.2:
        low = 0.0
        throat = front(low)[0], aft(low)[0]
    if throat[1] - throat[0] < both + 0.2:
        raise GeometryError(PART, "mouth", "the slot is narrower than its cutter", width_mm=throat[1] - throat[0])
    section = Profile.polygon([front(low), aft(low), aft(high), front(high)], name="mouth")
    tool = extrude_both(section, "y", 2 * size.mouth_half_width, part=PART)

    def at_end(e: cq.Edge) -> bool:
        b = e.BoundingBox()
        return b.ymax - b.ymin < NEAR and b.zmax - b.zmin > (high - low) / 2

    ends = pick_edges(tool, at_end, 4, PART, "mouth")
    return fillet_named(tool, PART, "mouth ends", ends, MOUTH_CORNER, gaps=[throat[1] - throat[0]])
