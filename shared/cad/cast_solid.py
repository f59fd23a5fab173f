"""A cast part as pattern shop and foundry see it, whatever it belongs to, and how it lies on a match plate.

Plate frame: x along the casting's length, z up into the cope, the parting plane at z = 0, the middle of its outline at
the origin. A part drawn along z lies as it stands; one drawn along y is turned so that its z runs away from the runner.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import inf

import cadquery as cq
import numpy as np
from numpy.typing import NDArray
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepTopAdaptor import BRepTopAdaptor_FClass2d
from OCP.GeomAbs import GeomAbs_CurveType
from OCP.gp import gp_Pnt2d
from OCP.TopAbs import TopAbs_IN

from shared.cad.solids import one_valid_solid, true_box
from shared.casting.alloy import Alloy
from shared.casting.contraction import Contraction
from shared.errors import GeometryError, RequestError
from shared.interpolate import interpolate

Points = NDArray[np.float64]
Extent = tuple[tuple[float, float], tuple[float, float], tuple[float, float]]
SAMPLES = 33  # along one curved edge of an outline
EDGE_STEPS = 96  # places along a casting at which its side is read
NEAR = 1e-5  # mm: a face this near the parting plane lies in it
WALL_IN = 2.0  # mm in from the side: where the height of the wall is read that a neck runs into
WALL_SPAN = 10.0  # mm to either side of a casting's middle where a neck may run into it, at least
LEVEL = 0.02  # mm above or below the parting plane, where an outline is read
KNIFE = 4000.0  # mm, wider than any casting
NORMALS = (0.06, 0.35, 0.65, 0.94)  # where a face is looked at, as shares of its parameters
UNDERCUT = -1e-6  # a normal that leans back by more than this does not draw


@dataclass(frozen=True, eq=False, repr=False)
class CastSolid:
    """One cast part: casting and pattern in the part's own frame [mm]."""

    name: str  # plain ASCII
    alloy: Alloy
    contraction: Contraction
    casting: cq.Solid
    pattern: cq.Solid
    factors: tuple[float, float, float]  # pattern over casting along the part's x, y, z [-]
    draw: str  # "y" or "z": the axis of the part along which it is drawn
    parting: float  # of the casting, on that axis [mm]
    section: float  # main wall of the casting [mm]
    heaviest: float  # thickest section [mm]
    extent: Extent | None = None  # of the casting, where arithmetic knows it; the kernel takes long to find it

    @cached_property
    def span(self) -> Extent:
        """Extent of the casting along the plate's x, y and z [mm], not yet moved there."""
        if self.extent is None:
            box = true_box(self.casting)
            found: Extent = ((box.xmin, box.xmax), (box.ymin, box.ymax), (box.zmin, box.zmax))
        else:
            found = self.extent
        x, y, z = found
        return (x, y, z) if self.draw == "z" else (x, z, (-y[1], -y[0]))

    @cached_property
    def size(self) -> tuple[float, float, float, float]:
        """Length, width, height in the cope and depth in the drag of the casting on the plate [mm]."""
        x, y, z = self.span
        level = self.parting if self.draw == "z" else -self.parting
        cope, drag = max(0.0, z[1] - level), max(0.0, level - z[0])
        # all on one side: what is left is rounding
        return x[1] - x[0], y[1] - y[0], 0.0 if cope < LEVEL else cope, 0.0 if drag < LEVEL else drag

    @cached_property
    def casting_on_plate(self) -> cq.Solid:
        """The casting as it lies on the plate."""
        return self._laid(self.casting, (1.0, 1.0, 1.0))

    @cached_property
    def pattern_on_plate(self) -> cq.Solid:
        """The pattern as it lies on the plate."""
        return self._laid(self.pattern, self.plate_factors)

    def _laid(self, solid: cq.Solid, factors: tuple[float, float, float]) -> cq.Solid:
        turned = solid if self.draw == "z" else cq.Solid(solid.rotate(cq.Vector(), cq.Vector(1, 0, 0), -90.0).wrapped)
        level = self.parting if self.draw == "z" else -self.parting
        (x0, x1), (y0, y1), _ = self.span
        middle = ((x0 + x1) / 2 * factors[0], (y0 + y1) / 2 * factors[1], level * factors[2])
        return cq.Solid(turned.moved(cq.Location(cq.Vector(*(-v for v in middle)))).wrapped)

    @property
    def plate_factors(self) -> tuple[float, float, float]:
        """Pattern over casting along the plate's x, y, z [-]."""
        x, y, z = self.factors
        return (x, y, z) if self.draw == "z" else (x, z, y)

    @cached_property
    def halves(self) -> tuple[tuple[cq.Solid, ...], tuple[cq.Solid, ...]]:
        """The pattern on the plate, split at the parting plane: what stands in the cope, what hangs in the drag.

        Raises:
            RequestError: a half does not draw from a flat parting plane.
        """
        _, _, cope, drag = self.size
        whole = self.pattern_on_plate
        made = split(whole, self.name) if cope and drag else ((whole,), ()) if cope else ((), (whole,))
        for half, sign, side in ((made[0], 1.0, "cope"), (made[1], -1.0, "drag")):
            lean = min((_least_lean(s, sign) for s in half), default=1.0)
            if lean < UNDERCUT:
                raise RequestError(
                    f"{self.name}: its {side} half does not draw from a flat match plate: the parting must step. "
                    "Move the parting plane (body.parting_height) into or below the sole"
                )
        return made


