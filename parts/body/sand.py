"""Any body as it comes from the sand, by construction: outside, side outline, inside, ridges, bosses, roundings."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import radians, tan

import cadquery as cq

from parts.body.arch import rim, rim_height
from parts.body.ribs import Ridge, boss_foot, boss_roundings, boss_side, ribs_of
from parts.body.size import Boss, Trough
from parts.body.walls import ABOVE, Envelope, envelope, inside_half
from shared.cad.edges import fillet_named
from shared.cad.solids import extrude, extrude_both, one_valid_solid, revolve, taper_extrude
from shared.errors import GeometryError
from shared.profile import Pen, Profile
from shared.segments import Line, Segment

PART = "body casting"
BELOW = 1.0  # what stands on a floor reaches this far under it, so that no faces coincide [mm]
RIM_EDGES = 32  # each cheek: six pieces of outline inside; six, two corners and two ends outside
NEAR = 2e-3  # mm: an edge belongs to a surface when its points lie this near


def cast_trough(size: Trough, floor: Sequence[Segment], ridges: Sequence[Ridge] = (),
                standing: Sequence[Ridge] = ()) -> cq.Solid:  # fmt: skip
    """Return the raw casting in the plane's frame [mm]: stock, draft and cast radii on, mouth and holes closed.

    Args:
        size: the body; its limits must have been checked.
        floor: the inside floor along the body as a chain (x, z) [mm] that goes on past both ends.
        ridges: what stands on the floor besides ribs and round bosses, in the order in which it is built.
        standing: the same, where it may stand higher than the rails beside it.

    Raises:
        GeometryError: a kernel step failed; names the step.
    """
    outside = envelope(size)
    block = _outside(size, outside).intersect(_under_rim(size))
    ribs = [Ridge(rib.plan, size.sole, rib.z, rib.edge, rib.root, "cross rib") for rib in ribs_of(size)]
    hollowed = block.cut(_inside(size, floor, (*ridges, *ribs))).Solids()
    if len(hollowed) != 1:
        raise GeometryError(PART, "hollow out", "must give one solid", solids=len(hollowed))
    body = _round_rims(size, outside, hollowed[0])
    for ridge in standing:
        whole = one_valid_solid(body.fuse(_ridge(size, ridge)), PART, ridge.name)
        body = fillet_named(whole, PART, f"{ridge.name} root", _foot(whole, ridge), ridge.root)
    # last, since a boss as cast may stand higher than the rails beside it
    bosses = [_boss(size, boss) for boss in sorted(size.bosses, key=lambda b: b.x)]
    return one_valid_solid(body.fuse(*bosses) if bosses else body, PART, "bosses")


def _outside(size: Trough, env: Envelope) -> cq.Solid:
    plan = Profile.rectangle(env.x0, -env.half, env.x1, env.half, env.corner, "body outside")
    up, down = size.cheek_height + ABOVE - env.parting_z, env.parting_z + size.cast.sole
    return taper_extrude(plan, "z", env.parting_z, size.cast.draft_outside, up, down if down > 1e-9 else 0.0, PART)


def _closed(chain: Sequence[Segment], z: float, name: str) -> Profile:
    """Return the outline between a chain along x and the level z [mm]."""
    a, b = chain[0].start, chain[-1].end
    corner_b, corner_a = (b[0], z), (a[0], z)
    return Profile((*chain, Line(b, corner_b), Line(corner_b, corner_a), Line(corner_a, a)), name)


def _under_rim(size: Trough) -> cq.Solid:
    beyond = 5 * ABOVE
    outline = _closed(rim(size, beyond), -size.cast.sole - ABOVE, "cheek outline")
    return extrude_both(outline, "y", size.width + 4 * beyond, part=PART)


def _inside(size: Trough, floor: Sequence[Segment], ridges: Sequence[Ridge]) -> cq.Solid:
    """Return the space between the cheeks: what the sand fills, with its edges rounded as the casting's roots are."""
    beyond = 4 * ABOVE
    top = size.cheek_height + ABOVE
    above_floor = extrude_both(_closed(floor, top + ABOVE, "body floor"), "y", size.width, part=PART)
    low, high = inside_half(size, 0.0), inside_half(size, top)
    section = Profile.polygon([(-low, 0.0), (low, 0.0), (high, top), (-high, top)], name="between cheeks")
    channel = extrude(section, "x", size.toe_x - beyond, size.heel_x + beyond, part=PART)
    space = one_valid_solid(channel.intersect(above_floor), PART, "inside")
    for ridge in ridges:
        space = _ridged(size, space, ridge)
    # roundings that are no plain cylinders come last: every later step pays for them
    roots = [e for e in _wall_edges(size, space) if _is_root(size, e, top, beyond)]
    return fillet_named(space, PART, "cheek roots", roots, size.root_radius, gaps=[2 * inside_half(size, size.sole)])


