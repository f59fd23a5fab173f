"""Where everything along the bed stands: solved from the bed's foot upward, each station from the one before.

Stations are s along the blade's face from the edge and h below the bed [mm]. Sizes of the small mechanism (wheel,
yoke, levers) are this works' own: proportion rules, common practice, no source.
"""

from __future__ import annotations

from math import cos, radians, sin, tan

from parts.body.room import FLOOR_LEFT
from parts.frog.outline import hollow_x
from shared.record import Record
from shared.threads import Thread, thread

WALL_RELIEF = 0.1  # the mouth's aft wall lies this far behind the bed plane
PAD_LOW = 1.5  # low frog pad above the plate
BLADE_TRAVEL = 2.0  # of the depth adjuster, along the blade, each way
WASHER = 1.6
BED_PLATE = 9.0
WHEEL = 22.0
WHEEL_FRONT = 4.5  # from the wheel's groove to its front face
WHEEL_THICKNESS = 11.0
POST_DEPTH = BED_PLATE + WHEEL / 2 + 1.0  # the wheel turns 1 mm clear of the bed plate
POST_ENGAGED = 8.0
POST_HOLE = POST_ENGAGED + 1.5  # full drill
REAR_DEPTH = POST_DEPTH + 8.0
YOKE_BEHIND = 12.5  # yoke's pivot above the rear face, along the bed
YOKE_EYE = 6.8
YOKE_PIN = 4.0
EYE_CLEAR = 0.3  # of the eye below the bed face
WAY_DEPTH = 3.3  # of the way over the body's key
LEAST_WALL = 1.5  # left between the post's hole and the way
OPENING_WALL = 2.0  # left between the opening over a hold-down screw and the hollow below the bed plate, or the pin
OPENING_PLAY = 0.6  # of that opening over the washer, both sides together
FROG_FLOOR = 7.0
FROG_REAR_WALL = 6.0


class Stations(Record):
    """Places along the bed and heights of the seats [mm]."""

    low_z: float
    high_z: float
    bed_foot: float  # s
    nose_at: float  # s: chipbreaker's hump and lever cap's nose
    rear_at: float  # s of the frog's rear face
    yoke_at: float
    pivot_h: float  # depth of the yoke's pivot
    press_at: float  # s where the lever cap's spring presses
    bed_top: float
    cap_screw_at: float
    lateral_at: float
    roller_at: float
    tab_at: float
    screw_at: float  # chipbreaker screw
    high_from: float  # x
    frog_aft: float  # x
    holddown_at: float  # x
    threads: dict[str, Thread]
    cap_head: float
    breaker_head: float
    washer: float


def cap_screw_beyond_slot(major: float) -> float:
    """Return how far the lever-cap screw's axis (major diameter [mm]) stays above the slot of a new blade [mm]."""
    return BLADE_TRAVEL + major / 2 + 0.5


def stations(
    *,
    bed_angle: float,
    blade_thickness: float,
    sole: float,
    travel: float,
    system: str,
    slot_low: float,
    half_width: float,
    stock: float,
    root: float,
    draft: float,
) -> Stations:
    """Solve the stations.

    Args:
        bed_angle: bed to sole [deg].
        blade_thickness: of the steel [mm].
        sole: thickness of the sole [mm].
        travel: of the frog along the sole, each way [mm].
        system: "inch" or "mm": which thread table.
        slot_low: lower end of the blade's slot from a new edge [mm].
        half_width: of the frog [mm].
        stock: on its rear face [mm].
        root: inside radius of its casting [mm].
        draft: of its casting [deg].
    """
    b, t = radians(bed_angle), blade_thickness
    threads = {use: thread(use, system) for use in ("small", "medium", "large", "fine")}
    medium = threads["medium"]
    low_z = sole + PAD_LOW
    # the high pad is as high as a full thread over an unbroken floor needs
    needed = FLOOR_LEFT + 1.25 * medium.major + 2 * medium.pitch
    high_z = max(sole + 6.0, needed)
    bed_foot = (low_z + t * cos(b)) / sin(b)
    nose_at = max(13.0, bed_foot + 2.0)
    # whatever the bed angle, the rear face must end above the foot's floor, and the post's hole above the way
    above_floor = (high_z + 3.0 + (t + REAR_DEPTH) * cos(b)) / sin(b)
    hole_low = POST_DEPTH + threads["fine"].tap_drill / 2
    above_way = POST_HOLE + (high_z + WAY_DEPTH + LEAST_WALL + (t + hole_low) * cos(b)) / sin(b)
    # the screws go as far forward as their thread keeps metal ahead of it in the body's pad; behind the opening over
    # each, metal is left up to the hollow where rear face and bed plate meet, and up to the yoke's pin
    washer = 2.0 * medium.major
    high_from = t * sin(b) + bed_foot * cos(b) + 18.0
    pad_from = high_from + travel + 0.5
    reach = travel + (washer + OPENING_PLAY) / 2 + OPENING_WALL
    # in the plate's middle, nearer the bed where much draft thins the plate at the sides; the eye stays below the bed
    below = BED_PLATE - half_width * tan(radians(draft)) - YOKE_PIN / 2 - LEAST_WALL
    pivot_h = max(min(BED_PLATE / 2, below), YOKE_EYE / 2 + EYE_CLEAR)

    def behind(rear: float) -> float:
        hollow = hollow_x(
            bed_angle=bed_angle, blade_thickness=t, bed_plate=BED_PLATE, rear_at=rear, stock=stock, root=root,
            draft=draft, y=half_width,
        )  # fmt: skip
        return min(hollow, (t + pivot_h) * sin(b) + (rear + YOKE_BEHIND) * cos(b) - YOKE_PIN / 2)

    behind_opening = (pad_from + 0.55 * washer + reach - behind(0.0)) / cos(b)
    rear_at = max(60.0, above_floor, above_way, behind_opening)
    yoke_at = rear_at + YOKE_BEHIND
    press_at = yoke_at + 8.0
    lateral_at = yoke_at + 11.6
    bed_top = lateral_at + 4.4
    breaker_head = 2.0 * threads["large"].major - 1.0
    tab_at = bed_top + 14.0
    aft = (t + REAR_DEPTH) * sin(b) + rear_at * cos(b)
    foot_aft = aft - FROG_REAR_WALL - washer / 2 - travel - 0.5
    holddown_at = min(pad_from + washer, foot_aft, behind(rear_at) - reach)
    return Stations(
        low_z=low_z,
        high_z=high_z,
        bed_foot=bed_foot,
        nose_at=nose_at,
        rear_at=rear_at,
        yoke_at=yoke_at,
        pivot_h=pivot_h,
        press_at=press_at,
        bed_top=bed_top,
        cap_screw_at=max(nose_at + 0.53 * (press_at - nose_at), slot_low + cap_screw_beyond_slot(medium.major)),
        lateral_at=lateral_at,
        roller_at=bed_top + 6.0,
        tab_at=tab_at,
        screw_at=tab_at + 2.5 + BLADE_TRAVEL + breaker_head / 2 + 1.0,
        high_from=high_from,
        frog_aft=aft,
        holddown_at=holddown_at,
        threads=threads,
        cap_head=10.4,
        breaker_head=breaker_head,
        washer=washer,
    )
