"""Where tote and knob stand on the body: as near the edge as a hand allows, and the obstacle that decided it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from shared.record import Record

Point = tuple[float, float]

KNUCKLE_CLEARANCE = 10.0  # common practice, no source
FINGER_DEPTH = 18.0  # a finger wrapped round the grip, front of the wood to its back; own estimate, no source
WOOD_CLEARANCE = 4.0  # between the tote itself and blade or levers; common practice, no source
FOOT_TO_HEEL = 3.0  # the foot ends this far ahead of the heel
STEP = 1.0  # heights looked at


class Obstacle(Record):
    """Something a knuckle could meet: a convex polygon in the plane's x and z [mm]."""

    name: str
    corners: Sequence[Point]

    def aft_at(self, z: float) -> float | None:
        """Return the aft-most x at a height [mm]; None where there is nothing."""
        found: list[float] = []
        pts = list(self.corners)
        for (xa, za), (xb, zb) in zip(pts, pts[1:] + pts[:1], strict=True):
            if min(za, zb) <= z <= max(za, zb):
                found.append(max(xa, xb) if za == zb else xa + (xb - xa) * (z - za) / (zb - za))
        return max(found) if found else None


class TotePlace(Record):
    """Where the tote's rod meets the foot plane [mm], the clearances reached and what decided it."""

    x: float
    clearance: float  # fingers to blade, levers and wheel
    wood_clearance: float  # the tote itself to them
    decided_by: str


def place_tote(
    things: Sequence[Obstacle],
    front_at: Callable[[float], float],
    band: tuple[float, float],
    whole: tuple[float, float],
    foot_front: float,
    foot_back: float,
    heel_x: float,
    foot_from: float,
    foot_why: str = "the tote's toe clears the frog",
) -> TotePlace:
    """Place the tote.

    Args:
        things: what hand and tote must clear.
        front_at: front of the tote in its own frame at a height above the sole [mm].
        band: heights above the sole that fingers take on the grip's front [mm].
        whole: heights above the sole from the top of the foot to the crest [mm].
        foot_front: front end of the foot in the tote's frame [mm], negative.
        foot_back: back end of the foot in the tote's frame [mm].
        heel_x: heel of the body [mm].
        foot_from: x that the foot's front may not pass, what moves before it counted at its farthest [mm].
        foot_why: what stands there.

    Returns:
        The nearest place at which fingers and tote clear everything; pushed ahead when the foot would pass the heel,
        with the clearance that is left.
    """
    fingers = _gaps(things, front_at, band)
    wood = _gaps(things, front_at, whole)
    needs = [
        *(
            (gap + FINGER_DEPTH + KNUCKLE_CLEARANCE, f"knuckles clear the {name} by {KNUCKLE_CLEARANCE:g} mm")
            for gap, name in fingers
        ),
        *((gap + WOOD_CLEARANCE, f"the tote clears the {name} by {WOOD_CLEARANCE:g} mm") for gap, name in wood),
        (foot_from - foot_front, foot_why),
    ]
    nearest, decided = max(needs)
    last = heel_x - FOOT_TO_HEEL - foot_back
    if nearest > last:
        nearest, decided = last, "the foot ends ahead of the heel"
    return TotePlace(
        nearest,
        min((nearest - gap - FINGER_DEPTH for gap, _ in fingers), default=float("inf")),
        min((nearest - gap for gap, _ in wood), default=float("inf")),
        decided,
    )


def _gaps(
    things: Sequence[Obstacle], front_at: Callable[[float], float], heights: tuple[float, float]
) -> list[tuple[float, str]]:
    """Return how far aft the tote's frame must at least stand so that its front touches each thing [mm]."""
    count = int((heights[1] - heights[0]) / STEP) + 1
    fronts = [(z, front_at(z)) for z in (heights[0] + i * STEP for i in range(count))]
    found = []
    for thing in things:
        gaps = [aft - front for z, front in fronts if (aft := thing.aft_at(z)) is not None]
        if gaps:
            found.append((max(gaps), thing.name))
    return found


def place_knob(toe_x: float, mouth_front: float, radius: float) -> tuple[float, str]:
    """Return the knob's x [mm] and what decided it: 0.56 of the way from mouth to toe, kept off both ends."""
    wanted, decided = 0.56 * toe_x, "proportion: 0.56 of the toe length ahead of the edge"
    most_aft = mouth_front - 8.0 - radius
    most_ahead = toe_x + 5.0 + radius
    if wanted > most_aft:
        wanted, decided = most_aft, "8 mm for the chips between knob and mouth"
    if wanted < most_ahead:
        wanted, decided = most_ahead, "5 mm between knob and toe"
    return wanted, decided
