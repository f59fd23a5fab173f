"""Volume of finished low-angle body and casting by slices, before any model is built. Within 1 % of the models."""

from __future__ import annotations

from math import cos, pi, radians, tan

import numpy as np

from parts.body.low_angle.block import block, pocket, stud_slot, throat
from parts.body.low_angle.floor import floor
from parts.body.low_angle.limits import holes
from parts.body.low_angle.size import LowBodySize
from parts.body.mass_estimate import (
    HOLLOW,
    SLICES,
    cast_trough_volume,
    drilled_volume,
    height_of,
    machined_trough_volume,
)


def casting_volume(size: LowBodySize) -> float:
    """Return the estimated volume of the raw casting [mm3]."""
    top = 0.0 if size.toe_way is None else size.toe_way.block_z + size.cast.boss
    return cast_trough_volume(size, floor(size, 0.0)) + _block(size, top)


def finished_volume(size: LowBodySize) -> float:
    """Return the estimated volume of the finished body [mm3], without its toe piece."""
    whole = machined_trough_volume(size, floor(size, 0.0)) - _milled(size) - drilled_volume(holes(size)) - _cut(size)
    way = size.toe_way
    if way is None:
        return whole
    half = size.mouth_half_width
    sole = (throat(size, way.ledge_z / 2) - way.toe_end) * way.ledge_z * 2 * half - 2 * HOLLOW * way.corner**2
    above = pocket(size, way).area * (way.boss_z - way.ledge_z) + stud_slot(size, way).area * (way.block_z - way.boss_z)
    return whole + _block(size, way.block_z) - sole - above


def _block(size: LowBodySize, top: float) -> float:
    """Return the bridge block above the plate [mm3], up to a height [mm]."""
    if size.toe_way is None:
        return 0.0
    ridge, tall = block(size, size.toe_way), top - size.sole
    mean = ridge.plan(-tall * tan(radians(size.cast.draft_inside)) / 2)
    return mean.area * tall + ridge.plan(0.0).perimeter * HOLLOW * ridge.root**2


def _milled(size: LowBodySize) -> float:
    """Return what milling the mouth and the bed takes off the casting [mm3]."""
    chain = floor(size, 0.0)
    front, foot = throat(size, 0.0), size.bed_from
    xs = np.linspace(throat(size, size.sole), size.bridge.x1, SLICES)
    raw = np.array([height_of(chain, float(x)) for x in xs])
    slope = tan(radians(size.mouth_front_angle))
    left = np.select([xs < front, xs < foot], [(front - xs) * slope, 0.0], xs * tan(radians(size.bed_angle)))
    return float(np.trapezoid(np.maximum(0.0, raw - left), xs)) * 2 * size.mouth_half_width


def _cut(size: LowBodySize) -> float:
    """Return what bores, grooves, wheel well and grip hollows take out [mm3]."""
    end = size.bridge.x1 / cos(radians(size.bed_angle))
    total = sum(pi / 4 * b.diameter**2 * max(0.0, min(b.s_to, end) - b.s_from) for b in size.bores)
    total += sum(2 * g.half_width * g.depth * max(0.0, min(g.s_to, end) - g.s_from) for g in size.grooves)
    if size.wheel_well is not None:
        w = size.wheel_well
        total += 2 * w.half_width * (w.x1 - w.x0) * max(0.0, size.sole - w.z)
    if size.grip is not None:
        # two shallow caps over an ellipse
        total += 2 * pi / 8 * size.grip.length * size.grip.height * size.grip.depth
    return total
