"""The lever cap's outlines at 1:1, lines and true arcs, in the blade frame: sections (s, q) and plans (s, y) [mm].

Everything is drawn in the shut position. Casting outlines carry the stock; draft is put on by the solids.
"""

from __future__ import annotations

from math import asin, atan2, cos, degrees, hypot, radians, sin, tan

from parts.lever_cap.size import LeverCapSize
from shared.errors import GeometryError
from shared.profile import Pen, Point, Profile
from shared.segments import Arc, polar

FRONT = 60.0  # deg, milled front of the nose to the blade's face
NOSE_BACK = 45.0  # deg, underside behind the land
NOSE_ROOT = 3.0
LAND_ROOT = 0.5  # where the stock on the nose's land ends
FRONT_CORNER = 4.0
TAIL_CORNER = 7.0
PARALLEL = 2.0  # of the sides behind the nose
CUTTER = 2.0  # radius of the mill in the lever's slot
BEYOND = 6.0  # outlines that are cut elsewhere run on by so much
RAMP = 2.0  # run of the casting's step from a machined to a plain face
PLAIN_UNDER = 0.3  # plain faces of the lever lie so much under the milled ones beside them
TIP_RISE = 4.5  # of the lever's tip, room for a finger tip
TIP_THICK = 4.6
CAP_RIM = 1.6  # radius of the cap casting's rim
LEVER_RIM = 1.4  # radius round the paddle


def front_at(size: LeverCapSize, q: float, stock: float = 0.0) -> float:
    """Return s of the nose's milled front at a height q [mm], moved out by a stock [mm]."""
    return size.land[0] + (q - size.nose_q) / tan(radians(FRONT)) - stock / sin(radians(FRONT))


def _tangent(size: LeverCapSize, s: float, q: float) -> float:
    """Return the direction [deg] from the pivot of the point where a line through (s, q) touches the ears' circle."""
    ds, dq = s - size.pivot_at, q - size.pivot_q
    far = hypot(ds, dq)
    half = degrees(asin(min(1.0, size.ear_radius / far)))
    toward = degrees(atan2(dq, ds)) % 360.0 if ds < 0 else degrees(atan2(dq, ds))
    return toward - (90.0 - half) if ds < 0 else toward + (90.0 - half)


def top_slope(size: LeverCapSize) -> float:
    """Return how steeply the cap's top rises from nose to pivot [deg].

    The top is a plane that touches the ears' circle, as steep as two things allow: a full wall behind the nose, and
    the machining stock over the whole seat of the screw's head. Whichever asks for more metal decides.
    """
    s_nose, q_nose = size.land[1] + 3.0, size.underside_q + size.wall
    s_seat, q_seat = size.screw_at - size.screw_head / 2 - 0.8, size.head_q + size.nose_stock + 0.1
    slopes = [_tangent(size, s, q) - 90.0 for s, q in ((s_nose, q_nose), (s_seat, q_seat))]
    return min(*slopes, 12.0)


def ear_fall(size: LeverCapSize) -> float:
    """Return the direction from the pivot [deg] at which the ears' round runs into the straight fall to the tail."""
    return _tangent(size, size.tail, size.stop_q + size.nose_stock)


def top_at(size: LeverCapSize, s: float) -> float:
    """Return q of the cap's plane top at s, ahead of the ears' circle [mm]."""
    a = radians(top_slope(size))
    return size.pivot_q + size.ear_radius / cos(a) - (size.pivot_at - s) * tan(a)


