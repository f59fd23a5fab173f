"""What sits or runs in what in a low-angle plane: each feature as its part's sheet gives it."""

from __future__ import annotations

from parts.blade.bedding_numbers import mouth_deviations
from parts.body.low_angle.size import PIECE_TOL, POCKET_TOL, LowBodySize
from parts.low_angle.size import FOOT_BORE_TOL, KEYHOLE_TOL, TIP_TOL, LowCapSize
from shared.pairs import Pair, of_limits, of_thread


def pairs(cap: LowCapSize, body: LowBodySize) -> tuple[Pair, ...]:
    """Return every fit of lever cap, clamp and toe piece."""
    clamp, stud, way = cap.clamp, cap.stud.thread, body.toe_way
    found = [
        Pair("clamp foot on the screw's tip", of_limits("clamp foot's hole", clamp.foot_bore, FOOT_BORE_TOL),
             of_limits("clamp screw's tip", clamp.tip_diameter, TIP_TOL)),
        Pair("lever-cap stud in the cap's keyhole", of_limits("keyhole's slot, across", cap.shank_slot, KEYHOLE_TOL),
             of_thread("lever-cap stud", stud.major, stud.name)),
    ]  # fmt: skip
    if way is not None:
        half = body.mouth_half_width
        pocket = of_limits("mouth and toe piece's pocket", 2 * half, POCKET_TOL)
        piece = of_limits("toe piece", 2 * (half - way.side_clearance), PIECE_TOL)
        found.append(Pair("toe piece in its pocket, across", pocket, piece))
    return tuple(found)


def mouth_across(body: LowBodySize) -> tuple[float, float]:
    """Return the deviations (upper, lower) [mm] of the mouth's width: the toe piece's pocket is the mouth."""
    return mouth_deviations(2 * body.mouth_half_width) if body.toe_way is None else POCKET_TOL
