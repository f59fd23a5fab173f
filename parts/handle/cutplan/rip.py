"""Rip first: the board is ripped into full-length strips, each strip cut to length around its defects.

For given values of the pieces the best pattern of every board is found exactly by dynamic programming, over all
stackings of strips and all places of pieces along each strip; a narrower piece in a strip is ripped again.
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
class _Strips:
    """Rows of strips cut to length: column of each row, best worth [end, column], best end and worth less footage."""

    at: NDArray[np.int64]
    f: Floats
    ends: NDArray[np.int64]
    gains: Floats


class RipFirst:
    """Finds the best rip-first pattern of each board for given piece values."""

    way = "rip-first"

    def __init__(self, inst: Instance, weights: Floats) -> None:
        self.inst, self.weights = inst, weights
        self.widths = sorted({k.width for k in inst.kinds})
        self.top = max(b.length for b in inst.boards) + inst.kerf_crosscut
        self.ys: list[list[int]] = []
        self.rows: list[tuple[int, int]] = []  # board, strip width
        self.row_of: dict[tuple[int, int, int], int] = {}  # board, y, width
        masks: list[NDArray[np.bool_]] = []
        for b, board in enumerate(inst.boards):
            self.ys.append(stack_positions(board, [k.width for k, f in zip(inst.kinds, board.fits, strict=True) if f],
                                           inst.kerf_rip))  # fmt: skip
            self._rows(b, board, masks)
        self.clear = np.stack(masks, axis=2)  # [kind, start, row]
        self.board_of = np.array([b for b, _ in self.rows])
        self.row_cost = np.stack([self._row_cost(b, w) * weights[b] for b, w in self.rows], axis=1)

    def _rows(self, b: int, board: GridBoard, masks: list[NDArray[np.bool_]]) -> None:
        """Gather the strips of one board; strips that meet the same defects the same way share a row."""
        seen: dict[tuple[int, bytes], int] = {}
        for y in self.ys[b]:
            for w in self.widths:
                if y + w > board.width:
                    continue
                mask = np.zeros((len(self.inst.kinds), self.top + 1), dtype=bool)
                for i, kind in enumerate(self.inst.kinds):
                    if board.fits[i] and kind.width <= w:
                        mask[i] = clear_starts(board, y, kind.length, kind.width, self.top + 1)
                key = (w, mask.tobytes())
                if key not in seen:
                    seen[key] = len(self.rows)
                    self.rows.append((b, w))
                    masks.append(mask)
                self.row_of[b, y, w] = seen[key]

    def _row_cost(self, b: int, w: int) -> Floats:
        """Footage of a strip with its kerf, by where the last cut ends; a good tail goes back."""
        p, board, g = self.inst.practice, self.inst.boards[b], self.inst.step
        end = p.end_trim_mm + np.arange(self.top + 1) * g
        long = board.board.length_mm
        back = (long - end >= p.keep_length_mm) & (w * g >= p.keep_width_mm)
        strip = np.where(back, end, long) * w * g + long * self.inst.kerf_rip * g
        return strip * board.bf_per_mm2

    def price(self, values: Floats, prices: Floats) -> list[tuple[float, Pattern | None]]:
        """Return for each board the best value less weighed footage, with its pattern where that beats its price.

        Args:
            values: worth of one piece, by board and kind [bf].
            prices: what a pattern of each board must be worth to be told [bf].
        """
        cut = self._strips(values, np.arange(len(self.rows)))
        out: list[tuple[float, Pattern | None]] = []
        for b in range(len(self.inst.boards)):
            profit, strips = self._stack(b, cut)
            pattern = None
            if strips and profit > prices[b]:
                ends = [int(cut.ends[cut.at[self.row_of[b, y, w]]]) for y, w in strips]
                cutting = [(y, w, end) for (y, w), end in zip(strips, ends, strict=True)]
                pattern = self._pattern(b, cutting, cut, values[b])
            out.append((profit if strips else 0.0, pattern))
        return out

    def covering(self, target: Sequence[int], boards: Sequence[int]) -> list[Pattern]:
        """Return patterns that give at least a number of each kind from as few strips as can be, the last cut short.

        Args:
            target: pieces wanted, by kind.
            boards: indexes of the boards to try.
        """
        out = []
        want = np.array(target)
        rows = np.flatnonzero(np.isin(self.board_of, boards))
        for values in target_values(self.inst, target):
            plain = self._strips(values, rows)
            for worth in (1.0, 100.0):
                cut = plain if worth == 1.0 else self._ended(plain.f * worth, rows)
                for b in boards:
                    strips = self._stack(b, cut)[1]
                    out += self._shortened(b, strips, cut, values[b] * worth, want)
        return out

    def _shortened(
        self, b: int, strips: list[tuple[int, int]], cut: _Strips, values: Floats, want: NDArray[np.int64]
    ) -> list[Pattern]:
        """Return the pattern of the fewest strips that cover a number of each kind, none cut farther than it takes."""
        have = np.zeros(len(want), dtype=np.int64)
        cutting: list[tuple[int, int, int]] = []  # lower edge, width, end
        pieces: list[list[tuple[int, int]]] = []
        for y, w in strips:
            row = self.row_of[b, y, w]
            end = int(cut.ends[cut.at[row]])
            found = self._pieces(row, end, cut, values)
            if not found:
                continue
            cutting.append((y, w, end))
            pieces.append(found)
            np.add.at(have, [i for _, i in pieces[-1]], 1)
            if (have >= want).all():
                break
        else:
            return []
        for n in reversed(range(len(cutting))):
            mine = pieces[n]
            while len(mine) > 1 and have[mine[-1][1]] > want[mine[-1][1]]:
                have[mine.pop()[1]] -= 1
            stop = mine[-1][0] + self.inst.kinds[mine[-1][1]].length + self.inst.kerf_crosscut
            cutting[n] = (*cutting[n][:2], stop)
        return [self._pattern(b, cutting, cut, values)]

    def _strips(self, values: Floats, rows: NDArray[np.int64]) -> _Strips:
        """Return some rows cut to length as well as can be: the best worth up to each end."""
        inst, k = self.inst, self.inst.kerf_crosscut
        v = values[self.board_of[rows]].T  # [kind, row]
        clear = self.clear if len(rows) == len(self.rows) else self.clear[:, :, rows]
        live = np.array([i for i in range(len(inst.kinds)) if v[i].max(initial=0) > 0], dtype=np.int64)
        reach = np.array([inst.kinds[i].length + k for i in live], dtype=np.int64)
        order = np.argsort(reach, kind="stable")
        live, reach, v = live[order], reach[order], v[live[order]]
        f = np.zeros((self.top + 1, len(rows)))
        going = np.searchsorted(reach, np.arange(self.top + 1), side="right")  # kinds short enough to end at x
        for x in range(1, self.top + 1):
            n = going[x]
            f[x] = f[x - 1]
            if n:
                begin = x - reach[:n]
                np.maximum(f[x], (f[begin] + v[:n] * clear[live[:n], begin]).max(axis=0), out=f[x])
        return self._ended(f, rows)

    def _ended(self, f: Floats, rows: NDArray[np.int64]) -> _Strips:
        """Return rows with where each best ends, and what it is worth then."""
        at = np.full(len(self.rows), -1)
        at[rows] = np.arange(len(rows))
        profit = f - (self.row_cost if len(rows) == len(self.rows) else self.row_cost[:, rows])
        ends = profit.argmax(axis=0)
        return _Strips(at, f, ends, profit[ends, np.arange(len(rows))])

    def _stack(self, b: int, cut: _Strips) -> tuple[float, list[tuple[int, int]]]:
        """Return the best stack of strips of a board: its worth less footage, and (lower edge, width) of each."""
        inst, board, ys = self.inst, self.inst.boards[b], self.ys[b]
        p, g, kr = inst.practice, inst.step, inst.kerf_rip
        per_mm2 = board.bf_per_mm2 * self.weights[b]
        long, wide = board.board.length_mm, board.board.width_mm

        def rest_cost(y: int) -> float:
            left = wide - p.edge_clearance_mm - y * g  # below 0 when the last kerf runs off the edge
            return 0.0 if left >= p.keep_width_mm and long >= p.keep_length_mm else left * long * per_mm2

        best: dict[int, tuple[float, int, int]] = {}  # y -> value from there up, strip width or 0 or -1, next y
        for a in range(len(ys) - 1, -1, -1):
            y = ys[a]
            top = (-rest_cost(y), -1, y)
            if a + 1 < len(ys):
                passed = best[ys[a + 1]][0] - (ys[a + 1] - y) * g * long * per_mm2
                if passed > top[0] + 1e-9:
                    top = (passed, 0, ys[a + 1])
            for w in self.widths:  # of strips worth the same the narrowest stays
                row = self.row_of.get((b, y, w))
                if row is not None:
                    up = y + w + kr
                    worth = float(cut.gains[cut.at[row]]) + (best[up][0] if up in best else -rest_cost(up))
                    if worth > top[0] + 1e-9:
                        top = (worth, w, up)
            best[y] = top
        strips: list[tuple[int, int]] = []
        y = 0
        while y in best and best[y][1] >= 0:
            _, w, up = best[y]
            if w > 0:
                strips.append((y, w))
            y = up
        edge = p.edge_clearance_mm * long * per_mm2
        return best[0][0] - edge, strips

    def _pieces(self, row: int, end: int, cut: _Strips, values: Floats) -> list[tuple[int, int]]:
        """Return (start, kind) of the pieces along a strip up to an end."""
        out, x, f, k = [], end, cut.f[:, cut.at[row]], self.inst.kerf_crosscut
        while x > 0 and f[x] > 1e-9:
            if f[x - 1] >= f[x] - 1e-9:
                x -= 1
                continue
            for i, kind in enumerate(self.inst.kinds):
                start = x - kind.length - k
                if start >= 0 and self.clear[i, start, row] and f[start] + values[i] >= f[x] - 1e-9:
                    out.append((start, i))
                    x = start
                    break
            else:
                raise AssertionError("rip plan cannot be traced")
        return out[::-1]

    def _pattern(self, b: int, strips: Sequence[tuple[int, int, int]], cut: _Strips, values: Floats) -> Pattern:
        inst, board = self.inst, self.inst.boards[b]
        p, g = inst.practice, inst.step
        long, wide = board.board.length_mm, board.board.width_mm
        x_of, y_of = (lambda s: p.end_trim_mm + s * g), (lambda s: p.edge_clearance_mm + s * g)
        half_c, half_r = p.kerf_crosscut_mm / 2, p.kerf_rip_mm / 2
        placements: list[Placement] = []
        kinds: list[int] = []
        cuts: list[SawCut] = []
        offcuts: list[Offcut] = []
        for y, w, end in strips:
            row = self.row_of[b, y, w]
            low, high = y_of(y), y_of(y + w)
            cuts.append(SawCut("rip", 0.0, low - half_r, long, low - half_r))
            cuts.append(SawCut("rip", 0.0, high + half_r, long, high + half_r))
            cuts.append(SawCut("crosscut", x_of(0) - half_c, low, x_of(0) - half_c, high))
            previous = 0
            for start, i in self._pieces(row, end, cut, values):
                kind = inst.kinds[i]
                blank = inst.orders[kind.order].blanks[kind.blank]
                if start > previous:
                    cuts.append(SawCut("crosscut", x_of(start) - half_c, low, x_of(start) - half_c, high))
                stop = x_of(start) + blank.length_mm
                cuts.append(SawCut("crosscut", stop + half_c, low, stop + half_c, high))
                previous = start + kind.length + inst.kerf_crosscut
                if kind.width < w:
                    cuts.append(
                        SawCut("rip", x_of(start), low + blank.width_mm + half_r, stop, low + blank.width_mm + half_r)
                    )
                placements.append(
                    Placement(
                        inst.orders[kind.order].name, kind.name, x_of(start), low, blank.length_mm, blank.width_mm
                    )
                )
                kinds.append(i)
            tail = long - x_of(end)
            if tail >= p.keep_length_mm and w * g >= p.keep_width_mm:
                offcuts.append(Offcut(x_of(end), low, tail, w * g))
        top = y_of(strips[-1][0] + strips[-1][1] + inst.kerf_rip)
        if wide - top >= p.keep_width_mm and long >= p.keep_length_mm:
            offcuts.append(Offcut(0.0, top, long, wide - top))
        taken = board.board.board_feet - sum(o.dx * o.dy for o in offcuts) * board.bf_per_mm2
        return make_pattern(inst, b, "rip-first", placements, kinds, cuts, offcuts, taken)
