"""Depth adjuster (post, wheel, yoke, pin) and lateral adjuster (lever, roller, pins), at any setting."""

from __future__ import annotations

from math import cos, radians, sin, tau

import cadquery as cq

from parts.hardware.seating import Seating, Setting, wheel_travel, yoke_swing
from parts.hardware.size import HEAD_PLAY, PIN_HOLE, DepthAdjuster, HardwareSize, LateralLever
from shared.cad.slope import Slope, cylinder
from shared.cad.solids import Frame, Vector, extrude_in, one_valid_solid, revolve
from shared.cad.turned import RUNNING, pin, ring, shank_outline
from shared.profile import Pen, Profile

Named = tuple[str, cq.Solid]
HEAD = 3.0  # a pin head's diameter over the pin
WHEEL_EDGE = 0.6  # radius on the depth wheel's outer edges
DISH = (2.2, 1.2)  # hollow of the wheel's back: width of the lip round it; depth, with a wall at 45 deg
YOKE_CORNER = 2.0  # on the yoke's shoulders
TIP_NECK = 0.5  # the shank under the yoke's round tip is so much thinner a side
FLUTES = (12, 2.2, 0.8)  # round the depth wheel's rim: count, radius, depth
FLUTE_CLEAR = 0.4  # of the flutes from the groove's flank
TAB_CORNER = 4.0  # of the lateral lever's tab
TAB_BEND = 1.0  # inside radius of its bend
FLARE = (6.0, 4.0, 2.0)  # the lever widens so far before its tab; over so much, which is the inner radius; outer radius
ACROSS: Vector = (0.0, 1.0, 0.0)


def slope(seating: Seating) -> Slope:
    """Return the bed as a place to draw on."""
    return Slope(seating.bed_angle, seating.blade_thickness)


def depth_adjuster(size: HardwareSize, seating: Seating, setting: Setting) -> list[Named]:
    """Return post, wheel, yoke and yoke pin in the plane's frame."""
    d, at = size.depth, slope(seating)
    post = revolve(shank_outline(d.thread, d.post_to - d.post_from, d.post_engaged),
                   at.point(d.post_from, d.post_h), at.up, part="depth post")  # fmt: skip
    foot = at.point(d.wheel_at, d.pivot_h, d.pin_from)
    return [
        ("depth post", post),
        ("depth wheel", _wheel(d, at, d.wheel_at + wheel_travel(size, setting))),
        ("yoke", _yoke(d, at, seating.blade_thickness, yoke_swing(size, setting))),
        ("yoke pin", pin(foot, ACROSS, d.pivot_pin, d.pin_to - d.pin_from, "yoke pin")),
    ]


def _wheel(d: DepthAdjuster, at: Slope, s: float) -> cq.Solid:
    """Return the wheel with the middle of its groove at s [mm]: plain front flange, fluted rim dished at the back."""
    slant = sin(radians(d.groove_flank)) / cos(radians(d.groove_flank))
    hub, flange, rim = d.hub_diameter / 2, d.flange_diameter / 2, d.wheel_diameter / 2
    bore, g, back = d.thread.major / 2 + RUNNING / 2, d.groove / 2, d.wheel_thickness - d.wheel_front
    soft, (lip, dish) = WHEEL_EDGE, DISH
    side = (
        Pen.at(bore, -d.wheel_front, "depth wheel")
        .line_to(flange, -d.wheel_front, corner=soft)
        .line_to(flange, -g - (flange - hub) * slant)
        .line_to(hub, -g)
        .line_to(hub, g)
        .line_to(rim, g + (rim - hub) * slant, corner=soft / 2)
        .line_to(rim, back, corner=soft)
        .line_to(rim - lip, back)
        .line_to(rim - lip - dish, back - dish)
        .line_to(bore, back - dish)
        .close()
    )
    turned = revolve(side, at.point(s, d.post_h), at.up, part="depth wheel")
    count, radius, deep = FLUTES
    start = g + (rim - hub) * slant + FLUTE_CLEAR
    flutes = []
    for i in range(count):
        a, out = tau * i / count, rim + radius - deep
        mouth = at.point(s + start, d.post_h + out * cos(a), out * sin(a))
        flutes.append(cylinder(mouth, at.up, 2 * radius, back - start + 1.0, "depth wheel"))
    return one_valid_solid(turned.cut(*flutes), "depth wheel", "flutes")


