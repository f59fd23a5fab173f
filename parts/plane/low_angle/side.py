"""A low-angle plane seen from its right side."""

from __future__ import annotations

from parts.low_angle import outline
from parts.plane.low_angle.design import LowAngleDesign
from parts.plane.side import Shape, blade, body, box_on_bed, handles, on_bed

FINE = 0.1  # the outlines' polygons stay this near to their arcs [mm]


def shapes(d: LowAngleDesign) -> list[Shape]:
    """Return the outlines, the farthest first: what stands on the bed, the handles, the body's cheek before them.

    Raises:
        GeometryError: a body whose outline cannot be drawn.
    """
    cap, wheel = d.lever_cap, d.adjuster
    clamp, axis = cap.clamp, -wheel.axis_h
    section = [p for p in outline.cap_section(cap, 0.0).polyline(FINE) if p[0] <= cap.tail]
    half = clamp.knob_diameter / 2
    knob = [(clamp.at + r, cap.underside_q + q) for r, q in outline.knob_section(cap).polyline(FINE) if r >= 0.0]
    knob += [(2 * clamp.at - s, q) for s, q in reversed(knob)]
    foot = (clamp.at - clamp.foot_diameter / 2, clamp.at + clamp.foot_diameter / 2)
    return [
        box_on_bed(d, "depth post", "steel", (wheel.post_from, wheel.post_to),
                   (axis - wheel.thread.major / 2, axis + wheel.thread.major / 2)),
        box_on_bed(d, "depth wheel", "brass", (wheel.at, wheel.rim_from),
                   (axis - wheel.sleeve_radius, axis + wheel.sleeve_radius)),
        box_on_bed(d, "depth wheel's rim", "brass", (wheel.rim_from, wheel.rim_to),
                   (axis - wheel.rim_radius, axis + wheel.rim_radius)),
        blade(d),
        box_on_bed(d, "clamp foot", "steel", foot, (cap.blade_top, cap.blade_top + clamp.foot_thickness)),
        on_bed(d, "lever cap", "cap", section),
        on_bed(d, "clamp screw", "brass", [(s, q) for s, q in knob if abs(s - clamp.at) <= half]),
        *handles(d),
        body(d),
    ]  # fmt: skip
