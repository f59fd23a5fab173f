"""Rules of hand and handle."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from parts.handle.hand import grip_for, hand_breadth, largest_hand, share_of_hands
from parts.plane.design import Design
from parts.plane.hand_room import CHEEK_CLEARANCE, cheek_clearance, fingers
from parts.plane.placing import KNUCKLE_CLEARANCE, WOOD_CLEARANCE
from parts.plane.rules.said import amount, in_both
from parts.plane.rules.trial import Holds, either, least_offer
from shared.findings import Finding, judge
from shared.numbers import COMMON_PRACTICE, GEOMETRY

NEARLY = 1e-6  # mm that rounding may take from a room that is there


def _room_for(
    d: Design, lack: float, has_room: Holds, other: tuple[str, str, float | None] | None = None
) -> str:  # fmt: skip
    """Return which keys give the tote its room, each by the least amount that does.

    Args:
        d: the plane.
        lack: room that is lacking [mm].
        has_room: whether a plane has it.
        other: another key that may give it: which way, the key, its size where it is left out [mm].
    """
    if lack <= NEARLY:
        return ""
    ways = [("lengthen", "body.length", None), ("lower", "body.mouth_from_toe", None), *([other] if other else [])]
    found = either(*(least_offer(d, verb, key, lack, has_room, now) for verb, key, now in ways))
    return found or "lengthen body.length with blade and mouth as they are, or lower handle.grip: no one key does it"


def _beside(d: Any) -> float:
    """Return how far the fingers round the tote are from the cheeks [mm]."""
    return cheek_clearance(fingers(d.tote, d.tote_at.x), d.body)


def _lower_cheeks(d: Design, lack: float) -> str:
    """Return which keys bring the cheeks away from the fingers, each by the least amount that does."""
    if lack <= NEARLY:
        return ""

    def clear(x: Any) -> bool:
        return _beside(x) >= CHEEK_CLEARANCE - NEARLY

    rail = d.body.rail_height
    found = either(least_offer(d, "lower", "body.rail_height", lack, clear, rail),
                   least_offer(d, "lower", "body.cheek_height", lack, clear),
                   least_offer(d, "widen", "body.width", lack, clear))  # fmt: skip
    return found or "lower body.cheek_height and body.rail_height, or widen body.width: no one key does it"


def hands(d: Design, ahead_of: Callable[[Any], float], ahead: str, why: str) -> list[Finding]:
    """Judge room for the hand, and the hands the grip takes; nothing without a tote.

    Args:
        d: the plane.
        ahead_of: gives the x of a plane that the tote's foot may not pass [mm], what moves there at its farthest.
        ahead: what stands there.
        why: what it needs its room for.
    """
    spec, place, tote = d.spec, d.tote_at, d.tote
    if place is None or tote is None:
        return []
    c = place.clearance
    breadth = largest_hand(tote.grip, 3)
    share = share_of_hands(breadth, spec.handle.hand)
    gap = place.x + tote.foot_front_x - ahead_of(d)
    lack = WOOD_CLEARANCE - place.wood_clearance
    beside = _beside(d)
    wanted = grip_for(hand_breadth(0.5, spec.handle.hand), 3)
    return [
        Finding(
            "H01",
            "handle",
            "knuckles clear blade, levers and wheel",
            judge(c >= KNUCKLE_CLEARANCE - NEARLY, c >= 0.0),
            in_both(d, c),
            in_both(d, KNUCKLE_CLEARANCE),
            f"the hand is three fingers on the tote, the forefinger along the blade; {place.decided_by}",
            COMMON_PRACTICE,
            _room_for(d, KNUCKLE_CLEARANCE - c, lambda x: x.tote_at.clearance >= KNUCKLE_CLEARANCE - NEARLY),
        ),
        Finding(
            "H04",
            "handle",
            "tote clears blade and levers",
            judge(place.wood_clearance >= WOOD_CLEARANCE - NEARLY, place.wood_clearance >= 1.0),
            in_both(d, place.wood_clearance),
            in_both(d, WOOD_CLEARANCE),
            f"the blade's upper end stands over the tote; {place.decided_by}",
            COMMON_PRACTICE,
            _room_for(
                d,
                lack,
                lambda x: x.tote_at.wood_clearance >= WOOD_CLEARANCE - NEARLY,
                ("shorten", "blade.length", None),
            ),
        ),
        Finding(
            "H02",
            "handle",
            f"tote's toe clears the {ahead}",
            judge(gap >= 1.0 - NEARLY, gap >= 0.0),
            in_both(d, gap),
            "1 mm",
            why,
            GEOMETRY,
            _room_for(
                d,
                1.0 - gap,
                lambda x: x.tote_at.x + x.tote.foot_front_x - ahead_of(x) >= 1.0 - NEARLY,
                ("lower", "handle.toe_reach", tote.toe_reach),
            ),
        ),
        Finding(
            "H08",
            "handle",
            "fingers round the tote clear the cheeks",
            judge(beside >= CHEEK_CLEARANCE - NEARLY, beside >= 2.0),
            in_both(d, beside),
            in_both(d, CHEEK_CLEARANCE),
            "the cheeks fall as low beside the hand as it asks, as near the peak as a calm outline allows",
            COMMON_PRACTICE,
            _lower_cheeks(d, CHEEK_CLEARANCE - beside),
        ),
        Finding(
            "H03",
            "handle",
            "hands that the grip clears",
            judge(share >= 0.5, share >= 0.25),
            f"{breadth:.0f} mm hand breadth with three fingers, {100 * share:.0f} % of {spec.handle.hand}",
            "half of them or more",
            "the tote is gripped by three fingers, the forefinger lies forward",
            "ANSUR II hand breadths; clearance common practice, no source",
            f"raise handle.grip by about {amount(d, wanted - tote.grip)}",
        ),
    ]
