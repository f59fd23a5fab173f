"""Draft: the taper that lets a pattern leave the sand."""

from __future__ import annotations

import math

from shared.errors import Fault, InputError
from shared.interpolate import interpolate
from shared.tables import table


def draft_offset(height_mm: float, angle_deg: float) -> float:
    """Return how far a drafted wall leans out over its height [mm]: h·tan(angle).

    Args:
        height_mm: height of the wall along the draw [mm].
        angle_deg: draft angle [deg].
    """
    return height_mm * math.tan(math.radians(angle_deg))


def draft_angle(height_mm: float, offset_mm: float) -> float:
    """Return the draft angle [deg] of a lean [mm] over a height [mm]."""
    return math.degrees(math.atan2(offset_mm, height_mm))


def suggested_draft(height_mm: float, inside: bool) -> float:
    """Return the draft angle of a metal or plastic pattern [deg] for a surface of this height [mm].

    Args:
        height_mm: height of the surface along the draw [mm], up to 300.
        inside: whether sand stands inside (pockets need more).

    Raises:
        InputError: higher than the table.

    Source: P. N. Rao, Manufacturing Technology vol. 1 (memory).
    """
    for row in table("foundry")["draft_metal_pattern"]["rows"]:
        if 0.0 < height_mm <= row["upto"]:
            return float(row["internal" if inside else "external"])
    raise InputError(Fault("draft table", "height", f"{height_mm:g} mm", "more than 0 and up to 300 mm"))


def jobbing_draft(draw_mm: float) -> float:
    """Return the draft per side [mm] that a jobbing non-ferrous foundry asks for a length of draw [mm].

    Between the table's rows the value goes by the square root of the draw (the page's own rule).

    Raises:
        InputError: longer than the table's 10 in.

    Source: stpaulfoundry.com design guide (seen).
    """
    rows = table("foundry")["draft_jobbing"]
    draw_in = draw_mm / 25.4
    if not 0.0 < draw_in <= rows["draw"][-1]:
        allowed = f"more than 0, to {rows['draw'][-1] * 25.4:g} mm"
        raise InputError(Fault("draft table", "draw", f"{draw_mm:g} mm", allowed))
    roots = [math.sqrt(d) for d in rows["draw"]]
    return interpolate(math.sqrt(draw_in), roots, rows["draft"]) * 25.4
