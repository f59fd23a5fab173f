"""Outlines as rows: where a shape lies in each row, and where one shape keeps another from lying.

A shape is cut into rows of one height; each row holds the stretches the shape covers. Shaping allowance and half the
saw's kerf are laid around every outline first. All rounding is to the safe side.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from parts.handle.blanks import Point, rotated

Floats = NDArray[np.float64]
Stretch = tuple[float, float]
_FINE_MM = 0.25  # height of the slices that rows are gathered from
MOST_GAPS = 3  # separate forbidden stretches kept for two shapes; narrower gaps between them are closed


@dataclass(frozen=True)
class RowShape:
    """One outline in one posture. Its rows lie evenly about the grown outline's height, x starts at its leftmost."""

    kind: int
    turned_deg: float
    flipped: bool
    stretches: tuple[tuple[Stretch, ...], ...]  # by row [mm]
    points: tuple[Point, ...]  # the bare outline in the frame of the grown one [mm]
    length: float  # of the grown outline along the board [mm]
    row_mm: float  # height of a row [mm]
    plain: RowShape | None = None  # the shape that it is the mirror of
    along: bool = False  # whether x was turned about for it
    across: bool = False  # whether the rows were

    @property
    def rows(self) -> int:
        """Height in rows."""
        return len(self.stretches)

    @cached_property
    def left(self) -> Floats:
        """Least x in each row [mm]."""
        return np.array([s[0][0] for s in self.stretches])

    @cached_property
    def right(self) -> Floats:
        """Greatest x in each row [mm]."""
        return np.array([s[-1][1] for s in self.stretches])


def mirrored(shape: RowShape, along: bool, across: bool, turned_deg: float, flipped: bool) -> RowShape:
    """Return a shape seen in a mirror, exactly: rows lie evenly, so they fall on rows again.

    Args:
        shape: the shape.
        along: whether x is turned about.
        across: whether the rows are turned about.
        turned_deg: what the new posture is called [deg].
        flipped: and whether it counts as turned over.
    """
    long, tall = shape.length, shape.rows * shape.row_mm
    rows = shape.stretches[::-1] if across else shape.stretches
    if along:
        rows = tuple(tuple((long - b, long - a) for a, b in reversed(row)) for row in rows)
    points = tuple((long - x if along else x, tall - y if across else y) for x, y in shape.points)
    plain = shape.plain or shape
    seen = (shape.along != along, shape.across != across)
    return RowShape(shape.kind, turned_deg, flipped, rows, points, long, shape.row_mm, plain, *seen)


def posture(points: Sequence[Point], turned_deg: float, flipped: bool) -> list[Point]:
    """Return an outline [mm] turned over about its long axis (if asked), then turned [deg]."""
    turned = [(x, -y) for x, y in points] if flipped else list(points)
    return rotated(turned, turned_deg)


def merged(stretches: Sequence[Stretch]) -> list[Stretch]:
    """Return stretches joined where they touch, left to right."""
    out: list[Stretch] = []
    for low, high in sorted(stretches):
        if out and low <= out[-1][1] + 1e-9:
            out[-1] = (out[-1][0], max(out[-1][1], high))
        else:
            out.append((low, high))
    return out


def _slice(points: Sequence[Point], low: float, high: float) -> list[Stretch]:
    """Return what an outline covers between two heights [mm], a little too much rather than too little."""
    found: list[Stretch] = []
    edges = list(zip(points, [*points[1:], *points[:1]], strict=True))
    for (x0, y0), (x1, y1) in edges:
        if max(y0, y1) < low - 1e-9 or min(y0, y1) > high + 1e-9:
            continue
        if abs(y1 - y0) < 1e-12:
            ends = [x0, x1]
        else:
            ends = [x0 + (x1 - x0) * (min(max(y, min(y0, y1)), max(y0, y1)) - y0) / (y1 - y0) for y in (low, high)]
        found.append((min(ends), max(ends)))
    for y in (low, high):
        crossings = sorted(
            x0 + (x1 - x0) * (y - y0) / (y1 - y0) for (x0, y0), (x1, y1) in edges if (y0 <= y) != (y1 <= y)
        )
        found += list(zip(crossings[::2], crossings[1::2], strict=True))
    return merged(found)


