"""How the blade lies on its bed: where bed and bevel end, what is unsupported, what the adjusters do.

Frame: x aft from the nominal edge, z up from the sole. Bevel down, the blade's flat runs from the edge at the bed
angle and the bed lies one thickness below it; bevel up, the flat itself lies on the bed, which runs through the edge.
"""

from __future__ import annotations

import math

from parts.blade.angles import Orientation
from parts.blade.bevel import MICRO_WIDTH_MM, bevel_shape
from shared.tables import table

#: Width of a back bevel along itself when a spec does not say [mm]; common practice, no source.
BACK_BEVEL_WIDTH_MM = 0.3


def steel_under_edge(
    orientation: Orientation, t: float, back_bevel: float = 0.0, back_bevel_width: float = BACK_BEVEL_WIDTH_MM
) -> float:
    """Return how far the bed plane lies below the edge, square to the bed [mm].

    The blade's thickness (bevel down) or nothing (bevel up); a back bevel moves the edge into the thickness.

    Args:
        orientation: "bevel-down" or "bevel-up".
        t: blade thickness [mm].
        back_bevel: back bevel [deg].
        back_bevel_width: width of the back bevel along itself [mm].
    """
    steel = honed_steel(t, back_bevel, back_bevel_width)
    return steel if orientation == "bevel-down" else t - steel


def honed_steel(t: float, back_bevel: float = 0.0, back_bevel_width: float = BACK_BEVEL_WIDTH_MM) -> float:
    """Return the steel from the edge to the heel's side, square to the flat [mm]: the thickness less the back bevel.

    Args:
        t: blade thickness [mm].
        back_bevel: back bevel [deg].
        back_bevel_width: width of the back bevel along itself [mm].
    """
    return t - back_bevel_width * math.sin(math.radians(back_bevel))


def bed_foot(t: float, bed: float) -> float:
    """Return where the bed plane meets the sole plane, aft of the edge [mm]: t/sin(b).

    Args:
        t: steel between edge and bed, square to the bed [mm]; see `steel_under_edge`.
        bed: bed angle [deg].
    """
    return t / math.sin(math.radians(bed))


def bed_height(t: float, bed: float, x: float) -> float:
    """Return the height of the bed plane above the sole [mm] at x aft of the edge [mm]; t [mm], bed [deg]."""
    return (x - bed_foot(t, bed)) * math.tan(math.radians(bed))


def bevel_heel(
    t: float,
    bed: float,
    ground_bevel: float,
    micro_bevel: float | None = None,
    micro_width: float = MICRO_WIDTH_MM,
    orientation: Orientation = "bevel-down",
) -> tuple[float, float]:
    """Return (x, z) of the heel of the ground bevel [mm].

    Without a micro-bevel, bevel down, this is x = t*cos(b)/tan(v) + t*sin(b), z = t*sin(b - v)/sin(v). With one, the
    ground bevel begins where the micro-bevel ends, so the heel lies a little nearer the edge.

    Args:
        t: blade thickness behind the edge, square to the flat [mm].
        bed: bed angle [deg].
        ground_bevel: ground bevel [deg].
        micro_bevel: micro-bevel [deg], or None.
        micro_width: width of the micro-bevel along itself [mm].
        orientation: "bevel-down" or "bevel-up".

    Raises:
        InputError: the micro-bevel is below the ground bevel or takes up the whole thickness.
    """
    b = math.radians(bed)
    along = bevel_shape(t, ground_bevel, micro_bevel, micro_width).heel_from_edge
    side = 1.0 if orientation == "bevel-down" else -1.0
    return along * math.cos(b) + side * t * math.sin(b), along * math.sin(b) - side * t * math.cos(b)


def unsupported_length(t: float, bed: float, support_height: float) -> float:
    """Return the length of blade from edge to support, along the blade [mm]: (z + t*cos b)/sin b.

    Args:
        t: steel between edge and bed, square to the bed [mm]; 0 for a plain bevel-up blade.
        bed: bed angle [deg].
        support_height: height above the sole at which the bed begins to support the blade [mm].
    """
    b = math.radians(bed)
    return (support_height + t * math.cos(b)) / math.sin(b)


def contact_length(t: float, bed: float, support_height: float, top_height: float) -> float:
    """Return the length of bed that carries the blade, along the blade [mm]; 0 when the top is below the support.

    Args:
        t: steel between edge and bed [mm].
        bed: bed angle [deg].
        support_height: height of the lower end of the contact above the sole [mm].
        top_height: height of the upper end [mm].
    """
    low, high = unsupported_length(t, bed, support_height), unsupported_length(t, bed, top_height)
    return max(high - low, 0.0)


def steel_at(s: float, t: float, bevel: float) -> float:
    """Return the thickness of the steel at a distance s from the edge along the blade's flat [mm].

    Args:
        s: distance from the edge [mm].
        t: thickness behind the bevel [mm].
        bevel: ground bevel [deg].
    """
    return min(t, s * math.tan(math.radians(bevel)))


def modulus(steel: str) -> tuple[float, str]:
    """Return the modulus of elasticity [MPa] of a row of the steel table, and its source."""
    row = table("steel")["physical"][steel]
    return 1000.0 * float(row["e_gpa"]), str(row["source"])


def edge_deflection(u: float, E: float, width: float, t: float) -> float:
    """Return how far the edge bends per newton of force square to the blade [mm/N]: 4u^3/(E*w*t^3).

    A cantilever of the full thickness; the bevel's taper makes the last few millimetres softer still.

    Args:
        u: unsupported length [mm].
        E: modulus of elasticity of the blade [MPa].
        width: blade width [mm].
        t: blade thickness [mm].
    """
    return 4 * u**3 / (E * width * t**3)


def depth_per_projection(bed: float) -> float:
    """Return the depth of cut per projection along the blade [-]: sin(b), bed [deg]."""
    return math.sin(math.radians(bed))


def projection_for_depth(depth: float, bed: float) -> float:
    """Return how far the blade moves along its bed [mm] for a depth of cut [mm] on a bed [deg]."""
    return depth / math.sin(math.radians(bed))


def depth_per_turn(lead: float, ratio: float, bed: float) -> float:
    """Return the depth of cut per turn of the adjuster [mm]: lead*ratio*sin(b).

    Args:
        lead: lead of the adjuster's thread [mm per turn].
        ratio: blade movement per nut movement, of the yoke or slide [-].
        bed: bed angle [deg].
    """
    return lead * ratio * math.sin(math.radians(bed))


def lateral_adjust(width: float, side_clearance: float, pivot_from_edge: float) -> float:
    """Return how far the blade can be turned about its pivot before a corner of the edge meets the side [deg].

    Args:
        width: blade width [mm].
        side_clearance: clearance on each side of the blade at the mouth [mm].
        pivot_from_edge: distance from edge to the point about which the blade turns, along the blade [mm].
    """
    reach = math.hypot(pivot_from_edge, width / 2)
    across = width / 2 + side_clearance
    if across >= reach:
        return 90.0
    return math.degrees(math.asin(across / reach) - math.atan2(width / 2, pivot_from_edge))


def mouth_per_thickness(bed: float, orientation: Orientation = "bevel-down") -> float:
    """Return the change of mouth opening per thicker blade [mm/mm]: -1/sin(b) bevel down, 0 bevel up; bed [deg]."""
    return -1 / math.sin(math.radians(bed)) if orientation == "bevel-down" else 0.0


def mouth_per_depth(bed: float) -> float:
    """Return the change of mouth opening per depth of cut [mm/mm]: the edge moves toward the toe, -1/tan b [deg]."""
    return -1 / math.tan(math.radians(bed))
