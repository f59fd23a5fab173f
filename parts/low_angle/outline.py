"""The lever cap's outlines at 1:1, lines and true arcs, in the bed frame: sections (s, q) and plans (s, y) [mm].

Everything is drawn tightened. Casting outlines carry the stock; draft is put on by the solids.
"""

from __future__ import annotations

from math import atan2, cos, degrees, hypot, radians, sin, sqrt, tan

from parts.low_angle.size import LowCapSize
from shared.profile import Pen, Point, Profile
from shared.segments import Arc, polar

FRONT = 60.0  # deg, milled front of the nose to the blade
NOSE_BACK = 50.0  # deg, underside behind the land
NOSE_ROOT = 3.0
LAND_ROOT = 0.5  # where the stock on the nose's land ends
FRONT_CORNER = 3.0
NOSE_PLATE = 4.2  # thickness of the plate just behind the nose
CROWN = 0.7  # the top rises at least so far over the straight line from nose to clamp
HEAD_SUNK = 0.6  # the stud's head lies so far under the top
PARALLEL = 3.0  # of the sides behind the nose
WAIST_TO = 9.0  # the plan has its tail's width from so far ahead of the clamp
BEYOND = 6.0  # outlines that are cut elsewhere run on by so much
KNOB_UNDER = (3.0, 2.5, 1.2)  # cone under the clamp's knob: along the radius, height, radius at its edge
KNOB_EDGE = (2.2, 1.8)  # edge over it: so far under the top; its radius
DOME_RISE, DOME_IN = 1.6, 1.2  # the knob's dome: height, and how far inside the rim it begins
TIP_UNDER = 0.3  # the clamp screw's riveted tip ends so far inside the foot
CAP_RIM = 1.8  # radius of the cap casting's rim


def _crown(size: LowCapSize) -> tuple[Point, Point, Point]:
    """Return three points of the top's arc: behind the nose, over the stud, over the clamp (s, q)."""
    u = size.underside_q
    first = (size.land[1], u + NOSE_PLATE)
    last = (size.clamp.at, u + size.end_plate)
    share = (size.stud.at - first[0]) / (last[0] - first[0])
    chord = first[1] + share * (last[1] - first[1])
    head = size.head_q + size.stud.head_height + HEAD_SUNK
    return first, (size.stud.at, max(head, chord + CROWN)), last


def crown_circle(size: LowCapSize) -> tuple[Point, float]:
    """Return centre (s, q) and radius of the top's one large arc [mm]."""
    (ax, ay), (bx, by), (cx, cy) = _crown(size)
    d = 2 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
    a2, b2, c2 = ax**2 + ay**2, bx**2 + by**2, cx**2 + cy**2
    centre = (
        (a2 * (by - cy) + b2 * (cy - ay) + c2 * (ay - by)) / d,
        (a2 * (cx - bx) + b2 * (ax - cx) + c2 * (bx - ax)) / d,
    )
    return centre, hypot(ax - centre[0], ay - centre[1])


def top_at(size: LowCapSize, s: float) -> float:
    """Return q of the cap's top at s [mm]."""
    (cs, cq), r = crown_circle(size)
    return cq + sqrt(r**2 - (s - cs) ** 2)


def top_slope(size: LowCapSize, s: float) -> float:
    """Return how steeply the top rises with s [deg]."""
    (cs, _), r = crown_circle(size)
    return degrees(atan2(cs - s, sqrt(r**2 - (s - cs) ** 2)))


def front_at(size: LowCapSize, q: float, stock: float = 0.0) -> float:
    """Return s of the nose's milled front at a height q [mm], moved out by a stock [mm]."""
    return size.land[0] + (q - size.blade_top) / tan(radians(FRONT)) - stock / sin(radians(FRONT))


