"""The master plan: one pattern a board so that the most sets come out, then the most of one board, then least footage.

Column generation: a linear program prices the pieces, the pattern finders answer with the best pattern of each board,
until none is worth more; that gives a bound. An integer program (HiGHS) then picks among all patterns found. Nothing
depends on the clock, so the same rack gives the same plan.
"""

from __future__ import annotations

import os
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import pairwise
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from parts.handle.cutplan.grid import MANY_BOARDS, Instance
from parts.handle.cutplan.pattern import Pattern

Floats = NDArray[np.float64]
MATCH_WORTH_BF = 3.0  # what a set out of one board is worth to this works; invented, common practice is to match
NODE_LIMIT = 150
ROUNDS, ROUNDS_A_KIND = 60, 10
ENOUGH_BF = 0.05  # pricing ends when all boards together could gain no more than this; the bound says it
IMPROVE_ROUNDS, IMPROVE_BOARDS, COVER_BOARDS = 4, 3, 25
COVER_BOARDS_MANY = 10  # on a large rack


@contextmanager
def quiet() -> Iterator[None]:
    """Keep the solver's own words, which it writes past Python, off standard output: a script may be reading it."""
    sys.stdout.flush()
    try:
        kept = os.dup(1)
    except OSError:  # no standard output at all
        yield
        return
    sink = os.open(os.devnull, os.O_WRONLY)
    try:
        os.dup2(sink, 1)
        yield
    finally:
        os.dup2(kept, 1)
        os.close(sink)
        os.close(kept)


class Finder(Protocol):
    """Finds the best pattern of each board."""

    def price(self, values: Floats, prices: Floats) -> list[tuple[float, Pattern | None]]:
        """Return value less weighed footage, by board, for piece values by board and kind; the pattern where it pays.

        It pays where it is worth more than the board's price.
        """

    def covering(self, target: Sequence[int], boards: Sequence[int]) -> list[Pattern]:
        """Return patterns of some boards that give at least a number of each kind, and little more."""


@dataclass
class Answer:
    """What the master plan settled on."""

    chosen: list[Pattern]
    sets: list[int]
    objective: float
    bound: float
    set_worth: float
    total_bf: float  # weighed footage of all boards
    pool: list[Pattern]  # every pattern found


def board_weights(inst: Instance) -> Floats:
    """Return what a foot of each board counts [-]: long clear boards are dearer, so that they are kept."""
    longest = max(b.board.length_mm for b in inst.boards)
    out = []
    for b in inst.boards:
        edges = sorted([0, b.length, *(x for d in b.defects for x in (d[0], d[2]))])
        clear = max((hi - lo for lo, hi in pairwise(edges)), default=0) * inst.step
        out.append(1 + 0.05 * min(1.0, clear / longest))
    return np.array(out)


