"""The bench body as it comes from the sand."""

from __future__ import annotations

import cadquery as cq

from parts.body.floor import floor
from parts.body.key import key
from parts.body.limits import check_limits
from parts.body.ribs import Ridge
from parts.body.sand import cast_trough
from parts.body.size import BodySize
from parts.body.walls import ABOVE


def casting(size: BodySize) -> cq.Solid:
    """Return the raw casting in the plane's frame [mm]: stock, draft and cast radii on, mouth and holes closed.

    Raises:
        GeometryError: a size that cannot be built, or a kernel step that failed; names the step.
    """
    check_limits(size)
    return cast_trough(size, floor(size, 5 * ABOVE), (_key(size),))


def _key(size: BodySize) -> Ridge:
    k = key(size)
    edge = min(size.cast.edge_radius, 0.45 * (k.raw_z - k.root_z))
    return Ridge(lambda more: k.plan(k.grown + more), k.root_z, k.raw_z, edge, edge, "frog key")
