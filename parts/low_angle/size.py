"""Every resolved size of a bevel-up plane's lever cap and depth adjuster.

Bed frame: s runs from the edge up the bed [mm], q is the height over the bed, square to it [mm], and h = -q the depth
below it. The blade's flat lies on q = 0, its upper side at q = thickness. y is the plane's y.
"""

from __future__ import annotations

from math import sqrt

from shared.record import Record
from shared.threads import Thread

SLOT_PLAY = 0.25  # of the flange in a cross slot, along the blade, both sides together
FOOT_PLAY = 0.1  # of the clamp's foot on the screw's tip, on the diameter: it must turn [mm]
SHANK_PLAY = 0.5  # of the stud in the keyhole's narrow part, on the diameter [mm]
# upper and lower deviations [mm]; common practice, no source
FOOT_BORE_TOL = (0.05, 0.0)
TIP_TOL = (0.0, -0.05)
KEYHOLE_TOL = (0.1, 0.0)  # of the keyhole's narrow part


class Stud(Record):
    """The screw in the bed that holds the lever cap down [mm]; `length` is under its head."""

    thread: Thread
    at: float  # s
    length: float
    engaged: float  # length screwed into the body
    head_diameter: float
    head_height: float


class ClampScrew(Record):
    """The screw in the cap's upper end, its round head above the cap and a foot riveted to its tip [mm]."""

    thread: Thread
    at: float  # s
    knob_diameter: float
    knob_height: float
    knob_gap: float  # from the cap's top to the knob, tightened
    foot_diameter: float  # wider than the blade's slot, so that it bears on both sides of it
    foot_thickness: float
    tip_diameter: float  # riveted in the foot's countersink

    @property
    def foot_bore(self) -> float:
        """Diameter of the foot's bore, free on the tip [mm]."""
        return self.tip_diameter + FOOT_PLAY


class LowCapSize(Record):
    """Resolved lever cap, tightened [mm, deg]; s and q in the bed frame."""

    width: float  # at the nose
    tail_width: float
    blade_top: float  # q of the blade's upper side
    nose_at: float  # s of the line the nose presses on
    underside_q: float  # of the plate; also the casting's parting plane
    plate: float  # under the stud's head
    end_plate: float  # thickness of the plate at the clamp screw: its thread's length
    stud: Stud
    clamp: ClampScrew
    outside_draft: float
    stock: float  # machining allowance on a machined face

    @property
    def head_q(self) -> float:
        """q of the underside of the stud's head [mm]."""
        return self.underside_q + self.plate

    @property
    def tail(self) -> float:
        """s of the cap's round upper end [mm]."""
        return self.clamp.at + self.tail_width / 2

    @property
    def land(self) -> tuple[float, float]:
        """Milled land of the nose, from s to s [mm]; begins just ahead of the line, so that no shaving gets under."""
        return self.nose_at - NOSE_AHEAD, self.nose_at + 3.0

    @property
    def shank_slot(self) -> float:
        """Width of the keyhole's narrow part [mm]."""
        return self.stud.thread.major + SHANK_PLAY

    @property
    def head_pass(self) -> float:
        """Diameter of the keyhole's round part, which passes the stud's head [mm]."""
        return self.stud.head_diameter + 0.8

    @property
    def slide(self) -> float:
        """How far the cap slides down the bed from the round part to its seat [mm]."""
        return self.head_pass / 2 + 0.75 * self.stud.head_diameter / 2

    @property
    def knob_top_q(self) -> float:
        """q of the top of the clamp screw's head, tightened [mm]: the highest point over the bed."""
        c = self.clamp
        return self.underside_q + self.end_plate + c.knob_gap + c.knob_height


NOSE_AHEAD = 0.6


class AdjusterSize(Record):
    """Post, and the wheel that runs on it: flange in the blade's cross slot, sleeve under the blade, rim behind it.

    Lengths [mm]; s along the bed, h below it, as set (the middle of the travel).
    """

    thread: Thread
    axis_h: float
    post_from: float  # s of the post's lower end, in the bridge
    post_to: float
    post_engaged: float
    at: float  # s of the middle of the flange
    travel: float  # each way
    flange_radius: float
    flange_thickness: float
    sleeve_radius: float
    threaded: float  # length of the wheel's thread, from the flange's face
    bore_to: float  # s at which the wheel's blind bore ends
    rim_radius: float
    rim_from: float  # s
    rim_to: float
    slot_width: float  # of a cross slot, along the blade
    slot_length: float  # across
    slot_pitch: float
    slots: int

    @property
    def life(self) -> float:
        """Steel that can be sharpened away before the last cross slot is reached [mm]."""
        return (self.slots - 1) * self.slot_pitch

    @property
    def slot_at(self) -> tuple[float, ...]:
        """s of each cross slot of a new blade [mm]."""
        return tuple(self.at + i * self.slot_pitch for i in range(self.slots))

    @property
    def chord(self) -> float:
        """Width of the flange where it passes the blade's flat [mm]."""
        return 2 * sqrt(self.flange_radius**2 - self.axis_h**2)

    @property
    def lead(self) -> float:
        """Way of wheel and blade per turn [mm]."""
        return self.thread.pitch

    @property
    def least_travel_left(self) -> float:
        """Travel left each way at the worst state of the blade's wear [mm]: half a pitch is spent on the next slot."""
        return self.travel - self.slot_pitch / 2
