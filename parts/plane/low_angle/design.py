"""From spec and practice to every resolved size of one low-angle plane. Arithmetic only; no CAD kernel."""

from __future__ import annotations

from math import cos, radians, sin, tan
from typing import ClassVar, Literal

from parts.blade.size import MICRO_WIDTH, BladeSize
from parts.body import layout as body_rules
from parts.body.low_angle.layout import ramp_to
from parts.body.low_angle.size import LowBodySize
from parts.handle.size import KnobSize, ToteSize, knob_size
from parts.low_angle.setting import LateralLimit, furthest_out, lateral_limit
from parts.low_angle.size import AdjusterSize, LowCapSize
from parts.plane.faults import Refusals, temper_faults
from parts.plane.low_angle import mechanism
from parts.plane.low_angle import stations as st
from parts.plane.low_angle.body import blade_between_cheeks, body, stud_hole, toe_way_of
from parts.plane.low_angle.obstacles import obstacles
from parts.plane.low_angle.rods import HandleRods, handle_rods, nut_of
from parts.plane.low_angle.spec import LowAngleSpec
from parts.plane.low_angle.stations import LowStations, low_stations
from parts.plane.placing import TotePlace, place_knob
from parts.plane.shop import ShopSpec
from parts.plane.spec import LoadedSpec
from parts.plane.totes import ToteRoom, choose_tote
from shared.casting.allowance import stock_one_side
from shared.casting.alloy import Alloy, alloy
from shared.casting.contraction import Contraction
from shared.record import Record
from shared.threads import Thread

CAP_ALLOY = "manganese-bronze-c86500"
TOTE_FROM = 230.0  # body length from which a plane has a tote; common practice, no source
WHEEL_FINGERS = 12.0  # room behind the wheel's rim for the fingers that turn it
REST = (20.0, 26.0, 18.5)  # height, diameter and waist of the finger rest of a plane held in one hand
REST_BOSS = 14.0
FOOT_RELIEF = (1.5, 0.5)  # round a rod that comes through a flat: beyond its radius, and deep


class LowAngleDesign(Record):
    """One low-angle plane, every size resolved."""

    loaded: LoadedSpec[LowAngleSpec]
    shop: ShopSpec
    body: LowBodySize
    stations: LowStations
    blade: BladeSize
    lever_cap: LowCapSize
    adjuster: AdjusterSize
    lateral: LateralLimit
    tote: ToteSize | None
    tote_at: TotePlace | None
    tote_form_decided_by: str
    knob: KnobSize
    knob_x: float
    knob_decided_by: str
    rods: HandleRods
    body_alloy: Alloy
    cap_alloy: Alloy
    contraction: Contraction  # of the body
    master: Contraction | None

    orientation: ClassVar[Literal["bevel-up"]] = "bevel-up"

    @property
    def spec(self) -> LowAngleSpec:
        """The spec as read."""
        return self.loaded.spec

    @property
    def rod_diameter(self) -> float:
        """Thread of the rods through tote and knob, major diameter [mm]."""
        return self.rods.knob[0].thread.major

    @property
    def widest_mouth(self) -> float:
        """Mouth opening with the toe piece right ahead, or the fixed mouth's [mm]."""
        return _widest_mouth(self.body)

    @property
    def to_mouth_front(self) -> float:
        """How far the blade can go down its bed until its bevel meets the widest mouth's front [mm]."""
        return _to_mouth_front(self.spec.bed.angle, self.body, self.blade)

    @property
    def out_most(self) -> float:
        """How far the blade can go down its bed: by the wheel, or until it meets the widest mouth's front [mm]."""
        return min(self.adjuster.travel, self.to_mouth_front)

    @property
    def palm_height(self) -> float:
        """Height of the top of the clamp's knob above the sole face [mm]: what the palm lies on."""
        return self.body.on_bed(self.lever_cap.clamp.at, -self.lever_cap.knob_top_q)[1]

    @property
    def datum_height(self) -> float:
        """Height of the milled seat that sets the bed, above the sole: the upright land's top [mm]."""
        return self.body.feather


def _widest_mouth(body: LowBodySize) -> float:
    return body.mouth_opening if body.toe_way is None else body.toe_way.opening_most


def _to_mouth_front(bed: float, body: LowBodySize, blade: BladeSize) -> float:
    return furthest_out(_widest_mouth(body), bed, bed + blade.honed_bevel)


