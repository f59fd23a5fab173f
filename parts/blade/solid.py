"""The blade as a solid, seated on its bed: flat bar, slot, eased arrises, then the bevels ground to the edge.

The cutting edge itself is a true edge of the solid. A cambered edge is ground by cutters whose faces are parts of
large cylinders running down each bevel, so that every bevel keeps its angle across the width.
"""

from __future__ import annotations

from math import cos, radians, sin, tan

import cadquery as cq

from parts.blade.bedding import BACK_BEVEL_WIDTH_MM
from parts.blade.outline import cross_outlines, edge_camber, edge_length, slot_outline, with_lower_end
from parts.blade.size import BladeSize
from shared.cad.edges import chamfer_named
from shared.cad.solids import Frame, extrude_in, one_valid_solid, pick_edges
from shared.profile import Pen, Profile

PART = "blade"
BEYOND = 1.0  # what the bar has before the bevels are ground


def solid(size: BladeSize, bed_angle: float) -> cq.Solid:
    """Return the blade in the plane's frame, its edge at x = z = 0; bevel down its face up and forward, bevel up its
    flat on the bed.

    With a back bevel the edge lies off the flat; the blade is then moved along its bed until the edge is at z = 0,
    which leaves it the back bevel's depth over sin(bed) aft of x = 0 (bevel up: ahead of it).

    Args:
        size: the blade.
        bed_angle: bed to sole [deg].

    Raises:
        GeometryError: the kernel gave no valid solid.
    """
    camber = edge_camber(size, bed_angle)
    drop = BACK_BEVEL_WIDTH_MM * sin(radians(size.back_bevel))  # of the edge below the face
    cutters = [_grinder(size, size.honed_bevel, (0.0, -drop), camber, below=True)]
    if size.micro_bevel is not None:
        m = radians(size.micro_bevel)
        heel = (size.micro_width * cos(m), -drop - size.micro_width * sin(m))
        cutters.append(_grinder(size, size.bevel, heel, camber, below=True))
    if size.back_bevel:
        cutters.append(_grinder(size, size.back_bevel, (0.0, -drop), camber, below=False))
    ground = one_valid_solid(_bar(size).cut(*cutters), PART, "bevels")
    slide = drop / tan(radians(bed_angle))
    if size.orientation == "bevel-up":
        ground, slide = one_valid_solid(ground.mirror("XY"), PART, "turn over"), -slide
    seated = ground.translate(cq.Vector(slide, 0, 0)).rotate((0, 0, 0), (0, 1, 0), -bed_angle)
    return one_valid_solid(seated, PART, "seat")


def _bar(size: BladeSize) -> cq.Solid:
    """Return the bar with its slot and eased arrises; X runs up the blade, Z off the face at Z = 0."""
    half, t = size.width / 2, size.thickness
    low = -half * tan(radians(size.skew)) - BEYOND
    outside = with_lower_end(size, Pen.at(-half, low, "blade bar").line_to(half, low))
    frame = Frame((0.0, 0.0, -t), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
    openings = [slot_outline(size), *cross_outlines(size)]
    bar = extrude_in(outside, frame, (0.0, 0.0, 1.0), t, openings, PART)
    if not size.arris:
        return bar

    def on_a_face(edge: cq.Edge) -> bool:
        box = edge.BoundingBox()
        return any(abs(box.zmin - z) < 1e-4 and abs(box.zmax - z) < 1e-4 for z in (-t, 0.0))

    pieces = sum(len(o.segments) for o in (outside, *openings))
    edges = pick_edges(bar, on_a_face, 2 * pieces, PART, "arrises")
    return chamfer_named(bar, PART, "arrises", edges, size.arris, gaps=[t])


def _grinder(size: BladeSize, bevel: float, edge: tuple[float, float], camber: float, below: bool) -> cq.Solid:
    """Return what grinding one bevel takes away.

    Args:
        size: the blade.
        bevel: to the face [deg].
        edge: where the bevel begins, as (square to the edge up the face, off the face) [mm].
        camber: of the edge in the face [mm].
        below: on the bed's side of the blade, else on the face's.
    """
    v, turn = radians(bevel), radians(size.skew)
    side = -1.0 if below else 1.0
    along = (cos(v), side * sin(v))  # up the bevel, in the section square to the edge
    off = (-sin(v), side * cos(v))  # out of the steel
    ahead, edgewise = (cos(turn), -sin(turn)), (sin(turn), cos(turn))
    reach = size.thickness / sin(v) + size.width
    frame = Frame(
        (
            (edge[0] - along[0] * reach) * ahead[0],
            (edge[0] - along[0] * reach) * ahead[1],
            edge[1] - along[1] * reach,
        ),
        (edgewise[0], edgewise[1], 0.0),
        (off[0] * ahead[0], off[0] * ahead[1], off[1]),
    )
    push = (along[0] * ahead[0], along[0] * ahead[1], along[1])
    return extrude_in(_stone(size, camber * sin(v)), frame, push, 2 * reach, part=PART)


def _stone(size: BladeSize, sagitta: float) -> Profile:
    """Return the section of the cutter: (along the edge, out of the steel) [mm], its lower side the bevel's."""
    wide, high = edge_length(size), 3 * size.thickness + size.width
    if not sagitta:
        return Profile.rectangle(-wide, 0.0, wide, high, name="bevel")
    # the same circle carried on to twice the width: its rise goes by the square of the reach
    radius = wide**2 / (8 * sagitta) + sagitta / 2
    deep = radius - (radius**2 - wide**2) ** 0.5
    pen = Pen.at(-wide, -deep, "bevel").arc_to((0.0, 0.0), (wide, -deep))
    return pen.line_to(wide, high).line_to(-wide, high).close()