def cap_section(size: LeverCapSize, stock: float) -> Profile:
    """Return the cap's section (s, q) at the ears, as cast with a stock [mm] on nose land and nose front.

    The parting plane is q = `underside_q`; what lies under it (the nose) leans back by the draft.
    """
    draft, u = tan(radians(size.outside_draft)), size.underside_q
    low = size.nose_q - stock
    front = front_at(size, size.nose_q, stock)
    back = tan(radians(NOSE_BACK))
    pivot = (size.pivot_at, size.pivot_q)
    corner = (size.tail, size.stop_q + size.nose_stock)
    down = ear_fall(size)
    slope = top_slope(size)
    first = polar(pivot, size.ear_radius, down)
    run = BEYOND / (corner[0] - first[0])
    beyond = (corner[0] + run * (corner[0] - first[0]), corner[1] + run * (corner[1] - first[1]))
    a, f = radians(slope), tan(radians(FRONT))
    # front line q = u + f (s - front) meets the top line
    at_zero = size.pivot_q + size.ear_radius / cos(a) - size.pivot_at * tan(a)
    s_top = (at_zero - u + f * front) / (f - tan(a))
    path = Pen.at(front + (u - low) * draft, low, "lever cap section")
    if stock:
        # straight up to the land's own end, so that its stock is whole as far as it is milled
        path = path.line_to(raw_land(size), low).line_to(size.land[1], size.nose_q, corner=LAND_ROOT)
    else:
        path = path.line_to(size.land[1], low)
    path = path.line_to(size.land[1] + (u - size.nose_q) / back, u, corner=NOSE_ROOT)
    path = path.line_to(beyond[0], u).line_to(*beyond).line_to(*first)
    path = path.arc_about(pivot, 90.0 + slope - down)
    return path.line_to(s_top, at_zero + s_top * tan(a), corner=FRONT_CORNER).line_to(front, u).close()


def raw_land(size: LeverCapSize) -> float:
    """Return s of the aft end of the nose's raw face [mm]: the finished land's, but for the draft."""
    return size.land[1] - size.nose_stock * tan(radians(size.outside_draft))


def cap_plan(size: LeverCapSize) -> Profile:
    """Return the cap's plan (s, y) at the parting plane, its largest: wide nose, waist by two equal arcs, round tail.

    The nose is as wide as `width` at the land, so it is wider here by the draft of what lies under the plane.
    """
    wide = size.width / 2 + (size.underside_q - size.nose_q) * tan(radians(size.outside_draft))
    narrow = size.tail_width / 2
    start = front_at(size, size.nose_q, size.nose_stock) - BEYOND
    turn_from = size.land[1] + PARALLEL
    turn_to = size.window[0] - 1.0
    run, side = turn_to - turn_from, wide - narrow
    half = degrees(2 * atan2(side / 2, run / 2))
    radius = (run**2 + side**2) / (4 * side)
    path = Pen.at(start, wide, "lever cap plan").line_to(start, -wide).line_to(turn_from, -wide)
    path = path.arc_about((turn_from, -wide + radius), half).arc_about((turn_to, -narrow - radius), -half)
    path = path.line_to(size.tail, -narrow, corner=TAIL_CORNER).line_to(size.tail, narrow, corner=TAIL_CORNER)
    path = path.line_to(turn_to, narrow).arc_about((turn_to, narrow + radius), -half)
    return path.arc_about((turn_from, wide - radius), half).line_to(start, wide).close()


def front_cut(size: LeverCapSize) -> Profile:
    """Return what the mill takes from the nose's front (s, q): a plane from the land up, rolled into the top."""
    slope = top_slope(size)
    foot = (size.land[0], size.nose_q)
    # the roll ends 5 deg short of the top's own slope, so that the two faces cross instead of grazing
    roll, turn = 3.0, FRONT - slope - 5.0
    # find where the roll begins so that it ends on the top line
    length = 1.0
    for _ in range(60):
        begin = polar(foot, length, FRONT)
        arc = Arc(polar(begin, roll, FRONT - 90.0), roll, FRONT + 90.0, -turn)
        length += (top_at(size, arc.end[0]) - arc.end[1]) * 0.7
    end = arc.end
    out = polar(end, 3.0, FRONT - turn)
    far = size.land[0] - 3 * BEYOND
    path = Pen.at(*foot, "lever cap front").line_to(*begin).piece(arc).line_to(*out)
    return path.line_to(out[0], out[1] + BEYOND).line_to(far, out[1] + BEYOND).line_to(far, foot[1]).close()


def head_pocket(size: LeverCapSize) -> Profile:
    """Return the milled seat of the screw's head in plan (s, y): it follows the head's way from hole to seat."""
    return Profile.slot((size.screw_at - size.slide, 0.0), (size.screw_at, 0.0), size.screw_head + 1.4, "head seat")


