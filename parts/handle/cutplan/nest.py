"""Nesting outlines on one board: pieces laid one after another, the best few part-plans kept (a beam search).

The same board and shapes always give the same nest: no clock, no chance.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from parts.handle.cutplan.rowshape import ROW_MM, Gaps, RowShape

Floats = NDArray[np.float64]
Spot = tuple[int, float, int]  # shape, x [mm], row
BRANCH = 6


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
        tall = max((self.shapes[s].rows for s in use), default=1)
        self._right = np.full((len(self.shapes), tall), -np.inf)
        for s in use:
            self._right[s, : self.shapes[s].rows] = self.shapes[s].right

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

    def swept(self, front: Floats, x: Floats, pick: NDArray[np.int64]) -> Floats:
        """Return how much face each picked place adds to what lies behind the front [mm2]."""
        tall = self._right.shape[1]
        padded = np.concatenate([front, np.full(tall, np.inf)])
        windows = np.lib.stride_tricks.sliding_window_view(padded, tall)[self.row[pick]]
        return np.maximum(0.0, self._right[self.shape[pick]] + x[pick, None] - windows).sum(axis=1)


@dataclass
class State:
    """A part-plan: pieces laid, the front they reach in each row, the intervals they forbid, the first free places."""

    spots: tuple[Spot, ...]
    front: Floats
    low: Floats
    high: Floats
    free: Floats
    swept: float

    @property
    def end(self) -> float:
        """Farthest reach along the board [mm]."""
        return float(self.front.max())


def start(room: Room, spots: Sequence[Spot] = ()) -> State:
    """Return the part-plan of a board with some pieces laid already."""
    low, high = room.fixed_low, room.fixed_high
    state = State((), np.zeros(room.rows), low, high, room.first_free(low, high, np.zeros(len(room.shape))), 0.0)
    for spot in spots:
        state = lay(room, state, spot, 0.0)
    return state


def lay(room: Room, state: State, spot: Spot, adds: float) -> State:
    """Return a part-plan with one more piece laid."""
    s, x, r = spot
    front = state.front.copy()
    shape = room.shapes[s]
    front[r : r + shape.rows] = np.maximum(front[r : r + shape.rows], shape.right + x)
    new_low, new_high = room.forbidden(spot)
    low, high = np.vstack([state.low, new_low]), np.vstack([state.high, new_high])
    free = room.first_free(low, high, state.free)
    live = (high > free + 1e-7).any(axis=1)  # what lies wholly behind the first free places forbids nothing more
    return State((*state.spots, spot), front, low[live], high[live], free, state.swept + adds)


def nest(room: Room, width: int, most: int) -> list[State]:
    """Return the best part-plan found for each number of pieces, from one up.

    Args:
        room: the board and the shapes.
        width: part-plans kept at each step.
        most: stop at this many pieces.
    """
    best: list[State] = []
    beam = [start(room)]
    while len(best) < most and not room.empty:
        children: list[tuple[float, float, int, Spot, State]] = []
        for state in beam:
            x = state.free
            pick = np.flatnonzero(x <= room.last + 1e-7)
            if not len(pick):
                continue
            adds = room.swept(state.front, x, pick)
            order = np.lexsort((pick, x[pick], np.round(adds, 3)))[:BRANCH]
            for i in order:
                c = int(pick[i])
                spot = (int(room.shape[c]), float(x[c]), int(room.row[c]))
                children.append((round(state.swept + float(adds[i]), 3), round(spot[1], 3), len(children), spot, state))
        if not children:
            break
        children.sort(key=lambda c: c[:3])
        seen: set[tuple[tuple[int, int, int], ...]] = set()
        beam_next = []
        for swept, _, _, spot, state in children:
            key = tuple(sorted((s, round(10 * x), r) for s, x, r in (*state.spots, spot)))
            if key in seen:
                continue
            seen.add(key)
            beam_next.append(lay(room, state, spot, swept - state.swept))
            if len(beam_next) == width:
                break
        beam = beam_next
        best.append(min(beam, key=lambda s: (round(s.end, 3), s.swept)))
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
        state = lay(room, state, (int(room.shape[c]), float(x[c]), int(room.row[c])), 0.0)
        laid += 1
    return state
