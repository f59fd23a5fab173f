"""What is bought or made alike: the lengths screws are sold in, and nuts of one size. Lengths mm."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from parts.hardware.size import Rod
from shared.units import MM_PER_IN

METRIC_LENGTHS = (5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80)  # mm; common practice, no source


def nuts(rods: list[Rod]) -> list[tuple[str, list[Rod]]]:
    """Return the nuts to make, each with the rods it is for: nuts of one size are one part."""
    found: dict[tuple[str, float, float], list[Rod]] = {}
    for rod in rods:
        found.setdefault((rod.thread.name, rod.nut_diameter, rod.nut_height), []).append(rod)
    return [("rod nut" if len(alike) > 1 else f"{alike[0].name} nut", alike) for alike in found.values()]


def standard_length(length: float, system: str) -> str:
    """Return the next length that screws are sold in: eighths of an inch, from 1 in on quarters, or millimetres.

    Args:
        length: under the head [mm].
        system: "inch" or "mm".

    Source: common practice, no source.
    """
    if system != "inch":
        sold = next((v for v in METRIC_LENGTHS if v >= length - 1e-6), 10 * ceil(length / 10 - 1e-6))
        return f"{sold:g} mm"
    step = Fraction(1, 8) if length <= MM_PER_IN + 1e-6 else Fraction(1, 4)
    sold_in = step * ceil(length / MM_PER_IN / float(step) - 1e-6)
    whole, rest = divmod(sold_in, 1)
    return " ".join([*([str(whole)] if whole else []), *([str(rest)] if rest else []), "in"])
