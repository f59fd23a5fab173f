"""The axis that a turned part was turned about, from its faces."""

from __future__ import annotations

import cadquery as cq
import numpy as np
from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.GeomAbs import GeomAbs_SurfaceType as Kind

from shared.cad.solids import Vector

MOST = 0.6  # share of the round faces' area that must go about one axis
ROUND = 0.3  # share of the whole surface that must be round at all


def turning_axis(solid: cq.Shape) -> Vector | None:
    """Return the direction of the axis that most of a solid's round faces go about; None where it is not turned.

    Flats, slots and small holes across do not matter; the sign is arbitrary but the same for the same solid.
    """
    found: list[tuple[np.ndarray, float]] = []
    whole = 0.0
    for face in solid.Faces():
        area = face.Area()
        whole += area
        surface = BRepAdaptor_Surface(face.wrapped)
        kind = surface.GetType()
        if kind == Kind.GeomAbs_Cylinder:
            axis = surface.Cylinder().Axis()
        elif kind == Kind.GeomAbs_Cone:
            axis = surface.Cone().Axis()
        elif kind == Kind.GeomAbs_Torus:
            axis = surface.Torus().Axis()
        elif kind == Kind.GeomAbs_SurfaceOfRevolution:
            axis = surface.AxeOfRevolution()
        else:
            continue
        direction = np.array(axis.Direction().Coord())
        for i, (known, share) in enumerate(found):
            if abs(known @ direction) > 0.9999:
                found[i] = (known, share + area)
                break
        else:
            found.append((direction, area))
    total = sum(share for _, share in found)
    if not found or total < ROUND * whole:
        return None
    best, share = max(found, key=lambda f: f[1])
    return (float(best[0]), float(best[1]), float(best[2])) if share >= MOST * total else None
