"""The book's 3-D view: every solid of a plane with its stages, its size, and where it goes when taken apart."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import cadquery as cq
import numpy as np

from parts.plane.models import Piece, PlaneModels
from shared.book.content import FINISHED, Shape, Vector
from shared.book.explode import Loose, Way, explode, frame_along
from shared.cad import palette
from shared.cad.axis import turning_axis
from shared.cad.facets import facets
from shared.record import replace

Stages = Mapping[str, Mapping[str, cq.Solid]]
STAGE_COLOURS = {"pattern": palette.WOOD}
COARSE = (0.15, 0.4)  # mesh of castings and patterns [mm, rad]; their shading is exact all the same
SMALL = 0.05  # a piece whose box is a smaller share of the largest one's may be a turned part


def ways_off(bed: float) -> dict[str, Way]:
    """Return how each part of a plane comes off, the base first.

    Args:
        bed: bed angle [deg].
    """
    b = math.radians(bed)
    off_bed: Vector = (-math.sin(b), 0.0, math.cos(b))
    up: Vector = (0.0, 0.0, 1.0)
    return {
        "body": Way((), up),
        "frog": Way(("body",), up),
        "handle": Way(("body",), up),
        "blade": Way(("frog", "body"), off_bed),
        "chipbreaker": Way(("blade",), off_bed),
        "lever_cap": Way(("chipbreaker", "blade"), off_bed),
    }


def shapes(models: PlaneModels, bed: float) -> tuple[Shape, ...]:
    """Return every solid of the assembly for the 3-D view, cast parts at all their stages.

    Args:
        models: the solids.
        bed: bed angle [deg].
    """
    ways = ways_off(bed)
    off_bed = ways["blade"].toward
    loose = _with_axes([Loose(p.name, p.part, facets(p.solid)) for p in models.pieces], models.pieces)
    away = explode(loose, ways, off_bed)
    staged = _stages_by_piece(models.stages(), models.pieces)
    made = []
    for p, piece in zip(models.pieces, loose, strict=True):
        stages = {FINISHED: piece.surface}
        stages |= {stage: facets(solid, *COARSE) for stage, solid in staged.pop(p.name, {}).items()}
        mass = models.measured(p)[1]
        made.append(Shape(p.name, p.part, p.colour, away[p.name], stages, _size(piece, off_bed), mass, STAGE_COLOURS))
    for name, rest in staged.items():
        # a casting that several finished parts are cut from, or that bears another name, stands by itself
        only = {stage: facets(solid, *COARSE) for stage, solid in rest.items()}
        made.append(Shape(name, name, palette.IRON, (0.0, 0.0, 0.0), only, stage_colours=STAGE_COLOURS))
    return tuple(made)


def _with_axes(loose: Sequence[Loose], pieces: Sequence[Piece]) -> list[Loose]:
    largest = max((piece.bulk for piece in loose), default=0.0)
    return [
        replace(piece, axis=turning_axis(p.solid)) if piece.bulk < SMALL * largest else piece
        for piece, p in zip(loose, pieces, strict=True)
    ]


def _size(piece: Loose, off_bed: Vector) -> Vector:
    """Return length, width and thickness [mm], longest first, along the frame that holds it closest."""
    directions = [(0.0, 0.0, 1.0), off_bed, *([piece.axis] if piece.axis is not None else [])]
    spans = [np.ptp(piece.surface.vertices @ frame_along(np.array(d)).T, axis=0) for d in directions]
    a, b, c = sorted((float(v) for v in min(spans, key=lambda s: float(np.prod(s)))), reverse=True)
    return a, b, c


def _stages_by_piece(stages: Stages, pieces: Sequence[Piece]) -> dict[str, Mapping[str, cq.Solid]]:
    """Return stages under the name of the piece they become: the same name, else the only piece of that part."""
    names = {p.name for p in pieces}
    found = {}
    for part, solids in stages.items():
        alone = [p.name for p in pieces if p.part == part]
        found[part if part in names or len(alone) != 1 else alone[0]] = solids
    return found
