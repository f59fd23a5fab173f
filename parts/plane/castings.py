"""The castings of one plane as the foundry sees them: mass, size, sections; from the models."""

from __future__ import annotations

from parts.plane.design import Design
from parts.plane.models import Models
from parts.plane.pour import CastPart
from shared.cad.solids import mass_properties
from shared.casting.alloy import Alloy


def cast_parts(d: Design, models: Models) -> list[CastPart]:
    """Return body, frog, lever cap and lever as castings, at casting size.

    The hot spot's modulus is volume over surface of the whole casting, times the ratio of its heaviest to its main
    section: a bound from arithmetic, until solidification is computed on the model.
    """
    from parts.lever_cap.cap import cap_casting
    from parts.lever_cap.lever import lever_casting

    b, f, cap = d.body, d.mechanism.frog, d.mechanism.lever_cap
    body_wall = b.sole + b.cast.sole
    return [
        _part(
            "body",
            d.body_alloy,
            models.body_casting,
            body_wall,
            b.high_pad.z + b.cast.sole + b.cast.pad,
            b.cast.parting_z,
            "z",
        ),
        _part("frog", d.frog_alloy, models.frog_casting, f.bed_plate + f.stock, 2 * f.web_half, 0.0, "y"),
        _part("lever cap", d.cap_alloy, cap_casting(cap), cap.plate, cap.plate + 4.0, cap.underside_q, "z"),
        _part("cam lever", d.cap_alloy, lever_casting(cap), 6.0, 2 * cap.cam_radius, 0.0, "y"),
    ]


def _part(
    name: str, metal: Alloy, solid: object, section: float, heaviest: float, parting: float, draw: str
) -> CastPart:
    import cadquery as cq

    assert isinstance(solid, cq.Solid)
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
