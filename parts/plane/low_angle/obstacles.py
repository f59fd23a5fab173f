"""What stands between the edge and the hand on a low-angle plane."""

from __future__ import annotations

from math import cos, radians, sin

from parts.blade.size import BladeSize
from parts.low_angle.size import AdjusterSize, LowCapSize
from parts.plane.placing import Obstacle


def obstacles(bed_angle: float, blade: BladeSize, cap: LowCapSize, adjuster: AdjusterSize) -> list[Obstacle]:
    """Return what stands between edge and hand, each at its worst setting of the adjusters; bed angle [deg]."""
    b = radians(bed_angle)

    def box(name: str, s0: float, s1: float, q0: float, q1: float) -> Obstacle:
        corners = ((s0, q0), (s1, q0), (s1, q1), (s0, q1))
        return Obstacle(name, [(s * cos(b) - q * sin(b), s * sin(b) + q * cos(b)) for s, q in corners])

    a, clamp = adjuster, cap.clamp
    top = cap.underside_q + cap.end_plate
    knob = clamp.knob_diameter / 2
    return [
        box("blade", 0.0, blade.length + a.travel, 0.0, blade.thickness),
        box("depth wheel", a.rim_from, a.rim_to + a.travel, -a.axis_h - a.rim_radius, -a.axis_h + a.rim_radius),
        box("lever cap", cap.nose_at, cap.tail, cap.underside_q, top),
        box("clamp screw", clamp.at - knob, clamp.at + knob, top, cap.knob_top_q),
    ]
