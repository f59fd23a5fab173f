"""The cast parts of a bench plane: body, frog, lever cap and cam lever."""

from __future__ import annotations

from typing import cast

from parts.body.walls import envelope
from parts.frog.outline import casting_outline
from parts.plane import cap_moulding
from parts.plane.bench.models import Models
from parts.plane.models import PlaneModels
from parts.plane.moulding import Makers
from parts.plane.pattern_list import CAST_LARGEST
from shared.cad.cast_solid import CastSolid


def _body(models: PlaneModels) -> CastSolid:
    m = cast(Models, models)
    d, b = m.design, m.design.body
    walls = envelope(b)
    return CastSolid(
        name="body",
        alloy=d.body_alloy,
        contraction=d.contraction,
        casting=m.body_casting,
        pattern=m.body_pattern,
        factors=d.contraction.factors,
        draw="z",
        parting=b.cast.parting_z,
        section=b.sole + b.cast.sole,
        heaviest=b.high_pad.z + b.cast.sole + b.cast.pad,
        extent=((walls.x0, walls.x1), (-walls.half, walls.half), (-b.cast.sole, b.cheek_height)),
    )


def _frog(models: PlaneModels) -> CastSolid:
    m = cast(Models, models)
    d, f = m.design, m.design.mechanism.frog
    c = d.shop.contraction_of(d.frog_alloy.id, CAST_LARGEST)
    x0, z0, x1, z1 = casting_outline(f).bounds
    return CastSolid(
        name="frog",
        alloy=d.frog_alloy,
        contraction=c,
        casting=m.frog_casting,
        pattern=m.frog_pattern,
        factors=(1.0 + c.along("n"),) * 3,
        draw="y",
        parting=0.0,
        section=f.bed_plate + f.stock,
        heaviest=2 * f.web_half,
        extent=((x0, x1), (-f.half_width, f.half_width), (z0, z1)),
    )


def _cap(models: PlaneModels) -> CastSolid:
    m = cast(Models, models)
    return cap_moulding.cap(m.design.mechanism.lever_cap, m.cap_castings[0], m.design.cap_alloy, m.design.shop)


def _lever(models: PlaneModels) -> CastSolid:
    m = cast(Models, models)
    return cap_moulding.lever(m.design.mechanism.lever_cap, m.cap_castings[1], m.design.cap_alloy, m.design.shop)


MAKERS: Makers = {"body": _body, "frog": _frog, "lever cap": _cap, "cam lever": _lever}
