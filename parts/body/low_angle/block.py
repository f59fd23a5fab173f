"""The bridge block over the toe piece, and where the toe piece's parts stand [mm]."""

from __future__ import annotations

from math import radians, tan

from parts.body.low_angle.size import THROAT, LowBodySize, ToeWay
from parts.body.ribs import Ridge
from shared.profile import Point, Profile

STUD_ROOM = 0.3  # the stud's slot is longer than the travel by this at each end [mm]


def throat(size: LowBodySize, z: float) -> float:
    """Return x of the wall ahead of the mouth [mm] at height z: the body's own, above a toe piece's plate."""
    lean = z / tan(radians(size.mouth_front_angle))
    way = size.toe_way
    return -(size.mouth_opening if way is None else way.opening_most + THROAT) - lean


def ends(size: LowBodySize, way: ToeWay, more: float = 0.0) -> tuple[Point, Point]:
    """Return the boss's middle with the piece right ahead and right aft (x, y) [mm], each `more` [mm] farther."""
    ahead = way.opening_most - size.mouth_opening + more
    aft = size.mouth_opening - way.opening_least + more
    return (way.boss_x - ahead, 0.0), (way.boss_x + aft, 0.0)


def pocket(size: LowBodySize, way: ToeWay, more: float = 0.0) -> Profile:
    """Return the oblong pocket for the piece's boss (x, y) [mm], larger by `more` all round."""
    return Profile.slot(*ends(size, way, way.end_clearance), 2 * (way.boss_radius + more), "toe piece's pocket")


def stud_slot(size: LowBodySize, way: ToeWay) -> Profile:
    """Return the slot for the stud in the block (x, y) [mm]."""
    return Profile.slot(*ends(size, way, STUD_ROOM), way.stud_slot, "slot for the stud")


def foot_growth(size: LowBodySize, way: ToeWay) -> float:
    """Return how much wider than at its finished top the block is at the plate, each side [mm]."""
    return (way.block_z - size.sole) * tan(radians(size.cast.draft_inside))


def block(size: LowBodySize, way: ToeWay) -> Ridge:
    """Return the block as cast; its wall round the pocket is whole at its finished top."""
    top = way.block_z + size.cast.boss
    grown = way.block_wall + foot_growth(size, way)
    root = min(size.root_radius, 0.6 * (top - size.sole))
    return Ridge(lambda more: pocket(size, way, grown + more), size.sole, top, size.cast.edge_radius, root,
                 "bridge block")  # fmt: skip


def block_middle(size: LowBodySize, way: ToeWay) -> float:
    """Return x of the block's middle [mm]: half way along the piece's travel, not where the boss stands as set."""
    (x0, _), (x1, _) = ends(size, way, way.end_clearance)
    return (x0 + x1) / 2


def block_reach(size: LowBodySize, way: ToeWay) -> tuple[float, float, float]:
    """Return x from, x to and the half width that the block's foot takes on the plate, root included [mm]."""
    ridge = block(size, way)
    wide = way.boss_radius + way.block_wall + foot_growth(size, way) + ridge.root
    (x0, _), (x1, _) = ends(size, way, way.end_clearance)
    return x0 - wide, x1 + wide, wide


def piece_toe(size: LowBodySize, way: ToeWay, opening: float) -> float:
    """Return x of the toe piece's toe end [mm] at a mouth opening [mm]."""
    return way.toe_end + way.end_clearance + way.opening_most - opening
