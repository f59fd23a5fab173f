"""Casting alloys: one row of the alloy table each, with the source of every value."""

from __future__ import annotations

import difflib
from functools import cache
from typing import Any

from shared.errors import Fault, InputError
from shared.record import Record
from shared.tables import table


class Alloy(Record):
    """One casting alloy. Temperatures [°C], densities [kg/m³], contractions as fractions [-], walls [mm]."""

    id: str
    name: str
    family: str  # ductile-iron, grey-iron, bronze, aluminium
    uses: tuple[str, ...]  # "casting" (parts of a plane) or "pattern" (working patterns)
    iso_group: str  # group of ISO 8062's guidance: iron, copper_alloy, light_metal
    density_kg_m3: float
    liquid_density_kg_m3: float
    thermal_expansion_per_k: float
    youngs_modulus_gpa: float
    poisson: float
    contraction: float
    contraction_low: float
    contraction_high: float
    minimum_wall_mm: float
    comfortable_wall_mm: float
    solidus_c: float
    liquidus_c: float
    pouring_low_c: float
    pouring_high_c: float
    latent_heat_j_kg: float
    specific_heat_solid_j_kgk: float
    specific_heat_liquid_j_kgk: float
    conductivity_solid_w_mk: float
    conductivity_liquid_w_mk: float
    tensile_mpa: float
    yield_mpa: float
    elongation_percent: float
    gating_ratio: tuple[float, float, float]  # sprue : runner : ingate
    choke_at: str  # "ingate" (pressurised) or "sprue base" (unpressurised)
    pouring_time_rule: str
    zinc_fume: bool
    source: str
    known: str
    sources: tuple[str, ...]
    contraction_annealed: float | None = None

    @property
    def is_iron(self) -> bool:
        """Whether the alloy is an iron."""
        return self.iso_group == "iron"

    @property
    def holds(self) -> tuple[str, float]:
        """What limits a stress, "yield" or "tensile", and its strength [MPa]: grey iron breaks before it yields."""
        return ("yield", self.yield_mpa) if self.yield_mpa > 0 else ("tensile", self.tensile_mpa)

    def source_of(self, value: str) -> str:
        """Return where a value of this row comes from.

        Args:
            value: name of the value, such as "density_kg_m3".
        """
        stem = value.rsplit("_kg_m3", 1)[0]
        for line in self.sources:
            names, _, where = line.partition(":")
            if value in names or stem in names.replace(" ", "_"):
                return where.strip()
        return f"{self.source} ({self.known})"


@cache
def alloy_ids() -> tuple[str, ...]:
    """Return the ids of all alloys in the table, in its order."""
    return tuple(table("alloys")["alloy"])


@cache
def _alloy(alloy_id: str) -> Alloy:
    row: dict[str, Any] = table("alloys")["alloy"][alloy_id]
    known = set(Alloy._fields) - {"id"}
    values: dict[str, Any] = {k: tuple(v) if isinstance(v, list) else v for k, v in row.items() if k in known}
    return Alloy(id=alloy_id, **values)


def alloy(alloy_id: str, where: str = "alloy table", key: str = "alloy") -> Alloy:
    """Return one alloy.

    Args:
        alloy_id: id of the row, such as "ductile-iron-65-45-12".
        where: file, line or option for the message when there is no such row.
        key: key for the message.

    Raises:
        InputError: no such alloy; names the nearest one.
    """
    if alloy_id not in alloy_ids():
        near = difflib.get_close_matches(alloy_id, alloy_ids(), 1, 0.4)
        hint = f"did you mean {near[0]}?" if near else ""
        raise InputError(Fault(where, key, repr(alloy_id), "one of " + ", ".join(alloy_ids()), hint))
    return _alloy(alloy_id)
