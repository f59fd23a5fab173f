"""The proof of every cast part of a plane, computed once and kept beside its models."""

from __future__ import annotations

from parts.plane import kinds, moulding
from parts.plane.casting_marks import Marks, MarksOf
from parts.plane.models import PlaneModels
from parts.plane.shop import ShopSpec
from shared.cad.cast_solid import CastSolid
from shared.cad.proof_mesh import proof_mesh
from shared.casting.alloy import Alloy
from shared.casting.melt import pouring_window
from shared.casting.proof import Case, Proof, prove

ABOVE_LIQUIDUS_K = 500.0  # the shop's own pouring temperature is meant for an alloy when it lies in this range


def poured_at(metal: Alloy, shop: ShopSpec) -> float:
    """Return the temperature at which an alloy is poured [°C]: the shop's own where it suits the alloy."""
    aim = shop.melt.pour_temperature
    own = aim is not None and metal.liquidus_c < aim < metal.liquidus_c + ABOVE_LIQUIDUS_K
    return pouring_window(metal, aim if own else None).aim_c


def case_of(part: CastSolid, marks: Marks, shop: ShopSpec) -> Case:
    """Return what is to be proved of one cast part.

    Args:
        part: casting, alloy, draw.
        marks: finished part, machined planes, places; in the frame of the casting.
        shop: the works' practice.
    """
    return Case(
        name=part.name,
        alloy=part.alloy,
        casting=proof_mesh(part.casting),
        axis="xyz".index(part.draw),
        parting=part.parting,
        draft_asked=marks.draft,
        poured_c=poured_at(part.alloy, shop),
        finished=None if marks.finished is None else proof_mesh(marks.finished),
        machined=marks.machined,
        landmarks=marks.landmarks,
    )


def casting_proof(models: PlaneModels, name: str) -> Proof:
    """Return the proof of one cast part, computed when first asked for (about a second of processor time).

    Args:
        models: the plane's solids.
        name: of the cast part, as `moulding.names` gives it.

    Raises:
        GeometryError: a solid could not be built.
        KeyError: no such cast part.
    """
    key = f"proof of {name}"
    if key not in models.__dict__:
        marks: MarksOf = kinds.of(models.design.spec.plane.kind, "casting_marks").MARKS
        case = case_of(moulding.cast_solid(models, name), marks[name](models), models.design.shop)
        models.take(key, prove(case))
    found: Proof = models.__dict__[key]
    return found


def casting_proofs(models: PlaneModels) -> list[Proof]:
    """Return the proof of every cast part, in the order of the foundry's sheets."""
    return [casting_proof(models, name) for name in moulding.names(models)]


def hot_spot_modulus(models: PlaneModels, name: str) -> float:
    """Return the modulus [mm] of the spot of a cast part that freezes last, from the computed freezing time."""
    return casting_proof(models, name).hot_modulus_mm
