"""The frog's casting: drawn along y from a match plate on the middle plane, with a pocket in each side."""

from __future__ import annotations

import cadquery as cq

from parts.frog.outline import casting_outline, mixed_corner, pocket_outline
from parts.frog.size import FrogSize
from shared.cad.edges import fillet_named
from shared.cad.mirrored import whole_of
from shared.cad.solids import one_valid_solid, pick_edges, taper_extrude

PART = "frog casting"
EDGE = 1.0  # round of the edges away from the parting plane
FLOOR_RADIUS = 2.0  # round of a pocket's floor


def casting(size: FrogSize) -> cq.Solid:
    """Return the frog as cast, in the plane's frame: stock, draft and radii by construction, holes cast solid.

    Raises:
        GeometryError: a radius finds no room, or the kernel failed.
    """
    half = taper_extrude(casting_outline(size), "y", 0.0, size.draft, up=size.half_width, part=PART)
    half = _rounded_end(half, size.half_width, min(EDGE, mixed_corner(size) - 0.1), "side edges")
    mouth = pocket_outline(size)
    if mouth is not None:
        depth = size.half_width - size.web_half
        core = taper_extrude(mouth, "y", size.half_width, size.draft, down=depth, part=PART)
        core = _rounded_end(core, size.web_half, min(FLOOR_RADIUS, size.root_radius - 0.2), "pocket floor")
        lid = taper_extrude(mouth, "y", size.half_width, 0.0, up=1.0, part=PART)
        half = one_valid_solid(half.cut(core, lid), PART, "side pocket")
    return one_valid_solid(whole_of(half, PART).clean(), PART, "both halves")


def _rounded_end(solid: cq.Solid, y: float, radius: float, name: str) -> cq.Solid:
    """Round every edge that lies in the plane at y."""

    def in_plane(edge: cq.Edge) -> bool:
        box = edge.BoundingBox()
        return abs(box.ymin - y) < 1e-4 and abs(box.ymax - y) < 1e-4

    expected = len(next(f for f in solid.Faces() if _flat_at(f, y)).Edges())
    return fillet_named(solid, PART, name, pick_edges(solid, in_plane, expected, PART, name), radius)


def _flat_at(face: cq.Face, y: float) -> bool:
    box = face.BoundingBox()
    return abs(box.ymin - y) < 1e-4 and abs(box.ymax - y) < 1e-4
