"""Rules that only a low-angle plane has: its mouth, bed, cap and depth wheel."""

from __future__ import annotations

from math import cos, radians, sin, tan

from parts.blade.bedding import steel_at, steel_under_edge, unsupported_length
from parts.low_angle import forces
from parts.low_angle.numbers import cap_stress
from parts.low_angle.setting import LateralLimit
from parts.plane.low_angle import mechanism
from parts.plane.low_angle.design import LowAngleDesign
from parts.plane.rules import cutting, seat
from parts.plane.rules.said import in_both
from shared.findings import Finding, judge
from shared.numbers import COMMON_PRACTICE, GEOMETRY

FEATHER_LEAST = 0.8
NOSE_LEAST_N = 150.0
DEPTH_LEAST = 0.3
STUD_STRESS = 112.0  # MPa: half the proof stress of a class 4.6 screw (ISO 898-1, value from memory)


def _throat(d: LowAngleDesign) -> float:
    """Return the least gap between the mouth's front wall and bevel or lever cap [mm], square to the wall."""
    b, f = radians(d.spec.bed.angle), radians(d.body.mouth_front_angle)
    t, cap = d.blade.thickness, d.lever_cap
    land = cap.land[0]
    points = [(d.stations.heel_at, t), (land, t), (land + 3.0 / tan(radians(60.0)), t + 3.0)]
    gaps = []
    for s, q in points:
        x, z = s * cos(b) - q * sin(b), s * sin(b) + q * cos(b)
        if z <= d.body.sole:
            gaps.append((x + d.body.mouth_opening) * sin(f) + z * cos(f))
        else:
            gaps.append(x + d.body.mouth_opening + d.body.sole / tan(f))
    return min(gaps)


def mouth(d: LowAngleDesign) -> list[Finding]:
    """Judge mouth opening, throat, side clearance, and the toe piece's travel."""
    found = [
        cutting.opening(d),
        cutting.chip_room(d, _throat(d), "lower body.mouth_front_angle or raise body.mouth_opening"),
        cutting.side(d),
    ]
    way = d.body.toe_way
    if way is not None:
        found.append(
            Finding(
                "M05",
                "body",
                "range of the toe piece",
                judge(way.opening_least <= 0.1 and way.opening_most >= 1.5, way.opening_most >= 1.0),
                f"{in_both(d, way.opening_least)} to {in_both(d, way.opening_most)}",
                "0.1 mm or less to 1.5 mm or more",
                "closed for figured wood, open for a thick shaving",
                COMMON_PRACTICE,
                f"raise body.toe_piece.opening_most by {max(0.0, 1.5 - way.opening_most):.1f} mm",
            )
        )
    return found


def bedding(d: LowAngleDesign) -> list[Finding]:
    """Judge feather, overhang, and where the cap presses."""
    body, blade, cap, bed = d.body, d.blade, d.lever_cap, d.spec.bed.angle
    under = steel_under_edge("bevel-up", blade.thickness, blade.back_bevel)
    u = unsupported_length(under, bed, body.feather)
    steel = steel_at(u, blade.thickness, blade.bevel)
    nose = cap.land[0] - body.feather / sin(radians(bed))
    behind = cap.land[0] - d.stations.heel_at - d.adjuster.travel
    return [
        Finding(
            "F06",
            "bedding",
            "feather of the bed behind the mouth",
            judge(body.feather >= FEATHER_LEAST - 1e-9),
            in_both(d, body.feather),
            in_both(d, FEATHER_LEAST),
            "a knife edge of iron at the bed's lower end chips, burrs and gives",
            COMMON_PRACTICE,
            f"raise body.feather by {max(0.0, FEATHER_LEAST - body.feather):.2f} mm",
        ),
        *seat.overhang(d, u, steel, "lower body.feather, thicken blade.thickness or raise bed.angle"),
        Finding(
            "F05",
            "lever_cap",
            "lever cap presses over the bed",
            judge(nose >= 1.0, nose >= 0.0),
            in_both(d, nose),
            "1 mm or more above the bed's lower end",
            "pressure ahead of the bed bends the blade down",
            GEOMETRY,
            f"lower body.feather by {max(0.0, 1.0 - nose) * sin(radians(bed)):.2f} mm or thicken blade.thickness",
        ),
        Finding(
            "F07",
            "lever_cap",
            "nose behind the bevel, blade drawn back",
            judge(behind >= 0.2, behind >= 0.0),
            in_both(d, behind),
            "0.2 mm",
            "a nose on the bevel slips and bruises it",
            GEOMETRY,
            "raise blade.bevel or thin blade.thickness",
        ),
        _pressing(d),
        _cap_strength(d),
    ]


