"""Views of solids by exact hidden-line removal, as true lines and arcs. Lengths mm.

A view's own (u, v) are the model's coordinates along its right and up directions, so a length read off a view is the
model's, and views of one model line up. Third angle: the top view stands above the front view, the heel to its right.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

import cadquery as cq
import numpy as np
from OCP.Bnd import Bnd_Box
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepBndLib import BRepBndLib
from OCP.BRepLib import BRepLib
from OCP.BRepTools import BRepTools_WireExplorer
from OCP.GeomAbs import GeomAbs_CurveType
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape
from OCP.TopAbs import TopAbs_Orientation
from OCP.TopoDS import TopoDS, TopoDS_Edge, TopoDS_Shape

from shared.cad.solids import Vector
from shared.drawing.merge import tidy
from shared.drawing.primitives import Primitive, Projection
from shared.drawing.refit import fit
from shared.errors import GeometryError
from shared.profile import Arc, Line, Point, Profile, Segment
from shared.segments import NEAR, arc_between, cross, sub

SAMPLES = 33
FAR = 10000.0  # mm
FINE_SAMPLES = 129  # along a free curve of a section, whose area is a check value


@dataclass(frozen=True)
class View:
    """A direction of sight: which way in the model the view's right and up run (unit vectors at right angles)."""

    right: Vector
    up: Vector

    @property
    def toward(self) -> Vector:
        """Direction from the model to the viewer."""
        n = cq.Vector(*self.right).cross(cq.Vector(*self.up))
        return n.x, n.y, n.z

    @staticmethod
    def along(sight: Vector, up: Vector = (0.0, 0.0, 1.0)) -> View:
        """Return the view that looks along a direction, with another direction upright in it."""
        d = cq.Vector(*sight).normalized()
        right = d.cross(cq.Vector(*up)).normalized()
        v = right.cross(d)
        return View((right.x, right.y, right.z), (v.x, v.y, v.z))

    def flat(self, p: Vector) -> Point:
        """Return a model point's place in the view [mm]."""
        r, u = self.right, self.up
        return p[0] * r[0] + p[1] * r[1] + p[2] * r[2], p[0] * u[0] + p[1] * u[1] + p[2] * u[2]


