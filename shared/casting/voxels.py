"""A solid as cells: how full of metal each cube of a grid is, from rays through its mesh. Lengths mm.

A row of cells is filled by the exact lengths of rays in metal; several rays a cell are averaged across it. Half-full
cells at the skin keep the volume right, to 1 % of the solid's, where a grid of full and empty cells would miss it by a
cell's breadth.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from scipy.ndimage import distance_transform_edt

from shared.casting.raycast import Floats, Triangles, cast

RAY_SPACING = 0.5  # mm: rays across a cell stand no farther apart
MIRROR = 0.01  # share of the metal by which two halves may differ and still be called alike


@dataclass(frozen=True)
class Voxels:
    """Cells of `spacing` [mm] from `origin` [mm]; `fill` is the share of metal in each, 0 to 1, axes x, y, z."""

    origin: tuple[float, float, float]
    spacing: float
    fill: Floats

    @property
    def volume(self) -> float:
        """Volume of the metal [mm³]."""
        return float(self.fill.sum()) * self.spacing**3

    def centre(self, index: tuple[int, ...]) -> tuple[float, float, float]:
        """Return the middle of one cell [mm]."""
        x, y, z = (self.origin[k] + (index[k] + 0.5) * self.spacing for k in range(3))
        return float(x), float(y), float(z)

    def mirrored_axis(self) -> int | None:
        """Return the axis about whose middle both halves are alike, or None; y is tried first, then x, z."""
        total = self.fill.sum()
        for axis in (1, 0, 2):
            if np.abs(self.fill - np.flip(self.fill, axis)).sum() <= MIRROR * total:
                return axis
        return None

    def distance_outside(self) -> Floats:
        """Return how far each cell's middle is from the nearest cell with metal [mm]; 0 in the metal."""
        far: Floats = distance_transform_edt(self.fill == 0.0, sampling=self.spacing)
        return far


def voxelise(mesh: Triangles, spacing: float, margin: float = 0.0) -> Voxels:
    """Fill a grid with a solid; the grid is symmetric about the middle of the solid's box.

    Args:
        mesh: closed mesh of the solid [mm].
        spacing: edge of a cell [mm].
        margin: free cells about the solid's box, at least this wide [mm].

    Raises:
        ValueError: a spacing of 0 or less, or a margin below 0.
    """
    if not (spacing > 0.0 and margin >= 0.0):
        raise ValueError(f"spacing {spacing:g} mm must be more than 0, margin {margin:g} mm 0 or more")
    low, high = mesh.vertices.min(axis=0), mesh.vertices.max(axis=0)
    n = [2 * math.ceil((high[k] - low[k]) / spacing / 2 + margin / spacing) for k in range(3)]
    origin = [(low[k] + high[k]) / 2 - n[k] * spacing / 2 for k in range(3)]
    each = math.ceil(spacing / RAY_SPACING)
    rows, columns = (origin[k] + (np.arange(n[k] * each) + 0.5) * spacing / each for k in (0, 1))
    hits = cast(mesh, 2, rows, columns)
    level = (hits.depth - origin[2]) / spacing
    cell = np.floor(level).astype(np.int64)
    above = 1.0 - (level - cell)  # share of the cell beyond the hit
    sign = np.where(hits.entering, 1.0, -1.0) / each**2
    # what a hit changes from its cell on; summed up along the ray it is how full each cell is
    shape = (n[0], n[1], n[2] + 2)
    place = ((hits.row // each) * shape[1] + hits.column // each) * shape[2] + cell
    places, amounts = np.concatenate([place, place + 1]), np.concatenate([sign * above, sign * (1.0 - above)])
    steps = np.bincount(places, weights=amounts, minlength=shape[0] * shape[1] * shape[2]).reshape(shape)
    fill = np.cumsum(steps, axis=2)[:, :, : n[2]]
    # sums of signed shares leave dust where there is no metal
    fill[np.abs(fill) < 1e-9] = 0.0
    return Voxels((float(origin[0]), float(origin[1]), float(origin[2])), spacing, np.clip(fill, 0.0, 1.0))


def spacing_for(volume: float, area: float, band: float, most_cells: int, finest: float, coarsest: float) -> float:
    """Return the cell edge [mm] with which a solid and a band of sand about it make about so many cells.

    Args:
        volume: of the solid [mm³].
        area: of its skin [mm²].
        band: thickness of the sand [mm].
        most_cells: cells wanted at most [-]; more come about only at `coarsest`.
        finest: least cell edge [mm].
        coarsest: greatest cell edge [mm].
    """
    return float(min(max(((volume + area * band) / most_cells) ** (1.0 / 3.0), finest), coarsest))
