"""Closed meshes for tests that need no CAD kernel."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import trimesh


@dataclass(frozen=True)
class Mesh:
    """A closed mesh with points of its faces and their normals: here, the triangles' middles."""

    vertices: np.ndarray
    triangles: np.ndarray

    @property
    def points(self) -> np.ndarray:
        return self.vertices[self.triangles].mean(axis=1)

    @property
    def outward(self) -> np.ndarray:
        a, b, c = (self.vertices[self.triangles[:, i]] for i in range(3))
        n = np.cross(b - a, c - a)
        return n / np.linalg.norm(n, axis=1, keepdims=True)


def of(mesh: trimesh.Trimesh) -> Mesh:
    assert mesh.is_watertight
    return Mesh(np.asarray(mesh.vertices, float), np.asarray(mesh.faces, np.int64))


def box(low, high) -> Mesh:
    return of(trimesh.creation.box(bounds=[low, high]))


def hull(points) -> Mesh:
    """The smallest convex solid about some points."""
    return of(trimesh.convex.convex_hull(np.array(points, float)))


def frustum(half: float, height: float, draft_deg: float) -> Mesh:
    """A square block from z = 0 up that draws in by a draft on all sides."""
    top = half - height * np.tan(np.radians(draft_deg))
    return hull([(sx * h, sy * h, z) for h, z in ((half, 0.0), (top, height)) for sx in (1, -1) for sy in (1, -1)])


def blocks(full: np.ndarray, size: float) -> Mesh:
    """The cubes of a grid that are full, as one solid."""
    padded = np.pad(full.astype(bool), 1)
    quads = []
    for axis in range(3):
        b, c = (axis + 1) % 3, (axis + 2) % 3
        for way in (1, -1):
            bare = padded & ~np.roll(padded, -way, axis)
            for cell in np.argwhere(bare):
                corners = np.tile(cell - 1.0, (4, 1))
                corners[:, axis] += 1.0 if way > 0 else 0.0
                for i, (u, v) in enumerate(((0, 0), (1, 0), (1, 1), (0, 1))):
                    corners[i, b] += u
                    corners[i, c] += v
                quads.append(corners if way > 0 else corners[::-1])
    points = np.concatenate(quads) * size
    vertices, number = np.unique(points, axis=0, return_inverse=True)
    q = number.reshape(-1, 4)
    return Mesh(vertices, np.concatenate([q[:, [0, 1, 2]], q[:, [0, 2, 3]]]).astype(np.int64))
