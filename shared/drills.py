"""Twist drills by their names: numbers and letters (ASME B94.11M, from memory), sixty-fourths of an inch, tenths of mm.

A size that no drill has goes without a name: none is called by the name of another.
"""

from __future__ import annotations

from fractions import Fraction

from shared.units import MM_PER_IN

# No. 1 to No. 30
NUMBERS_IN = (
    0.2280, 0.2210, 0.2130, 0.2090, 0.2055, 0.2040, 0.2010, 0.1990, 0.1960, 0.1935, 0.1910, 0.1890, 0.1850, 0.1820,
    0.1800, 0.1770, 0.1730, 0.1695, 0.1660, 0.1610, 0.1590, 0.1570, 0.1540, 0.1520, 0.1495, 0.1470, 0.1440, 0.1405,
    0.1360, 0.1285,
)  # fmt: skip
LETTERS_IN = {
    "A": 0.234, "B": 0.238, "C": 0.242, "D": 0.246, "E": 0.250, "F": 0.257, "G": 0.261, "H": 0.266, "I": 0.272,
    "J": 0.277, "K": 0.281, "L": 0.290, "M": 0.295, "N": 0.302, "O": 0.316, "P": 0.323, "Q": 0.332,
}  # fmt: skip
SAME_IN = 0.0005  # a drill of the size asked for, as three decimals tell
SAME_MM = 0.005


def drill_name(diameter: float, system: str) -> str:
    """Return what a drill of a diameter [mm] is called in a system ("inch", "mm"), or "" when there is none."""
    if system != "inch":
        return f"drill {round(diameter, 1):.1f}" if abs(diameter - round(diameter, 1)) < SAME_MM else ""
    size = diameter / MM_PER_IN
    named = [(abs(v - size), f"No. {i}") for i, v in enumerate(NUMBERS_IN, 1)]
    named += [(abs(v - size), f"letter {k}") for k, v in LETTERS_IN.items()]
    part = Fraction(round(size * 64), 64)
    named.append((abs(float(part) - size), f"{part} in"))
    off, name = min(named)
    return name if off < SAME_IN else ""
