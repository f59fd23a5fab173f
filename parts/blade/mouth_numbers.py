"""Numbers of the mouth opening with its tolerance stack, and of the fits."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from parts.blade import bedding as g
from parts.blade.angles import Orientation
from shared.fits import fit, tolerance_class
from shared.mouth_stack import Stack
from shared.numbers import COMMON_PRACTICE, Numbers, Value


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


def fit_numbers(
    out: Numbers, width: float, side: float, width_class: str, slot_class: str, pins: Sequence[tuple[str, float, str]]
) -> None:
    """Add side clearance and the fits of pins (name, diameter [mm], fit); width and side clearance [mm].

    Raises:
        InputError: an unknown tolerance class or fit.
    """
    blade, slot = tolerance_class(width, width_class), tolerance_class(width + 2 * side, slot_class)
    put: dict[str, Value] = {
        "width": width,
        "slot": width + 2 * side,
        "width_class": width_class,
        "slot_class": slot_class,
    }
    source = "ISO 286-1/-2:2010 as tabled"
    formula = "(slot + deviation - width - deviation)/2"
    least = side + (slot.lower - blade.upper) / 2000
    most = side + (slot.upper - blade.lower) / 2000
    out.add(
        "side_clearance_min_mm", least, "least clearance on each side of the blade in the mouth", formula, put, source
    )
    out.add(
        "side_clearance_max_mm", most, "greatest clearance on each side of the blade in the mouth", formula, put, source
    )
    if not pins:
        return
    rows: list[dict[str, Any]] = []
    for name, diameter, fit_name in pins:
        f = fit(diameter, fit_name)
        rows.append(
            {
                "name": name,
                "diameter_mm": diameter,
                "fit": fit_name,
                "hole_um": [f.hole.lower, f.hole.upper],
                "shaft_um": [f.shaft.lower, f.shaft.upper],
                "clearance_um": [f.clearance_min, f.clearance_max],
            }
        )
    out.add("pin_fits", rows, "fits of pins and screws", "ISO 286 limits", {}, source)
