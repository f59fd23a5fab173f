"""The low-angle body as it comes from the sand: mouth, toe way and every hole closed."""

from __future__ import annotations

import cadquery as cq

from parts.body.low_angle.block import block
from parts.body.low_angle.floor import floor
from parts.body.low_angle.limits import check_limits
from parts.body.low_angle.size import LowBodySize
from parts.body.sand import cast_trough
from parts.body.walls import ABOVE


def casting(size: LowBodySize) -> cq.Solid:
    """Return the raw casting in the plane's frame [mm].

    Raises:
        GeometryError: a size that cannot be built, or a kernel step that failed; names the step.
    """
    check_limits(size)
    standing = () if size.toe_way is None else (block(size, size.toe_way),)
    return cast_trough(size, floor(size, 5 * ABOVE), standing=standing)
