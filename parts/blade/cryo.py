"""Cold treatment: what is left of the austenite, the set point, the nitrogen it takes and the oxygen it leaves."""

from __future__ import annotations

import math
from typing import Any

from parts.blade.hardness import steel_name
from parts.blade.temper import c_to_f
from shared.errors import Fault, InputError
from shared.record import Value
from shared.tables import table

KELVIN = 273.15
#: Hottest start of a cool-down that the heat-capacity table is drawn out to [degC].
HOTTEST_START_C = 150.0

CAUTIONS = (
    "Reckon the oxygen left in the room before the liquid is poured: near the release it is far lower than the even "
    "mixture, and only the free volume of the room counts.",
    "Liquid nitrogen: cold burns (loose dry cryogenic gloves, face shield, long sleeves), never in a closed vessel, "
    "vent to the open air, an oxygen alarm at breathing height, never alone.",
    "Steel at this temperature burns skin and is brittle; warm it in still air, dry, before it is tempered.",
    "The supplier's safety data, local codes and licensed practice rule over this reckoning.",
)


def retained_austenite(ms_c: float, temperature_c: float) -> float:
    """Return the share of austenite left after cooling [-]: exp(-0.011*(Ms - T)); 1 at or above Ms.

    A trend only for steels of 5 or 12 percent chromium: the law was measured on plain Fe-C.

    Args:
        ms_c: martensite start Ms [degC].
        temperature_c: lowest temperature reached [degC].

    Source: Koistinen and Marburger, Acta Metallurgica 7 (1959) 59-60 (from memory).
    """
    k = float(table("steel")["koistinen_marburger"]["coefficient_per_K"])
    return 1.0 if temperature_c >= ms_c else math.exp(-k * (ms_c - temperature_c))


def martensite_start_c(steel: str) -> tuple[float, float]:
    """Return the lowest and highest measured martensite start of a steel [degC].

    No formula is used: with the carbon of a tool steel they fall 80 degC and more below what is measured.

    Raises:
        InputError: unknown steel.
    """
    name = steel_name(steel)
    low, high = table("steel")["martensite_start"][f"{'E52100' if name == '52100' else name}_c"]
    return float(low), float(high)


def retained_after(steel: str, temperature_c: float) -> tuple[float, float]:
    """Return the least and greatest share of austenite left [-] in a steel cooled to a temperature [degC]."""
    low, high = martensite_start_c(steel)
    return retained_austenite(high, temperature_c), retained_austenite(low, temperature_c)


class SetPoint(Value):
    """A cold-treatment set point, judged for liquid nitrogen at one atmosphere."""

    temperature_c: float
    reached_c: float  # what liquid nitrogen can hold
    warnings: tuple[str, ...]


def boiling_c() -> float:
    """Return the boiling point of liquid nitrogen at one atmosphere [degC]."""
    return float(table("steel")["nitrogen"]["boiling_k"]) - KELVIN


def freezing_c() -> float:
    """Return the triple point of nitrogen [degC], below which it is solid."""
    return float(table("steel")["nitrogen"]["triple_point_k"]) - KELVIN


def set_point(temperature_c: float) -> SetPoint:
    """Judge a cold-treatment set point.

    Args:
        temperature_c: as written down [degC].

    Raises:
        InputError: below the freezing point of nitrogen, which no liquid-nitrogen box reaches.
    """
    f, boil, freeze = c_to_f(temperature_c), boiling_c(), freezing_c()
    below = c_to_f(boil) - f
    if temperature_c < freeze - 0.01:
        raise InputError(
            Fault(
                "cold treatment",
                "set point",
                f"{f:.1f} F ({temperature_c:.1f} C), {below:.1f} F below the boiling point of nitrogen",
                f"{c_to_f(boil):.1f} F ({boil:.1f} C) or warmer; nitrogen freezes at {c_to_f(freeze):.1f} F",
                "a misprint or a mix-up of scales is likely: -196 C is -320 F; the usual set point is -300 F (-184 C)",
            )
        )
    if temperature_c < boil - 0.05:
        return SetPoint(
            temperature_c,
            boil,
            (
                f"set point {f:.1f} F lies {below:.1f} F below the boiling point of liquid nitrogen "
                f"({c_to_f(boil):.1f} F, {boil:.1f} C): the box will never reach it and may dose without end",
            ),
        )
    return SetPoint(temperature_c, temperature_c, ())


def enthalpy(from_c: float, to_c: float) -> float:
    """Return the heat a kilogram of steel gives up between two temperatures [kJ/kg]; from and to [degC].

    Raises:
        InputError: outside -223 to 150 degC.

    Source: integral of the heat capacity of iron, table `iron_heat_capacity` (from memory, about 2 percent).
    """
    import numpy as np
    from scipy.interpolate import CubicSpline  # slow to load, and only cold treatment needs it

    data = table("steel")["iron_heat_capacity"]
    t, cp = np.array(data["t_k"], float), np.array(data["cp_j_gk"], float)
    spline = CubicSpline(t, cp)
    last, slope = float(t[-1]), float((cp[-1] - cp[-2]) / (t[-1] - t[-2]))

    def up_to(kelvin: float) -> float:
        inside = float(spline.integrate(float(t[0]), min(kelvin, last)))
        over = max(kelvin - last, 0.0)
        return inside + over * float(cp[-1]) + slope * over**2 / 2

    lowest = float(t[0]) - KELVIN
    for key, value in (("from", from_c), ("to", to_c)):
        if not lowest <= value <= HOTTEST_START_C:
            raise InputError(Fault("nitrogen", key, f"{value:.1f} C", f"{lowest:.0f} to {HOTTEST_START_C:g} C"))
    return up_to(from_c + KELVIN) - up_to(to_c + KELVIN)


