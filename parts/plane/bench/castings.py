"""The castings of a bench plane as the foundry sees them: mass, size, sections; from the models."""

from __future__ import annotations

from parts.plane.bench.design import BenchDesign
from parts.plane.bench.models import Models
from parts.plane.moulding import foundry_parts
from parts.plane.pour import CastPart


def cast_parts(d: BenchDesign, models: Models) -> list[CastPart]:
    """Return body, frog, lever cap and lever as castings, at casting size."""
    return foundry_parts(models)
