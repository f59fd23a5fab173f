"""Bought and turned small parts: every resolved size [mm]."""

from __future__ import annotations

from dataclasses import dataclass

from shared.threads import Thread


@dataclass(frozen=True)
class Screw:
    """A headed screw; `length` is under the head."""

    name: str
    thread: Thread
    length: float
    head_diameter: float
    head_height: float
    washer_diameter: float = 0.0
    washer_thickness: float = 0.0


@dataclass(frozen=True)
class Rod:
    """A handle rod with a counterbored round nut on top; the axis starts at the rod's lower end."""

    name: str
    thread: Thread
    length: float
    nut_diameter: float
    nut_height: float


@dataclass(frozen=True)
class DepthAdjuster:
    """Post parallel to the bed, wheel on its thread, yoke between wheel and chipbreaker (blade frame s, h)."""

    thread: Thread
    post_from: float  # s
    post_to: float  # s
    post_h: float  # depth of its axis below the bed
    wheel_diameter: float
    wheel_thickness: float
    wheel_at: float  # s of the wheel's middle
    hub_diameter: float  # bottom of the groove
    groove: float  # width of the groove
    yoke_thickness: float  # along s
    yoke_half_width: float  # half width along y
    tip_half_width: float
    tip_q: float  # q (above the blade's face) of the tip's end
    pivot_h: float
    pivot_pin: float
    pin_from: float  # y of the pin's inner end (negative)
    pin_to: float  # y of its outer end

    @property
    def ratio(self) -> float:
        """Blade travel over wheel travel [-]; set by `arm` over the lower arm."""
        return self.upper_arm / (self.post_h - self.pivot_h)

    upper_arm: float = 0.0  # pivot to the middle of the chipbreaker's window


@dataclass(frozen=True)
class LateralLever:
    """Strip on the bed's top with a roller in the blade's slot (blade frame s, h)."""

    pivot_at: float
    pin: float
    pin_depth: float  # below the recess floor
    width: float
    thickness: float
    recess_depth: float
    start: float
    roller_at: float
    roller_diameter: float
    roller_height: float
    tab_at: float
    tab_drop: float
    tab_width: float


@dataclass(frozen=True)
class HardwareSize:
    """Everything bought or turned for one plane."""

    system: str
    holddown: Screw
    cap_screw: Screw
    chipbreaker_screw: Screw
    tote_rod: Rod
    knob_rod: Rod
    toe_screw: Screw | None
    depth: DepthAdjuster
    lateral: LateralLever
