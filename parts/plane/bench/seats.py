"""Where the small parts sit, from the resolved design."""

from __future__ import annotations

from math import cos, radians, sin

from parts.body import layout as body_rules
from parts.chipbreaker.size import THREAD_BREAK
from parts.hardware.seating import Axis, Seating
from parts.hardware.size import ROD_IN_NUT
from parts.plane.bench.design import BenchDesign
from parts.plane.totes import NUT_HEIGHT, toe_boss_rise


def seating(d: BenchDesign) -> Seating:
    """Return the places of every bought or turned part in the plane's frame."""
    m, tote, knob, h = d.mechanism, d.tote, d.knob, d.hardware
    sole = d.body.sole
    lean = radians(tote.lean_deg)
    up = (-sin(lean), 0.0, cos(lean))

    def along(distance: float) -> tuple[float, float, float]:
        return d.tote_at.x + distance * up[0], 0.0, sole + distance * up[2]

    tote_top = tote.rod_height - tote.nut_counterbore_depth + ROD_IN_NUT * NUT_HEIGHT
    tote_foot = tote_top - h.tote_rod.length
    boss = body_rules.TOTE_BOSS_RISE / cos(lean)
    knob_foot = knob.height - knob.nut_counterbore_depth + ROD_IN_NUT * NUT_HEIGHT - h.knob_rod.length
    toe = None
    if tote.toe is not None and h.toe_screw is not None:
        seat = sole + tote.toe.head_seat_z
        boss_top = sole + toe_boss_rise(d.spec.handle)
        toe = Axis((d.tote_at.x + tote.toe.x, 0.0, seat), (0.0, 0.0, -1.0), h.toe_screw.length - (seat - boss_top))
    return Seating(
        bed_angle=d.spec.bed.angle,
        blade_thickness=d.spec.blade.thickness,
        holddown=tuple((hole.x, hole.y) for hole in d.body.holddown),
        holddown_seat_z=m.frog.high_z + m.frog.floor,
        holddown_pad_z=m.frog.high_z,
        cap_screw_at=m.stations.cap_screw_at,
        cap_head_q=m.lever_cap.head_q,
        chipbreaker_screw_at=m.stations.screw_at,
        chipbreaker_mouth=THREAD_BREAK,
        tote_rod=Axis(along(tote_foot), up, boss - tote_foot),
        knob_rod=Axis((d.knob_x, 0.0, sole + knob_foot), (0.0, 0.0, 1.0), body_rules.BOSS_RISE - knob_foot),
        toe_screw=toe,
    )