def keyhole(size: LeverCapSize) -> tuple[Profile, Profile]:
    """Return the keyhole in plan (s, y): its round part, and the slot whose aft end bears on the screw's shank."""
    large = (size.screw_at - size.slide, 0.0)
    end = (size.screw_at + (size.screw_shank - size.shank_slot) / 2, 0.0)
    return Profile.circle(large, size.head_pass / 2, "keyhole"), Profile.slot(large, end, size.shank_slot, "keyhole")


def window(size: LeverCapSize, inset: float = 0.0) -> Profile:
    """Return the opening for the cam in plan (s, y), narrowed all round by an inset [mm]."""
    (a, b), h = size.window, size.slot_half
    radius = max(0.5, CUTTER - inset) if inset == 0 else CUTTER
    if min(b - a, 2 * h) - 2 * inset < 2 * radius + 0.5:
        raise GeometryError("lever cap", "window", "the stock closes the opening", inset_mm=inset)
    return Profile.rectangle(a + inset, -h + inset, b - inset, h - inset, radius, "cam window")


def window_inset(size: LeverCapSize) -> float:
    """Return the stock of the cast window at the parting plane, draft over its height taken in [mm]."""
    tall = size.pivot_q + size.ear_radius - size.underside_q
    return size.nose_stock + tall * tan(radians(size.inside_draft))


def window_cast_open(size: LeverCapSize) -> bool:
    """Return whether the window is cast: not where it would be smaller than the least cast opening."""
    inset = window_inset(size)
    return min(size.window[1] - size.window[0], 2 * size.slot_half) - 2 * inset >= size.hole_minimum


def slot(size: LeverCapSize, inset: float = 0.0) -> Profile:
    """Return the lever's slot between the ears in plan (s, y), open at the tail, narrowed by an inset [mm]."""
    a, h = size.window[0] + inset, size.slot_half - inset
    return Profile.rectangle(a, -h, size.tail + 2 * BEYOND, h, (CUTTER, 0.0, 0.0, CUTTER), "lever slot")


def _hub(size: LeverCapSize, stock: float) -> tuple[Point, Point, Point, float]:
    """Return where the hub's round leaves its top and touches the cam's tangent, where that meets the cam, and its
    direction [deg]: hub and cam are two circles wrapped by one line."""  # fmt: skip
    (cs, cq), pivot = size.cam_center, (size.pivot_at, size.pivot_q)
    lean = degrees(atan2(size.pivot_q - cq, size.pivot_at - cs))
    # the radii differ by half the eccentricity, so the tangent's normal is 60 deg from the line of centres
    normal = lean + 60.0
    hub, cam = size.hub_radius + stock, size.cam_radius + stock
    return (pivot[0], pivot[1] + hub), polar(pivot, hub, normal), polar((cs, cq), cam, normal), normal


def _around_hub(path: Pen, size: LeverCapSize, stock: float, root: float, soft: float = 0.0) -> Pen:
    """Go from the hub's top round hub and cam to the stop face's aft end."""
    _, _, on_cam, normal = _hub(size, stock)
    cs, cq = size.cam_center
    pad = size.stop_q - stock
    cam = size.cam_radius + stock
    meet = degrees(asin((pad - cq) / cam))
    path = path.arc_about((size.pivot_at, size.pivot_q), normal - 90.0).line_to(*on_cam)
    path = path.arc_about((cs, cq), 360.0 + meet - normal, corner=root)
    return path.line_to(size.tail + 1.0, pad, corner=soft)


def _end_slope(s: float, q: float, tip: float, size: LeverCapSize) -> float:
    """Return the slope [-] of the underside's arc at the tip; it leaves (s, q) level."""
    return tan(2 * atan2(size.stop_q + TIP_RISE - q, tip - s))


def lever_stock(size: LeverCapSize) -> float:
    """Return the stock round the lever's hub at its parting plane [mm]: so that enough is left where draft has run."""
    return size.nose_stock + size.lever_width / 2 * tan(radians(size.outside_draft))


