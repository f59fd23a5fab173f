"""From sampled curves back to true lines, arcs and ellipses. Lengths mm, angles deg."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from shared.drawing.primitives import Curve, Ellipse
from shared.segments import Arc, Line, Point

FIT = 0.002  # mm: how near every sample must lie for a fit to count
SPECK = 0.005  # mm: a curve shorter than this is a point seen end-on
FLATTEST = 20000.0  # mm: a circle larger than this is taken for a curve or line, its centre being guesswork

Points = NDArray[np.float64]


def fit(points: Points, tolerance: float = FIT) -> Line | Arc | Ellipse | Curve | None:
    """Return the simplest primitive that runs through samples in order.

    Args:
        points: samples along the curve, both ends included, shape (n, 2) [mm].
        tolerance: largest distance of a sample from the primitive [mm].

    Returns:
        A line (over the whole extent, for an arc seen from its side folds back), arc or circle, ellipse, a curve
        through the samples, or None for a mere point.
    """
    middle = points.mean(axis=0)
    flat = points - middle
    _, _, axes = np.linalg.svd(flat, full_matrices=False)
    along, across = flat @ axes[0], flat @ axes[1]
    if np.ptp(along) < SPECK:
        return None
    if np.abs(across).max() <= tolerance:
        return _line(points, along)
    return _circle(points, tolerance) or _ellipse(points, tolerance) or Curve(tuple(_point(p) for p in points))


def _point(p: NDArray[np.float64]) -> Point:
    return float(p[0]), float(p[1])


def _line(points: Points, along: Points) -> Line:
    a, b = _point(points[int(along.argmin())]), _point(points[int(along.argmax())])
    return Line(a, b) if (round(a[0], 6), a[1]) < (round(b[0], 6), b[1]) else Line(b, a)


def _circle(points: Points, tolerance: float) -> Arc | None:
    middle = points.mean(axis=0)
    p = points - middle
    # least squares of x^2 + y^2 = 2 a x + 2 b y + c
    m = np.column_stack([2 * p, np.ones(len(p))])
    (a, b, c), *_ = np.linalg.lstsq(m, (p**2).sum(axis=1), rcond=None)
    square = c + a * a + b * b
    if square <= 0 or (radius := math.sqrt(square)) > FLATTEST:
        return None
    off = np.hypot(p[:, 0] - a, p[:, 1] - b) - radius
    if np.abs(off).max() > tolerance:
        return None
    centre = (float(a + middle[0]), float(b + middle[1]))
    angles = np.degrees(np.unwrap(np.arctan2(p[:, 1] - b, p[:, 0] - a)))
    return _counted(Arc(centre, radius, float(angles[0]), float(angles[-1] - angles[0])))


def _counted(arc: Arc) -> Arc:
    """Return the arc run counter-clockwise from an angle of 0 to 360, a whole circle from 0."""
    if abs(abs(arc.sweep) - 360.0) * math.radians(arc.radius) < SPECK:
        return Arc(arc.centre, arc.radius, 0.0, 360.0)
    if arc.sweep < 0:
        arc = arc.reversed()
    return Arc(arc.centre, arc.radius, arc.start_angle % 360.0, arc.sweep)


def counted(arc: Arc) -> Arc:
    """Return an arc in the one form that drawings use: counter-clockwise, start at 0 to 360 deg."""
    return _counted(arc)


def _ellipse(points: Points, tolerance: float) -> Ellipse | None:
    if len(points) < 7:
        return None
    middle, size = points.mean(axis=0), float(np.abs(points - points.mean(axis=0)).max())
    x, y = ((points - middle) / size).T
    # general conic through the samples: the right singular vector of the least singular value
    _, _, vt = np.linalg.svd(np.column_stack([x * x, x * y, y * y, x, y, np.ones(len(x))]))
    a, b, c, d, e, f = vt[-1]
    det = 4 * a * c - b * b
    if det <= 1e-9:
        return None
    centre = np.array([b * e - 2 * c * d, b * d - 2 * a * e]) / det
    value = f + (d * centre[0] + e * centre[1]) / 2
    lam, vec = np.linalg.eigh(np.array([[a, b / 2], [b / 2, c]]))
    squares = -value / lam
    if (squares <= 0).any():
        return None
    halves = np.sqrt(squares)
    k = int(halves.argmax())
    major = vec[:, k] * halves[k]
    if (major[0], major[1]) < (0.0, 0.0):
        major = -major
    ratio = float(halves[1 - k] / halves[k])
    unit = major / halves[k]
    p = np.column_stack([x, y]) - centre
    u, v = p @ unit / halves[k], (p[:, 1] * unit[0] - p[:, 0] * unit[1]) / halves[1 - k]
    # first-order distance from the ellipse: the implicit value over its gradient
    slope = 2 * np.hypot(u / halves[k], v / halves[1 - k])
    if np.abs((u * u + v * v - 1) / slope).max() * size > tolerance or halves[k] * size > FLATTEST:
        return None
    params = np.degrees(np.unwrap(np.arctan2(v, u)))
    first, last = float(params[0]), float(params[-1])
    if first > last:
        first, last = last, first
    if abs(last - first - 360.0) < 1e-3:
        first, last = 0.0, 360.0
    turns = 360.0 * math.floor(first / 360.0)
    c0 = centre * size + middle
    return Ellipse(_point(c0), _point(major * size), ratio, first - turns, last - turns)