def cap_section(size: LowCapSize, stock: float) -> Profile:
    """Return the cap's section (s, q) as cast with a stock [mm] on nose land and nose front.

    The parting plane is q = `underside_q`; what lies under it (the nose) leans back by the draft.
    """
    draft, u = tan(radians(size.outside_draft)), size.underside_q
    low, front = size.blade_top - stock, front_at(size, size.blade_top, stock)
    back = tan(radians(NOSE_BACK))
    f = tan(radians(FRONT))
    # where the front, from the parting plane up, meets the top
    s_top = front
    for _ in range(60):
        s_top = front + (top_at(size, s_top) - u) / f
    end = size.tail + BEYOND
    path = Pen.at(front + (u - low) * draft, low, "lever cap section")
    if stock:
        # straight up to the land's own end, so that its stock is whole as far as it is milled
        path = path.line_to(size.land[1] - stock * draft, low).line_to(size.land[1], size.blade_top, corner=LAND_ROOT)
    else:
        path = path.line_to(size.land[1], low)
    path = path.line_to(size.land[1] + (u - size.blade_top) / back, u, corner=NOSE_ROOT)
    path = path.line_to(end, u).line_to(end, top_at(size, end))
    middle = (end + s_top) / 2
    path = path.arc_to((middle, top_at(size, middle)), (s_top, top_at(size, s_top)), corner=FRONT_CORNER)
    return path.line_to(front, u).close()


def cap_plan(size: LowCapSize, start: float | None = None) -> Profile:
    """Return the cap's plan (s, y) at the parting plane, its largest: wide nose, two equal arcs, round tail.

    The nose is as wide as `width` at the land, so it is wider here by the draft of what lies under the plane.

    Args:
        size: the cap.
        start: s of the nose's end [mm]; default: beyond the casting's front, which the section ends.
    """
    wide = size.width / 2 + (size.underside_q - size.blade_top) * tan(radians(size.outside_draft))
    narrow = size.tail_width / 2
    start = front_at(size, size.blade_top, size.stock) - BEYOND if start is None else start
    turn_from, turn_to = size.land[1] + PARALLEL, size.clamp.at - WAIST_TO
    run, side = turn_to - turn_from, wide - narrow
    half = degrees(2 * atan2(side / 2, run / 2))
    radius = (run**2 + side**2) / (4 * side)
    path = Pen.at(start, wide, "lever cap plan").line_to(start, -wide).line_to(turn_from, -wide)
    path = path.arc_about((turn_from, -wide + radius), half).arc_about((turn_to, -narrow - radius), -half)
    path = path.line_to(size.clamp.at, -narrow).arc_about((size.clamp.at, 0.0), 180.0)
    path = path.line_to(turn_to, narrow).arc_about((turn_to, narrow + radius), -half)
    return path.arc_about((turn_from, wide - radius), half).line_to(start, wide).close()


def half_width_at(size: LowCapSize, s: float) -> float:
    """Return the cap's half width at the parting plane at a place s along the bed [mm]."""
    return max(cap_plan(size).crossings(0, s))


def front_cut(size: LowCapSize) -> Profile:
    """Return what the mill takes from the nose's front (s, q): a plane from the land up, rolled into the top."""
    foot = (size.land[0], size.blade_top)
    # the roll ends 5 deg short of the top's own slope, so that the two faces cross instead of grazing
    roll, length, end = 2.5, 1.0, foot
    for _ in range(80):
        begin = polar(foot, length, FRONT)
        turn = FRONT - top_slope(size, end[0]) - 5.0
        arc = Arc(polar(begin, roll, FRONT - 90.0), roll, FRONT + 90.0, -turn)
        end = arc.end
        length += (top_at(size, end[0]) - end[1]) * 0.7
    out = polar(end, 3.0, FRONT - turn)
    far = size.land[0] - 3 * BEYOND
    path = Pen.at(*foot, "lever cap front").line_to(*begin).piece(arc).line_to(*out)
    return path.line_to(out[0], out[1] + BEYOND).line_to(far, out[1] + BEYOND).line_to(far, foot[1]).close()


