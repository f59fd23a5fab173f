"""How the rules write a length."""

from __future__ import annotations

from parts.plane.bench.design import BenchDesign
from shared.units import both_units


def in_both(d: BenchDesign, value: float) -> str:
    """Return a length [mm] in both units, the spec's own first."""
    return both_units(value, d.spec.units)
