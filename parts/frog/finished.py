"""The frog as machined: the casting less what each cutter takes."""

from __future__ import annotations

import cadquery as cq

from parts.frog.outline import SPOT_DIAMETER
from parts.frog.size import FrogSize
from shared.cad.slope import Slope, cylinder, drilled
from shared.cad.solids import cut_away, extrude
from shared.profile import Pen, Profile

PART = "frog"
OUT = 40.0  # how far a cutter reaches beyond the metal
SLOT_CORNER = 1.5  # corners of the yoke's slot: a 3 mm cutter
RECESS_CORNER = 3.0


def slope(size: FrogSize) -> Slope:
    """Return the bed as a place to draw on."""
    return Slope(size.bed_angle, size.blade_thickness)


def finished(size: FrogSize, casting: cq.Solid) -> cq.Solid:
    """Return the finished frog in the plane's frame.

    Args:
        size: the frog.
        casting: what `parts.frog.casting.casting` gave for the same size.

    Raises:
        GeometryError: the cuts do not leave one valid solid.
    """
    # the seats first, as in the shop; the rest in one cut, which costs the kernel half of six
    steps = [
        ("foot", _foot(size)),
        ("bed", _bed(size)),
        ("holes and openings", [*_holddown(size), *_depth(size), _cap_screw(size), *_lateral(size)]),
    ]
    solid = casting
    for name, cutters in steps:
        solid = cut_away(solid, cutters, PART, name)
    return solid


def _bed(size: FrogSize) -> list[cq.Solid]:
    at, side = slope(size), size.half_width + 5.0
    plane = Profile.rectangle(-OUT, -OUT, size.bed_top + OUT, 0.0, name="bed cut")
    relief = Profile.rectangle(size.relief[0], -1.0, size.relief[1], size.relief_depth, name="bed relief")
    return [at.push_across(plane, -side, side), at.push_across(relief, -side, side)]


def _foot(size: FrogSize) -> list[cq.Solid]:
    side, low = size.half_width + 5.0, size.low_z - OUT
    step = (
        Pen.at(-OUT, low).line_to(size.aft + OUT, low).line_to(size.aft + OUT, size.high_z)
        .line_to(size.high_from, size.high_z).line_to(size.high_from, size.low_z).line_to(-OUT, size.low_z).close()
    )  # fmt: skip
    k, x = size.key_half, size.high_from
    # the way's cutter runs in from the aft end and leaves its own round end in the low foot
    way = Pen.at(size.aft + OUT, -k).line_to(size.aft + OUT, k).line_to(x, k).arc_to((x - k, 0), (x, -k)).close()
    return [
        extrude(step.named("foot"), "y", -side, side),
        extrude(way.named("way"), "z", low, size.high_z + size.key_depth),
    ]


def access_outline(size: FrogSize, y: float) -> Profile:
    """Return the plan (x, y) [mm] of the opening over the hold-down screw at a width y [mm]."""
    length, width = size.access
    reach, x = (length - width) / 2, size.holddown_at
    return Profile.slot((x - reach, y), (x + reach, y), width, "screw opening")


def _holddown(size: FrogSize) -> list[cq.Solid]:
    length, width = size.holddown_slot
    reach, x = (length - width) / 2, size.holddown_at
    seat = size.high_z + size.floor
    cutters = []
    for y in (size.holddown_y, -size.holddown_y):
        slot = Profile.slot((x - reach, y), (x + reach, y), width, "hold-down slot")
        cutters.append(extrude(slot, "z", size.high_z - 1.0, seat + 1.0))
        cutters.append(extrude(access_outline(size, y), "z", seat, size.bed_point(size.bed_top)[1] + OUT))
    return cutters


def _depth(size: FrogSize) -> list[cq.Solid]:
    at = slope(size)
    s0, s1, half = size.yoke_slot
    back = (-at.up[0], 0.0, -at.up[2])
    mouth = at.point(size.rear_at, size.post_h)
    slot = Profile.rectangle(s0, -half, s1, half, SLOT_CORNER, "yoke slot")
    pin = at.point(size.yoke_at, size.yoke_pivot_h, -size.yoke_pin_to)
    return [
        cylinder(mouth, at.up, SPOT_DIAMETER, size.stock + 8.0),
        drilled(mouth, back, size.post_tap_drill, size.post_tap_depth),
        at.push_down(slot, -1.0, size.bed_plate + 4.0),
        cylinder(pin, (0.0, 1.0, 0.0), size.yoke_pin, size.yoke_pin_to + size.half_width + 5.0),
    ]


def _cap_screw(size: FrogSize) -> cq.Solid:
    at = slope(size)
    return drilled(at.point(size.cap_screw_at), at.inward, size.cap_screw_tap_drill, size.cap_screw_depth)


def _lateral(size: FrogSize) -> list[cq.Solid]:
    at = slope(size)
    s0, half, depth = size.lateral_recess
    r, out = RECESS_CORNER, size.bed_top + OUT
    recess = Profile.rectangle(s0, -half, out, half, (r, 0.0, 0.0, r), "lateral recess")
    return [
        at.push_down(recess, -1.0, depth),
        cylinder(at.point(size.lateral_at), at.inward, size.lateral_pin, size.bed_plate + 4.0),
    ]
