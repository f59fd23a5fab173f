"""A bench plane seen from its right side."""

from __future__ import annotations

from parts.plane.bench.design import BenchDesign
from parts.plane.side import Shape, blade, body, box_on_bed, handles, on_bed


def shapes(d: BenchDesign) -> list[Shape]:
    """Return the outlines, the farthest first: what stands on the bed, the handles, the body's cheek before them.

    Raises:
        GeometryError: a body whose outline cannot be drawn.
    """
    m = d.mechanism
    breaker, cap, wheel, t = m.chipbreaker, m.lever_cap, m.depth, d.spec.blade.thickness
    axis = -t - wheel.post_h
    top = cap.underside_q + cap.plate
    ear = cap.pivot_q + cap.ear_radius
    tip = cap.nose_at - 2.0
    cover = [(tip, cap.nose_q), (cap.tail, cap.underside_q), (cap.tail, ear), (cap.pivot_at - cap.ear_radius, ear),
             (cap.nose_at + 12.0, top), (tip, cap.nose_q + 2.0)]  # fmt: skip
    lever = (cap.pivot_at, cap.pivot_at + cap.lever_length)
    return [
        Shape("frog", "metal", tuple(m.frog.outline())),
        box_on_bed(d, "depth post", "steel", (wheel.post_from, wheel.post_to), (axis - 2.0, axis + 2.0)),
        box_on_bed(
            d, "depth wheel", "brass",
            (wheel.wheel_at - wheel.wheel_front, wheel.wheel_at - wheel.wheel_front + wheel.wheel_thickness),
            (axis - wheel.wheel_diameter / 2, axis + wheel.wheel_diameter / 2),
        ),
        blade(d),
        box_on_bed(d, "chipbreaker", "steel", (breaker.setback, breaker.end), (0.0, breaker.plate_top)),
        on_bed(d, "lever cap", "cap", cover),
        box_on_bed(d, "cam lever", "cap", lever, (cap.pivot_q - 1.0, cap.pivot_q + cap.hub_radius)),
        *handles(d),
        body(d),
    ]  # fmt: skip
