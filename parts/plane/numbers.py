"""Every number of a plane that needs no model, part by part."""

from __future__ import annotations

from parts.plane import kinds
from parts.plane.design import Design
from shared.numbers import Numbers


def plane_numbers(d: Design) -> dict[str, Numbers]:
    """Return the numbers of every part, without what only the models tell (masses, centre of mass).

    Raises:
        InputError: a hardness out of the steel's reach, or another impossible request.
    """
    found: dict[str, Numbers] = kinds.of(d.spec.plane.kind, "numbers").plane_numbers(d)
    return found
