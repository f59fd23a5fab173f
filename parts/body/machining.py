"""What the machine shop takes off any body: outside, hand edges, boss faces, tapped holes."""

from __future__ import annotations

from contextlib import suppress
from math import cos, radians, sin, tan

import cadquery as cq

from parts.body.ribs import boss_side, bosses_of
from parts.body.room import HAND_BREAK, RING_DEPTH, ring_reach
from parts.body.size import TappedHole, Trough
from parts.body.views import plan_outline
from parts.body.walls import ABOVE
from shared.cad.edges import fillet_named
from shared.cad.solids import extrude, revolve
from shared.errors import GeometryError
from shared.profile import Profile

PART = "body"
NEAR = 2e-3  # mm: an edge belongs to a surface when its points lie this near
AIR = 1.0  # cutters start this far off the work [mm]
# where a rail ends in a plan corner the kernel's rounding comes apart for some radii and not for ones beside them; all
# of these are the same edge to a file (common practice, no source: a hand-broken edge is good to 0.1 mm) [mm]
HAND_BREAKS = tuple(HAND_BREAK + d for d in (0.0, -0.01, 0.01, -0.02, 0.02, -0.03, 0.03, -0.05, 0.05, -0.08, 0.08))


def skimmed(size: Trough, casting: cq.Solid) -> cq.Solid:
    """Return the casting after sole, cheeks, toe and heel are milled: what is left inside the finished outline."""
    inside = extrude(plan_outline(size), "z", 0.0, size.cheek_height + ABOVE, part=PART)
    left = casting.intersect(inside).Solids()
    if len(left) != 1:
        raise GeometryError(PART, "outside", "milling must leave one solid", solids=len(left))
    return left[0]


def break_hand_edges(size: Trough, body: cq.Solid) -> cq.Solid:
    """Return the body with the outer edge of its rims and ends rounded all round, but for the sole's own edges.

    Raises:
        GeometryError: the kernel could not round the edges to any of `HAND_BREAKS`.
    """
    outline = plan_outline(size)

    def outside(p: cq.Vector) -> bool:
        return p.z > NEAR and outline.distance((p.x, p.y)) < NEAR

    def upright(edge: cq.Edge) -> bool:
        a, b = edge.startPoint(), edge.endPoint()
        return (a - b).Length - abs(a.z - b.z) < NEAR and min(a.z, b.z) < NEAR

    def hand_edge(edge: cq.Edge) -> bool:
        return not upright(edge) and all(outside(edge.positionAt(t)) for t in (0.0, 0.31, 0.73, 1.0))

    edges = [e for e in body.Edges() if hand_edge(e)]
    for radius in HAND_BREAKS[:-1]:
        with suppress(GeometryError):
            return fillet_named(body, PART, "hand edges", edges, radius)
    return fillet_named(body, PART, "hand edges", edges, HAND_BREAKS[-1])


def boss_cuts(size: Trough) -> list[cq.Solid]:
    """Return what facing and the hollow mill take off the bosses.

    The hollow mill turns the side that the handle's counterbore registers on, and sinks a little into the plate, so
    that the flat foot of the handle does not ride on the cast root.
    """
    cuts = []
    for boss in bosses_of(size):
        top = boss.z_top + size.cast.boss + AIR
        radius = boss.diameter / 2 if boss.turned else boss_side(size, boss, boss.z_top)
        face = Profile.circle((boss.x, 0.0), radius + AIR, "boss face")
        cuts.append(extrude(face, "z", boss.z_top, top, part=PART))
        if not boss.turned:
            continue
        reach = ring_reach(size, boss)
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
