"""Flat pictures of a proof as arrays: freezing times in a section, wall thickness as seen along an axis. Lengths mm."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.ndimage import binary_dilation, distance_transform_edt, map_coordinates
from scipy.spatial import cKDTree

from shared.casting.proof import Proof
from shared.casting.raycast import Floats, cast, other_axes


@dataclass(frozen=True)
class Picture:
    """Values on pixels, NaN where there is nothing; `values[j, i]` stands at across[i], up[j] [mm]."""

    across_axis: int
    up_axis: int
    across: Floats
    up: Floats
    values: Floats

    @property
    def extent(self) -> tuple[float, float, float, float]:
        """Left, right, bottom and top edge [mm]."""
        da, du = (self.across[1] - self.across[0]) / 2, (self.up[1] - self.up[0]) / 2
        left, right = float(self.across[0] - da), float(self.across[-1] + da)
        return left, right, float(self.up[0] - du), float(self.up[-1] + du)


def section_normal(p: Proof) -> int:
    """Return the axis square to the section that shows most: the one the casting is alike about, else y."""
    axis = p.cells.mirrored_axis()
    return 1 if axis is None else axis


def freezing_section(p: Proof, pixel: float) -> Picture:
    """Return the time at which the metal is frozen [s] in the section through the place that freezes last.

    Args:
        p: the proof.
        pixel: size of a pixel [mm].
    """
    normal = section_normal(p)
    across, up = other_axes(normal)
    where = p.spots[0].at[normal]
    a, u = _line(p, across, pixel), _line(p, up, pixel)
    # a cell of metal and sand at the skin shows the time of the full one beside it, where there is one
    full = p.cells.fill > 0.95
    known = np.isfinite(p.freezing.seconds) & (full | ((p.cells.fill >= 0.5) & ~binary_dilation(full)))
    nearest = distance_transform_edt(~known, return_distances=False, return_indices=True)
    whole = p.freezing.seconds[tuple(nearest)]
    spot = np.empty((3, len(u), len(a)))
    for axis, values in ((normal, np.full((len(u), len(a)), where)), (across, a[None, :]), (up, u[:, None])):
        spot[axis] = (values - p.cells.origin[axis]) / p.cells.spacing - 0.5
    times = map_coordinates(whole, spot, order=1, mode="nearest")
    return Picture(across, up, a, u, np.where(_inside(p, normal, where, a, u), times, np.nan))


def _line(p: Proof, axis: int, pixel: float) -> Floats:
    level = p.case.casting.vertices[:, axis]
    return np.arange(float(level.min()) - pixel, float(level.max()) + 1.5 * pixel, pixel)


def _inside(p: Proof, normal: int, where: float, a: Floats, u: Floats) -> np.ndarray:
    """Return which pixels of a section lie in the metal."""
    _, up = other_axes(normal)
    plane = np.array([where + 1e-4])
    first, _ = other_axes(up)
    rows, columns = (plane, a) if first == normal else (a, plane)
    hits = cast(p.case.casting, up, rows, columns)
    ray = hits.column if first == normal else hits.row
    change = np.zeros((len(u) + 1, len(a)))
    np.add.at(change, (np.searchsorted(u, hits.depth), ray), np.where(hits.entering, 1.0, -1.0))
    return np.cumsum(change, axis=0)[:-1] > 0.5


def wall_view(p: Proof, axis: int, pixel: float) -> Picture:
    """Return the wall thickness [mm] of what is seen along an axis from its far end.

    Args:
        p: the proof.
        axis: along which one looks, back toward the origin.
        pixel: size of a pixel [mm].
    """
    across, up = other_axes(axis)
    a, u = _line(p, across, pixel), _line(p, up, pixel)
    hits = cast(p.case.casting, axis, a, u)
    # hits of a ray are in order: the last before the ray changes is what is seen
    last = np.flatnonzero(np.append((np.diff(hits.row) != 0) | (np.diff(hits.column) != 0), True))
    seen = hits.points(axis, a, u)[last]
    w = p.walls
    tree = cKDTree(w.at[w.is_wall])
    _, nearest = tree.query(seen)
    values = np.full((len(u), len(a)), np.nan)
    values[hits.column[last], hits.row[last]] = w.diameter[w.is_wall][nearest]
    return Picture(across, up, a, u, values)
