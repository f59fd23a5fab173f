"""Every design rule that arithmetic can judge, all collected. Coded by subject: E edge, M mouth, F frog and bedding,
B body, C casting, A adjusters, H hands.
"""

from __future__ import annotations

from math import asin, cos, degrees, radians, sin, tan

from parts.blade.angles import edge_angles
from parts.blade.bedding import bevel_heel, edge_deflection, unsupported_length
from parts.blade.temper import choose_temper
from parts.body.limits import check_limits
from parts.handle.hand import largest_hand, share_of_hands
from parts.plane.design import Design
from parts.plane.mechanism import TRAVEL, lateral_angle_limit
from parts.plane.placing import KNUCKLE_CLEARANCE, WOOD_CLEARANCE
from parts.plane.stations import BLADE_TRAVEL, FLOOR_LEFT, WALL_RELIEF
from parts.plane.wood import wood_findings
from shared.errors import GeometryError, PlanewrightError
from shared.findings import Finding, judge
from shared.numbers import COMMON_PRACTICE, GEOMETRY
from shared.units import both_units

STEEL_E = 205000.0  # MPa, tool steel


def _buildable(d: Design) -> Finding:
    reason = ""
    try:
        check_limits(d.body)
    except GeometryError as err:
        reason = str(err)
    return Finding(
        "B06",
        "body",
        "walls and radii leave room for the model",
        judge(not reason),
        reason or "all do",
        "every radius, wall and boss has its room",
        "a casting with radii that run into each other can be neither modelled nor moulded",
        GEOMETRY,
        "widen body.width, thicken body.cheek_thickness, or lower body.root_radius and body.corner_radius",
    )


def check_design(d: Design) -> list[Finding]:
    """Return every finding about a plane, in order of code."""
    return [*_edge(d), *_mouth(d), *_bedding(d), *_body(d), *_casting(d), _buildable(d), *_adjusters(d), *_hands(d), *wood_findings(d)]


def _mm(d: Design, value: float) -> str:
    return both_units(value, d.spec.units)


def _edge(d: Design) -> list[Finding]:
    blade, bed = d.mechanism.blade, d.spec.bed.angle
    a = edge_angles("bevel-down", bed, blade.honed_bevel, blade.back_bevel, blade.skew)
    key = "blade.micro_bevel" if blade.micro_bevel is not None else "blade.bevel"
    found = [
        Finding(
            "E01",
            "blade",
            "clearance angle",
            judge(a.clearance >= 10.0, a.clearance > 5.0),
            f"{a.clearance:.1f} deg",
            "10 deg or more; 5 deg at the very least",
            "a wear bevel soon lifts an edge with little clearance off the wood",
            "Kato and Kawai's film condition and sharpening guides: 10 deg; no published hard minimum",
            f"lower {key} by {10.0 - a.clearance:.1f} deg, or raise bed.angle as much",
        ),
        Finding(
            "E02",
            "blade",
            "wedge angle of the steel",
            judge(a.wedge >= 25.0, a.wedge >= 20.0),
            f"{a.wedge:.1f} deg",
            "25 deg or more; 20 deg at the very least",
            "a thinner wedge chips and folds in hardwood",
            COMMON_PRACTICE,
            f"raise {key} by {25.0 - a.wedge:.1f} deg",
        ),
    ]
    try:
        choice = choose_temper(d.spec.blade.steel, d.spec.blade.hardness)
        found.append(
            Finding(
                "E03",
                "blade",
                "hardness within reach of the steel",
                "passed",
                f"{d.spec.blade.hardness:g} HRC, tempered at {choice.temperature_c:.0f} °C",
                "on the steel's temper curve",
                "the curve has the asked hardness",
                "steel table",
            )
        )
    except PlanewrightError as err:
        found.append(
            Finding(
                "E03",
                "blade",
                "hardness within reach of the steel",
                "failed",
                f"{d.spec.blade.hardness:g} HRC",
                "on the steel's temper curve",
                str(err),
                "steel table",
                "change blade.hardness or blade.steel",
            )
        )
    return found


