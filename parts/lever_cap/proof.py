"""Where the lever cap's models are asked for their stock; what is asked of them: `shared.cad.cast_proof`."""

from __future__ import annotations

from math import radians, sin

from parts.lever_cap import outline
from parts.lever_cap.size import LeverCapSize

TOLERANCE_MM3 = 0.01


def stock_points(size: LeverCapSize) -> dict[str, tuple[tuple[float, float, float], tuple[float, float, float]]]:
    """Return a point on each machined face of the cap with the direction out of the metal, blade frame [mm]."""
    f = radians(outline.FRONT)
    middle = (size.underside_q + size.nose_q) / 2 + 1.0
    seat_fore = size.screw_at - size.screw_head / 2
    return {
        "nose land": ((size.nose_at, 0.0, size.nose_q), (0.0, 0.0, -1.0)),
        "nose land, aft": ((size.land[1] - 0.1, 0.0, size.nose_q), (0.0, 0.0, -1.0)),
        "nose front": ((outline.front_at(size, middle), 0.0, middle), (-sin(f), 0.0, 0.5)),
        "head seat, fore": ((seat_fore, size.screw_head / 2, size.head_q), (0.0, 0.0, 1.0)),
        "head seat, aft": ((size.screw_at + size.screw_head / 2, 0.0, size.head_q), (0.0, 0.0, 1.0)),
        "lever slot": ((size.pivot_at, size.slot_half, size.pivot_q + 4.5), (0.0, -1.0, 0.0)),
        "stop": ((size.tail - 3.0, size.slot_half - size.nose_stock, size.stop_q), (0.0, 0.0, 1.0)),
    }


def lever_planes(size: LeverCapSize) -> dict[str, tuple[tuple[float, float, float], tuple[float, float, float]]]:
    """Return a point on each machined plane of the lever with the direction out of the metal, blade frame [mm]."""
    half = size.lever_width / 2
    return {
        "right side": ((size.pivot_at, half, size.pivot_q), (0.0, 1.0, 0.0)),
        "left side": ((size.pivot_at, -half, size.pivot_q), (0.0, -1.0, 0.0)),
        "stop face": ((size.tail - 2.0, 0.0, size.stop_q), (0.0, 0.0, -1.0)),
    }
