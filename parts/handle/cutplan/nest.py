"""Nesting outlines on one board: pieces laid one after another, the best few part-plans kept (a beam search).

The same board and shapes always give the same nest: no clock, no chance.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from parts.handle.cutplan.rowshape import ROW_MM, Gaps, RowShape

Floats = NDArray[np.float64]
Spot = tuple[int, float, int]  # shape, x [mm], row
BRANCH = 14
WINDOW = 2.0  # pockets farther back than this many lengths of the longest shape are left for other pieces
COVER_STEP = 4  # rows between those at which lost face is counted


@dataclass
class Room:
    """Where shapes of a set may go on one board: every shape in every row, with what defects forbid."""

    shapes: Sequence[RowShape]
    gaps: Gaps
    rows: int
    length: float  # [mm]
    defects: Sequence[tuple[float, float, float, float]] = ()  # x0, y0, x1, y1 [mm] from the room's corner
    only: Sequence[int] = ()  # shapes to use; all when empty
    shape: NDArray[np.int64] = field(init=False)
    row: NDArray[np.int64] = field(init=False)
    last: Floats = field(init=False)
    extent: Floats = field(init=False)
    fixed_low: Floats = field(init=False)
    fixed_high: Floats = field(init=False)
    cover: NDArray[np.int64] = field(init=False)
    cover_left: Floats = field(init=False)

    def __post_init__(self) -> None:
        """List every shape and row that stay on the board's width."""
        use = list(self.only) or list(range(len(self.shapes)))
        pairs = [(s, r) for s in use for r in range(self.rows - self.shapes[s].rows + 1)]
        self.shape = np.array([s for s, _ in pairs], dtype=np.int64)
        self.row = np.array([r for _, r in pairs], dtype=np.int64)
        self.extent = np.array([self.shapes[s].length for s, _ in pairs])
        self.last = self.length - self.extent
        low, high = np.zeros((len(self.defects), len(pairs))), np.zeros((len(self.defects), len(pairs)))
        for d, (x0, y0, x1, y1) in enumerate(self.defects):
            for c, (s, r) in enumerate(pairs):
                first = max(0, int(np.floor(y0 / ROW_MM)) - r)
                stop = min(self.shapes[s].rows, int(np.ceil(y1 / ROW_MM)) - r)
                if first < stop:
                    low[d, c] = x0 - self.shapes[s].right[first:stop].max()
                    high[d, c] = x1 - self.shapes[s].left[first:stop].min()
        self.fixed_low, self.fixed_high = low, high
        self._cover(use)

    def _cover(self, use: Sequence[int]) -> None:
        """List for every few rows the places that would cover them, with how far in they begin there."""
        left = {s: self.shapes[s].left for s in use}
        height = np.array([self.shapes[s].rows for s in self.shape], dtype=np.int64)
        cover = []
        for r in range(0, self.rows, COVER_STEP):
            over = np.flatnonzero((self.row <= r) & (r < self.row + height))
            cover.append((over, [float(left[int(self.shape[c])][r - self.row[c]]) for c in over]))
        most = max((len(c) for c, _ in cover), default=0)
        self.cover = np.zeros((len(cover), most), dtype=np.int64)
        self.cover_left = np.full((len(cover), most), np.inf)
        for k, (over, begin) in enumerate(cover):
            self.cover[k, : len(over)], self.cover_left[k, : len(over)] = over, begin

    def lost(self, free: Floats) -> float:
        """Return the face that no further piece can reach, pieces laid included [mm2, over every few rows]."""
        if not self.cover.size:
            return 0.0
        free = np.where(free <= self.last + 1e-7, free, self.length)
        begin = (free[self.cover] + self.cover_left).min(axis=1)
        return float(np.minimum(begin, self.length).sum()) * COVER_STEP * ROW_MM

    @property
    def empty(self) -> bool:
        """Whether nothing can go anywhere."""
        return len(self.shape) == 0 or bool((self.last < 0).all())

    def forbidden(self, spot: Spot) -> tuple[Floats, Floats]:
        """Return the open stretches of x that a laid piece forbids, [stretch, shape and row]; low >= high: none."""
        s, x, r = spot
        tall = self.gaps.tall
        d = self.row - r
        met = (np.abs(d) <= tall)[None, :]
        at = np.clip(d, -tall, tall) + tall
        low = np.where(met, self.gaps.low[s, self.shape, at].T + x, np.inf)
        high = np.where(met, self.gaps.high[s, self.shape, at].T + x, -np.inf)
        return low, high

    def first_free(self, low: Floats, high: Floats, x: Floats) -> Floats:
        """Return the least x from a given one up, for every shape and row, that no interval forbids [mm]."""
        while len(low):
            inside = (x > low + 1e-7) & (x < high - 1e-7)
            if not inside.any():
                break
            x = np.maximum(x, np.where(inside, high, -np.inf).max(axis=0))
        return x

    def places(self, state: State) -> list[int]:
        """Return the places worth a look next: for each posture the earliest, the lowest and the highest."""
        open_ = state.free <= self.last + 1e-7
        out: list[int] = []
        for s in dict.fromkeys(self.shape.tolist()):
            mine = np.flatnonzero(open_ & (self.shape == s))
            if not len(mine):
                continue
            reach = np.round(state.free[mine] + self.extent[mine], 3)
            out += [int(mine[reach.argmin()]), int(mine[0]), int(mine[-1])]
        reach_of = {c: (round(float(state.free[c] + self.extent[c]), 3), c) for c in out}
        return sorted(reach_of, key=lambda c: reach_of[c])[:BRANCH]


