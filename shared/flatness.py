"""Minimum-zone flatness and straightness of measured points.

The zone is the least distance between two parallel planes (or lines) that hold every point, measured square to them.
A linear program over z = ax + by + c gives the zone measured along z; solving it again in a frame turned to its own
answer makes it square to the planes. That finds the best zone near the first plane. For a moderate number of points
the answer is also sought among every direction that a least width can have (square to a face of the convex hull, or
to two of its edges), so that edge-edge contacts and bulky sets of points come out right as well.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import linprog
from scipy.spatial import ConvexHull, QhullError

from shared.errors import Fault, InputError

Array = NDArray[np.float64]

#: Points whose second extent is below this share of their first lie in a line.
LINE_SHARE = 1e-6
#: A third extent below this share of the first is no thickness but rounding.
PLANE_SHARE = 1e-13
#: Most hull edges for which every pair is tried; beyond it the linear program answers alone.
MOST_EDGES = 900


@dataclass(frozen=True)
class Zone:
    """Minimum zone of a set of points [mm]."""

    width: float
    normal: tuple[float, float, float]
    contact: str  # "3-1", "2-2", "3-3 or more", or "plane"
    least_squares: float  # peak to valley about the least-squares plane


def _points(points: object, least: int) -> Array:
    try:
        p = np.asarray(points, dtype=float)
    except (TypeError, ValueError):
        raise InputError(Fault("points", "x, y, z", "something else", "three numbers a point")) from None
    if p.ndim != 2 or p.shape[1] != 3:
        raise InputError(Fault("points", "x, y, z", f"{p.shape[-1] if p.ndim else 0} values a point", "three"))
    if not np.all(np.isfinite(p)):
        raise InputError(Fault("points", "x, y, z", "a value that is no number", "finite numbers"))
    if len(p) < least:
        raise InputError(
            Fault("points", "rows", f"{len(p)}", f"{least} points or more, not in a line", "fewer have no flatness")
        )
    return p - p.mean(axis=0)


def _own_frame(p: Array) -> tuple[Array, Array]:
    """Return the principal axes as rows (longest first) and the extents along them."""
    _, _, axes = np.linalg.svd(p, full_matrices=True)
    if np.linalg.det(axes) < 0:
        axes[2] *= -1
    return axes, np.ptp(p @ axes.T, axis=0)


def _vertical_zone(q: Array) -> tuple[float, float, float]:
    """Return (width, a, b) of the least zone |z - ax - by - c| <= width/2, measured along z, by linear program."""
    scale = np.ptp(q, axis=0)
    scale[scale == 0] = 1.0
    s = q / scale  # every column about one wide, so that the solver's tolerances mean something
    ones = np.ones(len(s))
    above = np.column_stack([-s[:, 0], -s[:, 1], -ones, -ones])
    below = np.column_stack([s[:, 0], s[:, 1], ones, -ones])
    out = linprog(
        [0, 0, 0, 1],
        A_ub=np.vstack([above, below]),
        b_ub=np.concatenate([-s[:, 2], s[:, 2]]),
        bounds=[(None, None)] * 3 + [(0, None)],
        method="highs-ds",
        options={"primal_feasibility_tolerance": 1e-10, "dual_feasibility_tolerance": 1e-10},
    )
    if not out.success:
        raise RuntimeError(f"linear program of the minimum zone: {out.message}")
    a, b = out.x[0] * scale[2] / scale[0], out.x[1] * scale[2] / scale[1]
    return float(np.ptp(q[:, 2] - a * q[:, 0] - b * q[:, 1])), float(a), float(b)


def _turned(normal: Array) -> Array:
    """Return a right-handed frame (rows) whose third axis is `normal`."""
    helper = np.eye(3)[int(np.argmin(np.abs(normal)))]
    u = np.cross(helper, normal)
    u /= np.linalg.norm(u)
    return np.vstack([u, np.cross(normal, u), normal])


def zone_by_program(points: object) -> tuple[float, Array]:
    """Return (width [mm], unit normal) of the zone near the least-squares plane, by repeated linear programs.

    Args:
        points: rows of x, y, z [mm].

    Raises:
        InputError: fewer than three points, points in a line, or values that are no numbers.
    """
    p = _points(points, 3)
    axes, extent = _own_frame(p)
    _refuse_line(extent)
    normal, best, best_normal = axes[2], float(extent[2]), axes[2]
    for _ in range(25):
        frame = _turned(normal)
        _, a, b = _vertical_zone(p @ frame.T)
        normal = np.array([-a, -b, 1.0]) @ frame
        normal /= np.linalg.norm(normal)
        width = float(np.ptp(p @ normal))
        if width >= best * (1 - 1e-12):
            if width < best:
                best, best_normal = width, normal
            break
        best, best_normal = width, normal
    return best, best_normal


def _refuse_line(extent: Array) -> None:
    if extent[0] == 0 or extent[1] < LINE_SHARE * extent[0]:
        raise InputError(
            Fault(
                "points",
                "x, y, z",
                "points in a line",
                "three points or more not in a line",
                "measure the plane's width",
            )
        )


def in_a_line_in_plan(points: object) -> bool:
    """Return True when the points, seen along z, lie in a line; their heights then say nothing of flatness.

    Args:
        points: rows of x, y, z [mm].

    Raises:
        InputError: fewer than three points, or values that are no numbers.
    """
    p = _points(points, 3)
    _, _, axes = np.linalg.svd(p[:, :2], full_matrices=True)
    extent = np.ptp(p[:, :2] @ axes.T, axis=0)
    return bool(extent[0] == 0 or extent[1] < LINE_SHARE * extent[0])


def _hull_directions(p: Array) -> tuple[Array, Array] | None:
    """Return (corners, unit directions to try) of the convex hull, or None when it is flat or too large."""
    axes, extent = _own_frame(p)
    if extent[2] <= PLANE_SHARE * extent[0]:
        return None
    # the hull's faces and edges do not change when the axes are stretched, and Qhull fares best on a round body
    try:
        hull = ConvexHull((p @ axes.T) / extent)
    except QhullError:
        return None
    edges = {tuple(sorted((int(f[i]), int(f[j])))) for f in hull.simplices for i, j in ((0, 1), (1, 2), (2, 0))}
    if len(edges) > MOST_EDGES:
        return None
    corners = p[hull.vertices]
    tri = p[hull.simplices]
    faces = np.cross(tri[:, 1] - tri[:, 0], tri[:, 2] - tri[:, 0])
    along = np.array([p[j] - p[i] for i, j in sorted(edges)])
    along /= np.linalg.norm(along, axis=1)[:, None]
    first, second = np.triu_indices(len(along), 1)
    crossed = np.cross(along[first], along[second])
    crossed = crossed[np.linalg.norm(crossed, axis=1) > 1e-14]
    both = np.vstack([faces / np.linalg.norm(faces, axis=1)[:, None].clip(1e-300), crossed])
    return corners, both / np.linalg.norm(both, axis=1)[:, None].clip(1e-300)


def zone_by_hull(points: object) -> tuple[float, Array] | None:
    """Return (width [mm], unit normal) of the least width over every direction, by convex hull; None when too large.

    Args:
        points: rows of x, y, z [mm].

    Raises:
        InputError: fewer than three points, points in a line, or values that are no numbers.
    """
    p = _points(points, 3)
    _refuse_line(_own_frame(p)[1])
    found = _hull_directions(p)
    if found is None:
        return None
    corners, directions = found
    best, normal = np.inf, directions[0]
    for block in np.array_split(directions, max(1, len(directions) * len(corners) // 2_000_000)):
        heights = block @ corners.T
        widths = heights.max(axis=1) - heights.min(axis=1)
        widths[np.linalg.norm(block, axis=1) < 0.5] = np.inf  # sliver faces without a direction
        k = int(np.argmin(widths))
        if widths[k] < best:
            best, normal = float(widths[k]), block[k]
    return best, normal


def least_squares(points: object) -> float:
    """Return the peak to valley about the least-squares plane, square to it [mm].

    Args:
        points: rows of x, y, z [mm].

    Raises:
        InputError: fewer than three points, points in a line, or values that are no numbers.
    """
    p = _points(points, 3)
    axes, extent = _own_frame(p)
    _refuse_line(extent)
    return float(np.ptp(p @ axes[2]))


def _contact(p: Array, normal: Array, width: float) -> str:
    h = p @ normal
    slack = max(1e-9 * width, 1e-12 * float(np.ptp(p)))
    top, low = p[h >= h.max() - slack], p[h <= h.min() + slack]
    n, m = len(np.unique(np.round(top, 9), axis=0)), len(np.unique(np.round(low, 9), axis=0))
    return f"{max(n, m)}-{min(n, m)}"


def minimum_zone(points: object) -> Zone:
    """Return the minimum-zone flatness of measured points.

    Args:
        points: rows of x, y, z [mm].

    Returns:
        Width of the zone [mm], its normal, the contacts, and the least-squares peak to valley for comparison.

    Raises:
        InputError: fewer than three points, points in a line, or values that are no numbers.

    Source: ISO 1101 (minimum zone); ISO 8512-2 clause 2 for surface plates.
    """
    p = _points(points, 3)
    axes, extent = _own_frame(p)
    _refuse_line(extent)
    if extent[2] <= PLANE_SHARE * extent[0]:
        return Zone(0.0, _plain(axes[2]), "plane", 0.0)
    width, normal = zone_by_program(p)
    by_hull = zone_by_hull(p)
    if by_hull is not None and by_hull[0] < width:
        width, normal = by_hull
    return Zone(width, _plain(normal), _contact(p, normal, width), float(extent[2]))


def _plain(normal: Array) -> tuple[float, float, float]:
    n = normal if normal[2] >= 0 else -normal
    return float(n[0]), float(n[1]), float(n[2])
