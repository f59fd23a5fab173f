"""The chipbreaker's outlines at 1:1, lines and true arcs: section (s, q) and plan (s, y) in the blade frame [mm]."""

from __future__ import annotations

from math import acos, atan2, cos, degrees, hypot, radians, sin, tan

from parts.chipbreaker.size import ChipbreakerSize
from shared.profile import Pen, Point, Profile

BEVEL_HEIGHT = 1.2  # least height of the leading bevel (proportion of this works, common practice, no source)
BEVEL_BLEND = 1.2  # radius between the bevel and the hump
HUMP_RUN = 16.0  # from the hump's highest line aft to the flat plate
FALL_RUN = 9.0  # from the flat plate to where it lies on the blade again
RELIEF_SHARE = 0.5  # of the run from edge to hump: straight relief under the edge; the rest is an arc
ARRIS = 0.3
WINDOW_RADIUS = 1.0
_SMOOTH = 0.5  # deg: a corner flatter than this needs no rounding


def relief_angle(size: ChipbreakerSize) -> float:
    """Return the angle between the underside just behind the leading edge and the blade's face [deg].

    A straight relief of half the run to the hump and an arc that ends flat at the gap: with run X and gap g,
    g = X/2·tan(a) + X/2·tan(a/2), solved by halving the interval.
    """
    run, low, high = size.hump_at - size.setback, 0.0, radians(60.0)
    for _ in range(80):
        a = (low + high) / 2
        rise = run * (RELIEF_SHARE * tan(a) + (1 - RELIEF_SHARE) * tan(a / 2))
        low, high = (a, high) if rise < size.gap else (low, a)
    return degrees((low + high) / 2)


def bevel_top(size: ChipbreakerSize) -> Point:
    """Return (s, q) of the upper end of the leading bevel [mm].

    Where the bevel can run on smoothly into the arc that ends flat on the hump, it is made that long; else it is
    `BEVEL_HEIGHT` high and the corner is rounded.
    """
    e = radians(size.edge_angle)
    run, rise = size.hump_at - size.setback, size.hump_top
    radius = (run - rise / tan(e)) / tan(e / 2)
    smooth = rise - radius * (1 - cos(e))
    height = smooth if radius > 1.0 and BEVEL_HEIGHT < smooth < rise else min(BEVEL_HEIGHT, 0.5 * rise)
    return size.setback + height / tan(e), height


def hump_slope(size: ChipbreakerSize) -> float:
    """Return the slope of the hump's arc where it leaves the bevel [deg]."""
    s, q = bevel_top(size)
    return degrees(2 * atan2(size.hump_top - q, size.hump_at - s))


def section(size: ChipbreakerSize) -> Profile:
    """Return the section along the blade (s, q): set on the blade's face, which is q = 0.

    It touches the face at the leading edge (a line) and from `seat_from` to `end`. Plate and fall to the seat have
    the plate's thickness all through, so that the blank can be bent and the hump milled.
    """
    t, gap, run = size.thickness, size.gap, size.hump_at - size.setback
    relief = radians(relief_angle(size))
    straight = RELIEF_SHARE * run
    # two bends of one inside radius r, through the same angle: (2 r + t) (1 - cos) = gap, (2 r + t) sin = FALL_RUN
    both = (FALL_RUN**2 + gap**2) / (2 * gap)
    turn = degrees(acos(1 - gap / both))
    inside = (both - t) / 2
    fall = size.seat_from - FALL_RUN
    foot = bevel_top(size)
    corner = 0.0 if abs(size.edge_angle - hump_slope(size)) < _SMOOTH else BEVEL_BLEND
    crest = (size.hump_at, size.hump_top)
    rise = size.hump_rise
    hump = (HUMP_RUN**2 + rise**2) / (4 * rise)  # two equal arcs down to the plate
    half = degrees(2 * atan2(rise / 2, HUMP_RUN / 2))
    path = Pen.at(size.setback, 0.0, "chipbreaker section")
    path = path.line_to(size.setback + straight * 1.0, straight * tan(relief)).tangent_arc_to(size.hump_at, gap)
    path = path.line_to(fall, gap).arc_about((fall, gap - inside), -turn)
    path = path.arc_about((size.seat_from, inside + t), turn)
    path = path.line_to(size.end, 0.0).line_to(size.end, t).line_to(size.seat_from, t)
    path = path.arc_about((size.seat_from, inside + t), -turn).arc_about((fall, gap - inside), turn)
    path = path.line_to(size.hump_at + HUMP_RUN, size.plate_top)
    path = path.arc_about((size.hump_at + HUMP_RUN, size.plate_top + hump), -half)
    path = path.arc_about((size.hump_at, size.hump_top - hump), half)
    flat = hypot(crest[0] - foot[0], crest[1] - foot[1]) ** 2 / (2 * (crest[1] - foot[1]))  # radius of the front arc
    path = path.arc_about((crest[0], crest[1] - flat), hump_slope(size), corner=corner)
    return path.close()


def plan(size: ChipbreakerSize) -> Profile:
    """Return the plan (s, y): straight leading edge, the two upper corners eased [mm]."""
    w, r = size.width / 2, size.corner_radius
    return Profile.rectangle(size.setback, -w, size.end, w, (0.0, r, r, 0.0), "chipbreaker plan")


def openings(size: ChipbreakerSize) -> dict[str, Profile]:
    """Return the openings in plan (s, y) [mm]: tapped hole at its tap drill, lever-cap screw, yoke window."""
    length, width = size.cap_screw_opening
    half = (length - width) / 2
    window_long, window_wide = size.yoke_window
    a = size.cap_screw_at
    return {
        "screw": Profile.circle((size.screw_at, 0.0), size.screw_tap_drill / 2, "screw hole"),
        "cap_screw": Profile.slot((a - half, 0.0), (a + half, 0.0), width, "lever-cap screw opening"),
        "yoke": Profile.rectangle(size.yoke_at - window_long / 2, -window_wide / 2, size.yoke_at + window_long / 2,
                                  window_wide / 2, WINDOW_RADIUS, "yoke window"),
    }  # fmt: skip


def top_at(size: ChipbreakerSize, s: float) -> float:
    """Return q of the top at a place s along the blade [mm]."""
    return max(section(size).crossings(0, s))


def underside_at(size: ChipbreakerSize, s: float) -> float:
    """Return q of the underside at a place s along the blade [mm]."""
    return min(section(size).crossings(0, s))


def front_radius(size: ChipbreakerSize) -> float:
    """Return the radius of the hump's arc ahead of its highest line [mm]."""
    s, q = bevel_top(size)
    rise = size.hump_top - q
    return ((size.hump_at - s) ** 2 + rise**2) / (2 * rise)


def relief_radius(size: ChipbreakerSize) -> float:
    """Return the radius of the arc that leads the relief into the gap [mm]."""
    return (1 - RELIEF_SHARE) * (size.hump_at - size.setback) / sin(radians(relief_angle(size)))
