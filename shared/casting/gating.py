"""Gating: head, velocity, choke, pouring time, and the areas of sprue, runner and ingates."""

from __future__ import annotations

import math
from dataclasses import dataclass

from shared.casting.alloy import Alloy
from shared.errors import Fault, InputError, RequestError
from shared.tables import table

G = 9.80665  # m/s², standard gravity
SOURCE = "Bernoulli as used in foundry texts (P. N. Rao; Heine, Loper & Rosenthal)"


def _above_zero(**values: float) -> None:
    faults = [Fault("gating", k, f"{v:g}", "more than 0") for k, v in values.items() if not v > 0.0]
    if faults:
        raise InputError(faults)


def velocity(head_mm: float) -> float:
    """Return the velocity of metal [m/s] that has fallen through a head [mm]: √(2gH)."""
    return math.sqrt(2.0 * G * head_mm / 1000.0)


def flow_rate(area_mm2: float, head_mm: float, coefficient: float = 1.0) -> float:
    """Return the flow [mm³/s] through an area [mm²] under a head [mm]; `coefficient` [-] counts the losses."""
    return coefficient * area_mm2 * velocity(head_mm) * 1000.0


def effective_head(head_mm: float, above_gate_mm: float, casting_height_mm: float) -> float:
    """Return the effective head [mm]: h − p²/(2c).

    Args:
        head_mm: metal level above the plane of choke or ingate, h [mm].
        above_gate_mm: height of the casting above the ingate, p [mm]; 0 for a casting all in the drag.
        casting_height_mm: whole height of the casting, c [mm].

    Raises:
        InputError: a height of 0 or less, or p more than c.
        RequestError: the casting rises above the metal level.
    """
    _above_zero(head=head_mm, casting_height=casting_height_mm)
    if not 0.0 <= above_gate_mm <= casting_height_mm:
        allowed = f"0 to {casting_height_mm:g} mm"
        raise InputError(Fault("gating", "height above the ingate", f"{above_gate_mm:g} mm", allowed))
    if above_gate_mm >= head_mm:
        raise RequestError(
            f"the casting stands {above_gate_mm:g} mm above the ingate but the metal only {head_mm:g} mm: "
            "a higher cope is needed"
        )
    return head_mm - above_gate_mm**2 / (2.0 * casting_height_mm)


def choke_area(mass_kg: float, density_kg_m3: float, head_mm: float, time_s: float, coefficient: float = 0.8) -> float:
    """Return the choke's area [mm²]: m/(ρ·t·C·√(2gH)).

    Args:
        mass_kg: all metal that passes the choke [kg].
        density_kg_m3: density of the LIQUID metal [kg/m³].
        head_mm: effective head [mm].
        time_s: pouring time [s].
        coefficient: discharge coefficient [-], more than 0, at most 1.

    Raises:
        InputError: a value out of its range.
    """
    _above_zero(mass=mass_kg, density=density_kg_m3, head=head_mm, time=time_s, coefficient=coefficient)
    if coefficient > 1.0:
        raise InputError(Fault("gating", "coefficient", f"{coefficient:g}", "more than 0 and at most 1"))
    return mass_kg / (density_kg_m3 * time_s * coefficient * velocity(head_mm)) * 1e6


def choke_time(
    mass_kg: float, density_kg_m3: float, head_mm: float, area_mm2: float, coefficient: float = 0.8
) -> float:
    """Return the pouring time [s] through a choke of `area_mm2` [mm²]; the other arguments as `choke_area`."""
    _above_zero(area=area_mm2)
    return choke_area(mass_kg, density_kg_m3, head_mm, 1.0, coefficient) / area_mm2


def bottom_fill_time(mould_area_mm2: float, gate_area_mm2: float, head_mm: float, height_mm: float) -> float:
    """Return the time [s] to fill a mould of constant section through a gate at its bottom, no losses.

    Args:
        mould_area_mm2: plan area of the mould [mm²].
        gate_area_mm2: area of the gate [mm²].
        head_mm: metal level above the gate [mm].
        height_mm: height of the mould [mm], at most the head.

    Raises:
        InputError: a value out of its range.
    """
    _above_zero(mould_area=mould_area_mm2, gate_area=gate_area_mm2, head=head_mm, height=height_mm)
    if height_mm > head_mm:
        raise InputError(Fault("gating", "mould height", f"{height_mm:g} mm", f"at most the head of {head_mm:g} mm"))
    h, c = head_mm / 1000.0, height_mm / 1000.0
    return mould_area_mm2 / gate_area_mm2 * 2.0 / math.sqrt(2.0 * G) * (math.sqrt(h) - math.sqrt(h - c))


