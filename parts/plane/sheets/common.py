"""What the sheets of a plane share: title block, general notes, and views projected once."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

import cadquery as cq

from shared.cad.project import SectionView, project, section_view
from shared.drawing.plan import SheetPlan
from shared.drawing.primitives import Projection
from shared.drawing.title import Title

if TYPE_CHECKING:
    from parts.plane.run import Run

FINE = "ISO 2768-f unless stated"
MEDIUM = "ISO 2768-m unless stated"
FLAT = 0.0254  # mm: the sole and sides of every plane, 0.001 in, whatever the size


@dataclass(frozen=True)
class SheetEntry:
    """One sheet of the set.

    Args of the fields:
        stem: file name without ending, such as "body".
        title: what the title block and the book call it.
        part: the part of `build --only` it belongs to.
        shops: packets it goes into: "pattern", "foundry", "machine", "blade", "wood", "assembly".
        make: draws it; not laid out yet.
    """

    stem: str
    title: str
    part: str
    shops: tuple[str, ...]
    make: Callable[[Run, SheetEntry], SheetPlan]


def letters(datums: str) -> str:
    """Return the letters for a sheet's sections and details, in order: none of its datums, and no I, O, Q."""
    return "".join(c for c in "ABCDEFGHJKLMNPRSTUVWXYZ" if c not in datums)


def new_sheet(
    run: Run,
    entry: SheetEntry,
    *,
    material: str = "",
    mass_kg: float | None = None,
    kind: str = "Part drawing",
    tolerance: str = MEDIUM,
    texture: str = "",
    finish: str = "",
    papers: tuple[str, ...] | None = None,
    scales: tuple[str, ...] | None = None,
) -> SheetPlan:
    """Return an empty sheet with its title block filled in.

    Args:
        run: the build.
        entry: which sheet of the set.
        material: alloy, steel or wood.
        mass_kg: of the part as drawn [kg].
        kind: document type.
        tolerance: general tolerances.
        texture: general surface texture.
        finish: finish class or treatment.
        papers: sheet sizes allowed, smallest first; default: by the shop's paper and the spec's units.
        scales: scales allowed; default: the engine's.
    """
    d = run.design
    plane = d.spec.plane
    title = Title(
        owner=d.shop.works.name,
        title=entry.title,
        number=f"{d.loaded.folder}-{entry.stem}",
        revision=plane.revision,
        kind=kind,
        creator=d.shop.paper.drawn_by,
        material=material,
        mass_kg=mass_kg,
        finish=finish,
        tolerance=tolerance,
        texture=texture,
        spec_hash=d.loaded.source.sha256[:12],
        subtitle=plane.name,
    )
    more = {} if scales is None else {"scales": scales}
    return SheetPlan(title, unit=d.spec.units, papers=papers or _papers(run), **more)


def _papers(run: Run) -> tuple[str, ...] | None:
    """Return the shop's own size and all larger ones of its family; None leaves the choice to the engine."""
    size = run.design.shop.paper.size
    if size == "auto":
        return None
    family = ("A4", "A3", "A2", "A1", "A0") if not size.startswith("ANSI") else ("A", "B", "C", "D", "E")
    first = size.removeprefix("ANSI ") if size.startswith("ANSI") else size
    return family[family.index(first) :]


def seen(run: Run, name: str, solid: cq.Shape, view: str, hidden: bool = False) -> Projection:
    """Return a view of a solid, projected once a build whatever number of sheets shows it.

    Args:
        run: the build.
        name: of the solid, unique in the build.
        solid: the shape.
        view: a name of `shared.cad.project.VIEWS`.
        hidden: whether hidden lines are wanted.
    """
    key = f"view {name} {view} {hidden}"
    if key not in run.drawn:
        run.drawn[key] = project(solid, view, hidden=hidden)
    made: Projection = run.drawn[key]
    return made


def cut(run: Run, name: str, solid: cq.Shape, view: str, through: tuple[float, float, float]) -> SectionView:
    """Return a section of a solid through a point [mm], made once a build; arguments as `seen`."""
    key = f"section {name} {view} {through}"
    if key not in run.drawn:
        run.drawn[key] = section_view(solid, view, through)
    made: SectionView = run.drawn[key]
    return made
