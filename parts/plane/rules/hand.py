"""Rules of hand and handle."""

from __future__ import annotations

from math import cos, radians

from parts.handle.hand import grip_for, hand_breadth, largest_hand, share_of_hands
from parts.plane.design import Design
from parts.plane.placing import KNUCKLE_CLEARANCE, WOOD_CLEARANCE
from parts.plane.rules.said import amount, in_both
from shared.findings import Finding, judge
from shared.numbers import COMMON_PRACTICE, GEOMETRY


def hands(d: Design, ahead_x: float, ahead: str, why: str) -> list[Finding]:
    """Judge room for the hand, and the hands the grip takes; nothing without a tote.

    Args:
        d: the plane.
        ahead_x: x that the tote's foot may not pass [mm], what moves there at its farthest.
        ahead: what stands there.
        why: what it needs its room for.
    """
    spec, place, tote = d.spec, d.tote_at, d.tote
    if place is None or tote is None:
        return []
    c = place.clearance
    breadth = largest_hand(tote.grip, 3)
    share = share_of_hands(breadth, spec.handle.hand)
    gap = place.x + tote.foot_front_x - ahead_x
    lack = WOOD_CLEARANCE - place.wood_clearance
    wanted = grip_for(hand_breadth(0.5, spec.handle.hand), 3)
    return [
        Finding(
            "H01",
            "handle",
            "knuckles clear blade, levers and wheel",
            judge(c >= KNUCKLE_CLEARANCE - 1e-6, c >= 0.0),
            in_both(d, c),
            in_both(d, KNUCKLE_CLEARANCE),
            f"the hand is three fingers on the tote, the forefinger along the blade; {place.decided_by}",
            COMMON_PRACTICE,
            f"lengthen body.length or lower body.mouth_from_toe by about {amount(d, KNUCKLE_CLEARANCE - c)}",
        ),
        Finding(
            "H04",
            "handle",
            "tote clears blade and levers",
            judge(place.wood_clearance >= WOOD_CLEARANCE - 1e-6, place.wood_clearance >= 1.5),
            in_both(d, place.wood_clearance),
            in_both(d, WOOD_CLEARANCE),
            f"the blade's upper end stands over the tote; {place.decided_by}",
            COMMON_PRACTICE,
            f"lengthen body.length or lower body.mouth_from_toe by about {amount(d, lack)}, or shorten blade.length by "
            f"{amount(d, lack / cos(radians(spec.bed.angle)))} where it is the blade",
        ),
        Finding(
            "H02",
            "handle",
            f"tote's toe clears the {ahead}",
            judge(gap >= 1.0, gap >= 0.0),
            in_both(d, gap),
            "1 mm",
            why,
            GEOMETRY,
            f"lengthen body.length or lower handle.toe_reach by about {amount(d, 1.0 - gap)}",
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
