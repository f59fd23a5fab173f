"""The toe piece's way as cut in the body, and the toe piece itself.

The piece is machined all over from bar of the body's alloy, so that it wears and grinds with the sole; with the piece
locked, sole and piece are ground in one pass. Its plate fits the pocket milled with the mouth; its round boss is
turned on it.
"""

from __future__ import annotations

from math import radians, tan

import cadquery as cq

from parts.body.low_angle.block import piece_toe, pocket, stud_slot
from parts.body.low_angle.size import LowBodySize, ToeWay
from parts.body.machining import AIR, NEAR, PART, drilled
from shared.cad.edges import fillet_named
from shared.cad.solids import cut_away, extrude, extrude_both, one_valid_solid, pick_edges
from shared.errors import GeometryError
from shared.profile import Profile
from shared.record import replace

PIECE = "toe piece"
CORNER_MORE = 0.5  # the piece's toe corners are rounder than the pocket's by this [mm]


def way_cuts(size: LowBodySize, way: ToeWay) -> list[cq.Solid]:
    """Return what the way takes out besides the pocket in the sole: pocket for the boss, slot, top of the block."""
    raw = way.block_z + size.cast.boss
    wide = pocket(size, way, way.block_wall + 2 * AIR)
    return [
        extrude(pocket(size, way), "z", way.ledge_z - AIR, way.boss_z, part=PART),
        extrude(stud_slot(size, way), "z", way.boss_z - AIR, raw + AIR, part=PART),
        extrude(wide, "z", way.block_z, raw + AIR, part=PART),
    ]


def toe_piece(size: LowBodySize, opening: float | None = None) -> cq.Solid:
    """Return the toe piece in the plane's frame [mm], set to a mouth opening.

    Args:
        size: the body; it must have a toe way.
        opening: of the mouth [mm]; the body's nominal one by default.

    Raises:
        GeometryError: the body has no toe way, the opening lies outside the travel, or a kernel step failed.
    """
    way = size.toe_way
    if way is None:
        raise GeometryError(PIECE, "way", "this body has none")
    at = size.mouth_opening if opening is None else opening
    if not way.opening_least - 1e-9 <= at <= way.opening_most + 1e-9:
        raise GeometryError(PIECE, "opening", "outside its travel", opening_mm=at, least_mm=way.opening_least,
                            most_mm=way.opening_most)  # fmt: skip
    toe, lean = piece_toe(size, way, at), way.ledge_z / tan(radians(size.mouth_front_angle))
    side = Profile.polygon([(toe, 0.0), (-at, 0.0), (-at - lean, way.ledge_z), (toe, way.ledge_z)], name=PIECE)
    half = size.mouth_half_width - way.side_clearance
    plate = extrude_both(side, "y", 2 * half, part=PIECE)

    def at_toe(e: cq.Edge) -> bool:
        a, b = e.startPoint(), e.endPoint()
        return abs(a.x - toe) < NEAR and abs(b.x - toe) < NEAR and abs(a.y - b.y) < NEAR

    corners = pick_edges(plate, at_toe, 2, PIECE, "corners")
    plate = fillet_named(plate, PIECE, "corners", corners, way.corner + CORNER_MORE, gaps=[2 * half])
    moved = size.mouth_opening - at
    round_ = Profile.circle((way.boss_x + moved, 0.0), way.boss_radius - way.boss_clearance, "boss")
    boss = extrude(round_, "z", way.ledge_z / 2, way.boss_z - way.boss_clearance, part=PIECE)
    whole = one_valid_solid(plate.fuse(boss), PIECE, "boss")
    return cut_away(whole, [drilled(replace(way.stud, x=way.stud.x + moved))], PIECE, "stud's hole")