def _is_root(size: Trough, edge: cq.Edge, top: float, beyond: float) -> bool:
    middle = edge.positionAt(0.5)
    inner = size.toe_x - beyond + NEAR < middle.x < size.heel_x + beyond - NEAR
    return inner and middle.z < top - NEAR


def _wall_edges(size: Trough, space: cq.Solid) -> list[cq.Edge]:
    def at_wall(p: cq.Vector) -> bool:
        return abs(abs(p.y) - inside_half(size, p.z)) < NEAR

    walls = [f for f in space.Faces() if f.geomType() == "PLANE" and abs(f.normalAt().y) > 0.9 and at_wall(f.Center())]
    if len(walls) != 2:
        raise GeometryError(PART, "cheek roots", "expected two inner walls", found=len(walls))
    return [e for wall in walls for e in wall.Edges()]


def _ridge(size: Trough, r: Ridge) -> cq.Solid:
    """Return a ridge by itself, its top rounded, its foot reaching below the level it stands on."""
    draft = size.cast.draft_inside
    # it starts below the level it stands on, wider by the draft, so that no faces coincide
    wider = r.plan(BELOW * tan(radians(draft)))
    solid = taper_extrude(wider, "z", r.foot_z - BELOW, draft, up=r.top_z - r.foot_z + BELOW, part=PART)
    top = [e for e in solid.Edges() if _along(e, lambda p: abs(p.z - r.top_z))]
    return fillet_named(solid, PART, f"{r.name} top", top, r.edge)


def _foot(solid: cq.Solid, r: Ridge) -> list[cq.Edge]:
    """Return the edges in which a ridge meets its floor."""
    outline = r.plan(0.0)
    return [e for e in solid.Edges() if _along(e, lambda p: max(abs(p.z - r.foot_z), outline.distance((p.x, p.y))))]


def _ridged(size: Trough, space: cq.Solid, r: Ridge) -> cq.Solid:
    """Return the space less a ridge, with its foot rounded."""
    left = one_valid_solid(space.cut(_ridge(size, r)), PART, r.name)
    return fillet_named(left, PART, f"{r.name} root", _foot(left, r), r.root)


def _boss(size: Trough, boss: Boss) -> cq.Solid:
    """Return a round boss with draft, root radius and rounded top, its foot 1 mm down in the plate."""
    root, edge = boss_roundings(size, boss)
    top, foot = boss.z_top + size.cast.boss, size.sole - BELOW
    low_r, wide = boss_side(size, boss, size.sole), boss_foot(size, boss)
    # the root arc touches the drafted side and the plate
    outline = (
        Pen.at(0.0, foot, "boss").line_to(wide, foot).line_to(wide, size.sole).line_to(low_r, size.sole, corner=root)
        .line_to(boss_side(size, boss, top), top, corner=edge).line_to(0.0, top).close()
    )  # fmt: skip
    return revolve(outline, (boss.x, 0.0, 0.0), part=PART)


def _round_rims(size: Trough, env: Envelope, body: cq.Solid) -> cq.Solid:
    """Return the casting with inner and outer edges of its rims rounded."""

    def on_rim(p: cq.Vector) -> float:
        wall = min(abs(abs(p.y) - inside_half(size, p.z)), abs(env.outside(p.x, p.y, p.z)))
        return max(abs(p.z - rim_height(size, p.x)), wall)

    edges = [e for e in body.Edges() if _along(e, on_rim)]
    if len(edges) != RIM_EDGES:
        raise GeometryError(PART, "rims", "picked the wrong number of edges", expected=RIM_EDGES, found=len(edges))
    thick = size.cast.side + size.width / 2 - inside_half(size, size.cheek_height)
    return fillet_named(body, PART, "rims", edges, size.cast.edge_radius, gaps=[thick])


def _along(edge: cq.Edge, distance: Callable[[cq.Vector], float]) -> bool:
    """Return whether points along an edge all have a distance of nothing by a measure [mm]."""
    return all(distance(edge.positionAt(t)) < NEAR for t in (0.0, 0.31, 0.73, 1.0))
