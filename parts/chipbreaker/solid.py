"""The chipbreaker as a solid, made in the blade frame (x = s, y, z = q) and turned into its place on the bed."""

from __future__ import annotations

import cadquery as cq

from parts.chipbreaker import outline
from parts.chipbreaker.size import THREAD_BREAK, ChipbreakerSize
from shared.cad.edges import chamfer_named
from shared.cad.solids import extrude, extrude_both, one_valid_solid, pick_edges

PART = "chipbreaker"


def on_bed(solid: cq.Solid, bed_angle: float) -> cq.Solid:
    """Return a solid of the blade frame turned into the plane's frame by the bed angle [deg]."""
    return cq.Solid(solid.moved(cq.Location((0, 0, 0), (0, 1, 0), -bed_angle)).wrapped)


def chipbreaker_solid(size: ChipbreakerSize, bed_angle: float) -> cq.Solid:
    """Return the finished chipbreaker in the plane's frame.

    Args:
        size: resolved sizes [mm, deg].
        bed_angle: bed to sole [deg].

    Raises:
        GeometryError: a step could not be built.
    """
    return on_bed(chipbreaker_flat(size), bed_angle)


def chipbreaker_flat(size: ChipbreakerSize) -> cq.Solid:
    """Return the finished chipbreaker in the blade frame (x = s, y, z = q) [mm]."""
    high = size.hump_top + 1.0
    strip = extrude_both(outline.section(size), "y", size.width, part=PART)
    corners = extrude(outline.plan(size), "z", -1.0, high, part=PART)
    body = one_valid_solid(strip.intersect(corners), PART, "round the upper corners")
    body = _ease(body, size)
    for name, hole in outline.openings(size).items():
        body = one_valid_solid(body.cut(extrude(hole, "z", -1.0, high, part=PART)), PART, f"cut the {name} opening")
    return _break_mouths(body, size)


def _ease(body: cq.Solid, size: ChipbreakerSize) -> cq.Solid:
    """Break the top arris of the upper end and its two corners; the leading edge stays sharp."""
    t, r, w = size.thickness, size.corner_radius, size.width / 2

    def on_top(e: cq.Edge) -> bool:
        b = e.BoundingBox()
        flat = abs(b.zmin - t) < 1e-4 and abs(b.zmax - t) < 1e-4
        return flat and b.xmax > size.seat_from + 1e-3

    # two long sides over the seat, two corner arcs, the end
    edges = pick_edges(body, on_top, 5, PART, "ease the upper end")
    return chamfer_named(body, PART, "ease the upper end", edges, outline.ARRIS, neighbours=(t, r, w))


def _break_mouths(body: cq.Solid, size: ChipbreakerSize) -> cq.Solid:
    """Break the arris of both mouths of the tapped hole; more would cost thread."""
    tap, mouth, t = size.screw_tap_drill / 2, size.screw_mouth / 2, size.thickness
    deep = THREAD_BREAK
    for z, up in ((0.0, -1.0), (t, 1.0)):
        cone = cq.Solid.makeCone(tap - 0.2, mouth + 0.2, deep + 0.4, cq.Vector(size.screw_at, 0, z - up * (deep + 0.2)),
                                 cq.Vector(0, 0, up))  # fmt: skip
        body = one_valid_solid(body.cut(cone), PART, "break the tapped hole's mouths")
    return body
