"""Cutting, clearance and wedge angle of an edge, square to it and along the travel of a skewed one.

Three published rules turn an angle taken square to a skewed edge into an "effective" one; they answer different
questions and differ by degrees, so each keeps its own name and none is called "the" angle.
"""

from __future__ import annotations

import math
from typing import Literal

from shared.errors import Fault, InputError
from shared.record import Record

Orientation = Literal["bevel-down", "bevel-up"]

ORIENTATIONS: tuple[Orientation, ...] = ("bevel-down", "bevel-up")

#: Clearance below which the wear bevel soon lifts the edge off the wood [deg].
CLEARANCE_GUIDE_DEG = 10.0
CLEARANCE_SOURCE = (
    "10 degrees as a guide: sharpeninghandbook.info wood plane page; film condition of Kato and Kawai. "
    "No published hard minimum was found"
)

SECTION_RULE = "section in the vertical plane of travel: tan e = tan n * cos s (plane geometry)"
VELOCITY_RULE = "angle between the travel and the face, the sine rule: sin e = sin n * cos s (Whelan 1993, App. A)"
CHIP_FLOW_RULE = (
    "chip flowing at the skew angle: cos e = sin^2 s + cos^2 s * cos n (Stabler 1951, from memory of the paper)"
)


class EdgeAngles(Record):
    """Angles at an edge [deg], to the sole; the last six are along the travel, by the three rules."""

    cutting: float
    clearance: float
    wedge: float
    cutting_section: float
    cutting_velocity: float
    cutting_chip_flow: float
    clearance_section: float
    clearance_velocity: float
    clearance_chip_flow: float
    skew: float

    @property
    def clearance_is_small(self) -> bool:
        """True when the clearance is below the guide value of 10 degrees."""
        return self.clearance < CLEARANCE_GUIDE_DEG - 1e-9


def section_rule(normal: float, skew: float) -> float:
    """Return the slope [deg], in the vertical plane along the travel, of a face at `normal` [deg] with skew [deg].

    Source: plane geometry, tan e = tan n * cos s.
    """
    n, s = math.radians(normal), math.radians(skew)
    return math.degrees(math.atan2(math.sin(n) * math.cos(s), math.cos(n)))


def velocity_rule(normal: float, skew: float) -> float:
    """Return the angle [deg] between the direction of travel and a face at `normal` [deg] with skew [deg].

    Source: Whelan, The Wooden Plane (1993), Appendix A: sin e = sin n * cos s.
    """
    return math.degrees(math.asin(math.sin(math.radians(normal)) * math.cos(math.radians(skew))))


def chip_flow_rule(normal: float, skew: float) -> float:
    """Return the angle [deg] seen by a chip that flows at the skew angle, for a face at `normal` [deg], skew [deg].

    Source: Stabler 1951 (recalled): sin(90 - e) = sin^2 s + cos^2 s * sin(90 - n). Written here through half angles,
    sin(e/2) = cos s * sin(n/2), which is the same and loses nothing at small angles.
    """
    return 2 * math.degrees(math.asin(math.cos(math.radians(skew)) * math.sin(math.radians(normal) / 2)))


def edge_angles(
    orientation: Orientation, bed: float, bevel: float, back_bevel: float = 0.0, skew: float = 0.0
) -> EdgeAngles:
    """Return every angle of an edge.

    Args:
        orientation: "bevel-down" or "bevel-up".
        bed: bed angle to the sole, measured square to the edge [deg].
        bevel: honed bevel, the micro-bevel where there is one [deg].
        back_bevel: back bevel on the blade's flat [deg].
        skew: angle between the edge's normal and the travel [deg].

    Returns:
        The angles [deg]; cutting = wedge + clearance always.

    Raises:
        InputError: an angle out of its range, no clearance (a bevel over the bed), or a face at 90 degrees or more.
    """
    if orientation not in ORIENTATIONS:
        raise InputError(Fault("edge", "orientation", repr(orientation), "bevel-down or bevel-up"))
    faults = [
        Fault("edge", key, f"{value:g} deg", allowed)
        for key, value, allowed, fine in (
            ("bed", bed, "more than 0 and less than 90 deg", 0 < bed < 90),
            ("bevel", bevel, "more than 0 and less than 90 deg", 0 < bevel < 90),
            ("back_bevel", back_bevel, "0 to less than 45 deg", 0 <= back_bevel < 45),
            ("skew", skew, "more than -80 and less than 80 deg", -80 < skew < 80),
        )
        if not fine
    ]
    if faults:
        raise InputError(faults)
    down = orientation == "bevel-down"
    cutting = bed + (back_bevel if down else bevel)
    clearance = bed - (bevel if down else back_bevel)
    key, angle = ("bevel", bevel) if down else ("back_bevel", back_bevel)
    if clearance <= 1e-9:
        raise InputError(
            Fault(
                "edge",
                key,
                f"{angle:g} deg on a bed of {bed:g} deg, {orientation}: clearance {clearance:g} deg",
                f"less than the bed angle of {bed:g} deg, so that a clearance is left (10 deg or more is the guide)",
                "the steel behind the edge would rub and the edge would not reach the wood",
            )
        )
    if cutting >= 90:
        raise InputError(
            Fault("edge", "bevel" if not down else "back_bevel", f"cutting angle {cutting:g} deg", "less than 90 deg")
        )
    return EdgeAngles(
        cutting=cutting,
        clearance=clearance,
        wedge=bevel + back_bevel,
        cutting_section=section_rule(cutting, skew),
        cutting_velocity=velocity_rule(cutting, skew),
        cutting_chip_flow=chip_flow_rule(cutting, skew),
        clearance_section=section_rule(clearance, skew),
        clearance_velocity=velocity_rule(clearance, skew),
        clearance_chip_flow=chip_flow_rule(clearance, skew),
        skew=skew,
    )


def edge_plane_angle(orientation: Orientation, bed: float, back_bevel: float = 0.0) -> float:
    """Return the angle to the sole [deg] of the flat facet in which a cambered edge curves.

    That is the blade's flat: the face (bevel down) or the back (bevel up), or the back bevel ground on it.

    Args:
        orientation: "bevel-down" or "bevel-up".
        bed: bed angle [deg].
        back_bevel: back bevel on the flat [deg].
    """
    return bed + back_bevel if orientation == "bevel-down" else bed - back_bevel
