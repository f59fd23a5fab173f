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
    """What a size is rounded to: inches [in] in an inch spec, millimetres [mm] in a metric one; 0 leaves it as it is."""

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
    how = {"near": round, "up": lambda v: math.ceil(v - 1e-6), "down": lambda v: math.floor(v + 1e-6)}[direction]
    return how(mm / size) * size


def written(mm: float, units: str) -> str:
    """Return a length [mm] as TOML in a spec's units: a fraction of an inch where it is one, else a plain number."""
    if units == "mm":
        return f"{round(mm, 4):g}"
    inches = mm / MM_PER_IN
    near = Fraction(round(inches * FINEST), FINEST)
    if abs(inches - float(near)) > 1e-6:
        return f"{round(inches, 4):g}"
    # halves and whole inches read well as they are
    return f"{float(near):g}" if near.denominator <= 2 else f'"{inch_fraction(mm, FINEST)} in"'


def said(mm: float, units: str) -> str:
    """Return a length [mm] for a sentence, in a spec's units."""
    text = written(mm, units).strip('"').removesuffix(" in")
    return f"{text} {'in' if units == 'inch' else 'mm'}"
