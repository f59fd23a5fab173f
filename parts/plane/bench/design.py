"""From spec and practice to every resolved size of one plane. Arithmetic only; no CAD kernel."""

from __future__ import annotations

from math import cos, radians, sin, tan
from typing import ClassVar, Literal

from parts.blade.size import BladeSize
from parts.body import layout as body_rules
from parts.body.room import hole_depth
from parts.body.size import BodySize, Boss, CastAllowances, Pad, TappedHole
from parts.handle.size import KnobSize, ToteSize, knob_size
from parts.hardware.size import ROD_IN_NUT, HardwareSize, Rod, Screw
from parts.plane.bench import stations as st
from parts.plane.bench.mechanism import FrogStock, Mechanism, mechanism
from parts.plane.bench.obstacles import obstacles
from parts.plane.bench.spec import BenchSpec
from parts.plane.faults import Refusals, temper_faults
from parts.plane.hand_room import arch_end, fingers
from parts.plane.placing import TotePlace, place_knob
from parts.plane.practice import cast_allowances
from parts.plane.shop import ShopSpec
from parts.plane.spec import LoadedSpec
from parts.plane.totes import NUT_DIAMETER, NUT_HEIGHT, ToteRoom, choose_tote, toe_boss_rise
from shared.casting.allowance import machining_allowance, stock_one_side
from shared.casting.alloy import Alloy, alloy
from shared.casting.contraction import Contraction
from shared.errors import Fault, InputError
from shared.record import Record, replace
from shared.units import both_units

CAP_ALLOY = "manganese-bronze-c86500"


class BenchDesign(Record):
    """One plane, every size resolved."""

    loaded: LoadedSpec[BenchSpec]
    shop: ShopSpec
    body: BodySize
    mechanism: Mechanism
    tote: ToteSize
    tote_at: TotePlace
    tote_form_decided_by: str
    knob: KnobSize
    knob_x: float
    knob_decided_by: str
    hardware: HardwareSize
    body_alloy: Alloy
    frog_alloy: Alloy
    cap_alloy: Alloy
    contraction: Contraction  # of the body
    master: Contraction | None

    orientation: ClassVar[Literal["bevel-down"]] = "bevel-down"

    @property
    def spec(self) -> BenchSpec:
        """The spec as read."""
        return self.loaded.spec

    @property
    def blade(self) -> BladeSize:
        """The blade."""
        return self.mechanism.blade

    @property
    def rod_diameter(self) -> float:
        """Thread of the rods through tote and knob, major diameter [mm]."""
        return self.hardware.tote_rod.thread.major

    @property
    def datum_height(self) -> float:
        """Height of the milled seat that sets the bed, above the sole [mm]."""
        return self.mechanism.frog.high_z


def _cross_faults(loaded: LoadedSpec[BenchSpec], shop: ShopSpec) -> list[Fault]:
    """Return what no single key can see: sizes that cannot stand together in any plane."""
    spec, found = loaded.spec, Refusals(loaded)
    body, blade = spec.body, spec.blade
    found.more_than(
        "blade.width",
        blade.width,
        body_rules.widest_blade(body, shop.casting.draft_inside),
        body_rules.WIDEST_BLADE,
    )
    rail = body_rules.rail_height(body)
    found.more_than("body.rail_height", rail, body.cheek_height - 8.0, "8 mm below body.cheek_height")
    least = body.sole_thickness + 22.0
    found.less_than("body.cheek_height", body.cheek_height, least, "sole and room for the frog's foot")
    found.more_than("body.mouth_from_toe", body.mouth_from_toe, body.length - 100.0, "100 mm of body aft of the edge")
    found.more_than("body.mouth_from_toe", body.mouth_from_toe, 0.55 * body.length, "0.55 of body.length")
    found.more_than("chipbreaker.setback", spec.chipbreaker.setback, 2.5, "the chipbreaker must sit at the edge")
    if blade.micro_bevel is not None and blade.micro_bevel <= blade.bevel:
        found.say("blade.micro_bevel", f"more than blade.bevel ({blade.bevel:g} deg)")
    if (blade.micro_bevel or blade.bevel) >= spec.bed.angle:
        key = "blade.micro_bevel" if blade.micro_bevel is not None else "blade.bevel"
        found.say(key, f"less than bed.angle ({spec.bed.angle:g} deg), or the heel of the bevel rubs")
    return found.faults


def _frog_stock(spec: BenchSpec, shop: ShopSpec) -> FrogStock:
    grade, letter = shop.casting.tolerance_grade, shop.casting.machining_grade
    # the largest finished dimension of frog and cap: about the bed's length, well inside one band of the table
    return FrogStock(
        frog_stock=stock_one_side(40.0, 100.0, grade, letter),
        frog_required=machining_allowance(100.0, letter),
        cap_stock=stock_one_side(10.0, 100.0, grade, letter),
        draft=shop.casting.draft_outside,
        root_radius=shop.casting.radius_inside_minimum,
        inside_draft=shop.casting.draft_inside,
        hole_minimum=shop.casting.hole_minimum,
    )


