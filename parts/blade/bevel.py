"""Length of the ground and honed bevels, and what a round wheel leaves of the angle at the edge."""

from __future__ import annotations

import math

from shared.errors import Fault, InputError
from shared.record import Record

#: Width of a micro-bevel along itself when a spec does not say [mm]; common practice, no source.
MICRO_WIDTH_MM = 0.5


class BevelShape(Record):
    """Section of the bevel side: facets from the edge back to the heel [mm], measured on the blade."""

    micro_length: float  # along the micro-bevel; 0 without one
    ground_length: float  # along the ground bevel from the end of the micro-bevel to the heel
    heel_from_edge: float  # along the blade's flat
    micro_depth: float  # of the micro-bevel's end below the edge, square to the flat


def bevel_length(t: float, bevel: float) -> float:
    """Return the length of a bevel measured along it [mm], for thickness t [mm] and bevel [deg]: t/sin(bevel)."""
    return t / math.sin(math.radians(bevel))


def bevel_along_blade(t: float, bevel: float) -> float:
    """Return the length of a bevel measured along the blade's flat [mm]: t/tan(bevel), t [mm], bevel [deg]."""
    return t / math.tan(math.radians(bevel))


def bevel_shape(t: float, ground: float, micro: float | None = None, micro_width: float = MICRO_WIDTH_MM) -> BevelShape:
    """Return the facets of a bevel with or without a micro-bevel.

    Args:
        t: blade thickness at the edge, square to the flat [mm].
        ground: ground bevel [deg].
        micro: micro-bevel [deg], or None.
        micro_width: width of the micro-bevel along itself [mm].

    Raises:
        InputError: the micro-bevel is below the ground bevel, or takes up the whole thickness.
    """
    if micro is None or micro_width == 0:
        return BevelShape(0.0, bevel_length(t, ground), bevel_along_blade(t, ground), 0.0)
    if micro < ground:
        raise InputError(
            Fault("blade", "micro_bevel", f"{micro:g} deg", f"at least the ground bevel of {ground:g} deg")
        )
    depth = micro_width * math.sin(math.radians(micro))
    if depth >= t:
        raise InputError(
            Fault(
                "blade",
                "micro_width",
                f"{micro_width:g} mm",
                f"less than {t / math.sin(math.radians(micro)):.2f} mm, which would use up the thickness",
            )
        )
    rest = t - depth
    along = micro_width * math.cos(math.radians(micro)) + bevel_along_blade(rest, ground)
    return BevelShape(micro_width, bevel_length(rest, ground), along, depth)


def _check_wheel(chord: float, wheel_diameter: float) -> None:
    if wheel_diameter <= chord:
        raise InputError(
            Fault(
                "blade",
                "wheel_diameter",
                f"{wheel_diameter:g} mm",
                f"more than the bevel's length of {chord:.3f} mm",
                "a wheel as small as the bevel cannot touch both its ends",
            )
        )


def hollow_depth(t: float, bevel: float, wheel_diameter: float) -> float:
    """Return the depth of a hollow grind below its chord [mm]: D/2 - sqrt((D/2)^2 - (L/2)^2).

    Args:
        t: blade thickness [mm].
        bevel: angle of the chord from edge to heel [deg].
        wheel_diameter: wheel diameter D [mm].

    Raises:
        InputError: the wheel is no larger than the bevel is long.
    """
    chord = bevel_length(t, bevel)
    _check_wheel(chord, wheel_diameter)
    r, half = wheel_diameter / 2, chord / 2
    # the same value without the loss of digits of a difference of near equals
    return half * half / (r + math.sqrt(r * r - half * half))


def hollow_edge_angle(t: float, bevel: float, wheel_diameter: float) -> float:
    """Return the angle of the steel at the very edge of a hollow grind [deg]: bevel - asin(L/D).

    Args:
        t: blade thickness [mm].
        bevel: angle of the chord from edge to heel [deg].
        wheel_diameter: wheel diameter D [mm].

    Raises:
        InputError: the wheel is no larger than the bevel is long, or so small that no steel is left at the edge.
    """
    chord = bevel_length(t, bevel)
    _check_wheel(chord, wheel_diameter)
    angle = bevel - math.degrees(math.asin(chord / wheel_diameter))
    if angle <= 0:
        raise InputError(
            Fault(
                "blade",
                "wheel_diameter",
                f"{wheel_diameter:g} mm",
                f"more than {chord / math.sin(math.radians(bevel)):.2f} mm",
                "the hollow would leave no steel at the edge",
            )
        )
    return angle
