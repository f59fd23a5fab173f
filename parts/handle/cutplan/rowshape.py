"""Outlines as rows: how far right and left a shape reaches in each row, and how close two shapes may lie.

A shape is cut into rows of one height; in each row it counts from its leftmost to its rightmost point, so a hollow that
opens sideways can be nested into and one that opens up or down only by shapes that come in from the side. Half the
saw's kerf and the shaping allowance are laid around every outline first, always on the safe side.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from parts.handle.blanks import Point, rotated

Floats = NDArray[np.float64]
ROW_MM = 1.0
_FINE = 4  # slices to a row


@dataclass(frozen=True)
class RowShape:
    """One outline in one posture. Rows start at the grown outline's lowest point, x at its leftmost."""

    kind: int
    turned_deg: float
    flipped: bool
    left: Floats  # by row [mm]
    right: Floats
    points: tuple[Point, ...]  # the bare outline in the frame of the grown one [mm]
    length: float  # of the grown outline along the board [mm]

    @property
    def rows(self) -> int:
        """Height in rows."""
        return len(self.left)


def posture(points: Sequence[Point], turned_deg: float, flipped: bool) -> list[Point]:
    """Return an outline [mm] turned over about its long axis (if asked), then turned [deg]."""
    turned = [(x, -y) for x, y in points] if flipped else list(points)
    return rotated(turned, turned_deg)


def _reach(points: Sequence[Point], low: float, slices: int, height: float) -> tuple[Floats, Floats]:
    """Return the least and greatest x of an outline in each slice; +inf and -inf where it is not."""
    left, right = np.full(slices, np.inf), np.full(slices, -np.inf)
    for (x0, y0), (x1, y1) in zip(points, [*points[1:], *points[:1]], strict=True):
        if y0 > y1:
            x0, y0, x1, y1 = x1, y1, x0, y0
        first = max(0, math.floor((y0 - low) / height - 1e-9))
        last = min(slices - 1, math.floor((y1 - low) / height + 1e-9))
        for s in range(first, last + 1):
            a, b = max(y0, low + s * height), min(y1, low + (s + 1) * height)
            if a > b:
                a = b = min(max(a, y0), y1)
            ends = [x0, x1] if y1 - y0 < 1e-12 else [x0 + (x1 - x0) * (y - y0) / (y1 - y0) for y in (a, b)]
            left[s], right[s] = min(left[s], *ends), max(right[s], *ends)
    return left, right


def row_shape(kind: int, points: Sequence[Point], turned_deg: float, flipped: bool, grow_mm: float) -> RowShape:
    """Return an outline's rows in one posture, grown all round.

    Args:
        kind: index of the piece.
        points: bare outline [mm].
        turned_deg: turn on the board [deg].
        flipped: turned over first.
        grow_mm: shaping allowance and half the kerf [mm].
    """
    turned = posture(points, turned_deg, flipped)
    low, high = min(y for _, y in turned) - grow_mm, max(y for _, y in turned) + grow_mm
    rows = math.ceil((high - low) / ROW_MM - 1e-9)
    fine = ROW_MM / _FINE
    bare_left, bare_right = _reach(turned, low, rows * _FINE, fine)
    left, right = np.full(rows * _FINE, np.inf), np.full(rows * _FINE, -np.inf)
    reach = math.ceil(grow_mm / fine) + 1
    for t in range(-reach, reach + 1):
        near = max(0, abs(t) - 1) * fine  # least distance of two slices that lie t apart
        if near > grow_mm:
            continue
        out = math.sqrt(grow_mm**2 - near**2)
        here = slice(max(0, t), rows * _FINE + min(0, t))
        there = slice(max(0, -t), rows * _FINE + min(0, -t))
        left[here] = np.minimum(left[here], bare_left[there] - out)
        right[here] = np.maximum(right[here], bare_right[there] + out)
    left, right = left.reshape(rows, _FINE).min(axis=1), right.reshape(rows, _FINE).max(axis=1)
    shift = float(left.min())
    moved = tuple((x - shift, y - low) for x, y in turned)
    return RowShape(kind, turned_deg, flipped, left - shift, right - shift, moved, float(right.max() - shift))


class Gaps:
    """For every two shapes and every difference of rows, how far apart their origins must be along the board."""

    def __init__(self, shapes: Sequence[RowShape]) -> None:
        self.tall = max(s.rows for s in shapes)
        n = len(shapes)
        # apart[a, b, tall + d]: least x_b - x_a when b lies right of a and d rows above it; -inf when rows never meet
        self.apart = np.full((n, n, 2 * self.tall + 1), -np.inf)
        offsets = np.arange(-self.tall, self.tall + 1)
        for a, one in enumerate(shapes):
            for b, two in enumerate(shapes):
                row = np.arange(one.rows)[None, :] - offsets[:, None]
                on = (row >= 0) & (row < two.rows)
                left = np.where(on, two.left[np.clip(row, 0, two.rows - 1)], np.inf)
                self.apart[a, b] = (one.right[None, :] - left).max(axis=1)