class Master:
    """The linear and the integer program over the patterns found so far."""

    def __init__(self, inst: Instance, weights: Floats) -> None:
        self.inst, self.weights = inst, weights
        self.patterns: list[Pattern] = []
        self.keys: set[object] = set()
        self.copies = np.array([b.copies for b in inst.boards], dtype=float)
        self.total_bf = total = float(
            sum(b.board.board_feet * b.copies * w for b, w in zip(inst.boards, weights, strict=True))
        )
        wanted = sum(o.quantity for o in inst.orders)
        self.match = inst.practice.match_sets and any(len(o.blanks) > 1 for o in inst.orders)
        # A set outweighs all footage and all matching together, so sets come first of all.
        self.set_worth = total + (MATCH_WORTH_BF * wanted if self.match else 0.0) + 1.0
        self.pairs = [
            (b, o)
            for b, board in enumerate(inst.boards)
            for o in range(len(inst.orders))
            if self.match and len(inst.kinds_of(o)) > 1 and all(board.fits[i] for i in inst.kinds_of(o))
        ]

    def add(self, pattern: Pattern) -> bool:
        """Take a pattern in; False when an equal one is there or it is empty."""
        if not any(pattern.counts) or pattern.key in self.keys:
            return False
        self.keys.add(pattern.key)
        self.patterns.append(pattern)
        return True

    def _program(self) -> tuple[Floats, object, Floats]:
        from scipy.sparse import coo_array

        inst = self.inst
        n_o, n_m, n_k, n_b = len(inst.orders), len(self.pairs), len(inst.kinds), len(inst.boards)
        cost = [-self.set_worth] * n_o + [-MATCH_WORTH_BF] * n_m
        cost += [p.cost_bf * self.weights[p.board] for p in self.patterns]
        entries: list[tuple[int, int, float]] = [(i, k.order, 1.0) for i, k in enumerate(inst.kinds)]
        row = n_k + n_b
        pair_row: dict[tuple[int, int], int] = {}
        for c, (b, o) in enumerate(self.pairs):
            entries.append((row + o, n_o + c, 1.0))
            for i in inst.kinds_of(o):
                pair_row[b, i] = len(pair_row) + row + n_o
                entries.append((pair_row[b, i], n_o + c, 1.0))
        entries += [(row + o, o, -1.0) for o in range(n_o)]
        for c, p in enumerate(self.patterns, n_o + n_m):
            entries.append((n_k + p.board, c, 1.0))
            for i, count in enumerate(p.counts):
                if count:
                    entries.append((i, c, -float(count)))
                    if (p.board, i) in pair_row:
                        entries.append((pair_row[p.board, i], c, -float(count)))
        rows = row + n_o + len(pair_row)
        r, c_, v = zip(*entries, strict=True)
        matrix = coo_array((v, (r, c_)), shape=(rows, len(cost))).tocsr()
        limit = np.zeros(rows)
        limit[n_k : n_k + n_b] = self.copies
        self._pair_row = pair_row
        return np.array(cost), matrix, limit

    def _upper(self) -> Floats:
        # Patterns get no bound of their own: the board's row holds them, and its price must be the whole price.
        wanted = [float(o.quantity) for o in self.inst.orders]
        return np.array(wanted + [np.inf] * (len(self.pairs) + len(self.patterns)))

    def relax(self) -> tuple[float, Floats, Floats]:
        """Solve the linear program: best worth, value of a piece by board and kind, price of each board [bf]."""
        from scipy.optimize import linprog

        cost, matrix, limit = self._program()
        bounds = [(0.0, u) for u in self._upper()]
        got = linprog(cost, A_ub=matrix, b_ub=limit, bounds=bounds, method="highs-ds")
        if got.status != 0:
            raise AssertionError(f"master program: {got.message}")
        dual = -got.ineqlin.marginals
        n_k, n_b = len(self.inst.kinds), len(self.inst.boards)
        values = np.tile(np.maximum(dual[:n_k], 0.0), (n_b, 1))
        for (b, i), row in self._pair_row.items():
            values[b, i] += max(0.0, dual[row])
        return -float(got.fun), values, np.maximum(dual[n_k : n_k + n_b], 0.0)

    def settle(self) -> tuple[list[Pattern], list[int], float]:
        """Solve the integer program: chosen patterns, sets by order, worth.

        Each board takes one pattern at most, so here a pattern itself says how many matched sets it gives. With whole
        patterns that is the same program as the pricing one, and far tighter than its rows by board and kind.
        """
        from scipy.optimize import Bounds, LinearConstraint, milp
        from scipy.sparse import coo_array

        inst = self.inst
        n_o, n_k, n_b = len(inst.orders), len(inst.kinds), len(inst.boards)
        most = [o.quantity if self.match and len(o.blanks) > 1 else 0 for o in inst.orders]
        entries = [(i, k.order, 1.0) for i, k in enumerate(inst.kinds)]
        row = n_k + n_b
        for o in range(n_o):  # matched sets: no more than the sets, nor than the patterns give
            entries += [(row + o, n_o + o, 1.0), (row + o, o, -1.0), (row + n_o + o, n_o + o, 1.0)]
        for c, p in enumerate(self.patterns, 2 * n_o):
            entries.append((n_k + p.board, c, 1.0))
            entries += [(i, c, -float(n)) for i, n in enumerate(p.counts) if n]
            together = (min(p.counts[i] for i in inst.kinds_of(o)) for o in range(n_o))
            entries += [(row + n_o + o, c, -float(n)) for o, n in enumerate(together) if n]
        cost = [-self.set_worth] * n_o + [-MATCH_WORTH_BF] * n_o
        cost += [p.cost_bf * float(self.weights[p.board]) for p in self.patterns]
        r, c_, v = zip(*entries, strict=True)
        matrix = coo_array((v, (r, c_)), shape=(row + 2 * n_o, len(cost))).tocsr()
        limit = np.zeros(row + 2 * n_o)
        limit[n_k:row] = self.copies
        upper = [float(o.quantity) for o in inst.orders] + [float(n) for n in most]
        upper += [self.copies[p.board] for p in self.patterns]
        whole = np.ones(len(cost))
        whole[n_o : 2 * n_o] = 0
        with quiet():
            got = milp(
                cost,
                constraints=LinearConstraint(matrix, -np.inf, limit),  # type: ignore[arg-type]
                integrality=whole,
                bounds=Bounds(np.zeros(len(cost)), upper),
                options={"node_limit": NODE_LIMIT, "mip_rel_gap": 1e-7, "presolve": True},
            )
        if got.x is None:
            return [], [0] * n_o, 0.0
        sets = [round(v) for v in got.x[:n_o]]
        chosen = [p for p, v in zip(self.patterns, got.x[2 * n_o :], strict=True) for _ in range(round(v))]
        return chosen, sets, -float(got.fun)


