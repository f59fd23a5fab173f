"""Sizes of blade, chipbreaker, lever cap, frog and small parts, from the stations along the bed."""

from __future__ import annotations

from math import asin, cos, degrees, tan

from parts.blade.size import SLOT_FROM_EDGE, BladeSize, blade_size
from parts.chipbreaker.size import THREAD_BREAK, ChipbreakerSize, chipbreaker_size
from parts.frog.size import FrogSize
from parts.hardware.size import DepthAdjuster, LateralLever, Screw
from parts.lever_cap.size import LeverCapSize, lever_cap_size
from parts.plane.bench import stations as st
from parts.plane.bench.spec import BenchSpec
from parts.plane.bench.stations import Stations
from shared.record import Record

CLEARANCE = 0.3  # each side of a part that slides or swings
TRAVEL = 2.0
YOKE_TIP = 4.2  # diameter of the yoke's round tip
YOKE_PLAY = 0.2  # of the tip in the chipbreaker's window and of the fork in the wheel's groove, both sides together


class FrogStock(Record):
    """What the frog's and lever cap's castings add: stock a face [mm], draft [deg], root radius [mm]."""

    frog_stock: float
    frog_required: float
    cap_stock: float
    draft: float
    root_radius: float
    inside_draft: float
    hole_minimum: float


class Mechanism(Record):
    """Everything that sits on the body's frog seat."""

    stations: Stations
    blade: BladeSize
    chipbreaker: ChipbreakerSize
    lever_cap: LeverCapSize
    frog: FrogSize
    depth: DepthAdjuster
    lateral: LateralLever
    holddown: Screw
    cap_screw: Screw
    chipbreaker_screw: Screw


def _depth_adjuster(at: Stations, blade: BladeSize, breaker: ChipbreakerSize) -> DepthAdjuster:
    pivot_h = at.pivot_h
    upper = pivot_h + blade.thickness + breaker.gap + breaker.thickness / 2
    ratio = upper / (st.POST_DEPTH - pivot_h)
    swing = asin(st.BLADE_TRAVEL / upper)
    reach = st.BLADE_TRAVEL / ratio + st.WHEEL_THICKNESS - st.WHEEL_FRONT
    # an arm passing the hub at full swing leans (hub radius + clearance) * tan(swing) from the groove's middle
    hub, arm = 5.5, 2.2
    inside = hub + CLEARANCE
    groove = 2 * (inside * tan(swing) + arm / 2 / cos(swing) + 0.1)
    return DepthAdjuster(
        thread=at.threads["fine"],
        post_from=at.rear_at - st.POST_ENGAGED,
        post_to=at.yoke_at + reach + 1.5,
        post_h=st.POST_DEPTH,
        post_engaged=st.POST_ENGAGED,
        wheel_diameter=st.WHEEL,
        wheel_thickness=st.WHEEL_THICKNESS,
        wheel_front=st.WHEEL_FRONT,
        wheel_at=at.yoke_at,
        flange_diameter=17.0,
        hub_diameter=2 * hub,
        groove=groove,
        groove_flank=degrees(swing) + 2.0,
        yoke_thickness=groove - YOKE_PLAY,
        arm_thickness=arm,
        eye_diameter=st.YOKE_EYE,
        yoke_half_width=3.0,
        fork_inside=inside,
        fork_outside=inside + 2.6,
        tip_diameter=YOKE_TIP,
        window=breaker.yoke_window[0],
        tip_half_width=2.5,
        tip_q=breaker.gap + 0.92 * breaker.thickness,
        pivot_h=pivot_h,
        pivot_pin=st.YOKE_PIN,
        pin_from=-9.0,
        pin_to=9.0,
        upper_arm=upper,
    )


def _lateral(at: Stations, blade: BladeSize) -> LateralLever:
    return LateralLever(
        pivot_at=at.lateral_at,
        pin=4.0,
        pin_depth=4.5,
        width=9.0,
        thickness=2.4,
        recess_depth=2.9,
        start=at.lateral_at - 4.5,
        roller_at=at.roller_at,
        roller_diameter=blade.slot_width - 0.3,
        roller_height=blade.thickness - 0.4,
        tab_at=at.tab_at,
        tab_drop=13.0,
        tab_width=14.0,
    )


