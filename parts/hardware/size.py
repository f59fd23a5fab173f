"""Bought and turned small parts: every resolved size [mm]."""

from __future__ import annotations

from shared.record import Record
from shared.threads import Thread

# shares of a rod nut's height: filled by the rod, and cut by the driver's slot. The blind hole goes as deep as the web
# under the slot lets it: its room over the rod takes up the limits of rod, wood and counterbores
ROD_IN_NUT = 0.48
NUT_SLOT = 0.16
NUT_WEB = 1.0  # brass between hole and slot [mm]
ROD_LENGTH_TOL = (0.0, -0.5)  # of a handle's rod [mm]: a rod that is too long bottoms in its nut; common practice
PIN_HOLE = 0.1  # a pin's free hole over the pin [mm]
PIN_HOLE_TOL = (0.03, 0.0)  # of such a hole, upper and lower [mm]: a drill's or reamer's; common practice, no source
PRESSED = "m6"  # ISO 286, of every plain pin: pressed into a reamed H7 hole; what runs on it has a free hole
HEAD_PLAY = 0.1  # of the lateral lever pin's head under the blade [mm]


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

    @property
    def nut_thread(self) -> float:
        """Depth of the nut's blind hole [mm]."""
        return self.nut_height - self.nut_slot - NUT_WEB

    @property
    def nut_full_thread(self) -> float:
        """Depth to which that hole has full thread [mm]: a bottoming tap leaves one pitch."""
        return self.nut_thread - self.thread.pitch

    @property
    def least_in_nut(self) -> float:
        """Length of rod that its nut holds when the rod is as short as its limits let it be [mm]."""
        return ROD_IN_NUT * self.nut_height + ROD_LENGTH_TOL[1]

    @property
    def nut_slack(self) -> float:
        """Room over the rod's end in that hole [mm]."""
        return self.nut_thread - ROD_IN_NUT * self.nut_height

    @property
    def nut_slot(self) -> float:
        """Depth of the driver's slot in the nut [mm]."""
        return NUT_SLOT * self.nut_height

    @property
    def nut_web(self) -> float:
        """Brass left between hole and slot [mm]."""
        return self.nut_height - self.nut_thread - self.nut_slot


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

    @property
    def pin_length(self) -> float:
        """Length of the lever's pin over its head [mm]."""
        return self.recess_depth + self.pin_depth - HEAD_PLAY


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
