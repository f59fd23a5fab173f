"""Freezing: modulus, Chvorinov's rule, the mould constant, and what must feed the casting."""

from __future__ import annotations

import math
from dataclasses import dataclass

from shared.casting.alloy import Alloy
from shared.errors import Fault, InputError
from shared.tables import table

SOURCE = "Chvorinov's rule, as in M. C. Flemings, Solidification Processing (1974)"


def modulus(volume_mm3: float, area_mm2: float) -> float:
    """Return the modulus [mm]: volume [mm³] over the surface that loses heat to the mould [mm²].

    Raises:
        InputError: a value of 0 or less.
    """
    if not (volume_mm3 > 0.0 and area_mm2 > 0.0):
        read = f"{volume_mm3:g} mm³, {area_mm2:g} mm²"
        raise InputError(Fault("solidification", "volume and area", read, "more than 0"))
    return volume_mm3 / area_mm2


def block_modulus(a_mm: float, b_mm: float, c_mm: float) -> float:
    """Return the modulus of a block [mm] of sides a, b, c [mm], all six faces cooling."""
    return a_mm * b_mm * c_mm / (2.0 * (a_mm * b_mm + b_mm * c_mm + c_mm * a_mm))


def plate_modulus(thickness_mm: float) -> float:
    """Return the modulus [mm] of a large plate of a thickness [mm]."""
    return thickness_mm / 2.0


def bar_modulus(a_mm: float, b_mm: float) -> float:
    """Return the modulus [mm] of a long bar of section a × b [mm]."""
    return a_mm * b_mm / (2.0 * (a_mm + b_mm))


def cylinder_modulus(diameter_mm: float, height_mm: float) -> float:
    """Return the modulus [mm] of a cylinder of diameter and height [mm], all faces cooling."""
    return diameter_mm * height_mm / (2.0 * (diameter_mm + 2.0 * height_mm))


def freezing_time(modulus_mm: float, constant_s_cm: float, exponent: float = 2.0) -> float:
    """Return the time to freeze through [s]: B·(V/A)ⁿ.

    Args:
        modulus_mm: volume over cooling area [mm].
        constant_s_cm: mould constant [s/cmⁿ].
        exponent: n [-], 2 by theory, 1.5 to 2 in texts.

    Raises:
        InputError: a constant or exponent of 0 or less.
    """
    if not (constant_s_cm > 0.0 and exponent > 0.0):
        read = f"{constant_s_cm:g}, {exponent:g}"
        raise InputError(Fault("solidification", "constant, exponent", read, "more than 0"))
    return constant_s_cm * (modulus_mm / 10.0) ** exponent


def mould_constant_from(time_s: float, modulus_mm: float, exponent: float = 2.0) -> float:
    """Return the mould constant [s/cmⁿ] that one timed casting shows: its time [s] and modulus [mm]."""
    return time_s / (modulus_mm / 10.0) ** exponent


def mould_constant(
    metal: Alloy, superheat_k: float, mould_c: float = 25.0, sand: tuple[float, float, float] | None = None
) -> float:
    """Return the mould constant [s/cm²] of a metal in silica sand: mould insulating, metal at its freezing point.

    B = (π/4)·(ρH/(Tf − T0))²/(kρc of the sand), H = latent heat + specific heat × superheat.

    Args:
        metal: the alloy.
        superheat_k: pouring temperature above freezing [K].
        mould_c: mould at the start [°C].
        sand: conductivity [W/(m K)], density [kg/m³], specific heat [J/(kg K)]; default the table's silica sand.
    """
    rows = table("foundry")["mould_constant"]
    k, rho, c = sand or (rows["sand_conductivity"], rows["sand_density"], rows["sand_specific_heat"])
    freezing = (metal.solidus_c + metal.liquidus_c) / 2.0
    heat = metal.latent_heat_j_kg + metal.specific_heat_liquid_j_kgk * max(superheat_k, 0.0)
    per_m2 = math.pi / 4.0 * (metal.liquid_density_kg_m3 * heat / (freezing - mould_c)) ** 2 / (k * rho * c)
    return per_m2 / 1e4


