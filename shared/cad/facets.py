"""The surface of a solid as triangles that know which face they are of: exact normals, sharp edges. Lengths mm."""

from __future__ import annotations

import math

import cadquery as cq
import numpy as np
from numpy.typing import NDArray
from OCP.BRep import BRep_Tool
from OCP.BRepLib import BRepLib_ToolTriangulatedShape
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.TopAbs import TopAbs_Orientation
from OCP.TopLoc import TopLoc_Location

from shared.cad.mesh import WELD
from shared.surface import Surface

SHARP = 18.0  # deg: faces that meet at more than this have a line between them; a tangent rounding has none


def facets(shape: cq.Shape, deflection: float = 0.08, turn: float = 0.25) -> Surface:
    """Return the surface of a shape.

    The defaults are those of `shared.cad.scene`: what a picture has meshed already is not meshed again.

    Args:
        shape: solid or compound.
        deflection: farthest distance of a triangle from the surface [mm].
        turn: largest angle between neighbouring triangles on a curved face [rad].
    """
    BRepMesh_IncrementalMesh(shape.wrapped, deflection, False, turn, False)
    points: list[NDArray[np.float64]] = []
    normals: list[NDArray[np.float64]] = []
    cells: list[NDArray[np.int64]] = []
    base = 0
    for face in shape.Faces():
        spot = TopLoc_Location()
        grid = BRep_Tool.Triangulation_s(face.wrapped, spot)
        if grid is None:
            continue
        # normals of the surface itself: no guess from neighbouring triangles
        BRepLib_ToolTriangulatedShape.ComputeNormals_s(face.wrapped, grid)
        count = grid.NbNodes() + 1
        at = np.array([grid.Node(i).Coord() for i in range(1, count)])
        out = np.array([grid.Normal(i).Coord() for i in range(1, count)])
        rows = np.array([grid.Triangle(i).Get() for i in range(1, grid.NbTriangles() + 1)], dtype=np.int64) - 1
        if not spot.IsIdentity():
            t = spot.Transformation()
            m = np.array([[t.Value(r, c) for c in range(1, 5)] for r in range(1, 4)])
            at, out = at @ m[:, :3].T + m[:, 3], out @ m[:, :3].T
        if face.wrapped.Orientation() == TopAbs_Orientation.TopAbs_REVERSED:
            out, rows = -out, rows[:, [0, 2, 1]]
        points.append(at)
        normals.append(out)
        cells.append(base + rows)
        base += len(at)
    vertices, outward, triangles = np.concatenate(points), np.concatenate(normals), np.concatenate(cells)
    outward /= np.linalg.norm(outward, axis=1, keepdims=True)
    return Surface(vertices, outward, triangles, _sharp_edges(vertices, outward, triangles))


def _sharp_edges(
    vertices: NDArray[np.float64], normals: NDArray[np.float64], triangles: NDArray[np.int64]
) -> NDArray[np.int64]:
    """Return the rims of faces along which the normal jumps, each once."""
    edges = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]])
    low, high = edges.min(axis=1), edges.max(axis=1)
    order = np.lexsort((high, low))
    low, high = low[order], high[order]
    same = (low[1:] == low[:-1]) & (high[1:] == high[:-1])
    rim = ~(np.append(same, False) | np.insert(same, 0, False))  # within one face it belongs to one triangle
    low, high = low[rim], high[rim]
    _, place = np.unique(np.round(vertices / WELD).astype(np.int64), axis=0, return_inverse=True)
    a, b = place.reshape(-1)[low], place.reshape(-1)[high]
    swap = a > b
    low, high = np.where(swap, high, low), np.where(swap, low, high)
    a, b = np.minimum(a, b), np.maximum(a, b)
    order = np.lexsort((b, a))
    a, b, low, high = a[order], b[order], low[order], high[order]
    pair = np.flatnonzero((a[1:] == a[:-1]) & (b[1:] == b[:-1]))
    limit = math.cos(math.radians(SHARP))
    jump = [(normals[end[pair]] * normals[end[pair + 1]]).sum(axis=1) < limit for end in (low, high)]
    keep = pair[jump[0] | jump[1]]
    return np.column_stack([low[keep], high[keep]])
