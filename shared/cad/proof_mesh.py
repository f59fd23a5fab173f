"""The mesh on which a casting is proved: closed, its corners welded, with the true normals of the faces beside it."""

from __future__ import annotations

from dataclasses import dataclass

import cadquery as cq
import numpy as np
from numpy.typing import NDArray
from OCP.BRepBuilderAPI import BRepBuilderAPI_Copy

from shared.cad.facets import facets
from shared.cad.mesh import WELD

DEFLECTION = 0.1  # mm a triangle may leave the surface
TURN = 0.3  # rad between neighbouring triangles of a curved face


@dataclass(frozen=True, eq=False, repr=False)
class ProofMesh:
    """Welded corners [mm] and triangles, counter-clockwise from outside; points on the faces with unit normals."""

    vertices: NDArray[np.float64]
    triangles: NDArray[np.int64]
    points: NDArray[np.float64]
    outward: NDArray[np.float64]


def proof_mesh(solid: cq.Shape) -> ProofMesh:
    """Return the mesh of a solid, made on a copy: the solid is left as it is and the mesh is the same every time."""
    made = facets(cq.Shape.cast(BRepBuilderAPI_Copy(solid.wrapped, True, False).Shape()), DEFLECTION, TURN)
    keys = np.round(made.vertices / WELD).astype(np.int64)
    _, first, number = np.unique(keys, axis=0, return_index=True, return_inverse=True)
    cells = number.reshape(-1)[made.triangles]
    # triangles that the welding has closed up
    good = (cells[:, 0] != cells[:, 1]) & (cells[:, 1] != cells[:, 2]) & (cells[:, 2] != cells[:, 0])
    return ProofMesh(made.vertices[first], cells[good], made.vertices, made.normals)
