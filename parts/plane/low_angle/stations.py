"""Where everything along the bed of a low-angle plane stands: solved from the bevel upward, each from the one before.

Stations are s up the bed from the edge, h below it [mm]. Sizes of the small mechanism (stud, wheel, cap) are this
works' own: proportion rules, common practice, no source.
"""

from __future__ import annotations

from math import cos, radians, sin

from parts.blade.bevel import bevel_shape
from parts.body.room import FLOOR_LEFT
from shared.record import Record
from shared.threads import Thread, thread

TRAVEL = 4.0  # of the depth adjuster, along the blade, each way
SLOT_PITCH = 4.0
LIFE = 16.0
NOSE_BEHIND = 1.0  # nose land behind the heel of the bevel, blade drawn back
STUD_WALL = 3.5  # land beyond the stud's shank
SAND = 6.8  # plate between the feet of front land and bridge, stock and cutter counted: sand must stand there
FOOT = 0.04  # what draft adds to a foot, of its height
BRIDGE = 14.0  # length of the bridge's land, as long as the clamp's foot is wide
BRIDGE_FROM = 57.0  # nearest place of the bridge: the cap needs its length for the hand
AXIS_H = 4.0  # of the depth post under the bed
FLANGE_ABOVE_BED = 2.2  # the flange stands so far up in the blade's cross slot, where the blade is thick enough
FLANGE = 2.2  # its thickness
WHEEL_CLEAR = 0.6  # wheel over the plate, at its lowest
BRIDGE_CLEAR = 0.5  # wheel from the bridge, blade pushed right out
POST_DIAMETERS = 1.5  # engaged in the bridge
WHEEL_THREAD = 10.0  # length of the wheel's thread
BLADE_BEYOND = 4.0  # steel beyond the last cross slot
RIM_BEHIND = 1.0  # wheel's rim behind the blade's end
RIM = 8.0  # length of the rim
CAP_GAP = 4.2  # underside of the cap over the blade: the clamp's foot and its travel


class LowStations(Record):
    """Places along the bed [mm], and what decided those that several things could."""

    heel_at: float  # s of the bevel's heel
    nose_at: float
    stud_at: float
    stud_decided_by: str
    land_to: float  # s: the front land must reach so far
    bridge: tuple[float, float]  # s
    bridge_decided_by: str
    clamp_at: float
    flange_at: float  # s of the wheel's flange and the first cross slot
    flange_decided_by: str
    flange_radius: float
    slots: int
    slot_pitch: float
    rim_from: float
    rim_to: float
    least_blade: float  # shortest blade that has all cross slots
    threads: dict[str, Thread]

    @property
    def life(self) -> float:
        """Steel that the row of cross slots lets one sharpen away [mm]."""
        return (self.slots - 1) * self.slot_pitch


def least_stud(bed_angle: float, stud: Thread) -> float:
    """Return the nearest s [mm] at which a stud finds one diameter of thread over an unbroken floor; bed [deg]."""
    b = radians(bed_angle)
    return (FLOOR_LEFT + (stud.major + stud.pitch + 0.05) * cos(b) + stud.tap_drill / 2 * sin(b)) / sin(b)


def least_flange(bed_angle: float, sole: float, radius: float) -> float:
    """Return the nearest s of a flange of a radius that clears the plate's top, pushed right out [mm]; bed [deg]."""
    b = radians(bed_angle)
    return (sole + (AXIS_H + radius + WHEEL_CLEAR) * cos(b)) / sin(b) + FLANGE / 2 + TRAVEL


def low_stations(
    *,
    bed_angle: float,
    thickness: float,
    bevel: float,
    micro_bevel: float | None,
    micro_width: float,
    blade_length: float,
    sole: float,
    front_land: float,
    root_radius: float,
    system: str,
    pitch: float | None,
    life: float | None,
) -> LowStations:
    """Solve the stations.

    Args:
        bed_angle: bed to sole [deg].
        thickness: of the blade [mm].
        bevel: ground bevel [deg].
        micro_bevel: honed bevel [deg], or None.
        micro_width: its width along itself [mm].
        blade_length: of a new blade [mm].
        sole: thickness of the plate [mm].
        front_land: s up to which the front land reaches at least [mm].
        root_radius: inside radius of the casting, at the feet of land and bridge [mm].
        system: "inch" or "mm": which thread table.
        pitch: of the cross slots [mm], or None.
        life: steel to be sharpened away [mm], or None.
    """
    threads = {use: thread(use, system) for use in ("small", "medium", "small-fine")}
    heel = bevel_shape(thickness, bevel, micro_bevel, micro_width).heel_from_edge
    nose = heel + TRAVEL + NOSE_BEHIND
    step = SLOT_PITCH if pitch is None else pitch
    slots = 1 + max(1, round((LIFE if life is None else life) / step))
    radius = AXIS_H + min(FLANGE_ABOVE_BED, thickness - 0.6)
    need = least_stud(bed_angle, threads["small"])
    # half way between nose and clamp shares the clamp's force evenly, if the metal is deep enough there
    middle = nose + 0.5 * (BRIDGE_FROM + BRIDGE / 2 - nose)
    stud, stud_why = max((need, "one diameter of thread over the floor"), (middle, "half way from nose to clamp"))
    land = max(front_land, stud + threads["small"].major / 2 + STUD_WALL)
    gap = SAND + 2 * (root_radius + FOOT * land * sin(radians(bed_angle)))
    start, bridge_why = max((land + gap, "room for sand behind the front land"), (BRIDGE_FROM, "length of the cap"))
    bridge = (start, start + BRIDGE)
    flange, flange_why = max(
        (bridge[1] + BRIDGE_CLEAR + FLANGE / 2 + TRAVEL, "the wheel clears the bridge, blade pushed out"),
        (least_flange(bed_angle, sole, radius), "the wheel's flange clears the plate, blade pushed out"),
    )
    rim = blade_length + RIM_BEHIND
    return LowStations(
        heel_at=heel,
        nose_at=nose,
        stud_at=stud,
        stud_decided_by=stud_why,
        land_to=land,
        bridge=bridge,
        bridge_decided_by=bridge_why,
        clamp_at=start + BRIDGE / 2,
        flange_at=flange,
        flange_decided_by=flange_why,
        flange_radius=radius,
        slots=slots,
        slot_pitch=step,
        rim_from=rim,
        rim_to=rim + RIM,
        least_blade=flange + (slots - 1) * step + FLANGE / 2 + BLADE_BEYOND,
        threads=threads,
    )
