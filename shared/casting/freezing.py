"""Solidification of a casting in its sand mould, computed: heat conduction with latent heat on a grid of cells.

Finite volumes in enthalpy form, so that latent heat is counted exactly; the metal freezes evenly between solidus and
liquidus. Mould filled at once, perfect contact between metal and sand, still metal, sand without moisture, nothing
lost at the outer edge of the sand reckoned with. A cell at the skin holds metal and sand at one temperature.

Time steps are Runge-Kutta-Legendre steps of first order (Meyer, Balsara & Aslam, Journal of Computational Physics 257
(2014), 594: s stages reach (s² + s)/2 explicit steps, stable and free of overshoot); value from memory, checked here
against the similarity solutions and plates of `shared.casting.stefan`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import sparse

from shared.casting.alloy import Alloy
from shared.casting.raycast import Floats
from shared.casting.solidification import mould_constant
from shared.casting.stefan import Sand
from shared.casting.voxels import Voxels

LEAST_FILL = 0.02  # a cell with less metal than this is sand
SAFE = 0.9  # share of the longest stable explicit step that is used
STEPS = 40  # in Chvorinov's time of the whole casting; with GROWTH they cost about 1 % of the time
GROWTH = 1.15  # of the step from one to the next: the first moments change fastest
FIRST_STEP = 0.02  # s
SAND_DEPTHS = 2.5  # sand reckoned with, in diffusion lengths √(a·t)
LASTS = 1.6  # the last spot takes about this many times as long as the whole casting's V/A says
TOO_LONG = 40.0  # times Chvorinov's time after which something must be wrong


@dataclass(frozen=True)
class Melt:
    """Metal with a freezing range. W/(m K), J/(kg K), kg/m³, J/kg, °C; `poured_c` is its temperature in the mould."""

    k_solid: float
    c_solid: float
    k_liquid: float
    c_liquid: float
    density: float
    latent_heat: float
    solidus_c: float
    liquidus_c: float
    poured_c: float

    @classmethod
    def of(cls, alloy: Alloy, poured_c: float) -> Melt:
        """Return an alloy's values, poured at a temperature [°C]."""
        return cls(
            alloy.conductivity_solid_w_mk,
            alloy.specific_heat_solid_j_kgk,
            alloy.conductivity_liquid_w_mk,
            alloy.specific_heat_liquid_j_kgk,
            alloy.liquid_density_kg_m3,
            alloy.latent_heat_j_kg,
            alloy.solidus_c,
            alloy.liquidus_c,
            poured_c,
        )


@dataclass(frozen=True)
class Freezing:
    """Times at which each cell begins to freeze and is frozen [s], NaN outside the metal; the last; stages taken."""

    begun: Floats
    seconds: Floats
    total_s: float
    stages: int


def sand_band(sand: Sand, expected_s: float) -> float:
    """Return how much sand about a casting takes part [mm], when its V/A lets it freeze in a time [s]."""
    return 1e3 * SAND_DEPTHS * math.sqrt(sand.k / (sand.c * sand.density) * LASTS * expected_s)


def expected_time(alloy: Alloy, poured_c: float, modulus_mm: float) -> float:
    """Return Chvorinov's time [s] of a casting of a modulus [mm] poured at a temperature [°C]."""
    superheat = poured_c - (alloy.solidus_c + alloy.liquidus_c) / 2.0
    return mould_constant(alloy, superheat) * (modulus_mm / 10.0) ** 2


class _Cells:
    """The cells that take part, as one row: their heat, and the temperature it means. SI, heat per m³ of cell."""

    def __init__(self, fill: Floats, used: NDArray[np.bool_], spacing_m: float, metal: Melt, sand: Sand) -> None:
        f = fill[used]
        self.fill = f
        sand_c = (1.0 - f) * sand.density * sand.c
        solid, liquid = f * metal.density * metal.c_solid + sand_c, f * metal.density * metal.c_liquid + sand_c
        freezing = metal.liquidus_c - metal.solidus_c
        latent = f * metal.density * metal.latent_heat + freezing * (solid + liquid) / 2.0
        # heat counts from solidus: below 0 solid, up to `latent` freezing, above it liquid
        poured = f * (metal.density * (metal.latent_heat + metal.c_liquid * (metal.poured_c - metal.liquidus_c)))
        poured += freezing * (f * metal.density * (metal.c_solid + metal.c_liquid) / 2.0)
        self.heat = poured + sand_c * (sand.start_c - metal.solidus_c)
        self.metal = np.flatnonzero(f > 0.0)
        m = self.metal
        self._per_solid, self._solid_m, self._liquid_m = 1.0 / solid, 1.0 / solid[m], 1.0 / liquid[m]
        self.latent, self._latent, self._mushy = latent, latent[m], freezing / latent[m]
        self.network = _network(used, spacing_m / 2.0 * (f / metal.k_solid + (1.0 - f) / sand.k), spacing_m)
        out = -self.network.diagonal()
        self.explicit_step = SAFE * float((np.minimum(solid, liquid) / np.where(out > 0, out, np.inf)).min())

    def gain(self, heat: Floats) -> Floats:
        """Return the heat each cell gains [W/m³] at these heats [J/m³]."""
        warm = heat * self._per_solid
        m = heat[self.metal]
        warm[self.metal] = (
            np.minimum(m, 0.0) * self._solid_m
            + np.clip(m, 0.0, self._latent) * self._mushy
            + np.maximum(m - self._latent, 0.0) * self._liquid_m
        )
        gained: Floats = self.network @ warm
        return gained


