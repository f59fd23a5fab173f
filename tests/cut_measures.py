"""Sizes read off a solid's cut faces, as one would lay a rule on a casting sawn through: walls, levels, radii [mm]."""

from __future__ import annotations

from pathlib import Path

import cadquery as cq
import pytest
from OCP.BRepAdaptor import BRepAdaptor_Surface

from parts.plane.design import Design
from parts.plane.models import PlaneModels
from parts.plane.pattern_list import pattern_list
from shared.cad.project import cut_faces
from shared.segments import Arc, Line
from tests.planes import designed, made

SPECS = Path(__file__).parents[1] / "specs"
CLOSE = 0.012  # mm: half of what the list is written to, and the rounding of a radius
Sizes = dict[str, float]
REACH = 12.0  # mm beyond its own ends that a straight piece is carried on


class Cut:
    """Straight pieces and arcs of a solid's cut face in a view, through a point [mm]."""

    def __init__(self, solid: cq.Shape, view: str, through: tuple[float, float, float]) -> None:
        faces = cut_faces(solid, view, through)
        profiles = [p for f in faces for p in (f.outer, *f.holes)]
        self.hole_lines = [s for f in faces for h in f.holes for s in h.segments if isinstance(s, Line)]
        pieces = [s for p in profiles for s in p.segments]
        self.lines = [s for s in pieces if isinstance(s, Line) and s.length > 0.02]
        self.arcs = [s for s in pieces if isinstance(s, Arc)]
        low_high = [p.bounds for p in profiles]
        self.bounds = (min(b[0] for b in low_high), min(b[1] for b in low_high),
                       max(b[2] for b in low_high), max(b[3] for b in low_high))  # fmt: skip

    def wall(self, near: float, level: float) -> float:
        """Return u of the steep line nearest to u = `near`, carried on to v = `level`."""
        found = [_at(s.start, s.end, 1, level) for s in self.lines if abs(_along(s, 1)) > 0.35
                 and _gap(s, 1, level) < REACH]  # fmt: skip
        return min(found, key=lambda u: abs(u - near))

    def walls(self, middle: float, level: float) -> tuple[float, float]:
        """Return u of the steep lines next to u = `middle` on both sides, at v = `level`."""
        found = [_at(s.start, s.end, 1, level) for s in self.lines if abs(_along(s, 1)) > 0.35
                 and _gap(s, 1, level) < REACH]  # fmt: skip
        return max(u for u in found if u < middle), min(u for u in found if u > middle)

    def level(self, at: float, near: float) -> float:
        """Return v of the flat line nearest to v = `near`, carried on to u = `at`."""
        found = [_at(s.start, s.end, 0, at) for s in self.lines if abs(_along(s, 0)) > 0.7 and _gap(s, 0, at) < REACH]
        return min(found, key=lambda v: abs(v - near))

    def arc(self, radius: float, within: float = 0.02) -> Arc:
        """Return an arc of a radius."""
        return next(a for a in self.arcs if abs(a.radius - radius) < within)


def _along(s: Line, axis: int) -> float:
    return s.direction()[axis]


def _gap(s: Line, axis: int, value: float) -> float:
    low, high = sorted((s.start[axis], s.end[axis]))
    return max(low - value, value - high, 0.0)


def _at(p: tuple[float, float], q: tuple[float, float], axis: int, value: float) -> float:
    other = 1 - axis
    return p[other] + (q[other] - p[other]) * (value - p[axis]) / (q[axis] - p[axis])


def extents(solid: cq.Shape) -> tuple[tuple[float, float], tuple[float, float], tuple[float, float]]:
    """Return from, to along x, y, z by the corners of a solid."""
    at = [(v.X, v.Y, v.Z) for v in solid.Vertices()]
    x, y, z = ((min(p[i] for p in at), max(p[i] for p in at)) for i in range(3))
    return x, y, z


def radii(solid: cq.Shape) -> set[float]:
    """Return the radius of every round face that has one, of a ring the lesser, rounded to 0.01 mm."""
    found = set()
    for face in solid.Faces():
        surface = BRepAdaptor_Surface(face.wrapped)
        kind = face.geomType()
        if kind == "CYLINDER":
            found.add(round(surface.Cylinder().Radius(), 2))
        elif kind == "TORUS":
            found.add(round(surface.Torus().MinorRadius(), 2))
    return found


def has_radius(solid: cq.Shape, radius: float) -> float:
    """Return the round face's radius nearest to one that is asked for [mm]."""
    return min(radii(solid), key=lambda r: abs(r - radius))


def plane(spec: str) -> tuple[Design, PlaneModels]:
    return designed(spec), made(spec)


def casting_rows(d: Design, part: str) -> Sizes:
    return {r.feature: r.casting_mm for p in pattern_list(d) if p.part == part for r in p.rows}


def compare(listed: Sizes, measured: Sizes) -> None:
    assert set(listed) <= set(measured)
    wrong = {k: (v, measured[k]) for k, v in listed.items() if measured[k] != pytest.approx(v, abs=CLOSE)}
    assert not wrong
