"""Bought and turned small parts: every resolved size [mm]."""

from __future__ import annotations

from shared.record import Record
from shared.threads import Thread

ROD_IN_NUT = 0.7  # share of a rod nut's height that the rod fills; the driver's slot takes the rest


class Screw(Record):
    """A headed screw; `length` is under the head."""

    name: str
    thread: Thread
    length: float
    head_diameter: float
    head_height: float
    washer_diameter: float = 0.0
    washer_thickness: float = 0.0


class Rod(Record):
    """A handle rod with a counterbored round nut on top; the axis starts at the rod's lower end."""

    name: str
    thread: Thread
    length: float
    nut_diameter: float
    nut_height: float


class DepthAdjuster(Record):
    """Post parallel to the bed, wheel on its thread, yoke between wheel and chipbreaker (blade frame s, h)."""

    thread: Thread
    post_from: float  # s
    post_to: float  # s
    post_h: float  # depth of its axis below the bed
    post_engaged: float  # length screwed into the frog
    wheel_diameter: float
    wheel_thickness: float
    wheel_front: float  # from the middle of the groove to the front face
    wheel_at: float  # s of the middle of the wheel's groove
    flange_diameter: float  # of the groove's front flange
    hub_diameter: float  # bottom of the groove
    groove: float  # width of the groove at its bottom
    groove_flank: float  # slant of each flank from the wheel's plane [deg]; more than the yoke's swing
    yoke_thickness: float  # diameter of the fork's round ends, in the groove
    arm_thickness: float  # of the fork's arms, along s
    eye_diameter: float  # round the pivot pin
    yoke_half_width: float  # half width along y in the frog's slot
    fork_inside: float  # half width between the arms
    fork_outside: float  # half width over the arms
    tip_diameter: float  # of the round tip in the chipbreaker's window
    window: float  # length of that window along s
    tip_half_width: float
    tip_q: float  # q (above the blade's face) of the tip's end
    pivot_h: float
    pivot_pin: float
    pin_from: float  # y of the pin's inner end (negative)
    pin_to: float  # y of its outer end

    @property
    def ratio(self) -> float:
        """Blade travel over wheel travel [-]; set by `arm` over the lower arm."""
        return self.upper_arm / self.lower_arm

    upper_arm: float = 0.0  # pivot to the middle of the chipbreaker's window

    @property
    def lower_arm(self) -> float:
        """Pivot to the fork's round ends [mm]."""
        return self.post_h - self.pivot_h


class LateralLever(Record):
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


class HardwareSize(Record):
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
