"""The tote's form as curves: front, back and half width along the spine, without any CAD.

Frame of the tote: origin where the rod's axis meets the foot plane, at mid-width; x aft, z up, in mm. The grip is
laid out along the rod: h is the distance up the rod from the foot plane, q the distance aft of the rod, square to it.
Each curve is a clamped uniform cubic B-spline over the same stations v; a section of the loft lies in the plane through
front(v) and back(v), square to the mid-plane, and is an oval with elliptical ends.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING

from shared.record import Record

if TYPE_CHECKING:
    from parts.handle.size import ToteSize

Point = tuple[float, float]
CROTCH = 4.0  # station from which the front curve climbs the grip


def spline(values: Sequence[float], v: float) -> float:
    """Return the clamped uniform cubic B-spline of these control values at v, which runs from 0 to len - 3."""
    spans = len(values) - 3
    v = min(max(v, 0.0), float(spans))
    k = min(int(v), spans - 1)

    def knot(i: int) -> float:
        return float(min(max(i - 3, 0), spans))

    d = [float(values[k + j]) for j in range(4)]
    for r in range(1, 4):
        for j in range(3, r - 1, -1):
            low, high = knot(k + j), knot(k + j + 4 - r)
            share = (v - low) / (high - low)
            d[j] = (1 - share) * d[j - 1] + share * d[j]
    return d[3]


@lru_cache(maxsize=8)
def _bases(count: int) -> tuple[tuple[tuple[float, ...], ...], ...]:
    """Return, for each span, what each of its four control values adds to each coefficient of the span's cubic."""
    spans = []
    for k in range(count - 3):
        columns = []
        for j in range(4):
            unit = [0.0] * count
            unit[k + j] = 1.0
            # four readings fix a cubic exactly
            a, b, c, d = (spline(unit, k + t / 3) for t in range(4))
            columns.append(
                (
                    a,
                    (-11 * a + 18 * b - 9 * c + 2 * d) / 2,
                    (18 * a - 45 * b + 36 * c - 9 * d) / 2,
                    (-9 * a + 27 * b - 27 * c + 9 * d) / 2,
                )
            )
        spans.append(tuple(zip(*columns, strict=True)))
    return tuple(spans)


class Curve:
    """The same spline as one cubic a span, which is quick to read: curve(v)."""

    def __init__(self, values: Sequence[float]) -> None:
        self._cubics = []
        for k, basis in enumerate(_bases(len(values))):
            p, q, r, s = values[k : k + 4]
            self._cubics.append([p * e + q * f + r * g + s * h for e, f, g, h in basis])

    def __call__(self, v: float) -> float:
        """Return the curve's value at v; outside its range the value at the nearer end."""
        k = min(max(int(v), 0), len(self._cubics) - 1)
        t = min(max(v - k, 0.0), 1.0)
        a, b, c, d = self._cubics[k]
        return a + t * (b + t * (c + t * d))


def solve(f: Callable[[float], float], value: float, low: float, high: float) -> float:
    """Return where a rising f takes a value, to 1e-10; the nearer end when it never does.

    Regula falsi with the Illinois weight: about a quarter of the readings that halving takes.
    """
    below, above = f(low) - value, f(high) - value
    if below >= 0:
        return low
    if above <= 0:
        return high
    side = 0
    for _ in range(100):
        at = (low * above - high * below) / (above - below)
        miss = f(at) - value
        if abs(miss) < 1e-11 or high - low < 1e-10:
            return at
        if miss < 0:
            low, below = at, miss
            above, side = (above / 2 if side < 0 else above), -1
        else:
            high, above = at, miss
            below, side = (below / 2 if side > 0 else below), 1
    return (low + high) / 2


def peak(f: Callable[[float], float], low: float, high: float) -> float:
    """Return where f, with one summit between low and high, is greatest (golden section)."""
    g = (math.sqrt(5) - 1) / 2
    for _ in range(36):
        a, b = high - g * (high - low), low + g * (high - low)
        low, high = (a, high) if f(a) < f(b) else (low, b)
    return (low + high) / 2


