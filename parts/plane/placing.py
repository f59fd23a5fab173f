"""Where tote and knob stand on the body: as near the edge as a hand allows, and the obstacle that decided it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import hypot, sqrt

from shared.record import Record

Point = tuple[float, float]

KNUCKLE_CLEARANCE = 8.0  # common practice, no source
FINGER_DEPTH = 18.0  # a finger wrapped round the grip, front of the wood to its back; own estimate, no source
WOOD_CLEARANCE = 3.0  # between the tote itself and blade or levers; common practice, no source
FOOT_TO_HEEL = 3.0  # the foot ends this far ahead of the heel
STEP = 1.0  # heights looked at


class Obstacle(Record):
    """Something a knuckle could meet: a polygon in the plane's x and z [mm]."""

    name: str
    corners: Sequence[Point]

    @property
    def heights(self) -> tuple[float, float]:
        """Least and greatest height [mm]."""
        zs = [z for _, z in self.corners]
        return min(zs), max(zs)

    @property
    def sides(self) -> list[tuple[Point, Point]]:
        """Each side from corner to corner."""
        pts = list(self.corners)
        return list(zip(pts, pts[1:] + pts[:1], strict=True))

    def aft_at(self, z: float, near: float = 0.0) -> float | None:
        """Return the aft-most x [mm] at a height z [mm] that is within `near` [mm] of it; None where nothing is."""
        found: list[float] = []
        for (xa, za), (xb, zb) in self.sides:
            # a corner's neighbourhood is round
            if abs(z - za) <= near:
                found.append(xa + sqrt(near**2 - (z - za) ** 2))
            # a side's runs along it, moved aft square to it
            run = hypot(xb - xa, zb - za)
            dz, dx = (near * (xa - xb) / run, near * abs(zb - za) / run) if run else (0.0, 0.0)
            if zb < za:
                dz = -dz
            low, high = za + dz, zb + dz
            if low != high and min(low, high) <= z <= max(low, high):
                found.append(xa + dx + (xb - xa) * (z - low) / (high - low))
            elif low == high == z:
                found.append(max(xa, xb))
        return max(found) if found else None

    def distance(self, p: Point) -> float:
        """Return how far a point (x, z) [mm] lies from it; less than 0 inside."""
        x, z = p
        least, inside = float("inf"), False
        for (xa, za), (xb, zb) in self.sides:
            dx, dz = xb - xa, zb - za
            square = dx * dx + dz * dz
            along = min(max(((x - xa) * dx + (z - za) * dz) / square, 0.0), 1.0) if square else 0.0
            least = min(least, hypot(xa + along * dx - x, za + along * dz - z))
            if (za > z) != (zb > z) and x < xa + dx * (z - za) / dz:
                inside = not inside
        return -least if inside else least


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
    fingers = [(z, x - FINGER_DEPTH) for z, x in _fronts(front_at, band)]
    wood = _fronts(front_at, whole)
    needs = [
        *((at, f"knuckles clear the {name} by {KNUCKLE_CLEARANCE:g} mm")
          for at, name in _nearest(things, fingers, KNUCKLE_CLEARANCE)),
        *((at, f"the tote clears the {name} by {WOOD_CLEARANCE:g} mm")
          for at, name in _nearest(things, wood, WOOD_CLEARANCE)),
        (foot_from - foot_front, foot_why),
    ]  # fmt: skip
    nearest, decided = max(needs)
    last = heel_x - FOOT_TO_HEEL - foot_back
    if nearest > last:
        nearest, decided = last, "the foot ends ahead of the heel"
    return TotePlace(nearest, _least(things, fingers, nearest), _least(things, wood, nearest), decided)


def _fronts(front_at: Callable[[float], float], heights: tuple[float, float]) -> list[Point]:
    """Return (height, x) [mm] of a front at heights a step apart."""
    count = int((heights[1] - heights[0]) / STEP) + 1
    return [(z, front_at(z)) for z in (heights[0] + i * STEP for i in range(count))]


def _nearest(things: Sequence[Obstacle], fronts: Sequence[Point], clear: float) -> list[tuple[float, str]]:
    """Return how far aft the tote's frame must at least stand so that a front clears each thing by a distance [mm]."""
    found = []
    for thing in things:
        low, high = thing.heights
        places = [
            aft - front
            for z, front in fronts
            if low - clear <= z <= high + clear and (aft := thing.aft_at(z, clear)) is not None
        ]
        if places:
            found.append((max(places), thing.name))
    return found


def _least(things: Sequence[Obstacle], fronts: Sequence[Point], x: float) -> float:
    """Return the least distance between a front, its frame at x [mm], and the things [mm]; less than 0 inside one."""
    least = float("inf")
    for thing in things:
        low, high = thing.heights
        for z, front in fronts:
            # a point farther above or below it than what was found cannot be nearer
            if low - least < z < high + least:
                least = min(least, thing.distance((x + front, z)))
    return least


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
