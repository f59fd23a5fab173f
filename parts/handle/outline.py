"""1:1 outlines of tote and knob as lines and true arcs, without any CAD: templates, blanks, and the knob's turning."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import lru_cache
from itertools import pairwise

from parts.handle.form import Point
from parts.handle.size import KnobSize, ToteSize
from shared.errors import GeometryError
from shared.profile import Arc, Line, Profile, Segment
from shared.segments import add, cross, dot, sub, tangent_arc

TOLERANCE = 0.02  # the arcs stay this near to the form's curves [mm]; well under what a template can be sawn to
Curve = Callable[[float], Point]


def _tangent(curve: Curve, v: float, top: float) -> Point:
    step = 1e-5
    a, b = max(v - step, 0.0), min(v + step, top)
    d = sub(curve(b), curve(a))
    size = math.hypot(*d)
    return d[0] / size, d[1] / size


def biarc(p: Point, tp: Point, q: Point, tq: Point) -> list[Segment]:
    """Return two arcs (or lines) from p to q [mm] that leave along tp, arrive along tq and join smoothly.

    Args:
        p: start [mm].
        tp: unit direction there.
        q: end [mm].
        tq: unit direction there.

    Source: equal-legs biarc, plane geometry.
    """
    v, t = sub(q, p), add(tp, tq)
    bend = 2 * (1 - dot(tp, tq))
    reach = dot(v, t)
    if bend < 1e-10:
        leg = dot(v, v) / (4 * dot(v, tq))
    else:
        leg = (-reach + math.sqrt(reach * reach + bend * dot(v, v))) / bend
    joint = ((p[0] + q[0] + leg * (tp[0] - tq[0])) / 2, (p[1] + q[1] + leg * (tp[1] - tq[1])) / 2)
    heading = sub(joint, add(p, tp, leg))  # where the first arc arrives, along the line between the two corners
    if math.hypot(*heading) < 1e-9:
        heading = tp
    out: list[Segment] = []
    for a, b, d in ((p, joint, tp), (joint, q, heading)):
        out.append(tangent_arc(a, d, b) or Line(a, b))
    return out


def fit_arcs(curve: Curve, low: float, high: float, top: float, tolerance: float = TOLERANCE) -> list[Segment]:
    """Return smooth arcs along a curve within a tolerance.

    Args:
        curve: station -> point [mm].
        low: first station.
        high: last station.
        top: last station of the whole curve.
        tolerance: greatest distance of the curve from the arcs [mm].

    Raises:
        GeometryError: the curve cannot be followed (it has a corner).
    """
    if high - low < 1e-4:
        raise GeometryError("tote", "outline", "the curve cannot be followed by arcs", station=low)
    arcs = biarc(curve(low), _tangent(curve, low, top), curve(high), _tangent(curve, high, top))
    reads = (curve(low + (high - low) * i / 12) for i in range(1, 12))
    turned = max(abs(a.sweep) if isinstance(a, Arc) else 0.0 for a in arcs)
    if turned < 120.0 and all(min(a.distance(p) for a in arcs) <= tolerance for p in reads):
        return arcs
    middle = (low + high) / 2
    return [*fit_arcs(curve, low, middle, top, tolerance), *fit_arcs(curve, middle, high, top, tolerance)]


@lru_cache(maxsize=16)
def tote_side(size: ToteSize, tolerance: float = TOLERANCE) -> Profile:
    """Return the tote's side outline (x, z) [mm] in its own frame, arris included, counter-clockwise from the foot.

    Args:
        size: the tote.
        tolerance: how near the arcs follow the form's curves [mm].
    """
    form, r = size.form, size.arris_radius
    top = float(form.spans)
    x0, x1 = size.foot_front_x, size.foot_rear_x

    def along(curve: Curve) -> list[Segment]:
        return [s for k in range(form.spans) for s in fit_arcs(curve, float(k), k + 1.0, top, tolerance)]

    back, front = along(form.back_at), along(form.front_at)
    pieces: list[Segment] = [Line((x0 + r, 0.0), (x1 - r, 0.0)), Arc((x1 - r, r), r, -90.0, 90.0), *back]
    pieces.append(Line(form.back_at(top), form.front_at(top)))
    pieces += [s.reversed() for s in reversed(front)]
    pieces.append(Arc((x0 + r, r), r, 180.0, 90.0))
    return Profile(tuple(_joined(pieces)), "tote side")


def _joined(pieces: Sequence[Segment]) -> list[Segment]:
    """Drop pieces without length, which a fit leaves where a curve runs dead straight."""
    return [s for s in pieces if s.length > 1e-6]


def _radii(corners: Sequence[Point], takes: Sequence[float]) -> list[float]:
    """Return the radius [mm] of each corner from the length of tangent that it takes of its legs [mm]."""
    radii = []
    for i, (point, take) in enumerate(zip(corners, takes, strict=True)):
        before, after = sub(point, corners[i - 1]), sub(corners[(i + 1) % len(corners)], point)
        turn = abs(math.atan2(cross(before, after), dot(before, after)))
        # a hair under the full leg, so that two roundings never overlap by the last digit
        radii.append((1 - 1e-9) * take / math.tan(turn / 2) if take > 0 and turn > 1e-9 else 0.0)
    return radii


def _knob_corners(size: KnobSize) -> tuple[list[Point], list[float]]:
    """Return the corners (radius, z) of the knob's outside from foot to dome, and the tangent each takes [mm].

    Foot, waist, swell and dome are legs of a polygon whose corners are rounded until the arcs meet, so that the waist
    and the greatest diameter are touched exactly.
    """
    h, foot, waist, swell = size.height, size.foot_diameter / 2, size.waist / 2, size.diameter / 2
    dome = max(0.60 * swell, size.crest_radius + 1.0)
    corners: list[Point] = [(foot, 0.0), (foot, 0.11 * h), (waist, 0.29 * h), (waist, 0.48 * h)]
    corners += [(swell, 0.64 * h), (swell, 0.78 * h), (0.35 * dome + 0.65 * swell, 0.92 * h), (dome, h)]
    legs = [math.dist(a, b) for a, b in pairwise(corners)]
    halves = [leg / 2 for leg in legs]
    takes = [size.arris_radius, 0.0, halves[2], halves[2], halves[4], halves[4], min(halves[5:7]), 0.0]
    takes[1] = min(legs[0] - takes[0], 0.95 * (legs[1] - takes[2]))
    takes[4] = min(takes[4], legs[3] - takes[3])
    takes[5] = min(takes[5], legs[5] - takes[6])
    takes[7] = min(legs[6] - takes[6], dome - size.crest_radius)
    return corners, takes


def knob_section(size: KnobSize) -> Profile:
    """Return the knob's half section (radius, z) [mm] as turned and bored, counter-clockwise, in lines and arcs."""
    corners, takes = _knob_corners(size)
    nut, boss = size.nut_counterbore_diameter / 2, size.boss_counterbore_diameter / 2
    bore = size.bore_diameter / 2
    seat, step = size.height - size.nut_counterbore_depth, size.boss_counterbore_depth
    inner: list[Point] = [(nut, size.height), (nut, seat), (bore, seat), (bore, step), (boss, step), (boss, 0.0)]
    corners, takes = [*corners, *inner], [*takes, size.rim_radius, *[0.0] * 5]
    return Profile.polygon(corners, _radii(corners, takes), "knob section")


def knob_profile(size: KnobSize) -> Profile:
    """Return the knob's outline from the side (r, z) [mm], whole width, before boring: the turner's template."""
    corners, takes = _knob_corners(size)
    corners, takes = [*corners, *((-r, z) for r, z in reversed(corners))], [*takes, *reversed(takes)]
    return Profile.polygon(corners, _radii(corners, takes), "knob profile")
