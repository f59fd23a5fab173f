"""The ten numbers that matter most, shown when a build ends."""

from __future__ import annotations

from shared.numbers import Numbers
from shared.units import both_units

HEADLINE = [
    ("cutting angle", "blade.cutting_angle_deg"),
    ("clearance angle", "blade.clearance_angle_deg"),
    ("mouth opening", "bedding.mouth_opening_mm"),
    ("unsupported edge", "bedding.unsupported_length_mm"),
    ("temper", "blade.temper_temperature_c"),
    ("pattern length", "body.pattern_length_mm"),
    ("body, casting", "body.casting_mass_kg"),
    ("plane, whole", "plane.mass_kg"),
    ("balance point aft of edge", "plane.center_of_mass_mm"),
    ("tote blank", "handle.tote_blank_length_mm"),
]


def headline(numbers: dict[str, Numbers], units: str) -> dict[str, str]:
    """Return key -> value as text, in the spec's own unit first.

    Args:
        numbers: every number of the plane, masses among them.
        units: "inch" or "mm".
    """
    shown = {}
    for _, key in HEADLINE:
        part, _, name = key.partition(".")
        if part not in numbers or name not in numbers[part]:
            continue
        number = numbers[part][name]
        value = number.value
        if name == "center_of_mass_mm" and isinstance(value, list):
            shown[key] = both_units(float(value[0]), units)  # type: ignore[arg-type]
        elif name.endswith("_mm") and isinstance(value, int | float):
            shown[key] = both_units(float(value), units)
        elif name.endswith("_c") and isinstance(value, int | float):
            shown[key] = f"{value * 1.8 + 32:.0f} °F ({value:.0f} °C)"
        elif name.endswith("_kg") and isinstance(value, int | float):
            shown[key] = f"{value:.2f} kg ({value / 0.45359237:.2f} lb)"
        elif isinstance(value, float):
            shown[key] = f"{value:.1f} {number.unit}"
        else:
            shown[key] = f"{value} {number.unit}"
    return shown
