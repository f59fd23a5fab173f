"""One sheet or board, saw cuts edge to edge: the most valuable layout, proven.

Without count limits a dynamic program over all useful cut positions is exact. With them its value is only a bound;
prices on scarce pieces (Lagrange multipliers) tighten it, and a best-first search that builds rectangles from smaller
ones, side by side or one above the other, ends when no unfinished rectangle can beat the best found.
A kerf is dealt with by adding it to every piece and to the board.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
TABLE_LIMIT = 2_000_000  # cells of the exact table; a finer board is planned on a coarser rule and not called proven
SEARCH_LIMIT = 60_000  # rectangles opened before the search gives up proving
RESOLUTION_MM = 0.01


@dataclass(frozen=True)
class Item:
    """One kind of piece [mm]; count None: any number; value 0 or less counts its area [mm2]."""

    name: str
    length: float
    width: float
    count: int | None
    value: float


@dataclass(frozen=True)
class Laid:
    """One piece on the board: lower-left corner and size as laid [mm]."""

    name: str
    x: float
    y: float
    length: float
    width: float
    rotated: bool


@dataclass(frozen=True)
class Layout:
    """The answer: value, whether proven the best, an upper bound, and where every piece lies."""

    value: float
    optimal: bool
    bound: float
    placements: tuple[Laid, ...]


@dataclass(frozen=True)
class _Variant:
    item: int
    length: int
    width: int
    rotated: bool


class _Table:
    """Cut positions and the unlimited-count dynamic program over them."""

    def __init__(self, length: int, width: int, variants: Sequence[_Variant]) -> None:
        self.variants = variants
        self.xs = _positions(length, [v.length for v in variants])
        self.ys = _positions(width, [v.width for v in variants])
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

    def trace(self, f: Floats, worth: Sequence[float]) -> list[tuple[int, int, int]]:
        """Return (variant, x, y) of a layout that has the table's worth on the whole board."""
        out: list[tuple[int, int, int]] = []
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
            hit = np.flatnonzero(f[a, j] + f[b, j] >= here - 1e-9) if len(a) else []
            if len(hit):
                p, q = int(a[hit[0]]), int(b[hit[0]])
                todo += [(p, j, x, y), (q, j, x + int(self.xs[p]), y)]
                continue
            c, d = self.halves_y[j]
            hit = np.flatnonzero(f[i, c] + f[i, d] >= here - 1e-9)
            p, q = int(c[hit[0]]), int(d[hit[0]])
            todo += [(i, p, x, y), (i, q, x, y + int(self.ys[p]))]
        return out


def _positions(size: int, lengths: Sequence[int]) -> NDArray[np.int64]:
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


@dataclass
class _Built:
    """Rectangles the search has closed, as columns that grow."""

    w: NDArray[np.int64]
    h: NDArray[np.int64]
    value: Floats
    priced: Floats
    counts: NDArray[np.int16]
    n: int = 0

    def add(self, w: int, h: int, value: float, priced: float, counts: NDArray[np.int16]) -> None:
        if self.n == len(self.w):
            for name in ("w", "h", "value", "priced", "counts"):
                old = getattr(self, name)
                setattr(self, name, np.concatenate([old, np.zeros_like(old)]))
        i = self.n
        self.w[i], self.h[i], self.value[i], self.priced[i], self.counts[i] = w, h, value, priced, counts
        self.n += 1


def _used(table: _Table, plan: Sequence[tuple[int, int, int]], n_items: int) -> NDArray[np.int64]:
    return np.bincount([table.variants[v].item for v, _, _ in plan], minlength=n_items)


def _trim(
    table: _Table, plan: Sequence[tuple[int, int, int]], limit: NDArray[np.int64], values: Sequence[float]
) -> tuple[float, list[tuple[int, int, int]]]:
    """Return a plan with the pieces beyond their count taken out, and its value."""
    left = limit.copy()
    kept = []
    for v, x, y in plan:
        i = table.variants[v].item
        if left[i] > 0:
            left[i] -= 1
            kept.append((v, x, y))
    return sum(values[table.variants[v].item] for v, _, _ in kept), kept