def _nose_gap(d: Design) -> float:
    """Return the least gap between the mouth's front wall and chipbreaker or lever cap [mm], square to the wall."""
    m, b = d.mechanism, radians(d.spec.bed.angle)
    c, f = m.chipbreaker, radians(d.body.mouth_front_angle)
    tip = (c.setback + c.thickness / tan(radians(c.edge_angle)), c.thickness)
    points = [(c.setback, 0.0), tip, (c.hump_at, c.hump_top), (m.lever_cap.nose_at - 4.0, c.hump_top + 2.0)]
    gaps = []
    for s, q in points:
        x, z = s * cos(b) - q * sin(b), s * sin(b) + q * cos(b)
        if z <= d.body.sole:
            gaps.append((x + d.body.mouth_opening) * sin(f) + z * cos(f))
        else:
            gaps.append(x + d.body.mouth_opening + d.body.sole / tan(f))
    return min(gaps)


def _mouth(d: Design) -> list[Finding]:
    body, spec = d.body, d.spec
    gap = _nose_gap(d)
    clearance = body.mouth_half_width - spec.blade.width / 2
    setback, opening = spec.chipbreaker.setback, spec.body.mouth_opening
    return [
        Finding(
            "M01",
            "body",
            "mouth opening",
            judge(0.1 <= opening <= 1.5, opening <= 2.5),
            _mm(d, opening),
            "0.1 to 1.5 mm",
            "a shaving must pass, and a wide mouth no longer holds the wood down",
            COMMON_PRACTICE,
            "change body.mouth_opening",
        ),
        Finding(
            "M02",
            "body",
            "chip room between chipbreaker and front wall",
            judge(gap >= opening * 0.7, gap > 0.0),
            _mm(d, gap),
            f"at least 0.7 of the mouth opening ({_mm(d, 0.7 * opening)})",
            "the throat must not be narrower than the mouth, or chips jam",
            COMMON_PRACTICE,
            "lower body.mouth_front_angle, raise chipbreaker.setback or thin chipbreaker.thickness",
        ),
        Finding(
            "M03",
            "body",
            "mouth wider than the blade, each side",
            judge(clearance >= 0.5, clearance >= 0.3),
            _mm(d, clearance),
            "0.5 mm or more",
            "the blade must tilt and the corners must not bind",
            COMMON_PRACTICE,
            "raise body.mouth_side_clearance",
        ),
        Finding(
            "M04",
            "chipbreaker",
            "setback over a smoothing shaving",
            judge(0.1 <= setback <= 1.5, setback > 0.05),
            _mm(d, setback),
            "0.1 to 1.5 mm",
            "the setback must exceed the shaving's thickness",
            "controlled trials on setback: 0.1 to 0.8 mm; the upper limit is common practice, no source",
            "change chipbreaker.setback",
        ),
    ]


def _bedding(d: Design) -> list[Finding]:
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
            _mm(d, u),
            f"6 blade thicknesses ({_mm(d, 6 * blade.thickness)})",
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
            _mm(d, room),
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
            _mm(d, -washer),
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
            _mm(d, nose),
            "1 mm or more above the bed's foot",
            "pressure ahead of the bed bends the blade down",
            GEOMETRY,
        ),
    ]