def _tapped(x: float, y: float, z_top: float, m: Mechanism, use: str, lean: float = 0.0) -> TappedHole:
    thread = m.stations.threads[use]
    depth = hole_depth(z_top, thread.tap_drill, lean)
    return TappedHole(x, y, z_top, thread.tap_drill, thread.name, depth, lean)


def _ribs(
    spec: BenchSpec, m: Mechanism, knob_x: float, tote: ToteSize, tote_x: float, heel_x: float
) -> tuple[tuple[float, float, float], ...]:
    """Return cross ribs (x, thickness, height) where there is room: behind the knob, the frog seat and the tote."""
    b = spec.body
    # no higher than the low rails allow with their roundings
    height = b.sole_thickness + min(5.0, 0.6 * (body_rules.rail_height(b) - b.sole_thickness))
    boss, foot = body_rules.KNOB_BOSS / 2 + body_rules.BOSS_FOOT, body_rules.RIB / 2 + body_rules.RIB_FOOT
    ribs = []
    ahead = min((knob_x + body_rules.KNOB_BOSS / 2 - 14.0) / 2, -14.0)
    if ahead - foot - (knob_x + boss) > 1.0:
        ribs.append((ahead, body_rules.RIB, height))
    foot_front = tote_x + tote.foot_front_x
    if foot_front - m.stations.frog_aft - m.frog.travel > 14.0:
        ribs.append(((foot_front + m.stations.frog_aft + m.frog.travel) / 2 + 1.0, body_rules.RIB, height))
    foot_back = tote_x + tote.foot_rear_x
    if heel_x - foot_back > 60.0:
        ribs.append(((heel_x + foot_back) / 2, body_rules.RIB, height))
    return tuple(ribs)


def design(loaded: LoadedSpec[BenchSpec], shop: ShopSpec) -> BenchDesign:
    """Resolve one plane.

    Args:
        loaded: the spec with its text.
        shop: the works' practice.

    Raises:
        InputError: sizes that cannot stand together, one fault each.
        RequestError: a handle in which too little wood would be left.
    """
    faults = _cross_faults(loaded, shop) or temper_faults(loaded)
    if faults:
        raise InputError(faults)
    spec = loaded.spec
    b = spec.body
    m = mechanism(spec, _frog_stock(spec, shop))
    screw_needs = m.stations.screw_at + 10.0 + m.blade.length - m.blade.slot_high
    if m.blade.length < screw_needs:
        raise InputError(
            loaded.source.fault(
                "blade.length",
                f"at least {both_units(screw_needs, spec.units)}: the slot must reach past the chipbreaker's screw",
            )
        )
    at = m.stations
    slot_most = at.nose_at + 0.65 * (at.press_at - at.nose_at) - st.cap_screw_beyond_slot(at.threads["medium"].major)
    if m.blade.slot_low > slot_most:
        raise InputError(
            loaded.source.fault(
                "blade.slot_from_edge",
                f"at most {both_units(slot_most, spec.units)}: "
                "the slot must start below the lever-cap screw, which stands between the cap's nose and its spring",
            )
        )
    toe_x, heel_x = -b.mouth_from_toe, b.length - b.mouth_from_toe
    medium = m.stations.threads["medium"]
    room = ToteRoom(
        things=obstacles(m),
        sole=b.sole_thickness,
        heel_x=heel_x,
        foot_from=m.stations.frog_aft + m.frog.travel + 1.5,
        foot_why="the tote's toe clears the frog",
        rod_diameter=medium.major,
        toe_screw=m.stations.threads["small"].major if b.length >= body_rules.TOE_SCREW_FROM else None,
    )
    tote, place, tote_why = choose_tote(spec.handle, room)
    knob = knob_size(
        spec.handle,
        foot_plane_z=b.sole_thickness,
        rod_diameter=medium.major,
        nut_diameter=NUT_DIAMETER,
        boss_diameter=body_rules.KNOB_BOSS,
        boss_height=body_rules.BOSS_RISE,
        nut_height=NUT_HEIGHT,
    )
    mouth_front = -b.mouth_opening - b.sole_thickness / tan(radians(body_rules.mouth_front_angle(b)))
    knob_x, knob_why = place_knob(toe_x, mouth_front, knob.diameter / 2)

    cast = cast_allowances(b, b.parting_height, shop, m.stations.high_z)
    body = _body(spec, m, cast, tote, place.x, knob_x, toe_x, heel_x)
    body = replace(body, arch_to=arch_end(fingers(tote, place.x), body))
    return BenchDesign(
        loaded=loaded,
        shop=shop,
        body=body,
        mechanism=m,
        tote=tote,
        tote_at=place,
        tote_form_decided_by=tote_why,
        knob=knob,
        knob_x=knob_x,
        knob_decided_by=knob_why,
        hardware=_hardware(spec, m, body, tote, knob),
        body_alloy=alloy(b.alloy),
        frog_alloy=alloy(spec.frog.alloy or b.alloy),
        cap_alloy=alloy(spec.lever_cap.alloy or CAP_ALLOY),
        contraction=shop.contraction_of(b.alloy, b.length),
        master=shop.master_contraction(),
    )


