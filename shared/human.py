"""Sizes as a person writes them into a spec: inch fractions or decimals, round millimetres."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from shared.units import MM_PER_IN, inch_fraction

Direction = Literal["near", "up", "down"]
FINEST = 64  # smallest division of a rule [-]


@dataclass(frozen=True)
class Step:
    """What a size is rounded to: inches [in] in an inch spec, millimetres [mm] in a metric one; 0 leaves it as is."""

    inch: float
    mm: float

    def of(self, units: str) -> float:
        """Return the step [mm] in a spec's units ("inch" or "mm")."""
        return self.inch * MM_PER_IN if units == "inch" else self.mm


def rounded(mm: float, step: Step, units: str, direction: Direction = "near") -> float:
    """Return a length [mm] rounded to a step.

    Args:
        mm: the length [mm].
        step: what to round to.
        units: "inch" or "mm".
        direction: to the nearest, or always up or down.
    """
    size = step.of(units)
    if size == 0:
        return mm
    steps = mm / size
    if direction == "up":
        return math.ceil(steps - 1e-6) * size
    return (math.floor(steps + 1e-6) if direction == "down" else round(steps)) * size


def written(mm: float, units: str) -> str:
    """Return a length [mm] as TOML in a spec's units: a fraction of an inch where it is one, else a plain number."""
    if units == "mm":
        return f"{round(mm, 4):g}"
    inches = mm / MM_PER_IN
    near = Fraction(round(inches * FINEST), FINEST)
    if abs(inches - float(near)) > 1e-6:
        if abs(inches - round(inches, 4)) > 1e-7 and abs(mm - round(mm, 2)) < 1e-7:
            return f'"{round(mm, 2):g} mm"'  # meant in millimetres
        return f"{round(inches, 4):g}"
    # halves and whole inches read well as they are
    return f"{float(near):g}" if near.denominator <= 2 else f'"{inch_fraction(mm, FINEST)} in"'


def said(mm: float, units: str) -> str:
    """Return a length [mm] for a sentence, in a spec's units; inches as a fraction where they are one."""
    if units == "mm":
        return f"{written(mm, units)} mm"
    fraction = inch_fraction(mm, FINEST)
    if not fraction.startswith("~"):
        return f"{fraction} in"
    text = written(mm, units).strip('"')
    return text if text.endswith("mm") else f"{text} in"