class Station(Record):
    """One section of the loft: its two points in the mid-plane, half width and lengths of its elliptical ends [mm]."""

    front: Point
    back: Point
    half_width: float
    front_end: float
    back_end: float


class ToteForm(Record):
    """Control values of the curves: front and back points [mm], half width [mm], ends as shares of the depth [-]."""

    front: tuple[Point, ...]
    back: tuple[Point, ...]
    half_width: tuple[float, ...]
    front_share: tuple[float, ...]
    back_share: tuple[float, ...]
    lean_deg: float

    @property
    def spans(self) -> int:
        """Number of spans; the station v runs from 0 to it."""
        return len(self.front) - 3

    @cached_property
    def _lean(self) -> tuple[float, float]:
        return math.sin(math.radians(self.lean_deg)), math.cos(math.radians(self.lean_deg))

    @cached_property
    def _front(self) -> tuple[Curve, Curve]:
        return Curve([p[0] for p in self.front]), Curve([p[1] for p in self.front])

    @cached_property
    def _back(self) -> tuple[Curve, Curve]:
        return Curve([p[0] for p in self.back]), Curve([p[1] for p in self.back])

    @cached_property
    def _width(self) -> Curve:
        return Curve(self.half_width)

    @cached_property
    def _shares(self) -> tuple[Curve, Curve]:
        return Curve(self.front_share), Curve(self.back_share)

    def front_at(self, v: float) -> Point:
        """Return the front curve (x, z) at station v [mm]."""
        return self._front[0](v), self._front[1](v)

    def back_at(self, v: float) -> Point:
        """Return the back curve (x, z) at station v [mm]."""
        return self._back[0](v), self._back[1](v)

    def station(self, v: float) -> Station:
        """Return the section at station v."""
        f, b = self.front_at(v), self.back_at(v)
        depth = math.dist(f, b)
        return Station(f, b, self._width(v), depth * self._shares[0](v), depth * self._shares[1](v))

    def along_rod(self, p: Point) -> Point:
        """Return (h, q) of a point (x, z) [mm]."""
        s, c = self._lean
        return -p[0] * s + p[1] * c, p[0] * c + p[1] * s

    def grip_at(self, h: float) -> tuple[float, float, float]:
        """Return (q front, q back, half width) [mm] of the grip at a height h [mm] along the rod."""
        top = float(self.spans)
        vf = solve(lambda v: self.along_rod(self.front_at(v))[0], h, CROTCH - 1.0, top)
        vb = solve(lambda v: self.along_rod(self.back_at(v))[0], h, 0.0, top)
        width = self._width((vf + vb) / 2)
        return self.along_rod(self.front_at(vf))[1], self.along_rod(self.back_at(vb))[1], width

    def horn(self) -> tuple[float, float]:
        """Return (reach of the horn aft of the waist below it, height h of the waist along the rod) [mm]."""

        def aft(v: float) -> float:
            return self.along_rod(self.back_at(v))[1]

        tip = peak(aft, self.spans - 4.0, float(self.spans))
        waist = peak(lambda v: -aft(v), self.spans - 6.5, tip)
        return aft(tip) - aft(waist), self.along_rod(self.back_at(waist))[0]


def point_on_rod(lean_deg: float, h: float, q: float) -> Point:
    """Return (x, z) [mm] of a point h up the rod and q aft of it [mm], for a rod leaning forward by lean_deg."""
    s, c = math.sin(math.radians(lean_deg)), math.cos(math.radians(lean_deg))
    return -h * s + q * c, h * c + q * s


