"""Sizes of blade, lever cap and depth adjuster of a low-angle plane, from the stations along the bed."""

from __future__ import annotations

from math import ceil

from parts.blade.size import MICRO_WIDTH, BladeSize, CrossSlot
from parts.blade.spec import BevelUpBladeSpec
from parts.low_angle.numbers import cap_stress
from parts.low_angle.size import SLOT_PLAY, AdjusterSize, ClampScrew, LowCapSize, Stud
from parts.low_angle.spec import KNOB_LEAST, LowCapSpec
from parts.plane.low_angle import stations as st
from parts.plane.low_angle.stations import LowStations
from shared.record import replace

STUD_HEAD = 8.0
STUD_HEAD_HEIGHT = 2.6
HEAD_PLAY = 0.3  # of the stud's head in the blade's slot, each side: the blade is laid over it
SLOT_END = 0.5  # of the stud's shank from the slot's ends, blade at either end of its travel
FLANGE_SIDE = 1.5  # of the flange in a cross slot, each side, so that the blade can be turned
KNOB = 18.0
KNOB_IN_TAIL = 2.0  # tail of the cap wider than the knob over it
KNOB_HEIGHT = 8.5
TAIL_WIDTH = 22.0
CAP_LESS = 2.0  # cap narrower than the blade
PLATE = 4.4  # of the cap under the stud's head


def blade(spec: BevelUpBladeSpec, at: LowStations, adjuster: AdjusterSize) -> BladeSize:
    """Return the blade: slot from below the stud, as long as the blade's life, and cross slots for the adjuster."""
    shank = at.threads["small"].major / 2
    width = STUD_HEAD + 2 * HEAD_PLAY
    low = at.stud_at - st.TRAVEL - shank - SLOT_END if spec.slot_from_edge is None else spec.slot_from_edge
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
        slot_width=width,
        slot_low=low,
        slot_high=at.stud_at + at.life + st.TRAVEL + shank + SLOT_END,
        slot_eye=0.0,
        corner_radius=round(spec.width * 0.22, 1),
        arris=0.3,
        orientation="bevel-up",
        cross_slots=tuple(CrossSlot(s, adjuster.slot_width, adjuster.slot_length) for s in adjuster.slot_at),
    )


def adjuster(thickness: float, at: LowStations) -> AdjusterSize:
    """Return the depth adjuster for a blade of a thickness [mm]."""
    thread = at.threads["small-fine"]
    engaged = st.POST_DIAMETERS * thread.major
    start = at.flange_at - st.FLANGE / 2
    post_to = start + st.TRAVEL + st.WHEEL_THREAD
    radius = at.flange_radius
    chord = 2 * (radius**2 - st.AXIS_H**2) ** 0.5
    return AdjusterSize(
        thread=thread,
        axis_h=st.AXIS_H,
        post_from=at.bridge[1] - engaged,
        post_to=post_to,
        post_engaged=engaged,
        at=at.flange_at,
        travel=st.TRAVEL,
        flange_radius=radius,
        flange_thickness=st.FLANGE,
        sleeve_radius=st.AXIS_H - 0.3,
        threaded=st.WHEEL_THREAD,
        bore_to=post_to + st.TRAVEL + 1.0,
        rim_radius=st.AXIS_H + thickness,
        rim_from=at.rim_from,
        rim_to=at.rim_to,
        slot_width=st.FLANGE + SLOT_PLAY,
        slot_length=ceil(2 * (chord + 2 * FLANGE_SIDE)) / 2,
        slot_pitch=at.slot_pitch,
        slots=at.slots,
    )


def lever_cap(spec: LowCapSpec, blade: BladeSize, at: LowStations, stud_depth: float, stock: float,
              draft: float) -> LowCapSize:  # fmt: skip
    """Return the lever cap.

    Args:
        spec: its section.
        blade: what it presses.
        at: the stations.
        stud_depth: of the stud's tapped hole, to the end of its full drill [mm].
        stock: machining allowance on a face [mm].
        draft: of its walls [deg].
    """
    small, medium = at.threads["small"], at.threads["medium"]
    engaged = min(1.25 * small.major, stud_depth - small.pitch)
    underside, plate = blade.thickness + st.CAP_GAP, PLATE
    stud = Stud(small, at.stud_at, engaged + underside + plate, engaged, STUD_HEAD, STUD_HEAD_HEIGHT)
    clamp = ClampScrew(
        thread=medium,
        at=at.clamp_at,
        knob_diameter=KNOB if spec.knob_diameter is None else spec.knob_diameter,
        knob_height=KNOB_HEIGHT,
        knob_gap=1.2,
        foot_diameter=st.BRIDGE,
        foot_thickness=3.0,
        tip_diameter=3.2,
    )
    return LowCapSize(
        width=blade.width - CAP_LESS,
        tail_width=max(TAIL_WIDTH, clamp.knob_diameter + KNOB_IN_TAIL),
        blade_top=blade.thickness,
        nose_at=at.nose_at,
        underside_q=underside,
        plate=plate,
        end_plate=1.3 * medium.major,
        stud=stud,
        clamp=clamp,
        outside_draft=draft,
        stock=stock,
    )


def knob_within(cap: LowCapSize, stress: float) -> float | None:
    """Return the largest clamp knob [mm] with which two fingers stress the cap no more than that [MPa].

    None where even the smallest knob that a spec can ask for is too large.
    """

    def stressed(knob: float) -> float:
        clamp = replace(cap.clamp, knob_diameter=knob)
        return cap_stress(replace(cap, clamp=clamp, tail_width=max(TAIL_WIDTH, knob + KNOB_IN_TAIL)))

    low, high = KNOB_LEAST, cap.clamp.knob_diameter
    if stressed(low) > stress:
        return None
    for _ in range(12):
        middle = (low + high) / 2
        low, high = (middle, high) if stressed(middle) <= stress else (low, middle)
    return low
