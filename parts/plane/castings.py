"""The castings of one plane as the foundry sees them: mass, size, sections; from the models."""

from __future__ import annotations

import cadquery as cq

from parts.plane import kinds
from parts.plane.design import Design
from parts.plane.models import PlaneModels
from parts.plane.pour import CastPart
from shared.cad.solids import mass_properties
from shared.casting.alloy import Alloy


def cast_parts(d: Design, models: PlaneModels) -> list[CastPart]:
    """Return every cast part at casting size."""
    found: list[CastPart] = kinds.of(d.spec.plane.kind, "castings").cast_parts(d, models)
    return found


def cast_part(
    name: str, metal: Alloy, solid: cq.Solid, section: float, heaviest: float, parting: float, draw: str
) -> CastPart:
    """Return one casting.

    The hot spot's modulus is volume over surface of the whole casting, times the ratio of its heaviest to its main
    section: a bound from arithmetic, until solidification is computed on the model.

    Args:
        name: the part.
        metal: its alloy.
        solid: the casting.
        section: main thickness [mm].
        heaviest: thickest section [mm].
        parting: where the parting plane stands along the draw [mm].
        draw: axis of the draw, "x", "y" or "z".
    """
    box = solid.BoundingBox()
    volume, mass, _ = mass_properties(solid, metal.density_kg_m3)
    spans = {"x": (box.xmin, box.xmax), "y": (box.ymin, box.ymax), "z": (box.zmin, box.zmax)}
    low, high = spans.pop(draw)
    across = sorted((b - a for a, b in spans.values()), reverse=True)
    modulus = volume / solid.Area() * max(1.0, heaviest / section)
    return CastPart(
        name=name,
        alloy_id=metal.id,
        mass_kg=mass,
        length_mm=across[0],
        width_mm=across[1],
        cope_mm=max(0.5, high - parting),
        drag_mm=max(0.0, parting - low),
        section_mm=section,
        hot_modulus_mm=modulus,
        heaviest_section_mm=heaviest,
    )
