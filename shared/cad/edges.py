"""Roundings and chamfers of named groups of edges, refused with a reason rather than left to the kernel.

Where two roundings would meet exactly the kernel can end the whole process, so the room is counted first.
"""

from __future__ import annotations

from collections.abc import Sequence

import cadquery as cq
from OCP.BRepFilletAPI import BRepFilletAPI_MakeFillet
from OCP.TopoDS import TopoDS

from shared.cad.solids import one_valid_solid
from shared.errors import GeometryError

CLEARANCE = 0.2  # mm: two roundings never come nearer than this (common practice, no source)


def _room(part: str, name: str, size: float, gaps: Sequence[float], neighbours: Sequence[float]) -> None:
    for d in neighbours:
        if size > d - CLEARANCE:
            raise GeometryError(part, name, f"{size:g} mm would run onto an edge {d:g} mm away")
    for g in gaps:
        if 2 * size > g - CLEARANCE:
            raise GeometryError(part, name, f"needs {2 * size + CLEARANCE:g} mm between the walls, has {g:g} mm")


def fillet_named(solid: cq.Solid, part: str, name: str, edges: Sequence[cq.Edge], radius: float,
                 gaps: Sequence[float] = (), neighbours: Sequence[float] = ()) -> cq.Solid:  # fmt: skip
    """Round one named group of edges.

    Args:
        solid: the solid that has the edges.
        part: the part's name, for messages.
        name: the group's name, for messages.
        edges: the edges.
        radius: radius [mm].
        gaps: clear distances between two walls that are both rounded here [mm].
        neighbours: distances to edges that are not rounded [mm].

    Raises:
        GeometryError: no edge, no room, or the kernel failed (with its reason for each contour).
    """
    _room(part, name, radius, gaps, neighbours)
    if not edges:
        raise GeometryError(part, name, "no edge matched")
    maker = BRepFilletAPI_MakeFillet(solid.wrapped)
    try:
        for e in edges:
            maker.Add(radius, TopoDS.Edge_s(e.wrapped))
        maker.Build()
        done = maker.IsDone()
    except Exception as err:
        raise GeometryError(part, name, "the kernel refused the rounding", radius_mm=radius, edges=len(edges)) from err
    if not done:
        faulty = [maker.FaultyContour(i) for i in range(1, maker.NbFaultyContours() + 1)]
        why = ", ".join(str(maker.StripeStatus(c)).rsplit("_", 1)[-1] for c in faulty)
        raise GeometryError(part, name, f"the kernel could not round contour {faulty} ({why or 'no reason given'})",
                            radius_mm=radius, edges=len(edges))  # fmt: skip
    return one_valid_solid(cq.Shape.cast(maker.Shape()), part, name)


def chamfer_named(solid: cq.Solid, part: str, name: str, edges: Sequence[cq.Edge], size: float,
                  gaps: Sequence[float] = (), neighbours: Sequence[float] = ()) -> cq.Solid:  # fmt: skip
    """Break one named group of edges by an equal chamfer of a size [mm]. Arguments and errors as `fillet_named`."""
    _room(part, name, size, gaps, neighbours)
    if not edges:
        raise GeometryError(part, name, "no edge matched")
    try:
        made = solid.chamfer(size, None, list(edges))
    except Exception as err:
        raise GeometryError(part, name, "the kernel refused the chamfer", size_mm=size, edges=len(edges)) from err
    return one_valid_solid(made, part, name)
