"""One piece more on a board: pieces that overlap are moved about until none does, or the moves are used up.

A piece that overlaps goes where it overlaps least; two pieces that stay in each other's way weigh more from round to
round, so that the search leaves the hollows it falls into (guided local search). Moves are counted, not timed, and the
dice are loaded the same way each time: the same board and shapes always give the same nest.
"""

from __future__ import annotations

import random
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from parts.handle.cutplan.nest import Room, Spot, State, start

Floats = NDArray[np.float64]
GRID_MM = 3.0  # along the board, and
ROW_MM = 4.0  # across: how finely places are looked at; the best are then set exactly
LOOKED_AT = 6  # of the best places, set exactly
STALL = 40  # rounds without gain before the best part-plan is taken up again, two of its pieces exchanged
TOUCH = 1e-6  # mm of overlap that count as none
FADE, GAIN, MORE = 0.95, 1.2, 0.8  # of the weights from round to round: apart; overlapping least; and most, beyond


class _Pieces:
    """Pieces on a board with what each forbids to all others, and how much each two weigh that overlap."""

    def __init__(self, room: Room, spots: Sequence[Spot]) -> None:
        self.room, self.spots, self.n = room, list(spots), len(spots)
        self.place = {(int(s), int(r)): c for c, (s, r) in enumerate(zip(room.shape, room.row, strict=True))}
        every = max(1, round(ROW_MM / room.row_mm))
        tall = np.array([room.shapes[s].rows for s in room.shape])
        some = (room.last >= 0) & ((room.row % every == 0) | (room.row + tall == room.rows))
        self.some = np.flatnonzero(some)  # places looked at
        self.steps = int(room.length / GRID_MM) + 2
        self.outside = np.arange(self.steps)[None, :] * GRID_MM > room.last[self.some][:, None]
        kinds = len(room.forbidden(spots[0])[0])
        self.low, self.high = (np.empty((self.n, kinds, len(room.shape))) for _ in range(2))
        self.weight = 1.0 - np.eye(self.n)
        for i in range(self.n):
            self._forbid(i)

    def _forbid(self, i: int) -> None:
        low, high = self.room.forbidden(self.spots[i])
        self.low[i], self.high[i] = low, high

    def put(self, i: int, spot: Spot) -> None:
        """Lay one piece elsewhere."""
        self.spots[i] = spot
        self._forbid(i)

    def at(self, i: int) -> int:
        """Return the place (shape and row) of one piece."""
        s, _, r = self.spots[i]
        return self.place[s, r]

    def overlap(self, c: int, x: Floats) -> Floats:
        """Return how far a piece in one place at each of some x would have to slide off each other piece [mm]."""
        low, high = self.low[:, :, c], self.high[:, :, c]
        deep = np.minimum(x[:, None, None] - low, high - x[:, None, None]).max(axis=2)
        return np.maximum(deep, 0.0)

    def overlaps(self) -> Floats:
        """Return the overlap of every two pieces [mm]."""
        c = [self.at(i) for i in range(self.n)]
        x = np.array([spot[1] for spot in self.spots])
        deep = np.minimum(x - self.low[:, :, c], self.high[:, :, c] - x).max(axis=1)
        np.fill_diagonal(deep, 0.0)
        deep = np.maximum(deep, 0.0)
        return np.maximum(deep, deep.T)

    def field(self, i: int) -> Floats:
        """Return the weighted overlap of one piece, [place looked at, step along the board].

        Over a forbidden stretch the overlap rises from one end to the middle and falls to the other: three bends. All
        bends are noted, and summed up twice along the board.
        """
        wide = self.steps + 2
        low = self.low[:, :, self.some].reshape(-1, len(self.some)) / GRID_MM
        high = self.high[:, :, self.some].reshape(-1, len(self.some)) / GRID_MM
        heavy = np.repeat(self.weight[i], self.low.shape[1])
        m, p = np.nonzero((high > low + 1e-9) & (high > 0) & (low < self.steps) & (heavy > 0)[:, None])
        a, b, w = low[m, p], high[m, p], heavy[m]
        bend = np.concatenate([a, (a + b) / 2, b])
        turn = np.concatenate([w, -2 * w, w])
        row = np.concatenate([p, p, p]) * wide
        early = bend < 0  # before the board's end: what has risen until there
        inside = ~early & (bend < self.steps)
        cell = np.floor(bend[inside]).astype(np.int64)
        part = bend[inside] - cell
        cell += row[inside]
        risen = -bend[early] * turn[early]
        where = np.concatenate([cell + 1, cell + 2, row[early], row[early] + 1])
        # a bend before the end is a height and a slope at the end: its height less what the slope adds at once
        what = np.concatenate([turn[inside] * (1 - part), turn[inside] * part, risen, turn[early] - risen])
        bends = np.bincount(where, what, len(self.some) * wide + 3)[: len(self.some) * wide].reshape(-1, wide)
        found: Floats = bends.cumsum(axis=1).cumsum(axis=1)[:, : self.steps]
        found[self.outside] = np.inf
        return found

    def best(self, i: int) -> tuple[float, Spot]:
        """Return the least weighted overlap that one piece can have, and where."""
        found = self.field(i)
        steps = found.argmin(axis=1)
        least = found[np.arange(len(steps)), steps]
        best, where = np.inf, self.spots[i]
        for k in np.argsort(least, kind="stable")[:LOOKED_AT]:
            c, x = int(self.some[k]), float(steps[k]) * GRID_MM
            last = float(self.room.last[c])
            ends = np.concatenate([self.low[:, :, c].ravel(), self.high[:, :, c].ravel(), [x, last]])
            ends = ends[(np.abs(ends - x) <= GRID_MM) & (ends >= 0.0) & (ends <= last)]
            worth = self.overlap(c, ends) @ self.weight[i]
            j = int(worth.argmin())
            if worth[j] < best - 1e-9:
                best, where = float(worth[j]), (int(self.room.shape[c]), float(ends[j]), int(self.room.row[c]))
        return best, where

    def back_to(self, spots: Sequence[Spot]) -> None:
        """Lay all pieces as they lay before; nothing weighs more any longer."""
        for i, spot in enumerate(spots):
            if spot != self.spots[i]:
                self.put(i, spot)
        self.weight = 1.0 - np.eye(self.n)

    def exchange(self, a: int, b: int) -> None:
        """Let two pieces change places, each as far as the board lets it."""
        (s, x, r), (t, y, q) = self.spots[a], self.spots[b]
        for i, (shape, along, row) in ((a, (s, y, q)), (b, (t, x, r))):
            made = self.room.shapes[shape]
            self.put(i, (shape, min(along, self.room.length - made.length), min(row, self.room.rows - made.rows)))


