"""Solids from outlines, and the gate that every solid must pass. Lengths mm, angles deg, densities kg/m3."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import NamedTuple

import cadquery as cq
from OCP.Bnd import Bnd_Box
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
from OCP.BRepBndLib import BRepBndLib
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge, BRepBuilderAPI_MakeWire
from OCP.BRepClass3d import BRepClass3d_SolidClassifier
from OCP.BRepGProp import BRepGProp
from OCP.GC import GC_MakeArcOfCircle
from OCP.gp import gp_Ax2, gp_Circ, gp_Dir, gp_Pnt
from OCP.GProp import GProp_GProps
from OCP.ShapeAnalysis import ShapeAnalysis_ShapeTolerance
from OCP.TopAbs import TopAbs_ShapeEnum, TopAbs_State

from shared.errors import GeometryError
from shared.profile import Arc, Profile, Segment

Vector = tuple[float, float, float]
MM3_PER_M3 = 1e9
LOOSEST = 0.01  # mm: faces of a sound solid meet within this; our roundings reach 0.003, a torn one 0.02 and more


class Frame(NamedTuple):
    """Where an outline's own u and v run in space: origin [mm] and two unit directions at right angles."""

    origin: Vector
    u: Vector
    v: Vector

    @property
    def normal(self) -> Vector:
        """Return u x v."""
        n = cq.Vector(*self.u).cross(cq.Vector(*self.v))
        return n.x, n.y, n.z

    def point(self, u: float, v: float) -> Vector:
        """Return the point in space [mm] of the outline's (u, v) [mm]."""
        o, a, b = self.origin, self.u, self.v
        return o[0] + u * a[0] + v * b[0], o[1] + u * a[1] + v * b[1], o[2] + u * a[2] + v * b[2]

    def shifted(self, along: Vector, distance: float) -> Frame:
        """Return this frame with its origin moved along a direction by a distance [mm]."""
        o = self.origin
        moved = (o[0] + distance * along[0], o[1] + distance * along[1], o[2] + distance * along[2])
        return Frame(moved, self.u, self.v)


