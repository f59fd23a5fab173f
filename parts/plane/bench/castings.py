"""The castings of a bench plane as the foundry sees them: mass, size, sections; from the models."""

from __future__ import annotations

from parts.plane.bench.design import BenchDesign
from parts.plane.bench.models import Models
from parts.plane.castings import cast_part
from parts.plane.pour import CastPart


def cast_parts(d: BenchDesign, models: Models) -> list[CastPart]:
    """Return body, frog, lever cap and lever as castings, at casting size."""
    from parts.lever_cap.cap import cap_casting
    from parts.lever_cap.lever import lever_casting

    b, f, cap = d.body, d.mechanism.frog, d.mechanism.lever_cap
    body_wall = b.sole + b.cast.sole
    return [
        cast_part(
            "body",
            d.body_alloy,
            models.body_casting,
            body_wall,
            b.high_pad.z + b.cast.sole + b.cast.pad,
            b.cast.parting_z,
            "z",
        ),
        cast_part("frog", d.frog_alloy, models.frog_casting, f.bed_plate + f.stock, 2 * f.web_half, 0.0, "y"),
        cast_part("lever cap", d.cap_alloy, cap_casting(cap), cap.plate, cap.plate + 4.0, cap.underside_q, "z"),
        cast_part("cam lever", d.cap_alloy, lever_casting(cap), 6.0, 2 * cap.cam_radius, 0.0, "y"),
    ]
