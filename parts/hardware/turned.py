"""Turned parts of one axis: headed screws, rods and their nuts, washers. Threads: see shared.cad.turned."""

from __future__ import annotations

from math import acos, degrees, radians, tan

import cadquery as cq

from parts.hardware.seating import Axis, Vector
from parts.hardware.size import ROD_IN_NUT, Rod, Screw
from shared.cad.solids import one_valid_solid, revolve
from shared.cad.turned import RUNNING, TIP, along, headed_screw, shank_outline, slotted
from shared.profile import Pen, Profile

WASHER_HOLE = 0.3
NUT_ROUND = 1.5  # on the top edge of a rod's nut


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
    head = (part.head_diameter, part.head_height)
    return headed_screw(part.name, part.thread, part.length, head, seat, direction, engaged)


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
    tip = revolve(end, along(axis.foot, axis.direction, part.length - TIP), axis.direction, part=part.name)
    return one_valid_solid(body.fuse(tip).clean(), part.name, "end")


def rod_nut(part: Rod, axis: Axis) -> cq.Solid:
    """Return the round nut at a rod's top, blind-bored and slotted, its top edge eased for the hand."""
    r, high = part.nut_diameter / 2, part.nut_height
    bore = part.thread.major / 2 + RUNNING / 2
    deep = part.nut_thread
    side = (
        Pen.at(bore, 0, "nut").line_to(r, 0).line_to(r, high, corner=NUT_ROUND).line_to(0, high).line_to(0, deep)
        .line_to(bore, deep).close()
    )  # fmt: skip
    seat = along(axis.foot, axis.direction, part.length - ROD_IN_NUT * high)
    nut = revolve(side, seat, axis.direction, part=f"{part.name} nut")
    top = along(seat, axis.direction, high)
    return slotted(nut, top, axis.direction, part.nut_diameter, part.nut_slot, f"{part.name} nut")
