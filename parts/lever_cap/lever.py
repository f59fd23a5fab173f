"""The cam lever, in the blade frame (x = s, y, z = q), shut: the casting by construction, then the cuts.

The casting is drawn along y, its parting plane is y = 0: section with draft to both sides, shaped in plan.
"""

from __future__ import annotations

import cadquery as cq

from parts.lever_cap import outline
from parts.lever_cap.size import RUNNING_PLAY, LeverCapSize
from shared.cad.edges import fillet_named
from shared.cad.machining import machined
from shared.cad.mirrored import whole_of
from shared.cad.solids import extrude, extrude_both, one_valid_solid, pick_edges, taper_extrude
from shared.profile import Profile

PART = "cam lever"
RIM = outline.LEVER_RIM
_FAR = 60.0


def lever_casting(size: LeverCapSize) -> cq.Solid:
    """Return the lever's raw casting: stock round hub and cam, under the stop face and on both sides of the hub.

    Args:
        size: resolved sizes [mm, deg].

    Raises:
        GeometryError: a step could not be built.
    """
    half = size.lever_width / 2 + size.nose_stock + 1.0
    section = outline.lever_section(size, outline.lever_stock(size))
    block = taper_extrude(section, "y", 0.0, size.outside_draft, up=half, part=PART)
    plan = extrude(outline.lever_plan(size, size.nose_stock), "z", -_FAR, _FAR, part=PART)
    right = one_valid_solid(block.intersect(plan), PART, "plan")
    right = fillet_named(right, PART, "round the rim", _rim(right, size), RIM)
    # rounded as a half, so that the rounding ends square on the parting plane
    return whole_of(right, PART)


def _rim(right: cq.Solid, size: LeverCapSize) -> list[cq.Edge]:
    """Pick the cam's arc on the half's side: the whole rim runs on smoothly from it, from tip to tip."""
    side = size.lever_width / 2 + size.nose_stock
    least = size.cam_radius * 3.0

    def is_cam(e: cq.Edge) -> bool:
        b = e.BoundingBox()
        return b.ymin > side - 1e-3 and e.geomType() == "CIRCLE" and e.Length() > least

    return pick_edges(right, is_cam, 1, PART, "round the rim")


def lever_finished(size: LeverCapSize, casting: cq.Solid) -> cq.Solid:
    """Return the finished lever: hub and cam turned and milled, sides milled, pivot drilled.

    Args:
        size: resolved sizes [mm, deg].
        casting: the solid of `lever_casting`.

    Raises:
        GeometryError: a step could not be built.
    """
    s, q, r = size.pivot_at, size.pivot_q, (size.pivot_diameter + RUNNING_PLAY) / 2
    hole = cq.Solid.makeCylinder(r, 2 * _FAR, cq.Vector(s, -_FAR, q), cq.Vector(0, 1, 0))
    side = _side_cut(size)
    cuts = [
        ("mill hub, cam and stop", extrude_both(outline.lever_hub_cut(size), "y", 2 * _FAR, part=PART)),
        ("mill the right side", side),
        ("mill the left side", cq.Solid(side.mirror("XZ").wrapped)),
        ("drill the pivot", hole),
    ]
    return machined(casting, cuts, PART)


def _side_cut(size: LeverCapSize) -> cq.Solid:
    """Return what is milled off the right side of the hub; it ends where the paddle's plain side lies lower."""
    y, out = size.lever_width / 2, size.lever_width / 2 + 4 * size.nose_stock + 10.0
    a, b = size.pivot_at - _FAR / 2, outline.neck_at(size) + outline.RAMP * (size.nose_stock + outline.PLAIN_UNDER)
    return extrude(Profile.rectangle(a, y, b, out), "z", -_FAR, _FAR, part=PART)
