"""Every cast part of a plane as pattern shop and foundry see it: casting, pattern, and how it lies on its match plate.

A kind of plane says its cast parts in its own `moulding.MAKERS`; all that follows here is the same for every kind.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from parts.plane import kinds
from parts.plane.models import PlaneModels
from parts.plane.pour import match_plate
from parts.plane.pour_numbers import CastPart
from shared.cad.cast_solid import LEVEL, CastSolid, facing_edge, facing_wall, plan_at
from shared.cad.solids import mass_properties
from shared.casting.match_plate import MatchPlate

Makers = Mapping[str, Callable[[PlaneModels], CastSolid]]


def names(models: PlaneModels) -> tuple[str, ...]:
    """Return the names of the cast parts of a plane, in the order of the foundry's sheets."""
    return tuple(_makers(models))


def _makers(models: PlaneModels) -> Makers:
    makers: Makers = kinds.of(models.design.spec.plane.kind, "moulding").MAKERS
    return makers


def cast_solid(models: PlaneModels, name: str) -> CastSolid:
    """Return one cast part, its solids built when first asked for.

    Raises:
        GeometryError: a solid could not be built.
    """
    key = f"cast solid {name}"
    if key not in models.__dict__:
        models.take(key, _makers(models)[name](models))
    found: CastSolid = models.__dict__[key]
    return found


def cast_solids(models: PlaneModels) -> list[CastSolid]:
    """Return every cast part."""
    return [cast_solid(models, name) for name in names(models)]


def foundry_part(part: CastSolid, hot_modulus_mm: float) -> CastPart:
    """Return a cast part as the pour plan takes it, measured on the casting as it lies on the plate.

    Args:
        part: the cast part.
        hot_modulus_mm: modulus of the spot that freezes last [mm].
    """
    lying = part.casting_on_plate
    _, mass, _ = mass_properties(lying, part.alloy.density_kg_m3)
    length, width, cope, drag = part.size
    up = 1.0 if cope >= drag else -1.0
    plan = plan_at(lying, up * LEVEL)
    edge = facing_edge(plan, length, width)
    return CastPart(
        name=part.name,
        alloy_id=part.alloy.id,
        mass_kg=mass,
        length_mm=length,
        width_mm=width,
        cope_mm=cope,
        drag_mm=drag,
        section_mm=part.section,
        hot_modulus_mm=hot_modulus_mm,
        heaviest_section_mm=part.heaviest,
        plan_area_mm2=sum(f.Area() for f in plan),
        factors=part.plate_factors,
        edge=edge,
        wall=facing_wall(lying, length, width, up, edge),
    )


def foundry_part_of(models: PlaneModels, name: str) -> CastPart:
    """Return one cast part as the pour plan takes it, its hot spot computed; measured when first asked for.

    Raises:
        GeometryError: a solid could not be built.
    """
    from parts.plane.casting_proof import hot_spot_modulus  # which reads the cast parts from here

    key = f"foundry part {name}"
    if key not in models.__dict__:
        models.take(key, foundry_part(cast_solid(models, name), hot_spot_modulus(models, name)))
    found: CastPart = models.__dict__[key]
    return found


def foundry_parts(models: PlaneModels) -> list[CastPart]:
    """Return every cast part as the pour plan takes it."""
    return [foundry_part_of(models, name) for name in names(models)]


def plate_of(models: PlaneModels, name: str) -> MatchPlate:
    """Return the match plate of one cast part.

    Raises:
        RequestError: no flask fits: how much too large, and the next flask that fits.
    """
    return match_plate(foundry_part_of(models, name), models.design.shop)
