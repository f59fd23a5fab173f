"""Room for the toe piece and its way."""

from __future__ import annotations

from collections.abc import Iterator

from parts.body.low_angle.block import block_reach, ends, piece_toe
from parts.body.low_angle.size import LowBodySize, ToeWay
from parts.body.room import LAND, Lack, hole_floor, short
from parts.body.walls import inside_half

LEDGE_ROOF = 1.8  # plate left over the ledges; common practice, no source [mm]
LEDGE_LEAST = 2.0  # thickness of the piece's plate [mm]
LEDGE_WIDE = 4.0  # width of a ledge, each side of the boss's pocket [mm]
ROOF = 3.0  # of the bridge block over the pocket [mm]
WALL = 2.5  # of the block round it [mm]
TOE_SOLE = 5.0  # sole left ahead of the pocket [mm]
SIDE_METAL = 3.5  # solid metal outside the pocket, under each cheek [mm]
BOSS_TALL = 2.5  # boss of the piece above its plate [mm]
BOSS_AHEAD = 1.5  # plate of the piece ahead of its boss [mm]
THREAD = 3.5  # depth of the stud's hole [mm]
FLOOR = 1.8  # metal under it [mm]


def toe_way_lacks(size: LowBodySize, way: ToeWay) -> Iterator[Lack]:
    """Give every reason why the toe piece has no room."""
    thick = "lower body.toe_piece.thickness by {by}, or thicken body.sole_thickness as much"
    mouth = "raise body.mouth_from_toe by {by}, or lower body.toe_piece.opening_most as much"
    if not 0 <= way.opening_least <= size.mouth_opening <= way.opening_most:
        yield Lack(
            "toe piece",
            "the nominal mouth must lie within its travel",
            {"least": way.opening_least, "opening": size.mouth_opening, "most": way.opening_most},
            "lower body.mouth_opening, or raise body.toe_piece.opening_most above it",
        )
    if size.knob_boss is not None:
        yield Lack("toe piece", "the bridge block takes the knob boss's place")
    yield from short("toe piece", "its travel", way.travel, 0.5)
    yield from short("toe piece", "its plate", way.ledge_z, LEDGE_LEAST, "raise body.toe_piece.thickness by {by}")
    yield from short("toe piece", "the roof over its ledges", size.sole - way.ledge_z, LEDGE_ROOF, thick)
    ledge = size.mouth_half_width - way.boss_radius
    yield from short("toe piece", "each ledge", ledge, LEDGE_WIDE, "widen blade.width by {twice}")
    yield from short("toe piece", "the sole ahead of it", way.toe_end - size.toe_x, TOE_SOLE, mouth)
    yield from short("toe piece", "the metal outside it under each cheek", size.width / 2 - size.mouth_half_width,
                     SIDE_METAL, "widen body.width by {twice}")  # fmt: skip
    yield from short("toe piece", "its cutter's radius", way.corner, 1.0)
    yield from short("toe piece", "its boss above its plate", way.boss_z - way.ledge_z, BOSS_TALL)
    yield from short("toe piece", "the bridge block's roof", way.block_z - way.boss_z, ROOF)
    yield from short("toe piece", "the bridge block's wall", way.block_wall, WALL)
    yield from short("toe piece", "the bridge block above the plate", way.block_z - size.sole, 1.5,
                     "thin body.sole_thickness by {by}")  # fmt: skip
    ahead = way.boss_x - way.boss_radius - piece_toe(size, way, size.mouth_opening)
    yield from short("toe piece", "its plate ahead of its boss", ahead, BOSS_AHEAD, mouth)
    (_, _), (aft, _) = ends(size, way)
    yield from short("toe piece", "its plate behind its boss", -way.opening_least - aft - way.boss_radius, BOSS_AHEAD)
    _, _, wide = block_reach(size, way)
    room = inside_half(size, size.sole) - size.root_radius - wide
    yield from short("toe piece", "the plate between bridge block and cheek", room, LAND, "widen body.width by {twice}")
    yield from short("toe piece", "the depth of the stud's hole", way.stud.depth, THREAD)
    yield from short("toe piece", "the metal under the stud", hole_floor(way.stud), FLOOR)
    yield from short("toe piece", "the boss round the stud",
                     way.boss_radius - way.boss_clearance - way.stud.tap_drill / 2, 2.0)  # fmt: skip
    yield from short("toe piece", "the block's top beside the stud's slot", way.boss_radius - way.stud_slot / 2, 2.0)
    for name, value in (("side", way.side_clearance), ("boss", way.boss_clearance), ("end", way.end_clearance)):
        yield from short("toe piece", f"its {name} clearance", value, 0.01)
