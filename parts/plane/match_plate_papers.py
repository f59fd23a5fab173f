"""Match plates in a build: the model (STEP) and the 1:1 drawing (DXF) of each cast part's plate."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from parts.plane.moulding import cast_solid, plate_of
from parts.plane.papers import title
from shared.cad.match_plate import plate_solids
from shared.cad.plate_drawing import write_plate
from shared.cad.step import NamedSolid, write_step
from shared.casting.match_plate import MatchPlate
from shared.errors import RequestError

if TYPE_CHECKING:
    from parts.plane.run import Run

FIRST = "match-plate"  # the body's; the others are match-plate-frog and so on


def file_of(name: str) -> str:
    """Return the file's stem of a cast part's match plate."""
    return FIRST if name == "body" else f"{FIRST}-{name.replace(' ', '-')}"


def solids_of(run: Run, name: str) -> tuple[MatchPlate, list[NamedSolid]]:
    """Return the lay-out of a cast part's match plate and its solids, built once a build.

    Raises:
        RequestError: no flask fits, or the part does not draw from a flat plate.
        GeometryError: a piece could not be built.
    """
    key = f"match plate {name}"
    if key not in run.models.__dict__:
        layout, thickness = plate_of(run.models, name), run.design.shop.mould.plate_thickness
        solids = plate_solids(layout, cast_solid(run.models, name), thickness)
        run.models.take(key, run.models.settled((layout, solids)))
    made: tuple[MatchPlate, list[NamedSolid]] = run.models.__dict__[key]
    return made


def match_plate(run: Run, name: str) -> None:
    """Write the match plate of one cast part.

    Args:
        run: the build.
        name: of the cast part.

    Raises:
        RequestError: no flask fits.
        GeometryError: a piece could not be built.
    """
    plate_of(run.models, name)  # a flask that does not fit stops the build
    thickness = run.design.shop.mould.plate_thickness
    try:
        layout, solids = solids_of(run, name)
    except RequestError as err:
        # a stepped parting must not keep the models from the other shops; the note says what to change
        run.notes.append(f"no match plate of the {name}: {err}")
        return
    works = run.design.shop.works.name.encode("ascii", "replace").decode()
    stem = file_of(name)
    write_step(run.folder("step") / f"{stem}.step", solids, run.stamp, product=f"{name} match plate", author=works)
    lines = title(run, f"match plate of the {name}, seen from the cope", cast_solid(run.models, name).alloy.name)
    write_plate(run.folder("dxf") / f"{stem}.dxf", layout, solids, thickness, lines, run.design.spec.units)


def plate_step(name: str) -> Callable[[Run], None]:
    """Return the build step that writes the match plate of one cast part.

    One plate a part: each casting has its own sand, gating and number of moulds.

    Args:
        name: of the cast part, as `moulding.names` gives it.
    """

    def write(run: Run) -> None:
        match_plate(run, name)

    return write
