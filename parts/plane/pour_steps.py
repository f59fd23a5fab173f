"""The pour plan as steps for the foundry floor, each with its figures."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING

from shared.both_units import lengths, mass, rate, temperature, temperatures
from shared.casting.quantity import ladle_name
from shared.numbers import Numbers
from shared.wording import counted, listed, times

if TYPE_CHECKING:
    from parts.plane.pour_alloy import AlloyPour, Fill
    from parts.plane.pour_numbers import CastPart
    from parts.plane.shop import ShopSpec
    from shared.casting.match_plate import MatchPlate


def melt_title(name: str) -> str:
    """Return the heading of the table of an alloy's melt window, which the steps send the reader to."""
    return f"Melt window of {name} (wt %)"


def steps_of(
    parts: Sequence[CastPart],
    numbers: Mapping[str, Numbers],
    plates: Mapping[str, MatchPlate],
    alloys: Mapping[str, AlloyPour],
    shop: ShopSpec,
    first: str,
) -> list[str]:
    """Return the steps in order: moulds, charge, sample, treat, pour, cool, fettle, stress-relieve, coat.

    Args:
        parts: the castings of one plane [mm, kg].
        numbers: numbers of each part, by its name.
        plates: match plate of each part, by its name.
        alloys: what the parts of each alloy share, by alloy id.
        shop: the works' practice.
        first: "inch" or "mm": the unit that leads.
    """
    steps = []
    for p in parts:
        n, plate = numbers[p.name], plates[p.name]
        f = plate.flask
        steps.append(
            f"Mould {counted(n.value('moulds'), 'flask')} {f.name}, {lengths((f.length, f.width), first, (0, 0))}, of "
            f"the {p.name}, {plate.count} a mould: {n.value('castings')} castings for {n.value('good_castings')} good "
            f"ones. Weight the cope with {mass(n.value('cope_weight_kg'), first)}."
        )
    steps.append(
        "Cut nothing by hand: the gating is on the plates. Castings are reckoned at "
        f"{100 * shop.melt.scrap:.0f} % scrap and {100 * shop.melt.confidence:.0f} % confidence that they suffice, "
        "part by part."
    )
    for pour in alloys.values():
        steps += _alloy_steps(pour, numbers, shop, first)
    iron = any(pour.metal.is_iron for pour in alloys.values())
    steps.append(
        "Leave the castings in the closed moulds overnight: slow, even cooling keeps thick and thin places together "
        "and avoids locked-in stress. Shake out cold, saw gates and necks off (a knock tears the wall), grind "
        "the stubs; do not quench or blow cold."
        + (" Edges that a file skates on mean late or weak inoculation." * iron)
    )
    relieved = [(pour.parts, pour.relief) for pour in alloys.values() if pour.relief is not None]
    for i, (names, r) in enumerate(relieved, 1):
        steps.append(
            f"Stress-relieve {listed(names)}: heat at {rate(r.heating_rate_low, first, r.heating_rate_high)} to "
            f"{temperature(r.temperature_c, first)}, hold {r.hold_h:.1f} h with the whole load at temperature, "
            f"furnace-cool at {rate(r.cooling_rate_max, first)} or slower to "
            f"{temperature(r.furnace_cool_to_c, first)}, then air."
            + (f" Why: {r.reason}." if i == len(relieved) else "")
        )
    for pour in alloys.values():
        steps += [f"{line}." for line in finish_lines(pour, shop, first)]
    return steps


def finish_lines(pour: AlloyPour, shop: ShopSpec, first: str) -> list[str]:
    """Return how the castings of one alloy are finished, a sentence a kind of finish, without the full stop.

    Args:
        pour: what they share.
        shop: the works' practice.
        first: "inch" or "mm": the unit that leads.
    """
    lines, heat = [], shop.heat
    if pour.coated:
        masks = "; ".join(f"of the {f.part}: {f.masked}" for f in pour.coated)
        lines.append(
            f"Powder coat {listed([f.part for f in pour.coated])} on the faces left as cast, after machining and "
            f"before the last grinding of sole and cheeks: {temperature(heat.bake_temperature, first)} metal "
            f"temperature for {heat.bake_time / 60:.0f} min. Mask every machined face ({masks}) and plug every tapped "
            f"hole. The bake is {pour.bake.advice}"
        )
    why: dict[str, list[str]] = {}
    for f in pour.bare:
        why.setdefault(f.why, []).append(f.part)
    lines += [
        f"Leave {listed(names)} bare, no powder coat: {said if len(names) == 1 else _plural(said)}"
        for said, names in why.items()
    ]
    return lines