def _yoke(d: DepthAdjuster, at: Slope, steel: float, swing: float) -> cq.Solid:
    """Return the yoke swung about its pin [deg]: round tip up in the chipbreaker's window, fork down at the wheel."""
    a = radians(swing)
    up, inward = cq.Vector(*at.up), cq.Vector(*at.inward)
    along, down = up * cos(a) + inward * sin(a), inward * cos(a) - up * sin(a)
    pivot = at.point(d.wheel_at, d.pivot_h)

    def place(y: float) -> Frame:
        return Frame((pivot[0], y, pivot[2]), along.toTuple(), down.toTuple())

    def plate(outline: Profile, y0: float, y1: float) -> cq.Solid:
        return extrude_in(outline, place(y0), ACROSS, y1 - y0, part="yoke")

    tip, top = d.tip_half_width, -(d.pivot_h + steel + d.tip_q)
    half = d.tip_diameter / 2 - TIP_NECK
    arm, wide = d.arm_thickness / 2, d.yoke_half_width
    crest = Profile.rectangle(-d.tip_diameter, top, d.tip_diameter, 0.0, name="yoke tip")
    knob = plate(Profile.circle((0.0, -d.upper_arm), d.tip_diameter / 2, "yoke tip"), -tip, tip)
    front = Frame((pivot[0] - arm * along.x, 0.0, pivot[2] - arm * along.z), ACROSS, down.toTuple())
    pieces = [
        plate(Profile.circle((0.0, 0.0), d.eye_diameter / 2, "yoke eye"), -wide, wide),
        plate(Profile.rectangle(-half, -d.upper_arm, half, 0.0, name="yoke shank"), -tip, tip),
        one_valid_solid(knob.intersect(plate(crest, -tip - 1.0, tip + 1.0)), "yoke", "tip"),
        extrude_in(_fork(d), front, along.toTuple(), 2 * arm, part="yoke"),
    ]
    for side in (-1.0, 1.0):
        ends = sorted((side * d.fork_inside, side * d.fork_outside))
        pieces.append(plate(Profile.circle((0.0, d.lower_arm), d.yoke_thickness / 2, "yoke end"), *ends))
    solid = one_valid_solid(pieces[0].fuse(*pieces[1:]).clean(), "yoke", "fork")
    hole = plate(Profile.circle((0.0, 0.0), (d.pivot_pin + PIN_HOLE) / 2, "yoke hole"), -wide - 1.0, wide + 1.0)
    return one_valid_solid(solid.cut(hole), "yoke", "pin hole")


def bridge_drop(d: DepthAdjuster) -> float:
    """Return how far the yoke's shoulders lie below its pivot [mm]: just under the bed plate, clear of the wheel."""
    return d.post_h - d.wheel_diameter / 2 + 0.2 - d.pivot_h


def _fork(d: DepthAdjuster) -> Profile:
    """Return the fork as (y, depth below the pivot) [mm]: neck, bridge just under the bed plate, two arms."""
    neck, bridge, soft = d.yoke_half_width, bridge_drop(d), YOKE_CORNER
    inner, outer, low = d.fork_inside, d.fork_outside, d.lower_arm
    return (
        Pen.at(neck, 0.0, "yoke fork").line_to(neck, bridge).line_to(outer, bridge, corner=soft).line_to(outer, low)
        .line_to(inner, low).arc_to((0.0, low - inner), (-inner, low)).line_to(-outer, low)
        .line_to(-outer, bridge, corner=soft).line_to(-neck, bridge).line_to(-neck, 0.0).close()
    )  # fmt: skip


