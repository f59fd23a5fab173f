"""Where the small parts sit in this plane. Arithmetic only."""

from __future__ import annotations

from math import cos, radians, sin

from parts.body.size import TappedHole
from parts.hardware.seating import Axis, Seating
from parts.plane.design import Design
from shared.threads import Thread


def seating(d: Design) -> Seating:
    """Return the places of every small part in the plane's frame [mm]."""
    m, frog = d.mechanism, d.mechanism.frog
    medium, small = m.stations.threads["medium"], m.stations.threads["small"]
    toe = None
    if d.tote.toe is not None and d.body.toe_boss is not None:
        hole = d.body.toe_boss.hole
        seat = (hole.x, hole.y, d.tote.foot_plane_z + d.tote.toe.head_seat_z)
        toe = Axis(seat, (0.0, 0.0, -1.0), _engaged(hole, small))
    return Seating(
        bed_angle=frog.bed_angle,
        blade_thickness=frog.blade_thickness,
        holddown=tuple((hole.x, hole.y) for hole in d.body.holddown),
        holddown_seat_z=frog.high_z + frog.floor,
        holddown_pad_z=frog.high_z,
        cap_screw_at=frog.cap_screw_at,
        cap_head_q=m.lever_cap.head_q,
        chipbreaker_screw_at=m.chipbreaker.screw_at,
        tote_rod=_rod_axis(d.body.tote_boss.hole, medium),
        knob_rod=_rod_axis(d.body.knob_boss.hole, medium),
        toe_screw=toe,
    )


def _engaged(hole: TappedHole, thread: Thread) -> float:
    """Return the length screwed in [mm]: 1.25 diameters, or what the hole leaves less one pitch."""
    return min(1.25 * thread.major, hole.depth - thread.pitch)


def _rod_axis(hole: TappedHole, thread: Thread) -> Axis:
    lean, engaged = radians(hole.lean), _engaged(hole, thread)
    up = (-sin(lean), 0.0, cos(lean))
    foot = (hole.x - engaged * up[0], hole.y, hole.z_top - engaged * up[2])
    return Axis(foot, up, engaged)
