"""What others ask of a tote's or knob's size: where its outline is, how big a blank is, where it is weakest."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from parts.handle.form import ToteForm, peak, point_on_rod, solve
from parts.handle.hand import three_finger_band

if TYPE_CHECKING:
    from parts.handle.size import KnobSize, ToteSize

STEPS = 240  # stations read for an extent; the curves are smooth, the chords err by less than 0.01 mm


class Narrowest(NamedTuple):
    """The grip's narrowest section: height of its middle on the rod [mm], depth and width [mm], lean [deg]."""

    z: float
    depth: float
    width: float
    lean_deg: float


class Envelope(NamedTuple):
    """The box round a part: along the grain, across it in the side view, and through its thickness [mm]."""

    length: float
    height: float
    thickness: float


@lru_cache(maxsize=32)
def _curves(form: ToteForm) -> tuple[tuple[tuple[float, float], ...], tuple[float, ...]]:
    stations = [form.spans * i / STEPS for i in range(STEPS + 1)]
    sections = [form.station(v) for v in stations]
    return tuple(s.front for s in sections) + tuple(s.back for s in sections), tuple(s.half_width for s in sections)


def _arris(size: ToteSize, z: float) -> float:
    rise = size.arris_radius - z
    return size.arris_radius - math.sqrt(max(size.arris_radius**2 - rise**2, 0.0)) if rise > 0 else 0.0


@lru_cache(maxsize=1024)
def grip_front_at(size: ToteSize, z: float) -> float:
    """Return x [mm] of the tote's foremost point at a height z above the foot plane [mm].

    Raises:
        ValueError: z is below the foot plane or above the front of the crest.
    """
    form = size.form
    top = form.front_at(form.spans)[1]
    if not 0 <= z <= top:
        raise ValueError(f"z = {z:g} mm is not on the tote's front, 0 to {top:.2f} mm")
    v = solve(lambda v: form.front_at(v)[1], z, 0.0, form.spans)
    return form.front_at(v)[0] + _arris(size, z)


def grip_back_at(size: ToteSize, z: float) -> float:
    """Return x [mm] of the tote's aftmost point at a height z above the foot plane [mm], horn included.

    Raises:
        ValueError: z is below the foot plane or above the top.
    """
    form = size.form
    v_top = peak(lambda v: form.back_at(v)[1], form.spans - 4.0, form.spans)
    top = form.back_at(v_top)[1]
    if not 0 <= z <= top:
        raise ValueError(f"z = {z:g} mm is not on the tote's back, 0 to {top:.2f} mm")
    v = solve(lambda v: form.back_at(v)[1], z, 0.0, v_top)
    return form.back_at(v)[0] - _arris(size, z)


def tote_extent(size: ToteSize) -> tuple[float, float, float]:
    """Return (least x, greatest x, greatest z) of the tote in its own frame [mm]."""
    points, _ = _curves(size.form)
    xs = [p[0] for p in points]
    return min(xs), max(xs), max(p[1] for p in points)


def tote_envelope(size: ToteSize, grain_deg: float = 0.0) -> Envelope:
    """Return the box round the tote for a grain direction.

    Args:
        size: the tote.
        grain_deg: angle of the grain to the foot plane [deg], positive when it rises going aft.
    """
    points, widths = _curves(size.form)
    # the two lower corners lie a little outside the eased arris, as the sawn blank's do
    points = (*points, (size.foot_front_x, 0.0), (size.foot_rear_x, 0.0))
    s, c = math.sin(math.radians(grain_deg)), math.cos(math.radians(grain_deg))
    along = [x * c + z * s for x, z in points]
    across = [-x * s + z * c for x, z in points]
    return Envelope(max(along) - min(along), max(across) - min(across), 2 * max(widths))


def greatest_width(size: ToteSize) -> float:
    """Return the tote's greatest width [mm], at the head: the curve lies a little inside the size that draws it."""
    return 2 * max(_curves(size.form)[1])


def knob_envelope(size: KnobSize) -> Envelope:
    """Return the box round the knob, its axis along the grain [mm]."""
    return Envelope(size.height, size.diameter, size.diameter)


@lru_cache(maxsize=64)
def narrowest_section(size: ToteSize) -> Narrowest:
    """Return the grip's narrowest section, square to the rod, between the lowest finger and the horn."""
    form = size.form
    low, high = size.hand_bottom + 0.15 * size.grip, size.hand_bottom + 0.92 * size.grip

    def depth(h: float) -> float:
        front, back, _ = form.grip_at(h)
        return back - front

    steps = 24
    best = min((low + (high - low) * i / steps for i in range(steps + 1)), key=depth)
    span = (high - low) / steps
    h = peak(lambda h: -depth(h), max(low, best - span), min(high, best + span))
    return Narrowest(point_on_rod(size.lean_deg, h, 0.0)[1], depth(h), 2 * form.grip_at(h)[2], size.lean_deg)


@lru_cache(maxsize=64)
def least_wood(size: ToteSize) -> tuple[float, float]:
    """Return the least wood round the rod's bore in the grip [mm] and how far up the rod it is [mm]."""
    form = size.form
    low, high = size.hand_bottom, size.rod_height - size.nut_counterbore_depth
    found = []
    for i in range(25):
        h = low + (high - low) * i / 24
        front, back, width = form.grip_at(h)
        found.append((min(-front, back, width) - size.bore_diameter / 2, h))
    return min(found)


def finger_band(size: ToteSize, breadth: float) -> tuple[float, float]:
    """Return the heights above the foot plane (low, high) [mm] between which three fingers wrap the grip.

    They lie one above the other along the leaning grip, from the top of the foot on; the index finger lies forward
    along the blade: common practice, no source.

    Args:
        size: the tote.
        breadth: breadth of the hand [mm].
    """
    rise = three_finger_band(breadth) * math.cos(math.radians(size.lean_deg))
    return size.foot_height, min(size.foot_height + rise, size.form.front_at(size.form.spans)[1])


def rod_length(size: ToteSize | KnobSize) -> float:
    """Return the wood that the rod passes [mm]: from the foot plane to the seat of the nut, along the rod."""
    from parts.handle.size import ToteSize

    height = size.rod_height if isinstance(size, ToteSize) else size.height
    return height - size.nut_counterbore_depth