def _body(
    spec: BenchSpec,
    m: Mechanism,
    cast: CastAllowances,
    tote: ToteSize,
    tote_x: float,
    knob_x: float,
    toe_x: float,
    heel_x: float,
) -> BodySize:
    b, at, frog = spec.body, m.stations, m.frog
    bed = radians(spec.bed.angle)
    wall_foot = (spec.blade.thickness + st.WALL_RELIEF) / sin(bed)
    step_x = at.high_from + frog.travel + 0.5
    boss_z = b.sole_thickness + body_rules.TOTE_BOSS_RISE
    knob_z = b.sole_thickness + body_rules.BOSS_RISE
    toe_boss = None
    if tote.toe is not None:
        x = tote_x + tote.toe.x
        toe_z = b.sole_thickness + toe_boss_rise(spec.handle)
        toe_boss = Boss(x, tote.toe.boss_diameter - 0.5, toe_z, _tapped(x, 0.0, toe_z, m, "small"))
    # the rod's axis meets the foot plane at tote_x and leans toward the toe, so it leaves the boss a little ahead
    lean_top = tote_x - body_rules.TOTE_BOSS_RISE * tan(radians(tote.lean_deg))
    return BodySize(
        length=b.length,
        width=b.width,
        sole=b.sole_thickness,
        cheek=b.cheek_thickness,
        cheek_height=b.cheek_height,
        rail_height=body_rules.rail_height(b),
        root_radius=body_rules.root_radius(b),
        corner_radius=body_rules.corner_radius(b),
        toe_x=toe_x,
        heel_x=heel_x,
        arch_from=toe_x + max(12.0, 0.16 * b.mouth_from_toe),
        arch_peak=body_rules.ARCH_PEAK * b.cheek_height,
        arch_to=min(heel_x - 12.0, tote_x + 0.35 * (heel_x - tote_x)),
        bed_angle=spec.bed.angle,
        mouth_opening=b.mouth_opening,
        mouth_half_width=spec.blade.width / 2 + body_rules.mouth_side_clearance(b),
        mouth_front_angle=body_rules.mouth_front_angle(b),
        wall_foot_x=wall_foot,
        low_pad=Pad(wall_foot + at.low_z / tan(bed), step_x, frog.half_width + 0.5, at.low_z),
        high_pad=Pad(step_x, at.frog_aft + 1.0, frog.half_width + 0.5, at.high_z),
        key_half=frog.key_half - 0.02,
        key_height=frog.key_depth - 0.3,
        holddown=tuple(_tapped(at.holddown_at, y, at.high_z, m, "medium") for y in (frog.holddown_y, -frog.holddown_y)),
        knob_boss=Boss(knob_x, body_rules.KNOB_BOSS, knob_z, _tapped(knob_x, 0.0, knob_z, m, "medium")),
        tote_boss=Boss(
            tote_x, body_rules.TOTE_BOSS, boss_z, _tapped(lean_top, 0.0, boss_z, m, "medium", tote.lean_deg)
        ),
        toe_boss=toe_boss,
        ribs=_ribs(spec, m, knob_x, tote, tote_x, heel_x),
        cast=cast,
    )


def _hardware(spec: BenchSpec, m: Mechanism, body: BodySize, tote: ToteSize, knob: KnobSize) -> HardwareSize:
    medium, small = m.stations.threads["medium"], m.stations.threads["small"]
    engaged = 1.25 * medium.major
    tote_hole = min(engaged, body.tote_boss.hole.depth - medium.pitch)
    rise = body_rules.TOTE_BOSS_RISE / cos(radians(tote.lean_deg))
    tote_rod = Rod(
        "tote rod",
        medium,
        tote_hole - rise + tote.rod_height - tote.nut_counterbore_depth + ROD_IN_NUT * NUT_HEIGHT,
        NUT_DIAMETER,
        NUT_HEIGHT,
    )
    knob_hole = min(engaged, body.knob_boss.hole.depth - medium.pitch)
    knob_rod = Rod(
        "knob rod",
        medium,
        knob_hole - body_rules.BOSS_RISE + knob.height - knob.nut_counterbore_depth + ROD_IN_NUT * NUT_HEIGHT,
        NUT_DIAMETER,
        NUT_HEIGHT,
    )
    toe_screw = None
    if tote.toe is not None and body.toe_boss is not None:
        hole = body.toe_boss.hole
        below = min(1.25 * small.major, hole.depth - small.pitch)
        toe_screw = Screw("tote toe screw", small, below + tote.toe.head_seat_z - toe_boss_rise(spec.handle), 9.0, 3.2)
    return HardwareSize(
        spec.units, m.holddown, m.cap_screw, m.chipbreaker_screw, tote_rod, knob_rod, toe_screw, m.depth, m.lateral
    )
