"""Derived numbers, each with unit, meaning, formula, the values put in, and source, in one place.

The JSON, the sheets, `explain` and the docs all read them here.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Any

from shared import record

# The end of a key is its unit; the longest ending that fits counts.
UNIT_OF_SUFFIX = {
    "_mm": "mm",
    "_mm2": "mm²",
    "_mm3": "mm³",
    "_um": "µm",
    "_deg": "deg",
    "_kg": "kg",
    "_g": "g",
    "_c": "°C",
    "_k": "K",
    "_hrc": "HRC",
    "_hv": "HV",
    "_mpa": "MPa",
    "_n": "N",
    "_n_mm": "N·mm",
    "_s": "s",
    "_min": "min",
    "_h": "h",
    "_k_per_h": "K/h",
    "_l": "l",
    "_percent": "%",
    "_um_per_k": "µm/K",
    "_um_per_100n": "µm/100 N",
    "_n_per_mm": "N/mm",
    "_kg_m3": "kg/m³",
    "_bf": "board feet",
    "_m_s": "m/s",
}

Value = float | int | str | bool | list[float] | list[str] | list[dict[str, Any]]

GEOMETRY = "plane geometry"
COMMON_PRACTICE = "common practice, no source"
PROPORTION = "proportion rule of this works, common practice, no source"


def unit_of(key: str) -> str:
    """Return the unit that a key's ending stands for; "" for a count, ratio or word."""
    fits = [s for s in UNIT_OF_SUFFIX if key.endswith(s)]
    return UNIT_OF_SUFFIX[max(fits, key=len)] if fits else ""


class Number(record.Value):
    """One derived number."""

    key: str
    value: Value
    meaning: str
    formula: str
    values: Mapping[str, Value] = MappingProxyType({})
    source: str = GEOMETRY
    decided_by: str = ""

    @property
    def unit(self) -> str:
        """Unit of the value, from the key's ending."""
        return unit_of(self.key)


class Numbers:
    """The numbers of one part, in order."""

    def __init__(self, part: str) -> None:
        self.part = part
        self._by_key: dict[str, Number] = {}

    def add(
        self,
        key: str,
        value: Value,
        meaning: str,
        formula: str,
        values: Mapping[str, Value] | None = None,
        source: str = GEOMETRY,
        decided_by: str = "",
    ) -> None:
        """Add one number; a key can stand only once.

        Raises:
            ValueError: the key is there already, or has no meaning or formula.
        """
        if key in self._by_key:
            raise ValueError(f"{self.part}.{key} is computed twice")
        if not meaning or not formula or not source:
            raise ValueError(f"{self.part}.{key} needs a meaning, a formula and a source")
        self._by_key[key] = Number(key, value, meaning, formula, dict(values or {}), source, decided_by)

    def update(self, other: Numbers) -> None:
        """Take over every number of another list of the same part."""
        for n in other:
            self.add(n.key, n.value, n.meaning, n.formula, n.values, n.source, n.decided_by)

    def __iter__(self) -> Iterator[Number]:
        return iter(self._by_key.values())

    def __contains__(self, key: str) -> bool:
        return key in self._by_key

    def __len__(self) -> int:
        return len(self._by_key)

    def __getitem__(self, key: str) -> Number:
        return self._by_key[key]

    def value(self, key: str) -> Any:
        """Return the value alone."""
        return self._by_key[key].value

    def as_json(self) -> dict[str, Value]:
        """Return key -> value, ready for JSON."""
        return {n.key: n.value for n in self}
