"""From a casting to the finished part: the machine shop's cuts, named."""

from __future__ import annotations

import cadquery as cq

from shared.cad.solids import cut_away, one_valid_solid
from shared.errors import GeometryError


def machined(casting: cq.Solid, cuts: list[tuple[str, cq.Solid]], part: str) -> cq.Solid:
    """Return a casting less its machining cuts, all in one step; only if that fails one by one, to name the culprit.

    Args:
        casting: the raw casting.
        cuts: name and solid of each cut.
        part: the part's name, for messages.

    Raises:
        GeometryError: a cut could not be made, or leaves more than one solid.
    """
    try:
        return cut_away(casting, [cutter for _, cutter in cuts], part, "machine")
    except GeometryError:
        body = casting
        for name, cutter in cuts:
            body = one_valid_solid(body.cut(cutter), part, name)
        return body