def _frog(
    spec: BenchSpec, at: Stations, depth: DepthAdjuster, travel: float, margin: float, cast: FrogStock
) -> FrogSize:
    # the eye and the leaning shank must both pass a slot whose corners are as round as a 3 mm cutter leaves them
    half_slot = depth.eye_diameter / 2 + 1.0
    half = spec.blade.width / 2 - margin
    web = 5.5
    slot_wide = at.threads["medium"].clearance_hole
    # no nearer to the web than the opening over the screw allows, and 2 mm of bed left outside it where there is room
    opening = at.washer + st.OPENING_PLAY
    holddown_y = max(web + opening / 2 + 0.1, min(0.62 * half, half - opening / 2 - 2.0))
    return FrogSize(
        bed_angle=spec.bed.angle,
        blade_thickness=spec.blade.thickness,
        half_width=half,
        low_z=at.low_z,
        high_z=at.high_z,
        high_from=at.high_from,
        bed_top=at.bed_top,
        bed_plate=st.BED_PLATE,
        bed_wall=7.0,
        rear_at=at.rear_at,
        rear_depth=st.REAR_DEPTH,
        floor=st.FROG_FLOOR,
        rear_wall=st.FROG_REAR_WALL,
        front_wall=7.0,
        web_half=web,
        relief=(at.bed_foot + 16.0, at.press_at - 12.0),
        relief_depth=0.8,
        holddown_at=at.holddown_at,
        holddown_y=holddown_y,
        holddown_slot=(2 * travel + slot_wide, slot_wide),
        access=(2 * travel + opening, opening),
        key_half=5.02,
        key_depth=st.WAY_DEPTH,
        cap_screw_at=at.cap_screw_at,
        cap_screw_tap_drill=at.threads["medium"].tap_drill,
        cap_screw_depth=14.0,
        yoke_at=at.yoke_at,
        yoke_slot=(at.yoke_at - half_slot, at.yoke_at + half_slot, depth.yoke_half_width + CLEARANCE),
        yoke_pivot_h=depth.pivot_h,
        yoke_pin=depth.pivot_pin,
        yoke_pin_to=-depth.pin_from,
        post_h=depth.post_h,
        post_tap_drill=depth.thread.tap_drill,
        post_tap_depth=st.POST_HOLE,
        lateral_at=at.lateral_at,
        lateral_pin=4.0,
        lateral_recess=(at.lateral_at - 5.2, 7.5, 2.9),
        travel=travel,
        draft=cast.draft,
        stock=cast.frog_stock,
        required=cast.frog_required,
        root_radius=cast.root_radius,
    )


def mechanism(spec: BenchSpec, cast: FrogStock) -> Mechanism:
    """Resolve all that sits on the frog seat.

    Args:
        spec: the plane.
        cast: what the castings add.
    """
    travel = TRAVEL if spec.frog.travel is None else spec.frog.travel
    margin = 1.5 if spec.frog.bed_margin is None else spec.frog.bed_margin
    at = st.stations(
        bed_angle=spec.bed.angle,
        blade_thickness=spec.blade.thickness,
        sole=spec.body.sole_thickness,
        travel=travel,
        system=spec.units,
        slot_low=SLOT_FROM_EDGE if spec.blade.slot_from_edge is None else spec.blade.slot_from_edge,
        half_width=spec.blade.width / 2 - margin,
        stock=cast.frog_stock,
        root=cast.root_radius,
        draft=cast.draft,
    )
    medium, large = at.threads["medium"], at.threads["large"]
    blade = blade_size(spec.blade, at.breaker_head)
    opening = (at.cap_head + 2 * st.BLADE_TRAVEL + 1.0, at.cap_head + 1.0)
    breaker = chipbreaker_size(
        spec.chipbreaker,
        blade_width=spec.blade.width,
        hump_at=at.nose_at,
        screw_at=at.screw_at,
        screw_thread_major=large.major,
        screw_tap_drill=large.tap_drill,
        cap_screw_at=at.cap_screw_at,
        cap_screw_opening=opening,
        yoke_at=at.yoke_at,
        yoke_window=(YOKE_TIP + YOKE_PLAY, 8.0),
    )
    depth = _depth_adjuster(at, blade, breaker)
    cap = lever_cap_size(
        blade_width=spec.blade.width,
        nose_at=at.nose_at,
        nose_q=breaker.hump_top,
        plate_top=breaker.plate_top,
        screw_at=at.cap_screw_at,
        screw_shank=medium.major,
        screw_head=at.cap_head,
        press_at=at.press_at,
        throw=1.4 if spec.lever_cap.throw is None else spec.lever_cap.throw,
        spring_thickness=1.0 if spec.lever_cap.spring_thickness is None else spec.lever_cap.spring_thickness,
        stock=cast.cap_stock,
        draft=cast.draft,
        inside_draft=cast.inside_draft,
        hole_minimum=cast.hole_minimum,
    )
    engaged = 1.25 * medium.major
    holddown = Screw(
        "frog hold-down screw",
        medium,
        st.WASHER + st.FROG_FLOOR + engaged,
        1.6 * medium.major,
        0.9 * medium.major,
        at.washer,
        st.WASHER,
    )
    cap_screw = Screw("lever-cap screw", medium, 12.0 + blade.thickness + cap.head_q, at.cap_head, 3.0)
    # ends where the chipbreaker's thread does, below the break of its upper mouth
    through = blade.thickness + breaker.thickness - THREAD_BREAK
    breaker_screw = Screw("chipbreaker screw", large, through, at.breaker_head, 3.2)
    return Mechanism(
        stations=at,
        blade=blade,
        chipbreaker=breaker,
        lever_cap=cap,
        frog=_frog(spec, at, depth, travel, margin, cast),
        depth=depth,
        lateral=_lateral(at, blade),
        holddown=holddown,
        cap_screw=cap_screw,
        chipbreaker_screw=breaker_screw,
    )


def lateral_angle_limit(blade: BladeSize, inside_half: float, at: Stations) -> float:
    """Return how far the blade can be tilted before a corner meets a cheek [deg], about the lever-cap screw."""
    room = inside_half - blade.width / 2
    return degrees(asin(min(1.0, max(0.0, room) / at.cap_screw_at)))
