"""Silhouettes of parts, from the triangles of the models within 0.08 mm, and lines cut off at an area. Lengths mm."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely.geometry import LineString, MultiLineString, Polygon
from shapely.geometry.base import BaseGeometry

from shared.cad.facets import facets
from shared.cad.project import VIEWS, View
from shared.drawing.primitives import Arc, Curve, Ellipse, Line, Primitive
from shared.profile import Profile
from shared.surface import Surface

if TYPE_CHECKING:
    from parts.plane.models import Piece
    from parts.plane.run import Run

WELD = 0.01  # mm: gaps between projected triangles that are closed
SMOOTH = 0.02  # mm: corners of a silhouette that are left out
LEAST = 0.3  # mm: shorter pieces of a line are not drawn


def surface_of(run: Run, p: Piece) -> Surface:
    """Return a part's triangles, made once a build."""
    key = f"facets {p.name}"
    if key not in run.drawn:
        run.drawn[key] = facets(p.solid)
    made: Surface = run.drawn[key]
    return made


def silhouette(surface: Surface, view: View | str) -> BaseGeometry:
    """Return the area that a surface covers in a view, or in one named in `shared.cad.project.VIEWS`."""
    v = VIEWS[view] if isinstance(view, str) else view
    corners = (surface.vertices @ np.array([v.right, v.up]).T)[surface.triangles]
    a, b = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    toward = corners[a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0] > 1e-9]  # the far side covers nothing more
    whole = shapely.union_all(shapely.polygons(np.concatenate([toward, toward[:, :1]], axis=1)))
    return whole.buffer(WELD, join_style="mitre").buffer(-WELD, join_style="mitre").simplify(SMOOTH)


def area_of(outline: Profile, holes: Sequence[Profile] = ()) -> BaseGeometry:
    """Return the area of an outline less its holes."""
    return Polygon(outline.polyline(0.02), [h.polyline(0.02) for h in holes]).buffer(0.0)


def lines_of(shape: BaseGeometry) -> list[Primitive]:
    """Return a line or a boundary as straight pieces, the shortest left out."""
    found: list[Primitive] = []
    for g in getattr(shape, "geoms", [shape]):
        if isinstance(g, Polygon):
            found += lines_of(g.boundary)
        elif isinstance(g, LineString) and g.length > LEAST:
            pts = [(float(x), float(y)) for x, y in g.coords]
            found += [Line(a, b) for a, b in itertools.pairwise(pts) if a != b]
        elif isinstance(g, MultiLineString):
            found += lines_of(g)
    return found


def clipped(primitives: Iterable[Primitive], area: BaseGeometry, inside: bool = False) -> tuple[Primitive, ...]:
    """Return lines less what lies in an area [mm], or only that; one that crosses its rim becomes straight pieces."""
    shapely.prepare(area)
    found: list[Primitive] = []
    for p in primitives:
        path = path_of(p)
        if not area.intersects(path):
            if not inside:
                found.append(p)
        elif area.covers(path):
            if inside:
                found.append(p)
        else:
            found += lines_of(path.intersection(area) if inside else path.difference(area))
    return tuple(found)


def path_of(p: Primitive) -> LineString:
    """Return a line or a curve as a chain of straight pieces, within 0.01 mm."""
    if isinstance(p, Line):
        return LineString([p.start, p.end])
    if isinstance(p, Arc):
        return LineString([*p.points(0.01), p.end])
    assert isinstance(p, Ellipse | Curve)
    return LineString(p.points())


def inner_point(area: BaseGeometry) -> tuple[float, float]:
    """Return a point well inside the largest piece of an area."""
    biggest = max(getattr(area, "geoms", [area]), key=lambda g: g.area)
    deep = shapely.maximum_inscribed_circle(biggest, tolerance=0.1)
    x, y = deep.coords[0]
    return float(x), float(y)
