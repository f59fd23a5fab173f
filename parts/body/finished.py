"""The body as it leaves the grinder: the casting less what the machine shop takes off, and nothing else."""

from __future__ import annotations

from math import cos, radians, sin, tan

import cadquery as cq

from parts.body.floor import high_pad_raw, low_pad_raw
from parts.body.key import Key, key
from parts.body.limits import HAND_BREAK, MOUTH_CORNER, RING_DEPTH, check_limits, holes, ring_reach
from parts.body.outline import mouth_at, plan_outline
from parts.body.ribs import bosses_of
from parts.body.size import BodySize, TappedHole
from parts.body.walls import ABOVE
from shared.cad.edges import fillet_named
from shared.cad.solids import cut_away, extrude, extrude_both, one_valid_solid, pick_edges, revolve
from shared.errors import GeometryError
from shared.profile import Profile

PART = "body"
NEAR = 2e-3  # mm: an edge belongs to a surface when its points lie this near
AIR = 1.0  # cutters start this far off the work [mm]


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


def skimmed(size: BodySize, casting: cq.Solid) -> cq.Solid:
    """Return the casting after sole, cheeks, toe and heel are milled: what is left inside the finished outline."""
    inside = extrude(plan_outline(size), "z", 0.0, size.cheek_height + ABOVE, part=PART)
    left = casting.intersect(inside).Solids()
    if len(left) != 1:
        raise GeometryError(PART, "outside", "milling must leave one solid", solids=len(left))
    return left[0]


def break_hand_edges(size: BodySize, body: cq.Solid) -> cq.Solid:
    """Return the body with the outer edge of its rims and ends rounded all round, but for the sole's own edges."""
    outline = plan_outline(size)

    def outside(p: cq.Vector) -> bool:
        return p.z > NEAR and outline.distance((p.x, p.y)) < NEAR

    def upright(edge: cq.Edge) -> bool:
        a, b = edge.startPoint(), edge.endPoint()
        return (a - b).Length - abs(a.z - b.z) < NEAR and min(a.z, b.z) < NEAR

    def hand_edge(edge: cq.Edge) -> bool:
        return not upright(edge) and all(outside(edge.positionAt(t)) for t in (0.0, 0.31, 0.73, 1.0))

    edges = [e for e in body.Edges() if hand_edge(e)]
    return fillet_named(body, PART, "hand edges", edges, HAND_BREAK)


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
    low, high = -2 * AIR, low_pad_raw(size) + AIR

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


def boss_cuts(size: BodySize) -> list[cq.Solid]:
    """Return what facing and the hollow mill take off the bosses.

    The hollow mill turns the side that the handle's counterbore registers on, and sinks a little into the plate, so
    that the flat foot of the handle does not ride on the cast root.
    """
    cuts = []
    for boss in bosses_of(size):
        reach = ring_reach(size, boss)
        top = boss.z_top + size.cast.boss + AIR
        face = Profile.circle((boss.x, 0.0), boss.diameter / 2 + AIR, "boss face")
        cuts.append(extrude(face, "z", boss.z_top, top, part=PART))
        ring = Profile.rectangle(boss.diameter / 2, size.sole - RING_DEPTH, reach, top, name="hollow mill")
        cuts.append(revolve(ring, (boss.x, 0.0, 0.0), part=PART))
    return cuts


def drilled(hole: TappedHole) -> cq.Solid:
    """Return a hole at tap drill size with a flat bottom, from its top face down along its leaning axis."""
    lean = radians(hole.lean)
    axis = (-sin(lean), 0.0, cos(lean))
    r, over = hole.tap_drill / 2, hole.tap_drill / 2 * abs(tan(lean)) + AIR
    outline = Profile.rectangle(0.0, -hole.depth, r, over, name="drill")
    return revolve(outline, (hole.x, hole.y, hole.z_top), axis, part=PART)
