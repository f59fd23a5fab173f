"""The frog's two solids, in the order they are made."""

from __future__ import annotations

from dataclasses import dataclass

import cadquery as cq

from parts.frog.casting import casting
from parts.frog.finished import finished
from parts.frog.size import FrogSize


@dataclass(frozen=True)
class FrogSolids:
    """Casting and finished part, both in the plane's frame."""

    casting: cq.Solid
    finished: cq.Solid


def solids(size: FrogSize) -> FrogSolids:
    """Build casting and finished frog; raises GeometryError as `casting` and `finished` do."""
    cast = casting(size)
    return FrogSolids(cast, finished(size, cast))
