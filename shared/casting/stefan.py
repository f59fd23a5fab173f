"""Freezing by conduction: the classical similarity solutions, and a plate between two sand walls.

The similarity solutions check any transient solver; the plate is a one-dimensional enthalpy calculation.
Source: Alexiades & Solomon, Mathematical Modeling of Melting and Freezing Processes (1993), sec. 2.2;
Carslaw & Jaeger, Conduction of Heat in Solids (1959), ch. XI.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq
from scipy.special import erf, erfcx

from shared.casting.alloy import Alloy
from shared.errors import RequestError
from shared.tables import table


@dataclass(frozen=True)
class Metal:
    """Metal that freezes at one temperature. W/(m K), J/(kg K), kg/m³, J/kg, °C."""

    k_solid: float
    c_solid: float
    k_liquid: float
    c_liquid: float
    density: float
    latent_heat: float
    freezing_c: float

    @classmethod
    def of(cls, alloy: Alloy) -> Metal:
        """Return the values of an alloy row; it freezes at the middle of its range."""
        return cls(
            alloy.conductivity_solid_w_mk,
            alloy.specific_heat_solid_j_kgk,
            alloy.conductivity_liquid_w_mk,
            alloy.specific_heat_liquid_j_kgk,
            alloy.liquid_density_kg_m3,
            alloy.latent_heat_j_kg,
            (alloy.solidus_c + alloy.liquidus_c) / 2.0,
        )

    @property
    def diffusivity_solid(self) -> float:
        """Thermal diffusivity of the solid [m²/s]."""
        return self.k_solid / (self.density * self.c_solid)

    @property
    def diffusivity_liquid(self) -> float:
        """Thermal diffusivity of the liquid [m²/s]."""
        return self.k_liquid / (self.density * self.c_liquid)


@dataclass(frozen=True)
class Sand:
    """A sand mould. W/(m K), J/(kg K), kg/m³, °C."""

    k: float
    c: float
    density: float
    start_c: float = 25.0

    @classmethod
    def silica(cls) -> Sand:
        """Return the table's silica sand."""
        rows = table("foundry")["mould_constant"]
        return cls(rows["sand_conductivity"], rows["sand_specific_heat"], rows["sand_density"])

    @property
    def effusivity(self) -> float:
        """√(kρc) [J/(m² K √s)]."""
        return math.sqrt(self.k * self.c * self.density)


def one_phase(stefan_number: float) -> float:
    """Return λ [-] of the one-phase Stefan problem: √π·λ·exp(λ²)·erf(λ) = St; `stefan_number` [-] is cΔT/L."""
    return float(brentq(lambda x: math.sqrt(math.pi) * x * math.exp(x * x) * erf(x) - stefan_number, 1e-9, 6.0))


def two_phase(
    k_growing: float,
    a_growing: float,
    k_initial: float,
    a_initial: float,
    wall_k: float,
    far_k: float,
    density_latent: float,
) -> float:
    """Return λ [-] of the two-phase Stefan problem with a fixed wall temperature; the front is at 2λ√(a·t).

    Args:
        k_growing: conductivity of the growing phase [W/(m K)].
        a_growing: its diffusivity [m²/s].
        k_initial: conductivity of the phase that shrinks [W/(m K)].
        a_initial: its diffusivity [m²/s].
        wall_k: difference of wall and change temperature [K], positive.
        far_k: difference of initial and change temperature [K], 0 or positive.
        density_latent: density × latent heat [J/m³].
    """

    def balance(x: float) -> float:
        gain = k_growing * wall_k * math.exp(-x * x) / (math.sqrt(a_growing) * erf(x))
        # exp(-x²a_g/a_i)/erfc(x√(a_g/a_i)) = 1/erfcx, which does not underflow
        loss = k_initial * far_k / (math.sqrt(a_initial) * erfcx(x * math.sqrt(a_growing / a_initial)))
        return float(gain - loss - x * density_latent * math.sqrt(a_growing * math.pi))

    return float(brentq(balance, 1e-9, 5.0))