def row_shape(
    kind: int, points: Sequence[Point], turned_deg: float, flipped: bool, grow_mm: float, row_mm: float = 1.0
) -> RowShape:
    """Return an outline's rows in one posture, grown all round.

    Args:
        kind: index of the piece.
        points: bare outline [mm].
        turned_deg: turn on the board [deg].
        flipped: turned over first.
        grow_mm: shaping allowance and half the kerf [mm].
        row_mm: height of a row [mm]; finer rows lose less to rounding and take longer.
    """
    turned = posture(points, turned_deg, flipped)
    low, high = min(y for _, y in turned) - grow_mm, max(y for _, y in turned) + grow_mm
    rows = math.ceil((high - low) / row_mm - 1e-9)
    low = (low + high - rows * row_mm) / 2
    to_row = max(1, round(row_mm / _FINE_MM))  # slices to a row
    fine = row_mm / to_row
    bare = [_slice(turned, low + s * fine, low + (s + 1) * fine) for s in range(rows * to_row)]
    reach = math.ceil(grow_mm / fine) + 1
    out: list[list[Stretch]] = [[] for _ in range(rows)]
    for s in range(rows * to_row):
        for t in range(max(0, s - reach), min(rows * to_row, s + reach + 1)):
            near = max(0, abs(t - s) - 1) * fine  # least distance of the two slices
            if near <= grow_mm:
                side = math.sqrt(grow_mm**2 - near**2)
                out[s // to_row] += [(a - side, b + side) for a, b in bare[t]]
    grown = [merged(row) for row in out]
    shift = min(row[0][0] for row in grown)
    stretches = tuple(tuple((a - shift, b - shift) for a, b in row) for row in grown)
    moved = tuple((x - shift, y - low) for x, y in turned)
    return RowShape(kind, turned_deg, flipped, stretches, moved, max(r[-1][1] for r in stretches), row_mm)


def _padded(shape: RowShape, slots: int) -> tuple[Floats, Floats]:
    low, high = np.full((shape.rows, slots), np.nan), np.full((shape.rows, slots), np.nan)
    for r, row in enumerate(shape.stretches):
        for k, (a, b) in enumerate(row):
            low[r, k], high[r, k] = a, b
    return low, high


def _joined(low: Floats, high: Floats) -> tuple[Floats, Floats]:
    """Join open stretches along the last axis; keep the widest gaps between them, MOST_GAPS stretches at most.

    Args:
        low: lower ends by case and stretch, +inf where there is none [mm].
        high: upper ends, -inf where there is none [mm].
    """
    order = np.argsort(low, axis=1, kind="stable")
    low, high = np.take_along_axis(low, order, 1), np.take_along_axis(high, order, 1)
    reach = np.maximum.accumulate(high, axis=1)
    gap = np.where(np.isfinite(low[:, 1:]), low[:, 1:] - reach[:, :-1], -np.inf)
    out_low, out_high = np.full((len(low), MOST_GAPS), np.inf), np.full((len(low), MOST_GAPS), -np.inf)
    cases = np.arange(len(low))
    widest = np.argsort(-gap, axis=1, kind="stable")[:, : MOST_GAPS - 1]
    open_ = np.take_along_axis(gap, widest, 1) > 1e-6
    # Ends of the joined stretches: the whole reach, broken at each kept gap.
    last = np.where(np.isfinite(low), np.arange(low.shape[1]), -1).max(axis=1)
    some = last >= 0
    breaks = np.sort(np.where(open_, widest, low.shape[1]), axis=1)
    begin = np.zeros(len(low), dtype=np.int64)
    for k in range(MOST_GAPS):
        end = np.minimum(breaks[:, k], last) if k < MOST_GAPS - 1 else last
        use = some & (begin <= last)
        out_low[use, k] = low[cases[use], begin[use]]
        out_high[use, k] = reach[cases[use], end[use]]
        begin = np.where(use, end + 1, begin)
    return out_low, out_high


class Gaps:
    """For every two shapes and every difference of rows, where the second may not lie, measured from the first."""

    def __init__(self, shapes: Sequence[RowShape]) -> None:
        self.tall = max(s.rows for s in shapes)
        n = len(shapes)
        # low/high[a, b, tall + d, k]: open stretches of x_b - x_a that are forbidden when b lies d rows above a
        size = (n, n, 2 * self.tall + 1, MOST_GAPS)
        self.low, self.high = np.full(size, np.inf), np.full(size, -np.inf)
        slots = max(len(row) for s in shapes for row in s.stretches)
        padded = [_padded(s, slots) for s in shapes]
        # two shapes mirrored together keep each other off as before, seen in the mirror
        known: dict[tuple[int, int, bool, bool], tuple[int, int]] = {}
        for a, first in enumerate(shapes):
            for b, second in enumerate(shapes[a:], a):
                seen = first.along != second.along, first.across != second.across
                pair = (id(first.plain or first), id(second.plain or second), *seen)
                like = known.setdefault(pair, (a, b))
                if like == (a, b):
                    self.low[a, b], self.high[a, b] = self._forbidden(padded[a], padded[b])
                else:
                    self.low[a, b], self.high[a, b] = self._in_mirror(shapes, like, first)
                if a != b:  # seen from the other shape, everything is turned about
                    self.low[b, a], self.high[b, a] = -self.high[a, b, ::-1], -self.low[a, b, ::-1]

    def _forbidden(self, a: tuple[Floats, Floats], b: tuple[Floats, Floats]) -> tuple[Floats, Floats]:
        """Return where shape b may not lie, by difference of rows, from the padded stretches of both."""
        offsets = np.arange(-self.tall, self.tall + 1)
        (a_low, a_high), (b_low, b_high) = a, b
        row = np.arange(len(a_low))[None, :] - offsets[:, None]
        on = (row >= 0) & (row < len(b_low))
        at = np.clip(row, 0, len(b_low) - 1)
        low = a_low[None, :, :, None] - b_high[at][:, :, None, :]
        high = a_high[None, :, :, None] - b_low[at][:, :, None, :]
        there = on[:, :, None, None] & ~np.isnan(low)
        low = np.where(there, low, np.inf).reshape(len(offsets), -1)
        high = np.where(there, high, -np.inf).reshape(len(offsets), -1)
        return _joined(low, high)

    def _in_mirror(self, shapes: Sequence[RowShape], like: tuple[int, int], now: RowShape) -> tuple[Floats, Floats]:
        """Return what a pair forbids that is another pair, `like`, seen in the mirror that makes its first `now`."""
        a, b = (shapes[i] for i in like)
        low, high = self.low[like], self.high[like]
        if now.along != a.along:
            low, high = a.length - b.length - high, a.length - b.length - low
        if now.across != a.across:
            # b's foot, d rows above a's, comes to lie as many rows above it as b's head then lies below a's
            moved = np.arange(-self.tall, self.tall + 1)
            at = a.rows - b.rows - moved + self.tall
            on = (at >= 0) & (at < len(moved))
            at = np.clip(at, 0, len(moved) - 1)
            low = np.where(on[:, None], low[at], np.inf)
            high = np.where(on[:, None], high[at], -np.inf)
        return low, high
