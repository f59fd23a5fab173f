"""Outlines of the lever cap's leaf spring and its rivet at 1:1, blade frame: section (s, q), plan (s, y) [mm]."""

from __future__ import annotations

from math import atan2, cos, degrees, radians, sin

from parts.lever_cap.size import RIVET_HEAD, LeverCapSize
from shared.profile import Pen, Point, Profile

BEND_RADIUS = 2.5  # inside radius of the bends
TURN_UP = 10.0  # deg of the free end
OVER = 4.2  # of the leaf beyond its rivet


def leaf_section(size: LeverCapSize) -> Profile:
    """Return the spring's section (s, q) as the shut lever presses it: flat on the chipbreaker, strap up to the cap."""
    t, r = size.spring_thickness, BEND_RADIUS
    low, high = size.press_q, size.strap_q
    foot = size.press_at - size.spring_half
    turn, run = _joggle(high - low, 2 * r + t)
    end = TURN_UP
    aft = size.press_at + size.spring_half
    begin = size.spring_rivet_at - OVER
    up = foot - run
    path = Pen.at(begin, high, "leaf spring").line_to(up, high).arc_about((up, high - r), -turn)
    if turn >= 45.0:
        path = path.line_by(*_leg(high - low, 2 * r + t))
    path = path.arc_about((foot, low + r + t), turn).line_to(aft, low)
    path = path.arc_about((aft, low + r + t), end)
    tail = size.spring_end - path.end[0]
    path = path.line_along(end, tail / cos(radians(end))).line_along(end + 90.0, t)
    path = path.line_along(end + 180.0, tail / cos(radians(end))).arc_about((aft, low + r + t), -end)
    path = path.line_to(foot, low + t).arc_about((foot, low + r + t), -turn)
    if turn >= 45.0:
        ds, dq = _leg(high - low, 2 * r + t)
        path = path.line_by(-ds, -dq)
    return path.arc_about((up, high - r), turn).line_to(begin, high + t).close()


def _joggle(height: float, both: float) -> tuple[float, float]:
    """Return turn [deg] and run [mm] of two bends whose radii add up to `both`; with a 45 deg leg if they need it."""
    c = 1 - height / both
    if c >= cos(radians(45.0)):
        turn = atan2((1 - c * c) ** 0.5, c)
        return degrees(turn), both * sin(turn)
    ds, _ = _leg(height, both)
    return 45.0, both * sin(radians(45.0)) + ds


def _leg(height: float, both: float) -> Point:
    """Return the 45 deg leg (ds, dq) [mm] between two bends that are too small for the height alone."""
    rest = height - both * (1 - cos(radians(45.0)))
    return rest, -rest


def leaf_plan(size: LeverCapSize) -> Profile:
    """Return the leaf's plan as it lies in the cap (s, y), corners rounded so that no finger is scratched."""
    h = size.spring_width / 2
    a, b = size.spring_rivet_at - OVER, size.spring_end
    return Profile.rectangle(a, -h, b, h, (3.0, 2.0, 2.0, 3.0), "leaf plan")


def leaf_length(size: LeverCapSize) -> float:
    """Return the length of strip the leaf is cut from, along its middle [mm]."""
    return leaf_section(size).area / size.spring_thickness


def rivet_section(diameter: float, length: float, head: float, countersink: float) -> Profile:
    """Return a spring rivet's half section (radius, height): low flat head at 0, countersunk end at `length` [mm]."""
    r = diameter / 2
    return Profile.polygon([(0.0, 0.0), (head / 2, 0.0), (head / 2, RIVET_HEAD), (r, RIVET_HEAD),
                            (r, length - (countersink - r)), (countersink, length), (0.0, length)],
                           (0.0, 0.6, 0.0, 0.0, 0.0, 0.0, 0.0), "spring rivet")  # fmt: skip