def solve(inst: Instance, finders: Sequence[Finder]) -> Answer:
    """Return the plan of an instance over the patterns that the finders give.

    Args:
        inst: orders and boards of one wood.
        finders: pattern finders; each is asked for every board.
    """
    weights = board_weights(inst)
    master = Master(inst, weights)
    areas = np.array([k.length * k.width for k in inst.kinds], dtype=float)
    for scale in (1.0, 0.0):
        guess = np.tile(areas**scale / (areas**scale).mean(), (len(inst.boards), 1)) * 5.0
        for finder in finders:
            for _, p in finder.price(guess, np.zeros(len(inst.boards))):
                if p is not None:
                    master.add(p)
    bound = np.inf
    for _ in range(max(ROUNDS, ROUNDS_A_KIND * len(inst.kinds))):
        worth, values, prices = master.relax()
        best = np.zeros(len(inst.boards))
        added = False
        for finder in finders:
            for b, (profit, p) in enumerate(finder.price(values, prices + 1e-6 * np.maximum(1.0, prices))):
                best[b] = max(best[b], profit - prices[b])
                if p is not None:
                    added |= master.add(p)
        gain = float(best @ master.copies)
        bound = min(bound, worth + gain)
        if not added or gain <= ENOUGH_BF:
            break
    chosen, sets, objective = improve(master, finders)
    return Answer(chosen, sets, objective, max(bound, objective), master.set_worth, master.total_bf, master.patterns)


def improve(master: Master, finders: Sequence[Finder]) -> tuple[list[Pattern], list[int], float]:
    """Settle, then look for boards cut only as far as what the others leave wanting, and settle again.

    The priced patterns fill whole boards; the last board of a plan mostly needs less.
    """
    inst = master.inst
    wanted = [inst.orders[k.order].quantity for k in inst.kinds]
    for o in range(len(inst.orders)):  # a whole order from one board
        target = [n if k.order == o else 0 for n, k in zip(wanted, inst.kinds, strict=True)]
        fits = [b for b, board in enumerate(inst.boards) if all(board.fits[i] for i in inst.kinds_of(o))]
        _cover(master, finders, target, fits)
    chosen, sets, objective = master.settle()
    tried: set[tuple[int, ...]] = set()
    for _ in range(IMPROVE_ROUNDS):
        fresh = False
        made = [sets[k.order] for k in inst.kinds]
        laid = [sum(p.counts[i] for p in chosen) for i in range(len(inst.kinds))]
        used = Counter(p.board for p in chosen)
        by_waste = sorted(chosen, key=lambda p: (-p.cost_bf / max(1, sum(p.counts)), p.board))
        for p in by_waste[:IMPROVE_BOARDS]:
            rest = tuple(max(0, made[i] - laid[i] + p.counts[i]) for i in range(len(inst.kinds)))
            if rest in tried or not any(rest):
                continue
            tried.add(rest)
            free = [
                b for b, board in enumerate(inst.boards)
                if (b == p.board or used[b] < board.copies) and all(board.fits[i] for i, n in enumerate(rest) if n)
            ]  # fmt: skip
            fresh |= _cover(master, finders, rest, free)
        if not fresh:
            break
        again = master.settle()
        if again[2] > objective:
            chosen, sets, objective = again
    return chosen, sets, objective


def _cover(master: Master, finders: Sequence[Finder], target: Sequence[int], boards: Sequence[int]) -> bool:
    added = False
    most = COVER_BOARDS_MANY if len(master.inst.boards) > MANY_BOARDS else COVER_BOARDS
    if any(target) and boards:
        for finder in finders:
            for p in finder.covering(target, boards[:most]):
                added |= master.add(p)
    return added