class Nitrogen(Value):
    """Liquid nitrogen for a cool-down: for the steel alone."""

    heat_kj: float
    kg: float
    litres: float
    gas_m3: float  # at 70 F
    warnings: tuple[str, ...]


def nitrogen_needed(steel_kg: float, from_c: float, to_c: float) -> Nitrogen:
    """Return the liquid nitrogen that boils off to cool steel, its cold vapour wasted.

    The box, its baskets and its standing loss come on top and usually exceed it.

    Args:
        steel_kg: mass of steel [kg].
        from_c: start [degC].
        to_c: set point [degC].

    Raises:
        InputError: no mass, a set point that is not colder than the start, or one that nitrogen cannot reach.

    Source: heat of vaporisation 198.8 J/g and density 806.5 kg/m3, University of Wisconsin-Madison data sheet.
    """
    if steel_kg <= 0:
        raise InputError(Fault("nitrogen", "steel mass", f"{steel_kg:g} kg", "more than 0 kg"))
    if to_c >= from_c:
        raise InputError(
            Fault("nitrogen", "to", f"{to_c:.1f} C", f"colder than the start, {from_c:.1f} C", "from and to swapped?")
        )
    point = set_point(to_c)
    data = table("steel")["nitrogen"]
    if point.reached_c >= from_c:
        heat = 0.0
    else:
        heat = steel_kg * enthalpy(from_c, point.reached_c)
    kg = heat / float(data["latent_heat_j_g"])
    litres = kg / float(data["liquid_density_kg_m3"]) * 1000
    warnings = [*point.warnings]
    if point.reached_c != to_c:
        warnings.append(f"reckoned to {point.reached_c:.1f} C, the coldest that the liquid gives")
    return Nitrogen(heat, kg, litres, gas_m3(litres), tuple(warnings))


def gas_m3(litres: float) -> float:
    """Return the gas from litres of liquid nitrogen [m3] at 70 F."""
    return litres * float(table("steel")["nitrogen"]["gas_litres_per_litre"]) / 1000


def oxygen_after_release(room_m3: float, litres: float, ratio: float | None = None) -> float:
    """Return the oxygen left in a closed room after liquid nitrogen has boiled off in it [percent by volume].

    Args:
        room_m3: free volume of the room, without what stands in it [m3].
        litres: liquid nitrogen [l].
        ratio: litres of gas from a litre of liquid [-]; 700, on the safe side, when None.

    Raises:
        InputError: no room or a negative volume.

    Source: displacement form, University of Oxford safety policy S4/03 Appendix 1.
    """
    if room_m3 <= 0:
        raise InputError(Fault("oxygen", "room volume", f"{room_m3:g} m3", "more than 0 m3"))
    if litres < 0:
        raise InputError(Fault("oxygen", "nitrogen volume", f"{litres:g} l", "0 l or more"))
    used = float(table("steel")["nitrogen"]["gas_litres_per_litre_safety"]) if ratio is None else ratio
    gas = min(litres * used / 1000, room_m3)
    return float(table("steel")["oxygen"]["start_percent"]) * (1 - gas / room_m3)


def oxygen_fall_steady(room_m3: float, litres_per_day: float, air_changes_per_h: float, ageing: float = 2.0) -> float:
    """Return the steady fall of oxygen from evaporating vessels [percentage points].

    Args:
        room_m3: free volume [m3].
        litres_per_day: liquid lost a day by all vessels together [l].
        air_changes_per_h: ventilation [1/h].
        ageing: factor for ageing insulation [-].

    Source: University of Oxford safety policy S4/03 Appendix 1.
    """
    rate = ageing * float(table("steel")["nitrogen"]["gas_litres_per_litre_safety"]) * litres_per_day / (24 * 1000)
    return float(table("steel")["oxygen"]["start_percent"]) * rate / (room_m3 * air_changes_per_h)


def oxygen_warnings(percent: float) -> list[str]:
    """Return what an oxygen content [percent] means for people in the room; nothing at or above the alarm value."""
    alarm = float(table("steel")["oxygen"]["alarm_percent"])
    if percent >= alarm:
        return []
    return [
        f"below the alarm value of {alarm:g} percent: leave the room, ventilate, enter only with breathing apparatus; "
        "loss of consciousness comes without warning as oxygen falls further"
    ]


def cold_treatment() -> dict[str, Any]:
    """Return the cold-treatment table."""
    return dict(table("steel")["cold_treatment"])
