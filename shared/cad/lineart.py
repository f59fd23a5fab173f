"""Dark lines of a mesh, and a hidden-line drawing of a scene that needs no graphics library. Lengths mm."""

from __future__ import annotations

import math
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from shared.cad.mesh import Mesh
from shared.cad.palette import INK, PAPER
from shared.cad.scene import Aim, Camera, Shown

CREASE = 28.0  # deg: sharper edges than this get a line


def dark_edges(mesh: Mesh, eye: NDArray[np.float64], parallel: bool) -> NDArray[np.int64]:
    """Return the edges to draw dark, shape (n, 2): creases, and the rim seen against what lies behind.

    Args:
        mesh: a closed mesh.
        eye: the viewer's place [mm], or the direction toward him when the view is parallel.
        parallel: whether the view has no perspective.
    """
    t = mesh.triangles
    a, b, c = (mesh.vertices[t[:, i]] for i in range(3))
    normal = np.cross(b - a, c - a)
    size = np.linalg.norm(normal, axis=1, keepdims=True)
    normal = np.divide(normal, size, out=np.zeros_like(normal), where=size > 0)
    facing = (normal * (eye if parallel else eye - a)).sum(axis=1) > 0
    edges = np.concatenate([t[:, [0, 1]], t[:, [1, 2]], t[:, [2, 0]]])
    owner = np.tile(np.arange(len(t)), 3)
    low, high = edges.min(axis=1), edges.max(axis=1)
    order = np.lexsort((high, low))
    low, high, owner = low[order], high[order], owner[order]
    pairs = np.flatnonzero((low[:-1] == low[1:]) & (high[:-1] == high[1:]))
    p, q = owner[pairs], owner[pairs + 1]
    crease = (normal[p] * normal[q]).sum(axis=1) < math.cos(math.radians(CREASE))
    if mesh.faces is not None:
        # slim triangles of a long rounding can stand askew to one another, where the face itself has no crease
        crease &= mesh.faces[p] != mesh.faces[q]
    keep = pairs[crease | (facing[p] != facing[q])]
    return np.column_stack([low[keep], high[keep]])


def eye_of(target: Aim, camera: Camera) -> tuple[NDArray[np.float64], bool]:
    """Return the `eye` and `parallel` arguments of `dark_edges` for a camera set up for a scene."""
    if camera.angle == 0:
        return np.array(camera.stands) / np.linalg.norm(camera.stands), True
    return target.position, False


def _seen_from(points: NDArray[np.float64], target: Aim, camera: Camera, size: tuple[int, int]) -> NDArray[np.float64]:
    """Return pixel column, pixel row from the top, and rank in depth of points; less is nearer.

    The rank runs evenly along a straight line of the picture, and near the focus a mm of depth is one of rank.
    """
    back = target.position - target.focus
    back = back / np.linalg.norm(back)
    right = np.cross(target.up, back)
    v = points - target.focus
    depth = target.distance - v @ back
    flat = camera.angle == 0
    shrink = np.ones_like(depth) if flat else target.distance / depth
    rank = depth if flat else -target.distance * shrink
    k = size[1] / 2 / target.half_height
    return np.column_stack([size[0] / 2 + k * (v @ right) * shrink, size[1] / 2 - k * (v @ target.up) * shrink, rank])


def _depths(scene: Sequence[Shown], target: Aim, camera: Camera, size: tuple[int, int]) -> NDArray[np.float64]:
    """Return the least rank in depth at each pixel."""
    near = np.full((size[1], size[0]), np.inf)
    for s in scene:
        p = _seen_from(s.mesh.vertices, target, camera, size)
        for tri in p[s.mesh.triangles]:
            x0, y0 = np.floor(tri[:, :2].min(axis=0)).astype(int)
            x1, y1 = np.ceil(tri[:, :2].max(axis=0)).astype(int) + 1
            x0, y0, x1, y1 = max(x0, 0), max(y0, 0), min(x1, size[0]), min(y1, size[1])
            m = np.array([tri[:, 0], tri[:, 1], np.ones(3)])
            if x1 <= x0 or y1 <= y0 or abs(np.linalg.det(m)) < 1e-9:
                continue
            inv = np.linalg.inv(m)
            xs, ys = np.arange(x0, x1)[None, :], np.arange(y0, y1)[:, None]
            share = inv[:, 0, None, None] * xs + inv[:, 1, None, None] * ys + inv[:, 2, None, None]
            z = np.tensordot(tri[:, 2], share, axes=1)
            z[(share < -1e-6).any(axis=0)] = np.inf
            np.minimum(near[y0:y1, x0:x1], z, out=near[y0:y1, x0:x1])
    return near


def draw_lines(path: Path, scene: Sequence[Shown], camera: Camera, target: Aim, size: tuple[int, int]) -> None:
    """Write a hidden-line drawing of a scene as PNG.

    Args:
        path: file to write.
        scene: what is shown.
        camera: where the viewer stands.
        target: the camera set up for the scene, from `aim`.
        size: width and height [pixels].
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.collections import LineCollection
    from matplotlib.figure import Figure

    near = _depths(scene, target, camera, size)
    # a line is hidden where every pixel about it is clearly nearer than the line
    padded = np.pad(near, 1, constant_values=np.inf)
    far = np.maximum.reduce([padded[i : i + size[1], j : j + size[0]] for i in range(3) for j in range(3)])
    slack = 2.5 * 2 * target.half_height / size[1]
    eye, parallel = eye_of(target, camera)
    strokes = []
    for s in scene:
        p = _seen_from(s.mesh.vertices, target, camera, size)
        for a, b in p[dark_edges(s.mesh, eye, parallel)]:
            n = max(1, math.ceil(np.hypot(*(b - a)[:2]) / 3.0))
            ends = a + (b - a) * np.linspace(0, 1, n + 1)[:, None]
            mids = (ends[:-1] + ends[1:]) / 2
            col = np.clip(np.round(mids[:, 0]).astype(int), 0, size[0] - 1)
            row = np.clip(np.round(mids[:, 1]).astype(int), 0, size[1] - 1)
            for i in np.flatnonzero(mids[:, 2] <= far[row, col] + slack):
                strokes.append(ends[i : i + 2, :2])
    figure = Figure(figsize=(size[0] / 100, size[1] / 100), dpi=100, facecolor=PAPER)
    axes = figure.add_axes((0, 0, 1, 1))
    axes.set_xlim(0, size[0])
    axes.set_ylim(size[1], 0)
    axes.axis("off")
    axes.add_collection(LineCollection(strokes, colors=[INK], linewidths=0.9, capstyle="round"))
    FigureCanvasAgg(figure)
    figure.savefig(path, metadata={"Software": None})
