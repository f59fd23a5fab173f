"""Forces of lever cap and depth wheel as arithmetic. Lengths mm, forces N, moments N·mm, stresses MPa."""

from __future__ import annotations

from math import atan, cos, pi, radians, tan

from parts.low_angle.size import AdjusterSize, LowCapSize
from shared.record import Record
from shared.threads import UNIFIED, Thread

FRICTION = 0.15  # steel on steel or bronze, hardly oiled; value from memory
FINGER_SQUEEZE_N = 25.0  # at the clamp knob's rim, each of two fingers; own estimate, no source
FLANK = 30.0  # deg, half the angle of ISO and unified threads


class CapForces(Record):
    """Forces on the tightened cap [N]."""

    clamp: float
    nose: float
    stud: float


def thread_arm(thread: Thread) -> float:
    """Return moment over axial force of a thread that is turned against its load [mm].

    It is d2/2 · tan(lead + friction). The friction angle is that of the slanted flanks; the pitch
    diameter d2 = major - 0.65 pitch.
    """
    d2 = thread.major - 0.6495 * thread.pitch
    lead, friction = atan(thread.pitch / (pi * d2)), atan(FRICTION / cos(radians(FLANK)))
    return d2 / 2 * tan(lead + friction)


def stress_area(thread: Thread) -> float:
    """Return the stress area of a thread [mm2]: π/4 · (major - k · pitch)².

    k is 0.9382 of a metric thread (ISO 898-1) and 0.9743 of a unified one (ASME B1.1); values from memory.
    """
    k = 0.9743 if thread in UNIFIED.values() else 0.9382
    return pi / 4 * (thread.major - k * thread.pitch) ** 2


def hand_moment(size: LowCapSize) -> float:
    """Return the moment that two fingers put on the clamp's knob [N·mm]: squeeze × diameter."""
    return FINGER_SQUEEZE_N * size.clamp.knob_diameter


def clamp_arm(size: LowCapSize) -> float:
    """Return moment over axial force of the clamp screw [mm]: its thread, and its tip rubbing in the foot."""
    shoulder = (size.clamp.thread.tap_drill + size.clamp.tip_diameter) / 4
    return thread_arm(size.clamp.thread) + FRICTION * shoulder


def cap_forces(size: LowCapSize) -> CapForces:
    """Return what the tightened cap presses with: the clamp's force, balanced about the stud."""
    clamp = hand_moment(size) / clamp_arm(size)
    nose = clamp * (size.clamp.at - size.stud.at) / (size.stud.at - size.nose_at)
    return CapForces(clamp, nose, clamp + nose)


def push_force(size: LowCapSize) -> float:
    """Return the force that moves the blade under the tightened cap [N]: friction on both its sides."""
    f = cap_forces(size)
    return 2 * FRICTION * (f.clamp + f.nose)


def rim_force(cap: LowCapSize, adjuster: AdjusterSize) -> float:
    """Return the force at the wheel's rim that moves the blade under the tightened cap [N]."""
    return push_force(cap) * thread_arm(adjuster.thread) / adjuster.rim_radius
