"""How the rules write a length."""

from __future__ import annotations

from parts.plane.design import Design
from shared.human import Step, rounded, said
from shared.units import both_units

# what an amount to change is rounded up to, and one that is less than SMALL [mm]
FINE, FINEST, SMALL = Step(1 / 64, 0.1), Step(0.001, 0.05), 0.8


def in_both(d: Design, value: float) -> str:
    """Return a length [mm] in both units, the spec's own first."""
    return both_units(value, d.spec.units)


def amount(d: Design, value: float) -> str:
    """Return about how much to change a length by [mm], in the spec's own unit, rounded up to what one would write."""
    step = FINEST if value < SMALL else FINE
    return said(rounded(max(value, 0.0), step, d.spec.units, "up"), d.spec.units)


def move(d: Design, key: str, value: float, low: float, high: float) -> str:
    """Return which way a key [mm] must go to come within low and high [mm], and by about how much; "" within them."""
    if value < low:
        return f"raise {key} by about {amount(d, low - value)}"
    return f"lower {key} by about {amount(d, value - high)}" if value > high else ""
