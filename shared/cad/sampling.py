"""Points and normals on the faces of a solid, and rays through a solid: for measuring stock and draft.

The points come from a coarse mesh of a copy, so that the solid itself is left as it is, but lie on the true surface.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import cadquery as cq
from OCP.BRep import BRep_Tool
from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.BRepBuilderAPI import BRepBuilderAPI_Copy
from OCP.BRepLProp import BRepLProp_SLProps
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.gp import gp_Dir, gp_Lin, gp_Pnt
from OCP.IntCurvesFace import IntCurvesFace_ShapeIntersector
from OCP.TopAbs import TopAbs_REVERSED
from OCP.TopLoc import TopLoc_Location

Vector = tuple[float, float, float]
PULL = 0.01  # corners of a mesh triangle are taken this share toward its middle: on the face, just off its edge


class Sample(NamedTuple):
    """A point on a face [mm] and the unit normal that leaves the solid there."""

    at: Vector
    normal: Vector


def sampled_faces(
    solid: cq.Solid, deflection: float = 0.5, turn: float = 0.35
) -> Iterator[tuple[cq.Face, list[Sample]]]:
    """Run over the faces of a solid, each with points spread over it up to its edges.

    Args:
        solid: the solid; it is not changed.
        deflection: greatest distance of the mesh from the surface [mm].
        turn: greatest turn of the surface across a triangle [rad].
    """
    copy = cq.Shape.cast(BRepBuilderAPI_Copy(solid.wrapped, True, False).Shape())
    BRepMesh_IncrementalMesh(copy.wrapped, deflection, False, turn, False)
    for face in copy.Faces():
        yield face, _on(face)


def _on(face: cq.Face) -> list[Sample]:
    mesh = BRep_Tool.Triangulation_s(face.wrapped, TopLoc_Location())
    if mesh is None or not mesh.HasUVNodes():
        return []
    props = BRepLProp_SLProps(BRepAdaptor_Surface(face.wrapped), 1, 1e-9)
    sign = -1.0 if face.wrapped.Orientation() == TopAbs_REVERSED else 1.0
    uv = [(p.X(), p.Y()) for p in (mesh.UVNode(i) for i in range(1, mesh.NbNodes() + 1))]
    places = []
    seen = set()
    for i in range(1, mesh.NbTriangles() + 1):
        corners = mesh.Triangle(i).Get()
        u = sum(uv[c - 1][0] for c in corners) / 3
        v = sum(uv[c - 1][1] for c in corners) / 3
        places.append((u, v))
        for c in corners:
            if c not in seen:
                seen.add(c)
                a, b = uv[c - 1]
                places.append((a + PULL * (u - a), b + PULL * (v - b)))
    out = []
    for u, v in places:
        props.SetParameters(u, v)
        if props.IsNormalDefined():
            p, n = props.Value(), props.Normal()
            out.append(Sample((p.X(), p.Y(), p.Z()), (sign * n.X(), sign * n.Y(), sign * n.Z())))
    return out


class Rays:
    """Rays through one solid."""

    def __init__(self, solid: cq.Shape, tolerance: float = 1e-6) -> None:
        self._job = IntCurvesFace_ShapeIntersector()
        self._job.Load(solid.wrapped, tolerance)

    def reach(self, start: Vector, along: Vector, longest: float = 1e4, skip: float = 0.0) -> float | None:
        """Return the distance to the first face of the solid on a ray [mm], or None when it meets none.

        Args:
            start: where the ray begins [mm].
            along: its direction.
            longest: how far to look [mm].
            skip: faces nearer than this are passed over [mm].
        """
        self._job.PerformNearest(gp_Lin(gp_Pnt(*start), gp_Dir(*along)), skip, longest)
        if not self._job.IsDone() or self._job.NbPnt() == 0:
            return None
        return float(self._job.WParameter(1))
