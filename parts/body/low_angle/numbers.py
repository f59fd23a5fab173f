"""The low-angle body's numbers that arithmetic alone gives."""

from __future__ import annotations

from math import cos, degrees, radians, sin, tan

from parts.body.low_angle.block import piece_toe, throat
from parts.body.low_angle.floor import sides
from parts.body.low_angle.size import LowBodySize, ToeWay
from parts.body.low_angle.spec import FEATHER_LEAST, LowBodySpec
from parts.body.numbers import trough_numbers
from parts.body.room import hole_floor
from shared.casting.alloy import Alloy
from shared.casting.contraction import Contraction
from shared.numbers import COMMON_PRACTICE, GEOMETRY, PROPORTION, Numbers


def bed_cutter(size: LowBodySize) -> float:
    """Return the largest end mill [mm] that leaves no corner of the front land beside the mouth.

    Its axis is square to the bed. It runs out ahead past the land's end until it meets the sole face or, higher up,
    the wall ahead of the mouth; that run must be its radius.
    """
    b = radians(size.bed_angle)
    start = size.feather / sin(b)
    high = size.sole / cos(b)
    foremost = max(0.0, (throat(size, size.sole) + high * sin(b)) / cos(b))
    return 2 * max(0.0, start - foremost)


def low_body_numbers(
    spec: LowBodySpec, size: LowBodySize, metal: Alloy, contraction: Contraction, master: Contraction | None
) -> Numbers:
    """Return the body's numbers.

    Args:
        spec: the body section.
        size: the resolved body.
        metal: its alloy.
        contraction: of that alloy.
        master: contraction of the pattern metal, when working patterns are cast.
    """
    high = size.bed_z(size.bridge.x1)
    n = trough_numbers(spec, size, metal, contraction, master, "the bed", high)
    b = size.bed_angle
    n.add("feather_mm", size.feather, "metal left at the bed's lower end, behind the mouth",
          "height of the upright land at the mouth's aft wall", source=GEOMETRY)  # fmt: skip
    n.add("feather_least_mm", FEATHER_LEAST, "thinnest feather that neither chips nor burrs", "stated limit",
          source=COMMON_PRACTICE)  # fmt: skip
    n.add("bed_from_mm", size.bed_from, "where the bed begins, aft of the edge", "feather / tan(bed)",
          {"feather_mm": size.feather, "bed_deg": b})  # fmt: skip
    n.add("front_land_mm", size.front_land, "front land along the bed", "(ramp's end − bed's begin) / cos(bed)",
          {"ramp_to_mm": size.ramp_to, "bed_from_mm": size.bed_from, "bed_deg": b}, PROPORTION)  # fmt: skip
    n.add("aft_land_mm", size.aft_land, "aft land along the bed, on the bridge", "(x1 − x0) / cos(bed)",
          {"x0_mm": size.bridge.x0, "x1_mm": size.bridge.x1, "bed_deg": b})  # fmt: skip
    n.add("relief_mm", (size.bridge.x0 - size.ramp_to) / cos(radians(b)), "hollow between the lands, along the bed",
          "(bridge's begin − ramp's end) / cos(bed)",
          {"x0_mm": size.bridge.x0, "ramp_to_mm": size.ramp_to, "bed_deg": b})  # fmt: skip
    n.add("bed_cutter_mm", bed_cutter(size), "largest end mill that leaves no corner beside the mouth",
          "2·(feather / sin(bed) − where it meets sole or front wall)",
          {"feather_mm": size.feather, "bed_deg": b, "front_deg": size.mouth_front_angle})  # fmt: skip
    n.add("bridge_height_mm", high, "bridge above the sole face, at its aft end", "x·tan(bed)",
          {"x_mm": size.bridge.x1, "bed_deg": b})  # fmt: skip
    n.add("bridge_side_deg", min(s.angle for s in sides(size)), "flattest side of land and bridge to the sole",
          "as steep as the draft, flatter where radii need room", {"draft_deg": size.cast.draft_inside})  # fmt: skip
    n.add("stud_hole_mm", size.stud.depth, "depth of the lever-cap stud's hole, square to the bed",
          "down to the floor over the sole face",
          {"floor_mm": hole_floor(size.stud), "thread": size.stud.thread}, PROPORTION)  # fmt: skip
    if size.grip is not None:
        n.add("grip_hollow_mm", size.grip.depth, "depth of the hollows for thumb and finger",
              "what leaves the cheek its least thickness, 1.2 mm at most",
              {"length_mm": size.grip.length, "height_mm": size.grip.height}, PROPORTION)  # fmt: skip
    if size.toe_way is not None:
        _toe_numbers(n, size, size.toe_way)
    return n


def _toe_numbers(n: Numbers, size: LowBodySize, way: ToeWay) -> None:
    half = size.mouth_half_width
    n.add("mouth_least_mm", way.opening_least, "mouth with the toe piece right aft", "set by the way's end",
          source=PROPORTION)  # fmt: skip
    n.add("mouth_most_mm", way.opening_most, "mouth with the toe piece right ahead", "body.toe_piece.opening_most",
          source=PROPORTION)  # fmt: skip
    n.add("toe_piece_travel_mm", way.travel, "travel of the toe piece", "most − least")
    n.add("toe_piece_length_mm", -size.mouth_opening - piece_toe(size, way, size.mouth_opening),
          "toe piece along the sole", "pocket less travel and clearance at its toe end",
          {"pocket_mm": -way.toe_end, "travel_mm": way.travel, "end_clearance_mm": way.end_clearance})  # fmt: skip
    n.add("toe_piece_width_mm", 2 * (half - way.side_clearance), "toe piece across", "mouth − 2·side clearance",
          {"mouth_mm": 2 * half, "side_clearance_mm": way.side_clearance})  # fmt: skip
    n.add("ledge_height_mm", way.ledge_z, "ledges above the sole face = plate of the toe piece", "0.55 sole",
          {"sole_mm": size.sole}, PROPORTION)  # fmt: skip
    n.add("ledge_width_mm", half - way.boss_radius, "each ledge across", "half the mouth − radius of the boss's pocket",
          {"half_mouth_mm": half, "pocket_radius_mm": way.boss_radius})  # fmt: skip
    n.add("ledge_roof_mm", size.sole - way.ledge_z, "plate left over the ledges", "sole − ledge height",
          {"sole_mm": size.sole, "ledge_mm": way.ledge_z})  # fmt: skip
    n.add("block_height_mm", way.block_z, "bridge block above the sole face: the knob stands on it",
          "floor + thread + clearance + roof", {"roof_mm": way.block_z - way.boss_z}, PROPORTION)  # fmt: skip
    play = degrees(2 * way.side_clearance / (-way.toe_end))
    n.add("toe_piece_skew_deg", play, "most that the toe piece can stand askew", "2·side clearance / length",
          {"side_clearance_mm": way.side_clearance})  # fmt: skip
    n.add("throat_mm", -throat(size, way.ledge_z), "body's throat above the toe piece, ahead of the edge",
          "widest mouth + clearance + ledge / tan(front)",
          {"most_mm": way.opening_most, "lean": tan(radians(90 - size.mouth_front_angle))})  # fmt: skip
