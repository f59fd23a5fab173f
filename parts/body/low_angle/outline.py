"""The finished low-angle body's side and plan at full size, as lines and true arcs, without any CAD.

Side drawn as (x, z), plan as (x, y), both in the plane's frame. The hand edges' small rounding is not drawn.
"""

from __future__ import annotations

from itertools import pairwise

from parts.body.low_angle.block import block, pocket, stud_slot, throat
from parts.body.low_angle.floor import sides
from parts.body.low_angle.limits import holes
from parts.body.low_angle.seats_room import WELL_CORNER
from parts.body.low_angle.size import BedBore, LowBodySize
from parts.body.ribs import boss_side, bosses_of, ribs_of
from parts.body.room import MOUTH_CORNER
from parts.body.size import Boss
from parts.body.views import (
    View,
    axes_in_plan,
    boss_in_side,
    cheek_feet,
    edge_in_side,
    hole_in_side,
    plan_outline,
    ribs_in_side,
    side_outline,
)
from shared.profile import Line, Pen, Profile
from shared.segments import Segment


def mouth_outline(size: LowBodySize) -> Profile:
    """Return the opening in the sole face (x, y) [mm]: the mouth, with the toe piece's pocket where there is one."""
    half, way = size.mouth_half_width, size.toe_way
    x0, front = (throat(size, 0.0), MOUTH_CORNER) if way is None else (way.toe_end, way.corner)
    return Profile.rectangle(x0, -half, size.bed_from, half, [front, 0.0, 0.0, front], "mouth")


def lands(size: LowBodySize) -> tuple[Profile, Profile]:
    """Return the two lands of the bed seen from above (x, y) [mm]."""
    half, bridge = size.mouth_half_width, size.bridge
    return (
        Profile.rectangle(size.bed_from, -half, size.ramp_to, half, name="front land"),
        Profile.rectangle(bridge.x0, -half, bridge.x1, half, name="aft land"),
    )


def plan_view(size: LowBodySize) -> View:
    """Return the body seen from above: outline, mouth, lands, bosses, holes, toe way, wheel well, ribs."""
    shapes = [plan_outline(size), mouth_outline(size), *lands(size)]
    shapes += [Profile.circle((b.x, 0.0), b.diameter / 2, "boss") for b in bosses_of(size)]
    shapes += [Profile.circle((h.x, h.y), h.tap_drill / 2, "tapped hole") for h in holes(size)]
    smooth: list[Profile | Segment] = [*cheek_feet(size), *(rib.plan() for rib in ribs_of(size))]
    hidden: list[Profile | Segment] = []
    way, well = size.toe_way, size.wheel_well
    if way is not None:
        shapes += [pocket(size, way, way.block_wall), stud_slot(size, way)]
        hidden.append(pocket(size, way))
        smooth.append(block(size, way).plan(0.0))
    if well is not None:
        rounds = Profile.rectangle(well.x0, -well.half_width, well.x1, well.half_width, WELL_CORNER, "wheel well")
        shapes.append(rounds)
    for bore in size.bores:
        (x0, _), (x1, _) = size.on_bed(bore.s_from, bore.below), size.on_bed(bore.s_to, bore.below)
        hidden += [Line((x0, y), (x1, y)) for y in (-bore.diameter / 2, bore.diameter / 2)]
    crosses = [Line((h.x, h.y - h.tap_drill), (h.x, h.y + h.tap_drill)) for h in holes(size)]
    more: dict[str, tuple[Profile | Segment, ...]] = {
        "SMOOTH": tuple(smooth),
        "CENTRE": (*axes_in_plan(size), *crosses),
    }
    if hidden:
        more["HIDDEN"] = tuple(hidden)
    return View(tuple(shapes), more)


def bed_chain(size: LowBodySize) -> list[Segment]:
    """Return plate, mouth, lands and bridge in the middle plane (x, z) [mm], as machined; cast roots are left out."""
    s, f = size.sole, size.bed_from
    land, front, aft = sides(size)
    head = [(size.toe_x, s), (throat(size, s), s), (throat(size, 0.0), 0.0)]
    way = size.toe_way
    if way is not None:
        head = [(size.toe_x, s), (throat(size, s), s), (throat(size, way.ledge_z), way.ledge_z),
                (way.toe_end, way.ledge_z), (way.toe_end, 0.0)]  # fmt: skip
    tail = [(f, 0.0), (f, size.feather), (size.ramp_to, size.bed_z(size.ramp_to)), (land.at(s), s), (front.at(s), s),
            (size.bridge.x0, size.bed_z(size.bridge.x0)), (size.bridge.x1, size.bed_z(size.bridge.x1)),
            (aft.at(s), s), (size.heel_x, s)]  # fmt: skip
    return [Line(p, q) for chain in (head, tail) for p, q in pairwise(chain)]


def _cast_boss(size: LowBodySize, boss: Boss) -> tuple[Segment, ...]:
    foot, top = boss_side(size, boss, size.sole), boss_side(size, boss, boss.z_top)
    pen = Pen.at(boss.x - foot, size.sole, "boss").line_to(boss.x - top, boss.z_top)
    return pen.line_to(boss.x + top, boss.z_top).line_to(boss.x + foot, size.sole).chain()


def _bore(size: LowBodySize, bore: BedBore) -> tuple[Profile, Line]:
    r, past = bore.diameter / 2, 4.0
    places = [(bore.s_from, -r), (bore.s_to, -r), (bore.s_to, r), (bore.s_from, r)]
    outline = Profile.polygon([size.on_bed(s, bore.below + off) for s, off in places], name="bore")
    return outline, Line(size.on_bed(bore.s_from - past, bore.below), size.on_bed(bore.s_to + past, bore.below))


def side_view(size: LowBodySize) -> View:
    """Return the body seen from its right side: outline, and hidden behind the cheek bed, bosses, ribs, holes."""
    hidden: list[Profile | Segment] = list(bed_chain(size))
    for boss in bosses_of(size):
        hidden += boss_in_side(size, boss) if boss.turned else _cast_boss(size, boss)
    hidden += ribs_in_side(size)
    axes = [edge_in_side(size)]
    for shape, axis in [*(hole_in_side(h) for h in holes(size)), *(_bore(size, b) for b in size.bores)]:
        hidden.append(shape)
        axes.append(axis)
    for groove in size.grooves:
        bottom = [(groove.s_from, 0.0), (groove.s_from, groove.depth), (groove.s_to, groove.depth)]
        hidden += [Line(size.on_bed(*p), size.on_bed(*q)) for p, q in pairwise(bottom)]
    well, way = size.wheel_well, size.toe_way
    if well is not None and well.z < size.sole:
        hidden.append(Profile.rectangle(well.x0, well.z, well.x1, size.sole, name="wheel well"))
    if way is not None:
        for shape, low, high in ((pocket(size, way, way.block_wall), size.sole, way.block_z),
                                 (pocket(size, way), way.ledge_z, way.boss_z),
                                 (stud_slot(size, way), way.boss_z, way.block_z)):  # fmt: skip
            hidden.append(Profile.rectangle(shape.bounds[0], low, shape.bounds[2], high, name=shape.name))
    shapes: list[Profile] = [side_outline(size)]
    return View(tuple(shapes), {"HIDDEN": tuple(hidden), "CENTRE": tuple(axes)})
