"""Stress relief of castings, and why a powder-coat bake is none."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from shared.both_units import difference, temperature
from shared.casting.alloy import Alloy
from shared.errors import Fault, InputError, RequestError
from shared.tables import table
from shared.wording import plain_source


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
        raise RequestError(f"no stress relief is known for {metal.name}")
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
        allowed = f"{low:.0f} to {high:.0f} °C for {metal.name}"
        raise InputError(Fault("shop.toml", "heat.temperature", f"{aim:.0f} °C", allowed))
    hold = hold_hours(metal, section_mm)
    rate = sum(rows["heating_rate"]) / 2.0
    total = (aim - 20.0) / rate + hold + (aim - rows["furnace_cool_to"]) / rows["cooling_rate_max"]
    reason = (
        "thick and thin places cool at different rates in the mould and lock in stress, which cutting lets go so that "
        "the part moves. Relieve before the first cut; cool slowly, or the cooling puts the stress back"
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
        source=plain_source(rows["source"], rows["known"]),
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


def bake_check(metal: Alloy, temperature_c: float, minutes: float, first: str = "mm") -> BakeCheck:
    """Check that a powder-coat bake does nothing to the metal.

    Args:
        metal: the alloy.
        temperature_c: metal temperature [°C].
        minutes: time at temperature [min].
        first: "inch" or "mm": the unit that leads in the advice.

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
    from_c = temperature(nothing_below, first)
    advice = (
        f"checked: {difference(nothing_below - temperature_c, first)} below the {from_c} from which anything happens "
        f"to this metal, and {difference(low - temperature_c, first)} below the lowest stress relief: the bake "
        "neither relieves nor harms it"
    )
    if changes:
        what = "stress-relieves" if relieves else "lets some stress go in"
        advice = (
            f"checked: {difference(temperature_c - nothing_below, first)} ABOVE the {from_c} from which this metal "
            f"changes: the bake {what} the casting, which may move: leave it bare"
        )
    if over:
        advice += f"; above the powder's limit of {temperature(coat['never_above'], first)}"
    advice += ". Time counts from when the METAL is at temperature; prebake a porous casting, or it blisters the coat"
    return BakeCheck(relieves, changes, over, low - temperature_c, nothing_below, advice)
