"""The castings of a low-angle plane as the foundry sees them: mass, size, sections; from the models."""

from __future__ import annotations

from parts.plane.castings import cast_part
from parts.plane.low_angle.design import LowAngleDesign
from parts.plane.low_angle.models import Models
from parts.plane.pour import CastPart


def body_sections(d: LowAngleDesign) -> tuple[float, float]:
    """Return the body casting's main wall, and its thickest section: the bridge's aft end [mm]."""
    b = d.body
    return b.sole + b.cast.sole, b.bed_z(b.bridge.x1) + b.cast.sole + b.cast.pad


def cast_parts(d: LowAngleDesign, models: Models) -> list[CastPart]:
    """Return body and lever cap as castings, at casting size."""
    wall, heaviest = body_sections(d)
    cap = d.lever_cap
    return [
        cast_part("body", d.body_alloy, models.body_casting, wall, heaviest, d.body.cast.parting_z, "z"),
        cast_part("lever cap", d.cap_alloy, models.lever_cap_casting, cap.plate + cap.stud.head_height,
                  cap.end_plate, cap.underside_q, "z"),
    ]  # fmt: skip
