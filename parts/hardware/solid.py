"""Every bought or turned small part as a solid, seated in the plane's frame. Threads: see parts.hardware.turned."""

from __future__ import annotations

import cadquery as cq

from parts.hardware.adjusters import depth_adjuster, lateral_adjuster, slope
from parts.hardware.seating import NOMINAL, Seating, Setting, blade_turn
from parts.hardware.size import HardwareSize
from parts.hardware.turned import rod, rod_nut, screw, washer

Named = tuple[str, cq.Solid]
DOWN = (0.0, 0.0, -1.0)


def hardware_solids(size: HardwareSize, seating: Seating, setting: Setting = NOMINAL) -> list[Named]:
    """Return (name, solid) of every small part; no two names are the same.

    Args:
        size: the small parts.
        seating: where they sit.
        setting: how the adjusters stand.

    Raises:
        GeometryError: the kernel gave no valid solid.
        RequestError: a setting out of reach.
    """
    return [
        *_holddown(size, seating),
        *_blade_screws(size, seating, setting),
        *depth_adjuster(size, seating, setting),
        *lateral_adjuster(size, seating, setting),
        *_handle_parts(size, seating),
    ]


def moved_with_blade(solid: cq.Solid, size: HardwareSize, seating: Seating, setting: Setting) -> cq.Solid:
    """Return blade, chipbreaker or what is fixed to them as the adjusters leave it.

    The blade turns about the lever-cap screw, square to the bed, and slides up the bed.
    """
    at = slope(seating)
    pivot = at.point(seating.cap_screw_at)
    end = (cq.Vector(*pivot) + cq.Vector(*at.outward)).toTuple()
    turned = solid.rotate(pivot, end, blade_turn(size, seating, setting))
    return turned.translate(cq.Vector(*at.up) * setting.blade_travel)


def _holddown(size: HardwareSize, seating: Seating) -> list[Named]:
    part, z = size.holddown, seating.holddown_seat_z
    under_head = z + part.washer_thickness
    engaged = part.length - (under_head - seating.holddown_pad_z)
    out: list[Named] = []
    for x, y in seating.holddown:
        side = "right" if y > 0 else "left"
        out.append((f"{part.name} {side}", screw(part, (x, y, under_head), DOWN, engaged)))
        out.append((f"{part.name} washer {side}", washer(part, (x, y, z))))
    return out


def _blade_screws(size: HardwareSize, seating: Seating, setting: Setting) -> list[Named]:
    at, steel = slope(seating), seating.blade_thickness
    cap, breaker = size.cap_screw, size.chipbreaker_screw
    # the lever-cap screw is in the frog from the bed down; the chipbreaker's screw in the chipbreaker from the face up
    cap_seat = at.point(seating.cap_screw_at, -(steel + seating.cap_head_q))
    cap_engaged = cap.length - steel - seating.cap_head_q
    head = at.point(seating.chipbreaker_screw_at, 0.0)
    held = screw(breaker, head, at.outward, breaker.length - steel)
    return [
        (cap.name, screw(cap, cap_seat, at.inward, cap_engaged)),
        (breaker.name, moved_with_blade(held, size, seating, setting)),
    ]


def _handle_parts(size: HardwareSize, seating: Seating) -> list[Named]:
    out: list[Named] = []
    for part, axis in ((size.tote_rod, seating.tote_rod), (size.knob_rod, seating.knob_rod)):
        out += [(part.name, rod(part, axis)), (f"{part.name} nut", rod_nut(part, axis))]
    if size.toe_screw is not None and seating.toe_screw is not None:
        toe = seating.toe_screw
        out.append((size.toe_screw.name, screw(size.toe_screw, toe.foot, toe.direction, toe.engaged)))
    return out