@lru_cache(maxsize=64)
def tote_form(size: ToteSize) -> ToteForm:
    """Lay out the curves so that depth at mid-grip and reach of the horn come out as the size says (1e-6 mm)."""
    shift, reach = 0.0, size.horn_length
    form = _layout(size, shift, reach)
    # each measure follows its control value nearly one to one, so correcting by the miss converges fast
    for _ in range(25):
        front, back, _width = form.grip_at(size.hand_bottom + size.grip / 2)
        miss = (size.grip_depth - (back - front), size.horn_length - form.horn()[0])
        if max(map(abs, miss)) < 1e-7:
            break
        shift, reach = shift + miss[0], reach + miss[1]
        form = _layout(size, shift, reach)
    return form


def _layout(size: ToteSize, shift: float, reach: float) -> ToteForm:
    """Place the control points. Shares of the grip's height are proportions of our own, found by eye on models."""
    front_q, back_q = -0.48 * size.grip_depth, 0.52 * size.grip_depth + shift
    xf, xr, zf, crest = size.foot_front_x, size.foot_rear_x, size.foot_height, size.crest_radius
    base, top = size.arris_radius, size.rod_height

    def on(share: float, q: float) -> Point:
        return point_on_rod(size.lean_deg, size.hand_bottom + share * size.grip, q)

    def near_top(below: float, q: float) -> Point:
        return point_on_rod(size.lean_deg, top - below, q)

    front = (
        (xf, base),
        (xf, base + 0.2 * zf),
        (xf, 0.54 * zf),
        (xf + 0.28 * size.toe_reach, 0.94 * zf),
        on(0.065, front_q - 2.4),
        on(0.18, front_q + 1.5),
        on(0.37, front_q - 1.2),
        on(0.58, front_q - 0.9),
        on(0.78, front_q + 1.7),
        on(0.91, front_q - 1.5),
        near_top(7.0, front_q - 1.4),
        near_top(2.6, 0.75 * front_q - 0.25 * crest - 0.5),
        near_top(0.0, 0.5 * (front_q - crest)),
        near_top(0.0, -crest),
    )
    # the tail sweeps up into the palm's side along a parabola: start, meeting point of its tangents, end
    start, meet, end = (xr - 7.0, 0.74 * zf), on(0.03, back_q + 2.5), on(0.39, back_q + 0.7)

    def sweep(t: float) -> Point:
        a, b, c = (1 - t) ** 2, 2 * t * (1 - t), t * t
        return a * start[0] + b * meet[0] + c * end[0], a * start[1] + b * meet[1] + c * end[1]

    back = (
        (xr, base),
        (xr, base + 0.2 * zf),
        (xr, 0.45 * zf),
        start,
        sweep(0.38),
        sweep(0.70),
        end,
        on(0.55, back_q + 1.0),
        on(0.72, back_q - 2.3),
        on(0.87, back_q + 0.10 * reach),
        near_top(10.4 + 0.14 * reach, back_q + 1.16 * reach),
        near_top(2.9, back_q + 1.06 * reach),
        near_top(0.0, crest + 0.45 * (back_q + 0.5 * reach - crest)),
        near_top(0.0, crest),
    )
    foot, grip, head = size.foot_width / 2, size.grip_width / 2, size.head_width / 2
    throat = 0.96 * grip
    # the sections fan out round the toe's root: a width that changed there would leave a ledge
    half_width = (foot, foot, foot, foot, foot, foot + 0.4 * (grip - foot), grip, grip, grip,
                  throat, head, crest + 1.02 * (head - crest), crest + 0.50 * (head - crest), crest)  # fmt: skip
    front_share = (0.24, 0.24, 0.24, 0.27, 0.38, 0.46, 0.48, 0.48, 0.47, 0.43, 0.37, 0.36, 0.42, 0.50)
    back_share = (0.26, 0.26, 0.26, 0.29, 0.45, 0.54, 0.52, 0.52, 0.53, 0.57, 0.63, 0.64, 0.58, 0.50)
    return ToteForm(front, back, half_width, front_share, back_share, size.lean_deg)