def squeezed(room: Room, spots: Sequence[Spot], moves: int, seed: int = 1) -> State | None:
    """Return a part-plan of as many pieces that fits the board, or None when none was found.

    Args:
        room: the board and the shapes, without defects.
        spots: where the pieces lie at first; they may overlap, and reach past the board's end.
        moves: how often a piece may be moved.
        seed: of the dice.
    """
    inside = [(s, min(x, room.length - room.shapes[s].length), r) for s, x, r in spots]
    pieces, dice = _Pieces(room, inside), random.Random(seed)
    best, kept, stall = np.inf, list(inside), 0
    while moves > 0:
        deep = pieces.overlaps()
        total = float(deep.sum())
        if total < TOUCH:
            return start(room, sorted(pieces.spots, key=lambda spot: spot[1]))
        if total < best - TOUCH:
            best, kept, stall = total, list(pieces.spots), 0
        else:
            stall += 1
        if stall > STALL:
            pieces.back_to(kept)
            pieces.exchange(*dice.sample(range(pieces.n), 2))
            stall = 0
            continue
        grown = np.maximum(1.0 - np.eye(pieces.n), pieces.weight * FADE)
        pieces.weight = np.where(deep > TOUCH, pieces.weight * (GAIN + MORE * deep / deep.max()), grown)
        turn = [i for i in range(pieces.n) if deep[i].max() > TOUCH]
        dice.shuffle(turn)
        for i in turn:
            now = pieces.overlap(pieces.at(i), np.array([pieces.spots[i][1]]))[0]
            now[i] = 0.0
            if now.max() <= TOUCH:
                continue
            moves -= 1
            worth, spot = pieces.best(i)
            if worth < float(now @ pieces.weight[i]) - 1e-9:
                pieces.put(i, spot)
    return None
