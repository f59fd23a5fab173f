"""Every resolved size of a blade.

Blade frame: s runs from the edge up the blade's flat [mm], q is normal to the flat, positive away from the bed, and
the edge is at s = 0. Bevel down the flat is the face and the steel lies in q = -thickness .. 0; bevel up the flat lies
on the bed and the steel lies in q = 0 .. thickness. y is the plane's y.
"""

from __future__ import annotations

from dataclasses import dataclass

from parts.blade.angles import Orientation
from parts.blade.spec import BladeSpec
from shared.record import Record

SLOT_WIDTH = 11.0  # lets the lever-cap screw's head through
SLOT_FROM_EDGE = 45.0
SLOT_FROM_TOP = 30.0
MICRO_WIDTH = 0.5  # honed flat of a micro-bevel along the bevel


@dataclass(frozen=True)
class CrossSlot:
    """A short slot across the blade, in which a depth adjuster's tongue sits [mm]."""

    at: float  # s of its middle, from a new edge
    width: float  # along s
    length: float  # across


class BladeSize(Record):
    """Resolved blade [mm, deg]."""

    width: float
    length: float
    thickness: float
    bevel: float
    micro_bevel: float | None
    micro_width: float
    back_bevel: float
    skew: float
    camber_at_work: float
    slot_width: float
    slot_low: float  # lower end of the slot from a new edge, along s
    slot_high: float  # upper end
    slot_eye: float  # diameter of the round hole at the lower end; no wider than the slot: none
    corner_radius: float  # the two top corners
    arris: float  # easing of every edge but the cutting edge
    orientation: Orientation = "bevel-down"
    cross_slots: tuple[CrossSlot, ...] = ()

    @property
    def honed_bevel(self) -> float:
        """The bevel that cuts [deg]."""
        return self.bevel if self.micro_bevel is None else self.micro_bevel

    @property
    def slot_eye_center(self) -> float:
        """Centre of the slot's round hole from a new edge [mm]."""
        return self.slot_low + self.slot_eye / 2


def blade_size(spec: BladeSpec, screw_head: float) -> BladeSize:
    """Resolve the blade.

    Args:
        spec: the blade section.
        screw_head: diameter of the chipbreaker screw's head [mm]; the slot's eye lets it through.
    """
    low = SLOT_FROM_EDGE if spec.slot_from_edge is None else spec.slot_from_edge
    return BladeSize(
        width=spec.width,
        length=spec.length,
        thickness=spec.thickness,
        bevel=spec.bevel,
        micro_bevel=spec.micro_bevel,
        micro_width=MICRO_WIDTH if spec.micro_bevel is not None else 0.0,
        back_bevel=spec.back_bevel,
        skew=spec.skew,
        camber_at_work=spec.camber,
        slot_width=SLOT_WIDTH,
        slot_low=low,
        slot_high=spec.length - SLOT_FROM_TOP,
        slot_eye=screw_head + 1.0,
        corner_radius=round(spec.width * 0.22, 1),
        arris=0.3,
    )
