"""What must hold of every low-angle body, measured on its solids."""

from __future__ import annotations

from dataclasses import dataclass

import cadquery as cq

from parts.body.low_angle.machined_faces import machined_faces
from parts.body.low_angle.size import LowBodySize
from parts.body.low_angle.toe_way import toe_piece
from parts.body.proof import BodyProof, prove_with
from shared.cad.solids import common_volume


@dataclass(frozen=True)
class PiecePlace:
    """The toe piece at one mouth opening: volume shared with the body [mm3], and where its mouth edge stands [mm]."""

    opening: float
    shared_mm3: float
    edge_x: float


def prove(size: LowBodySize, casting: cq.Solid, finished: cq.Solid) -> BodyProof:
    """Measure one body: inside its casting, stock on every machined face, draft, undercuts.

    Raises:
        GeometryError: a machined face is missing on the finished body.
    """
    return prove_with(machined_faces(size), size, casting, finished)


def prove_toe_piece(size: LowBodySize, finished: cq.Solid) -> tuple[PiecePlace, ...]:
    """Measure the toe piece against the body right aft, at the nominal mouth, half way and right ahead.

    Raises:
        GeometryError: the body has no toe way, or the piece could not be built.
    """
    way = size.toe_way
    if way is None:
        return ()
    places = {way.opening_least, size.mouth_opening, (way.opening_least + way.opening_most) / 2, way.opening_most}
    out = []
    for opening in sorted(places):
        piece = toe_piece(size, opening)
        sole = min(piece.Faces(), key=lambda f: f.Center().z)
        out.append(PiecePlace(opening, common_volume(finished, piece), sole.BoundingBox().xmax))
    return tuple(out)