def lever_section(size: LeverCapSize, stock: float) -> Profile:
    """Return the lever's section (s, q) at its parting plane y = 0; it runs on beyond the tip, which the plan ends.

    Args:
        size: the lever cap.
        stock: on hub, cam and stop face [mm]; 0 gives the finished outline.
    """
    top = _hub(size, stock)[0]
    under, over = size.stop_q + PLAIN_UNDER, size.pivot_q + size.hub_radius - PLAIN_UNDER
    tip = size.pivot_at + size.lever_length + 1.5
    reach = RAMP * (stock + PLAIN_UNDER)
    low, high = (size.tail + 1.0 + reach, under), (size.pivot_at + 4.0 + reach, over)
    soft = 0.8 + 1.6 * stock
    path = _around_hub(Pen.at(*top, "cam lever"), size, stock, 1.5 + 0.75 * stock, soft)
    path = path.line_to(*low, corner=soft).line_to(low[0] + 2.0, under)
    rise = _end_slope(low[0] + 2.0, under, tip, size)
    path = path.tangent_arc_to(tip, size.stop_q + TIP_RISE).line_by(BEYOND, BEYOND * rise)
    # back along the top: an arc that runs smoothly into the plain face
    flat = (high[0] + 4.0, over)
    ds, dq = tip - flat[0], size.stop_q + TIP_RISE + TIP_THICK - over
    turn, radius = degrees(2 * atan2(dq, ds)), (ds**2 + dq**2) / (2 * dq)
    end = (flat[0] + ds, flat[1] + dq)
    path = path.line_to(*polar(end, BEYOND, turn)).line_to(*end).arc_about((flat[0], over + radius), -turn)
    return path.line_to(*high, corner=soft).line_to(size.pivot_at + 4.0, top[1], corner=soft).close()


def lever_hub_cut(size: LeverCapSize) -> Profile:
    """Return what is machined away round hub, cam and stop face (s, q): everything outside their finished outline."""
    top = _hub(size, 0.0)[0]
    far_s, far_q = size.pivot_at - 4 * BEYOND, size.press_q - 4 * BEYOND
    reach = RAMP * (lever_stock(size) + PLAIN_UNDER)
    begin = (size.pivot_at + 4.0 + reach, top[1])
    path = Pen.at(*begin, "lever hub").line_to(*top)
    path = _around_hub(path, size, 0.0, 1.5).line_to(size.tail + 1.0 + reach, size.stop_q)
    path = path.line_to(path.end[0], far_q).line_to(far_s, far_q).line_to(far_s, top[1] + 4 * BEYOND)
    return path.line_to(begin[0], top[1] + 4 * BEYOND).close()


def lever_tip(size: LeverCapSize) -> tuple[float, float]:
    """Return q of the cast lever's underside and top at its tip [mm], its rim not yet rounded."""
    found = lever_section(size, lever_stock(size)).crossings(0, size.pivot_at + size.lever_length)
    return min(found), max(found)


def neck_at(size: LeverCapSize) -> float:
    """Return s up to which the lever's sides are milled [mm]: as far as the hub, between the ears."""
    return size.pivot_at + 5.5


def lever_plan(size: LeverCapSize, stock: float) -> Profile:
    """Return the right half of the lever's plan (s, y), round at the tip.

    The hub has a stock [mm] on its side; beyond it the lever is plain, just under the milled side.
    """
    hub, plain = size.lever_width / 2 + stock, size.lever_width / 2 - PLAIN_UNDER
    tip, neck = size.pivot_at + size.lever_length, neck_at(size)
    soft = 1.0 + 2.5 * stock
    path = Pen.at(size.pivot_at - 3 * BEYOND, 0.0, "lever plan").line_to(tip, 0.0)
    path = path.arc_about((tip - plain, 0.0), 90.0).line_to(neck + RAMP * (stock + PLAIN_UNDER), plain, corner=soft)
    return path.line_to(neck, hub, corner=soft).line_to(size.pivot_at - 3 * BEYOND, hub).close()


def half_width_at(size: LeverCapSize, s: float) -> float:
    """Return the cap's half width at the parting plane at a place s along the blade [mm]."""
    return max(cap_plan(size).crossings(0, s))