def _network(used: NDArray[np.bool_], half: Floats, spacing_m: float) -> sparse.csr_matrix:
    """Return the conductances between neighbours [W/(m³ K)]: two half cells in series, over the cell's volume."""
    n = len(half)
    number = np.full(used.shape, -1, dtype=np.int32)
    number[used] = np.arange(n, dtype=np.int32)
    ones, others = [], []
    for axis in range(3):
        a, b = np.moveaxis(number, axis, 0)[:-1].ravel(), np.moveaxis(number, axis, 0)[1:].ravel()
        both = (a >= 0) & (b >= 0)
        ones.append(a[both])
        others.append(b[both])
    a, b = np.concatenate(ones), np.concatenate(others)
    flow = 1.0 / ((half[a] + half[b]) * spacing_m)
    own = -(np.bincount(a, flow, n) + np.bincount(b, flow, n))
    each = np.arange(n, dtype=np.int32)
    rows, columns = np.concatenate([a, b, each]), np.concatenate([b, a, each])
    return sparse.coo_matrix((np.concatenate([flow, flow, own]), (rows, columns)), shape=(n, n)).tocsr()


def freeze(cells: Voxels, metal: Melt, sand: Sand, expected_s: float, band_mm: float) -> Freezing:
    """Compute when each cell of a casting is frozen.

    Half of a casting that is its own mirror image is reckoned, no heat crossing the middle.

    Args:
        cells: the casting with free cells about it, at least `band_mm` wide.
        metal: what is poured.
        sand: the mould.
        expected_s: about how long it takes [s], for the length of the time steps.
        band_mm: how much sand about the metal takes part [mm].

    Raises:
        ValueError: no metal, a pouring temperature below liquidus, or a time of 0 or less.
        RuntimeError: the casting does not freeze, which no casting in cold sand does.
    """
    if not expected_s > 0.0 or metal.poured_c < metal.liquidus_c:
        raise ValueError(f"expected time {expected_s:g} s, poured at {metal.poured_c:g} °C: cannot freeze that")
    mirror = cells.mirrored_axis()
    fill = np.where(cells.fill < LEAST_FILL, 0.0, cells.fill)
    if not fill.any():
        raise ValueError("no metal in the cells")
    used = cells.distance_outside() <= band_mm
    if mirror is not None:
        half = fill.shape[mirror] // 2
        fill, used = (np.moveaxis(np.moveaxis(a, mirror, 0)[half:], 0, mirror) for a in (fill, used))
    row = _Cells(fill, used, cells.spacing / 1e3, metal, sand)
    begun, frozen, stages = _run(row, expected_s)
    times = []
    for of_row in (begun, frozen):
        grid = np.full(fill.shape, np.nan)
        grid[used] = of_row
        times.append(grid if mirror is None else np.concatenate([np.flip(grid, mirror), grid], axis=mirror))
    return Freezing(times[0], times[1], float(np.nanmax(frozen)), stages)


def _run(row: _Cells, expected_s: float) -> tuple[Floats, Floats, int]:
    """Return when each cell's heat falls to liquidus and to solidus [s], NaN without metal, and the stages taken."""
    heat, t, dt, stages = row.heat, 0.0, FIRST_STEP, 0
    begun, frozen = (np.full(len(heat), np.nan) for _ in range(2))
    levels = ((begun, row.latent), (frozen, np.zeros(len(heat))))
    # cells at the skin are cold at once where the sand in them outweighs the metal
    for passed, level in levels:
        passed[row.metal] = np.where(heat[row.metal] <= level[row.metal], 0.0, np.nan)
    while (heat[row.metal] > 0.0).any():
        if t > TOO_LONG * expected_s:
            raise RuntimeError(f"not frozen after {t:.0f} s")
        s = max(2, math.ceil((math.sqrt(1.0 + 8.0 * dt / row.explicit_step) - 1.0) / 2.0))
        w = 2.0 * dt / (s * s + s)
        before, after = heat, heat + w * row.gain(heat)
        for j in range(2, s + 1):
            step = after + w * row.gain(after)
            before, after = after, ((2 * j - 1) * step - (j - 1) * before) / j
        stages += s
        for passed, level in levels:
            now = np.flatnonzero((heat > level) & (after <= level) & (row.fill > 0.0))
            passed[now] = t + dt * (heat[now] - level[now]) / (heat[now] - after[now])
        heat, t = after, t + dt
        dt = min(dt * GROWTH, expected_s / STEPS)
    return begun, frozen, stages
