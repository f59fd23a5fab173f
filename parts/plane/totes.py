"""Which form the tote takes, and where it stands: as near the edge as a hand allows."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from parts.body import layout as body_rules
from parts.handle.measure import grip_front_at
from parts.handle.size import ToteSize, largest_toe_boss, tote_size
from parts.handle.spec import HandleSpec
from parts.plane.hand_room import finger_band
from parts.plane.placing import KNUCKLE_CLEARANCE, WOOD_CLEARANCE, Obstacle, TotePlace, place_tote
from shared.record import Record

NUT_HEIGHT = 12.0
NUT_DIAMETER = 11.0


class ToteRoom(Record):
    """What the tote must fit: the things it and the hand clear, and the body between them and the heel [mm]."""

    things: Sequence[Obstacle]
    sole: float
    heel_x: float
    foot_from: float  # x that the foot's front may not pass
    foot_why: str  # what stands there
    rod_diameter: float
    toe_screw: float | None  # diameter of a second screw, or None


def toe_boss_rise(handle: HandleSpec) -> float:
    """Return the height of the boss at the tote's toe above the plate [mm]: lower where a small foot asks for it."""
    return min(body_rules.TOTE_BOSS_RISE, largest_toe_boss(handle))


def _front_above_sole(tote: ToteSize, z: float) -> float:
    return grip_front_at(tote, z - tote.foot_plane_z)


def choose_tote(handle: HandleSpec, room: ToteRoom) -> tuple[ToteSize, TotePlace, str]:
    """Return the tote, its place, and which form of it was taken: on a short body the foot moves ahead of the grip,
    then the spine stands more upright, before the hand loses its clearance. Only what the spec leaves open changes.

    Raises:
        RequestError: too little wood would be left around a bore.
    """
    forms: list[tuple[dict[str, float], str]] = [
        ({}, "sizes by the hand"),
        ({"toe_reach": 30.0, "foot_length": 85.0}, "short body: foot moved ahead under the grip"),
        ({"toe_reach": 30.0, "foot_length": 85.0, "lean": 6.0}, "short body: foot moved ahead, spine more upright"),
    ]
    for change, why in forms:
        taken = why
        open_keys = {k: v for k, v in change.items() if getattr(handle, k) is None}
        screw = {} if room.toe_screw is None else {"toe_screw_diameter": room.toe_screw}
        tote = tote_size(
            handle.model_copy(update=open_keys),
            foot_plane_z=room.sole,
            rod_diameter=room.rod_diameter,
            nut_diameter=NUT_DIAMETER,
            boss_diameter=body_rules.TOTE_BOSS,
            boss_height=body_rules.TOTE_BOSS_RISE,
            toe_screw=room.toe_screw is not None,
            nut_height=NUT_HEIGHT,
            toe_boss_height=toe_boss_rise(handle),
            **screw,
        )
        bottom = tote.foot_plane_z + tote.foot_height
        crest = tote.foot_plane_z + tote.form.front_at(tote.form.spans)[1]
        place = place_tote(
            room.things,
            partial(_front_above_sole, tote),
            finger_band(tote),
            (bottom, crest),
            tote.foot_front_x,
            tote.foot_rear_x,
            room.heel_x,
            room.foot_from,
            room.foot_why,
        )
        if place.clearance >= KNUCKLE_CLEARANCE - 1e-6 and place.wood_clearance >= WOOD_CLEARANCE - 1e-6:
            break
    return tote, place, taken