VIEWS = {
    "front": View((1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),  # looking along +y: toe left, heel right
    "rear": View((-1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),  # looking along -y
    "top": View((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),  # looking down
    "sole": View((1.0, 0.0, 0.0), (0.0, -1.0, 0.0)),  # looking up at the sole
    "heel": View((0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),  # looking forward from behind: stands right of the front view
    "toe": View((0.0, -1.0, 0.0), (0.0, 0.0, 1.0)),  # looking aft: stands left of the front view
}


def project(shape: cq.Shape, view: View | str = "front", hidden: bool = True, smooth: bool = False) -> Projection:
    """Return a view of a shape.

    Args:
        shape: solid or compound.
        view: a name of `VIEWS`, or a view.
        hidden: whether hidden lines are wanted.
        smooth: whether edges where two faces meet smoothly are wanted.

    Raises:
        GeometryError: the kernel could not project the shape.
    """
    v = VIEWS[view] if isinstance(view, str) else view
    try:
        algo = HLRBRep_Algo()
        algo.Add(shape.wrapped)
        axes = gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(*v.toward), gp_Dir(*v.right))
        algo.Projector(HLRAlgo_Projector(axes))
        algo.Update()
        algo.Hide()
        lines, room = HLRBRep_HLRToShape(algo), room_about(shape, v)
        seen = flat_lines(lines.VCompound(), room) + flat_lines(lines.OutLineVCompound(), room)
        covered = flat_lines(lines.HCompound(), room) + flat_lines(lines.OutLineHCompound(), room) if hidden else []
        soft = flat_lines(lines.Rg1LineVCompound(), room) if smooth else []
    except GeometryError:
        raise
    except Exception as err:
        raise GeometryError("view", "hidden lines", "the kernel could not project the shape") from err
    visible = tidy(seen)
    return Projection(visible, tidy(covered, visible), tidy(soft, visible))


def room_about(shape: cq.Shape, view: View) -> tuple[Point, Point]:
    """Return the least and the greatest (u, v) [mm] of a shape in a view, a little too large."""
    box = Bnd_Box()
    BRepBndLib.Add_s(shape.wrapped, box, False)
    x0, y0, z0, x1, y1, z1 = box.Get()
    corners = [view.flat(p) for p in itertools.product((x0, x1), (y0, y1), (z0, z1))]
    us, vs = [c[0] for c in corners], [c[1] for c in corners]
    return (min(us), min(vs)), (max(us), max(vs))


def flat_lines(compound: TopoDS_Shape | None, room: tuple[Point, Point]) -> list[Primitive]:
    """Return the edges of a projected compound, which lies in the plane z = 0, as primitives."""
    if compound is None or compound.IsNull():
        return []
    BRepLib.BuildCurves3d_s(compound)  # without their space curves the edges cannot be read
    edges = cq.Shape.cast(compound).Edges()
    found = [_read(e, room) for e in edges]
    return [p for p in found if p is not None]


def _samples(curve: BRepAdaptor_Curve, n: int) -> list[Vector]:
    a, b = curve.FirstParameter(), curve.LastParameter()
    values = [curve.Value(a + (b - a) * i / (n - 1)) for i in range(n)]
    return [(p.X(), p.Y(), p.Z()) for p in values]


def _read(edge: cq.Edge, room: tuple[Point, Point]) -> Primitive | None:
    curve = BRepAdaptor_Curve(edge.wrapped)
    n = 2 if curve.GetType() == GeomAbs_CurveType.GeomAbs_Line else SAMPLES
    points = np.array(_samples(curve, n))[:, :2]
    low, high = np.array(room[0]) - 1.0, np.array(room[1]) + 1.0
    if (points < low).any() or (points > high).any():
        # the kernel's outline of a tiny blend may swing far out between ends that lie close together
        points = points[[0, -1]]
    return fit(points)


@dataclass(frozen=True)
class SectionFace:
    """One cut face: its outline and holes in the view's (u, v) [mm]; a free curve in it is many short lines."""

    outer: Profile
    holes: tuple[Profile, ...] = ()

    @property
    def area(self) -> float:
        """Area [mm2]."""
        return self.outer.area - sum(h.area for h in self.holes)


@dataclass(frozen=True)
class SectionView:
    """What is seen when everything in front of a plane is taken away, and the faces cut (to be hatched)."""

    projection: Projection
    faces: tuple[SectionFace, ...]


def section_view(shape: cq.Shape, view: View | str, through: Vector = (0.0, 0.0, 0.0),
                 hidden: bool = False) -> SectionView:  # fmt: skip
    """Return the view of a shape cut by the plane square to the line of sight through a point [mm].

    Raises:
        GeometryError: the plane misses the shape, or the kernel failed.
    """
    v = VIEWS[view] if isinstance(view, str) else view
    box = shape.BoundingBox()
    size = 4 * (box.DiagonalLength + cq.Vector(*through).Length + box.center.Length)
    plane = cq.Plane(origin=through, xDir=v.right, normal=v.toward)
    cutter = cq.Workplane(plane).rect(size, size).extrude(size).val()
    assert isinstance(cutter, cq.Shape)
    rest = shape.cut(cutter)
    faces = [f for f in rest.Faces() if _on(f, plane)]
    if not faces:
        raise GeometryError("view", "section", "the plane does not cut the shape", through=through)
    cut = sorted((_cut_face(f, v) for f in faces), key=lambda s: s.outer.bounds)
    return SectionView(project(rest, v, hidden=hidden), tuple(cut))


def cut_faces(shape: cq.Shape, view: View | str, through: Vector = (0.0, 0.0, 0.0)) -> tuple[SectionFace, ...]:
    """Return only the faces cut by the plane square to the line of sight through a point [mm]: a tenth of the cost.

    Raises:
        GeometryError: the plane misses the shape, or the kernel failed.
    """
    v = VIEWS[view] if isinstance(view, str) else view
    # a size that takes in any plane: a shape's own extent costs the kernel more than the cut
    plane = cq.Face.makePlane(FAR, FAR, cq.Vector(*through), cq.Vector(*v.toward))
    faces = plane.intersect(shape).Faces()
    if not faces:
        raise GeometryError("view", "section", "the plane does not cut the shape", through=through)
    return tuple(sorted((_cut_face(f, v) for f in faces), key=lambda s: s.outer.bounds))


def _on(face: cq.Face, plane: cq.Plane) -> bool:
    if face.geomType() != "PLANE":
        return False
    n = face.normalAt()
    return abs(n.dot(plane.zDir)) > 1 - 1e-9 and abs((face.Center() - plane.origin).dot(plane.zDir)) < 1e-6


def _cut_face(face: cq.Face, view: View) -> SectionFace:
    return SectionFace(_loop(face.outerWire(), view), tuple(_loop(w, view) for w in face.innerWires()))


def _loop(wire: cq.Wire, view: View) -> Profile:
    out: list[Segment] = []
    walk = BRepTools_WireExplorer(wire.wrapped)
    while walk.More():
        edge = TopoDS.Edge_s(walk.Current())
        walk.Next()
        for piece in _pieces(edge, view):
            if out and math.dist(out[-1].end, piece.start) > NEAR:
                out.append(Line(out[-1].end, piece.start))  # a kernel tolerance, a fraction of a um
            out.append(piece)
    if math.dist(out[-1].end, out[0].start) > NEAR:
        out.append(Line(out[-1].end, out[0].start))
    return Profile(tuple(out), "section")


def _pieces(edge: TopoDS_Edge, view: View) -> list[Segment]:
    curve = BRepAdaptor_Curve(edge)
    kind = curve.GetType()
    n = 3 if kind in (GeomAbs_CurveType.GeomAbs_Line, GeomAbs_CurveType.GeomAbs_Circle) else FINE_SAMPLES
    pts = [view.flat(p) for p in _samples(curve, n)]
    if edge.Orientation() == TopAbs_Orientation.TopAbs_REVERSED:
        pts.reverse()
    if kind == GeomAbs_CurveType.GeomAbs_Line:
        return [Line(pts[0], pts[-1])]
    if kind == GeomAbs_CurveType.GeomAbs_Circle:
        circle = curve.Circle()
        o = circle.Location()
        centre = view.flat((o.X(), o.Y(), o.Z()))
        if math.dist(pts[0], pts[-1]) < NEAR:
            return [Arc(centre, circle.Radius(), 0.0, 360.0)]
        left = cross(sub(pts[1], pts[0]), sub(pts[2], pts[1])) > 0
        return [arc_between(pts[0], pts[-1], centre, left)]
    return [Line(a, b) for a, b in itertools.pairwise(pts)]