def _pressing(d: LowAngleDesign) -> Finding:
    nose = forces.cap_forces(d.lever_cap).nose
    return Finding(
        "F08",
        "lever_cap",
        "force of the cap's nose, tightened by two fingers",
        judge(nose >= NOSE_LEAST_N, nose >= 0.6 * NOSE_LEAST_N),
        f"{nose:.0f} N",
        f"{NOSE_LEAST_N:g} N",
        "the blade must lie still under the cut, and against its adjuster",
        COMMON_PRACTICE,
        "raise lever_cap.knob_diameter, or bed.angle, which brings the stud nearer the nose",
    )


def _cap_strength(d: LowAngleDesign) -> Finding:
    which, limit = d.cap_alloy.holds
    share = cap_stress(d.lever_cap) / limit
    knob, within = d.lever_cap.clamp.knob_diameter, mechanism.knob_within(d.lever_cap, 0.5 * limit)
    smaller = "" if within is None else f"lower lever_cap.knob_diameter by {knob - within + 0.05:.1f} mm, or "
    return Finding(
        "F09",
        "lever_cap",
        "stress of the cap beside its stud, tightened by two fingers",
        judge(share <= 0.5, share <= 0.8),
        f"{100 * share:.0f} % of the {which} strength",
        "50 %: a strong hand doubles it",
        "the cap must not bend for good",
        f"{d.cap_alloy.source_of(f'{which}_mpa')}; limit {COMMON_PRACTICE}",
        smaller + f"take a lever_cap.alloy that is {max(1.0, 2 * share):.2f} times as strong",
    )


def _wider_mouth(d: LowAngleDesign, turn: float) -> float:
    """Return how much wider [mm] the mouth must open for the blade to turn by so many degrees before its front."""
    more = d.blade.width / 2 * sin(radians(turn)) / d.to_mouth_front - 1.0
    return max(0.0, more) * d.widest_mouth + 0.005  # rounded up


