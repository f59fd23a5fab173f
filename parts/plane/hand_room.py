"""Where the fingers round the tote lie beside the cheeks, and where a cheek must have fallen to its rail for them."""

from __future__ import annotations

from math import cos, floor, hypot, radians

from parts.body.arch import arch
from parts.body.size import Trough
from parts.handle.measure import grip_back_at, grip_front_at
from parts.handle.size import ToteSize
from parts.plane.placing import FINGER_DEPTH
from shared.record import Record, replace

FINGERS = 3  # the forefinger lies along the blade; common practice, no source
THREE_FINGERS = 0.75  # of the grip that they take; common practice, no source
CHEEK_CLEARANCE = 5.0  # of the fingers from the cheeks; common practice, no source [mm]
CALM = 1.5  # a flank stays at least this many times as long as its rise, however near the hand is; our own outline
STEP = 2.0  # along the plane, between the places looked at [mm]
RADIUS = FINGER_DEPTH / 2  # of a finger


class Finger(Record):
    """A finger round the tote: the wood that it wraps at its height, in the plane's frame [mm]."""

    z: float  # of its axis above the sole face
    front: float  # foremost x of the wood
    back: float  # aftmost x of the wood
    half: float  # half the wood's width, its ends taken as half circles of that radius

    def gap(self, x: float, y: float, rim: float) -> float:
        """Return how near [mm] the finger comes to an upright wall at (x, y) that ends at height `rim` [mm]."""
        ahead = max(self.front + self.half - x, x - self.back + self.half, 0.0)
        aside = hypot(ahead, y) - self.half - RADIUS
        if rim >= self.z:
            return aside - RADIUS
        # between wood and axis there is flesh all the way
        return hypot(max(aside, 0.0), self.z - rim) - RADIUS


def finger_band(tote: ToteSize) -> tuple[float, float]:
    """Return the heights of the lowest and the highest finger's axis above the sole face [mm]."""
    bottom = tote.foot_plane_z + tote.foot_height
    # fingers are round: they reach their full depth half a finger inside the band they fill
    return bottom + RADIUS, bottom + THREE_FINGERS * tote.grip * cos(radians(tote.lean_deg)) - RADIUS


def fingers(tote: ToteSize, x: float) -> tuple[Finger, ...]:
    """Return the fingers round a tote whose rod meets the foot plane at x [mm], the lowest first."""
    low, high = finger_band(tote)
    found = []
    for i in range(FINGERS):
        z = low + (high - low) * i / (FINGERS - 1)
        up = z - tote.foot_plane_z
        half = tote.form.grip_at(up / cos(radians(tote.lean_deg)))[2]
        found.append(Finger(z, x + grip_front_at(tote, up), x + grip_back_at(tote, up), half))
    return tuple(found)


def cheek_clearance(hand: tuple[Finger, ...], body: Trough) -> float:
    """Return the least distance between the fingers and the insides of the cheeks [mm]; less than 0 where they meet."""
    outline = arch(body)
    # beside the grip the fingers lie no farther out than where they reach it, and the rim only falls on
    x, last = min(f.front for f in hand) - FINGER_DEPTH, max(f.front + f.half for f in hand) + STEP
    gaps = []
    while x < min(last, body.heel_x):
        rim = outline.height_at(x)
        gaps += [f.gap(x, body.inside_half_at(min(rim, f.z)), rim) for f in hand]
        x += STEP
    return min(gaps)


def arch_end(hand: tuple[Finger, ...], body: Trough) -> float:
    """Return the x where the cheek must have fallen to the heel's rail [mm], so that the hand has its room.

    Args:
        hand: the fingers.
        body: the body with the end of its arch where proportion wants it; that stays where the hand allows it.

    Returns:
        The aftmost such end; where none gives the whole clearance, the one that gives the most of it.
    """
    calm = body.arch_peak + CALM * (body.cheek_height - body.rail_height)
    far, near = body.arch_to, calm
    if cheek_clearance(hand, body) >= CHEEK_CLEARANCE or near >= far:
        return far

    def clearance(end: float) -> float:
        return cheek_clearance(hand, replace(body, arch_to=end))

    wanted = min(CHEEK_CLEARANCE, clearance(near)) - 1e-9
    while far - near > 0.05:
        middle = (near + far) / 2
        near, far = (middle, far) if clearance(middle) >= wanted else (near, middle)
    return max(floor(10 * near) / 10, calm)
