"""The body's working pattern: the casting grown by the contraction of the metal that is poured."""

from __future__ import annotations

import cadquery as cq

from parts.body.casting import casting as build_casting
from parts.body.scaling import Growth
from parts.body.size import BodySize, Pad
from shared.cad.solids import one_valid_solid
from shared.record import replace

PART = "body pattern"
Factors = tuple[float, float, float]


def pattern(size: BodySize, casting: cq.Solid, factors: Factors) -> cq.Solid:
    """Return the pattern in the plane's frame [mm].

    One factor for all axes scales the casting as a whole, exactly, about the origin. Factors that differ by axis
    scale the sizes instead and the casting is built again from them (see `scaled_size` for what stays approximate).

    Args:
        size: the body.
        casting: its casting.
        factors: pattern over casting along x, y, z [-].

    Raises:
        GeometryError: the kernel failed.
    """
    x, y, z = factors
    if x == y == z:
        return one_valid_solid(casting.scale(x), PART, "scale")
    return build_casting(scaled_size(size, x, y, z))


def scaled_size(size: BodySize, x: float, y: float, z: float) -> BodySize:
    """Return the sizes grown by a factor an axis [-].

    Lengths along an axis are exact, and so are the leans of cheeks and mouth. A circle would become an ellipse: radii
    and diameters take the mean of the factors of the axes they lie in, and walls that face along x lean by the cheeks'
    draft. The error is the radius, or the wall's draft offset, times half the difference of two factors: for 20 mm
    and factors 0.3 % apart, 0.03 mm. The cheek outline's ends, peak and heights are exact; its arcs stay true arcs.
    """
    g = Growth(x, y, z)

    def pad(p: Pad) -> Pad:
        return Pad(p.x0 * x, p.x1 * x, p.half_width * y, p.z * z)

    return replace(
        g.trough(size),
        wall_foot_x=size.wall_foot_x * x, low_pad=pad(size.low_pad), high_pad=pad(size.high_pad),
        key_half=size.key_half * y, key_height=size.key_height * z,
        holddown=tuple(g.hole(h) for h in size.holddown), knob_boss=g.boss(size.knob_boss),
        tote_boss=g.boss(size.tote_boss), toe_boss=None if size.toe_boss is None else g.boss(size.toe_boss),
    )  # fmt: skip
