"""Patterns in a build: STEP of what no other step writes, and STL and 3MF of every pattern for a printer or a mill."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from parts.plane.moulding import cast_solid, names
from parts.plane.papers import metal, step_file
from parts.plane.pattern_list import pattern_list
from shared.cad import palette
from shared.cad.mesh import Mesh, tessellate, write_3mf, write_stl
from shared.cad.mesh_shape import grown, raised
from shared.casting.counter_bow import STEP_MM

if TYPE_CHECKING:
    from parts.plane.run import Run

SMALL_MM = 50.0  # longest side
FINE = (0.02, 0.1)  # deflection [mm] and turn [rad] of small patterns
CAP_PARTS = ("lever cap", "cam lever")


def _file(name: str) -> str:
    return name.replace(" ", "-")


def casting_steps(run: Run, name: str) -> None:
    """Write casting and pattern of one cast part (STEP).

    Args:
        run: the build.
        name: of the cast part.
    """
    part = cast_solid(run.models, name)
    colour = metal(part.alloy.is_iron)
    step_file(run, f"{_file(name)}-casting.step", f"{name} casting", part.casting, colour)
    step_file(run, f"{_file(name)}-pattern.step", f"{name} pattern", part.pattern, palette.WOOD)


def cap_steps(run: Run) -> None:
    """Write castings and patterns of lever cap and cam lever, in the blade frame, as they are moulded and machined."""
    for name in names(run.models):
        if name in CAP_PARTS:
            casting_steps(run, name)


def pattern_mesh(run: Run, name: str) -> dict[str, Mesh]:
    """Return the working pattern of a cast part as a mesh [mm], and its master where the working pattern is cast.

    The shop's counter-bow is in both; every corner lies on the model's surface, or on the surface bowed.
    """
    part = cast_solid(run.models, name)
    # small parts finer, so that their volume is as true as a large one's
    mesh = tessellate(part.pattern) if part.size[0] > SMALL_MM else tessellate(part.pattern, *FINE)
    bow = next((p.bow for p in pattern_list(run.design) if p.part == name), None)
    if bow is not None:
        mesh = raised(mesh, bow.ordinate, STEP_MM)
    made = {"pattern": mesh}
    master = run.design.master
    if master is not None:
        made["master"] = grown(mesh, master.factors)
    return made


def pattern_meshes(run: Run, name: str) -> None:
    """Write STL and 3MF of one cast part's pattern, and of its master where there is one.

    Args:
        run: the build.
        name: of the cast part.
    """
    folder = run.folder("patterns")
    for stage, mesh in pattern_mesh(run, name).items():
        what = f"{run.design.spec.plane.name} {name} {stage}"
        write_stl(folder / f"{_file(name)}-{stage}.stl", mesh, what)
        write_3mf(folder / f"{_file(name)}-{stage}.3mf", mesh, what)


def mesh_step(name: str) -> Callable[[Run], None]:
    """Return the build step that writes the meshes of one cast part, named as `moulding.names` gives it."""

    def write(run: Run) -> None:
        pattern_meshes(run, name)

    return write
