"""What only the models tell: masses, centre of mass, measured invariants."""

from __future__ import annotations

from parts.plane.design import Design
from parts.plane.models import Models
from shared.cad.solids import mass_properties
from shared.numbers import Numbers

SOLIDS = "volume of the model by the CAD kernel times the density of the material table"


def add_solid_numbers(d: Design, models: Models, numbers: dict[str, Numbers]) -> None:
    """Add masses and centre of mass to a plane's numbers.

    Args:
        d: the plane.
        models: its solids; built as far as needed.
        numbers: part -> numbers, added to in place.
    """
    dense = {"density_kg_m3": d.body_alloy.density_kg_m3}
    casting_volume, casting, _ = mass_properties(models.body_casting, d.body_alloy.density_kg_m3)
    numbers["body"].add("mass_kg", models.mass("body"), "finished body", "volume × density", dense, SOLIDS)
    numbers["body"].add("casting_mass_kg", casting, "raw casting of the body", "volume × density", dense, SOLIDS)
    pattern = models.body_pattern.Volume() / casting_volume
    numbers["body"].add(
        "pattern_volume_ratio",
        pattern,
        "pattern volume over casting volume",
        "(1 + cx)(1 + cy)(1 + cz)",
        {"x": d.contraction.x, "y": d.contraction.y, "z": d.contraction.z},
        SOLIDS,
    )
    frog = mass_properties(models.frog_casting, d.frog_alloy.density_kg_m3)[1]
    numbers["frog"].add(
        "mass_kg",
        models.mass("frog"),
        "finished frog",
        "volume × density",
        {"density_kg_m3": d.frog_alloy.density_kg_m3},
        SOLIDS,
    )
    numbers["frog"].add(
        "casting_mass_kg",
        frog,
        "raw casting of the frog",
        "volume × density",
        {"density_kg_m3": d.frog_alloy.density_kg_m3},
        SOLIDS,
    )
    for part, meaning in (
        ("blade", "blade"),
        ("chipbreaker", "chipbreaker"),
        ("lever_cap", "lever cap, five parts"),
        ("handle", "tote and knob"),
        ("hardware", "bought and turned parts"),
    ):
        numbers[part].add("mass_kg", models.mass(part), meaning, "volume × density", source=SOLIDS)
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