def lateral_adjuster(size: HardwareSize, seating: Seating, setting: Setting) -> list[Named]:
    """Return lever, its pin, roller and roller pin in the plane's frame."""
    v, at = size.lateral, slope(seating)
    a = radians(setting.lateral)
    along = cq.Vector(*at.up) * cos(a) + cq.Vector(0, sin(a), 0)
    reach = (v.roller_at - v.pivot_at) * along
    top = v.recess_depth - v.thickness  # h of the lever's upper side
    roller_foot = (cq.Vector(*at.point(v.pivot_at, top)) + reach).toTuple()
    rivet_foot = (cq.Vector(*at.point(v.pivot_at, v.recess_depth)) + reach).toTuple()
    rivet = v.thickness + v.roller_height
    return [
        ("lateral lever", _lever(v, at, along.toTuple(), top)),
        ("lateral lever pin", _headed_pin(v, at, top)),
        ("lateral roller", ring(roller_foot, at.outward, v.roller_diameter, v.pin + PIN_HOLE, v.roller_height,
                                "lateral roller")),
        ("lateral roller pin", pin(rivet_foot, at.outward, v.pin, rivet, "lateral roller pin")),
    ]  # fmt: skip


def _headed_pin(v: LateralLever, at: Slope, top: float) -> cq.Solid:
    """Return the lever's pin: flat head between lever and blade, driven into the frog."""
    head, r, end = HEAD_PLAY, v.pin / 2, v.recess_depth + v.pin_depth
    side = (
        Pen.at(0, 0, "lateral lever pin").line_to(r + HEAD / 2, 0).line_to(r + HEAD / 2, top - head)
        .line_to(r, top - head).line_to(r, end - head - 0.3).line_to(r - 0.3, end - head).line_to(0, end - head).close()
    )  # fmt: skip
    return revolve(side, at.point(v.pivot_at, head), at.inward, part="lateral lever pin")


def _lever(v: LateralLever, at: Slope, along: Vector, top: float) -> cq.Solid:
    """Return the lever: a strip with its end bent down to a finger tab."""
    n = cq.Vector(*at.outward)
    across = n.cross(cq.Vector(*along)).toTuple()
    base = at.point(v.pivot_at)
    start, tab, t = v.start - v.pivot_at, v.tab_at - v.pivot_at, v.thickness
    half, wide = v.width / 2, v.tab_width / 2
    low, far = v.tab_drop, tab + t
    # side view (along, depth): the bend keeps the strip's thickness
    bent = (
        Pen.at(start, top, "lateral lever").line_to(far, top, corner=t + TAB_BEND).line_to(far, low).line_to(tab, low)
        .line_to(tab, top + t, corner=TAB_BEND).line_to(start, top + t).close()
    )  # fmt: skip
    side = Frame((base[0] - wide * across[0], base[1] - wide * across[1], base[2] - wide * across[2]), along, at.inward)
    strip = extrude_in(bent, side, across, 2 * wide, part="lateral lever")
    flare, run, round_ = tab - FLARE[0], FLARE[1], FLARE[2]
    plan = (
        Pen.at(start + half, -half, "lateral lever").line_to(flare, -half, corner=run)
        .line_to(flare + run, -wide, corner=round_).line_to(far + 1.0, -wide).line_to(far + 1.0, wide)
        .line_to(flare + run, wide, corner=round_).line_to(flare, half, corner=run).line_to(start + half, half)
        .arc_to((start, 0.0), (start + half, -half)).close()
    )  # fmt: skip
    above = cq.Vector(*base) - cq.Vector(*at.inward)
    from_above = Frame(above.toTuple(), along, across)
    cut_out = extrude_in(plan, from_above, at.inward, low + 2.0, part="lateral lever")
    face = Profile.rectangle(-wide, 0.0, wide, low, (0.0, 0.0, TAB_CORNER, TAB_CORNER), "lateral tab")
    end_on = Frame(_along(base, along, start - 1.0), across, at.inward)
    rounded = extrude_in(face, end_on, along, far - start + 2.0, part="lateral lever")
    lever = one_valid_solid(strip.intersect(cut_out).intersect(rounded), "lateral lever", "outline")
    holes = [cylinder(_along(above.toTuple(), along, x), at.inward, d, top + t + 3.0, "lateral lever")
             for x, d in ((0.0, v.pin + PIN_HOLE), (v.roller_at - v.pivot_at, v.pin))]  # fmt: skip
    return one_valid_solid(lever.cut(*holes), "lateral lever", "holes")


def _along(p: Vector, direction: Vector, distance: float) -> Vector:
    x, y, z = direction
    return p[0] + x * distance, p[1] + y * distance, p[2] + z * distance
