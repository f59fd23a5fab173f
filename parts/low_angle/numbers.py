"""Numbers of lever cap and depth adjuster of a bevel-up plane. Lengths mm, angles deg, forces N, stresses MPa."""

from __future__ import annotations

from math import radians, sin
from typing import Any

from parts.low_angle import forces as f
from parts.low_angle import outline
from parts.low_angle.setting import LateralLimit
from parts.low_angle.size import AdjusterSize, LowCapSize
from shared.casting.alloy import Alloy
from shared.numbers import GEOMETRY, PROPORTION, Numbers

STATICS = "statics: moments about the stud"
SCREW = "statics of a screw; friction 0.15 from memory"


def cap_numbers(size: LowCapSize, alloy: Alloy) -> Numbers:
    """Return the lever cap's numbers; the alloy is that of the cap, for its stress."""
    n = Numbers("lever_cap")
    _forces(n, size)
    _places(n, size)
    _stress(n, size, alloy)
    return n


def _forces(n: Numbers, size: LowCapSize) -> None:
    got = f.cap_forces(size)
    a, b = size.stud.at - size.nose_at, size.clamp.at - size.stud.at
    n.add("clamp_hand_moment_n_mm", f.hand_moment(size), "moment of two fingers on the clamp's knob",
          "squeeze × knob diameter", {"squeeze_n": f.FINGER_SQUEEZE_N, "knob_mm": size.clamp.knob_diameter},
          "own estimate of a light squeeze, no source")  # fmt: skip
    n.add("clamp_force_n", got.clamp, "force of the clamp screw on the blade", "moment / (thread arm + tip's friction)",
          {"moment_n_mm": f.hand_moment(size), "arm_mm": f.clamp_arm(size)}, SCREW)  # fmt: skip
    n.add("nose_force_n", got.nose, "force of the nose on the blade behind its bevel", "clamp force × b / a",
          {"clamp_n": got.clamp, "a_mm": a, "b_mm": b}, STATICS)  # fmt: skip
    n.add("nose_line_n_per_mm", got.nose / size.width, "the same per width of the nose", "nose force / width",
          {"nose_n": got.nose, "width_mm": size.width}, STATICS)  # fmt: skip
    n.add("stud_tension_n", got.stud, "tension of the stud", "clamp force + nose force",
          {"clamp_n": got.clamp, "nose_n": got.nose}, STATICS)  # fmt: skip
    n.add("blade_push_force_n", f.push_force(size), "force that moves the blade under the tightened cap",
          "2 × friction × (clamp + nose)", {"friction": f.FRICTION}, SCREW)  # fmt: skip


def _places(n: Numbers, size: LowCapSize) -> None:
    for key, value, meaning in (
        ("nose_from_edge_mm", size.nose_at, "line the nose presses on, along the blade"),
        ("stud_from_edge_mm", size.stud.at, "stud, along the blade"),
        ("clamp_from_edge_mm", size.clamp.at, "clamp screw, along the blade"),
    ):
        n.add(key, value, meaning, "station along the bed", {}, GEOMETRY)
    n.add("height_over_bed_mm", size.knob_top_q, "highest point of the clamp's knob over the bed, square to it",
          "blade + gap + plate + knob", {"blade_mm": size.blade_top, "plate_mm": size.end_plate,
          "knob_mm": size.clamp.knob_height})  # fmt: skip
    n.add("slide_mm", size.slide, "way of the cap from the keyhole's round part to its seat, down the bed",
          "round part / 2 + 3/8 head",
          {"round_mm": size.head_pass, "head_mm": size.stud.head_diameter}, PROPORTION)  # fmt: skip
    n.add("parting_q_mm", size.underside_q, "cap's parting plane: its underside, over the bed",
          "blade + gap", {"blade_mm": size.blade_top})  # fmt: skip
    n.add("clamp_turns_to_free", 1.0 / size.clamp.thread.pitch, "turns of the knob that lift the foot by 1 mm",
          "1 mm / pitch", {"pitch_mm": size.clamp.thread.pitch})  # fmt: skip


def cap_stress(size: LowCapSize) -> float:
    """Return the bending stress of the cap beside the stud [MPa]: what head seat and keyhole leave carries it."""
    moment = f.cap_forces(size).nose * (size.stud.at - size.nose_at)
    return 6 * moment / (_width_at_stud(size) * (outline.top_at(size, size.stud.at) - size.underside_q) ** 2)


def _width_at_stud(size: LowCapSize) -> float:
    return 2 * outline.half_width_at(size, size.stud.at) - (size.stud.head_diameter + 1.4)


def _stress(n: Numbers, size: LowCapSize, alloy: Alloy) -> None:
    got = f.cap_forces(size)
    a = size.stud.at - size.nose_at
    width = _width_at_stud(size)
    depth = outline.top_at(size, size.stud.at) - size.underside_q
    stress = cap_stress(size)
    n.add("cap_stress_mpa", stress, "bending stress of the cap beside the stud", "6 F a / (b h²)",
          {"F_n": got.nose, "a_mm": a, "b_mm": width, "h_mm": depth}, "beam theory")  # fmt: skip
    which, limit = alloy.holds
    n.add("cap_stress_share", stress / limit, f"the same as a share of the alloy's {which} strength",
          f"stress / {which}", {"stress_mpa": stress, f"{which}_mpa": limit},
          alloy.source_of(f"{which}_mpa"))  # fmt: skip
    area = f.stress_area(size.stud.thread)
    n.add("stud_stress_mpa", got.stud / area, "tensile stress of the stud", "tension / stress area",
          {"tension_n": got.stud, "area_mm2": area}, "stress area of ISO 898-1 or ASME B1.1 (memory)")  # fmt: skip
    n.add("stud_engagement_diameters", size.stud.engaged / size.stud.thread.major, "stud's thread in the body",
          "engaged length / major diameter",
          {"engaged_mm": size.stud.engaged, "major_mm": size.stud.thread.major})  # fmt: skip


