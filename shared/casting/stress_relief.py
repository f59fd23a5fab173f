"""Stress relief of castings, and why a powder-coat bake is none."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from shared.casting.alloy import Alloy
from shared.errors import Fault, InputError, RequestError
from shared.tables import table


@dataclass(frozen=True)
class ReliefCycle:
    """A stress-relief cycle: °C, h, °C/h."""

    temperature_low_c: float
    temperature_high_c: float
    temperature_c: float
    hold_h: float
    heating_rate_low: float
    heating_rate_high: float
    cooling_rate_max: float
    furnace_cool_to_c: float
    total_h: float
    reason: str
    source: str


def _rows(metal: Alloy) -> dict[str, Any]:
    rows = table("foundry")["stress_relief"].get(metal.family)
    if rows is None:
        raise RequestError(f"no stress relief is known for {metal.id}")
    return dict(rows)


def hold_hours(metal: Alloy, section_mm: float) -> float:
    """Return the hold at temperature [h] by the heaviest section [mm].

    Irons: 1 h plus 1 h per 25 mm (ASM Handbook vol. 4, memory); manganese bronze 1 h per 25 mm, here 1 h at least.
    """
    if not section_mm > 0.0:
        raise InputError(Fault("stress relief", "section", f"{section_mm:g} mm", "more than 0"))
    rows = _rows(metal)
    hold = float(rows["hold_base_h"]) + float(rows["hold_h_per_25mm"]) * section_mm / 25.0
    return hold if metal.is_iron else max(1.0, hold)


def relief_cycle(metal: Alloy, section_mm: float, temperature_c: float | None = None) -> ReliefCycle:
    """Return the stress-relief cycle of a casting.

    Args:
        metal: the alloy.
        section_mm: heaviest section [mm].
        temperature_c: the shop's own temperature [°C]; default the middle of the window.

    Raises:
        InputError: a temperature outside the alloy's window.
        RequestError: no window is known for the alloy.
    """
    rows = _rows(metal)
    low, high = rows["temperature"]
    aim = (low + high) / 2.0 if temperature_c is None else temperature_c
    if not low - 1e-6 <= aim <= high + 1e-6:
        allowed = f"{low:.0f} to {high:.0f} °C for {metal.id}"
        raise InputError(Fault("shop.toml", "heat.temperature", f"{aim:.0f} °C", allowed))
    hold = hold_hours(metal, section_mm)
    rate = sum(rows["heating_rate"]) / 2.0
    total = (aim - 20.0) / rate + hold + (aim - rows["furnace_cool_to"]) / rows["cooling_rate_max"]
    reason = (
        "thick and thin places cool at different rates in the mould and lock in stress, which cutting lets go so that "
        "the part moves. Relieve before finish machining; cool slowly, or the cooling puts the stress back"
    )
    return ReliefCycle(
        temperature_low_c=low,
        temperature_high_c=high,
        temperature_c=aim,
        hold_h=hold,
        heating_rate_low=rows["heating_rate"][0],
        heating_rate_high=rows["heating_rate"][1],
        cooling_rate_max=rows["cooling_rate_max"],
        furnace_cool_to_c=rows["furnace_cool_to"],
        total_h=total,
        reason=reason,
        source=f"{rows['source']} ({rows['known']})",
    )


@dataclass(frozen=True)
class BakeCheck:
    """What a powder-coat bake does to the casting."""

    counts_as_stress_relief: bool
    changes_metal: bool
    above_powder_limit: bool
    margin_k: float  # below the lowest stress-relief temperature
    affects_from_c: float  # lowest temperature that does anything to this metal
    advice: str


def bake_check(metal: Alloy, temperature_c: float, minutes: float) -> BakeCheck:
    """Check that a powder-coat bake does nothing to the metal.

    Args:
        metal: the alloy.
        temperature_c: metal temperature [°C].
        minutes: time at temperature [min].

    Raises:
        InputError: a temperature or time of 0 or less.
    """
    if not (temperature_c > 0.0 and minutes > 0.0):
        raise InputError(Fault("powder coat", "bake", f"{temperature_c:g} °C, {minutes:g} min", "more than 0"))
    rows = _rows(metal)
    low = float(rows["temperature"][0])
    nothing_below = float(rows["ineffective_below"])
    coat = table("foundry")["powder_coat"]
    relieves = temperature_c >= low and minutes / 60.0 >= 0.5
    changes = temperature_c >= nothing_below
    over = temperature_c > coat["never_above"]
    gap = nothing_below - temperature_c
    advice = (
        f"checked: {gap:.0f} K below the {nothing_below:.0f} °C from which anything happens to this metal, and "
        f"{low - temperature_c:.0f} K below stress relief: the bake neither relieves nor harms it"
    )
    if changes:
        what = "stress-relieves" if relieves else "lets some stress go in"
        advice = (
            f"checked: {-gap:.0f} K ABOVE the {nothing_below:.0f} °C from which this metal changes: the bake {what} "
            "the casting, which may move. Rough and stress-relieve first, coat, and finish the datum faces after the "
            "bake, or leave it bare"
        )
    if over:
        advice += f"; above the powder's limit of {coat['never_above']:.0f} °C"
    advice += ". Time counts from when the METAL is at temperature; prebake a porous casting, or it blisters the coat"
    return BakeCheck(relieves, changes, over, low - temperature_c, nothing_below, advice)
