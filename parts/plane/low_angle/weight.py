"""Weight and balance of a low-angle plane by arithmetic."""

from __future__ import annotations

from math import cos, pi, radians, sin, tan

from parts.low_angle import outline
from parts.plane.low_angle.design import LowAngleDesign
from parts.plane.weight import BRASS, STEEL, Lump, Weight, block, handles, trough
from shared.tables import table


def weight(d: LowAngleDesign) -> Weight:
    """Return the weight of a low-angle plane.

    Raises:
        GeometryError: a body whose cheek cannot be drawn.
    """
    b, cap, a = d.body, d.lever_cap, d.adjuster
    metal = d.body_alloy.density_kg_m3
    place = None if d.tote_at is None else d.tote_at.x
    return Weight((
        *trough(b, metal),
        *_bed(d, metal),
        *_toe(d, metal),
        _blade(d),
        _cap(d),
        block("clamp", pi / 4 * cap.clamp.knob_diameter**2 * cap.clamp.knob_height * 0.9, BRASS,
              _x(d, cap.clamp.at, cap.knob_top_q)),
        block("clamp foot", pi / 4 * cap.clamp.foot_diameter**2 * cap.clamp.foot_thickness, STEEL,
              _x(d, cap.clamp.at, 5.0)),
        block("stud", pi / 4 * cap.stud.thread.major**2 * cap.stud.length * 1.3, STEEL, _x(d, cap.stud.at, 5.0)),
        block("depth post", pi / 4 * a.thread.major**2 * (a.post_to - a.post_from), STEEL, _x(d, a.post_from + 14, -4)),
        *_wheel(d),
        *handles(d, d.tote, 0.0 if place is None else place, d.knob, d.knob_x),
    ))  # fmt: skip


def _x(d: LowAngleDesign, s: float, q: float) -> float:
    """Return x [mm] of a point s up the bed and q above it."""
    b = radians(d.spec.bed.angle)
    return s * cos(b) - q * sin(b)


def _bed(d: LowAngleDesign, metal: float) -> list[Lump]:
    """Return front land and bridge over the plate, less the mouth."""
    b = d.body
    slope, wide = tan(radians(b.bed_angle)), 2 * b.mouth_half_width
    start = b.sole / slope
    # under the plate's top the land's lower end is a wedge cut out of the plate
    wedge = (b.sole + b.feather) / 2 * (start - b.bed_from)
    mouth = b.mouth_opening + b.bed_from + b.sole / tan(radians(b.mouth_front_angle)) / 2
    cut = (start - b.bed_from) * b.sole - wedge + mouth * b.sole
    land = (b.ramp_to - start) * (b.bed_z(b.ramp_to) - b.sole) / 2
    bridge = (b.bridge.x1 - b.bridge.x0) * ((b.bed_z(b.bridge.x0) + b.bed_z(b.bridge.x1)) / 2 - b.sole)
    return [
        block("mouth", -cut * wide, metal, start / 3, metal=True),
        block("front land", land * 2 * b.inside_half, metal, b.ramp_to - (b.ramp_to - start) / 3, metal=True),
        block("bridge", bridge * 2 * b.inside_half * BRIDGE_ROOTS, metal, (b.bridge.x0 + b.bridge.x1) / 2, metal=True),
    ]


BRIDGE_ROOTS = 1.12  # what draft and roots add to the bridge; measured on the models of the demo planes


def _toe(d: LowAngleDesign, metal: float) -> list[Lump]:
    """Return the bridge block and the toe piece, less the pocket it slides in."""
    way = d.body.toe_way
    if way is None:
        return []
    half, r = d.body.mouth_half_width, way.boss_radius + way.block_wall
    block_volume = (pi * r**2 + 2 * r * way.travel) * (way.block_z - d.body.sole)
    slot = (pi * way.boss_radius**2 + 2 * way.boss_radius * way.travel) * (way.boss_z - way.ledge_z)
    pocket = -(way.toe_end + d.body.mouth_opening) * 2 * half * way.ledge_z
    boss = pi * way.boss_radius**2 * (way.boss_z - way.ledge_z)
    plate = pocket - way.travel * 2 * half * way.ledge_z
    return [
        block("bridge block", block_volume - slot - pocket, metal, way.boss_x, metal=True),
        block("toe piece", plate + boss, metal, way.boss_x, metal=True),
    ]


def _blade(d: LowAngleDesign) -> Lump:
    blade = d.blade
    density = float(table("steel")["physical"][d.spec.blade.steel]["density_kg_m3"])
    open_area = blade.slot_width * (blade.slot_high - blade.slot_low)
    open_area += sum(c.width * c.length for c in blade.cross_slots)
    bevel = blade.thickness**2 / tan(radians(blade.bevel)) / 2 * blade.width
    volume = (blade.width * blade.length - open_area) * blade.thickness - bevel
    return block("blade", volume, density, _x(d, blade.length / 2, blade.thickness / 2))


def _cap(d: LowAngleDesign) -> Lump:
    cap = d.lever_cap
    plan = outline.cap_plan(cap)
    thick = (outline.NOSE_PLATE + cap.end_plate) / 2 + 0.5
    pocket = (cap.stud.head_diameter + 1.4) * (cap.slide + cap.stud.head_diameter) * cap.stud.head_height
    nose = cap.width * 4.5 * (cap.underside_q - cap.blade_top)
    # the plan is drawn beyond the front, where nothing is cast
    beyond = (outline.BEYOND + 4.0) * cap.width
    volume = (plan.area - beyond) * thick - pocket + nose
    middle = (cap.nose_at + cap.tail) / 2
    return block("lever cap", volume, d.cap_alloy.density_kg_m3, _x(d, middle, cap.head_q))


def _wheel(d: LowAngleDesign) -> list[Lump]:
    a = d.adjuster
    flange = pi * a.flange_radius**2 * a.flange_thickness
    sleeve = pi * a.sleeve_radius**2 * (a.rim_from - a.at) - pi / 4 * a.thread.major**2 * (a.bore_to - a.at)
    rim = pi * a.rim_radius**2 * (a.rim_to - a.rim_from) * 0.86
    return [
        block("depth wheel", flange + sleeve, BRASS, _x(d, (a.at + a.rim_from) / 2, -a.axis_h)),
        block("depth wheel's rim", rim, BRASS, _x(d, (a.rim_from + a.rim_to) / 2, -a.axis_h)),
    ]
