"""Rules of bedding and adjusters: is the blade held, and can it be set?"""

from __future__ import annotations

from math import asin, atan2, degrees, hypot, radians, sin, tan

from parts.blade.bedding import bevel_heel, edge_deflection, lateral_adjust, modulus, unsupported_length
from parts.hardware.numbers import LEVER_SWING
from parts.hardware.seating import Setting, blade_turn
from parts.plane.bench.design import BenchDesign
from parts.plane.bench.mechanism import TRAVEL, lateral_angle_limit
from parts.plane.bench.seats import seating
from parts.plane.bench.stations import BLADE_TRAVEL, WALL_RELIEF
from parts.plane.design import Design
from parts.plane.rules.said import amount, in_both
from shared.findings import Finding, judge
from shared.numbers import COMMON_PRACTICE, GEOMETRY

LATERAL_LEAST = 0.5  # that the blade can be turned each way, wanted [deg]; common practice, no source
LATERAL_SWING = 10.0  # of the lateral lever, each way, that a finger moves it [deg]; common practice, no source


def overhang(d: Design, u: float, steel: float, change: str) -> list[Finding]:
    """Judge how far the edge stands out from its bed.

    Args:
        d: the plane.
        u: unsupported length [mm].
        steel: thickness at the support [mm].
        change: what to do for a shorter one.
    """
    blade = d.blade
    stiff, source = modulus(d.spec.blade.steel)
    give = 1e5 * edge_deflection(u, stiff, blade.width, steel)  # µm per 100 N
    return [
        Finding(
            "F01",
            "bedding",
            "unsupported length of the blade",
            judge(u <= 6.0 * blade.thickness, u <= 8.0 * blade.thickness),
            in_both(d, u),
            f"6 blade thicknesses ({in_both(d, 6 * blade.thickness)})",
            "an edge far from its bed chatters",
            COMMON_PRACTICE,
            change,
        ),
        Finding(
            "F02",
            "bedding",
            "give of the edge under 100 N",
            judge(give <= 12.0, give <= 30.0),
            f"{give:.1f} µm",
            "12 µm",
            "cantilever beyond the bed: 4 u³ / (E w t³)",
            f"{GEOMETRY}; modulus: {source}; limit {COMMON_PRACTICE}",
            f"thicken blade.thickness by about {amount(d, steel * ((max(give, 12.0) / 12.0) ** (1 / 3) - 1))}, "
            "or shorten what stands out, as for F01",
        ),
    ]


def bedding(d: BenchDesign) -> list[Finding]:
    """Judge support of the blade and fit of the frog."""
    m, spec = d.mechanism, d.spec
    blade, frog = m.blade, m.frog
    heel = bevel_heel(blade.thickness, spec.bed.angle, blade.bevel, blade.micro_bevel, blade.micro_width or 0.5)[1]
    support = max(heel, frog.low_z)
    u = unsupported_length(blade.thickness, spec.bed.angle, support)
    room = d.body.inside_half - (frog.half_width + 0.5)
    washer = frog.holddown_y + m.holddown.washer_diameter / 2 - frog.half_width
    nose = m.lever_cap.nose_at - m.stations.bed_foot
    bed = radians(spec.bed.angle)
    over = max(0.0, u - 6.0 * blade.thickness)
    shorter = f"thicken blade.thickness by about {amount(d, over / (6.0 - 1.0 / tan(bed)))}"
    shorter += f", or thin body.sole_thickness by about {amount(d, over * sin(bed))}"
    clear = d.body.root_radius * 0.3 + 0.3
    return [
        *overhang(d, u, blade.thickness, shorter),
        Finding(
            "F03",
            "frog",
            "frog between the cheeks",
            judge(room >= clear, room > 0.2),
            in_both(d, room),
            f"{in_both(d, clear)}: clear of the inside radius",
            "frog and pads must not ride up the root of the cheek",
            GEOMETRY,
            f"raise frog.bed_margin by about {amount(d, clear - room)}, "
            f"or widen body.width by {amount(d, 2 * (clear - room))}",
        ),
        Finding(
            "F04",
            "frog",
            "hold-down washers on the frog's foot",
            judge(washer <= 0.0, washer < 1.0),
            in_both(d, -washer),
            "0 or more inside the foot's edge",
            "a washer over the edge bends the screw",
            GEOMETRY,
            f"lower frog.bed_margin by about {amount(d, washer)}, or widen blade.width by {amount(d, 2 * washer)}",
        ),
        Finding(
            "F05",
            "lever_cap",
            "lever cap presses over the bed",
            judge(nose >= 1.0, nose >= 0.0),
            in_both(d, nose),
            "1 mm or more above the bed's foot",
            "pressure ahead of the bed bends the blade down",
            GEOMETRY,
            f"thin body.sole_thickness by about {amount(d, (1.0 - nose) * sin(bed))}",
        ),
    ]