def solve_layout(
    board_length: float, board_width: float, items: Sequence[Item], kerf: float = 0.0, rotate: bool = False
) -> Layout:
    """Return the most valuable layout of a board by saw cuts edge to edge.

    Args:
        board_length: board size along x [mm].
        board_width: board size along y [mm].
        items: pieces; their length lies along x unless turned.
        kerf: what each cut takes [mm].
        rotate: whether pieces may be turned by 90 deg; leave False where grain runs along the length.

    Returns:
        The layout; `optimal` is True only when no better one exists. All sizes are kept to 0.01 mm.
    """
    scale = round(1 / RESOLUTION_MM)
    ints = [round(v * scale) for v in (board_length, board_width, kerf)]
    sizes = [(math.ceil(i.length * scale - 1e-6), math.ceil(i.width * scale - 1e-6)) for i in items]
    unit = reduce(math.gcd, [*ints, *(v for s in sizes for v in s)]) or 1
    exact = True
    while True:
        k = -(-ints[2] // unit)
        length, width = ints[0] // unit + k, ints[1] // unit + k
        variants = []
        for n, (le, wi) in enumerate(sizes):
            a, b = -(-le // unit) + k, -(-wi // unit) + k
            turns = [(a, b, False), (b, a, True)] if rotate and a != b else [(a, b, False)]
            variants += [_Variant(n, p, q, r) for p, q, r in turns if p <= length and q <= width]
        if not variants:
            return Layout(0.0, True, 0.0, ())
        table_size = len(_positions(length, [v.length for v in variants])) * len(
            _positions(width, [v.width for v in variants])
        )
        if table_size <= TABLE_LIMIT:
            break
        unit, exact = unit * 2, False
    values = [i.value if i.value > 0 else i.length * i.width for i in items]
    limit = np.array([10**6 if i.count is None else i.count for i in items], dtype=np.int64)
    for n in range(len(items)):
        most = max(((length // v.length) * (width // v.width) for v in variants if v.item == n), default=0)
        limit[n] = min(limit[n], most)
    table = _Table(length, width, [v for v in variants if limit[v.item] > 0] or variants)
    value, plan, bound = _constrained(table, values, limit)
    return Layout(
        value,
        exact and bound <= value + 1e-6 * max(1.0, value),
        max(bound, value) if exact else math.inf,
        tuple(_laid(table, items, v, x, y, unit / scale) for v, x, y in sorted(plan, key=lambda t: (t[1], t[2]))),
    )


def _laid(table: _Table, items: Sequence[Item], v: int, x: int, y: int, mm: float) -> Laid:
    one = table.variants[v]
    item = items[one.item]
    size = (item.width, item.length) if one.rotated else (item.length, item.width)
    return Laid(item.name, round(x * mm, 4), round(y * mm, 4), *size, one.rotated)


def _constrained(
    table: _Table, values: Sequence[float], limit: NDArray[np.int64]
) -> tuple[float, list[tuple[int, int, int]], float]:
    """Return best value, plan (variant, x, y) and bound under count limits."""
    n = len(values)
    prices = np.zeros(n)
    best_value, best_plan, bound = 0.0, list[tuple[int, int, int]](), math.inf
    best_prices, best_f = prices, np.zeros((0, 0))
    step, stale = 1.0, 0
    for _ in range(80):
        worth = np.array(values) - prices
        f = table.best(worth.tolist())
        here = float(f[-1, -1] + prices @ limit)
        plan = table.trace(f, worth.tolist())
        used = _used(table, plan, n)
        value, kept = _trim(table, plan, limit, values)
        if value > best_value:
            best_value, best_plan = value, kept
        if here < bound - 1e-9:
            bound, best_prices, best_f, stale = here, prices.copy(), f, 0
        else:
            stale += 1
        if bound <= best_value + 1e-9:
            return best_value, best_plan, bound
        over = used - limit
        if not (over > 0).any() and not (prices[over < 0] > 0).any():
            return best_value, best_plan, bound
        if stale >= 6:
            step, stale = step / 2, 0
            if step < 0.02:
                break
        over = np.where((prices <= 0) & (over < 0), 0, over)
        prices = np.maximum(0.0, prices + step * (here - best_value) / max(1e-9, float(over @ over)) * over)
    return _search(table, values, limit, best_prices, best_f, best_value, best_plan)


def _search(
    table: _Table,
    values: Sequence[float],
    limit: NDArray[np.int64],
    prices: Floats,
    f: Floats,
    best_value: float,
    best_plan: list[tuple[int, int, int]],
) -> tuple[float, list[tuple[int, int, int]], float]:
    """Best-first search from small rectangles to the whole board; returns best value, plan, bound."""
    n = len(values)
    rest, base = table.rest(f), float(prices @ limit)
    whole = all(float(v).is_integer() for v in values)
    slack = 1.0 - 1e-6 if whole else 1e-9  # with whole values only a gain of 1 counts
    built = _Built(np.zeros(1024, np.int64), np.zeros(1024, np.int64), np.zeros(1024), np.zeros(1024),
                   np.zeros((1024, n), np.int16))  # fmt: skip
    parents: list[tuple[int, int, int]] = []  # (first, second, 0 beside / 1 above) or (variant, -1, -1)
    heap: list[tuple[float, int]] = []
    waiting: dict[int, tuple[int, int, float, float, NDArray[np.int16], tuple[int, int, int]]] = {}
    seen: dict[bytes, list[tuple[int, int]]] = {}
    serial = 0
    best_built = -1

    def offer(w: int, h: int, value: float, priced: float, top: float, counts: NDArray[np.int16],
              how: tuple[int, int, int]) -> None:  # fmt: skip
        nonlocal serial
        key = counts.tobytes()
        known = seen.setdefault(key, [])
        if any(a <= w and b <= h for a, b in known):
            return
        known[:] = [(a, b) for a, b in known if not (w <= a and h <= b)]
        known.append((w, h))
        waiting[serial] = (w, h, value, priced, counts, how)
        heapq.heappush(heap, (-top, serial))
        serial += 1

    for v, one in enumerate(table.variants):
        counts = np.zeros(n, np.int16)
        counts[one.item] = 1
        priced = values[one.item] - prices[one.item]
        top = priced + base + rest[table.x_down[one.length], table.y_down[one.width]]
        if top > best_value + slack:
            offer(one.length, one.width, values[one.item], priced, top, counts, (v, -1, -1))
    bound = best_value
    cap = limit.astype(np.int16)
    while heap:
        top, number = heapq.heappop(heap)
        w, h, value, priced, counts, how = waiting.pop(number)
        if -top <= best_value + slack:
            heap.clear()
            break
        if (w, h) not in seen[counts.tobytes()]:
            continue  # a smaller one with the same pieces came later
        parents.append(how)
        built.add(w, h, value, priced, counts)
        me = built.n - 1
        if value > best_value + 1e-9:
            best_value, best_built = value, me
        if built.n > SEARCH_LIMIT:
            bound = -top
            break
        m = built.n
        ok = (built.counts[:m] + counts <= cap).all(axis=1)
        others = np.flatnonzero(ok)
        for way in (0, 1):
            if way == 0:
                nw, nh = built.w[others] + w, np.maximum(built.h[others], h)
            else:
                nw, nh = np.maximum(built.w[others], w), built.h[others] + h
            on = (nw <= table.length) & (nh <= table.width)
            who, nw, nh = others[on], nw[on], nh[on]
            tops = built.priced[who] + priced + base + rest[table.x_down[nw], table.y_down[nh]]
            for t in np.flatnonzero(tops > best_value + slack):
                o = int(who[t])
                both = built.counts[o] + counts
                offer(int(nw[t]), int(nh[t]), float(built.value[o] + value), float(built.priced[o] + priced),
                      float(tops[t]), both, (me, o, way))  # fmt: skip
    if best_built >= 0:
        best_plan = _unfold(table, built, parents, best_built)
    return best_value, best_plan, max(bound, best_value)


def _unfold(
    table: _Table, built: _Built, parents: Sequence[tuple[int, int, int]], top: int
) -> list[tuple[int, int, int]]:
    out: list[tuple[int, int, int]] = []
    todo = [(top, 0, 0)]
    while todo:
        r, x, y = todo.pop()
        first, second, way = parents[r]
        if second < 0:
            out.append((first, x, y))
            continue
        todo.append((first, x, y))
        todo.append((second, x + (int(built.w[first]) if way == 0 else 0), y + (int(built.h[first]) if way else 0)))
    return out