def _cross_faults(loaded: LoadedSpec[LowAngleSpec], shop: ShopSpec) -> None:
    """Refuse what no single key can see: sizes that cannot stand together in any plane.

    Raises:
        InputError: one fault a key.
    """
    spec, found = loaded.spec, Refusals(loaded)
    b, blade, bed = spec.body, spec.blade, spec.bed.angle
    widest = body_rules.widest_blade(b, shop.casting.draft_inside)
    found.more_than("blade.width", blade.width, widest, body_rules.WIDEST_BLADE)
    rail = body_rules.rail_height(b)
    found.more_than("body.rail_height", rail, b.cheek_height - 6.0, "6 mm below body.cheek_height")
    found.more_than("body.mouth_from_toe", b.mouth_from_toe, 0.5 * b.length, "half of body.length")
    most = 0.5 * blade.width * sin(radians(max(bed - blade.back_bevel, 0.0)))
    found.more_than("blade.camber", blade.camber, most, "on the blade the edge would curve more than a half circle")
    if blade.micro_bevel is not None and blade.micro_bevel <= blade.bevel:
        found.say("blade.micro_bevel", f"more than blade.bevel ({blade.bevel:g} deg)")
    if blade.back_bevel >= bed:
        found.say("blade.back_bevel", f"less than bed.angle ({bed:g} deg), or the flat of the blade rubs")
    if blade.skew:
        found.say("blade.skew", "0: a skewed edge needs a skewed bed, which this kind does not have")
    honed = blade.bevel if blade.micro_bevel is None else blade.micro_bevel
    if bed + honed >= 89.0:
        key = "blade.bevel" if blade.micro_bevel is None else "blade.micro_bevel"
        found.say(key, f"less than {89.0 - bed:g} deg: bed.angle and bevel together are the cutting angle")
    if not found.faults:
        for fault in temper_faults(loaded):
            found.say(fault.key, fault.allowed, fault.hint)
    found.stop()


def _fit_faults(loaded: LoadedSpec[LowAngleSpec], at: LowStations, blade: BladeSize) -> None:
    """Refuse what the stations along the bed cannot take.

    Raises:
        InputError: one fault a key.
    """
    spec, found = loaded.spec, Refusals(loaded)
    found.less_than(
        "blade.length",
        blade.length,
        at.least_blade,
        f"the cross slots begin {at.flange_at:.1f} mm from the edge ({at.flange_decided_by}) and take {at.life:g} mm",
    )
    most = blade.cross_slots[0].at - blade.cross_slots[0].width / 2 - 4.0
    life = at.life - max(0.0, blade.slot_high - most)
    found.more_than("adjuster.life", at.life, life, "steel between stud slot and first cross slot")
    highest = at.stud_at - st.TRAVEL - at.threads["small"].major / 2
    found.more_than("blade.slot_from_edge", blade.slot_low, highest, "the stud stands in the slot, blade drawn back")
    b = radians(spec.bed.angle)
    behind = at.bridge[1] * cos(b) + spec.body.mouth_from_toe + 6.0
    found.less_than("body.length", spec.body.length, behind, "the bridge under the blade needs plate behind it")
    found.stop()


def _tote_asked(spec: LowAngleSpec) -> bool:
    return spec.body.length >= TOTE_FROM if spec.handle.tote is None else spec.handle.tote


def _knob(spec: LowAngleSpec, with_tote: bool, rod: Thread, plane_z: float, on_boss: bool) -> KnobSize:
    """Return the knob; a finger rest on a plane that is held in one hand."""
    nut = nut_of(with_tote)
    boss = body_rules.KNOB_BOSS if with_tote else REST_BOSS
    handle = spec.handle
    if not with_tote:
        rest = dict(zip(("knob_height", "knob_diameter", "knob_waist"), REST, strict=True))
        handle = handle.model_copy(update={k: v for k, v in rest.items() if getattr(handle, k) is None})
    flat = (rod.major + 2 * FOOT_RELIEF[0], FOOT_RELIEF[1])
    return knob_size(
        handle,
        foot_plane_z=plane_z,
        rod_diameter=rod.major,
        nut_diameter=nut[0],
        boss_diameter=boss if on_boss else flat[0],
        boss_height=body_rules.BOSS_RISE if on_boss else flat[1],
        nut_height=nut[1],
    )


