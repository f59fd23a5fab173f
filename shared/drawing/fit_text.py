"""Fits as text, from the rows of `shared.pairs`: what is gauged, its limits, and the play left. Both units."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from shared.both_units import number
from shared.drawing.dimtext import limits
from shared.units import MM_PER_IN


def gauged(row: Mapping[str, Any], side: str, unit: str) -> tuple[str, str, str]:
    """Return the name, the size with its class, and the limits of one side of a fit.

    Args:
        row: a row of `Pair.row`.
        side: "hole" or "pin".
        unit: "inch" or "mm", which stands first.

    Returns:
        Such as ("yoke pin", "0.1575 [4.000] m6", "0.1577 to 0.1579 [4.004 to 4.012]"); a bought thread has its name
        for a size and no limits.
    """
    name, size = str(row[side]), float(row[f"{side}_size_mm"])
    if f"{side}_thread" in row:
        return name, str(row[f"{side}_thread"]), ""
    low, high = row[f"{side}_limits_mm"]
    shown, span = limits(size, (round(high - size, 6), round(low - size, 6)), unit)
    grade = f" {row[f'{side}_class']}" if f"{side}_class" in row else ""
    return name, shown + grade, span


def play_text(play: Sequence[float], unit: str) -> str:
    """Return a play [mm] as text: "play 0.0035 to 0.0050 [0.088 to 0.126]"; one value is the least there can be."""

    def one(k: float, places: int) -> str:
        return " to ".join(number(p * k, places).replace("-", "−") for p in play)

    inch, metric = one(1 / MM_PER_IN, 4), one(1.0, 3)
    first, other = (inch, metric) if unit == "inch" else (metric, inch)
    return f"play {'' if len(play) > 1 else 'at least '}{first} [{other}]"
