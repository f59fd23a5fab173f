"""Where on paper there is ink already: a raster that says whether a text or a leader still has room. Paper mm."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from shared.drawing import marks as m
from shared.drawing.primitives import Arc, Curve, Ellipse, Hatch, Line, Note, Primitive
from shared.profile import Profile
from shared.segments import Point

CELL = 0.5


class Grid:
    """Occupied cells of a part of a sheet.

    `ink` holds lines and areas where no text may stand; `text` holds letters and arrowheads, which nothing may cross;
    `leads` holds leaders, which another leader had better not cross.

    Args:
        rect: the part of the sheet (u_min, v_min, u_max, v_max) [mm].
    """

    def __init__(self, rect: tuple[float, float, float, float]) -> None:
        self.rect = rect
        self.shape = (math.ceil((rect[3] - rect[1]) / CELL) + 1, math.ceil((rect[2] - rect[0]) / CELL) + 1)
        self.ink: NDArray[np.bool_] = np.zeros(self.shape, dtype=bool)
        self.text: NDArray[np.bool_] = np.zeros(self.shape, dtype=bool)
        self.leads: NDArray[np.bool_] = np.zeros(self.shape, dtype=bool)

    # ---- filling ------------------------------------------------------------------------------------------------

    def _cells(self, points: NDArray[np.float64]) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
        i = np.floor((points[:, 0] - self.rect[0]) / CELL).astype(np.intp)
        j = np.floor((points[:, 1] - self.rect[1]) / CELL).astype(np.intp)
        inside = (i >= 0) & (j >= 0) & (i < self.shape[1]) & (j < self.shape[0])
        return j[inside], i[inside]

    def lead(self, points: Sequence[Point]) -> None:
        """Mark the cells under a leader [mm]."""
        self.path(points)
        self._chain(points, self.leads)

    def path(self, points: Sequence[Point], text: bool = False) -> None:
        """Mark the cells under a chain of straight pieces [mm]."""
        self._chain(points, self.text if text else self.ink)

    def _chain(self, points: Sequence[Point], layer: NDArray[np.bool_]) -> None:
        layer[self._cells(_sampled(points))] = True

    def box(self, box: m.Box, text: bool = True) -> None:
        """Mark the cells of a rectangle."""
        if box.angle % 90.0 == 0.0:
            self._slice(self.text if text else self.ink, box.rect)[...] = True
            return
        a, b, _, d = (np.array(c) for c in box.corners())
        s = np.linspace(0.0, 1.0, max(2, int(box.width / (0.6 * CELL))))[:, None, None]
        t = np.linspace(0.0, 1.0, max(2, int(box.height / (0.6 * CELL))))[None, :, None]
        points = (a + s * (b - a) + t * (d - a)).reshape(-1, 2)
        (self.text if text else self.ink)[self._cells(points)] = True

    def area(self, outer: Profile, holes: Iterable[Profile], k: float) -> None:
        """Mark the inside of an outline, less its holes, at a scale k [-]."""
        rings = [[(k * u, k * v) for u, v in p.polyline(0.1 / k)] for p in (outer, *holes)]
        edges = [(a, b) for r in rings for a, b in zip(r, r[1:] + r[:1], strict=True)]
        low, high = min(a[1] for a, _ in edges), max(a[1] for a, _ in edges)
        for row in range(max(0, self._row(low)), min(self.shape[0], self._row(high) + 1)):
            v = self.rect[1] + (row + 0.5) * CELL
            us = sorted(a[0] + (v - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
                        for a, b in edges if (a[1] <= v) != (b[1] <= v))  # fmt: skip
            for u0, u1 in zip(us[::2], us[1::2], strict=False):
                self._slice(self.ink, (u0, v, u1, v))[...] = True

    def _row(self, v: float) -> int:
        return math.floor((v - self.rect[1]) / CELL)

    def draw(self, items: Iterable[Primitive | Profile], k: float) -> None:
        """Mark primitives given in model mm, at a scale k [-]."""
        for p in items:
            if isinstance(p, Profile):
                self.draw(p.segments, k)
            elif isinstance(p, Hatch):
                self.area(p.outer, p.holes, k)
            elif isinstance(p, Note):
                self.box(m.note_box(Note(p.text, (k * p.at[0], k * p.at[1]), p.height, p.angle, p.align)))
            else:
                self.path([(k * u, k * v) for u, v in course(p, 0.1 / k)])

    def add(self, marks: Iterable[m.Mark]) -> None:
        """Mark everything in marks (paper mm)."""
        for mark in marks:
            if isinstance(mark, m.Sign):
                self.box(m.Box(mark.at, mark.size, mark.size))
                continue
            for s in m.flat([mark]):
                if isinstance(s.what, m.Fill):
                    self.path([*s.what.corners, s.what.corners[0]])
                elif isinstance(s.what, Note):
                    self.box(m.note_box(s.what))
                else:
                    self.draw([s.what], 1.0)

    # ---- asking -------------------------------------------------------------------------------------------------

    def _slice(self, a: NDArray[np.bool_], rect: tuple[float, float, float, float]) -> NDArray[np.bool_]:
        i0, i1 = (math.floor((u - self.rect[0]) / CELL) for u in (rect[0], rect[2]))
        j0, j1 = (self._row(v) for v in (rect[1], rect[3]))
        return a[max(0, j0) : max(0, j1 + 1), max(0, i0) : max(0, i1 + 1)]

    def holds(self, rect: tuple[float, float, float, float]) -> bool:
        """Whether a rectangle [mm] lies inside the raster."""
        r = self.rect
        return rect[0] >= r[0] and rect[1] >= r[1] and rect[2] <= r[2] and rect[3] <= r[3]

    def free(self, box: m.Box, margin: float = 0.6) -> bool:
        """Whether a text or a frame may stand in a rectangle, with a margin [mm] round it."""
        if box.angle % 90.0 == 0.0:
            u0, v0, u1, v1 = box.rect
            rect = (u0 - margin, v0 - margin, u1 + margin, v1 + margin)
            both = self._slice(self.ink, rect).any() or self._slice(self.text, rect).any()
            return self.holds(rect) and not both
        probe = Grid(self.rect)
        probe.box(box)
        return not (probe.text & (self.ink | self.text)).any()

    def crossings(self, points: Sequence[Point]) -> tuple[int, int, int]:
        """Return how many cells of text, stretches of ink, and leaders a chain of straight pieces [mm] crosses."""
        where = self._cells(_sampled(points))
        return int(self.text[where].sum()), _stretches(self.ink[where]), _stretches(self.leads[where])


def _sampled(points: Sequence[Point]) -> NDArray[np.float64]:
    """Return points along a chain of straight pieces, closer together than a cell."""
    if len(points) > 4:
        p = np.asarray(points, dtype=float)
        along = np.concatenate(([0.0], np.cumsum(np.hypot(p[1:, 0] - p[:-1, 0], p[1:, 1] - p[:-1, 1]))))
        at = np.linspace(0.0, along[-1], int(along[-1] / (0.45 * CELL)) + 2)
        return np.column_stack((np.interp(at, along, p[:, 0]), np.interp(at, along, p[:, 1])))
    parts = []
    for (u0, v0), (u1, v1) in itertools.pairwise(points):
        t = np.linspace(0.0, 1.0, int(math.hypot(u1 - u0, v1 - v0) / (0.45 * CELL)) + 2)
        parts.append(np.column_stack((u0 + t * (u1 - u0), v0 + t * (v1 - v0))))
    return np.concatenate(parts)


def _stretches(under: NDArray[np.bool_]) -> int:
    return int(((~under[:-1]) & under[1:]).sum())


def course(p: Line | Arc | Ellipse | Curve, tolerance: float) -> list[Point]:
    """Return points along a primitive, both ends included, chords within about `tolerance` [mm]."""
    if isinstance(p, Line):
        return [p.start, p.end]
    if isinstance(p, Arc):
        return [*p.points(tolerance), p.end]
    return p.points()