def sand_front(metal: Metal, sand: Sand, pouring_c: float) -> tuple[float, float]:
    """Return λ [-] and the interface temperature [°C] of half a space of metal poured on half a space of sand.

    Args:
        metal: the metal.
        sand: the mould.
        pouring_c: metal temperature at the start [°C], at or above freezing.

    Raises:
        RequestError: the superheat is more than a half-space of sand can take: no front forms.
    """
    b_m, b_s = sand.effusivity, math.sqrt(metal.k_solid * metal.density * metal.c_solid)
    b_l = math.sqrt(metal.k_liquid * metal.density * metal.c_liquid)
    most = b_m / b_l * (metal.freezing_c - sand.start_c)
    if pouring_c - metal.freezing_c >= most:
        raise RequestError(f"no front forms: superheat {pouring_c - metal.freezing_c:.1f} K, sand takes {most:.1f} K")
    a_s, a_l = metal.diffusivity_solid, metal.diffusivity_liquid

    def interface(x: float) -> float:
        e = float(erf(x))
        return (b_m * sand.start_c + b_s * metal.freezing_c / e) / (b_m + b_s / e)

    def balance(x: float) -> float:
        gain = b_s * (metal.freezing_c - interface(x)) * math.exp(-x * x) / erf(x)
        loss = b_l * (pouring_c - metal.freezing_c) / erfcx(x * math.sqrt(a_s / a_l))
        return float(gain - loss - x * metal.density * metal.latent_heat * math.sqrt(a_s * math.pi))

    x = float(brentq(balance, 1e-9, 5.0))
    return x, interface(x)


def greatest_superheat(metal: Metal, sand: Sand) -> float:
    """Return the superheat [K] below which a half-space of metal starts to freeze against sand at once."""
    b_l = math.sqrt(metal.k_liquid * metal.density * metal.c_liquid)
    return sand.effusivity / b_l * (metal.freezing_c - sand.start_c)


def plate_freezing_time(thickness_mm: float, metal: Metal, sand: Sand, pouring_c: float, cells: int = 12) -> float:
    """Return the time [s] in which a large plate between two sand walls is frozen through.

    One-dimensional enthalpy method, explicit steps, perfect contact, instant fill; half the plate is solved.

    Args:
        thickness_mm: thickness of the plate [mm].
        metal: the metal.
        sand: the mould.
        pouring_c: metal temperature at the start [°C].
        cells: cells across half the plate [-].
    """
    dx = thickness_mm / 2000.0 / cells
    # sand deep enough that its outer face stays cold: 4 diffusion lengths of the Chvorinov time
    heat = metal.latent_heat + metal.c_liquid * (pouring_c - metal.freezing_c)
    guess = math.pi / 4 * (metal.density * heat / (metal.freezing_c - sand.start_c)) ** 2 / sand.effusivity**2
    guess *= (thickness_mm / 2000.0) ** 2
    n_sand = math.ceil(4.0 * math.sqrt(sand.k / (sand.c * sand.density) * 1.5 * guess) / dx)
    n = n_sand + cells
    in_metal = np.arange(n) >= n_sand
    rho_c_solid, rho_c_liquid = metal.density * metal.c_solid, metal.density * metal.c_liquid
    rho_latent = metal.density * metal.latent_heat
    h = np.where(in_metal, rho_latent + rho_c_liquid * (pouring_c - metal.freezing_c), 0.0)
    sand_c = sand.c * sand.density
    fastest = max(metal.diffusivity_solid, metal.diffusivity_liquid, sand.k / sand_c)
    dt = 0.4 * dx * dx / fastest
    t, core = 0.0, n - 1
    while True:
        metal_t = metal.freezing_c + np.minimum(h, 0.0) / rho_c_solid + np.maximum(h - rho_latent, 0.0) / rho_c_liquid
        temp = np.where(in_metal, metal_t, sand.start_c + h / sand_c)
        k = np.where(in_metal, np.where(h >= rho_latent, metal.k_liquid, metal.k_solid), sand.k)
        flux = 2.0 * k[1:] * k[:-1] / (k[1:] + k[:-1]) * (temp[:-1] - temp[1:]) / dx
        change = np.zeros(n)
        change[:-1] -= flux
        change[1:] += flux
        before = h[core]
        h = h + dt / dx * change
        t += dt
        if h[core] <= 0.0:
            # the last cell froze within this step
            return t - dt * float(-h[core] / (before - h[core]))
