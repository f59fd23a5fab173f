"""Turned shapes of one axis: plain-drawn threads, slotted screws, pins, rings.

Threads are drawn plain. An outside thread has its major diameter, except where it sits in a tapped hole of another
part, which is drawn with its tap drill: there it has the tap drill's diameter, so that the two touch and do not
share metal. Nuts and wheels that run on a thread are bored to the major diameter and RUNNING more.
"""

from __future__ import annotations

import cadquery as cq

from shared.cad.solids import Vector, one_valid_solid, revolve
from shared.profile import Pen, Profile
from shared.threads import Thread

RUNNING = 0.1
TIP = 0.6  # chamfer of a thread's end
SLOT = 0.12  # width of a driver's slot over the head's diameter
SLOT_DEEP = 0.4  # depth of a screw's slot over its head's height


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


def headed_screw(
    name: str,
    thread: Thread,
    length: float,
    head: tuple[float, float],
    seat: Vector,
    direction: Vector,
    engaged: float,
) -> cq.Solid:
    """Return a slotted screw.

    Args:
        name: what it is called when it cannot be built.
        thread: its thread.
        length: from the head's underside to the point [mm].
        head: diameter and height of the head [mm].
        seat: centre of the head's underside [mm].
        direction: unit direction from the head to the point.
        engaged: length from the point that sits in a tapped hole [mm].
    """
    diameter, high = head
    up = opposite(direction)
    point = along(seat, direction, length)
    shank = revolve(shank_outline(thread, length + 0.5, engaged), point, up, part=name)
    r = diameter / 2
    soft = min(1.0, 0.3 * high)
    top = Pen.at(0, 0, "head").line_to(r, 0).line_to(r, high, corner=soft).line_to(0, high).close()
    turned = one_valid_solid(shank.fuse(revolve(top, seat, up, part=name)).clean(), name, "head")
    return slotted(turned, along(seat, up, high), up, diameter, SLOT_DEEP * high, name)


def pin(foot: Vector, direction: Vector, diameter: float, length: float, name: str) -> cq.Solid:
    """Return a plain pin with both ends eased: centre of one end [mm], unit direction, diameter and length [mm]."""
    r, ease = diameter / 2, 0.3
    side = Pen.at(0, 0, name).line_to(r - ease, 0).line_to(r, ease).line_to(r, length - ease)
    return revolve(side.line_to(r - ease, length).line_to(0, length).close(), foot, direction, part=name)


def ring(foot: Vector, direction: Vector, outer: float, bore: float, length: float, name: str) -> cq.Solid:
    """Return a plain ring: centre of one end [mm], unit direction, diameters and length [mm]."""
    side = Profile.rectangle(bore / 2, 0.0, outer / 2, length, 0.3, name)
    return revolve(side, foot, direction, part=name)


def slotted(solid: cq.Solid, top: Vector, up: Vector, diameter: float, depth: float, name: str) -> cq.Solid:
    """Return a solid with a driver's slot cut across a top face.

    Args:
        solid: what is cut.
        top: centre of the face [mm].
        up: unit direction out of it.
        diameter: of the face [mm].
        depth: of the slot [mm].
        name: what it is called when it cannot be built.
    """
    plane = cq.Plane(origin=top, xDir=square_to(up), normal=up)
    driver = cq.Workplane(plane).workplane(offset=-depth).rect(diameter + 2.0, SLOT * diameter)
    return one_valid_solid(solid.cut(one_valid_solid(driver.extrude(depth + 1.0), name, "driver")), name, "slot")


def square_to(v: Vector) -> Vector:
    """Return a unit direction that is not along `v`: y, or x where `v` runs along y."""
    return (0.0, 1.0, 0.0) if abs(v[1]) < 0.9 else (1.0, 0.0, 0.0)


def along(p: Vector, direction: Vector, distance: float) -> Vector:
    """Return the point that lies a distance [mm] from `p` in a unit direction."""
    x, y, z = direction
    return p[0] + x * distance, p[1] + y * distance, p[2] + z * distance


def opposite(v: Vector) -> Vector:
    """Return the direction turned about."""
    return -v[0], -v[1], -v[2]
