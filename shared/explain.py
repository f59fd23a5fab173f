"""One number explained, in words that the terminal and the book both use."""

from __future__ import annotations

import math
from dataclasses import dataclass

from shared import units
from shared.numbers import Number, Value


@dataclass(frozen=True)
class Explanation:
    """A number's whole story, every part of it as text."""

    name: str  # PART.NUMBER
    value: str
    meaning: str
    formula: str
    values: tuple[tuple[str, str], ...]  # what was put in: name, value
    source: str
    decided_by: str


def explain(part: str, number: Number) -> Explanation:
    """Return the explanation of one number of a part."""
    put_in = tuple((name, _plain(value)) for name, value in number.values.items())
    return Explanation(
        f"{part}.{number.key}",
        format_value(number),
        number.meaning,
        number.formula,
        put_in,
        number.source,
        number.decided_by,
    )


def explanation_text(e: Explanation) -> str:
    """Return an explanation as the terminal prints it."""
    lines = [f"{e.name} = {e.value}", f"  meaning: {e.meaning}", f"  formula: {e.formula}"]
    lines += [f"    {name} = {value}" for name, value in e.values]
    lines.append(f"  source:  {e.source}")
    if e.decided_by:
        lines.append(f"  decided by: {e.decided_by}")
    return "\n".join(lines)


def _plain(value: Value) -> str:
    return f"{value:.6g}" if isinstance(value, float) else str(value)


def _item(value: object) -> str:
    if isinstance(value, dict):
        name = f"{value['name']}: " if "name" in value else ""
        return name + ", ".join(f"{str(k).replace('_', ' ')} {_item(v)}" for k, v in value.items() if k != "name")
    if isinstance(value, list | tuple):
        return "(" + ", ".join(_item(v) for v in value) + ")"
    return f"{value:.5g}" if isinstance(value, float) else str(value)


def format_value(number: Number) -> str:
    """Write one value with its unit; lengths and temperatures in both units."""
    value = number.value
    if isinstance(value, bool) or not isinstance(value, int | float):
        if isinstance(value, list) and value and all(isinstance(v, int | float) for v in value):
            return ", ".join(f"{v:.4g}" for v in value) + (f" {number.unit}" if number.unit else "")
        if isinstance(value, list):
            return "; ".join(_item(v) for v in value) or "none"
        return str(value)
    if isinstance(value, float) and not math.isfinite(value):
        return str(value)
    digits = f"{value:.5g}" if isinstance(value, float) else str(value)
    if number.unit == "mm":
        return f"{value:.3f} mm ({units.to_inch(value):.4f} in)"
    if number.unit == "°C":
        return f"{value:.0f} °C ({value * 1.8 + 32:.0f} °F)"
    return f"{digits} {number.unit}".rstrip()
