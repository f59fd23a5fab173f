"""Numbers of the mouth opening with its tolerance stack, and of the fits."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from parts.blade import bedding as g
from parts.blade.angles import Orientation
from shared.mouth_stack import Stack
from shared.numbers import COMMON_PRACTICE, Numbers, Value
from shared.pairs import Feature, Pair, of_limits


def mouth_numbers(
    out: Numbers,
    orientation: Orientation,
    bed: float,
    opening: float,
    low: float | None,
    high: float | None,
    stack: Stack,
) -> None:
    """Add the mouth opening, its tolerance and what changes it; bed [deg], opening, low and high [mm]."""
    listed: list[dict[str, Any]] = [
        {
            "name": c.name,
            "tolerance": c.tolerance,
            "unit": c.unit,
            "effect_mm": c.effect,
            "largest": c.effect >= stack.largest.effect * (1 - 1e-9),
        }
        for c in stack.contributions
    ]
    put: dict[str, Value] = {c.name: c.effect for c in stack.contributions}
    source = f"stack of independent tolerances; the tolerances: {COMMON_PRACTICE}"
    out.add("mouth_opening_mm", opening, "edge to the mouth's front wall along the sole", "as set", {}, "the spec")
    out.add(
        "mouth_opening_worst_mm",
        stack.worst,
        "worst-case tolerance of the opening, plus/minus",
        "sum of effects",
        put,
        source,
    )
    out.add(
        "mouth_opening_rss_mm", stack.rss, "root-sum-square tolerance, plus/minus", "sqrt(sum of squares)", put, source
    )
    out.add("mouth_contributions", listed, "what the tolerance comes from", "tolerance*sensitivity", put, source)
    out.add(
        "mouth_largest_contribution",
        stack.largest.name,
        "the contribution to work on first",
        "greatest effect",
        put,
        source,
    )
    per_mm = g.mouth_per_thickness(bed, orientation)
    out.add(
        "mouth_change_per_mm_thicker_mm",
        per_mm,
        "change of the opening with a blade 1 mm thicker (minus closes)",
        "-1/sin(bed)" if per_mm else "0: the flat lies on the bed",
        {"bed": bed},
    )
    if per_mm:
        out.add(
            "mouth_closing_thickness_mm",
            opening / -per_mm,
            "how much thicker a replacement blade may be before the mouth is shut",
            "opening*sin(bed)",
            {"opening": opening, "bed": bed},
        )
    out.add(
        "mouth_change_per_mm_deeper_mm",
        g.mouth_per_depth(bed),
        "change of the opening per depth of cut (minus closes)",
        "-1/tan(bed)",
        {"bed": bed},
    )
    if low is not None and high is not None:
        out.add(
            "mouth_travel_mm",
            high - low + 2 * stack.worst,
            "travel of frog or toe piece for the stated range of openings with any part within its tolerance",
            "high - low + 2*worst case",
            {"low": low, "high": high, "worst": stack.worst},
        )


def fit_numbers(out: Numbers, blade: Feature, across: float, off: tuple[float, float], pins: Sequence[Pair]) -> None:
    """Add the mouth's limits across, the side clearance and the fits of pins.

    Args:
        out: where to.
        blade: the blade's width.
        across: the mouth's [mm].
        off: upper and lower deviation of it [mm].
        pins: the pairs.
    """
    mouth = of_limits("mouth", across, off)
    put: dict[str, Value] = {"width": blade.size, "width_class": blade.grade, "mouth": across, "deviations": [*off]}
    source = "ISO 286-1/-2:2010 as tabled; a toe piece's pocket: as the body's sheet gives it"
    for name, value in (("low", mouth.low), ("high", mouth.high)):
        said = f"{'least' if name == 'low' else 'greatest'} width of the mouth that passes"
        out.add(f"mouth_across_{name}_mm", value, said, "mouth + deviation", put, source)
    formula = "(mouth + deviation - width - deviation)/2"
    least, most = (mouth.low - blade.high) / 2, (mouth.high - blade.low) / 2
    out.add(
        "side_clearance_min_mm", least, "least clearance on each side of the blade in the mouth", formula, put, source
    )
    out.add(
        "side_clearance_max_mm", most, "greatest clearance on each side of the blade in the mouth", formula, put, source
    )
    if not pins:
        return
    out.add("pin_fits", [p.row() for p in pins], "holes and what sits or runs in them: limits and play",
            "hole - pin, at their limits", {}, f"classes: ISO 286; other limits: {COMMON_PRACTICE}")  # fmt: skip