@dataclass
class State:
    """A part-plan: pieces laid, the front they reach in each row, the intervals they forbid, the first free places."""

    spots: tuple[Spot, ...]
    front: Floats
    low: Floats
    high: Floats
    free: Floats
    lost: float

    @property
    def end(self) -> float:
        """Farthest reach along the board [mm]."""
        return float(self.front.max())


def start(room: Room, spots: Sequence[Spot] = ()) -> State:
    """Return the part-plan of a board with some pieces laid already."""
    low, high = room.fixed_low, room.fixed_high
    state = State((), np.zeros(room.rows), low, high, room.first_free(low, high, np.zeros(len(room.shape))), 0.0)
    for spot in spots:
        state = lay(room, state, spot)
    return state


def lay(room: Room, state: State, spot: Spot, window: float = math.inf) -> State:
    """Return a part-plan with one more piece laid; what it loses is left to be counted.

    Args:
        room: the board and the shapes.
        state: the part-plan.
        spot: the piece to lay.
        window: pockets farther than this behind the farthest reach are given up [mm].
    """
    s, x, r = spot
    front = state.front.copy()
    shape = room.shapes[s]
    front[r : r + shape.rows] = np.maximum(front[r : r + shape.rows], shape.right + x)
    new_low, new_high = room.forbidden(spot)
    low, high = np.vstack([state.low, new_low]), np.vstack([state.high, new_high])
    free = np.maximum(state.free, float(front.max()) - window)
    inside = ((free > new_low + 1e-7) & (free < new_high - 1e-7)).any(axis=0)
    hit = np.flatnonzero(inside | (free > state.free))
    if len(hit):  # only places that the new piece covers, or that the window leaves behind, can move
        free[hit] = room.first_free(low[:, hit], high[:, hit], free[hit])
    live = (high > np.maximum(free, low) + 1e-7).any(axis=1)  # what lies behind the first free places is done with
    return State((*state.spots, spot), front, low[live], high[live], free, 0.0)


def nest(room: Room, width: int, most: int, evenness: float = 0.0) -> list[State]:
    """Return the best part-plan found for each number of pieces, from one up.

    A part-plan is the better the less face it puts out of reach of further pieces.

    Args:
        room: the board and the shapes.
        width: part-plans kept at each step.
        most: stop at this many pieces.
        evenness: how much an uneven front counts against a part-plan, share of its farthest reach [-].
    """
    window = WINDOW * max((room.shapes[s].length for s in room.shape), default=0.0)
    best: list[State] = []
    beam = [start(room)]
    while len(best) < most and not room.empty:
        children: list[State] = []
        seen: set[tuple[tuple[int, int, int], ...]] = set()
        for state in beam:
            for c in room.places(state):
                spot = (int(room.shape[c]), float(state.free[c]), int(room.row[c]))
                key = tuple(sorted((s, round(10 * x), r) for s, x, r in (*state.spots, spot)))
                if key not in seen:
                    seen.add(key)
                    child = lay(room, state, spot, window)
                    child.lost = room.lost(child.free)
                    children.append(child)
        if not children:
            break
        uneven = evenness * room.rows * ROW_MM
        children.sort(key=lambda s: (round(s.lost + uneven * s.end, 1), round(s.end, 3)))
        beam = children[:width]
        best.append(min(beam, key=lambda s: (round(s.end, 3), s.lost)))
    return best


def nest_best(room: Room, tries: Sequence[tuple[int, float]], most: int) -> list[State]:
    """Return for each number of pieces the shortest part-plan of several searches.

    Args:
        room: the board and the shapes.
        tries: width and evenness of each search.
        most: stop at this many pieces.
    """
    best: list[State] = []
    for width, evenness in tries:
        for n, state in enumerate(nest(room, width, most, evenness)):
            if n == len(best):
                best.append(state)
            elif state.end < best[n].end - 1e-6:
                best[n] = state
    return best


def fill(room: Room, state: State, most: int, up_to: float) -> State:
    """Lay more pieces, each at the first free place along the board, none reaching past a length [mm]."""
    laid = 0
    while laid < most:
        x = state.free
        reach = np.where(x <= room.last + 1e-7, x + room.extent, np.inf)
        good = np.flatnonzero(reach <= up_to + 1e-7)
        if not len(good):
            break
        c = int(good[np.lexsort((room.row[good], np.round(x[good], 6)))[0]])
        state = lay(room, state, (int(room.shape[c]), float(x[c]), int(room.row[c])))
        laid += 1
    return state
