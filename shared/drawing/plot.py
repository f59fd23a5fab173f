"""From DXF drawings to PDF pages at exact paper scale: true vectors, selectable text, dashes and pens of the layers."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path as File

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from shared.drawing import lettering
from shared.drawing.ink import INK, Area, Path, Words, ink, pen
from shared.drawing.paper import Paper
from shared.drawing.sheet import Sheet

CREATOR = "planewright"


def draw(canvas: Canvas, sheet: Sheet, layer_names: Sequence[str] | None = None) -> None:
    """Draw a sheet on the current page, its origin at the page's; only some layers where they are named."""
    layer = ""
    for x in ink(sheet):
        if layer_names is not None and x.layer not in layer_names:
            continue
        if x.layer != layer:
            layer = x.layer
            _take(canvas, layer)
        if isinstance(x, Words):
            words(canvas, x)
        elif isinstance(x, Path):
            _path(canvas, x)
        else:
            _area(canvas, x)


def _take(canvas: Canvas, layer: str) -> None:
    colour, width, dashes = pen(layer)
    canvas.setStrokeColor(colour)
    canvas.setFillColor(colour)
    canvas.setLineWidth(width * mm)
    canvas.setLineCap(0 if dashes else 1)
    canvas.setLineJoin(1)
    canvas.setDash([d * mm for d in dashes])


def _path(canvas: Canvas, x: Path) -> None:
    if len(x.pieces) == 1 and not isinstance(x.pieces[0][0], tuple):
        u, v = x.pieces[0]
        canvas.line(x.start[0] * mm, x.start[1] * mm, u * mm, v * mm)  # type: ignore[operator]
        return
    path = canvas.beginPath()
    path.moveTo(x.start[0] * mm, x.start[1] * mm)
    for p in x.pieces:
        if isinstance(p[0], tuple):
            path.curveTo(*(n * mm for q in p for n in q))  # type: ignore[union-attr]
        else:
            path.lineTo(p[0] * mm, p[1] * mm)  # type: ignore[operator]
    canvas.drawPath(path)


def _area(canvas: Canvas, x: Area) -> None:
    path = canvas.beginPath()
    path.moveTo(x.corners[0][0] * mm, x.corners[0][1] * mm)
    for u, v in x.corners[1:]:
        path.lineTo(u * mm, v * mm)
    path.close()
    canvas.drawPath(path, stroke=0, fill=1)


def words(canvas: Canvas, x: Words) -> None:
    """Set a line of text in the current colour."""
    canvas.saveState()
    canvas.translate(x.at[0] * mm, x.at[1] * mm)
    if x.angle:
        canvas.rotate(x.angle)
    t = canvas.beginText(-x.share * lettering.width(x.text, x.height) * mm, 0.0)
    t.setHorizScale(100.0 * lettering.NARROW)
    for run in lettering.runs(x.text):
        if run.face == lettering.WIDE_FACE:
            lettering.register()
        t.setFont(run.face, x.height / lettering.CAPITAL * mm)
        t.textOut(run.text)
    canvas.drawText(t)
    canvas.restoreState()


def new_canvas(path: File, width: float, height: float, title: str) -> Canvas:
    """Return a PDF without clock or chance in it: file, size of its first page [mm], title of the document."""
    canvas = Canvas(str(path), pagesize=(width * mm, height * mm), invariant=1, pageCompression=1)
    canvas.setTitle(title)
    canvas.setAuthor(CREATOR)
    canvas.setCreator(CREATOR)
    canvas.setProducer(CREATOR)
    return canvas


def write_pdf(path: File, sheets: Sequence[Sheet], *, title: str = "", footer: str = "") -> None:
    """Write drawings as the pages of one PDF, each at the exact size of its paper.

    Args:
        path: file to write.
        sheets: drawings with a `paper`.
        title: of the document.
        footer: written below the frame of each page with its number ("… · page 2 of 9"); "" for none.

    Raises:
        ValueError: a drawing has no paper.
    """
    first = _paper(sheets[0])
    canvas = new_canvas(path, first.width, first.height, title)
    for i, sheet in enumerate(sheets, 1):
        paper = _paper(sheet)
        canvas.setPageSize((paper.width * mm, paper.height * mm))
        draw(canvas, sheet)
        if footer:
            _stamp(canvas, paper, f"{footer} · page {i} of {len(sheets)}")
        canvas.showPage()
    canvas.save()


def _stamp(canvas: Canvas, paper: Paper, text: str) -> None:
    """Write a line at the lower edge of a page, at its right, below the zones."""
    room = paper.margins[2]
    height = min(2.0, 0.3 * room)
    foot = 2.0 if room >= 9 else room / 2 - height / 2
    canvas.setFillColor(INK)
    words(canvas, Words("TITLE", text, (paper.frame[2], foot), height, 0.0, 1.0))


def _paper(sheet: Sheet) -> Paper:
    if sheet.paper is None:
        raise ValueError("a drawing without paper has no page size")
    return sheet.paper
