"""Where the tote stands, and how far hand and tote are from everything round them, as numbers."""

from __future__ import annotations

from parts.plane.design import Design
from parts.plane.hand_room import CHEEK_CLEARANCE, cheek_clearance, fingers
from parts.plane.placing import FINGER_DEPTH, KNUCKLE_CLEARANCE, WOOD_CLEARANCE
from shared.numbers import COMMON_PRACTICE, GEOMETRY, PROPORTION, Numbers


def add_tote_place(n: Numbers, d: Design) -> None:
    """Add the numbers of the tote's place; nothing for a plane without one."""
    place, tote = d.tote_at, d.tote
    if place is None or tote is None:
        return
    n.add(
        "tote_rod_from_edge_mm",
        place.x,
        "where the tote's rod meets the plate, aft of the edge",
        "nearest x at which fingers and tote clear every obstacle: obstacle grown by the clearance + finger - front",
        {"finger_mm": FINGER_DEPTH, "fingers_clear_mm": KNUCKLE_CLEARANCE, "tote_clears_mm": WOOD_CLEARANCE},
        PROPORTION,
        place.decided_by,
    )
    n.add(
        "knuckle_clearance_mm",
        place.clearance,
        "least distance between fingers and blade, levers, cap or wheel",
        "from a finger's depth ahead of the grip's front to the obstacle, least over the fingers' heights",
        {"finger_mm": FINGER_DEPTH},
        COMMON_PRACTICE,
        place.decided_by,
    )
    n.add(
        "tote_clearance_mm",
        place.wood_clearance,
        "least distance between the tote and blade, levers, cap or wheel",
        "from the tote's front to the obstacle in the middle plane, least from foot to crest",
        {"asked_mm": WOOD_CLEARANCE},
        COMMON_PRACTICE,
        place.decided_by,
    )
    n.add(
        "cheek_clearance_mm",
        cheek_clearance(fingers(tote, place.x), d.body),
        "least distance between the fingers round the tote and the insides of the cheeks",
        "from a round finger beside the wood to the cheek's rim, least over three fingers",
        {"finger_mm": FINGER_DEPTH, "asked_mm": CHEEK_CLEARANCE},
        COMMON_PRACTICE,
    )
    n.add(
        "arch_to_mm",
        d.body.arch_to,
        "where the cheeks have fallen to the heel's rails, aft of the edge",
        "0.35 of the way from tote to heel, or as far ahead of it as the hand asks",
        {"tote_mm": place.x, "heel_mm": d.body.heel_x},
        GEOMETRY,
    )
