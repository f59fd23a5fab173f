"""Crosscut first: the board is cut into sections, each section ripped into strips, each strip cut to length.

For given values of the pieces the best pattern of every board is found exactly by dynamic programming, over all section
starts and all stackings of strips, a strip holding one kind of piece cut to a stop.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from parts.handle.cutplan.grid import GridBoard, Instance, clear_starts, stack_positions
from parts.handle.cutplan.model import Offcut, Placement, SawCut
from parts.handle.cutplan.pattern import Pattern, make_pattern, target_values

Floats = NDArray[np.float64]


@dataclass
class _Sections:
    """Every different section of one board: how many pieces of each kind lie clear at each strip position."""

    ys: list[int]
    counts: NDArray[np.int8]  # [position, kind, sort of section]
    sort_at: list[NDArray[np.int64]]  # by section length: sort of the section that starts at x


@dataclass
class _Forward:
    """What the dynamic program found: best worth by end and board, sections' worth, stacks' worth."""

    at: dict[int, int]  # column of each board
    f: Floats
    worth: list[Floats]
    stacks: dict[int, dict[int, Floats]]


class CrosscutFirst:
    """Finds the best crosscut-first pattern of each board for given piece values."""

    way = "crosscut-first"

    def __init__(self, inst: Instance, weights: Floats) -> None:
        self.inst, self.weights = inst, weights
        self.lengths = sorted({k.length for k in inst.kinds})
        self.sections = [self._sections(b) for b in inst.boards]
        self.top = max(b.length for b in inst.boards) + inst.kerf_crosscut
        self.cost = np.stack([self._cost(b) for b in inst.boards], axis=1)  # [end, board], footage
        self.weighed = self.cost * weights

    def _copies(self, length: int, kind: int) -> int:
        k = self.inst.kerf_crosscut
        return (length + k) // (self.inst.kinds[kind].length + k)

    def _sections(self, board: GridBoard) -> _Sections:
        inst, kc = self.inst, self.inst.kerf_crosscut
        on = [i for i, f in enumerate(board.fits) if f]
        ys = stack_positions(board, [inst.kinds[i].width for i in on], inst.kerf_rip)
        spans = [max(0, board.length - le + 1) for le in self.lengths]
        blocks = []
        for length, span in zip(self.lengths, spans, strict=True):
            block = np.zeros((len(ys), len(inst.kinds), span), dtype=np.int8)
            for i in on:
                kind = inst.kinds[i]
                for a, y in enumerate(ys):
                    clear = clear_starts(board, y, kind.length, kind.width, board.length + 1)
                    for j in range(self._copies(length, i)):
                        shift = j * (kind.length + kc)
                        block[a, i] += clear[shift : shift + span]
            blocks.append(block)
        flat = np.concatenate(blocks, axis=2).reshape(len(ys) * len(inst.kinds), -1)
        sorts, where = _distinct_columns(flat)
        cuts = np.cumsum(spans)[:-1]
        return _Sections(ys, sorts.reshape(len(ys), len(inst.kinds), -1), np.split(where, cuts))

    def _cost(self, board: GridBoard) -> Floats:
        """Footage taken when the last cut's kerf ends at each step; the rest goes back when it is long enough."""
        p, b = self.inst.practice, board.board
        end = p.end_trim_mm + np.arange(self.top + 1) * self.inst.step
        taken = np.where(b.length_mm - end >= p.keep_length_mm, end, b.length_mm)
        return taken * b.width_mm * board.bf_per_mm2

    def _stack(self, b: int, values: Floats) -> tuple[Floats, dict[int, Floats]]:
        """Return the value of each sort of section and, by strip position, the value of what lies from there up."""
        sec, inst = self.sections[b], self.inst
        above: dict[int, Floats] = {}
        zero = np.zeros(sec.counts.shape[2])
        best = zero
        for a in range(len(sec.ys) - 1, -1, -1):
            y = sec.ys[a]
            for i, kind in enumerate(inst.kinds):
                if inst.boards[b].fits[i] and y + kind.width <= inst.boards[b].width and values[i] > 0:
                    here = values[i] * sec.counts[a, i] + above.get(y + kind.width + inst.kerf_rip, zero)
                    best = np.maximum(best, here)
            above[y] = best
        return best, above

    def _forward(self, values: Floats, boards: Sequence[int]) -> _Forward:
        """Return the best worth up to each end, by board; one column a board asked for."""
        inst, n = self.inst, len(boards)
        k = inst.kerf_crosscut
        worth = [np.zeros((self.top + 1, n)) for _ in self.lengths]
        stacks = {}
        for at, b in enumerate(boards):
            best, stacks[b] = self._stack(b, values[b])
            for w, sort_at in zip(worth, self.sections[b].sort_at, strict=True):
                w[: len(sort_at), at] = best[sort_at]
        live = [(j, le + k) for j, le in enumerate(self.lengths) if worth[j].max() > 0]
        f = np.zeros((self.top + 1, n))
        for x in range(1, self.top + 1):
            row = f[x]
            row[:] = f[x - 1]
            for j, reach in live:
                if x >= reach:
                    np.maximum(row, f[x - reach] + worth[j][x - reach], out=row)
        return _Forward({b: at for at, b in enumerate(boards)}, f, worth, stacks)

    def price(self, values: Floats, prices: Floats) -> list[tuple[float, Pattern | None]]:
        """Return for each board the best value less weighed footage, with its pattern where that beats its price.

        Args:
            values: worth of one piece, by board and kind [bf].
            prices: what a pattern of each board must be worth to be told [bf].
        """
        every = range(len(self.inst.boards))
        ahead = self._forward(values, every)
        profit = ahead.f - self.weighed
        ends = profit.argmax(axis=0)
        best = [float(profit[ends[b], b]) for b in every]
        return [
            (best[b], self._pattern(b, int(ends[b]), ahead, values[b]) if best[b] > prices[b] else None) for b in every
        ]

    def covering(self, target: Sequence[int], boards: Sequence[int]) -> list[Pattern]:
        """Return patterns that give at least a number of each kind from as short a piece of a board as can be.

        Args:
            target: pieces wanted, by kind.
            boards: indexes of the boards to try.
        """
        out = []
        for values in target_values(self.inst, target):
            ahead = self._forward(values, boards)
            for b in boards:
                end = self._least_end(b, ahead, values[b], target)
                if end:
                    out.append(self._pattern(b, end, ahead, values[b]))
        return out

    def _least_end(self, b: int, ahead: _Forward, values: Floats, target: Sequence[int]) -> int:
        """Return the least end whose best pattern covers a target; 0 when none does."""
        sec, want = self.sections[b], np.array(target)
        of_sort: dict[int, NDArray[np.int64]] = {}
        # A pattern that covers the target is worth at least the target: nothing shorter needs a look.
        f = ahead.f[:, ahead.at[b]]
        first = int(np.searchsorted(f, float(want @ values) - 1e-6))
        for x in range(max(1, first), self.top + 1):
            if f[x] <= f[x - 1] + 1e-9:
                continue
            have = np.zeros(len(want), dtype=np.int64)
            for start, j in self._chain(b, ahead, x):
                sort = int(sec.sort_at[j][start])
                if sort not in of_sort:
                    one = np.zeros(len(want), dtype=np.int64)
                    for a, i in self._strips(b, sort, values, ahead.stacks[b]):
                        one[i] += int(sec.counts[a, i, sort])
                    of_sort[sort] = one
                have += of_sort[sort]
            if (have >= want).all():
                return x
        return 0

    def _chain(self, b: int, ahead: _Forward, end: int) -> list[tuple[int, int]]:
        """Return (start, section length's index) of the sections up to an end, left to right."""
        sections: list[tuple[int, int]] = []
        at, x = ahead.at[b], end
        f = ahead.f[:, at]
        while x > 0 and f[x] > 1e-9:
            if f[x - 1] >= f[x] - 1e-9:
                x -= 1
                continue
            for j, length in enumerate(self.lengths):
                start = x - length - self.inst.kerf_crosscut
                if start >= 0 and f[start] + ahead.worth[j][start, at] >= f[x] - 1e-9:
                    sections.append((start, j))
                    x = start
                    break
            else:
                raise AssertionError("crosscut plan cannot be traced")
        return sections[::-1]

    def _strips(
        self, b: int, sort: int, values: Floats, above: dict[int, Floats]
    ) -> list[tuple[int, int]]:  # (index of position, kind)
        sec, inst = self.sections[b], self.inst
        picked, a = [], 0
        while a < len(sec.ys):
            y = sec.ys[a]
            here = above[y][sort]
            if here <= 1e-9:
                break
            nxt = above[sec.ys[a + 1]][sort] if a + 1 < len(sec.ys) else 0.0
            if nxt >= here - 1e-9:
                a += 1
                continue
            for i, kind in enumerate(inst.kinds):
                if not inst.boards[b].fits[i] or y + kind.width > inst.boards[b].width or not values[i] > 0:
                    continue
                up = y + kind.width + inst.kerf_rip
                rest = above[up][sort] if up in above else 0.0
                if sec.counts[a, i, sort] and values[i] * sec.counts[a, i, sort] + rest >= here - 1e-9:
                    picked.append((a, i))
                    a = sec.ys.index(up) if up in above else len(sec.ys)
                    break
            else:
                break
        return picked

    def _pattern(self, b: int, end: int, ahead: _Forward, values: Floats) -> Pattern:
        inst, board = self.inst, self.inst.boards[b]
        p, g, k = inst.practice, inst.step, inst.kerf_crosscut
        sections = self._chain(b, ahead, end)
        x_of, y_of = (lambda s: p.end_trim_mm + s * g), (lambda s: p.edge_clearance_mm + s * g)
        half_c, half_r, wide = p.kerf_crosscut_mm / 2, p.kerf_rip_mm / 2, board.board.width_mm
        placements: list[Placement] = []
        kinds: list[int] = []
        cuts = [SawCut("crosscut", x_of(0) - half_c, 0.0, x_of(0) - half_c, wide)] if sections else []
        previous_end = 0
        for start, j in sections:
            if (start > previous_end + k and previous_end == 0) or start > previous_end:
                cut_x = x_of(start) - half_c
                cuts.append(SawCut("crosscut", cut_x, 0.0, cut_x, wide))
            stop = x_of(start + self.lengths[j])
            cuts.append(SawCut("crosscut", stop + half_c, 0.0, stop + half_c, wide))
            previous_end = start + self.lengths[j] + k
            for a, i in self._strips(b, int(self.sections[b].sort_at[j][start]), values, ahead.stacks[b]):
                y = self.sections[b].ys[a]
                kind = inst.kinds[i]
                blank = inst.orders[kind.order].blanks[kind.blank]
                low, high = y_of(y), y_of(y) + blank.width_mm
                cuts.append(SawCut("rip", x_of(start), low - half_r, stop, low - half_r))
                cuts.append(SawCut("rip", x_of(start), high + half_r, stop, high + half_r))
                clear = clear_starts(board, y, kind.length, kind.width, board.length + 1)
                for copy in range(self._copies(self.lengths[j], i)):
                    at = start + copy * (kind.length + k)
                    if not clear[at]:
                        continue
                    if copy and not clear[at - kind.length - k]:  # no neighbour before it, whose cut would serve
                        cut_x = x_of(at) - half_c
                        cuts.append(SawCut("trim", cut_x, low, cut_x, high))
                    placements.append(
                        Placement(
                            inst.orders[kind.order].name, kind.name, x_of(at), low, blank.length_mm, blank.width_mm
                        )
                    )
                    kinds.append(i)
                    if kind.length < self.lengths[j]:
                        cut_x = x_of(at) + blank.length_mm + half_c
                        cuts.append(SawCut("trim", cut_x, low, cut_x, high))
        taken = float(self.cost[end, b]) if sections else 0.0
        rest = board.board.length_mm - x_of(end)
        offcuts = [Offcut(x_of(end), 0.0, rest, wide)] if sections and rest >= p.keep_length_mm else []
        return make_pattern(inst, b, "crosscut-first", placements, kinds, cuts, offcuts, taken)


def _distinct_columns(flat: NDArray[np.int8]) -> tuple[NDArray[np.int8], NDArray[np.int64]]:
    """Return the different columns and, for each column, which one it is; neighbours are mostly alike."""
    n = flat.shape[1]
    if n == 0:
        return flat, np.zeros(0, dtype=np.int64)
    fresh = np.concatenate([[True], (flat[:, 1:] != flat[:, :-1]).any(axis=0)])
    heads = np.flatnonzero(fresh)
    known: dict[bytes, int] = {}
    kept: list[int] = []
    of_run = np.zeros(len(heads), dtype=np.int64)
    for r, c in enumerate(heads):
        key = flat[:, c].tobytes()
        if key not in known:
            known[key] = len(kept)
            kept.append(int(c))
        of_run[r] = known[key]
    return flat[:, kept], of_run[np.cumsum(fresh) - 1]
