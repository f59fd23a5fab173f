"""What blade, lever cap, adjuster and handles of a low-angle plane ask of its body. Arithmetic only; mm and deg."""

from __future__ import annotations

from math import cos, radians, sin, tan

from parts.blade.size import BladeSize
from parts.body import layout as body_rules
from parts.body.arch import rim_height
from parts.body.low_angle.layout import Seats, low_body, stud_in_land, toe_way
from parts.body.low_angle.size import BedBore, LowBodySize, ToeWay
from parts.body.room import hole_depth
from parts.body.size import Boss, TappedHole
from parts.handle.size import ToteSize
from parts.low_angle.size import AdjusterSize
from parts.plane.hand_room import arch_end, fingers
from parts.plane.low_angle.spec import LowAngleSpec
from parts.plane.low_angle.stations import LowStations
from parts.plane.placing import TotePlace
from parts.plane.practice import cast_allowances
from parts.plane.shop import ShopSpec
from parts.plane.totes import toe_boss_rise
from shared.record import replace
from shared.threads import Thread

DRILL_BEYOND = 1.5  # of the post's hole beyond its thread


def stud_hole(spec: LowAngleSpec, at: LowStations) -> TappedHole:
    """Return the tapped hole of the lever cap's stud, in the front land."""
    return stud_in_land(at.stud_at, spec.bed.angle, at.threads["small"])


def toe_way_of(spec: LowAngleSpec, rod: Thread) -> ToeWay | None:
    """Return the toe piece's way with the thread of the knob's rod, or None for a fixed mouth."""
    return None if spec.body.toe_piece is None else toe_way(spec.body, rod)


def _tapped(x: float, z_top: float, thread: Thread, lean: float = 0.0) -> TappedHole:
    depth = hole_depth(z_top, thread.tap_drill, lean)
    return TappedHole(x, 0.0, z_top, thread.tap_drill, thread.name, depth, lean)


def _tote_bosses(
    spec: LowAngleSpec, tote: ToteSize, place: TotePlace, rod: Thread, small: Thread
) -> tuple[Boss, Boss | None]:
    sole = spec.body.sole_thickness
    top = sole + body_rules.TOTE_BOSS_RISE
    # the rod's axis meets the foot plane at the tote's place and leans toward the toe, so it leaves the boss ahead
    lean_top = place.x - body_rules.TOTE_BOSS_RISE * tan(radians(tote.lean_deg))
    boss = Boss(place.x, body_rules.TOTE_BOSS, top, _tapped(lean_top, top, rod, tote.lean_deg))
    if tote.toe is None:
        return boss, None
    x, z = place.x + tote.toe.x, sole + toe_boss_rise(spec.handle)
    return boss, Boss(x, tote.toe.boss_diameter - 0.5, z, _tapped(x, z, small))


def _ribs(
    spec: LowAngleSpec, adjuster: AdjusterSize, tote: ToteSize | None, place: TotePlace | None
) -> tuple[tuple[float, float, float], ...]:
    """Return cross ribs (x, thickness, height) where there is room: before and behind the tote."""
    if tote is None or place is None:
        return ()
    b, bed = spec.body, radians(spec.bed.angle)
    height = b.sole_thickness + min(5.0, 0.6 * (body_rules.rail_height(b) - b.sole_thickness))
    heel_x = b.length - b.mouth_from_toe
    ribs = []
    wheel, foot = (adjuster.rim_to + adjuster.travel) * cos(bed), place.x + tote.foot_front_x
    if foot - wheel > 14.0:
        ribs.append(((foot + wheel) / 2, body_rules.RIB, height))
    back = place.x + tote.foot_rear_x
    if heel_x - back > 60.0:
        ribs.append(((heel_x + back) / 2, body_rules.RIB, height))
    return tuple(ribs)


def body(
    spec: LowAngleSpec,
    at: LowStations,
    shop: ShopSpec,
    stud: TappedHole,
    way: ToeWay | None,
    adjuster: AdjusterSize,
    tote: ToteSize | None,
    place: TotePlace | None,
    knob_x: float,
    rod: Thread,
    rest_boss: float | None,
) -> LowBodySize:
    """Return the resolved body.

    Args:
        spec: the plane.
        at: stations along the bed.
        shop: the works' practice.
        stud: hole of the lever cap's stud.
        way: toe piece, or None.
        adjuster: depth adjuster.
        tote: the tote, or None.
        place: where it stands.
        knob_x: where the knob stands [mm].
        rod: thread of the handles' rods.
        rest_boss: diameter of a finger rest's boss [mm]; None: a knob's.
    """
    b, sole = spec.body, spec.body.sole_thickness
    knob_z = sole + body_rules.BOSS_RISE
    knob_boss = Boss(knob_x, body_rules.KNOB_BOSS if rest_boss is None else rest_boss, knob_z,
                     _tapped(knob_x, knob_z, rod))  # fmt: skip
    tote_boss, toe_boss = None, None
    if tote is not None and place is not None:
        tote_boss, toe_boss = _tote_bosses(spec, tote, place, rod, at.threads["small"])
    post = BedBore(
        adjuster.axis_h,
        adjuster.thread.tap_drill,
        adjuster.post_from - DRILL_BEYOND,
        at.bridge[1],
        adjuster.thread.name,
    )
    seats = Seats(
        bed_angle=spec.bed.angle,
        blade_width=spec.blade.width,
        bridge=at.bridge,
        stud=stud,
        bores=(post,),
        knob_boss=knob_boss,
        tote_boss=tote_boss,
        toe_boss=toe_boss,
        toe_way=way,
        land_to=at.land_to,
        ribs=_ribs(spec, adjuster, tote, place),
    )
    highest = at.bridge[1] * sin(radians(spec.bed.angle))
    cast = cast_allowances(b, b.parting_height, shop, highest)
    made = low_body(b, seats, cast)
    if tote is None or place is None:
        return made
    end = arch_end(fingers(tote, place.x), made)
    return made if end == made.arch_to else low_body(b, replace(seats, arch_to=end), cast)


def blade_between_cheeks(body: LowBodySize, blade: BladeSize) -> tuple[float, float]:
    """Return the farthest s at which the blade passes between the cheeks, and its room to each cheek there [mm]."""
    b = radians(body.bed_angle)
    s = blade.length
    while s > 1.0:
        x, z = body.on_bed(s)
        if x < body.heel_x and z < rim_height(body, x):
            break
        s -= 1.0
    return s, body.inside_half_at(s * sin(b)) - blade.width / 2
