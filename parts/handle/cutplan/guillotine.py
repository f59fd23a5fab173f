"""One sheet or board, saw cuts edge to edge: the most valuable layout, proven.

Without count limits a dynamic program over all useful cut positions is exact. With them its value is only a bound;
prices on scarce pieces (Lagrange multipliers) tighten it, and a best-first search that builds rectangles from smaller
ones, side by side or one above the other, ends when no unfinished rectangle can beat the best found.
A kerf is dealt with by adding it to every piece and to the board.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce

import numpy as np

from parts.handle.cutplan.guillotine_search import best_with_counts
from parts.handle.cutplan.guillotine_table import CutTable, Variant, cut_positions

TABLE_LIMIT = 2_000_000  # cells of the exact table; a finer board is planned on a coarser rule and not called proven
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
            variants += [Variant(n, p, q, r) for p, q, r in turns if p <= length and q <= width]
        if not variants:
            return Layout(0.0, True, 0.0, ())
        table_size = len(cut_positions(length, [v.length for v in variants])) * len(
            cut_positions(width, [v.width for v in variants])
        )
        if table_size <= TABLE_LIMIT:
            break
        unit, exact = unit * 2, False
    values = [i.value if i.value > 0 else i.length * i.width for i in items]
    limit = np.array([10**6 if i.count is None else i.count for i in items], dtype=np.int64)
    for n in range(len(items)):
        most = max(((length // v.length) * (width // v.width) for v in variants if v.item == n), default=0)
        limit[n] = min(limit[n], most)
    table = CutTable(length, width, [v for v in variants if limit[v.item] > 0] or variants)
    value, plan, bound = best_with_counts(table, values, limit)
    return Layout(
        value,
        exact and bound <= value + 1e-6 * max(1.0, value),
        max(bound, value) if exact else math.inf,
        tuple(_laid(table, items, v, x, y, unit / scale) for v, x, y in sorted(plan, key=lambda t: (t[1], t[2]))),
    )


def _laid(table: CutTable, items: Sequence[Item], v: int, x: int, y: int, mm: float) -> Laid:
    one = table.variants[v]
    item = items[one.item]
    size = (item.width, item.length) if one.rotated else (item.length, item.width)
    return Laid(item.name, round(x * mm, 4), round(y * mm, 4), *size, one.rotated)
