"""Where rectangles go on a page: a raster of 1 mm that knows what is taken. Paper mm."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Rect = tuple[float, float, float, float]
MARGIN = 4.0  # mm kept free round whatever is placed


class Page:
    """The drawing space of a sheet, cell by cell.

    Args:
        frame: the drawing space (u_min, v_min, u_max, v_max) [mm].
    """

    def __init__(self, frame: Rect) -> None:
        self.frame = frame
        self.taken = np.zeros((int(frame[3] - frame[1]), int(frame[2] - frame[0])), dtype=np.int32)

    def _cells(self, rect: Rect, margin: float = 0.0) -> tuple[int, int, int, int]:
        u0, v0 = self.frame[0], self.frame[1]
        return (math.floor(rect[0] - margin - u0 + 1e-6), math.floor(rect[1] - margin - v0 + 1e-6),
                math.ceil(rect[2] + margin - u0 - 1e-6), math.ceil(rect[3] + margin - v0 - 1e-6))  # fmt: skip

    def take(self, rect: Rect, by: int = 1) -> None:
        """Mark a rectangle as taken (or free again with -1)."""
        i0, j0, i1, j1 = self._cells(rect)
        self.taken[max(0, j0) : max(0, j1), max(0, i0) : max(0, i1)] += by

    def _free(self, w: int, h: int, total: NDArray[np.int64]) -> NDArray[np.bool_]:
        """Return for every cell whether a block of w by h cells with its lower left corner there is free."""
        out = np.zeros(self.taken.shape, dtype=bool)
        if h <= self.taken.shape[0] and w <= self.taken.shape[1]:
            count = total[h:, w:] - total[:-h, w:] - total[h:, :-w] + total[:-h, :-w]
            out[: count.shape[0], : count.shape[1]] = count == 0
        return out

    def places(self, rects: Sequence[Rect], margin: float = MARGIN) -> NDArray[np.bool_]:
        """Return for every cell (i, j) whether all rectangles, moved so that (0, 0) comes to the cell, are free."""
        total = np.zeros((self.taken.shape[0] + 1, self.taken.shape[1] + 1), dtype=np.int64)
        total[1:, 1:] = (self.taken > 0).cumsum(0).cumsum(1)
        good = np.ones(self.taken.shape, dtype=bool)
        for r in rects:
            i0, j0 = math.floor(r[0] - margin + 1e-6), math.floor(r[1] - margin + 1e-6)
            i1, j1 = math.ceil(r[2] + margin - 1e-6), math.ceil(r[3] + margin - 1e-6)
            good &= _shifted(self._free(i1 - i0, j1 - j0, total), i0, j0)
        return good

    def find(self, rects: Sequence[Rect], pull: tuple[float, float],
             margin: float = MARGIN) -> tuple[float, float] | None:  # fmt: skip
        """Return the best free place for rectangles that keep together.

        Args:
            rects: rectangles about a common origin [mm], with their lowest left corner at or right above (0, 0).
            pull: cost of going right and of going up [-]; negative pulls there.
            margin: free space round each [mm].

        Returns:
            Where the origin goes on the paper [mm], or None.
        """
        good = self.places(rects, margin)
        if not good.any():
            return None
        j, i = np.nonzero(good)
        cost = pull[0] * i + pull[1] * j
        best = int(np.argmin(cost))
        return self.frame[0] + float(i[best]), self.frame[1] + float(j[best])

    def centred(self, rects: Sequence[Rect], at: tuple[float, float], margin: float = MARGIN) -> tuple[float, float]:
        """Return the place half way between what hinders rectangles left and right, below and above."""
        good = self.places(rects, margin)
        i, j = round(at[0] - self.frame[0]), round(at[1] - self.frame[1])
        if not good[j, i]:
            return at
        for _ in range(2):
            i = _middle(good[j], i)
            j = _middle(good[:, i], j)
        return self.frame[0] + float(i), self.frame[1] + float(j)


def _middle(free: NDArray[np.bool_], at: int) -> int:
    lo = hi = at
    while lo > 0 and free[lo - 1]:
        lo -= 1
    while hi + 1 < len(free) and free[hi + 1]:
        hi += 1
    return (lo + hi) // 2


def _shifted(a: NDArray[np.bool_], di: int, dj: int) -> NDArray[np.bool_]:
    """Return b with b[j, i] = a[j + dj, i + di], False outside."""
    out = np.zeros_like(a)
    h, w = a.shape
    j0, j1 = max(0, -dj), min(h, h - dj)
    i0, i1 = max(0, -di), min(w, w - di)
    if j1 > j0 and i1 > i0:
        out[j0:j1, i0:i1] = a[j0 + dj : j1 + dj, i0 + di : i1 + di]
    return out
