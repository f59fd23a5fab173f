"""How the adjusters of a bevel-up plane stand, and what stops the blade from turning. Arithmetic only; mm and deg."""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, atan, cos, degrees, radians, sin, tan

from parts.low_angle.size import AdjusterSize


@dataclass(frozen=True)
class Setting:
    """Blade up its bed from the nominal place [mm], turned to the right at its top [deg], mouth opening [mm].

    `opening` is None where the mouth stands as the spec says.
    """

    blade_travel: float = 0.0
    lateral: float = 0.0
    opening: float | None = None


NOMINAL = Setting()


@dataclass(frozen=True)
class LateralLimit:
    """How far the blade can be turned by hand at its upper end [deg], about which s [mm], and what stops it."""

    degrees: float
    pivot_at: float
    decided_by: str


def furthest_out(opening: float, bed_angle: float, cutting_angle: float) -> float:
    """Return how far the blade goes down its bed [mm] before its bevel meets the mouth's front at the sole.

    Pushed out by p the edge stands p·cos b ahead and p·sin b below the sole; at the sole the bevel is back from the
    edge by p·sin b / tan(cutting angle).

    Args:
        opening: edge to the mouth's front along the sole [mm].
        bed_angle: bed to sole [deg].
        cutting_angle: bevel's face to sole [deg].
    """
    b = radians(bed_angle)
    return opening / (cos(b) - sin(b) / tan(radians(cutting_angle)))


def lateral_limit(
    *,
    mouth_side: float,
    bed_to: float,
    stud_at: float,
    stud_room: float,
    cheek_at: float,
    cheek_room: float,
    edge_half: float,
    out_most: float,
    adjuster: AdjusterSize,
) -> LateralLimit:
    """Return how far the blade turns.

    The blade is pushed sideways by hand at its upper end. It lies free on the bed: it shifts and turns until two places
    along it are stopped on opposite sides, the flange is wedged in its cross slot, or the edge's leading corner meets
    the mouth's front: turned by a, that corner goes half the edge's length × sin(a) down the bed.

    Args:
        mouth_side: room between blade and mouth, each side [mm]; the bed is milled in the same width.
        bed_to: s of the bed's upper end [mm].
        stud_at: s of the stud.
        stud_room: room between its shank and the blade's slot, each side [mm].
        cheek_at: s of the farthest place at which the blade passes between the cheeks [mm].
        cheek_room: room between blade and cheek there, each side [mm].
        edge_half: half the edge's length [mm].
        out_most: how far the edge may go down the bed before its bevel meets the mouth's front (`furthest_out`) [mm].
        adjuster: its flange lies in a cross slot of the blade with some room to both sides.
    """
    flange_room = (adjuster.slot_length - adjuster.chord) / 2
    stops = [
        ("the mouth", 0.0, mouth_side),
        ("the sides of the milled bed", bed_to, mouth_side),
        ("the stud in the blade's slot", stud_at, stud_room),
        ("the cheeks", cheek_at, cheek_room),
        ("the length of the cross slot", adjuster.at, flange_room),
    ]
    slopes = [
        (((ca + cb) / abs(sb - sa)), f"{a} and {b}")
        for i, (a, sa, ca) in enumerate(stops)
        for b, sb, cb in stops[i + 1 :]
        if abs(sb - sa) > 1e-9
    ]
    slopes.append(((adjuster.slot_width - adjuster.flange_thickness) / adjuster.chord, "the width of the cross slot"))
    if out_most < edge_half:
        slopes.append((tan(asin(out_most / edge_half)), "the edge's leading corner and the mouth's front"))
    slope, why = min(slopes)
    # where the blade's middle line may cross the edge, so that it keeps every room: the middle of that range
    low = max(-room - s * slope for _, s, room in stops)
    high = min(room - s * slope for _, s, room in stops)
    return LateralLimit(degrees(atan(slope)), -(low + high) / 2 / slope, why)