# An outline drawn in the side view has (u, v) = (x, z); in plan (x, y); in the cross-section (y, z).
FRAMES = {
    "y": Frame((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),
    "z": Frame((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
    "x": Frame((0.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
}
_AXES = {"x": (1.0, 0.0, 0.0), "y": (0.0, 1.0, 0.0), "z": (0.0, 0.0, 1.0)}


def one_valid_solid(shape: cq.Workplane | cq.Shape, part: str, step: str) -> cq.Solid:
    """Return the one solid of a shape.

    Args:
        shape: what a step of the build gave.
        part: the part's name, for the message.
        step: the step's name, for the message.

    Raises:
        GeometryError: not exactly one solid, or it is not valid, not closed, inside out, or held together only by
            tolerances wider than `LOOSEST`.
    """
    if isinstance(shape, cq.Workplane):
        found = [s for value in shape.vals() if isinstance(value, cq.Shape) for s in value.Solids()]
    else:
        found = shape.Solids()
    if len(found) != 1:
        raise GeometryError(part, step, "must give one solid", solids=len(found))
    solid = found[0]
    if not solid.isValid():
        raise GeometryError(part, step, "the solid is not valid")
    if not all(shell.Closed() for shell in solid.Shells()):
        raise GeometryError(part, step, "the solid is not closed")
    # the kernel calls a torn rounding valid once it has given its corners tolerances that span the tear
    loosest = looseness(solid)
    if loosest > LOOSEST:
        raise GeometryError(part, step, "faces do not meet", gap_mm=loosest, most_mm=LOOSEST)
    # a closed solid that is turned inside out holds the point at infinity; telling so is far cheaper than its volume
    classifier = BRepClass3d_SolidClassifier(solid.wrapped)
    classifier.PerformInfinitePoint(1e-7)
    if classifier.State() != TopAbs_State.TopAbs_OUT:
        raise GeometryError(part, step, "the solid is inside out")
    return solid


def looseness(shape: cq.Shape) -> float:
    """Return the widest tolerance [mm] within which the faces of a shape meet at an edge or a corner."""
    measure = ShapeAnalysis_ShapeTolerance()
    return max(measure.Tolerance(shape.wrapped, 1, kind) for kind in (TopAbs_ShapeEnum.TopAbs_VERTEX,
                                                                      TopAbs_ShapeEnum.TopAbs_EDGE))  # fmt: skip


def cut_away(solid: cq.Solid, tools: Sequence[cq.Solid], part: str, step: str) -> cq.Solid:
    """Return a solid less several tools.

    The tools are joined before they cut: the kernel then meets the solid once, which takes it about a third less time
    than one cut with many tools.

    Raises:
        GeometryError: nothing to cut with, or not one valid solid is left.
    """
    if not tools:
        raise GeometryError(part, step, "nothing to cut with")
    tool = tools[0].fuse(*tools[1:]) if len(tools) > 1 else tools[0]
    return one_valid_solid(solid.cut(tool), part, step)


def wire(outline: Profile | Iterable[Segment], frame: Frame) -> cq.Wire:
    """Return an outline, or an open chain of pieces, as a kernel wire of true lines and circles in a frame."""
    maker = BRepBuilderAPI_MakeWire()
    for s in outline:
        maker.Add(_edge(s, frame).wrapped)
    if not maker.IsDone():
        name = outline.name if isinstance(outline, Profile) else "chain"
        raise GeometryError(name, "outline", "its pieces do not join into a wire")
    return cq.Wire(maker.Wire())


def _edge(s: Segment, frame: Frame) -> cq.Edge:
    if not isinstance(s, Arc):
        a, b = gp_Pnt(*frame.point(*s.start)), gp_Pnt(*frame.point(*s.end))
        return cq.Edge(BRepBuilderAPI_MakeEdge(a, b).Edge())
    n = frame.normal
    # the kernel turns right-handed about the circle's axis, so a clockwise arc turns about the other axis
    axis = n if s.sweep > 0 else (-n[0], -n[1], -n[2])
    circle = gp_Circ(gp_Ax2(gp_Pnt(*frame.point(*s.centre)), gp_Dir(*axis), gp_Dir(*frame.u)), s.radius)
    if s.full:
        return cq.Edge(BRepBuilderAPI_MakeEdge(circle).Edge())
    sign = 1.0 if s.sweep > 0 else -1.0
    a0 = math.radians(sign * s.start_angle)
    curve = GC_MakeArcOfCircle(circle, a0, a0 + math.radians(abs(s.sweep)), True).Value()
    return cq.Edge(BRepBuilderAPI_MakeEdge(curve).Edge())


def face(outline: Profile, frame: Frame, holes: Sequence[Profile] = ()) -> cq.Face:
    """Return the plane face inside an outline, less its holes, in a frame."""
    return cq.Face.makeFromWires(wire(outline, frame), [wire(h, frame) for h in holes])


def extrude(outline: Profile, axis: str, start: float, end: float, holes: Sequence[Profile] = (),
            part: str = "") -> cq.Solid:  # fmt: skip
    """Return an outline pushed along an axis of the plane.

    Args:
        outline: drawn as (x, z) for axis "y", (x, y) for "z", (y, z) for "x" [mm].
        axis: "x", "y" or "z".
        start: where the solid begins on that axis [mm].
        end: where it ends [mm]; may lie before the start.
        holes: outlines left open.
        part: name for messages; the outline's own name when empty.

    Raises:
        GeometryError: the kernel gave no valid solid.
    """
    return extrude_in(outline, FRAMES[axis].shifted(_AXES[axis], start), _AXES[axis], end - start, holes, part)


def extrude_both(outline: Profile, axis: str, width: float, holes: Sequence[Profile] = (), part: str = "") -> cq.Solid:
    """Return an outline pushed along an axis to both sides of the middle plane: whole width [mm]. See `extrude`."""
    return extrude(outline, axis, -width / 2, width / 2, holes, part)


def extrude_in(outline: Profile, frame: Frame, along: Vector, distance: float, holes: Sequence[Profile] = (),
               part: str = "") -> cq.Solid:  # fmt: skip
    """Return an outline in any frame pushed along a unit direction by a distance [mm].

    Raises:
        GeometryError: the kernel gave no valid solid.
    """
    push = cq.Vector(*along) * distance
    try:
        made = cq.Solid.extrudeLinear(face(outline, frame, holes), push)
    except Exception as err:
        raise GeometryError(part or outline.name, "extrude", "the kernel refused the outline") from err
    return one_valid_solid(made, part or outline.name, "extrude")


def revolve(outline: Profile, foot: Vector = (0.0, 0.0, 0.0), axis: Vector = (0.0, 0.0, 1.0), angle: float = 360.0,
            part: str = "") -> cq.Solid:  # fmt: skip
    """Return an outline turned about an axis.

    Args:
        outline: drawn as (radius, height) [mm], radius 0 on the axis, nowhere below 0.
        foot: point of the axis where the height is 0 [mm].
        axis: unit direction of growing height.
        angle: angle turned [deg].
        part: name for messages; the outline's own name when empty.

    Raises:
        GeometryError: the outline crosses the axis, or the kernel gave no valid solid.
    """
    who = part or outline.name
    if outline.bounds[0] < -1e-9:
        raise GeometryError(who, "revolve", "the outline crosses the axis", least_radius_mm=outline.bounds[0])
    up = cq.Vector(*axis)
    # any direction square to the axis will do; x is kept where it can be, so that seams lie at the toe
    aside = cq.Vector(1, 0, 0) - up * up.x
    if aside.Length < 1e-6:
        aside = cq.Vector(0, 1, 0)
    out = aside.normalized()
    frame = Frame(foot, (out.x, out.y, out.z), axis)
    base = cq.Vector(*foot)
    try:
        made = cq.Solid.revolve(face(outline, frame), angle, base, base + up)
    except Exception as err:
        raise GeometryError(who, "revolve", "the kernel refused the outline") from err
    return one_valid_solid(made, who, "revolve")


def taper_extrude(outline: Profile, axis: str, plane: float, draft: float, up: float = 0.0, down: float = 0.0,
                  part: str = "") -> cq.Solid:  # fmt: skip
    """Return an outline pushed away from a parting plane with draft, so that both halves draw.

    Args:
        outline: the largest outline, at the parting plane, drawn as for `extrude` [mm].
        axis: the draw direction, "x", "y" or "z".
        plane: where the parting plane stands on that axis [mm].
        draft: slant of every side wall [deg], inward away from the plane; 0 or more.
        up: height to the positive side [mm].
        down: height to the negative side [mm].
        part: name for messages; the outline's own name when empty.

    Raises:
        GeometryError: draft or heights out of range, or the kernel gave no valid solid.
    """
    who = part or outline.name
    if not 0 <= draft < 45 or up < 0 or down < 0 or up + down <= 0:
        raise GeometryError(who, "taper", "needs a draft of 0 to 45 deg and a height", draft=draft, up=up, down=down)
    base = face(outline, FRAMES[axis].shifted(_AXES[axis], plane))
    halves = []
    for height in (up, -down):
        if height == 0:
            continue
        try:
            made = cq.Solid.extrudeLinear(base, cq.Vector(*_AXES[axis]) * height, taper=draft)
        except Exception as err:
            raise GeometryError(who, "taper", "the kernel refused the outline", height_mm=height) from err
        halves.append(one_valid_solid(made, who, "taper"))
    if len(halves) == 1:
        return halves[0]
    return one_valid_solid(halves[0].fuse(halves[1]), who, "taper")


def pick_edges(solid: cq.Shape, where: Callable[[cq.Edge], bool], count: int, part: str, step: str) -> list[cq.Edge]:
    """Return the edges that a test picks, which must be as many as expected.

    Args:
        solid: the solid to look on.
        where: test on an edge, written with the part's own sizes.
        count: edges expected.
        part: the part's name, for the message.
        step: the step's name, for the message.

    Raises:
        GeometryError: another number of edges passes the test.
    """
    found = [e for e in solid.Edges() if where(e)]
    if len(found) != count:
        raise GeometryError(part, step, "picked the wrong number of edges", expected=count, found=len(found))
    return found


def within(low: Vector, high: Vector, slack: float = 1e-3) -> Callable[[cq.Edge], bool]:
    """Return a test for `pick_edges`: the whole edge lies in the box from low to high [mm], by a slack [mm]."""

    def test(edge: cq.Edge) -> bool:
        b = edge.BoundingBox()
        tight = ((b.xmin, b.xmax), (b.ymin, b.ymax), (b.zmin, b.zmax))
        return all(lo - slack <= a and z <= hi + slack for (a, z), lo, hi in zip(tight, low, high, strict=True))

    return test


def common_volume(a: cq.Shape, b: cq.Shape) -> float:
    """Return the volume that two shapes share [mm3]; 0 when they only touch."""
    p, q = _rough_box(a), _rough_box(b)
    if p.IsOut(q):
        return 0.0
    job = BRepAlgoAPI_Common(a.wrapped, b.wrapped)
    if not job.IsDone():
        raise GeometryError("interference", "common volume", "the kernel could not intersect the two parts")
    shared = GProp_GProps()
    BRepGProp.VolumeProperties_s(job.Shape(), shared)
    return max(0.0, shared.Mass())


class Room:
    """Solids with the boxes round them, found once, so that pairs far apart are told at once."""

    def __init__(self, solids: Mapping[str, cq.Solid]) -> None:
        self._solids = solids
        self._boxes = {name: _rough_box(solid) for name, solid in solids.items()}

    def common_volume(self, a: str, b: str) -> float:
        """Return the volume that two of the solids share [mm3], by their names; 0 when they only touch."""
        if self._boxes[a].IsOut(self._boxes[b]):
            return 0.0
        return common_volume(self._solids[a], self._solids[b])


def _rough_box(shape: cq.Shape) -> Bnd_Box:
    """Return a box round a shape: a little too large at worst, and found far sooner than the tight one."""
    box = Bnd_Box()
    BRepBndLib.Add_s(shape.wrapped, box, False)
    return box


def true_box(shape: cq.Shape) -> cq.BoundBox:
    """Return the tight box round a shape by its surfaces; one that has been meshed gets the same as before."""
    box = Bnd_Box()
    BRepBndLib.AddOptimal_s(shape.wrapped, box, False, True)
    return cq.BoundBox(box)


def mass_properties(shape: cq.Shape, density: float) -> tuple[float, float, Vector]:
    """Return volume [mm3], mass [kg] and centre of mass [mm] of a shape of one density [kg/m3]."""
    props = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape.wrapped, props)
    c = props.CentreOfMass()
    return props.Mass(), props.Mass() / MM3_PER_M3 * density, (c.X(), c.Y(), c.Z())
