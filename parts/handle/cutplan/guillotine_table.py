"""The exact table: best worth of every rectangle a board can be cut down to, when counts are free.

Only positions that are sums of piece sizes matter: any layout can be pushed into the corner onto such cuts.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
PlanSpot = tuple[int, int, int]  # variant, x, y


@dataclass(frozen=True)
class Variant:
    """One way an item may lie; sizes in steps, kerf added."""

    item: int
    length: int
    width: int
    rotated: bool


class CutTable:
    """Cut positions and the unlimited-count dynamic program over them."""

    def __init__(self, length: int, width: int, variants: Sequence[Variant]) -> None:
        self.variants = variants
        self.xs = cut_positions(length, [v.length for v in variants])
        self.ys = cut_positions(width, [v.width for v in variants])
        self.length, self.width = length, width
        self.x_down = _down(self.xs, length)
        self.y_down = _down(self.ys, width)
        nx, ny = len(self.xs), len(self.ys)
        # Partner of cut position p in a rectangle of size s: index of the largest position in what is left.
        self.halves_x = [self._halves(self.xs, self.x_down, i) for i in range(nx)]
        self.halves_y = [self._halves(self.ys, self.y_down, j) for j in range(ny)]

    @staticmethod
    def _halves(at: NDArray[np.int64], down: NDArray[np.int64], i: int) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
        stop = int(np.searchsorted(at, at[i] // 2, side="right"))
        first = np.arange(1, stop)  # position 0 is no cut
        return first, down[at[i] - at[first]]

    def best(self, worth: Sequence[float]) -> Floats:
        """Return the best worth of every rectangle [position, position] when counts are free."""
        nx, ny = len(self.xs), len(self.ys)
        f = np.zeros((nx, ny))
        for v in self.variants:
            if worth[v.item] > 0:
                i, j = int(np.searchsorted(self.xs, v.length)), int(np.searchsorted(self.ys, v.width))
                f[i, j] = max(f[i, j], worth[v.item])
        np.maximum.accumulate(f, axis=0, out=f)
        np.maximum.accumulate(f, axis=1, out=f)
        for i in range(nx):
            row = f[i]
            if i:
                np.maximum(row, f[i - 1], out=row)
            a, b = self.halves_x[i]
            if len(a):
                np.maximum(row, (f[a] + f[b]).max(axis=0), out=row)
            for j in range(1, ny):
                c, d = self.halves_y[j]
                best = max(row[j], row[j - 1])
                if len(c):
                    best = max(best, (row[c] + row[d]).max())
                row[j] = best
        return f

    def rest(self, f: Floats) -> Floats:
        """Return for a rectangle in the corner the most that can still be built around it [position, position]."""
        nx, ny = len(self.xs), len(self.ys)
        u = np.full((nx, ny), -np.inf)
        x_after = [self.x_down[np.minimum(self.xs[i] + self.xs[: self._room(self.xs, self.length, i)], self.length)]
                   for i in range(nx)]  # fmt: skip
        y_after = [self.y_down[np.minimum(self.ys[j] + self.ys[: self._room(self.ys, self.width, j)], self.width)]
                   for j in range(ny)]  # fmt: skip
        for i in range(nx - 1, -1, -1):
            to_x = x_after[i]
            use = to_x > i
            right, strip = to_x[use], np.flatnonzero(use)
            beside = (u[right] + f[strip]).max(axis=0) if len(right) else np.full(ny, -np.inf)
            wider = u[i + 1] if i + 1 < nx else np.full(ny, -np.inf)
            for j in range(ny - 1, -1, -1):
                best = max(beside[j], wider[j], 0.0)
                if j + 1 < ny:
                    best = max(best, u[i, j + 1])
                    up = y_after[j]
                    ok = up > j
                    if ok.any():
                        best = max(best, float((u[i, up[ok]] + f[i, np.flatnonzero(ok)]).max()))
                u[i, j] = best
        return u

    @staticmethod
    def _room(at: NDArray[np.int64], size: int, i: int) -> int:
        return int(np.searchsorted(at, size - at[i], side="right"))

    def trace(self, f: Floats, worth: Sequence[float]) -> list[PlanSpot]:
        """Return (variant, x, y) of a layout that has the table's worth on the whole board."""
        out: list[PlanSpot] = []
        todo = [(len(self.xs) - 1, len(self.ys) - 1, 0, 0)]
        while todo:
            i, j, x, y = todo.pop()
            here = f[i, j]
            if here <= 1e-9:
                continue
            if i and f[i - 1, j] >= here - 1e-9:
                todo.append((i - 1, j, x, y))
                continue
            if j and f[i, j - 1] >= here - 1e-9:
                todo.append((i, j - 1, x, y))
                continue
            fit = [
                n for n, v in enumerate(self.variants)
                if v.length <= self.xs[i] and v.width <= self.ys[j] and worth[v.item] >= here - 1e-9
            ]  # fmt: skip
            if fit:
                out.append((fit[0], x, y))
                continue
            a, b = self.halves_x[i]
            hit = np.flatnonzero(f[a, j] + f[b, j] >= here - 1e-9)
            if len(hit):
                p, q = int(a[hit[0]]), int(b[hit[0]])
                todo += [(p, j, x, y), (q, j, x + int(self.xs[p]), y)]
                continue
            c, d = self.halves_y[j]
            hit = np.flatnonzero(f[i, c] + f[i, d] >= here - 1e-9)
            p, q = int(c[hit[0]]), int(d[hit[0]])
            todo += [(i, p, x, y), (i, q, x, y + int(self.ys[p]))]
        return out


def cut_positions(size: int, lengths: Sequence[int]) -> NDArray[np.int64]:
    """Return 0 and every sum of lengths up to a size."""
    reach = np.zeros(size + 1, dtype=bool)
    reach[0] = True
    for length in sorted(set(lengths)):
        for start in range(length, size + 1, length):  # block by block, so that sums of one length chain up
            stop = min(start + length, size + 1)
            reach[start:stop] |= reach[start - length : stop - length]
    return np.flatnonzero(reach)


def _down(at: NDArray[np.int64], size: int) -> NDArray[np.int64]:
    """Return for each size the index of the largest position not above it."""
    return np.searchsorted(at, np.arange(size + 1), side="right") - 1
