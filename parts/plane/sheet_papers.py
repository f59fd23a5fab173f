"""The sheets of a plane as files: DXF and PDF a sheet, a packet a shop, and pictures for the book."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, cast

from parts.plane.sheets.common import SheetEntry
from parts.plane.sheets.registry import sheet_set
from shared.book.content import SheetFile
from shared.drawing.paper import Paper, paper
from shared.drawing.plot import write_pdf
from shared.drawing.svg import svg_text
from shared.errors import GeometryError

if TYPE_CHECKING:
    from parts.plane.run import Run
    from shared.drawing.sheet import Sheet

SHOPS = ("pattern", "foundry", "machine", "blade", "wood", "assembly")
# full-size drawings that a build writes into dxf/ under their part's own name; a sheet of that name steps aside
PLATE = "match-plate"
FULL_SIZE = ("blade", PLATE)
_DONE = "sheets done"  # where a build keeps its finished sheets, by stem


@dataclass(frozen=True)
class DrawnSheet:
    """One sheet of the set as laid out, with its pages and their files."""

    entry: SheetEntry
    pages: list[Sheet]
    files: tuple[SheetFile, ...]


def dxf_stem(stem: str) -> str:
    """Return the name of a sheet's DXF without ending; "-sheet" is added where a full-size drawing has that name."""
    taken = any(stem == name or (name == "match-plate" and stem.startswith(name)) for name in FULL_SIZE)
    return f"{stem}-sheet" if taken else stem


def sheets(run: Run, only: str | None = None, plates: bool | None = None) -> None:
    """Lay out the sheets of a plane and write each as DXF and PDF; their pictures go to `run.sheets`.

    Args:
        run: the build, its numbers complete.
        only: the part whose sheets are wanted; None takes all.
        plates: True takes only match plates, False all but them, None both.

    Raises:
        GeometryError: a sheet could not be made; says which part and sheet.
    """
    entries = sheet_set(run)
    done = _done(run)
    for i, entry in enumerate(entries, 1):
        wanted = only in (None, entry.part) and plates in (None, entry.stem.startswith(PLATE))
        if wanted and entry.stem not in done:
            done[entry.stem] = _drawn(run, entry, i, len(entries))
    run.sheets[:] = [f for e in entries if e.stem in done for f in done[e.stem].files]


def sheets_of(part: str, plates: bool | None = None) -> Callable[[Run], None]:
    """Return the build step that draws the sheets of a part; arguments as `sheets`."""
    return partial(sheets, only=part, plates=plates)


def packets(run: Run) -> None:
    """Write one PDF a shop with all its sheets in the order of the set; draws the sheets that are still missing.

    Every page carries the plane's revision and its number in the packet.
    """
    sheets(run)
    plane = run.design.spec.plane
    done = _done(run)
    for shop in SHOPS:
        pages = [p for e in sheet_set(run) if shop in e.shops for p in done[e.stem].pages]
        if not pages:
            continue
        said = f"{plane.name} revision {plane.revision} · {shop} packet"
        write_pdf(run.folder("pdf") / f"packet-{shop}.pdf", pages, title=said, footer=said)


def _done(run: Run) -> dict[str, DrawnSheet]:
    return cast("dict[str, DrawnSheet]", run.drawn.setdefault(_DONE, {}))


def _drawn(run: Run, entry: SheetEntry, number: int, count: int) -> DrawnSheet:
    try:
        layout = entry.make(run, entry).numbered(number, count).layout()
    except GeometryError as err:
        raise GeometryError(entry.part, f"sheet {entry.title}", str(err)) from err
    except (ValueError, TypeError, ArithmeticError, LookupError, AttributeError, RuntimeError, AssertionError) as err:
        # whatever a drawing trips over, the build must say which sheet is missing
        raise GeometryError(entry.part, f"sheet {entry.title}", f"{type(err).__name__}: {err}") from err
    # that a card runs over several pages is as it should be
    said = [remark for remark in layout.remarks if "continuation sheet" not in remark]
    said += _paper_remark(run, layout.paper)
    run.notes += [f"sheet {number}, {entry.title}: {remark}" for remark in said]
    return DrawnSheet(entry, layout.sheets, tuple(_written(run, entry, layout.sheets)))


def _paper_remark(run: Run, taken: Paper) -> list[str]:
    """Return the remark that a sheet did not fit the paper that the shop asks for."""
    size = run.design.shop.paper.size
    if size == "auto":
        return []
    asked = paper(size.removeprefix("ANSI "))
    too_large = taken.width * taken.height > 1.01 * asked.width * asked.height
    return [f"too large for {asked.name}: drawn on {taken.name}"] if too_large else []


def _written(run: Run, entry: SheetEntry, pages: list[Sheet]) -> Iterable[SheetFile]:
    plane, stem = run.design.spec.plane, dxf_stem(entry.stem)
    pdf = run.folder("pdf") / f"{entry.stem}.pdf"
    said = f"{plane.name} revision {plane.revision} · {entry.title}"
    write_pdf(pdf, pages, title=said, footer=said)
    for i, page in enumerate(pages, 1):
        dxf = run.folder("dxf") / (f"{stem}.dxf" if i == 1 else f"{stem}-{i}.dxf")
        page.save(dxf)
        title = entry.title if len(pages) == 1 else f"{entry.title} ({i} of {len(pages)})"
        yield SheetFile(title, svg_text(page), f"dxf/{dxf.name}", f"pdf/{pdf.name}")
