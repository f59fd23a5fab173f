"""Whether a casting's pattern leaves the sand, measured: least draft, and sand that metal holds fast.

The cope lifts off everything that faces up, also where its sand hangs down between walls; the drag keeps what faces
down and must lie below the parting plane. Lengths mm, angles deg; "up" is along the draw.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from shared.casting.raycast import ASIDE, Floats, Hits, Triangles, cast, other_axes

Place = tuple[float, float, float]
NEAR_PARTING = 2e-3  # mm from the parting plane within which a face belongs to both halves
LEAST_GAP = 0.05  # mm of sand on a ray between metal; less is the mesh's own error


@dataclass(frozen=True)
class DrawCheck:
    """Least draft of any face [deg], negative on an undercut, and where; sand under metal [mm³], and where most."""

    least_deg: float
    at: Place
    trapped_mm3: float
    trapped_at: Place | None


def least_draft(points: Floats, outward: Floats, axis: int, parting: float) -> tuple[float, Place]:
    """Return the least draft of a casting's faces [deg] and where [mm].

    Args:
        points: points of the faces, shape (n, 3) [mm].
        outward: unit normals of the faces there.
        axis: of the draw, 0, 1 or 2.
        parting: where the parting plane stands on it [mm].
    """
    lean, height = outward[:, axis], points[:, axis] - parting
    # a face in the parting plane has no side to draw to, and the rim between both halves belongs to either
    judged = np.abs(height) > NEAR_PARTING
    up = (lean >= 0.0) | (height > 0.0)
    draft = np.where(judged, np.where(up, lean, -lean), 1.0)
    worst = int(np.argmin(draft))
    x, y, z = points[worst]
    return math.degrees(math.asin(float(np.clip(draft[worst], -1.0, 1.0)))), (float(x), float(y), float(z))


def check_draw(
    mesh: Triangles, points: Floats, outward: Floats, axis: int, parting: float, spacing: float
) -> DrawCheck:
    """Measure how a casting draws.

    Args:
        mesh: closed mesh of the casting [mm].
        points: points of its faces, shape (n, 3) [mm].
        outward: unit normals of the faces there; those of the surface, not of the mesh's triangles.
        axis: of the draw, 0, 1 or 2.
        parting: where the parting plane stands on it [mm].
        spacing: distance of the rays that look for trapped sand [mm].
    """
    least, at = least_draft(points, outward, axis, parting)
    a, b = other_axes(axis)
    low, high = mesh.vertices.min(axis=0), mesh.vertices.max(axis=0)
    rows, columns = (np.arange(low[k] + spacing / 2, high[k], spacing) for k in (a, b))
    sand = _held(mesh, axis, rows, columns)
    for x, y in ((ASIDE, 0.0), (-ASIDE, 0.0), (0.0, ASIDE), (0.0, -ASIDE)):
        if not sand.any():
            break
        # what is gone when the rays move sideways lies between the facets of a wall of little draft
        sand = np.minimum(sand, _held(mesh, axis, rows + x, columns + y))
    if not sand.any():
        return DrawCheck(least, at, 0.0, None)
    row, column = divmod(int(np.argmax(sand)), len(columns))
    hits = cast(mesh, axis, rows[row : row + 1], columns[column : column + 1])
    depth = _gaps(hits)
    point = [0.0, 0.0, 0.0]
    point[a], point[b] = float(rows[row]), float(columns[column])
    point[axis] = float(hits.depth[int(np.argmax(depth))] + depth.max() / 2)
    return DrawCheck(least, at, float(sand.sum()) * spacing**2, (point[0], point[1], point[2]))


def _held(mesh: Triangles, axis: int, rows: Floats, columns: Floats) -> Floats:
    """Return how much sand each ray meets that can go neither way [mm], ray by ray."""
    hits = cast(mesh, axis, rows, columns)
    depth = _gaps(hits)
    ray = hits.row * len(columns) + hits.column
    found = np.bincount(ray[: len(depth)], depth, len(rows) * len(columns))
    return found.astype(np.float64)


def _gaps(hits: Hits) -> Floats:
    """Return the stretches out of the metal and back into it on one ray [mm], by the place where each begins."""
    gap = ~hits.entering[:-1] & hits.entering[1:]
    gap &= (hits.row[1:] == hits.row[:-1]) & (hits.column[1:] == hits.column[:-1])
    depth = np.where(gap, hits.depth[1:] - hits.depth[:-1], 0.0)
    depth[depth < LEAST_GAP] = 0.0
    return depth
