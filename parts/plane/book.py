"""The plane book: everything about one plane in one page, gathered from a build."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from parts.handle.wood import wood_cautions
from parts.plane.blade_card import card_of
from parts.plane.book_papers import every_picture, files, papers
from parts.plane.book_parts import note, part_lines, whole_mass
from parts.plane.book_view import cast_stages, shapes
from parts.plane.checks import check_design
from parts.plane.headline import HEADLINE, headline
from parts.plane.template_papers import template_pictures
from shared.book.content import Book, Fact, SheetFile
from shared.book.page import page
from shared.casting.alloy import alloy, alloy_ids
from shared.casting.melt import cautions as melt_cautions
from shared.findings import Finding
from shared.numbers import Numbers
from shared.tables import table
from shared.version import VERSION

if TYPE_CHECKING:
    from parts.plane.run import Run

FILE = "book.html"
LEAVE_OUT = (FILE, "manifest.json")  # the book itself, and what is written after it


def book(run: Run, sheets: Sequence[SheetFile] = (), findings: Sequence[Finding] | None = None) -> None:
    """Write book.html; a step that stands after all others, so that it can list every file.

    Args:
        run: the build, all other files written.
        sheets: the drawing sheets, paths relative to the plane's folder.
        findings: what the checks found; None runs those that need no model.
    """
    found = check_design(run.design) if findings is None else findings
    (run.work / FILE).write_text(page(content(run, sheets, found)), encoding="utf-8")


def content(run: Run, sheets: Sequence[SheetFile], findings: Sequence[Finding]) -> Book:
    """Return everything that the book of one build holds."""
    d = run.design
    plane = d.spec.plane
    lines, named = part_lines(run, shapes(run.models, d.spec.bed.angle, cast_stages(run.models)))
    return Book(
        name=plane.name,
        revision=plane.revision,
        kind=f"{plane.kind} plane",
        spec_sha256=d.loaded.source.sha256,
        works=d.shop.works.name,
        version=f"planewright {VERSION}",
        units=d.spec.units,
        description=plane.description,
        facts=_facts(run.numbers, d.spec.units),
        pictures=every_picture(run.work),
        shapes=named,
        parts=lines,
        parts_note=note(lines),
        mass=whole_mass(run),
        findings=tuple(findings),
        numbers=run.numbers,
        sheets=tuple(sheets),
        templates=_templates(run),
        papers=papers(run),
        files=files(run.work, LEAVE_OUT),
        cautions=_cautions(run),
        notes=tuple(run.notes),
        names=_names(),
    )


def _names() -> dict[str, str]:
    """Return what alloys and woods are called, by the ids that tables and specs know them by."""
    woods = table("wood")["movement"]["species"]
    return {i: alloy(i).name for i in alloy_ids()} | {i: i.replace("-", " ") for i in woods if "-" in i}


def _templates(run: Run) -> tuple[SheetFile, ...]:
    """Return the full-size templates as pictures with their files."""
    return tuple(SheetFile(what, svg, pdf=f"templates/{stem}.pdf")
                 for stem, what, svg in template_pictures(run.design))  # fmt: skip


def _facts(numbers: dict[str, Numbers], units: str) -> tuple[Fact, ...]:
    labels = {key: label for label, key in HEADLINE}
    return tuple(Fact(labels.get(key, key), value, key) for key, value in headline(numbers, units).items())


def _cautions(run: Run) -> tuple[str, ...]:
    """Return the cautions of blade shop, foundry and woodshop; the sentences that defer to others stand last."""
    d = run.design
    metals = [melt_cautions(alloy, d.spec.units) for alloy in (d.body_alloy, d.cap_alloy)]
    defer = [said[-1] for said in metals]
    texts = [*card_of(d).cautions, *(text for said in metals for text in said[:-1])]
    texts += [c.text for c in wood_cautions(d.spec.handle.species, d.spec.units)]
    return tuple(dict.fromkeys([*(t for t in texts if t not in defer), *defer]))
