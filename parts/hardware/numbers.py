"""The small parts' derived numbers: what to buy or turn, how deep each thread holds, what the adjusters do."""

from __future__ import annotations

from typing import Any

from parts.hardware.seating import Seating, Setting, blade_turn, depth_per_turn, yoke_swing
from parts.hardware.size import HardwareSize, Rod, Screw
from shared.numbers import PROPORTION, Numbers
from shared.threads import Thread

THREAD_SOURCE = "thread tables ISO 261, ASME B1.1 (memory); tap drill = major - pitch, common practice, no source"
LEVER_SWING = 8.0  # of the lateral lever, each way, that the recess is made for [deg]


def parts_list(size: HardwareSize, seating: Seating) -> list[dict[str, Any]]:
    """Return one row for each kind of small part [mm]."""
    hold = size.holddown
    in_frog = hold.washer_thickness + seating.holddown_seat_z - seating.holddown_pad_z
    steel = seating.blade_thickness
    rows = [
        _screw(hold, len(seating.holddown), hold.length - in_frog, "body"),
        _screw(size.cap_screw, 1, size.cap_screw.length - steel - seating.cap_head_q, "frog"),
        _screw(
            size.chipbreaker_screw, 1, size.chipbreaker_screw.length - steel - seating.chipbreaker_mouth, "chipbreaker"
        ),
        _rod(size.tote_rod, seating.tote_rod.engaged),
        _rod(size.knob_rod, seating.knob_rod.engaged),
    ]
    if size.toe_screw is not None and seating.toe_screw is not None:
        rows.append(_screw(size.toe_screw, 1, seating.toe_screw.engaged, "body"))
    d, v = size.depth, size.lateral
    post = _row("depth post", 1, d.thread, d.post_to - d.post_from, d.post_engaged, "frog")
    return [
        *rows,
        post,
        {"name": "depth wheel", "count": 1, "thread": d.thread.name, "diameter_mm": d.wheel_diameter,
         "length_mm": d.wheel_thickness, "tap_drill_mm": _mm(d.thread.tap_drill)},
        {"name": "yoke", "count": 1, "length_mm": _mm(d.upper_arm + d.lower_arm), "width_mm": 2 * d.fork_outside},
        {"name": "yoke pin", "count": 1, "diameter_mm": d.pivot_pin, "length_mm": d.pin_to - d.pin_from},
        {"name": "lateral lever", "count": 1, "length_mm": _mm(v.tab_at + v.thickness - v.start),
         "width_mm": v.tab_width, "thickness_mm": v.thickness},
        {"name": "lateral lever pin", "count": 1, "diameter_mm": v.pin, "length_mm": _mm(v.pin_length)},
        {"name": "lateral roller", "count": 1, "diameter_mm": v.roller_diameter, "length_mm": _mm(v.roller_height)},
        {"name": "lateral roller pin", "count": 1, "diameter_mm": v.pin,
         "length_mm": _mm(v.thickness + v.roller_height)},
    ]  # fmt: skip


def _mm(value: float) -> float:
    return round(value, 3)


def _row(name: str, count: int, thread: Thread, length: float, engaged: float, into: str) -> dict[str, Any]:
    return {
        "name": name,
        "count": count,
        "thread": thread.name,
        "length_mm": _mm(length),
        "into": into,
        "engagement_mm": _mm(engaged),
        "engagement_diameters": round(engaged / thread.major, 2),
        "tap_drill_mm": _mm(thread.tap_drill),
    }


def _screw(part: Screw, count: int, engaged: float, into: str) -> dict[str, Any]:
    row = _row(part.name, count, part.thread, part.length, engaged, into)
    row["head_diameter_mm"] = _mm(part.head_diameter)
    return row | ({"washer_diameter_mm": _mm(part.washer_diameter)} if part.washer_diameter else {})


def _rod(part: Rod, engaged: float) -> dict[str, Any]:
    row = _row(part.name, 1, part.thread, part.length, engaged, "body")
    return row | {"nut_diameter_mm": part.nut_diameter, "nut_height_mm": part.nut_height}


def hardware_numbers(size: HardwareSize, seating: Seating) -> Numbers:
    """Return the small parts' numbers; `parts` is the list to buy or turn by."""
    n = Numbers("hardware")
    d, rows = size.depth, parts_list(size, seating)
    n.add("parts", rows, "every bought or turned part: thread, length, engagement, tap drill",
          "lengths from the stations they join; engagement = thread in metal", source=THREAD_SOURCE)  # fmt: skip
    n.add("tote_rod_length_mm", size.tote_rod.length, "tote rod over all",
          "thread in the metal - boss + tote along the rod - nut's counterbore + what stands in the nut")  # fmt: skip
    n.add("knob_rod_length_mm", size.knob_rod.length, "knob rod over all",
          "thread in the metal - boss + knob - nut's counterbore + what stands in the nut")  # fmt: skip
    screwed = [r["engagement_diameters"] for r in rows if r.get("into") in ("body", "frog")]
    n.add("least_engagement_diameters", min(screwed), "shortest thread in a casting over its diameter",
          "engagement / major diameter, the least of all")  # fmt: skip
    n.add("depth_lead_mm", d.thread.pitch, "depth wheel's way per turn", "pitch of a single thread",
          {"thread": d.thread.name}, THREAD_SOURCE)  # fmt: skip
    n.add("depth_ratio", d.ratio, "blade's way over the wheel's", "upper arm of the yoke / lower arm",
          {"upper_mm": d.upper_arm, "lower_mm": d.lower_arm})  # fmt: skip
    n.add("depth_per_turn_mm", depth_per_turn(size, seating.bed_angle), "depth of cut per turn of the wheel",
          "lead * ratio * sin(bed)",
          {"lead_mm": d.thread.pitch, "ratio": d.ratio, "bed_deg": seating.bed_angle})  # fmt: skip
    swing = yoke_swing(size, Setting(blade_travel=1.0))
    n.add("yoke_swing_deg", swing, "swing of the yoke for 1 mm of blade travel", "asin(1 mm / upper arm)",
          {"upper_mm": d.upper_arm})  # fmt: skip
    groove, window = d.groove - d.yoke_thickness, d.window - d.tip_diameter
    n.add("depth_backlash_turns", (groove + window / d.ratio) / d.thread.pitch,
          "turn of the wheel lost when its direction changes, the thread's own play not counted",
          "(play in the groove + play in the window / ratio) / lead",
          {"groove_mm": groove, "window_mm": window, "ratio": d.ratio, "lead_mm": d.thread.pitch},
          PROPORTION)  # fmt: skip
    turn = blade_turn(size, seating, Setting(lateral=LEVER_SWING))
    v = size.lateral
    n.add("lateral_blade_turn_deg", turn, f"turn of the blade for {LEVER_SWING:g} deg of the lateral lever",
          "asin((roller - pivot) * sin(lever) / (roller - cap screw))",
          {"roller": v.roller_at, "pivot": v.pivot_at, "cap_screw": seating.cap_screw_at})  # fmt: skip
    return n
