"""Rules of hand and handle."""

from __future__ import annotations

from parts.handle.hand import largest_hand, share_of_hands
from parts.plane.bench.design import BenchDesign
from parts.plane.placing import KNUCKLE_CLEARANCE, WOOD_CLEARANCE
from parts.plane.rules.said import in_both
from shared.findings import Finding, judge
from shared.numbers import COMMON_PRACTICE, GEOMETRY


def hands(d: BenchDesign) -> list[Finding]:
    """Judge room for the hand, and the hands the grip takes."""
    spec, place, tote = d.spec, d.tote_at, d.tote
    c = place.clearance
    breadth = largest_hand(tote.grip, 3)
    share = share_of_hands(breadth, spec.handle.hand)
    frog_gap = place.x + tote.foot_front_x - d.mechanism.stations.frog_aft - d.mechanism.frog.travel
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
            f"lengthen body.length or shorten body.mouth_from_toe by {max(0.0, KNUCKLE_CLEARANCE - c):.1f} mm",
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
            f"lengthen body.length, shorten body.mouth_from_toe or lower handle.grip by "
            f"{max(0.0, WOOD_CLEARANCE - place.wood_clearance):.1f} mm",
        ),
        Finding(
            "H02",
            "handle",
            "tote's toe clears the frog",
            judge(frog_gap >= 1.0, frog_gap >= 0.0),
            in_both(d, frog_gap),
            "1 mm",
            "the frog must slide and lift out with the tote in place",
            GEOMETRY,
            "lengthen body.length or shorten handle.toe_reach",
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
            "raise handle.grip",
        ),
    ]