def head_pocket(size: LowCapSize) -> Profile:
    """Return the milled seat of the stud's head in plan (s, y): it follows the head's way from hole to seat."""
    s = size.stud.at
    return Profile.slot((s - size.slide, 0.0), (s, 0.0), size.stud.head_diameter + 1.4, "head seat")


def keyhole(size: LowCapSize) -> tuple[Profile, Profile]:
    """Return the keyhole in plan (s, y): its round part, and the slot whose aft end bears on the stud's shank."""
    large = (size.stud.at - size.slide, 0.0)
    end = (size.stud.at + (size.stud.thread.major - size.shank_slot) / 2, 0.0)
    return Profile.circle(large, size.head_pass / 2, "keyhole"), Profile.slot(large, end, size.shank_slot, "keyhole")


def knob_dome(size: LowCapSize) -> tuple[float, float, float]:
    """Return height, radius of the foot, and radius of curvature of the clamp knob's dome [mm]."""
    rise, reach = DOME_RISE, size.clamp.knob_diameter / 2 - DOME_IN
    return rise, reach, (reach**2 + rise**2) / (2 * rise)


def knob_section(size: LowCapSize) -> Profile:
    """Return half the clamp screw's section (radius, height over the cap's underside) [mm], its tip riveted.

    The shank is drawn with its tap drill's diameter, as it sits in the cap's thread. The knob has a low dome, and no
    edge that a palm could feel.
    """
    c = size.clamp
    core, tip, r = c.thread.tap_drill / 2, c.tip_diameter / 2, c.knob_diameter / 2
    shoulder = size.blade_top + c.foot_thickness - size.underside_q
    low = size.end_plate + c.knob_gap
    high = low + c.knob_height
    rivet = shoulder - c.foot_thickness + TIP_UNDER
    sink = rivet_sink(size)
    path = Pen.at(0.0, rivet, "clamp screw").line_to(tip + sink, rivet).line_to(tip, rivet + sink)
    path = path.line_to(tip, shoulder).line_to(core, shoulder).line_to(core, low)
    path = path.line_to(r - KNOB_UNDER[0], low).line_to(r, low + KNOB_UNDER[1], corner=KNOB_UNDER[2])
    path = path.line_to(r, high - KNOB_EDGE[0], corner=KNOB_EDGE[1])
    # the dome: an arc level at the axis
    rise, reach, radius = knob_dome(size)
    a = degrees(2 * atan2(rise, reach))
    path = path.line_to(reach, high - rise, corner=0.8)
    return path.arc_about((0.0, high - radius), a).close()


def rivet_sink(size: LowCapSize) -> float:
    """Return the height of the cone that the clamp screw's tip is riveted to [mm]."""
    return (size.clamp.foot_thickness - TIP_UNDER) / 2


def foot_sink(size: LowCapSize) -> float:
    """Return the depth of the cone in the clamp foot round the riveted tip [mm]: it turns freely."""
    return rivet_sink(size) + 0.05


def foot_section(size: LowCapSize) -> Profile:
    """Return half the clamp foot's section (radius, height over the blade) [mm]: eased disc, countersunk below."""
    c = size.clamp
    bore, t, r = c.foot_bore / 2, c.foot_thickness, c.foot_diameter / 2
    sink = foot_sink(size)
    path = Pen.at(bore + sink + TIP_UNDER, 0.0, "clamp foot").line_to(r, 0.0, corner=0.6).line_to(r, t, corner=0.8)
    path = path.line_to(bore, t).line_to(bore, TIP_UNDER + sink)
    return path.close()


def knob_flutes(size: LowCapSize) -> list[tuple[float, float, float]]:
    """Return (angle [deg], distance of the axis, radius) [mm] of the flutes round the clamp's knob."""
    r = size.clamp.knob_diameter / 2
    count, radius = 10, 2.0
    return [(360.0 * i / count, r + radius - 0.7, radius) for i in range(count)]


def at_angle(distance: float, angle: float) -> Point:
    """Return a point at a distance [mm] from the origin in a direction [deg]."""
    return distance * cos(radians(angle)), distance * sin(radians(angle))