def _plural(why: str) -> str:
    swaps = {"it is handled and rubs": "they are handled and rub", "it does not rust": "they do not rust"}
    for one, many in swaps.items():
        why = why.replace(one, many)
    return why


def _alloy_steps(pour: AlloyPour, numbers: Mapping[str, Numbers], shop: ShopSpec, first: str) -> list[str]:
    n, metal, melt = pour.numbers, pour.metal, shop.melt
    taps, ladles = n.value("taps"), n.value("ladles_per_tap")
    tapped = mass(n.value("tap_mass_kg"), first)
    steps = [
        f"Melt {mass(n.value('charge_mass_kg'), first)} of {metal.name} in "
        f"{counted(n.value('furnace_charges'), 'furnace charge')} of up to {mass(melt.furnace, first)}. Tap "
        f"{times(taps)}, {tapped if taps == 1 else f'up to {tapped} each'}, into "
        f"{_ladles(ladles, n.value('tap_mass_kg'), melt.ladle, first)}, dried and preheated red."
    ]
    magnesium = pour.composition.get("Mg")
    treated = metal.family == "ductile-iron"
    checked = ""
    if magnesium is not None:
        low, high = magnesium
        checked = f" Magnesium, {low:g} to {high:g}, is checked after treatment, from the ladle."
    window = ", ".join(f"{e} {low:g} to {high:g}" for e, (low, high) in pour.composition.items() if e != "Mg")
    if window:
        ce = pour.carbon_equivalent
        aim = f"; carbon equivalent C + (Si + P)/3 of {ce[0]:g} to {ce[1]:g}" if ce else ""
        steps.append(
            f"Sample the furnace before every tap (wt %): {window}{aim}. Off the window: do what the table "
            f"“{melt_title(metal.name)}” above says in the furnace, stir, sample again, or pig the metal; never pour "
            "to find out." + checked
        )
    if treated:
        steps.append(
            f"Treat for {100 * melt.magnesium_residual:.3f} % residual magnesium, inoculate late, skim. The last "
            f"mould is full {n.value('time_limit_min'):.3g} min after treatment ({n['time_limit_min'].decided_by}); by "
            f"then {n.value('magnesium_at_limit_percent'):.3f} % is left. Later metal goes to pig: below 0.025 % the "
            "graphite is flake."
        )
    else:
        steps.append(
            f"Skim, and hold the slag back. The last mould is full "
            f"{n.value('time_limit_min'):.3g} min after tapping ({n['time_limit_min'].decided_by}); colder metal goes "
            "back to the furnace."
        )
    each = "; ".join(
        f"{name} {mass(numbers[name].value('poured_mass_per_mould_kg'), first)} in "
        f"{numbers[name].value('fill_time_s'):.1f} s"
        for name in pour.parts
    )
    w = pour.window
    steps.append(
        f"Pour at {temperature(w.aim_c, first)}, within {temperatures(w.low_c, w.high_c, first)} ({w.why}); sprue "
        f"kept full, each mould from one ladle without a stop. A mould, with the cup: {each}. For that the full ladle "
        f"has {temperature(n.value('ladle_temperature_c'), first)}, the furnace more: measure what filling takes."
    )
    steps.append(
        f"Moulds that the metal of one ladle fills: {_filled(pour.fills, lambda f: f.ladle)}. Moulds that one tap "
        f"fills, by metal and time: {_filled(pour.fills, lambda f: f.tap)}. Pig the heel."
    )
    return steps


def _ladles(count: int, tap_kg: float, ladle_kg: float, first: str) -> str:
    """Name the ladles that a tap is poured into: a little metal goes into a smaller ladle than the works' largest."""
    carried = ladle_name(min(tap_kg, ladle_kg))
    if carried != ladle_name(ladle_kg):
        return counted(count, *carried)
    each = "which holds" if count == 1 else "each of which holds"
    return f"{counted(count, *carried)}, {each} {mass(ladle_kg, first)}"


def _filled(fills: Sequence[Fill], count: Callable[[Fill], int]) -> str:
    return "; ".join(f"{f.part} {'all ' if count(f) == f.moulds else f'{count(f)} of '}{f.moulds}" for f in fills)
