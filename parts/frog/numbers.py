"""The frog's derived numbers. Arithmetic only."""

from __future__ import annotations

from math import cos, radians, sin

from parts.frog.outline import (
    SPOT_DIAMETER,
    cast_offset,
    casting_outline,
    crown,
    finished_outline,
    opening_to_hollow,
    pocket_outline,
    yoke_pin_wall,
)
from parts.frog.size import FrogSize
from shared.numbers import COMMON_PRACTICE, PROPORTION, Numbers


def frog_numbers(size: FrogSize) -> Numbers:
    """Return the frog's numbers.

    Raises:
        GeometryError: a casting radius finds no room.
    """
    n = Numbers("frog")
    _bed(n, size)
    _seats(n, size)
    _holes(n, size)
    _casting(n, size)
    return n


def _bed(n: Numbers, size: FrogSize) -> None:
    low, high = size.relief
    n.add("bed_length_mm", size.bed_top - size.bed_foot, "bed along the slope, foot to top",
          "top station - foot station", {"top": size.bed_top, "foot": size.bed_foot})  # fmt: skip
    n.add("bed_width_mm", 2 * size.half_width, "bed face across", "2 * half width", {"half_width": size.half_width},
          PROPORTION)  # fmt: skip
    n.add("bed_low_land_mm", low - size.bed_foot, "lower land that carries the blade, along the slope",
          "relief start - foot station", {"relief_start": low, "foot": size.bed_foot}, PROPORTION)  # fmt: skip
    n.add("bed_high_land_mm", size.bed_top - high, "upper land, along the slope", "top station - relief end",
          {"top": size.bed_top, "relief_end": high}, PROPORTION)  # fmt: skip
    n.add("bed_relief_depth_mm", size.relief_depth, "relief between the lands", "set", {}, COMMON_PRACTICE)


def _seats(n: Numbers, size: FrogSize) -> None:
    foot = size.bed_point(size.bed_foot)[0]
    n.add("low_seat_height_mm", size.low_z, "low seat above the sole", "sole + low pad", {}, PROPORTION)
    n.add("high_seat_height_mm", size.high_z, "high seat above the sole",
          "the larger of sole + 6 mm and what a full thread over an unbroken floor needs", {}, PROPORTION)  # fmt: skip
    n.add("low_seat_length_mm", size.high_from - foot, "low seat along the sole", "step - foot of the bed",
          {"step_mm": size.high_from, "foot_mm": foot})  # fmt: skip
    n.add("high_seat_length_mm", size.aft - size.high_from, "high seat along the sole", "aft end - step",
          {"aft_mm": size.aft, "step_mm": size.high_from})  # fmt: skip
    n.add("way_width_mm", 2 * size.key_half, "way over the body's key", "key + clearance", {}, PROPORTION)
    n.add("way_depth_mm", size.key_depth, "depth of the way above the high seat", "set", {}, PROPORTION)
    n.add("travel_mm", size.travel, "adjustment along the sole, each way", "set or default", {}, PROPORTION)
    n.add("reach_mm", size.aft - foot, "foot of the bed to the aft end", "aft end - foot of the bed",
          {"aft_mm": size.aft, "foot_mm": foot})  # fmt: skip


def _holes(n: Numbers, size: FrogSize) -> None:
    length, width = size.holddown_slot
    n.add("holddown_slot_length_mm", length, "hold-down slot over its round ends", "2 * travel + clearance hole",
          {"travel_mm": size.travel, "hole_mm": width})  # fmt: skip
    n.add("holddown_slot_width_mm", width, "hold-down slot across", "clearance hole of the screw", {}, COMMON_PRACTICE)
    n.add("holddown_opening_mm", size.access[1], "opening over each hold-down screw, across",
          "washer + clearance on both sides", {}, PROPORTION)  # fmt: skip
    beside = size.half_width - size.holddown_y - size.access[1] / 2
    n.add("holddown_opening_to_side_mm", beside, "bed left outside the openings",
          "half width - screw's y - opening / 2",
          {"half_width": size.half_width, "y": size.holddown_y, "opening": size.access[1]})  # fmt: skip
    n.add("holddown_opening_to_hollow_mm", opening_to_hollow(size),
          "metal between each opening and the hollow below the bed plate, at the opening's aft end",
          "foremost x of the cast hollow - (screw's x + opening's length / 2)",
          {"screw_mm": size.holddown_at, "opening_mm": size.access[0], "root_radius_mm": size.root_radius})  # fmt: skip
    n.add("yoke_pin_wall_mm", yoke_pin_wall(size), "metal between the yoke's pin hole and the underside, at the side",
          "bed plate - draft's share - pivot's depth - pin / 2",
          {"plate_mm": size.bed_plate, "pivot_mm": size.yoke_pivot_h, "pin_mm": size.yoke_pin})  # fmt: skip
    b = radians(size.bed_angle)
    bottom = size.post_h + size.post_tap_drill / 2
    z = -(size.blade_thickness + bottom) * cos(b) + (size.rear_at - size.post_tap_depth) * sin(b)
    n.add("post_hole_to_way_mm", z - size.high_z - size.key_depth, "metal between the depth post's hole and the way",
          "lowest point of the hole's full drill - high seat - way depth",
          {"lowest_mm": z, "high_seat_mm": size.high_z, "way_mm": size.key_depth})  # fmt: skip


def _casting(n: Numbers, size: FrogSize) -> None:
    tan_draft = {"half_width": size.half_width, "draft_deg": size.draft}
    n.add("stock_mm", size.stock, "stock on each machined face at the frog's sides", "RMA + CT / 2",
          {"required_mm": size.required}, "ISO 8062")  # fmt: skip
    n.add("draft_deg", size.draft, "draft of every wall along the draw, from the middle plane", "set", {},
          COMMON_PRACTICE)  # fmt: skip
    n.add("draft_crown_mm", crown(size), "what the draft adds at the parting plane", "half width * tan(draft)",
          tan_draft)  # fmt: skip
    n.add("stock_at_parting_mm", cast_offset(size, "bed"), "stock on a machined face at the parting plane",
          "stock + crown", {"stock_mm": size.stock, "crown_mm": crown(size)})  # fmt: skip
    n.add("spot_face_mm", SPOT_DIAMETER, "spot face round the depth post", "set", {}, PROPORTION)
    outline, finished = casting_outline(size), finished_outline(size)
    n.add("side_area_mm2", finished.area, "finished side outline, pockets not counted",
          "area inside the outline at the middle plane")  # fmt: skip
    n.add("casting_side_area_mm2", outline.area, "casting's outline at the parting plane",
          "area inside the outline")  # fmt: skip
    x0, z0, x1, z1 = outline.bounds
    n.add("casting_length_mm", x1 - x0, "casting along the plane", "extent of the outline at the parting plane")
    n.add("casting_height_mm", z1 - z0, "casting's height", "extent of the outline at the parting plane")
    pocket = pocket_outline(size)
    n.add("side_pocket_area_mm2", pocket.area if pocket is not None else 0.0,
          "mouth of each side pocket; 0 where the walls leave no room for one",
          "what bed wall, floor and rear wall leave, with round corners")  # fmt: skip
    n.add("web_mm", 2 * size.web_half, "middle web between the pockets", "set", {}, PROPORTION)
