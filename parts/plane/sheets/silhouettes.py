"""Silhouettes of many parts seen together, each hidden where a nearer one stands before it. Lengths mm.

Exact hidden lines of a whole plane would take many seconds; an assembly drawing needs outlines only. They come from
the triangles of the models, within 0.08 mm.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely.geometry import LineString, MultiLineString, Polygon
from shapely.geometry.base import BaseGeometry

from shared.cad.facets import facets
from shared.cad.project import VIEWS, View
from shared.drawing.primitives import Line
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


def lines_of(shape: BaseGeometry) -> list[Line]:
    """Return a line or a boundary as straight pieces, the shortest left out."""
    found = []
    for g in getattr(shape, "geoms", [shape]):
        if isinstance(g, Polygon):
            found += lines_of(g.boundary)
        elif isinstance(g, LineString) and g.length > LEAST:
            pts = [(float(x), float(y)) for x, y in g.coords]
            found += [Line(a, b) for a, b in itertools.pairwise(pts) if a != b]
        elif isinstance(g, MultiLineString):
            found += lines_of(g)
    return found


def seen_outlines(areas: Sequence[BaseGeometry]) -> list[tuple[list[Line], BaseGeometry]]:
    """Return the visible lines and the visible area of each, the farthest first; a nearer one hides what is behind."""
    found: list[tuple[list[Line], BaseGeometry]] = []
    over: BaseGeometry = Polygon()
    for area in reversed(areas):
        found.append((lines_of(area.boundary.difference(over)), area.difference(over)))
        over = over.union(area)
    return list(reversed(found))


def inner_point(area: BaseGeometry) -> tuple[float, float]:
    """Return a point well inside the largest piece of an area."""
    biggest = max(getattr(area, "geoms", [area]), key=lambda g: g.area)
    deep = shapely.maximum_inscribed_circle(biggest, tolerance=0.1)
    x, y = deep.coords[0]
    return float(x), float(y)