def riser_diameter(modulus_mm: float, height_over_diameter: float = 1.0) -> float:
    """Return the diameter [mm] of a cylinder of given modulus [mm], all its faces cooling.

    Args:
        modulus_mm: modulus the riser must have [mm].
        height_over_diameter: h/d [-].
    """
    # M = d·h/(2(d + 2h)) with h = r·d
    return modulus_mm * 2.0 * (1.0 + 2.0 * height_over_diameter) / height_over_diameter


@dataclass(frozen=True)
class Feeding:
    """How one casting is to be fed."""

    method: str  # "gate", "riser" or "none"
    riser_modulus_mm: float
    riser_diameter_mm: float
    riser_height_mm: float
    neck_modulus_mm: float
    feed_volume_mm3: float
    decided_by: str
    advice: str


# a plain sand riser gives up about this share of its metal: handbook rule (memory)
RISER_EFFICIENCY = 0.14
RISER_HEIGHT_OVER_DIAMETER = 1.5


def feeding(metal: Alloy, volume_mm3: float, hot_modulus_mm: float, risers: int = 1) -> Feeding:
    """Return how a casting is fed: through its gate, or by risers of computed size.

    Ductile iron of a modulus below 4 mm is fed through a thick gate, since no riser stays open for it longer than
    the gate does; from 25 mm on, a rigid mould needs no riser. Between, and for bronze, each riser has a modulus of
    1.2 times the place it feeds and metal enough for the shrinkage.

    Args:
        metal: the alloy.
        volume_mm3: volume of one casting [mm³].
        hot_modulus_mm: modulus of the spot that freezes last [mm].
        risers: risers on one casting [-].
    """
    rows = table("foundry")
    rule, demand = rows["feeding"], float(rows["feed_demand"][metal.family]) / 100.0
    feed = demand * volume_mm3
    thin = rule["ductile_gate_feed_below_cm"] * 10.0
    if metal.is_iron and hot_modulus_mm < thin:
        advice = (
            f"modulus {hot_modulus_mm:.1f} mm is below {thin:g} mm: feed through the gate, thick runner and ingates "
            "at the heaviest boss; the iron's graphite expansion does the rest in a hard rammed mould"
        )
        return Feeding("gate", 0.0, 0.0, 0.0, rule["neck_ratio"] * hot_modulus_mm, feed, "modulus below 4 mm", advice)
    if metal.family == "ductile-iron" and hot_modulus_mm >= rule["ductile_riserless_from_cm"] * 10.0:
        advice = (
            "riserless only in a rigid mould, poured at or below about 1350 °C, CE 4.3 or more, several thin ingates"
        )
        return Feeding("none", 0.0, 0.0, 0.0, 0.0, feed, "modulus of 25 mm or more", advice)
    need = rule["feeder_ratio"] * hot_modulus_mm
    by_modulus = riser_diameter(need, RISER_HEIGHT_OVER_DIAMETER)
    # each riser feeds itself too: V·e = β(Vc/n + V)
    share = demand * volume_mm3 / risers / (RISER_EFFICIENCY - demand)
    by_volume = (share / (math.pi / 4.0 * RISER_HEIGHT_OVER_DIAMETER)) ** (1.0 / 3.0)
    d = max(by_modulus, by_volume)
    by = "modulus" if by_modulus >= by_volume else "feed metal"
    h, neck = RISER_HEIGHT_OVER_DIAMETER * d, rule["neck_ratio"] * hot_modulus_mm
    advice = f"neck modulus {neck:.1f} mm, blind: its top kept open to the air by a sand point, or insulated"
    return Feeding("riser", cylinder_modulus(d, h), d, h, neck, feed, by, advice)