def adjuster_numbers(size: AdjusterSize, cap: LowCapSize, lateral: LateralLimit, bed_angle: float) -> Numbers:
    """Return the depth adjuster's numbers, and how the blade is turned; bed angle [deg]."""
    n, s = Numbers("adjuster"), sin(radians(bed_angle))
    lead = {"lead_mm": size.lead}
    n.add("lead_mm", size.lead, "wheel's and blade's way per turn", "pitch of a single thread",
          {"thread": size.thread.name}, "thread tables ISO 261, ASME B1.1 (memory)")  # fmt: skip
    n.add("depth_per_turn_mm", size.lead * s, "depth of cut per turn of the wheel", "lead × sin(bed)",
          {**lead, "bed_deg": bed_angle})  # fmt: skip
    n.add("travel_mm", size.travel, "travel of wheel and blade along the bed, each way", "as set", {}, PROPORTION)
    n.add("least_travel_left_mm", size.least_travel_left, "travel left each way at the worst state of wear",
          "travel - slot pitch / 2: beyond that the next cross slot is nearer",
          {"travel_mm": size.travel, "pitch_mm": size.slot_pitch})  # fmt: skip
    n.add("depth_range_mm", size.least_travel_left * s, "depth that the edge moves each way at the worst state of wear",
          "least travel left × sin(bed)", {"travel_mm": size.least_travel_left, "bed_deg": bed_angle})  # fmt: skip
    n.add("backlash_turns", (size.slot_width - size.flange_thickness) / size.lead,
          "turn of the wheel lost when its direction changes, the thread's own play not counted",
          "play of the flange in the cross slot / lead",
          {"slot_mm": size.slot_width, "flange_mm": size.flange_thickness, **lead})  # fmt: skip
    n.add("first_slot_from_edge_mm", size.at, "first cross slot of a new blade, and the wheel's flange as set",
          "station along the bed", {}, GEOMETRY)  # fmt: skip
    n.add("cross_slots", size.slots, "cross slots in the blade", "life / pitch + 1",
          {"life_mm": size.life, "pitch_mm": size.slot_pitch}, PROPORTION)  # fmt: skip
    n.add("life_mm", size.life, "steel that can be sharpened away before the last cross slot is reached",
          "(slots - 1) × pitch", {"slots": size.slots, "pitch_mm": size.slot_pitch})  # fmt: skip
    n.add("rim_force_n", f.rim_force(cap, size), "force at the wheel's rim that moves the blade, cap tightened",
          "push × thread arm / rim radius",
          {"push_n": f.push_force(cap), "arm_mm": f.thread_arm(size.thread), "rim_mm": size.rim_radius},
          SCREW)  # fmt: skip
    n.add("lateral_adjust_deg", lateral.degrees, "how far the blade turns each way, pushed by hand at its upper end",
          "atan of the least of (room + room) / distance, over every two of the stops, and play / chord",
          {"pivot_mm": lateral.pivot_at}, GEOMETRY, lateral.decided_by)  # fmt: skip
    n.add("lateral_pivot_from_edge_mm", lateral.pivot_at, "place on the blade that stays where it is meanwhile",
          "middle of the places that leave every room", {"angle_deg": lateral.degrees}, GEOMETRY)  # fmt: skip
    return n


def parts_list(cap: LowCapSize, size: AdjusterSize) -> list[dict[str, Any]]:
    """Return one row for each turned or bought part of cap and adjuster [mm]."""
    stud, clamp = cap.stud, cap.clamp
    thread = {"tap_drill_mm": round(stud.thread.tap_drill, 3)}
    return [
        {"name": "lever-cap stud", "count": 1, "thread": stud.thread.name, "length_mm": round(stud.length, 3),
         "into": "body", "engagement_mm": round(stud.engaged, 3),
         "engagement_diameters": round(stud.engaged / stud.thread.major, 2), **thread,
         "head_diameter_mm": stud.head_diameter},
        {"name": "clamp screw", "count": 1, "thread": clamp.thread.name, "into": "lever cap",
         "length_mm": round(cap.end_plate + clamp.knob_gap + clamp.knob_height + 1.2, 3),
         "diameter_mm": clamp.knob_diameter, "tap_drill_mm": round(clamp.thread.tap_drill, 3)},
        {"name": "clamp foot", "count": 1, "diameter_mm": clamp.foot_diameter, "length_mm": clamp.foot_thickness},
        {"name": "depth post", "count": 1, "thread": size.thread.name,
         "length_mm": round(size.post_to - size.post_from, 3), "into": "body",
         "engagement_mm": round(size.post_engaged, 3),
         "engagement_diameters": round(size.post_engaged / size.thread.major, 2),
         "tap_drill_mm": round(size.thread.tap_drill, 3)},
        {"name": "depth wheel", "count": 1, "thread": size.thread.name, "diameter_mm": round(2 * size.rim_radius, 3),
         "length_mm": round(size.rim_to - size.at + size.flange_thickness / 2, 3),
         "tap_drill_mm": round(size.thread.tap_drill, 3)},
    ]  # fmt: skip