def sprue_top_area(base_area_mm2: float, base_head_mm: float, top_head_mm: float) -> float:
    """Return the sprue's top area [mm²] at which the falling metal just fills it (no air drawn in).

    Args:
        base_area_mm2: area at the base [mm²].
        base_head_mm: metal level above the base [mm].
        top_head_mm: metal level above the sprue's top (depth of the basin) [mm].
    """
    _above_zero(base_area=base_area_mm2, base_head=base_head_mm, top_head=top_head_mm)
    return base_area_mm2 * math.sqrt(base_head_mm / top_head_mm)


def pouring_time_grey(mass_kg: float, section_mm: float, fluidity: float = 1.0) -> float:
    """Return the AFS pouring time of grey iron [s]: K(1.41 + T/14.59)√W.

    Args:
        mass_kg: poured mass [kg], up to 450.
        section_mm: average section [mm].
        fluidity: spiral fluidity in inches over 40 [-].
    """
    _above_zero(mass=mass_kg, section=section_mm)
    return fluidity * (1.41 + section_mm / 14.59) * math.sqrt(mass_kg)


def pouring_time_root(mass_kg: float, constant: float) -> float:
    """Return a pouring time [s] that goes by the square root of the poured mass [kg]: K₁√W."""
    return constant * math.sqrt(mass_kg)


def pouring_time(metal: Alloy, mass_kg: float, section_mm: float) -> float:
    """Return the usual pouring time of one mould [s].

    Args:
        metal: the alloy; its row says which rule.
        mass_kg: metal poured into the mould [kg].
        section_mm: average section of the casting [mm].

    Source: AFS and P. N. Rao, Manufacturing Technology vol. 1 (memory).
    """
    _above_zero(mass=mass_kg, section=section_mm)
    rows = table("foundry")["pouring_time"]
    if metal.pouring_time_rule == "grey":
        return pouring_time_grey(mass_kg, section_mm)
    if metal.pouring_time_rule == "ductile":
        k = next(r["k"] for r in rows["ductile_k"] if r["upto_mm"] < 0 or section_mm <= r["upto_mm"])
        return pouring_time_root(mass_kg, k)
    k = rows["brass"] if metal.pouring_time_rule == "brass" else rows["copper_bottom"]
    return float(k) * mass_kg ** (1.0 / 3.0)


@dataclass(frozen=True)
class GatingAreas:
    """Areas of the gating of one mould [mm²]."""

    sprue_base_mm2: float
    runner_mm2: float
    ingate_mm2: float
    ratio: tuple[float, float, float]
    choke_at: str

    @property
    def choke_mm2(self) -> float:
        """The least area, which sets the flow [mm²]."""
        return min(self.sprue_base_mm2, self.runner_mm2, self.ingate_mm2)

    @property
    def pressurised(self) -> bool:
        """Whether the choke is at the ingate."""
        return self.choke_at == "ingate"


def gating_areas(choke_mm2: float, ratio: tuple[float, float, float], choke_at: str) -> GatingAreas:
    """Return the areas of sprue base, all runners and all ingates from the choke and the gating ratio.

    Args:
        choke_mm2: choke area [mm²].
        ratio: sprue base : runner : ingate [-].
        choke_at: "ingate" or "sprue base"; must be the least of the ratio.

    Raises:
        InputError: the ratio's least part is not where the choke is said to be.
    """
    at = ratio[2] if choke_at == "ingate" else ratio[0]
    if at > min(ratio) + 1e-9:
        said = " : ".join(f"{r:g}" for r in ratio)
        raise InputError(Fault("gating", "ratio", said, f"a ratio whose least part is the {choke_at}"))
    unit = choke_mm2 / at
    return GatingAreas(ratio[0] * unit, ratio[1] * unit, ratio[2] * unit, ratio, choke_at)


def cope_lift(density_kg_m3: float, head_mm: float, projected_area_mm2: float) -> float:
    """Return the force [N] that lifts the cope: ρ·g·h·A.

    Args:
        density_kg_m3: density of the liquid [kg/m³].
        head_mm: metal level above the parting plane [mm].
        projected_area_mm2: plan area of all cavities that reach into the cope or touch it [mm²].
    """
    return density_kg_m3 * G * head_mm / 1000.0 * projected_area_mm2 / 1e6
