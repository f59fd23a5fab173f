"""Where the lever cap's models are asked for their stock; what is asked of them: `shared.cad.cast_proof`."""

from __future__ import annotations

from math import radians, sin

from parts.low_angle import outline
from parts.low_angle.size import LowCapSize

TOLERANCE_MM3 = 0.01

Point = tuple[float, float, float]


def stock_points(size: LowCapSize) -> dict[str, tuple[Point, Point]]:
    """Return a point on each machined face of the cap with the direction out of the metal, bed frame [mm]."""
    f = radians(outline.FRONT)
    middle = (size.underside_q + size.blade_top) / 2 + 1.0
    side = size.stud.head_diameter / 2
    return {
        "nose land": ((size.nose_at, 0.0, size.blade_top), (0.0, 0.0, -1.0)),
        "nose land, aft": ((size.land[1] - 0.1, 0.0, size.blade_top), (0.0, 0.0, -1.0)),
        "nose front": ((outline.front_at(size, middle), 0.0, middle), (-sin(f), 0.0, 0.5)),
        "head seat": ((size.stud.at, side, size.head_q), (0.0, 0.0, 1.0)),
        "head seat, fore": ((size.stud.at - size.slide, size.head_pass / 2 + 0.2, size.head_q), (0.0, 0.0, 1.0)),
    }
