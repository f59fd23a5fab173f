"""Where the small parts sit in one plane, and what the adjusters' settings move. Arithmetic only; mm and degrees."""

from __future__ import annotations

from math import asin, degrees, radians, sin

from parts.hardware.size import HardwareSize
from shared.errors import RequestError
from shared.record import Value

Vector = tuple[float, float, float]


class Axis(Value):
    """A line in the plane's frame: a point on it [mm], its unit direction, and the length screwed in [mm]."""

    foot: Vector
    direction: Vector
    engaged: float


class Seating(Value):
    """Places of every small part.

    Rods start at `foot` and rise along `direction`; the toe screw's head sits at `foot` and its shank goes along
    `direction`.
    """

    bed_angle: float
    blade_thickness: float
    holddown: tuple[tuple[float, float], ...]  # (x, y) of each screw
    holddown_seat_z: float  # what the washers lie on
    holddown_pad_z: float  # mouth of the tapped holes
    cap_screw_at: float  # s
    cap_head_q: float  # q of the head's underside
    chipbreaker_screw_at: float  # s
    chipbreaker_mouth: float  # broken edge of the tapped hole on the blade's side, without thread
    tote_rod: Axis
    knob_rod: Axis
    toe_screw: Axis | None


class Setting(Value):
    """How the adjusters stand: blade up its bed from the nominal place [mm], lateral lever to the right [deg]."""

    blade_travel: float = 0.0
    lateral: float = 0.0


NOMINAL = Setting()


def yoke_swing(size: HardwareSize, setting: Setting) -> float:
    """Return how far the yoke swings to carry the blade [deg].

    Raises:
        RequestError: the blade is asked to go farther than the yoke reaches.
    """
    share = setting.blade_travel / size.depth.upper_arm
    if abs(share) >= 0.5:
        raise RequestError(
            f"depth adjuster: a blade travel of {setting.blade_travel:g} mm is more than half of the yoke's upper arm "
            f"({size.depth.upper_arm:.2f} mm)"
        )
    return degrees(asin(share))


def wheel_travel(size: HardwareSize, setting: Setting) -> float:
    """Return how far the wheel runs up its post [mm]; against the blade."""
    return -size.depth.lower_arm * sin(radians(yoke_swing(size, setting)))


def blade_turn(size: HardwareSize, seating: Seating, setting: Setting) -> float:
    """Return how far the lateral lever turns the blade about the lever-cap screw [deg], to the right at its top."""
    lever = size.lateral
    sideways = (lever.roller_at - lever.pivot_at) * sin(radians(setting.lateral))
    return degrees(asin(sideways / (lever.roller_at - seating.cap_screw_at)))


def depth_per_turn(size: HardwareSize, bed_angle: float) -> float:
    """Return the depth of cut per turn of the wheel [mm]: lead * ratio * sin(bed), bed [deg]."""
    return size.depth.thread.pitch * size.depth.ratio * sin(radians(bed_angle))