def adjusters(d: LowAngleDesign) -> list[Finding]:
    """Judge what depth wheel and hand reach, and that the wheel runs free."""
    a, blade = d.adjuster, d.blade
    sine = sin(radians(d.spec.bed.angle))
    depth = a.least_travel_left * sine
    lateral: LateralLimit = d.lateral
    out = d.out_most * sine
    key = "body.mouth_opening" if d.body.toe_way is None else "body.toe_piece.opening_most"
    room = d.stations.stud_at - d.lever_cap.stud.thread.major / 2 - a.travel - blade.slot_low
    low = a.at - a.flange_thickness / 2 - a.travel
    floor = (low * sine - d.body.sole) / cos(radians(d.spec.bed.angle)) - a.axis_h - a.flange_radius
    bridge = low - d.stations.bridge[1]
    rim = d.body.on_bed(a.rim_from - a.travel, a.axis_h + a.rim_radius)[1] - d.body.sole
    stress = forces.cap_forces(d.lever_cap).stud / forces.stress_area(d.lever_cap.stud.thread)
    return [
        Finding(
            "A01",
            "adjuster",
            "depth that the edge is moved each way, at the worst state of wear",
            judge(depth >= DEPTH_LEAST, depth >= 0.2),
            in_both(d, depth),
            in_both(d, DEPTH_LEAST),
            "the edge must retract fully and reach its deepest cut: travel left × sin(bed)",
            f"{GEOMETRY}; limit {COMMON_PRACTICE}",
            f"lower adjuster.slot_pitch by {max(0.0, 2 * (DEPTH_LEAST - depth) / sine):.1f} mm or raise bed.angle",
        ),
        Finding(
            "A06",
            "body",
            "deepest cut before the blade meets the front of the widest mouth",
            judge(out >= 0.1, out >= 0.05),
            in_both(d, out),
            "0.1 mm",
            "at a low bed the edge comes ahead nearly five times as fast as it comes down",
            f"{GEOMETRY}; limit {COMMON_PRACTICE}",
            f"raise {key} by {max(0.0, 0.1 - out) * d.widest_mouth / max(out, 1e-6):.2f} mm",
        ),
        Finding(
            "A02",
            "adjuster",
            "lateral adjustment, by hand at the blade's upper end",
            judge(lateral.degrees >= 0.5, lateral.degrees >= 0.25),
            f"±{lateral.degrees:.2f} deg; {lateral.decided_by}",
            "±0.5 deg",
            "an edge honed a little out of square must still be set level",
            COMMON_PRACTICE,
            f"raise {key} by {_wider_mouth(d, 0.5):.2f} mm"
            if "front" in lateral.decided_by
            else "raise body.mouth_side_clearance, widen body.width or narrow blade.width",
        ),
        Finding(
            "A04",
            "blade",
            "life of the blade in the adjuster",
            judge(a.life >= 12.0, a.life >= 8.0),
            in_both(d, a.life),
            "12 mm of steel",
            "as the blade wears the wheel takes the next cross slot, until the last",
            COMMON_PRACTICE,
            f"raise adjuster.life by {max(0.0, 12.0 - a.life):.0f} mm, and blade.length as much",
        ),
        Finding(
            "A05",
            "blade",
            "stud clear of the slot's lower end, blade drawn back",
            judge(room >= 0.5 - 1e-6, room >= 0.0),
            in_both(d, room),
            "0.5 mm; 0 at the very least",
            "drawn back, the blade must not hang on the stud's shank",
            f"{GEOMETRY}; limit {COMMON_PRACTICE}",
            f"lower blade.slot_from_edge by {max(0.0, 0.5 - room):.1f} mm",
        ),
        Finding(
            "A10",
            "adjuster",
            "wheel clear of plate and bridge, blade pushed right out",
            judge(min(floor, bridge) >= 0.4, min(floor, bridge) > 0.0),
            f"{in_both(d, floor)} over the plate, {in_both(d, bridge)} from the bridge",
            "0.4 mm",
            "the flange must turn freely at both ends of its travel",
            GEOMETRY,
            "thin body.sole_thickness or raise bed.angle",
        ),
        Finding(
            "A11",
            "adjuster",
            "room under the wheel's rim",
            judge(rim >= 1.5, rim >= 0.5),
            in_both(d, rim),
            "1.5 mm over the plate",
            "shavings collect there, and a finger tip turns the rim",
            COMMON_PRACTICE,
            f"lengthen blade.length by {max(0.0, 1.5 - rim) / sine:.0f} mm, which sets the rim higher",
        ),
        Finding(
            "A12",
            "lever_cap",
            "tension of the stud, cap tightened by two fingers",
            judge(stress <= STUD_STRESS, stress <= 2 * STUD_STRESS),
            f"{stress:.0f} MPa",
            f"{STUD_STRESS:g} MPa",
            "the stud must not stretch under a strong hand, which doubles it",
            "ISO 898-1 proof stress of class 4.6, from memory",
            "lower lever_cap.knob_diameter",
        ),
    ]
