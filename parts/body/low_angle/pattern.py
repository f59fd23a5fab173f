"""The low-angle body's working pattern: the casting grown by the contraction of the metal that is poured."""

from __future__ import annotations

import cadquery as cq

from parts.body.low_angle.casting import casting as build_casting
from parts.body.low_angle.size import Bridge, LowBodySize, ToeWay
from parts.body.pattern import Factors
from parts.body.scaling import Growth
from shared.cad.solids import one_valid_solid
from shared.record import replace

PART = "body pattern"


def pattern(size: LowBodySize, casting: cq.Solid, factors: Factors) -> cq.Solid:
    """Return the pattern in the plane's frame [mm]; see `parts.body.pattern.pattern` for factors that differ by axis.

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


def scaled_size(size: LowBodySize, x: float, y: float, z: float) -> LowBodySize:
    """Return the sizes grown by a factor an axis [-]; what is cut from solid is left out. See `Growth`."""
    g = Growth(x, y, z)
    boss = None if size.stud_boss is None else g.boss(size.stud_boss)
    # a hole square to the bed stays square to it
    bed = g.lean(size.bed_angle, z / x)
    stud = replace(g.hole(size.stud), lean=bed)
    if boss is not None:
        boss = replace(boss, hole=stud)
    return replace(
        g.trough(size),
        feather=size.feather * z, ramp_to=size.ramp_to * x, bridge=Bridge(size.bridge.x0 * x, size.bridge.x1 * x),
        stud=stud, stud_boss=boss,
        knob_boss=None if size.knob_boss is None else g.boss(size.knob_boss),
        tote_boss=None if size.tote_boss is None else g.boss(size.tote_boss),
        toe_boss=None if size.toe_boss is None else g.boss(size.toe_boss),
        toe_way=None if size.toe_way is None else _way(size.toe_way, g),
        bores=(), grooves=(), wheel_well=None, grip=None,
    )  # fmt: skip


def _way(w: ToeWay, g: Growth) -> ToeWay:
    """Return the way grown: only its block is cast."""
    x, z, plan = g.x, g.z, g.plan
    return replace(
        w, opening_least=w.opening_least * x, opening_most=w.opening_most * x, toe_end=w.toe_end * x,
        ledge_z=w.ledge_z * z, boss_x=w.boss_x * x, boss_radius=w.boss_radius * plan, boss_z=w.boss_z * z,
        block_z=w.block_z * z, block_wall=w.block_wall * plan, stud=g.hole(w.stud), stud_slot=w.stud_slot * plan,
        end_clearance=w.end_clearance * x,
    )  # fmt: skip
