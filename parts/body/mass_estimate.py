"""Volume of finished body and casting by slices, before any model is built. Within 1 % of the models."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from math import pi, radians, tan

import numpy as np
from numpy.typing import NDArray

from parts.body.arch import rim_height
from parts.body.floor import floor
from parts.body.key import key
from parts.body.limits import holes
from parts.body.outline import mouth_at
from parts.body.ribs import boss_roundings, boss_side, bosses_of, ribs_of
from parts.body.room import HAND_BREAK, RING_DEPTH, ring_reach
from parts.body.size import BodySize, Boss, TappedHole, Trough
from parts.body.walls import envelope
from shared.segments import Segment

SLICES = 800
HOLLOW = 1 - pi / 4  # area of a right-angled root or rounding, per radius squared
Lengths = NDArray[np.float64]


def casting_volume(size: BodySize) -> float:
    """Return the estimated volume of the raw casting [mm3]."""
    k = key(size)
    return cast_trough_volume(size, floor(size, 0.0)) + k.plan(k.grown).area * (k.raw_z - k.root_z)


def finished_volume(size: BodySize) -> float:
    """Return the estimated volume of the finished body [mm3]."""
    key_block = key(size).plan().area * size.key_height
    return machined_trough_volume(size, floor(size, 0.0)) - _milled(size) + key_block - drilled_volume(holes(size))


def cast_trough_volume(size: Trough, inside: tuple[Segment, ...]) -> float:
    """Return the volume of plate, cheeks, ribs and bosses of any raw casting [mm3] with an inside floor (x, z)."""
    env = envelope(size)

    def half_width(z: Lengths) -> Lengths:
        inset: Lengths = np.abs(z - env.parting_z) * env.slope
        return env.half - inset

    middle = (size.rail_height - size.cast.sole) / 2
    x0, x1 = env.x0 + env.inset(middle), env.x1 - env.inset(middle)
    body = _trough(size, x0, x1, -size.cast.sole, half_width, inside)
    corners = 4 * HOLLOW * env.corner**2 * (size.rail_height + size.cast.sole)
    rims = 4 * HOLLOW * size.cast.edge_radius**2 * _rim_length(size)
    bosses = sum(_boss(size, b, b.z_top + size.cast.boss) for b in bosses_of(size))
    return body - corners - rims + bosses + _ribs(size)


def machined_trough_volume(size: Trough, inside: tuple[Segment, ...]) -> float:
    """Return the same once outside, hand edges and bosses are machined [mm3]; nothing else is cut or drilled."""

    def half_width(z: Lengths) -> Lengths:
        return np.full_like(z, size.width / 2)

    body = _trough(size, size.toe_x, size.heel_x, 0.0, half_width, inside)
    corners = 4 * HOLLOW * size.corner_radius**2 * size.sole
    rims = 4 * HOLLOW * size.cast.edge_radius**2 * _rim_length(size)
    hand = HOLLOW * HAND_BREAK**2 * (2 * _rim_length(size) + 2 * size.width)
    bosses = sum(_turned_boss(size, b) if b.turned else _boss(size, b, b.z_top) for b in bosses_of(size))
    return body - corners - rims - hand + bosses + _ribs(size)


def drilled_volume(holes: Iterable[TappedHole]) -> float:
    """Return what drilling takes out [mm3]."""
    return sum(pi / 4 * h.tap_drill**2 * h.depth for h in holes)


def _trough(size: Trough, x0: float, x1: float, z0: float, half_width: Callable[[Lengths], Lengths],
            inside: tuple[Segment, ...]) -> float:  # fmt: skip
    """Return the volume of plate, pads and cheeks [mm3] between x0 and x1, from z0 up."""
    step = (x1 - x0) / SLICES
    xs = x0 + step * (np.arange(SLICES) + 0.5)
    rims = np.array([rim_height(size, float(x)) for x in xs])
    floors = np.array([height_of(inside, min(max(float(x), size.toe_x), size.heel_x)) for x in xs])
    z = np.linspace(z0, size.cheek_height, SLICES + 1)
    dz = z[1] - z[0]
    mid = (z[:-1] + z[1:]) / 2
    whole = np.concatenate([[0.0], np.cumsum(2 * half_width(mid) * dz)])
    clear = np.concatenate([[0.0], np.cumsum(2 * (size.inside_half + (mid - size.sole) * _lean(size)) * dz)])
    between = np.interp(rims, z, clear) - np.interp(floors, z, clear)
    roots = 2 * HOLLOW * size.root_radius**2
    return float(np.sum(np.interp(rims, z, whole) - between + roots) * step)


def _milled(size: BodySize) -> float:
    """Return what mouth and pads take off the casting [mm3], the key not left out."""
    low, high = size.low_pad, size.high_pad
    chain = floor(size, 0.0)
    front, foot = mouth_at(size, 0.0)
    xs = np.linspace(mouth_at(size, size.sole)[0], high.x1, SLICES)
    raw = np.array([height_of(chain, float(x)) for x in xs])
    left = np.select(
        [xs < front, xs < foot, xs < low.x0, xs < high.x0],
        [(front - xs) * tan(radians(size.mouth_front_angle)), 0.0, (xs - foot) * tan(radians(size.bed_angle)), low.z],
        high.z,
    )
    wide = np.select([xs < low.x0, xs < high.x0], [size.mouth_half_width, low.half_width], high.half_width)
    return float(np.trapezoid(np.maximum(0.0, raw - left) * 2 * wide, xs))


def _lean(size: Trough) -> float:
    return tan(radians(size.cast.draft_inside))


def height_of(chain: tuple[Segment, ...], x: float) -> float:
    """Return the height of a chain (x, z) [mm] at x [mm]."""
    return max(z for s in chain for z in s.crossings(0, x))


def _rim_length(size: Trough) -> float:
    xs = np.linspace(size.toe_x, size.heel_x, SLICES)
    zs = [rim_height(size, float(x)) for x in xs]
    return float(np.sum(np.hypot(np.diff(xs), np.diff(zs))))


def _boss(size: Trough, boss: Boss, top: float) -> float:
    r0, r1 = boss_side(size, boss, size.sole), boss_side(size, boss, top)
    root = boss_roundings(size, boss)[0]
    cone = pi / 3 * (top - size.sole) * (r0 * r0 + r0 * r1 + r1 * r1)
    return cone + 2 * pi * r0 * HOLLOW * root**2


def _turned_boss(size: Trough, boss: Boss) -> float:
    """Return the finished boss's volume less the ring that the hollow mill sinks into the plate [mm3]."""
    square = boss.diameter**2 / 4
    return pi * (square * (boss.z_top - size.sole) - (ring_reach(size, boss) ** 2 - square) * RING_DEPTH)


def _ribs(size: Trough) -> float:
    total = 0.0
    for rib in ribs_of(size):
        tall = rib.z - size.sole
        mean = rib.plan(-tall * _lean(size) / 2).area
        total += mean * tall + rib.plan().perimeter * HOLLOW * (rib.root**2 - rib.edge**2)
    return total
