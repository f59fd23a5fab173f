"""A drawing sheet: views, dimensions and notes in; a laid-out page as DXF, PDF and SVG out.

The caller says what is drawn and what it measures, in model mm; the engine chooses paper and scale and finds the place
of every text. Example, a drilled plate::

    from shared.drawing.plan import SheetPlan
    from shared.drawing.title import Title

    plan = SheetPlan(Title("Larch Lane Plane Works", "Plate", "LL-100", "A", material="Iron", mass_kg=0.4), unit="inch")
    front = plan.view("front", [Profile.rectangle(0, 0, 101.6, 50.8), Profile.circle((25.4, 25.4), 6.35)])
    front.dim_h((0, 0), (101.6, 0), 101.6, tol=0.1).dim_v((0, 0), (0, 50.8), 50.8)
    front.dim_h((0, 0), (25.4, 25.4), 25.4, side="below")
    front.diameter((25.4, 25.4), (31.75, 25.4), 12.7, tol="H7", suffix=" THRU")
    front.datum("A", (60, 0)).tolerance_frame((80, 50.8), "parallelism", 0.025, ["A"])
    side = plan.view("heel", project(solid, "heel"), of=front, place="right")
    plan.notes(["Break sharp edges 0.2 to 0.5 mm."])
    plan.save(dxf=Path("plate.dxf"), pdf=Path("plate.pdf"), svg=Path("plate.svg"))

`plan.layout()` returns what was chosen, with remarks on everything that did not go as asked. Several plans go into one
PDF with `shared.drawing.plot.write_pdf`.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Sequence
from pathlib import Path

from shared.drawing.compose import Layout, compose
from shared.drawing.paper import family, paper, scale_factor
from shared.drawing.primitives import Primitive, Projection
from shared.drawing.table import Block, Notes, Table
from shared.drawing.title import Title
from shared.drawing.view import View
from shared.errors import Fault, InputError
from shared.profile import Profile

PLACES = ("above", "below", "left", "right", "free")


class SheetPlan:
    """A sheet under way.

    Args:
        title: fields of the title block.
        unit: the unit that stands first, "inch" or "mm"; the other follows in brackets.
        papers: allowed sizes, smallest first; by default A4 to A1, or ANSI A to D for inches.
        scales: allowed main scales, largest first. Too large for all: a smaller standard scale is taken, and said.
    """

    def __init__(self, title: Title, *, unit: str = "inch", papers: Sequence[str] | None = None,
                 scales: Sequence[str] = ("2:1", "1:1", "1:2")) -> None:  # fmt: skip
        if unit not in ("inch", "mm"):
            raise InputError(Fault("sheet", "unit", repr(unit), '"inch" or "mm"'))
        self.title, self.unit = title, unit
        names = tuple(papers) if papers else family("ansi" if unit == "inch" else "iso")[:4]
        self.papers = [paper(n) for n in names]
        self.scales = tuple(sorted(scales, key=scale_factor, reverse=True))
        if not self.papers or not self.scales:
            raise InputError(Fault("sheet", "papers and scales", "none", "one or more of each"))
        self.views: list[View] = []
        self.blocks: list[Block] = []
        self._layout: Layout | None = None

    def view(self, name: str, items: Projection | Iterable[Primitive | Profile] = (), *, of: View | None = None,
             place: str = "free", label: str = "", scale: str | None = None, layer: str = "OUTLINE",
             faces: Iterable[object] = (), hatch_angle: float = 45.0) -> View:  # fmt: skip
        """Add a view.

        Args:
            name: for messages.
            items: a projection, or primitives and outlines [mm], in the view's own (u, v).
            of: the view it is aligned with; None for one that stands free.
            place: "above", "below", "left" or "right" of that view (third angle: the top view above the front view,
                the view from the right at its right), or "free".
            label: written below, such as "SECTION A-A"; with a scale of its own the scale follows.
            scale: a scale of its own (details); the main scale otherwise.
            layer: layer of plain primitives.
            faces: cut faces to hatch, each with `outer` and `holes` (`shared.cad.project.SectionFace`).
            hatch_angle: direction of the hatch lines [deg].

        Raises:
            InputError: unknown place, or a scale that cannot be read.
        """
        if place not in PLACES or (place == "free") != (of is None):
            allowed = "above, below, left or right with `of`; free without"
            raise InputError(Fault("sheet", f"place of view {name}", repr(place), allowed))
        if scale is not None:
            scale_factor(scale)
        if scale is not None and of is not None:
            raise InputError(Fault("sheet", f"scale of view {name}", repr(scale), "none beside `of`"))
        made = View(name, self.unit, label=label, scale=scale, of=of, place=place)
        made.draw(items, layer)
        for f in faces:
            made.hatch(f.outer, f.holes, hatch_angle)  # type: ignore[attr-defined]
        self.views.append(made)
        return made

    def notes(self, lines: Sequence[str], title: str = "Notes", numbered: bool = True) -> SheetPlan:
        """Add notes, numbered, under a heading; long ones wrap."""
        self.blocks.append(Notes(tuple(lines), title, numbered))
        return self

    def table(self, columns: Sequence[str], rows: Sequence[Sequence[str]], title: str = "",
              widths: Sequence[float] | None = None) -> SheetPlan:  # fmt: skip
        """Add a table.

        Args:
            columns: heads.
            rows: texts, one a column.
            title: heading.
            widths: of the columns [mm]; by default as the text needs.

        Raises:
            InputError: a row has another number of cells than there are columns.
        """
        for i, r in enumerate(rows, 1):
            if len(r) != len(columns):
                read = f"{len(r)} cells in row {i}"
                raise InputError(Fault("sheet", f"table {title}", read, f"{len(columns)} cells"))
        wide = tuple(widths) if widths else None
        self.blocks.append(Table(tuple(columns), tuple(tuple(str(c) for c in r) for r in rows), title, wide))
        return self

    def numbered(self, sheet: int, sheets: int) -> SheetPlan:
        """Say which sheet of how many this is."""
        self.title = dataclasses.replace(self.title, sheet=sheet, sheets=sheets)
        self._layout = None
        return self

    def layout(self) -> Layout:
        """Return the laid-out sheet; what was chosen against the wish is in its `remarks`.

        Raises:
            GeometryError: an annotation has no place at any scale.
        """
        if self._layout is None:
            self._layout = compose(self.title, self.unit, self.papers, self.scales, self.views, self.blocks)
        return self._layout

    def save(self, *, dxf: Path | None = None, pdf: Path | None = None, svg: Path | None = None,
             verify: bool = False) -> list[Path]:  # fmt: skip
        """Write the sheet; a continuation sheet gets "-2" and so on in its DXF and SVG name.

        Args:
            dxf: DXF file.
            pdf: PDF file, a page a sheet.
            svg: SVG file.
            verify: read the DXF back and audit it.

        Returns:
            The files written.
        """
        sheets = self.layout().sheets
        out: list[Path] = []
        for i, sheet in enumerate(sheets, 1):
            for path in (dxf, svg):
                if path is None:
                    continue
                name = path if i == 1 else path.with_stem(f"{path.stem}-{i}")
                if path is dxf:
                    sheet.save(name, verify)
                else:
                    from shared.drawing.svg import write_svg

                    write_svg(name, sheet)
                out.append(name)
        if pdf is not None:
            from shared.drawing.plot import write_pdf

            write_pdf(pdf, sheets, title=f"{self.title.number} {self.title.title}")
            out.append(pdf)
        return out
