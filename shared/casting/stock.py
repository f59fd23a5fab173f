"""Machining stock measured on the meshes of casting and finished part, square to each machined plane. Lengths mm."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import distance_transform_edt

from shared.casting.raycast import ASIDE, Floats, Hits, Ints, Triangles, cast, normals

Place = tuple[float, float, float]
ON_PLANE = 5e-3  # mm a mesh of the face may leave its plane
SAME_WAY = 1e-5  # how little the normal of a triangle of the face may differ, as 1 - cos
MOST_RAYS = 60  # along the longer side of a face
MESH_GAP = 0.3  # mm along a ray that two meshes of one skin may lie apart


@dataclass(frozen=True)
class Machined:
    """A machined plane through `at` [mm] that looks along `normal`; `asked` is the least stock on it [mm].

    `low`, `high` bound the face where its plane has others [mm]. `clear` tells of points, shape (…, 3) [mm], where the
    stock is whole: nearer its rim the as-cast edge may be rounded and the face run out into the side. `rim` is the
    breadth of such a strip all round the face that is left out [mm].
    """

    name: str
    at: Place
    normal: Place
    asked: float
    low: Place = (-np.inf, -np.inf, -np.inf)
    high: Place = (np.inf, np.inf, np.inf)
    clear: Callable[[Floats], NDArray[np.bool_]] | None = None
    rim: float = 0.0


@dataclass(frozen=True)
class FaceStock:
    """Metal on one machined face, square to it [mm], by so many rays."""

    name: str
    asked: float
    least: float
    most: float
    rays: int


@dataclass(frozen=True)
class _Mesh:
    vertices: Floats
    triangles: Ints


def measure_stock(finished: Triangles, casting: Triangles, face: Machined) -> FaceStock | None:
    """Measure the metal that a casting has over one machined plane; None where the finished part has no such face.

    Args:
        finished: closed mesh of the finished part [mm].
        casting: closed mesh of its casting, in the same place [mm].
        face: the plane.
    """
    turn = _turn(face.normal)
    level = float(turn[2] @ np.array(face.at))
    mine = _triangles_of(finished, face, turn, level)
    if not mine.any():
        return None
    patch = _Mesh(finished.vertices @ turn.T, finished.triangles[mine])
    spots = patch.vertices[patch.triangles].reshape(-1, 3)
    low, high = spots[:, :2].min(axis=0), spots[:, :2].max(axis=0)
    step = max(0.25, float((high - low).max()) / MOST_RAYS)
    rows, columns = (np.arange(low[k] + step / 2, high[k], step) for k in (0, 1))
    if not (len(rows) and len(columns)):
        return None
    on_face = np.zeros((len(rows), len(columns)), dtype=bool)
    met = cast(patch, 2, rows, columns)
    on_face[met.row, met.column] = True
    if face.rim > 0.0:
        inward = distance_transform_edt(np.pad(on_face, 1), sampling=step)[1:-1, 1:-1]
        # a spot may lie a step nearer to the rim than to the next spot outside of it; a face narrower than two rims
        # is measured along its middle
        on_face &= inward >= min(face.rim + step, float(inward.max()))
    on_face &= _clear(face, turn, level, rows, columns)
    if not on_face.any():
        return None
    metal = _metal_over(cast(_Mesh(casting.vertices @ turn.T, casting.triangles), 2, rows, columns), level, on_face)
    return FaceStock(face.name, face.asked, float(metal.min()), float(metal.max()), len(metal))


def outside(finished: Triangles, casting: Triangles, spacing: float) -> float:
    """Return the volume of a finished part that its casting does not cover [mm³], by rays along z.

    As-cast skin is common to both and meshed twice. What is shorter than `MESH_GAP` on a ray does not count, nor what
    is gone when the ray moves sideways by `ASIDE`: along a wall of little draft a facet's depth makes a long stretch.

    Args:
        finished: closed mesh of the finished part [mm].
        casting: closed mesh of its casting, in the same place [mm].
        spacing: distance of the rays [mm].
    """
    low, high = finished.vertices.min(axis=0), finished.vertices.max(axis=0)
    rows, columns = (np.arange(low[k] + spacing / 2, high[k], spacing) for k in (0, 1))
    bare = _bare(finished, casting, rows, columns)
    for x, y in ((ASIDE, 0.0), (-ASIDE, 0.0), (0.0, ASIDE), (0.0, -ASIDE)):
        if not (bare > MESH_GAP).any():
            break
        bare = np.minimum(bare, _bare(finished, casting, rows + x, columns + y))
    return float(bare[bare > MESH_GAP].sum()) * spacing**2


def _bare(finished: Triangles, casting: Triangles, rows: Floats, columns: Floats) -> Floats:
    """Return how much of each ray along z runs in the finished part and out of its casting [mm], ray by ray."""
    part, cover = (cast(mesh, 2, rows, columns) for mesh in (finished, casting))
    if not len(part.depth):
        return np.zeros(len(rows) * len(columns))
    # all rays laid end to end, each with room for its own depths
    base = min(part.depth.min(), cover.depth.min(initial=np.inf)) - 1.0
    room = max(part.depth.max(), cover.depth.max(initial=-np.inf)) - base + 1.0
    ray = part.row * len(columns) + part.column
    p, c = ((h.row * len(columns) + h.column) * room + (h.depth - base) for h in (part, cover))
    enter, length = c[::2], c[1::2] - c[::2]
    before = np.concatenate([[0.0], np.cumsum(length)])

    def metal_up_to(d: Floats) -> Floats:
        i = np.searchsorted(enter, d, side="right") - 1
        own = np.where(i >= 0, np.minimum(d - enter[np.maximum(i, 0)], length[np.maximum(i, 0)]), 0.0)
        total: Floats = before[np.maximum(i, 0)] + own
        return total

    bare = (p[1::2] - p[::2]) - (metal_up_to(p[1::2]) - metal_up_to(p[::2]))
    found = np.bincount(ray[::2], np.where(bare > MESH_GAP, bare, 0.0), len(rows) * len(columns))
    return found.astype(np.float64)


def _turn(normal: Place) -> Floats:
    """Return the rotation that turns a direction to z, as rows."""
    n = np.array(normal) / np.linalg.norm(normal)
    aside = np.eye(3)[int(np.argmin(np.abs(n)))]
    u = np.cross(aside, n)
    u /= np.linalg.norm(u)
    return np.stack([u, np.cross(n, u), n])


def _triangles_of(mesh: Triangles, face: Machined, turn: Floats, level: float) -> NDArray[np.bool_]:
    corners = mesh.vertices[mesh.triangles]
    near = np.abs(corners @ turn[2] - level).max(axis=1) < ON_PLANE
    facing = normals(mesh) @ turn[2] > 1.0 - SAME_WAY
    middle = corners.mean(axis=1)
    own: NDArray[np.bool_] = near & facing
    own &= ((middle >= np.array(face.low)) & (middle <= np.array(face.high))).all(axis=1)
    return own


def _clear(face: Machined, turn: Floats, level: float, rows: Floats, columns: Floats) -> NDArray[np.bool_]:
    u, v = np.meshgrid(rows, columns, indexing="ij")
    points = u[..., None] * turn[0] + v[..., None] * turn[1] + level * turn[2]
    return np.ones(u.shape, dtype=bool) if face.clear is None else face.clear(points)


def _metal_over(hits: Hits, level: float, wanted: NDArray[np.bool_]) -> Floats:
    """Return the metal above a level on each wanted ray [mm], up to where the ray leaves it; 0 where it is in none."""
    enter, leave = hits.depth[::2], hits.depth[1::2]
    row, column = hits.row[::2], hits.column[::2]
    around = (enter <= level + ON_PLANE) & (leave >= level - ON_PLANE) & wanted[row, column]
    metal = np.zeros(wanted.shape)
    metal[row[around], column[around]] = np.maximum(leave[around] - level, 0.0)
    return metal[wanted]
