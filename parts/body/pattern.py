"""The body's working pattern: the casting grown by the contraction of the metal that is poured."""

from __future__ import annotations

from dataclasses import replace
from math import atan, degrees, radians, tan

import cadquery as cq

from parts.body.casting import casting as build_casting
from parts.body.size import BodySize, Boss, CastAllowances, Pad, TappedHole
from shared.cad.solids import one_valid_solid

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
    side, plan = (x + z) / 2, (x + y) / 2

    def lean(angle: float, grown: float) -> float:
        return degrees(atan(tan(radians(angle)) * grown))

    def pad(p: Pad) -> Pad:
        return Pad(p.x0 * x, p.x1 * x, p.half_width * y, p.z * z)

    def hole(h: TappedHole) -> TappedHole:
        return replace(h, x=h.x * x, y=h.y * y, z_top=h.z_top * z, tap_drill=h.tap_drill * plan, depth=h.depth * z)

    def boss(b: Boss) -> Boss:
        return Boss(b.x * x, b.diameter * plan, b.z_top * z, hole(b.hole))

    c = size.cast
    return replace(
        size,
        length=size.length * x, width=size.width * y, sole=size.sole * z, cheek=size.cheek * y,
        cheek_height=size.cheek_height * z, rail_height=size.rail_height * z,
        root_radius=size.root_radius * (y + z) / 2, corner_radius=size.corner_radius * plan, toe_x=size.toe_x * x,
        heel_x=size.heel_x * x, arch_from=size.arch_from * x, arch_peak=size.arch_peak * x, arch_to=size.arch_to * x,
        bed_angle=lean(size.bed_angle, z / x), mouth_front_angle=lean(size.mouth_front_angle, z / x),
        mouth_opening=size.mouth_opening * x, mouth_half_width=size.mouth_half_width * y,
        wall_foot_x=size.wall_foot_x * x, low_pad=pad(size.low_pad), high_pad=pad(size.high_pad),
        key_half=size.key_half * y, key_height=size.key_height * z,
        holddown=tuple(hole(h) for h in size.holddown), knob_boss=boss(size.knob_boss), tote_boss=boss(size.tote_boss),
        toe_boss=None if size.toe_boss is None else boss(size.toe_boss),
        ribs=tuple((at * x, thick * x, tall * z) for at, thick, tall in size.ribs),
        cast=CastAllowances(
            c.required * plan, c.sole * z, c.side * y, c.end * x, c.pad * z, c.boss * z,
            lean(c.draft_outside, y / z), lean(c.draft_inside, y / z), c.edge_radius * side, c.parting_z * z,
        ),
    )  # fmt: skip
