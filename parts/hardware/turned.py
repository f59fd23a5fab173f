"""Turned parts of one axis: headed screws, rods and their nuts, washers.

Threads are drawn plain. An outside thread has its major diameter, except where it sits in a tapped hole of another
part, which is drawn with its tap drill: there it has the tap drill's diameter, so that the two touch and do not
share metal. Nuts and the depth wheel, which run on a thread, are bored to the major diameter and RUNNING more.
"""

from __future__ import annotations

from math import acos, degrees, radians, tan

import cadquery as cq

from parts.hardware.seating import Axis, Vector
from parts.hardware.size import ROD_IN_NUT, Rod, Screw
from shared.cad.solids import one_valid_solid, revolve
from shared.profile import Pen, Profile
from shared.threads import Thread

RUNNING = 0.1
TIP = 0.6  # chamfer of a thread's end
SLOT = 0.12  # width of a driver's slot over the head's diameter
WASHER_HOLE = 0.3


def shank_outline(thread: Thread, length: float, engaged: float) -> Profile:
    """Return half the section (radius, height) [mm] of a plain-drawn thread: its engaged end at height 0."""
    core, major = thread.tap_drill / 2, thread.major / 2
    end = min(TIP, core / 3)
    pen = Pen.at(0, 0, "thread").line_to(core - end, 0).line_to(core, end)
    if engaged < length:
        pen = pen.line_to(core, engaged).line_to(major, engaged).line_to(major, length)
    else:
        pen = pen.line_to(core, length)
    return pen.line_to(0, length).close()


def lean_margin(direction: Vector, diameter: float) -> float:
    """Return how much longer [mm] the engaged part of a leaning thread is on its low side than on its axis."""
    lean = degrees(acos(min(1.0, abs(direction[2]))))
    return diameter / 2 * tan(radians(lean)) + (0.2 if lean > 1e-6 else 0.0)


def screw(part: Screw, seat: Vector, direction: Vector, engaged: float) -> cq.Solid:
    """Return a slotted screw.

    Args:
        part: its sizes.
        seat: centre of the head's underside [mm].
        direction: unit direction from the head to the point.
        engaged: length from the point that sits in a tapped hole [mm].
    """
    up = _opposite(direction)
    point = _along(seat, direction, part.length)
    shank = revolve(shank_outline(part.thread, part.length + 0.5, engaged), point, up, part=part.name)
    r, high = part.head_diameter / 2, part.head_height
    soft = min(1.0, 0.3 * high)
    head = Pen.at(0, 0, "head").line_to(r, 0).line_to(r, high, corner=soft).line_to(0, high).close()
    turned = one_valid_solid(shank.fuse(revolve(head, seat, up, part=part.name)).clean(), part.name, "head")
    return _slotted(turned, _along(seat, up, high), up, part.head_diameter, 0.4 * high, part.name)


def washer(part: Screw, seat: Vector) -> cq.Solid:
    """Return the washer of a screw, lying on its seat [mm]."""
    inner, outer = part.thread.major / 2 + WASHER_HOLE, part.washer_diameter / 2
    ring = Profile.rectangle(inner, 0.0, outer, part.washer_thickness, name="washer")
    return revolve(ring, seat, part=f"{part.name} washer")


def rod(part: Rod, axis: Axis) -> cq.Solid:
    """Return a handle's rod from its lower end up; its engaged end is drawn longer by its lean."""
    engaged = axis.engaged + lean_margin(axis.direction, part.thread.major)
    lower = shank_outline(part.thread, part.length - TIP, engaged)
    body = revolve(lower, axis.foot, axis.direction, part=part.name)
    r = part.thread.major / 2
    end = Pen.at(0, 0, "rod end").line_to(r, 0).line_to(r - TIP, TIP).line_to(0, TIP).close()
    tip = revolve(end, _along(axis.foot, axis.direction, part.length - TIP), axis.direction, part=part.name)
    return one_valid_solid(body.fuse(tip).clean(), part.name, "end")


def rod_nut(part: Rod, axis: Axis) -> cq.Solid:
    """Return the round nut at a rod's top, blind-bored and slotted, its top edge eased for the hand."""
    r, high = part.nut_diameter / 2, part.nut_height
    bore = part.thread.major / 2 + RUNNING / 2
    deep = ROD_IN_NUT * high + 0.4
    side = (
        Pen.at(bore, 0, "nut").line_to(r, 0).line_to(r, high, corner=1.5).line_to(0, high).line_to(0, deep)
        .line_to(bore, deep).close()
    )  # fmt: skip
    seat = _along(axis.foot, axis.direction, part.length - ROD_IN_NUT * high)
    nut = revolve(side, seat, axis.direction, part=f"{part.name} nut")
    top = _along(seat, axis.direction, high)
    return _slotted(nut, top, axis.direction, part.nut_diameter, 0.18 * high, f"{part.name} nut")


def pin(foot: Vector, direction: Vector, diameter: float, length: float, name: str) -> cq.Solid:
    """Return a plain pin with both ends eased: centre of one end [mm], unit direction, diameter and length [mm]."""
    r, ease = diameter / 2, 0.3
    side = Pen.at(0, 0, name).line_to(r - ease, 0).line_to(r, ease).line_to(r, length - ease)
    return revolve(side.line_to(r - ease, length).line_to(0, length).close(), foot, direction, part=name)


def ring(foot: Vector, direction: Vector, outer: float, bore: float, length: float, name: str) -> cq.Solid:
    """Return a plain ring: centre of one end [mm], unit direction, diameters and length [mm]."""
    side = Profile.rectangle(bore / 2, 0.0, outer / 2, length, 0.3, name)
    return revolve(side, foot, direction, part=name)


def _slotted(solid: cq.Solid, top: Vector, up: Vector, diameter: float, depth: float, name: str) -> cq.Solid:
    """Cut a driver's slot across a top face."""
    plane = cq.Plane(origin=top, xDir=_square_to(up), normal=up)
    driver = cq.Workplane(plane).workplane(offset=-depth).rect(diameter + 2.0, SLOT * diameter)
    return one_valid_solid(solid.cut(one_valid_solid(driver.extrude(depth + 1.0), name, "driver")), name, "slot")


def _square_to(v: Vector) -> Vector:
    return (0.0, 1.0, 0.0) if abs(v[1]) < 0.9 else (1.0, 0.0, 0.0)


def _along(p: Vector, direction: Vector, distance: float) -> Vector:
    x, y, z = direction
    return p[0] + x * distance, p[1] + y * distance, p[2] + z * distance


def _opposite(v: Vector) -> Vector:
    return -v[0], -v[1], -v[2]
