"""Rules of bedding and adjusters: is the blade held, and can it be set?"""

from __future__ import annotations

from math import asin, degrees, radians, sin

from parts.blade.bedding import bevel_heel, edge_deflection, unsupported_length
from parts.plane.bench.design import BenchDesign
from parts.plane.bench.mechanism import TRAVEL, lateral_angle_limit
from parts.plane.bench.stations import BLADE_TRAVEL, WALL_RELIEF
from parts.plane.rules.said import in_both
from shared.findings import Finding, judge
from shared.numbers import COMMON_PRACTICE, GEOMETRY

STEEL_E = 205000.0  # MPa, tool steel


def bedding(d: BenchDesign) -> list[Finding]:
    """Judge support of the blade and fit of the frog."""
    m, spec = d.mechanism, d.spec
    blade, frog = m.blade, m.frog
    heel = bevel_heel(blade.thickness, spec.bed.angle, blade.bevel, blade.micro_bevel, blade.micro_width or 0.5)[1]
    support = max(heel, frog.low_z)
    u = unsupported_length(blade.thickness, spec.bed.angle, support)
    give = 1e5 * edge_deflection(u, STEEL_E, blade.width, blade.thickness)  # µm per 100 N
    room = d.body.inside_half - (frog.half_width + 0.5)
    washer = frog.holddown_y + m.holddown.washer_diameter / 2 - frog.half_width
    nose = m.lever_cap.nose_at - m.stations.bed_foot
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
            "thin body.sole_thickness, thicken blade.thickness or raise bed.angle",
        ),
        Finding(
            "F02",
            "bedding",
            "give of the edge under 100 N",
            judge(give <= 12.0, give <= 30.0),
            f"{give:.1f} µm",
            "12 µm",
            "cantilever beyond the bed: 4 u³ / (E w t³)",
            f"{GEOMETRY}; limit {COMMON_PRACTICE}",
            "thicken blade.thickness",
        ),
        Finding(
            "F03",
            "frog",
            "frog between the cheeks",
            judge(room >= d.body.root_radius * 0.3 + 0.3, room > 0.2),
            in_both(d, room),
            "clear of the inside radius",
            "frog and pads must not ride up the root of the cheek",
            GEOMETRY,
            "raise frog.bed_margin, or widen body.width",
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
            "widen blade.width or lower frog.bed_margin",
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
        ),
    ]


def adjusters(d: BenchDesign) -> list[Finding]:
    """Judge what depth, lateral and frog adjusters reach."""
    m = d.mechanism
    sine = sin(radians(d.spec.bed.angle))
    back, out = BLADE_TRAVEL * sine, min(BLADE_TRAVEL, m.chipbreaker.setback) * sine
    tilt = min(
        lateral_angle_limit(m.blade, d.body.inside_half, m.stations),
        degrees(asin(min(1.0, (d.body.mouth_half_width - m.blade.width / 2) / m.lever_cap.nose_at))),
    )
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
            "raise chipbreaker.setback",
        ),
        Finding(
            "A02",
            "hardware",
            "lateral adjustment",
            judge(tilt >= 0.5, tilt >= 0.25),
            f"±{tilt:.2f} deg",
            "±0.5 deg",
            "an edge honed a little out of square must still be set level",
            COMMON_PRACTICE,
            "raise body.mouth_side_clearance or narrow blade.width",
        ),
        Finding(
            "A03",
            "frog",
            "frog travel along the sole",
            judge(travel >= min(d.spec.body.mouth_opening, TRAVEL)),
            f"±{travel:g} mm; {WALL_RELIEF:g} mm aft of the wall at most",
            "the mouth opening, to close it fully",
            "the frog moves ahead to close the mouth",
            COMMON_PRACTICE,
            "raise frog.travel",
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
            "lengthen blade.length",
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
            f"lower blade.slot_from_edge by {max(0.0, 0.5 - room):.1f} mm",
        ),
    ]