def adjusters(d: BenchDesign) -> list[Finding]:
    """Judge what depth, lateral and frog adjusters reach."""
    m = d.mechanism
    sine = sin(radians(d.spec.bed.angle))
    back, out = BLADE_TRAVEL * sine, min(BLADE_TRAVEL, m.chipbreaker.setback) * sine
    travel = m.frog.travel
    slot = m.blade.slot_high - m.stations.screw_at
    shank = m.stations.cap_screw_at - m.cap_screw.thread.major / 2
    room = shank - BLADE_TRAVEL - m.blade.slot_low
    return [
        Finding(
            "A01",
            "hardware",
            "edge drawn back above the sole",
            judge(back >= 0.8),
            in_both(d, back),
            "0.8 mm",
            "the edge must retract fully",
            COMMON_PRACTICE,
            f"raise bed.angle to {degrees(asin(0.8 / BLADE_TRAVEL)):.0f} deg or more",
        ),
        Finding(
            "A06",
            "hardware",
            "deepest cut before the chipbreaker meets the sole",
            judge(out >= 0.1, out >= 0.05),
            in_both(d, out),
            "0.1 mm",
            "the chipbreaker's edge must stay above the wood: depth = setback × sin(bed)",
            f"{GEOMETRY}; limit {COMMON_PRACTICE}",
            f"raise chipbreaker.setback by about {amount(d, (0.1 - out) / sine)}",
        ),
        _lateral(d),
        Finding(
            "A03",
            "frog",
            "frog travel along the sole",
            judge(travel >= min(d.spec.body.mouth_opening, TRAVEL)),
            f"±{travel:g} mm; {WALL_RELIEF:g} mm aft of the wall at most",
            "the mouth opening, to close it fully",
            "the frog moves ahead to close the mouth",
            COMMON_PRACTICE,
            f"raise frog.travel by about {amount(d, min(d.spec.body.mouth_opening, TRAVEL) - travel)}",
        ),
        Finding(
            "A04",
            "blade",
            "slot past the chipbreaker's screw",
            judge(slot >= 25.0, slot >= 10.0),
            in_both(d, slot),
            "25 mm of life",
            "as the blade wears the screw nears the slot's upper end",
            GEOMETRY,
            f"lengthen blade.length by about {amount(d, 25.0 - slot)}",
        ),
        Finding(
            "A05",
            "blade",
            "lever-cap screw clear of the slot's lower end, blade drawn back",
            judge(room >= 0.5 - 1e-6, room >= 0.0),
            in_both(d, room),
            "0.5 mm; 0 at the very least",
            "drawn back, the blade must not hang on the screw's shank",
            f"{GEOMETRY}; limit {COMMON_PRACTICE}",
            f"lower blade.slot_from_edge by about {amount(d, 0.5 - room)}, or leave it out",
        ),
        *_both_ends(d),
    ]


def _lateral(d: BenchDesign) -> Finding:
    """Judge how far the blade can be turned about the lever-cap screw; whatever stops it first decides."""
    m, half_blade, pivot = d.mechanism, d.blade.width / 2, d.mechanism.stations.cap_screw_at
    beside, walls = d.body.mouth_half_width - half_blade, d.body.inside_half - half_blade
    # what the least asks for beside the blade at the mouth, and between the cheeks
    turned = radians(LATERAL_LEAST) + atan2(half_blade, pivot)
    wanted = hypot(half_blade, pivot) * sin(turned) - half_blade
    tilt, stop, change = min(
        (lateral_adjust(d.blade.width, beside, pivot), "the edge meets the mouth's side",
         f"raise body.mouth_side_clearance by about {amount(d, wanted - beside)}"),
        (lateral_angle_limit(m.blade, d.body.inside_half, m.stations), "the blade meets a cheek",
         f"widen body.width by about {amount(d, 2 * (sin(radians(LATERAL_LEAST)) * pivot - walls))}"),
        (blade_turn(d.hardware, seating(d), Setting(lateral=LEVER_SWING)), "the lever's recess stops it",
         "raise bed.angle: the shorter frog brings the lever nearer the lever-cap screw"),
    )  # fmt: skip
    return Finding(
        "A02",
        "hardware",
        "lateral adjustment",
        judge(tilt >= LATERAL_LEAST, tilt >= LATERAL_LEAST / 2),
        f"±{tilt:.2f} deg, where {stop}",
        f"±{LATERAL_LEAST:g} deg",
        "an edge honed a little out of square must still be set level",
        COMMON_PRACTICE,
        change,
    )


def _both_ends(d: BenchDesign) -> list[Finding]:
    """Judge that the depth wheel stays on its post, and the lateral lever inside the cheeks, at both ends."""
    m = d.mechanism
    wheel, lateral = m.depth, m.lateral
    swing = BLADE_TRAVEL / wheel.ratio
    ahead = wheel.wheel_at - wheel.wheel_front - swing - m.stations.rear_at
    behind = wheel.post_to - (wheel.wheel_at - wheel.wheel_front + wheel.wheel_thickness + swing)
    # its rim turns under the bed plate
    under = wheel.post_h - wheel.wheel_diameter / 2 - m.frog.bed_plate
    least = min(ahead, behind, under) + 1e-6
    reach = (lateral.tab_at - lateral.pivot_at) * sin(radians(LATERAL_SWING))
    side = d.body.inside_half - lateral.tab_width / 2 - reach
    return [
        Finding(
            "A07",
            "hardware",
            "depth wheel on its post, clear of the frog, at both ends of its travel",
            judge(least >= 1.0, least >= 0.0),
            f"{in_both(d, ahead)} from the frog along the post, {in_both(d, under)} under its bed plate, "
            f"{in_both(d, behind)} of post left",
            "1 mm each",
            "a wheel that runs off its post or onto the frog stops short of the full depth",
            GEOMETRY,
            f"thicken chipbreaker.thickness by about {amount(d, 1.0 - min(ahead, behind))}: the wheel then moves less",
        ),
        Finding(
            "A08",
            "hardware",
            "lateral lever inside the cheeks, swung to both ends",
            judge(side >= 2.0, side >= 0.5),
            in_both(d, side),
            f"2 mm, the lever swung {LATERAL_SWING:g} deg",
            "a finger must move the lever right over",
            COMMON_PRACTICE,
            f"widen body.width by about {amount(d, 2 * (2.0 - side))}",
        ),
    ]
