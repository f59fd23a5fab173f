"""The chipbreaker's shape as numbers, beside the forces of its spring bend (parts.chipbreaker.spring)."""

from __future__ import annotations

from parts.chipbreaker import outline
from parts.chipbreaker.size import ChipbreakerSize
from shared.numbers import PROPORTION, Numbers


def shape_numbers(size: ChipbreakerSize) -> Numbers:
    """Return what bends, grinding and milling need to know of the shape.

    Args:
        size: resolved sizes [mm, deg].
    """
    n = Numbers("chipbreaker")
    run = size.hump_at - size.setback
    at, height = outline.bevel_top(size)
    n.add("relief_angle_deg", outline.relief_angle(size), "underside behind the leading edge, to the blade's face",
          "gap = X/2 tan a + X/2 tan(a/2), X from edge to hump", {"gap_mm": size.gap, "X_mm": run})  # fmt: skip
    n.add("relief_radius_mm", outline.relief_radius(size), "arc by which the relief runs flat at the hump",
          "X/2 / sin a", {"X_mm": run, "a_deg": outline.relief_angle(size)})  # fmt: skip
    n.add("bevel_height_mm", height, "upper end of the leading bevel over the blade's face",
          "smooth into the hump where that is higher than 1.2 mm, else 1.2 mm", {"at_mm": at}, PROPORTION)  # fmt: skip
    n.add("hump_height_mm", size.hump_top, "hump's highest line over the blade's face", "gap + thickness + rise",
          {"gap_mm": size.gap, "thickness_mm": size.thickness, "rise_mm": size.hump_rise}, PROPORTION)  # fmt: skip
    n.add("hump_radius_mm", outline.front_radius(size), "arc from the bevel to the hump's highest line",
          "(d² + h²) / (2 h)", {"d_mm": size.hump_at - at, "h_mm": size.hump_top - height})  # fmt: skip
    n.add("gap_mm", size.gap, "free gap under the spring bend", "as set", {}, PROPORTION)
    n.add("seat_length_mm", size.end - size.seat_from, "length that lies on the blade about the screw", "end - seat",
          {"end_mm": size.end, "seat_mm": size.seat_from}, PROPORTION)  # fmt: skip
    n.add("length_mm", size.end - size.setback, "leading edge to upper end", "end - setback",
          {"end_mm": size.end, "setback_mm": size.setback}, PROPORTION)  # fmt: skip
    return n
