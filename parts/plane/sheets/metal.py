"""What the sheets of the cast parts share: cut faces, sizes as text, threads, tolerances, masses. Lengths mm."""

from __future__ import annotations

from collections.abc import Iterable
from math import floor, radians, tan
from typing import TYPE_CHECKING

import cadquery as cq

from parts.blade.bedding_numbers import BED_ANGLE_TOL_DEG
from parts.body.size import TappedHole
from parts.plane.practice import as_cast_tolerance
from shared.both_units import number
from shared.cad.project import SectionFace, View, cut_faces, project
from shared.cad.solids import mass_properties
from shared.drawing.content import ra_text as ra_text
from shared.drawing.dimtext import plus_minus as plus_minus
from shared.drawing.plan import SheetPlan
from shared.drawing.primitives import Primitive, Projection
from shared.drawing.view import View as SheetView
from shared.profile import Profile
from shared.threads import METRIC, UNIFIED, Thread
from shared.units import MM_PER_IN

if TYPE_CHECKING:
    from parts.plane.run import Run

# Ra [um] of what each cutter leaves: inside the ranges of tables/fits.toml, common practice, no source
GROUND, MILLED, DRILLED = 0.8, 3.2, 6.3
AS_CAST = 12.5  # Ra [um] of a sand casting; common practice, no source
SEAT_HEIGHT_TOL = 0.05  # mm: milled seats above the sole; half of what the mouth's stack allows the bed's place
SEAT_STEP_TOL = 0.03  # mm: low seat against high, of frog and body, so that no frog rocks; common practice, no source
FLAT_BED = 0.03  # mm: lands that carry the blade, in one plane; common practice, no source
SMALL = 220.0  # mm: a shorter body is drawn at full size
HAND = "ISO 2768-mK unless stated"


def hand(run: Run) -> str:
    """Return the general tolerances of a part that is machined from a casting of the works' grade."""
    return f"machined: ISO 2768-mK; as cast: {as_cast_tolerance(run.design.shop)}"


def sliced(run: Run, name: str, solid: cq.Shape, view: View | str,
           through: tuple[float, float, float]) -> tuple[SectionFace, ...]:  # fmt: skip
    """Return the faces of a solid cut through a point [mm], made once a build; `name` is unique in the build."""
    key = f"slice {name} {view} {through}"
    if key not in run.drawn:
        run.drawn[key] = cut_faces(solid, view, through)
    made: tuple[SectionFace, ...] = run.drawn[key]
    return made


def seen_along(run: Run, name: str, solid: cq.Shape, view: View | str, smooth: bool = False) -> Projection:
    """Return a view of a solid in any direction, with its smooth edges where asked for; projected once a build."""
    key = f"view {name} {view} smooth {smooth}"
    if key not in run.drawn:
        run.drawn[key] = project(solid, view, hidden=False, smooth=smooth)
    made: Projection = run.drawn[key]
    return made


def section(plan: SheetPlan, name: str, faces: Iterable[SectionFace], beyond: Iterable[Primitive | Profile] = (), *,
            of: SheetView | None = None, place: str = "free", scale: str | None = None) -> SheetView:  # fmt: skip
    """Add a section view: the cut faces hatched and outlined, and what is seen beyond them.

    Args:
        plan: the sheet.
        name: letters such as "A-A".
        faces: cut faces [mm].
        beyond: what is seen behind the cut [mm].
        of: the view it is aligned with.
        place: where beside that view.
        scale: its own, for a free view.
    """
    cut = list(faces)
    lines: list[Primitive | Profile] = [*beyond]
    for f in cut:
        lines += [f.outer, *f.holes]
    return plan.view(f"section {name}", lines, of=of, place=place, label=f"SECTION {name}", scale=scale, faces=cut)


def size_text(mm: float, first: str, places: tuple[int, int] = (3, 2)) -> str:
    """Write a length [mm] as the sheets do: "0.500 [12.70]", the spec's unit first.

    Args:
        mm: length.
        first: "inch" or "mm".
        places: decimals of inch and of mm.
    """
    texts = number(mm / MM_PER_IN, places[0]), number(mm, places[1])
    one, other = texts if first == "inch" else texts[::-1]
    return f"{one} [{other}]"


def one_unit(mm: float, first: str, places: tuple[int, int] = (3, 2)) -> str:
    """Write a length [mm] in the spec's unit alone, with the unit: "0.500 in" or "12.70 mm"; arguments as `size_text`.

    For words that stand in a note beside sizes in both units, such as "wood ±0.020 in".
    """
    if first == "inch":
        return f"{number(mm / MM_PER_IN, places[0])} in"
    return f"{number(mm, places[1])} mm"


def thread_named(name: str) -> Thread:
    """Return a thread by the name that a tapped hole carries."""
    return next(t for t in (*UNIFIED.values(), *METRIC.values()) if t.name == name)


def thread_call(name: str) -> str:
    """Return a thread's name with the class of an inside thread: 2B, or 6H for a metric one."""
    return f"{name}-6H" if name.startswith("M") else f"{name}-2B"


def full_thread(hole: TappedHole) -> float:
    """Return the length of full thread in a blind hole [mm]: the drilled depth less one pitch, by a bottoming tap."""
    return hole.depth - thread_named(hole.thread).pitch


def angle_zone(length: float, parts: int = 2) -> float:
    """Return the width of a tolerance zone [mm] that keeps a seat of a length [mm] to its share of the bed's angle.

    The mouth's stack allows the bed's angle a tolerance that `parts` seats share. Rounded down to 0.01 mm.
    """
    return max(0.01, floor(100 * length * tan(radians(BED_ANGLE_TOL_DEG / parts))) / 100)


def weighed(run: Run, name: str, solid: cq.Shape, density: float) -> float:
    """Return the mass of a solid [kg] of a density [kg/m3], measured once a build."""
    key = f"mass {name}"
    if key not in run.drawn:
        run.drawn[key] = mass_properties(solid, density)[1]
    made: float = run.drawn[key]
    return made
