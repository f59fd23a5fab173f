"""The cast parts of a low-angle plane: body and lever cap."""

from __future__ import annotations

from typing import cast

from parts.body.walls import envelope
from parts.low_angle import outline
from parts.plane.low_angle.design import LowAngleDesign
from parts.plane.low_angle.models import Models
from parts.plane.models import PlaneModels
from parts.plane.moulding import Makers
from parts.plane.pattern_list import CAST_LARGEST
from shared.cad.cast_solid import CastSolid


def _body_sections(d: LowAngleDesign) -> tuple[float, float]:
    """Return the body casting's main wall, and its thickest section: the bridge's aft end [mm]."""
    b = d.body
    return b.sole + b.cast.sole, b.bed_z(b.bridge.x1) + b.cast.sole + b.cast.pad


def _body(models: PlaneModels) -> CastSolid:
    m = cast(Models, models)
    d, b = m.design, m.design.body
    walls = envelope(b)
    wall, heaviest = _body_sections(d)
    return CastSolid(
        name="body",
        alloy=d.body_alloy,
        contraction=d.contraction,
        casting=m.body_casting,
        pattern=m.body_pattern,
        factors=d.contraction.factors,
        draw="z",
        parting=b.cast.parting_z,
        section=wall,
        heaviest=heaviest,
        extent=((walls.x0, walls.x1), (-walls.half, walls.half), (-b.cast.sole, b.cheek_height)),
    )


def _cap(models: PlaneModels) -> CastSolid:
    m = cast(Models, models)
    d, size = m.design, m.design.lever_cap
    c = d.shop.contraction_of(d.cap_alloy.id, CAST_LARGEST)
    plan = outline.cap_plan(size).bounds
    section = outline.cap_section(size, size.stock)
    front = outline.front_at(size, size.underside_q, size.stock)
    lowest = section.bounds
    return CastSolid(
        name="lever cap",
        alloy=d.cap_alloy,
        contraction=c,
        casting=m.lever_cap_casting,
        pattern=m.lever_cap_pattern,
        factors=(1.0 + c.along("n"),) * 3,
        draw="z",
        parting=size.underside_q,
        section=size.plate + size.stud.head_height,
        heaviest=size.end_plate,
        extent=(
            (min(front, lowest[0]), size.tail),
            (plan[1], plan[3]),
            (lowest[1], max(outline.top_at(size, s) for s in (size.clamp.at, size.tail))),
        ),
    )


MAKERS: Makers = {"body": _body, "lever cap": _cap}
