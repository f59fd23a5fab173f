"""Meshes grown by axis and bowed: what a solid cannot be without losing its true surfaces. Lengths mm."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from shared.cad.mesh import Mesh


def grown(mesh: Mesh, factors: tuple[float, float, float]) -> Mesh:
    """Return a mesh scaled about the origin by a factor an axis [-]."""
    return Mesh(mesh.vertices * np.array(factors), mesh.triangles)


def raised(mesh: Mesh, lift: Callable[[float], float], step: float) -> Mesh:
    """Return a mesh with every point moved along z by a function of its x; the volume stays the same.

    Args:
        mesh: a closed mesh.
        lift: x [mm] -> how far up [mm].
        step: no edge spans more than this along x [mm], so that flat faces follow.
    """
    fine = divided(mesh, step)
    up = np.array([lift(float(x)) for x in fine.vertices[:, 0]])
    return Mesh(fine.vertices + np.column_stack([np.zeros((len(up), 2)), up]), fine.triangles)


def divided(mesh: Mesh, step: float) -> Mesh:
    """Return a mesh whose edges span at most `step` along x [mm]; it stays closed, and no point leaves its surface.

    Every edge that is too long gets its middle point, the same one for both its triangles; a triangle is then cut
    according to how many of its edges have one. Round by round until none is left.
    """
    points, cells = mesh.vertices, mesh.triangles
    while True:
        ends = np.sort(np.concatenate([cells[:, [0, 1]], cells[:, [1, 2]], cells[:, [2, 0]]]), axis=1)
        edges, index = np.unique(ends, axis=0, return_inverse=True)
        long = np.abs(points[edges[:, 0], 0] - points[edges[:, 1], 0]) > step
        if not long.any():
            return Mesh(points, cells)
        number = np.full(len(edges), -1)
        number[long] = len(points) + np.arange(int(long.sum()))
        points = np.concatenate([points, points[edges[long]].mean(axis=1)])
        cells = _cut(cells, number[index.reshape(-1)].reshape(3, -1).T)


def _cut(cells: NDArray[np.int64], middles: NDArray[np.int64]) -> NDArray[np.int64]:
    """Return the triangles cut at the middle points of their three edges; −1 where an edge has none."""
    many = (middles >= 0).sum(axis=1)
    out = [cells[many == 0]]
    for count in (1, 2, 3):
        rows = many == count
        t, m = cells[rows], middles[rows]
        if count == 3:
            (a, b, c), (ab, bc, ca) = t.T, m.T
            out += [np.column_stack(x) for x in ((a, ab, ca), (ab, b, bc), (ca, bc, c), (ab, bc, ca))]
            continue
        # turned so that the edge with a middle (one), or the edge without (two), runs from a to b
        turn = np.argmax(m >= 0, axis=1) if count == 1 else np.argmax(m < 0, axis=1)
        order = (turn[:, None] + np.arange(3)) % 3
        t, m = np.take_along_axis(t, order, 1), np.take_along_axis(m, order, 1)
        (a, b, c), (ab, bc, ca) = t.T, m.T
        if count == 1:
            out += [np.column_stack((a, ab, c)), np.column_stack((ab, b, c))]
        else:
            out += [np.column_stack((ca, bc, c)), np.column_stack((a, b, bc)), np.column_stack((a, bc, ca))]
    return np.concatenate(out)
