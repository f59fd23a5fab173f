"""Triangles of a surface with their true normals and sharp edges, as arrays; needs no CAD kernel. Lengths mm."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True)
class Surface:
    """The surface of one solid, ready to be drawn.

    Corners stand once for each face they belong to, so that a flat face is flat and a curved one is smooth.
    """

    vertices: NDArray[np.float64]  # (n, 3) [mm]
    normals: NDArray[np.float64]  # (n, 3), of length 1, outward
    triangles: NDArray[np.int64]  # (m, 3) corner numbers, counter-clockwise seen from outside
    edges: NDArray[np.int64]  # (k, 2) corner numbers: where two faces meet at an angle

    @cached_property
    def box(self) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Least and greatest x, y, z [mm]."""
        return self.vertices.min(axis=0), self.vertices.max(axis=0)
