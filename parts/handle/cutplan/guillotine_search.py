"""Count limits: prices on scarce pieces tighten the table's bound, a best-first search over built rectangles proves.

The search joins rectangles side by side or one above the other, most promising first, and ends when no unfinished
rectangle can beat the best found.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from parts.handle.cutplan.guillotine_table import CutTable, Floats, PlanSpot

SEARCH_LIMIT = 60_000  # rectangles opened before the search gives up proving


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


def _used(table: CutTable, plan: Sequence[PlanSpot], n_items: int) -> NDArray[np.int64]:
    return np.bincount([table.variants[v].item for v, _, _ in plan], minlength=n_items)


def _trim(
    table: CutTable, plan: Sequence[PlanSpot], limit: NDArray[np.int64], values: Sequence[float]
) -> tuple[float, list[PlanSpot]]:
    """Return a plan with the pieces beyond their count taken out, and its value."""
    left = limit.copy()
    kept = []
    for v, x, y in plan:
        i = table.variants[v].item
        if left[i] > 0:
            left[i] -= 1
            kept.append((v, x, y))
    return sum(values[table.variants[v].item] for v, _, _ in kept), kept


def best_with_counts(
    table: CutTable, values: Sequence[float], limit: NDArray[np.int64]
) -> tuple[float, list[PlanSpot], float]:
    """Return best value, plan (variant, x, y) and bound under count limits."""
    n = len(values)
    prices = np.zeros(n)
    best_value, best_plan, bound = 0.0, list[PlanSpot](), math.inf
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
    table: CutTable,
    values: Sequence[float],
    limit: NDArray[np.int64],
    prices: Floats,
    f: Floats,
    best_value: float,
    best_plan: list[PlanSpot],
) -> tuple[float, list[PlanSpot], float]:
    """Best-first search from small rectangles to the whole board; returns best value, plan, bound."""
    n = len(values)
    rest, base = table.rest(f), float(prices @ limit)
    whole = all(float(v).is_integer() for v in values)
    slack = 1.0 - 1e-6 if whole else 1e-9  # with whole values only a gain of 1 counts
    built = _Built(np.zeros(1024, np.int64), np.zeros(1024, np.int64), np.zeros(1024), np.zeros(1024),
                   np.zeros((1024, n), np.int16))  # fmt: skip
    parents: list[PlanSpot] = []  # (first, second, 0 beside / 1 above) or (variant, -1, -1)
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


def _unfold(table: CutTable, built: _Built, parents: Sequence[PlanSpot], top: int) -> list[PlanSpot]:
    out: list[PlanSpot] = []
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
