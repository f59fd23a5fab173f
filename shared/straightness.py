"""Minimum-zone straightness of a measured profile."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.spatial import ConvexHull, QhullError

from shared.errors import Fault, InputError


@dataclass(frozen=True)
class Straightness:
    """Straightness of a profile [mm], by the zone and by the older ways."""

    minimum_zone: float  # square to the zone's lines
    minimum_zone_vertical: float  # measured along z
    least_squares_vertical: float
    end_points_vertical: float


def straightness(x: Sequence[float], z: Sequence[float]) -> Straightness:
    """Return the straightness of points along a line.

    Args:
        x: stations [mm].
        z: heights [mm].

    Raises:
        InputError: fewer than two stations, unequal counts, or values that are no numbers.

    Source: ISO 1101 minimum zone; the least width of a polygon has one of its sides on a zone line.
    """
    xs, zs = np.asarray(x, dtype=float), np.asarray(z, dtype=float)
    if xs.shape != zs.shape or xs.ndim != 1 or len(xs) < 2 or np.ptp(xs) == 0:
        raise InputError(Fault("profile", "x, z", f"{len(xs)} points", "as many x as z, at two stations or more"))
    if not (np.all(np.isfinite(xs)) and np.all(np.isfinite(zs))):
        raise InputError(Fault("profile", "x, z", "a value that is no number", "finite numbers"))
    slope, level = np.polyfit(xs - xs.mean(), zs, 1)
    fitted = float(np.ptp(zs - level - slope * (xs - xs.mean())))
    first, last = int(np.argmin(xs)), int(np.argmax(xs))
    chord = (zs[last] - zs[first]) / (xs[last] - xs[first])
    off_chord = zs - zs[first] - chord * (xs - xs[first])
    # both zone lines pass outside every point, so the ends' line counts the greatest fall and rise together
    ends = float(max(off_chord.max(), 0.0) - min(off_chord.min(), 0.0))
    square, vertical = _least_widths(np.column_stack([xs, zs]))
    return Straightness(square, vertical, fitted, ends)


def _least_widths(p: np.ndarray) -> tuple[float, float]:
    """Return the least width square to the lines and along z, over the sides of the convex hull."""
    p = p - p.mean(axis=0)
    _, _, axes = np.linalg.svd(p, full_matrices=False)
    own = p @ axes.T
    extent = np.ptp(own, axis=0)
    if extent[1] <= 1e-14 * extent[0]:
        return 0.0, 0.0
    try:
        hull = ConvexHull(own / extent)
    except QhullError:
        return 0.0, 0.0
    square, vertical = np.inf, np.inf
    for i, j in hull.simplices:
        d = p[j] - p[i]
        width = float(np.ptp(p @ np.array([-d[1], d[0]])))
        square = min(square, width / float(np.hypot(*d)))
        if d[0] != 0:
            vertical = min(vertical, width / abs(float(d[0])))
    return square, vertical
