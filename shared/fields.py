"""Field types for spec sections: quantities that are read from text, with their allowed range.

A section is a class derived from `Section`; a field is written `length: Length(50, 900)` and holds
millimetres once read. The range is said in both units in every message and in the JSON Schema.
"""

from __future__ import annotations

from typing import Annotated, Any

from pydantic_core import PydanticCustomError

from shared import units
from shared.section import Field, Read, Section
from shared.units import Kind, QuantityError

__all__ = [
    "RANGE", "Angle", "Contraction", "Field", "HardnessHRC", "Length", "Mass", "Section", "Share", "Temperature",
    "Time", "quantity",
]  # fmt: skip

RANGE = "x-range"  # in the JSON Schema: least and greatest value allowed, and their unit


def _fail(allowed: str) -> PydanticCustomError:
    return PydanticCustomError("quantity", "{allowed}", {"allowed": allowed})


def _say_range(kind: Kind, low: float | None, high: float | None, above_zero: bool) -> str:
    def one(v: float) -> str:
        if kind.inside == "fraction":
            return f"{100 * v:g} %"
        return f"{v:g} mm ({units.to_inch(v):.4g} in)" if kind is units.LENGTH else f"{v:g} {kind.inside}"

    if low is not None and high is not None:
        return f"{one(low)} to {one(high)}"
    if low is not None:
        return f"{one(low)} or more"
    if high is not None:
        return f"{one(high)} or less"
    return "more than 0" if above_zero else "any size"


def quantity(kind: Kind, low: float | None, high: float | None, bare: str | None) -> Any:
    """Return the annotated type of a quantity field.

    Args:
        kind: which quantity.
        low: least value allowed [inside unit], or None.
        high: greatest value allowed [inside unit], or None.
        bare: unit of a bare number; "file" takes the file's `units`, None refuses bare numbers.
    """
    said = _say_range(kind, low, high, False)

    def read(value: object, info: Any) -> float:
        context = info.context or {}
        unit = context.get("units", "mm") if bare == "file" else bare
        if unit == "inch":
            unit = "in"
        try:
            number = units.parse(value, kind, unit)
        except QuantityError as err:
            raise _fail(f"{err.allowed}, {said}") from None
        slack = 1e-9 * max(1.0, abs(number))
        if (low is not None and number < low - slack) or (high is not None and number > high + slack):
            raise _fail(said)
        return number

    schema = {
        "anyOf": [{"type": "number"}, {"type": "string"}] if bare else [{"type": "string"}],
        "description": f"{kind.name}, {said}; for example {kind.example}",
        RANGE: [low, high, kind.inside],
    }
    return Annotated[float, Read(read, schema)]


def Length(low_mm: float, high_mm: float) -> Any:  # noqa: N802  a type is named like a type
    """Length field [mm]; a bare number takes the file's units."""
    return quantity(units.LENGTH, low_mm, high_mm, "file")


def Angle(low_deg: float, high_deg: float) -> Any:  # noqa: N802
    """Angle field [deg]; a bare number is degrees."""
    return quantity(units.ANGLE, low_deg, high_deg, "deg")


def Share(low: float = 0.0, high: float = 1.0) -> Any:  # noqa: N802
    """Share field [-], written "4%" or as a bare fraction (0.04)."""

    def read(value: object, _: Any) -> float:
        said = f'{low:.4g} to {high:.4g}, or "{100 * low:g}%" to "{100 * high:g}%"'
        try:
            number = float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None
            number = units.parse(value, units.FRACTION) if number is None else number
        except QuantityError:
            raise _fail(said) from None
        if not low <= number <= high:
            raise _fail(said)
        return number

    schema = {
        "anyOf": [{"type": "number"}, {"type": "string"}],
        "description": f'share, {low:g} to {high:g}, or "{100 * low:g}%" to "{100 * high:g}%"',
        RANGE: [low, high, ""],
    }
    return Annotated[float, Read(read, schema)]


def Temperature(low_c: float, high_c: float) -> Any:  # noqa: N802
    """Temperature field [degC]; a unit is needed."""
    return quantity(units.TEMPERATURE, low_c, high_c, None)


def Mass(low_kg: float, high_kg: float) -> Any:  # noqa: N802
    """Mass field [kg]; a unit is needed."""
    return quantity(units.MASS, low_kg, high_kg, None)


def Contraction(low: float = 0.0, high: float = 0.05) -> Any:  # noqa: N802
    """Contraction field [-], written "1/8 in/ft", "1.04 %" or "10.4 mm/m"."""
    return quantity(units.RATIO_PER_LENGTH, low, high, None)


def Time(low_s: float, high_s: float) -> Any:  # noqa: N802
    """Time field [s]; a unit is needed."""
    return quantity(units.TIME, low_s, high_s, None)


def HardnessHRC(low: float, high: float) -> Any:  # noqa: N802
    """Rockwell C hardness field [HRC], written "62 HRC"; other scales are refused here."""
    said = f'{low:g} to {high:g} HRC, such as "62 HRC"'

    def read(value: object, _: Any) -> float:
        try:
            number, scale = units.parse_hardness(value)
        except QuantityError:
            raise _fail(said) from None
        if scale != "HRC" or not low <= number <= high:
            raise _fail(said)
        return number

    schema = {"type": "string", "description": said, RANGE: [low, high, "HRC"]}
    return Annotated[float, Read(read, schema)]
