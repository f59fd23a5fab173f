"""What must hold of every frog, measured on its solids: covered by the casting, stock everywhere, draft everywhere."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import asin, degrees

import cadquery as cq

from parts.frog.finished import slope
from parts.frog.outline import SPOT_DIAMETER
from parts.frog.size import FrogSize
from parts.frog.solid import FrogSolids
from shared.cad.cover import outside
from shared.cad.solids import Vector
from shared.errors import GeometryError

SAMPLES = (0.04, 0.35, 0.65, 0.96)  # of a face's parameter range, each way


@dataclass(frozen=True)
class FrogProof:
    """Measured on the solids."""

    uncovered_mm3: float  # of the finished frog outside the casting
    least_draft_deg: float  # over every wall of the casting
    stock_missing_mm3: dict[str, float]  # by machined face: what the required allowance lacks


def prove(size: FrogSize, made: FrogSolids) -> FrogProof:
    """Measure one frog.

    Raises:
        GeometryError: a machined face is not found on the finished solid.
    """
    missing = {name: _missing(size, made, name, at, out) for name, at, out in machined_planes(size)}
    return FrogProof(outside(made.finished, made.casting).mm3, least_draft(made.casting), missing)


def least_draft(casting: cq.Solid) -> float:
    """Return the least draft [deg] of a casting drawn both ways along y from y = 0; negative on an undercut."""
    least = 90.0
    for face in casting.Faces():
        for point, normal in _normals(face):
            if abs(point.y) < 1e-3:
                continue
            draw = 1.0 if point.y > 0 else -1.0
            least = min(least, degrees(asin(max(-1.0, min(1.0, draw * normal.y)))))
    return least


def _normals(face: cq.Face) -> Iterator[tuple[cq.Vector, cq.Vector]]:
    u0, u1, v0, v1 = face._uvBounds()
    for i in SAMPLES:
        for k in SAMPLES:
            normal, point = face.normalAt(u0 + i * (u1 - u0), v0 + k * (v1 - v0))
            yield point, normal


def machined_planes(size: FrogSize) -> list[tuple[str, Vector, Vector]]:
    """Return name, a point and the outward normal of each machined plane."""
    at = slope(size)
    return [
        ("bed", at.point(0.0), at.outward),
        ("low seat", (0.0, 0.0, size.low_z), (0.0, 0.0, -1.0)),
        ("step", (size.high_from, 0.0, 0.0), (1.0, 0.0, 0.0)),
        ("high seat", (0.0, 0.0, size.high_z), (0.0, 0.0, -1.0)),
        ("spot face", at.point(size.rear_at), at.up),
        ("washer floors", (size.holddown_at, size.holddown_y, size.high_z + size.floor), (0.0, 0.0, 1.0)),
    ]


def _missing(size: FrogSize, made: FrogSolids, name: str, at: Vector, out: Vector) -> float:
    normal = cq.Vector(*out)
    found = 0
    missing = 0.0
    for face in made.finished.Faces():
        if face.geomType() != "PLANE" or (face.normalAt() - normal).Length > 1e-6:
            continue
        if abs((face.Center() - cq.Vector(*at)).dot(normal)) > 1e-5:
            continue
        if name == "spot face" and face.BoundingBox().DiagonalLength > 2 * SPOT_DIAMETER:
            continue
        found += 1
        layer = cq.Solid.extrudeLinear(cq.Face.makeFromWires(face.outerWire()), normal * size.required)
        missing += layer.cut(made.casting).Volume()
    if not found:
        raise GeometryError("frog", "proof", f"no machined face '{name}' on the finished solid")
    return missing