def design(loaded: LoadedSpec[LowAngleSpec], shop: ShopSpec) -> LowAngleDesign:
    """Resolve one plane.

    Args:
        loaded: the spec with its text.
        shop: the works' practice.

    Raises:
        InputError: sizes that cannot stand together, one fault each.
        RequestError: a handle in which too little wood would be left.
    """
    _cross_faults(loaded, shop)
    spec = loaded.spec
    b, steel, bed = spec.body, spec.blade, spec.bed.angle
    at = low_stations(
        bed_angle=bed,
        thickness=steel.thickness,
        bevel=steel.bevel,
        micro_bevel=steel.micro_bevel,
        micro_width=MICRO_WIDTH,
        blade_length=steel.length,
        sole=b.sole_thickness,
        front_land=ramp_to(b, bed) / cos(radians(bed)),
        root_radius=body_rules.root_radius(b),
        system=spec.units,
        pitch=spec.adjuster.slot_pitch,
        life=spec.adjuster.life,
    )
    adjuster = mechanism.adjuster(steel.thickness, at)
    blade = mechanism.blade(steel, at, adjuster)
    _fit_faults(loaded, at, blade)
    casting = shop.casting
    stock = stock_one_side(10.0, 100.0, casting.tolerance_grade, casting.machining_grade)
    stud = stud_hole(spec, at)
    cap = mechanism.lever_cap(spec.lever_cap, blade, at, stud.depth, stock, casting.draft_outside)

    toe_x, heel_x = -b.mouth_from_toe, b.length - b.mouth_from_toe
    tote, place, why = None, None, "none: held in one hand"
    with_tote = _tote_asked(spec)
    rod = at.threads["medium" if with_tote else "small"]
    if with_tote:
        behind = (adjuster.rim_to + adjuster.travel) * cos(radians(bed)) + adjuster.axis_h * sin(radians(bed))
        room = ToteRoom(
            things=obstacles(bed, blade, cap, adjuster),
            sole=b.sole_thickness,
            heel_x=heel_x,
            foot_from=behind + WHEEL_FINGERS,
            foot_why="fingers reach the depth wheel ahead of the tote",
            rod_diameter=rod.major,
            toe_screw=at.threads["small"].major if b.length >= body_rules.TOE_SCREW_FROM else None,
        )
        tote, place, why = choose_tote(spec.handle, room)

    way = toe_way_of(spec, rod)
    knob = _knob(spec, with_tote, rod, b.sole_thickness if way is None else way.block_z, way is None)
    mouth_front = -b.mouth_opening - b.sole_thickness / tan(radians(body_rules.mouth_front_angle(b)))
    if way is None:
        knob_x, knob_why = place_knob(toe_x, mouth_front, knob.diameter / 2)
    else:
        knob_x, knob_why = way.boss_x, "on the stud that locks the toe piece"

    resolved = body(spec, at, shop, stud, way, adjuster, tote, place, knob_x, rod, REST_BOSS if not with_tote else None)
    cheek_at, cheek_room = blade_between_cheeks(resolved, blade)
    return LowAngleDesign(
        loaded=loaded,
        shop=shop,
        body=resolved,
        stations=at,
        blade=blade,
        lever_cap=cap,
        adjuster=adjuster,
        lateral=lateral_limit(
            mouth_side=resolved.mouth_half_width - blade.width / 2,
            bed_to=at.bridge[1],
            stud_at=at.stud_at,
            stud_room=(blade.slot_width - cap.stud.thread.major) / 2,
            cheek_at=cheek_at,
            cheek_room=cheek_room,
            edge_half=blade.width / 2,
            out_most=_to_mouth_front(bed, resolved, blade),
            adjuster=adjuster,
        ),
        tote=tote,
        tote_at=place,
        tote_form_decided_by=why,
        knob=knob,
        knob_x=knob_x,
        knob_decided_by=knob_why,
        rods=handle_rods(spec.handle, resolved, knob, knob_x, tote, place, at.threads, rod),
        body_alloy=alloy(b.alloy),
        cap_alloy=alloy(spec.lever_cap.alloy or CAP_ALLOY),
        contraction=shop.contraction_of(b.alloy, b.length),
        master=shop.master_contraction(),
    )