def _body(d: Design) -> list[Finding]:
    b = d.body
    share = -b.toe_x / b.length
    holes = [*b.holddown, b.knob_boss.hole, b.tote_boss.hole, *([b.toe_boss.hole] if b.toe_boss else [])]
    floor = min(h.z_top - h.depth * cos(radians(h.lean)) for h in holes)
    major = d.mechanism.stations.threads["medium"].major
    pitch = d.mechanism.stations.threads["medium"].pitch
    engaged = min((h.depth - pitch) / major for h in (b.knob_boss.hole, b.tote_boss.hole, *b.holddown))
    slot_wall = b.inside_half - b.mouth_half_width
    return [
        Finding(
            "B01",
            "body",
            "metal under tapped holes",
            judge(floor >= FLOOR_LEFT - 1e-6),
            _mm(d, floor),
            _mm(d, FLOOR_LEFT),
            "nothing but the mouth may break the sole",
            COMMON_PRACTICE,
            "thicken body.sole_thickness",
        ),
        Finding(
            "B02",
            "body",
            "thread engaged, in diameters",
            judge(engaged >= 1.0, engaged >= 0.8),
            f"{engaged:.2f} d",
            "1 to 1.5 d in iron",
            "a shorter thread strips",
            COMMON_PRACTICE,
            "thicken body.sole_thickness",
        ),
        Finding(
            "B03",
            "body",
            "mouth ahead of the middle",
            judge(0.22 <= share <= 0.42, 0.18 <= share <= 0.5),
            f"{100 * share:.0f} % of the length from the toe",
            "22 to 42 %",
            "too little toe tips over edges, too much starves the heel",
            COMMON_PRACTICE,
            "change body.mouth_from_toe",
        ),
        Finding(
            "B04",
            "body",
            "mouth clear of the cheeks",
            judge(slot_wall >= 0.2),
            _mm(d, slot_wall),
            "0.2 mm or more",
            "the slot may not cut into the cheek",
            GEOMETRY,
            "widen body.width or narrow blade.width",
        ),
        Finding(
            "B05",
            "body",
            "low rails under the cheeks",
            judge(b.rail_height >= b.sole + 3.0),
            _mm(d, b.rail_height),
            f"sole + 3 mm ({_mm(d, b.sole + 3.0)})",
            "the rails stiffen toe and heel",
            COMMON_PRACTICE,
            "raise body.rail_height",
        ),
    ]


def _casting(d: Design) -> list[Finding]:
    b, least = d.body, d.body_alloy.minimum_wall_mm
    easy = d.body_alloy.comfortable_wall_mm
    cheek_raw = b.cheek + b.cast.side
    height = b.cheek_height - b.sole
    gap = 2 * b.inside_half
    return [
        Finding(
            "C01",
            "body",
            "cheek as cast",
            judge(cheek_raw >= easy, cheek_raw >= least),
            _mm(d, cheek_raw),
            f"{easy:g} mm runs easily, {least:g} mm at least",
            "thinner walls do not fill, or chill hard",
            d.body_alloy.source_of("minimum_wall_mm"),
            "thicken body.cheek_thickness",
        ),
        Finding(
            "C02",
            "body",
            "sole as cast",
            judge(b.sole + b.cast.sole >= easy, b.sole + b.cast.sole >= least),
            _mm(d, b.sole + b.cast.sole),
            f"{easy:g} mm runs easily, {least:g} mm at least",
            "thinner walls do not fill, or chill hard",
            d.body_alloy.source_of("minimum_wall_mm"),
            "thicken body.sole_thickness",
        ),
        Finding(
            "C03",
            "body",
            "inside radii fit between the cheeks",
            judge(2 * b.root_radius < gap - 0.2),
            _mm(d, b.root_radius),
            f"less than {_mm(d, gap / 2 - 0.1)}",
            "two radii may never meet exactly",
            GEOMETRY,
            "lower body.root_radius",
        ),
        Finding(
            "C04",
            "body",
            "sand between the cheeks",
            judge(gap >= 0.6 * height, gap >= 0.4 * height),
            _mm(d, gap),
            f"0.6 of the depth ({_mm(d, 0.6 * height)})",
            "a deep narrow pocket of green sand tears when drawn",
            COMMON_PRACTICE,
            "widen body.width or lower body.cheek_height",
        ),
        Finding(
            "C05",
            "body",
            "spread of contraction within the stock",
            judge(0.5 * (d.body_alloy.contraction_high - d.body_alloy.contraction_low) * b.length / 2 <= b.cast.end),
            _mm(d, 0.5 * (d.body_alloy.contraction_high - d.body_alloy.contraction_low) * b.length / 2),
            f"stock at each end ({_mm(d, b.cast.end)})",
            "a casting that shrinks more than reckoned must still clean up",
            d.body_alloy.source_of("contraction"),
            "measure a first article and set the shop's own contraction",
        ),
    ]


