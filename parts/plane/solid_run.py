"""Commands that build the models without writing files: numbers and checks of the solids."""

from __future__ import annotations

from pathlib import Path

from parts.plane.design import design
from parts.plane.models import models_of
from parts.plane.numbers import plane_numbers
from parts.plane.shop import load_shop
from parts.plane.solid_checks import check_solids
from parts.plane.solid_numbers import add_solid_numbers
from parts.plane.spec import load_spec
from shared.findings import Finding
from shared.numbers import Numbers


def numbers_with_solids(spec: Path, shop: Path | None) -> dict[str, Numbers]:
    """Return every number of a plane, masses and centre of mass included.

    Raises:
        GeometryError: a model could not be built.
    """
    d = design(load_spec(spec), load_shop(shop))
    numbers = plane_numbers(d)
    add_solid_numbers(d, models_of(d), numbers)
    return numbers


def solid_findings(spec: Path, shop: Path | None) -> list[Finding]:
    """Return what the models of a plane show.

    Raises:
        GeometryError: a model could not be built.
    """
    d = design(load_spec(spec), load_shop(shop))
    return check_solids(d, models_of(d))
