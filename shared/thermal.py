"""Bow of a plate or bar that is warmer on one side, and how long it must rest before it is gauged."""

from __future__ import annotations

import difflib
from dataclasses import dataclass

from shared.errors import Fault, InputError
from shared.tables import table, table_names

#: A thousandth of an inch, the flatness that such a bow spoils [mm].
THOU_MM = 0.0254
DEFAULT_ALLOY = "ductile-iron-65-45-12"
BOW_SOURCE = "circle approximation of a free plate with a linear difference through its height (derived)"


@dataclass(frozen=True)
class Expansion:
    """Thermal expansion of a material."""

    material: str
    per_k: float  # [1/K]
    source: str


def materials() -> list[str]:
    """Return the materials whose expansion is tabled: the tool steels and the casting alloys."""
    names = list(table("steel")["physical"])
    if "alloys" in table_names():
        names += [k for k, row in table("alloys").get("alloy", {}).items() if "thermal_expansion_per_k" in row]
    return names


def expansion(material: str) -> Expansion:
    """Return the expansion of a tool steel or casting alloy near room temperature.

    Args:
        material: a row of the steel or alloy table, such as "A2" or "ductile-iron-65-45-12".

    Raises:
        InputError: not in either table.
    """
    steels = table("steel")["physical"]
    by_upper = {name.upper(): name for name in materials()}
    name = by_upper.get(material.strip().upper())
    if name is None:
        near = difflib.get_close_matches(material.upper(), list(by_upper), 1, 0.4)
        hint = f"did you mean {by_upper[near[0]]}?" if near else ""
        raise InputError(Fault("materials", "alloy", repr(material), "one of " + ", ".join(by_upper.values()), hint))
    if name in steels:
        return Expansion(name, float(steels[name]["expansion_per_k"]), str(steels[name]["source"]))
    row = table("alloys")["alloy"][name]
    said = [s for s in row.get("sources", []) if "expansion" in s.split(":")[0]]
    return Expansion(name, float(row["thermal_expansion_per_k"]), str(said[0] if said else row["source"]))


def bow(length: float, height: float, gradient: float, expansion_per_k: float) -> float:
    """Return the bow of a free plate with one side warmer [mm]: alpha*dT*L^2/(8h).

    Args:
        length: L [mm].
        height: h, through which the temperature differs [mm].
        gradient: temperature difference dT over that height [K].
        expansion_per_k: expansion alpha [1/K].

    Source: circle approximation (derived).
    """
    return expansion_per_k * gradient * length * length / (8 * height)


def bow_per_k(length: float, height: float, expansion_per_k: float) -> float:
    """Return the bow per kelvin of difference [um/K]; length and height [mm], expansion [1/K]."""
    return 1000 * bow(length, height, 1.0, expansion_per_k)


def difference_for_bow(length: float, height: float, expansion_per_k: float, spoiled: float = THOU_MM) -> float:
    """Return the temperature difference that already makes a bow of `spoiled` [K].

    Args:
        length: L [mm].
        height: h [mm].
        expansion_per_k: expansion [1/K].
        spoiled: bow that counts as spoiled [mm]; 0.001 in by default.
    """
    return spoiled / bow(length, height, 1.0, expansion_per_k)
