"""Every size of tote and knob, resolved from the spec by proportion rules, and what a plane needs to place them.

The grip follows from the hand, everything else from the grip; nothing here knows the plane's length.
"""

from __future__ import annotations

import math

from parts.handle import hand
from parts.handle.form import ToteForm, point_on_rod, tote_form
from parts.handle.measure import (
    Envelope,
    Narrowest,
    finger_band,
    grip_back_at,
    grip_front_at,
    knob_envelope,
    least_wood,
    narrowest_section,
    rod_length,
    tote_envelope,
    tote_extent,
)
from parts.handle.spec import HandleSpec
from shared.errors import RequestError
from shared.record import Value

__all__ = [
    "Envelope",
    "KnobSize",
    "Narrowest",
    "ToeScrew",
    "ToteSize",
    "finger_band",
    "grip_back_at",
    "grip_front_at",
    "grip_of",
    "knob_envelope",
    "knob_size",
    "least_wood",
    "narrowest_section",
    "rod_length",
    "tote_envelope",
    "tote_extent",
    "tote_size",
]

MIN_WOOD = 6.0  # least wood around the rod's bore [mm]; common practice, no source
MIN_BOSS_WOOD = 3.0  # least wood beside the counterbore that sits on the cast boss [mm]; common practice, no source
MIN_TOE_WOOD = 3.0  # least wood between the toe screw's head and its boss [mm]; common practice, no source
BOSS_CLEARANCE = 0.5  # on the boss' diameter [mm]
# over the boss [mm], so that the flat foot bears: bosses are milled from the sole, the plate beside them stays as cast
# and may be thinner than drawn by half its casting tolerance, 1 mm of a wall of grade 10
BOSS_OVER = 1.3
HEIGHT_TOL = 0.3  # of a handle's height where its nut sits, either way; common practice, no source [mm]
CREST_GAP = 6.5  # from the top of the hand's clear height to the crest, along the rod [mm]
TOE_SCREW = 5.0  # nominal diameter of the second screw [mm]
TOE_HEAD = 9.5  # counterbore for its head [mm]
TOE_BOSS = 12.0  # its boss on the body [mm]
FOOT_SHARE = 0.15  # height of the foot over the grip; proportion rule of this works
TOE_HEAD_DEPTH = 3.5  # depth of the head below the top of the toe [mm]


class ToeScrew(Value):
    """The second screw at the tote's toe: vertical, x from the rod's foot, heights above the foot plane [mm]."""

    x: float
    bore_diameter: float
    head_diameter: float
    head_seat_z: float
    boss_diameter: float
    boss_depth: float


class ToteSize(Value):
    """Resolved sizes of the tote [mm, deg]. Frame: origin at rod axis on the foot plane, x aft, z up."""

    grip: float  # clear height for the hand, along the rod, from the top of the foot
    grip_depth: float  # fore and aft at mid-grip, square to the rod
    grip_width: float  # across, at mid-grip
    head_width: float
    lean_deg: float  # of rod and spine, forward as they rise
    horn_length: float  # reach of the horn aft of the waist below it
    foot_length: float
    foot_width: float
    foot_height: float
    toe_reach: float  # foot ahead of the grip's front
    foot_front_x: float
    foot_rear_x: float
    hand_bottom: float  # along the rod, foot plane to the bottom of the grip
    rod_height: float  # along the rod, foot plane to the crest around the nut
    crest_radius: float  # circle round the nut where the top is square to the rod
    rim_radius: float  # rounding from that circle into the counterbore
    arris_radius: float  # easing of the bottom edge
    foot_plane_z: float  # height of the foot plane above the sole
    bore_diameter: float
    nut_counterbore_diameter: float
    nut_counterbore_depth: float  # along the rod, from the crest
    boss_counterbore_diameter: float
    boss_counterbore_depth: float
    toe: ToeScrew | None

    @property
    def form(self) -> ToteForm:
        """The curves of this tote."""
        return tote_form(self)