def scaled(
    name: str,
    metal: Alloy,
    contraction: Contraction,
    casting: cq.Solid,
    *,
    draw: str,
    parting: float,
    section: float,
    heaviest: float,
    extent: Extent | None = None,
) -> CastSolid:
    """Return a small cast part whose pattern is its casting scaled by one factor, the mean of the three axes.

    Args:
        name: the part, plain ASCII.
        metal: its alloy.
        contraction: of its castings.
        casting: in the part's frame.
        draw: axis of the draw, "y" or "z".
        parting: where the parting plane stands on that axis [mm].
        section: main wall [mm].
        heaviest: thickest section [mm].
        extent: of the casting along x, y, z [mm], where known.

    Raises:
        GeometryError: the kernel could not scale.
    """
    factor = 1.0 + contraction.along("n")
    pattern = one_valid_solid(casting.scale(factor), f"{name} pattern", "scale")
    return CastSolid(
        name, metal, contraction, casting, pattern, (factor,) * 3, draw, parting, section, heaviest, extent
    )


def split(solid: cq.Solid, part: str) -> tuple[tuple[cq.Solid, ...], tuple[cq.Solid, ...]]:
    """Return what of a solid lies above z = 0 and what below, each one valid solid or several; both must be there.

    Raises:
        GeometryError: the kernel lost metal in the split.
    """
    knife = cq.Face.makePlane(KNIFE, KNIFE, cq.Vector(), cq.Vector(0, 0, 1))
    pieces = [one_valid_solid(s, part, "split at the parting plane") for s in solid.split(knife).Solids()]
    above = tuple(s for s in pieces if s.Center().z > 0)
    below = tuple(s for s in pieces if s.Center().z <= 0)
    lost = solid.Volume() - sum(s.Volume() for s in pieces)
    if abs(lost) > 1e-6 * solid.Volume() or not (above and below):
        raise GeometryError(part, "split at the parting plane", "the halves are not the whole", lost_mm3=lost)
    return above, below


def _least_lean(half: cq.Solid, sign: float) -> float:
    """Return the least share of a face's normal along the draw [-]; negative where a face looks back at the plate."""
    least = 1.0
    for face in half.Faces():
        trim = BRepTopAdaptor_FClass2d(face.wrapped, 1e-7)
        u0, u1, v0, v1 = face._uvBounds()
        for u in (u0 + k * (u1 - u0) for k in NORMALS):
            for v in (v0 + k * (v1 - v0) for k in NORMALS):
                if trim.Perform(gp_Pnt2d(u, v)) != TopAbs_IN:
                    continue
                normal, at = face.normalAt(u, v)
                if abs(at.z) > NEAR:
                    least = min(least, sign * normal.z)
    return least


