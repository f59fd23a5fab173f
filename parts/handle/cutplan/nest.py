"""Nesting outlines on one board: pieces laid one after another, the best few part-plans kept (a beam search).

The same board and shapes always give the same nest: no clock, no chance.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from parts.handle.cutplan.rowshape import Gaps, RowShape

Floats = NDArray[np.float64]
Spot = tuple[int, float, int]  # shape, x [mm], row
BRANCH = 14
WINDOW = 2.0  # pockets farther back than this many lengths of the longest shape are left for other pieces
COVER_STEP_MM = 4.0  # between the rows at which lost face is counted
COVER_EVERY_MM = 3.0  # and between those at which pieces that may cover it begin


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
    use: list[int] = field(init=False)
    high_rows: int = field(init=False)  # rows in which a shape may begin
    cover_step: int = field(init=False)
    met: dict[int, tuple[Floats, Floats]] = field(init=False)

    def __post_init__(self) -> None:
        """List every shape in every row; where it would leave the board's width its last place is before the first."""
        self.met = {}
        self.use = use = list(self.only) or list(range(len(self.shapes)))
        least = min((self.shapes[s].rows for s in use), default=self.rows + 1)
        self.high_rows = max(0, self.rows - least + 1)
        pairs = [(s, r) for s in use for r in range(self.high_rows)]
        self.shape = np.array([s for s, _ in pairs], dtype=np.int64)
        self.row = np.array([r for _, r in pairs], dtype=np.int64)
        self.extent = np.array([self.shapes[s].length for s, _ in pairs])
        stays = np.array([r + self.shapes[s].rows <= self.rows for s, r in pairs], dtype=bool)
        self.last = np.where(stays, self.length - self.extent, -np.inf)
        low, high = np.zeros((len(self.defects), len(pairs))), np.zeros((len(self.defects), len(pairs)))
        for d, (x0, y0, x1, y1) in enumerate(self.defects):
            for c, (s, r) in enumerate(pairs):
                first = max(0, int(np.floor(y0 / self.row_mm)) - r)
                stop = min(self.shapes[s].rows, int(np.ceil(y1 / self.row_mm)) - r)
                if first < stop:
                    low[d, c] = x0 - self.shapes[s].right[first:stop].max()
                    high[d, c] = x1 - self.shapes[s].left[first:stop].min()
        self.fixed_low, self.fixed_high = low, high
        self._cover(use, stays)

    def _cover(self, use: Sequence[int], stays: NDArray[np.bool_]) -> None:
        """List for every few rows the places that would cover them, with how far in they begin there."""
        left = {s: self.shapes[s].left for s in use}
        height = np.array([self.shapes[s].rows for s in self.shape], dtype=np.int64)
        # of the rows a shape may begin in, one every few mm and the last tell enough
        every, self.cover_step = (max(1, round(mm / self.row_mm)) for mm in (COVER_EVERY_MM, COVER_STEP_MM))
        some = stays & ((self.row % every == 0) | (self.row + height == self.rows))
        cover = []
        for r in range(0, self.rows, self.cover_step):
            over = np.flatnonzero(some & (self.row <= r) & (r < self.row + height))
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
        return float(np.minimum(begin, self.length).sum()) * self.cover_step * self.row_mm

    @property
    def row_mm(self) -> float:
        """Height of a row [mm]."""
        return self.shapes[0].row_mm

    @property
    def empty(self) -> bool:
        """Whether nothing can go anywhere."""
        return len(self.shape) == 0 or bool((self.last < 0).all())

    def forbidden(self, spot: Spot) -> tuple[Floats, Floats]:
        """Return the open stretches of x that a laid piece forbids, [stretch, shape and row]; low >= high: none."""
        s, x, r = spot
        low, high = self._met(s)
        # one row lower for the laid piece is one row higher for all others: a window that slides over the table
        window = slice(self.rows - r, self.rows - r + self.high_rows)
        places = len(self.shape)
        return (low[:, :, window] + x).reshape(-1, places), (high[:, :, window] + x).reshape(-1, places)

    def _met(self, s: int) -> tuple[Floats, Floats]:
        """Return what one shape forbids to each, by stretch, other shape and difference of rows from -rows up."""
        if s not in self.met:
            tall, gaps = self.gaps.tall, self.gaps
            reach = self.rows + self.high_rows
            size = (gaps.low.shape[-1], len(self.use), reach + 1)
            low, high = np.full(size, np.inf), np.full(size, -np.inf)
            a, b = max(-tall, -self.rows), min(tall, self.high_rows)
            here, there = slice(a + self.rows, b + self.rows + 1), slice(a + tall, b + tall + 1)
            low[:, :, here] = gaps.low[s][self.use, there].transpose(2, 0, 1)
            high[:, :, here] = gaps.high[s][self.use, there].transpose(2, 0, 1)
            self.met[s] = low, high
        return self.met[s]

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
    lost: float = 0.0
    fresh: tuple[Floats, Floats] | None = None  # what the piece laid last forbids, not yet among the others

    @property
    def end(self) -> float:
        """Farthest reach along the board [mm]."""
        return float(self.front.max())


def start(room: Room, spots: Sequence[Spot] = ()) -> State:
    """Return the part-plan of a board with some pieces laid already."""
    low, high = room.fixed_low, room.fixed_high
    state = State((), np.zeros(room.rows), low, high, room.first_free(low, high, np.zeros(len(room.shape))))
    for spot in spots:
        state = kept(room, lay(room, state, spot))
    return state


def kept(room: Room, state: State) -> State:
    """Return a part-plan that is to be carried on: its last piece's stretches among the others, dead ones dropped."""
    if state.fresh is None:
        return state
    low, high = np.vstack([state.low, state.fresh[0]]), np.vstack([state.high, state.fresh[1]])
    # what lies behind the first free places is done with, and so is every place where nothing fits any more
    past = np.where(state.free <= room.last + 1e-7, state.free + 1e-7, np.inf)
    live = (high > np.maximum(past, low)).any(axis=1)
    return State(state.spots, state.front, low[live], high[live], state.free, state.lost)


def lay(room: Room, state: State, spot: Spot, window: float = math.inf) -> State:
    """Return a part-plan with one more piece laid; what it loses is left to be counted.

    Args:
        room: the board and the shapes.
        state: the part-plan, carried on.
        spot: the piece to lay.
        window: pockets farther than this behind the farthest reach are given up [mm].
    """
    s, x, r = spot
    front = state.front.copy()
    shape = room.shapes[s]
    front[r : r + shape.rows] = np.maximum(front[r : r + shape.rows], shape.right + x)
    low, high = room.forbidden(spot)
    free = np.maximum(state.free, float(front.max()) - window)
    inside = ((free > low + 1e-7) & (free < high - 1e-7)).any(axis=0)
    hit = np.flatnonzero((inside | (free > state.free)) & (free <= room.last + 1e-7))
    if len(hit):  # only places that the new piece covers, or that the window leaves behind, can move
        free[hit] = room.first_free(
            np.vstack([state.low[:, hit], low[:, hit]]), np.vstack([state.high[:, hit], high[:, hit]]), free[hit]
        )
    return State((*state.spots, spot), front, state.low, state.high, free, 0.0, (low, high))


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
        uneven = evenness * room.rows * room.row_mm
        children.sort(key=lambda s: (round(s.lost + uneven * s.end, 1), round(s.end, 3)))
        beam = [kept(room, s) for s in children[:width]]
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
        state = kept(room, lay(room, state, (int(room.shape[c]), float(x[c]), int(room.row[c]))))
        laid += 1
    return state