class KnobSize(Value):
    """Resolved sizes of the knob [mm]. Frame: origin on the foot plane at the rod's axis, z up."""

    height: float
    diameter: float
    waist: float
    foot_diameter: float
    crest_radius: float
    rim_radius: float
    arris_radius: float
    foot_plane_z: float
    bore_diameter: float
    nut_counterbore_diameter: float
    nut_counterbore_depth: float
    boss_counterbore_diameter: float
    boss_counterbore_depth: float


def _clip(value: float, low: float, high: float) -> float:
    return min(max(value, low), high)


def grip_of(spec: HandleSpec) -> float:
    """Return the clear height for the hand [mm]: as set, else from the hand's breadth, within 75 to 105 mm."""
    return spec.grip if spec.grip is not None else _clip(hand.default_grip(spec.hand_percentile, spec.hand), 75, 105)


def largest_toe_boss(spec: HandleSpec) -> float:
    """Return the highest boss [mm] over the foot plane that leaves enough wood under the toe screw's head."""
    return FOOT_SHARE * grip_of(spec) - TOE_HEAD_DEPTH - 1.0 - MIN_TOE_WOOD - BOSS_OVER


def tote_size(
    spec: HandleSpec,
    *,
    foot_plane_z: float,
    rod_diameter: float,
    nut_diameter: float,
    boss_diameter: float,
    boss_height: float,
    toe_screw: bool = False,
    nut_height: float = 8.0,
    bore_clearance: float = 0.8,
    nut_clearance: float = 0.5,
    toe_screw_diameter: float = TOE_SCREW,
    toe_head_diameter: float = TOE_HEAD,
    toe_boss_diameter: float = TOE_BOSS,
    toe_boss_height: float | None = None,
) -> ToteSize:
    """Resolve the tote.

    Args:
        spec: the `[handle]` section.
        foot_plane_z: height of the foot plane above the sole [mm].
        rod_diameter: rod through the tote [mm].
        nut_diameter: outside of the nut on top [mm].
        boss_diameter: cast boss that the underside registers on [mm].
        boss_height: height of that boss (and of the toe's) above the foot plane [mm].
        toe_screw: whether a second screw holds the toe.
        nut_height: height of the nut [mm].
        bore_clearance: on the rod's diameter, for movement of the wood [mm].
        nut_clearance: on the nut's diameter and height [mm].
        toe_screw_diameter: second screw [mm].
        toe_head_diameter: counterbore for its head [mm].
        toe_boss_diameter: its boss [mm].
        toe_boss_height: height of that boss [mm]; None takes `boss_height`.

    Raises:
        RequestError: too little wood would be left around a bore or counterbore.

    Source: proportion rules of this works, common practice, no source.
    """
    grip = grip_of(spec)
    depth = spec.grip_depth or _clip(0.40 * grip, 32, 40)
    width = spec.grip_width or _clip(0.72 * depth, 24, 28)
    lean = spec.lean or 12.0
    foot_length = spec.foot_length or _clip(2.45 * depth, 85, 100)
    foot_width = spec.foot_width or _clip(0.93 * width, 22, 25)
    foot_height = FOOT_SHARE * grip
    toe_reach = spec.toe_reach or _clip(0.62 * depth, 15, 30)
    counterbore, rim = nut_diameter + nut_clearance, hand.palm_radius()
    crest = counterbore / 2 + rim
    hand_bottom = foot_height / math.cos(math.radians(lean))
    front = point_on_rod(lean, hand_bottom, -0.48 * depth)[0] - toe_reach
    toe = None
    if toe_screw:
        toe = ToeScrew(
            x=front + max(toe_head_diameter / 2 + 4.0, 9.5),
            bore_diameter=toe_screw_diameter + bore_clearance,
            head_diameter=toe_head_diameter,
            head_seat_z=foot_height - TOE_HEAD_DEPTH - 1.0,
            boss_diameter=toe_boss_diameter + BOSS_CLEARANCE,
            boss_depth=(boss_height if toe_boss_height is None else toe_boss_height) + BOSS_OVER,
        )
    size = ToteSize(
        grip=grip,
        grip_depth=depth,
        grip_width=width,
        head_width=max(width, 2 * (crest + 1.55 * rim)),
        lean_deg=lean,
        horn_length=spec.horn_length or _clip(0.45 * depth, 8, 20),
        foot_length=foot_length,
        foot_width=foot_width,
        foot_height=foot_height,
        toe_reach=toe_reach,
        foot_front_x=front,
        foot_rear_x=front + foot_length,
        hand_bottom=hand_bottom,
        rod_height=hand_bottom + grip + CREST_GAP,
        crest_radius=crest,
        rim_radius=rim,
        arris_radius=1.0,
        foot_plane_z=foot_plane_z,
        bore_diameter=rod_diameter + bore_clearance,
        nut_counterbore_diameter=counterbore,
        nut_counterbore_depth=nut_height + nut_clearance,
        boss_counterbore_diameter=boss_diameter + BOSS_CLEARANCE,
        boss_counterbore_depth=boss_height + BOSS_OVER,
        toe=toe,
    )
    _check_wood(size)
    return size


