"""What models of small cast parts must prove: they draw, they have their stock, and nothing runs into anything."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import asin, degrees

import cadquery as cq
from OCP.BRepClass3d import BRepClass3d_SolidClassifier
from OCP.BRepTopAdaptor import BRepTopAdaptor_FClass2d
from OCP.gp import gp_Pnt, gp_Pnt2d
from OCP.TopAbs import TopAbs_IN

from shared.cad.solids import common_volume

GRID = (0.08, 0.3, 0.5, 0.7, 0.92)  # where a face is looked at, as shares of its parameters


@dataclass(frozen=True)
class Meeting:
    """Two solids: volume they share [mm3] and the gap between them [mm]."""

    first: str
    second: str
    common: float
    gap: float


def meetings(solids: Sequence[tuple[str, cq.Solid]], within: float = 3.0) -> list[Meeting]:
    """Return every pair that shares volume, touches, or comes within a distance [mm]."""
    found = []
    for i, (first, a) in enumerate(solids):
        for second, b in solids[i + 1 :]:
            if _apart(a, b) > within:
                continue
            gap = a.distance(b)
            if gap <= within:
                found.append(Meeting(first, second, common_volume(a, b) if gap == 0.0 else 0.0, gap))
    return found


def _apart(a: cq.Solid, b: cq.Solid) -> float:
    """Return how far the boxes about two solids are apart along an axis [mm], at most; negative when they overlap."""
    p, q = a.BoundingBox(), b.BoundingBox()
    return max(p.xmin - q.xmax, q.xmin - p.xmax, p.ymin - q.ymax, q.ymin - p.ymax, p.zmin - q.zmax, q.zmin - p.zmax)


def least_draft(casting: cq.Solid, axis: str, parting: float, skip_up_to: float = 1e-3) -> float:
    """Return the least draft of any wall of a casting [deg]; negative is an undercut.

    Every face is looked at on a grid. Points on the parting plane itself belong to both halves and are left out.

    Args:
        casting: the raw casting.
        axis: draw direction, "y" or "z".
        parting: where the parting plane stands on that axis [mm].
        skip_up_to: distance from the parting plane that counts as on it [mm].
    """
    worst = 90.0
    for face in casting.Faces():
        trim = BRepTopAdaptor_FClass2d(face.wrapped, 1e-7)
        u0, u1, v0, v1 = face._uvBounds()
        for u in (u0 + k * (u1 - u0) for k in GRID):
            for v in (v0 + k * (v1 - v0) for k in GRID):
                if trim.Perform(gp_Pnt2d(u, v)) != TopAbs_IN:
                    continue
                normal, at = face.normalAt(u, v)
                height = float(getattr(at, axis)) - parting
                if abs(height) > skip_up_to:
                    lean = float(getattr(normal, axis)) * (1.0 if height > 0 else -1.0)
                    worst = min(worst, degrees(asin(max(-1.0, min(1.0, lean)))))
    return worst


def outside_casting(finished: cq.Solid, casting: cq.Solid) -> float:
    """Return the volume of the finished part that lies outside its casting [mm3]; must be 0."""
    return abs(finished.Volume() - common_volume(finished, casting))


def least_stock(casting: cq.Solid, point: tuple[float, float, float], out: tuple[float, float, float],
                most: float = 6.0) -> float:  # fmt: skip
    """Return the metal that a casting has beyond a point of a machined face, along a direction, up to `most` [mm]."""
    classify = BRepClass3d_SolidClassifier(casting.wrapped)

    def inside(depth: float) -> bool:
        classify.Perform(gp_Pnt(*(p + depth * o for p, o in zip(point, out, strict=True))), 1e-7)
        return bool(classify.State() == TopAbs_IN)

    step, depth = 0.25, 0.01
    while depth < most and inside(depth):
        depth += step
    low, high = max(0.0, depth - step), depth
    for _ in range(16):
        half = (low + high) / 2
        low, high = (half, high) if inside(half) else (low, half)
    return low
