"""Which of several surfaces is nearest to the eye at each spot of a view: a grid of depths. Lengths mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import distance_transform_edt

from shared.segments import Point
from shared.surface import Surface

AT_ONCE = 2_000_000  # samples that are worked out together
Way = tuple[float, float, float]
Mask = NDArray[np.bool_]
Depths = NDArray[np.float64]


@dataclass(frozen=True)
class Grid:
    """Spots of a view: least u and v [mm], step [mm], count along v and along u."""

    u: float
    v: float
    step: float
    shape: tuple[int, int]

    @staticmethod
    def over(surfaces: Sequence[Surface], right: Way, up: Way, step: float) -> Grid:
        """Return the grid that takes in surfaces, with a free spot all round.

        Args:
            surfaces: what is seen [mm].
            right: which way in the model the view's right runs, a unit vector.
            up: which way its up runs.
            step: of the grid [mm].
        """
        flat = np.concatenate([s.vertices @ np.array([right, up]).T for s in surfaces])
        low, high = flat.min(axis=0) - step, flat.max(axis=0) + step
        count = np.ceil((high - low) / step).astype(int) + 1
        return Grid(float(low[0]), float(low[1]), step, (int(count[1]), int(count[0])))

    def spots(self) -> tuple[Depths, Depths]:
        """Return u and v of every spot [mm], as arrays of the grid's shape."""
        us = self.u + self.step * np.arange(self.shape[1])
        vs = self.v + self.step * np.arange(self.shape[0])
        return tuple(np.meshgrid(us, vs))  # type: ignore[return-value]

    def area(self, mask: Mask) -> float:
        """Return the area of a mask [mm2]."""
        return float(mask.sum()) * self.step**2

    def inmost(self, mask: Mask) -> Point:
        """Return the spot of a mask that is farthest from its rim [mm]."""
        away = distance_transform_edt(np.pad(mask, 1))[1:-1, 1:-1]
        row, column = np.unravel_index(int(np.argmax(away)), self.shape)
        return self.u + self.step * int(column), self.v + self.step * int(row)


def depths(surface: Surface, grid: Grid, right: Way, up: Way, nearest: float = np.inf) -> Depths:
    """Return how near a surface comes to the eye at each spot [mm, growing toward the eye]; -inf where it is not seen.

    Args:
        surface: triangles, counter-clockwise seen from outside.
        grid: the spots.
        right: which way in the model the view's right runs, a unit vector.
        up: which way its up runs.
        nearest: what is nearer to the eye than this [mm] is taken away.
    """
    toward = np.cross(right, up)
    corners = (surface.vertices @ np.array([right, up, toward]).T)[surface.triangles]
    corners[:, :, :2] = (corners[:, :, :2] - (grid.u, grid.v)) / grid.step
    first, a, b = corners[:, 0], corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    twice = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
    low = np.ceil(corners[:, :, :2].min(axis=1) - 1e-9).astype(np.int64)
    span = np.floor(corners[:, :, :2].max(axis=1) + 1e-9).astype(np.int64) - low + 1
    # faces turned away are never seen, and a triangle between the spots meets none
    keep = (twice > 1e-9) & (span > 0).all(axis=1)
    first, a, b, twice, low, span = first[keep], a[keep], b[keep], twice[keep], low[keep], span[keep]
    found = np.full(grid.shape[0] * grid.shape[1], -np.inf)
    size = np.ceil(np.log2(span)).astype(np.int64)  # triangles of like extent go together
    for wide, high in np.unique(size, axis=0):
        i, j = (k.ravel() for k in np.meshgrid(np.arange(2**wide), np.arange(2**high)))
        rows = np.flatnonzero((size == (wide, high)).all(axis=1))
        for part in np.array_split(rows, max(1, len(rows) * len(i) // AT_ONCE)):
            column, row = low[part, :1] + i, low[part, 1:2] + j
            du, dv = column - first[part, :1], row - first[part, 1:2]
            s = (du * b[part, 1:2] - dv * b[part, :1]) / twice[part, None]
            t = (dv * a[part, :1] - du * a[part, 1:2]) / twice[part, None]
            depth = first[part, 2:] + s * a[part, 2:] + t * b[part, 2:]
            inside = (s >= -1e-9) & (t >= -1e-9) & (s + t <= 1 + 1e-9) & (depth <= nearest)
            np.maximum.at(found, (row * grid.shape[1] + column)[inside], depth[inside])
    return found.reshape(grid.shape)


def nearest_of(fields: Sequence[Depths]) -> list[Mask]:
    """Return for each grid of depths where it is the nearest of all."""
    first = np.argmax(np.stack(fields), axis=0)
    return [(first == i) & np.isfinite(f) for i, f in enumerate(fields)]