def _need(what: str, have: float, need: float, hint: str) -> None:
    if have < need - 1e-9:
        raise RequestError(f"tote or knob: {what} leaves {have:.1f} mm of wood, needs {need:.1f} mm; {hint}")


def _check_wood(size: ToteSize) -> None:
    wood, h = least_wood(size)
    _need(f"the rod's bore at {h:.0f} mm up the rod", wood, MIN_WOOD, "raise handle.grip_depth or handle.grip_width")
    side = (size.foot_width - size.boss_counterbore_diameter) / 2
    _need("the counterbore on the tote's boss", side, MIN_BOSS_WOOD, "raise handle.foot_width")
    if size.toe:
        middle = size.toe.head_seat_z - size.toe.boss_depth
        _need("the toe screw between head and boss", middle, MIN_TOE_WOOD, "raise handle.grip by 7 times what lacks")
        side = (size.foot_width - size.toe.boss_diameter) / 2
        _need("the counterbore on the toe's boss", side, MIN_BOSS_WOOD, "raise handle.foot_width")


def knob_size(
    spec: HandleSpec,
    *,
    foot_plane_z: float,
    rod_diameter: float,
    nut_diameter: float,
    boss_diameter: float,
    boss_height: float,
    nut_height: float = 8.0,
    bore_clearance: float = 0.8,
    nut_clearance: float = 0.5,
) -> KnobSize:
    """Resolve the knob; arguments [mm] and errors as for `tote_size`.

    Raises:
        RequestError: too little wood would be left around the bore at the waist or beside the boss.

    Source: proportion rules of this works, common practice, no source.
    """
    grip = grip_of(spec)
    height = spec.knob_height or _clip(0.47 * grip, 38, 45)
    diameter = spec.knob_diameter or _clip(0.43 * grip, 34, 42)
    waist = spec.knob_waist or _clip(0.66 * diameter, 20, 32)
    counterbore, rim = nut_diameter + nut_clearance, hand.palm_radius()
    size = KnobSize(
        height=height,
        diameter=diameter,
        waist=waist,
        foot_diameter=max(0.80 * diameter, waist + 4.0),
        crest_radius=counterbore / 2 + rim,
        rim_radius=rim,
        arris_radius=1.0,
        foot_plane_z=foot_plane_z,
        bore_diameter=rod_diameter + bore_clearance,
        nut_counterbore_diameter=counterbore,
        nut_counterbore_depth=nut_height + nut_clearance,
        boss_counterbore_diameter=boss_diameter + BOSS_CLEARANCE,
        boss_counterbore_depth=boss_height + BOSS_OVER,
    )
    if size.waist > 0.85 * size.diameter:
        least = size.waist / 0.85
        raise RequestError(
            f"knob: a waist of {size.waist:.1f} mm needs a diameter of {least:.1f} mm or more: "
            f"raise handle.knob_diameter, or lower handle.knob_waist to {0.85 * size.diameter:.1f} mm"
        )
    middle = (size.waist - size.bore_diameter) / 2
    _need("the rod's bore at the knob's waist", middle, MIN_WOOD, "raise handle.knob_waist")
    side = (size.foot_diameter - size.boss_counterbore_diameter) / 2
    _need("the counterbore on the knob's boss", side, MIN_BOSS_WOOD, "raise handle.knob_diameter")
    return size