def _adjusters(d: Design) -> list[Finding]:
    m = d.mechanism
    sine = sin(radians(d.spec.bed.angle))
    back, out = BLADE_TRAVEL * sine, min(BLADE_TRAVEL, m.chipbreaker.setback) * sine
    tilt = min(
        lateral_angle_limit(m.blade, d.body.inside_half, m.stations),
        degrees(asin(min(1.0, (d.body.mouth_half_width - m.blade.width / 2) / m.lever_cap.nose_at))),
    )
    travel = m.frog.travel
    slot = m.blade.slot_high - m.stations.screw_at
    wear = m.stations.cap_screw_at - m.cap_screw.head_diameter / 2 - BLADE_TRAVEL - m.blade.slot_low
    return [
        Finding(
            "A01",
            "hardware",
            "edge drawn back above the sole",
            judge(back >= 0.8),
            _mm(d, back),
            "0.8 mm",
            "the edge must retract fully",
            COMMON_PRACTICE,
        ),
        Finding(
            "A06",
            "hardware",
            "deepest cut before the chipbreaker meets the sole",
            judge(out >= 0.1, out >= 0.05),
            _mm(d, out),
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
            _mm(d, slot),
            "25 mm of life",
            "as the blade wears the screw nears the slot's upper end",
            GEOMETRY,
            "lengthen blade.length",
        ),
        Finding(
            "A05",
            "blade",
            "slot's lower end below the lever-cap screw",
            judge(wear >= -8.0),
            _mm(d, wear),
            "the eye passes the screw's head",
            "a new blade must lift off over the screw",
            GEOMETRY,
            "lower blade.slot_from_edge",
        ),
    ]


def _hands(d: Design) -> list[Finding]:
    spec, place, tote = d.spec, d.tote_at, d.tote
    c = place.clearance
    breadth = largest_hand(tote.grip, 3)
    share = share_of_hands(breadth, spec.handle.hand)
    frog_gap = place.x + tote.foot_front_x - d.mechanism.stations.frog_aft - d.mechanism.frog.travel
    return [
        Finding(
            "H01",
            "handle",
            "knuckles clear blade, levers and wheel",
            judge(c >= KNUCKLE_CLEARANCE - 1e-6, c >= 0.0),
            _mm(d, c),
            _mm(d, KNUCKLE_CLEARANCE),
            f"the hand is three fingers on the tote, the forefinger along the blade; {place.decided_by}",
            COMMON_PRACTICE,
            f"lengthen body.length or shorten body.mouth_from_toe by {max(0.0, KNUCKLE_CLEARANCE - c):.1f} mm",
        ),
        Finding(
            "H04",
            "handle",
            "tote clears blade and levers",
            judge(place.wood_clearance >= WOOD_CLEARANCE - 1e-6, place.wood_clearance >= 1.5),
            _mm(d, place.wood_clearance),
            _mm(d, WOOD_CLEARANCE),
            f"the blade's upper end stands over the tote; {place.decided_by}",
            COMMON_PRACTICE,
            f"lengthen body.length, shorten body.mouth_from_toe or lower handle.grip by "
            f"{max(0.0, WOOD_CLEARANCE - place.wood_clearance):.1f} mm",
        ),
        Finding(
            "H02",
            "handle",
            "tote's toe clears the frog",
            judge(frog_gap >= 1.0, frog_gap >= 0.0),
            _mm(d, frog_gap),
            "1 mm",
            "the frog must slide and lift out with the tote in place",
            GEOMETRY,
            "lengthen body.length or shorten handle.toe_reach",
        ),
        Finding(
            "H03",
            "handle",
            "hands that the grip clears",
            judge(share >= 0.5, share >= 0.25),
            f"{breadth:.0f} mm hand breadth with three fingers, {100 * share:.0f} % of {spec.handle.hand}",
            "half of them or more",
            "the tote is gripped by three fingers, the forefinger lies forward",
            "ANSUR II hand breadths; clearance common practice, no source",
            "raise handle.grip",
        ),
    ]
