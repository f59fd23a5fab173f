"""What of one solid lies outside another: by the kernel's cut, tried by rays through meshes where it leaves much.

Where two solids share many faces the kernel now and then takes them for strangers: its cut then gives the first solid
back whole, and their common is empty. Rays need no cut.
"""

from __future__ import annotations

from typing import NamedTuple

import cadquery as cq

from shared.cad.proof_mesh import proof_mesh
from shared.casting.stock import outside as outside_by_rays

MUCH = 0.5  # share of a solid that a cut must leave to be doubted: a false one gives the whole solid back [-]
FEIGNED = 1e-4  # share that the meshes' facets may feign [-]
BORNE_OUT = 0.5  # share of a volume outside that rays must find, or the cut is false [-]
RAYS = 0.7  # distance of the rays [mm]


class Outside(NamedTuple):
    """Volume of one solid outside another [mm3], and whether rays measured it, the kernel's cut being false."""

    mm3: float
    by_rays: bool = False


def outside(inner: cq.Solid, outer: cq.Solid) -> Outside:
    """Return what of a solid lies outside another.

    A cut that leaves less than half of the solid is believed, to the thinnest sliver. More must be borne out by rays
    along z through meshes of both solids; where they find less than half of it their volume counts.

    Args:
        inner: the solid that should lie inside.
        outer: the solid that should hold it.
    """
    left, whole = inner.cut(outer), inner.Volume()
    volume = float(left.Volume()) if left.Solids() else 0.0
    if volume <= MUCH * whole:
        return Outside(volume)
    found = outside_by_rays(proof_mesh(inner), proof_mesh(outer), RAYS)
    if found >= BORNE_OUT * volume:
        return Outside(volume)
    return Outside(found if found > FEIGNED * whole else 0.0, by_rays=True)
