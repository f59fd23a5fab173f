"""The book's 3-D view: every solid of a plane with its stages, its size, and where it goes when taken apart."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import cadquery as cq
import numpy as np

from parts.plane.models import Piece, PlaneModels
from parts.plane.moulding import cast_solids
from shared.book.content import FINISHED, Shape, Vector
from shared.book.explode import Loose, Way, explode, frame_along
from shared.cad import palette
from shared.cad.axis import turning_axis
from shared.cad.facets import facets
from shared.cad.slope import on_bed
from shared.record import replace

Stages = Mapping[str, Mapping[str, cq.Solid]]
STAGE_COLOURS = {"pattern": palette.WOOD}
ON_BED = {"lever cap": "lever cap cap", "cam lever": "lever cap lever"}  # cast part in the blade's frame -> its piece
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


def cast_stages(models: PlaneModels) -> dict[str, dict[str, cq.Solid]]:
    """Return cast part -> stage -> solid in the plane's frame, under the name of the piece that it becomes."""
    bed, found = models.design.spec.bed.angle, {}
    names = {p.name for p in models.pieces}
    for part in cast_solids(models):
        made = {"casting": part.casting, "pattern": part.pattern}
        if part.name in ON_BED:
            # moulded and machined in the blade's frame
            made = {stage: on_bed(solid, bed) for stage, solid in made.items()}
        piece = ON_BED.get(part.name, part.name)
        found[piece if piece in names else part.name] = made
    return found


def shapes(models: PlaneModels, bed: float, staged: Stages) -> tuple[Shape, ...]:
    """Return every solid of the assembly for the 3-D view, cast parts at all their stages.

    Args:
        models: the solids.
        bed: bed angle [deg].
        staged: piece -> stage -> solid, in the plane's frame.
    """
    ways = ways_off(bed)
    off_bed = ways["blade"].toward
    loose = _with_axes([Loose(p.name, p.part, facets(p.solid)) for p in models.pieces], models.pieces)
    away = explode(loose, ways, off_bed)
    rest, made = dict(staged), []
    for p, piece in zip(models.pieces, loose, strict=True):
        stages = {FINISHED: piece.surface}
        stages |= {stage: facets(solid, *COARSE) for stage, solid in rest.pop(p.name, {}).items()}
        mass = models.measured(p)[1]
        made.append(Shape(p.name, p.part, p.colour, away[p.name], stages, _size(piece, off_bed), mass, STAGE_COLOURS))
    for name, alone in rest.items():
        # a casting that several finished parts are cut from, or that bears another name, stands by itself
        only = {stage: facets(solid, *COARSE) for stage, solid in alone.items()}
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
