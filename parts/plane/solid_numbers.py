"""What only the models tell: masses, centre of mass, measured invariants."""

from __future__ import annotations

from parts.plane.design import Design
from parts.plane.models import PlaneModels
from shared.numbers import Numbers

SOLIDS = "volume of the model by the CAD kernel times the density of the material table"


def add_solid_numbers(d: Design, models: PlaneModels, numbers: dict[str, Numbers]) -> None:
    """Add masses and centre of mass to a plane's numbers.

    Args:
        d: the plane.
        models: its solids; built as far as needed.
        numbers: part -> numbers, added to in place.
    """
    for part in models.parts:
        pieces = models.pieces_of(part)
        if not pieces:
            continue
        names = pieces[0].name if len(pieces) == 1 else f"{len(pieces)} pieces: " + ", ".join(p.name for p in pieces)
        dense = {f"{p.name} kg/m3": p.density for p in pieces}
        numbers[part].add("mass_kg", models.mass(part), f"finished: {names}", "sum of volume × density", dense, SOLIDS)
    for part, stages in models.stages().items():
        if part not in numbers:
            continue
        density = next(p.density for p in models.pieces_of(part))
        mass = models.volume(f"{part} casting", stages["casting"]) * density * 1e-9
        dense = {"density_kg_m3": density}
        numbers[part].add("casting_mass_kg", mass, f"raw casting: {part}", "volume × density", dense, SOLIDS)
    c = d.contraction
    numbers["body"].add(
        "pattern_volume_ratio",
        models.volume("body pattern", models.body_pattern) / models.volume("body casting", models.body_casting),
        "pattern volume over casting volume",
        "(1 + cx)(1 + cy)(1 + cz)",
        {"x": c.x, "y": c.y, "z": c.z},
        SOLIDS,
    )
    mass, centre = models.mass_and_centre()
    numbers["plane"].add("mass_kg", mass, "whole plane", "sum of its parts", source=SOLIDS)
    numbers["plane"].add(
        "center_of_mass_mm",
        centre,
        "balance point: aft of the edge, to the right, above the sole",
        "Σ m·r / Σ m",
        {"mass_kg": mass},
        SOLIDS,
    )
