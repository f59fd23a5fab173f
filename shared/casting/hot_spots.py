"""Where a casting freezes last: pools of liquid metal, when each is cut off from the rest, and what to do about it."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import label

from shared.casting.freezing import Freezing
from shared.casting.raycast import Floats
from shared.casting.voxels import Voxels
from shared.record import replace

DISTINCT = 0.05  # a pool must freeze this share of its time later than it was cut off, or the grid's grain makes pools
LEAST_CELLS = 4.0  # full cells that a pool must hold when it is cut off
Place = tuple[float, float, float]


@dataclass(frozen=True)
class HotSpot:
    """A place that freezes later than all about it. Place and sizes [mm], times [s]."""

    at: Place
    seconds: float  # when it is frozen
    cut_off_s: float  # when the last liquid way to a hotter place closes; 0 for the place that freezes last of all
    pool_mm3: float  # metal about it that is not frozen through at that moment; all of it for the last place
    liquid_mm3: float  # how much of that is still liquid
    modulus_mm: float  # of a plate in open sand that takes as long
    path_modulus_mm: float  # of the way that feeds it, by the time it closes; 0 for the last place
    twins: int  # 2 when the other half has the same

    @property
    def is_last(self) -> bool:
        """Whether it freezes last of all."""
        return self.cut_off_s == 0.0

    def shrinkage_mm3(self, demand: float) -> float:
        """Return the metal it asks for while it is cut off [mm³], at a share of what is then liquid [-]."""
        return demand * self.liquid_mm3

    @property
    def lighter_by(self) -> float:
        """Share [-] by which its section must shrink so that it no longer outlasts the way that feeds it."""
        return 0.0 if self.is_last else 1.0 - self.path_modulus_mm / self.modulus_mm


def hot_spots(cells: Voxels, times: Freezing, constant_s_cm2: float) -> list[HotSpot]:
    """Find the pools of a casting from the time at which each cell is frozen; the last to freeze comes first.

    Seen backwards in time, pools of liquid appear at the places that freeze last, grow, and meet: where two meet, the
    way between them closes, and the one with the earlier end is cut off from then on.

    Args:
        cells: the casting.
        times: when each cell begins to freeze and is frozen.
        constant_s_cm2: mould constant B [s/cm²] that turns a time into a modulus, M = √(t/B).
    """
    seconds = np.where((cells.fill >= 0.5) & np.isfinite(times.seconds), times.seconds, -1.0)
    axis = cells.mirrored_axis()
    found = []
    for peak, cut_off, volume in _pools(seconds, cells.fill):
        place = tuple(int(i) for i in np.unravel_index(peak, seconds.shape))
        t = float(seconds[place])
        if cut_off > 0.0 and (t - cut_off < DISTINCT * t or volume < LEAST_CELLS):
            continue
        modulus, path = (10.0 * math.sqrt(x / constant_s_cm2) for x in (t, cut_off))
        liquid = _liquid(cells.fill, times.begun, seconds, place, cut_off)
        cell = cells.spacing**3
        found.append(HotSpot(cells.centre(place), t, cut_off, volume * cell, liquid * cell, modulus, path, 1))
    found.sort(key=lambda s: (-s.seconds, s.at))
    return found if axis is None else _paired(found, cells, axis)


def _liquid(fill: Floats, begun: Floats, seconds: Floats, place: tuple[int, ...], cut_off: float) -> float:
    """Return how many cells' worth of a pool is liquid when it is cut off [s]; a cell freezes evenly in its time."""
    pools, _ = label(seconds > cut_off)
    mine = pools == pools[place]
    start, end = begun[mine], seconds[mine]
    left = np.clip((end - cut_off) / np.maximum(end - start, 1e-9), 0.0, 1.0)
    return float((fill[mine] * left).sum())


def _pools(seconds: Floats, fill: Floats) -> list[tuple[int, float, float]]:
    """Return each pool's last cell, when it is cut off [s] (0 for the last of all), and the cells it holds then."""
    shape = seconds.shape
    flat = seconds.ravel()
    order = np.argsort(-flat, kind="stable")
    order = order[flat[order] >= 0.0]
    rank: NDArray[np.int64] = np.full(flat.size, -1, dtype=np.int64)
    rank[order] = np.arange(len(order))
    near = _neighbours(order, rank, shape)
    times, weights = flat[order].tolist(), fill.ravel()[order].tolist()
    parent = list(range(len(order)))

    def root(i: int) -> int:
        while parent[i] != i:
            parent[i] = parent[parent[i]]
            i = parent[i]
        return i

    held, ended = [0.0] * len(order), []
    for i, row in enumerate(near):
        held[i] = weights[i]
        for k in row:
            if 0 <= k < i:
                a, b = root(i), root(k)
                if a == b:
                    continue
                # the pool whose last cell came first lives on
                a, b = min(a, b), max(a, b)
                if b != i:
                    ended.append((int(order[b]), times[i], held[b]))
                parent[b] = a
                held[a] += held[b]
    for i in range(len(order)):
        if parent[i] == i:
            ended.append((int(order[i]), 0.0, held[i]))
    return ended


def _neighbours(order: NDArray[np.int64], rank: NDArray[np.int64], shape: tuple[int, ...]) -> list[list[int]]:
    """Return the ranks of the six neighbours of each cell, -1 where there is none."""
    padded = np.pad(rank.reshape(shape), 1, constant_values=-1)
    x, y, z = np.unravel_index(order, shape)
    x, y, z = x + 1, y + 1, z + 1
    around = [padded[x - 1, y, z], padded[x + 1, y, z], padded[x, y - 1, z]]
    around += [padded[x, y + 1, z], padded[x, y, z - 1], padded[x, y, z + 1]]
    rows: list[list[int]] = np.stack(around, axis=1).tolist()
    return rows


def _paired(spots: list[HotSpot], cells: Voxels, axis: int) -> list[HotSpot]:
    """Return the spots of a casting whose halves are alike: twins counted, not listed; single ones on the middle."""
    middle = cells.origin[axis] + cells.fill.shape[axis] * cells.spacing / 2.0

    def at(s: HotSpot, where: float) -> Place:
        x, y, z = (where if k == axis else s.at[k] for k in range(3))
        return x, y, z

    out: list[HotSpot] = []
    for s in spots:
        image = at(s, 2.0 * middle - s.at[axis])
        twin = next((i for i, o in enumerate(out) if math.dist(o.at, image) < 1e-6), None)
        if twin is None:
            out.append(s)
        else:
            # the one at the greater coordinate stands for both
            out[twin] = replace(out[twin], at=max(out[twin].at, s.at, key=lambda p: p[axis]), twins=2)
    # a pool without a twin is its own mirror image: it reaches across the middle
    return [s if s.twins == 2 else replace(s, at=at(s, middle)) for s in out]
