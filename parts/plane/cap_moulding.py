"""Lever cap and cam lever as the foundry sees them, for every kind of plane that has them."""

from __future__ import annotations

import cadquery as cq

from parts.lever_cap import outline
from parts.lever_cap.size import LeverCapSize
from parts.plane.pattern_list import CAST_LARGEST
from parts.plane.shop import ShopSpec
from shared.cad.cast_solid import CastSolid, scaled
from shared.casting.alloy import Alloy


def cap(size: LeverCapSize, casting: cq.Solid, metal: Alloy, shop: ShopSpec) -> CastSolid:
    """Return the lever cap, in the blade frame: drawn square to the blade, its nose in the drag.

    Args:
        size: resolved sizes [mm, deg].
        casting: its casting in the blade frame.
        metal: its alloy.
        shop: the works' practice.

    Raises:
        GeometryError: a solid could not be built.
    """
    plan = outline.cap_plan(size).bounds
    return scaled(
        "lever cap",
        metal,
        shop.contraction_of(metal.id, CAST_LARGEST),
        casting,
        draw="z",
        parting=size.underside_q,
        section=size.plate,
        heaviest=size.plate + 4.0,
        extent=(
            (outline.front_at(size, size.nose_q, size.nose_stock), size.tail),
            (plan[1], plan[3]),
            (size.nose_q - size.nose_stock, size.pivot_q + size.ear_radius),
        ),
    )


def lever(size: LeverCapSize, casting: cq.Solid, metal: Alloy, shop: ShopSpec) -> CastSolid:
    """Return the cam lever, in the blade frame: drawn across, half in the cope. Arguments and errors as `cap`."""
    return scaled(
        "cam lever",
        metal,
        shop.contraction_of(metal.id, CAST_LARGEST),
        casting,
        draw="y",
        parting=0.0,
        section=6.0,
        heaviest=2 * size.cam_radius,
    )
