"""Parallel rays through a closed triangle mesh: where each goes into the metal and where it leaves. Lengths mm.

Rows of rays are met with the triangles' edges by a half-open rule, each edge always reckoned from the same end, so
that two triangles agree on their common edge to the last bit: no ray slips between them and none meets both.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


class Triangles(Protocol):
    """A closed mesh: corner points, shape (n, 3) [mm], and triangles as corner numbers, seen counter-clockwise."""

    @property
    def vertices(self) -> Floats:
        """Corner points [mm]."""

    @property
    def triangles(self) -> Ints:
        """Corner numbers, shape (m, 3)."""


ASIDE = 0.1  # mm that a ray is moved sideways to tell a body from a facet: more than a facet lies off its surface


@dataclass(frozen=True)
class Hits:
    """Where rays meet a mesh, sorted by ray and then along it."""

    row: Ints  # which of the rays' rows
    column: Ints  # which ray of the row
    depth: Floats  # along the ray [mm]
    entering: NDArray[np.bool_]  # into the metal
    triangle: Ints

    def points(self, axis: int, rows: Floats, columns: Floats) -> Floats:
        """Return the points met, shape (n, 3) [mm]; arguments as given to `cast`."""
        out = np.empty((len(self.depth), 3))
        a, b = other_axes(axis)
        out[:, a], out[:, b], out[:, axis] = rows[self.row], columns[self.column], self.depth
        return out


def other_axes(axis: int) -> tuple[int, int]:
    """Return the two axes square to one of 0, 1, 2, in their order."""
    return (1, 2) if axis == 0 else (0, 2) if axis == 1 else (0, 1)


def normals(mesh: Triangles) -> Floats:
    """Return the unit normal of each triangle, out of the metal; zeros for a triangle without area."""
    a, b, c = (mesh.vertices[mesh.triangles[:, i]] for i in range(3))
    n = np.cross(b - a, c - a)
    size = np.linalg.norm(n, axis=1, keepdims=True)
    return np.divide(n, size, out=np.zeros_like(n), where=size > 0)


def crossings(mesh: Triangles, axis: int, rows: Floats) -> tuple[Ints, Ints, Floats, Floats]:
    """Cut the triangles by parallel planes.

    Args:
        mesh: the closed mesh.
        axis: axis the planes are square to, 0, 1 or 2.
        rows: where they stand on it, ascending [mm].

    Returns:
        For each piece of a cut: triangle, plane, and its two ends, each of shape (n, 3) [mm].
    """
    level = mesh.vertices[:, axis]
    corners = mesh.triangles
    # number of planes below each corner: an edge crosses the planes numbered from its lower end's count to the upper's
    rank = np.searchsorted(rows, level, side="left")
    low, high = rank[corners].min(axis=1), rank[corners].max(axis=1)
    tri, plane = _expand(low, high - low)
    ends = np.empty((len(tri), 2, 3))
    filled = np.zeros(len(tri), dtype=np.int64)
    for i, k in ((0, 1), (1, 2), (2, 0)):
        a, b = corners[tri, i], corners[tri, k]
        a, b = np.minimum(a, b), np.maximum(a, b)
        meets = np.flatnonzero((rank[a] <= plane) != (rank[b] <= plane))
        p, q = mesh.vertices[a[meets]], mesh.vertices[b[meets]]
        share = (rows[plane[meets]] - p[:, axis]) / (q[:, axis] - p[:, axis])
        ends[meets, filled[meets]] = p + share[:, None] * (q - p)
        filled[meets] += 1
    return tri, plane, ends[:, 0], ends[:, 1]


def cast(mesh: Triangles, axis: int, rows: Floats, columns: Floats) -> Hits:
    """Send a ray along an axis through every point of a grid.

    Args:
        mesh: the closed mesh.
        axis: direction of the rays, 0, 1 or 2.
        rows: places on the first of the other axes, ascending [mm].
        columns: places on the second, ascending [mm].
    """
    a, b = other_axes(axis)
    tri, plane, p, q = crossings(mesh, a, rows)
    swap = p[:, b] > q[:, b]
    p[swap], q[swap] = q[swap], p[swap].copy()
    first = np.searchsorted(columns, p[:, b], side="left")
    last = np.searchsorted(columns, q[:, b], side="left")
    piece, column = _expand(first, last - first)
    p, q = p[piece], q[piece]
    share = (columns[column] - p[:, b]) / (q[:, b] - p[:, b])
    depth = p[:, axis] + share * (q[:, axis] - p[:, axis])
    tri, row = tri[piece], plane[piece]
    entering = normals(mesh)[tri, axis] < 0.0
    # where two faces meet in one point the one that leaves comes last, so that intervals stay in order
    order = np.lexsort((~entering, depth, column, row))
    return Hits(row[order], column[order], depth[order], entering[order], tri[order])


def _expand(start: Ints, count: Ints) -> tuple[Ints, Ints]:
    """Return for each item its number repeated `count` times, and start, start + 1, … beside it."""
    item = np.repeat(np.arange(len(count)), count)
    before = np.repeat(np.cumsum(count) - count, count)
    return item, np.arange(len(item)) - before + np.repeat(start, count)


def areas(mesh: Triangles) -> Floats:
    """Return the area of each triangle [mm²]."""
    a, b, c = (mesh.vertices[mesh.triangles[:, i]] for i in range(3))
    out: Floats = np.linalg.norm(np.cross(b - a, c - a), axis=1) / 2.0
    return out


def enclosed(mesh: Triangles) -> float:
    """Return the volume inside a closed mesh [mm³], by the divergence theorem."""
    a, b, c = (mesh.vertices[mesh.triangles[:, i]] for i in range(3))
    return float(np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6.0)