def outlines(faces: list[cq.Face]) -> list[list[Points]]:
    """Return the outlines of plane faces as samples: for each wire, its edges, each of shape (n, 2) [mm]."""
    return [[_samples(e) for e in w.Edges()] for f in faces for w in f.Wires()]


def _samples(edge: cq.Edge, axes: tuple[int, int] = (0, 1)) -> Points:
    curve = BRepAdaptor_Curve(edge.wrapped)
    n = 2 if curve.GetType() == GeomAbs_CurveType.GeomAbs_Line else SAMPLES
    a, b = curve.FirstParameter(), curve.LastParameter()
    values = [curve.Value(a + (b - a) * i / (n - 1)) for i in range(n)]
    return np.array([[p.Coord(k + 1) for k in axes] for p in values])


def plan_at(solid: cq.Solid, level: float) -> list[cq.Face]:
    """Return the cut of a solid by the level plane z = `level` [mm]."""
    knife = cq.Face.makePlane(KNIFE, KNIFE, cq.Vector(0, 0, level), cq.Vector(0, 0, 1))
    return knife.intersect(solid).Faces()


def facing_edge(plan: list[cq.Face], length: float, width: float) -> tuple[tuple[float, float], ...]:
    """Return the outline on the side that faces the runner (low y) of a casting on the plate.

    Args:
        plan: its cut just beside the parting plane, on the side where the ingates stand.
        length: of the casting [mm], its middle at x = 0.
        width: across [mm], its middle at y = 0.

    Returns:
        (place along x, how far in from the outermost y) [mm], rising along x.
    """
    pieces = [p for loop in outlines(plan) for p in loop]
    found = []
    for i in range(EDGE_STEPS + 1):
        # not at the very ends, where an outline is a mere point
        x = length * (min(max(i / EDGE_STEPS, 1e-3), 1 - 1e-3) - 0.5)
        low = min((y for piece in pieces for y in _crossings(piece, x)), default=inf)
        found.append((x, min(max(low + width / 2, 0.0), width)))
    return tuple(found)


def facing_wall(
    solid: cq.Solid, length: float, width: float, up: float, edge: tuple[tuple[float, float], ...]
) -> tuple[tuple[float, float], ...]:
    """Return how high a casting on the plate stands along the side that faces the runner (low y).

    Args:
        solid: the casting on the plate.
        length: of the casting [mm], its middle at x = 0.
        width: across [mm], its middle at y = 0.
        up: 1 for the height in the cope, -1 for the depth in the drag.
        edge: its outline on that side, as `facing_edge` gives it.

    Returns:
        (place along x, height above the parting plane) [mm], rising along x, where there is metal at the side.
    """
    # a neck runs in to where its whole width meets metal: there its wall begins
    begin = max((depth for x, depth in edge if abs(x) < max(WALL_SPAN, length / 4)), default=0.0)
    knife = cq.Face.makePlane(KNIFE, KNIFE, cq.Vector(0, begin + WALL_IN - width / 2, 0), cq.Vector(0, 1, 0))
    pieces = [_samples(e, (0, 2)) for f in knife.intersect(solid).Faces() for w in f.Wires() for e in w.Edges()]
    found = []
    for i in range(EDGE_STEPS + 1):
        x = length * (i / EDGE_STEPS - 0.5)
        high = max((up * z for piece in pieces for z in _crossings(piece, x)), default=0.0)
        if high > LEVEL:
            found.append((x, high))
    return tuple(found)


def _crossings(piece: Points, x: float) -> list[float]:
    out = []
    for (x0, y0), (x1, y1) in zip(piece[:-1].tolist(), piece[1:].tolist(), strict=True):
        if min(x0, x1) <= x <= max(x0, x1):
            out.append(min(y0, y1) if x0 == x1 else interpolate(x, *zip(*sorted(((x0, y0), (x1, y1))), strict=True)))
    return out
