"""The pour plan as steps for the foundry floor, each with its figures."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from shared.numbers import Numbers
from shared.units import to_inch

if TYPE_CHECKING:
    from parts.plane.pour import AlloyPour, CastPart
    from parts.plane.shop import ShopSpec
    from shared.casting.match_plate import MatchPlate


def _both(c: float) -> str:
    return f"{c:.0f} °C ({c * 1.8 + 32:.0f} °F)"


def mass_text(kg: float) -> str:
    """Write a mass [kg] in kg and lb."""
    return f"{kg:.0f} kg ({kg / 0.45359237:.0f} lb)" if kg >= 10 else f"{kg:.2f} kg ({kg / 0.45359237:.2f} lb)"


def steps_of(
    parts: Sequence[CastPart],
    numbers: Mapping[str, Numbers],
    plates: Mapping[str, MatchPlate],
    alloys: Mapping[str, AlloyPour],
    shop: ShopSpec,
) -> list[str]:
    """Return the steps in order: moulds, charge, sample, treat, pour, cool, fettle, stress-relieve, coat.

    Args:
        parts: the castings of one plane [mm, kg].
        numbers: numbers of each part, by its name.
        plates: match plate of each part, by its name.
        alloys: what the parts of each alloy share, by alloy id.
        shop: the works' practice.
    """
    steps = []
    for p in parts:
        n, plate = numbers[p.name], plates[p.name]
        f = plate.flask
        steps.append(
            f"Mould {n.value('moulds')} flasks {f.name} ({to_inch(f.length):.0f} × {to_inch(f.width):.0f} in) of "
            f"the {p.name}, "
            f"{plate.count} a mould: {n.value('castings')} castings for {n.value('good_castings')} good ones at "
            f"{shop.melt.scrap:.0%} scrap and {shop.melt.confidence:.0%} confidence. "
            "Cut nothing by hand: sprue, runners and ingates are on the plate. Weight the cope with "
            f"{mass_text(n.value('cope_weight_kg'))}."
        )
    for pour in alloys.values():
        steps += _alloy_steps(pour, numbers, shop)
    steps.append(
        "Leave the castings in the closed moulds overnight: slow, even cooling keeps thick and thin places "
        "together, avoids chill "
        "and locked-in stress. Shake out cold, knock off gates, grind gate stubs; do not quench or blow cold."
    )
    for pour in alloys.values():
        names = ", ".join(pour.parts)
        if pour.relief is not None:
            r = pour.relief
            steps.append(
                f"Stress-relieve {names}: heat at {r.heating_rate_low:.0f} to {r.heating_rate_high:.0f} K/h to "
                f"{_both(r.temperature_c)}, "
                f"hold {r.hold_h:.1f} h with the whole load at temperature, furnace-cool at "
                f"{r.cooling_rate_max:.0f} K/h or slower to "
                f"{_both(r.furnace_cool_to_c)}, then air. Why: {r.reason}."
            )
        minutes = shop.heat.bake_time / 60
        steps.append(
            f"Powder coat {names}: {_both(shop.heat.bake_temperature)} metal temperature for {minutes:.0f} min; "
            f"{pour.bake.advice}."
        )
    return steps


def _alloy_steps(pour: AlloyPour, numbers: Mapping[str, Numbers], shop: ShopSpec) -> list[str]:
    n, metal, melt = pour.numbers, pour.metal, shop.melt
    steps = [
        f"Melt {mass_text(n.value('charge_mass_kg'))} of {metal.name} in {n.value('furnace_charges')} furnace "
        f"charge(s) of up to {mass_text(melt.furnace)}. Tap "
        f"{n.value('taps')} time(s), up to {mass_text(melt.tap)} each, into "
        f"{n.value('ladles_per_tap')} hand "
        f"ladles of {mass_text(melt.ladle)}, dried and preheated red."
    ]
    window = ", ".join(f"{e} {low:g} to {high:g}" for e, (low, high) in pour.composition.items())
    if window:
        ce = pour.carbon_equivalent
        aim = f"; carbon equivalent C + (Si + P)/3 of {ce[0]:g} to {ce[1]:g}" if ce else ""
        steps.append(
            f"Sample every tap before pouring (wt %): {window}{aim}. Off the window: do what the melt card says and "
            "sample again, or pig the metal; never pour to find out."
        )
    if "time_limit_min" in n:
        steps.append(
            f"Treat for {100 * melt.magnesium_residual:.3f} % residual magnesium, inoculate late, skim. The last "
            "mould is full "
            f"{n.value('time_limit_min'):.0f} min after treatment ({n['time_limit_min'].decided_by}); by then "
            f"{n.value('magnesium_at_limit_percent'):.3f} % is left. Later metal goes to pig: below 0.025 % the "
            "graphite is flake."
        )
    for name in pour.parts:
        p = numbers[name]
        steps.append(
            f"Pour the {name} at {_both(pour.window.aim_c)} ({pour.window.low_c:.0f} to {pour.window.high_c:.0f} "
            "°C): "
            f"{mass_text(p.value('poured_mass_per_mould_kg'))} in {p.value('fill_time_s'):.1f} s, sprue kept full. A "
            "mould is filled from "
            f"one ladle without a stop."
        )
    moulds = "; ".join(n.value("moulds_per_ladle"))
    steps.append(
        f"Moulds that the metal of a ladle fills: {moulds}. Moulds that a tap fills, metal and time counted: "
        f"{'; '.join(n.value('moulds_per_tap'))}. Pig the heel."
    )
    return steps
