"""Full-size templates on paper: one page, or several to be joined by register marks when the outline is larger. mm."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from pathlib import Path as File

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from shared.drawing.dxf import outline_sheet
from shared.drawing.ink import Area, Words, ink, pen
from shared.drawing.overlap import text_box
from shared.drawing.paper import Paper, paper
from shared.drawing.plot import draw, new_canvas, words
from shared.drawing.primitives import Primitive
from shared.drawing.sheet import Sheet
from shared.profile import Profile

MARGIN = 12.0  # mm that most printers leave blank, with a line of text in it
LAP = 15.0  # mm by which neighbouring pages overlap
BAR = 100.0  # mm, the bar on every page
MARK = 4.0  # mm, half a register cross
Rect = tuple[float, float, float, float]


def extent(sheet: Sheet) -> Rect:
    """Return the extent of everything drawn (u_min, v_min, u_max, v_max) [mm]."""
    us: list[float] = []
    vs: list[float] = []
    for x in ink(sheet):
        points = text_box(x).corners() if isinstance(x, Words) else x.corners if isinstance(x, Area) else x.points()
        us += [p[0] for p in points]
        vs += [p[1] for p in points]
    return min(us), min(vs), max(us), max(vs)


def _count(size: float, room: float) -> int:
    return 1 if size <= room else 1 + math.ceil((size - room) / (room - LAP) - 1e-9)


def tiles(rect: Rect, page: Paper) -> tuple[Paper, list[list[Rect]]]:
    """Return the page, lying the better way, and what each page shows, row by row from the top [mm].

    Args:
        rect: what is to be shown [mm].
        page: the paper; its frame is what a page can show.
    """
    def count(p: Paper) -> tuple[int, int]:
        u0, v0, u1, v1 = p.frame
        return _count(rect[2] - rect[0], u1 - u0), _count(rect[3] - rect[1], v1 - v0)

    best = min((page, page.turned()), key=lambda p: math.prod(count(p)))
    across, down = count(best)
    u0, v0, u1, v1 = best.frame
    wide, high = u1 - u0, v1 - v0
    # the pages together stand about the middle of what they show
    left = (rect[0] + rect[2] - (across * wide - (across - 1) * LAP)) / 2
    top = (rect[1] + rect[3] + (down * high - (down - 1) * LAP)) / 2
    rows = []
    for r in range(down):
        v = top - r * (high - LAP)
        starts = [left + c * (wide - LAP) for c in range(across)]
        rows.append([(u, v - high, u + wide, v) for u in starts])
    return best, rows


def crosses(rows: list[list[Rect]]) -> list[tuple[float, float]]:
    """Return the places of the register crosses [mm]: in the middle of every overlap, two an edge."""
    out = []
    for r, row in enumerate(rows):
        for c, (u0, v0, u1, v1) in enumerate(row):
            if c + 1 < len(row):
                out += [(u1 - LAP / 2, v0 + share * (v1 - v0)) for share in (0.2, 0.8)]
            if r + 1 < len(rows):
                out += [(u0 + share * (u1 - u0), v0 + LAP / 2) for share in (0.2, 0.8)]
    return out


def write_template(path: File, outlines: Sequence[Profile | Primitive], title: Sequence[str], *,
                   more: Mapping[str, Sequence[Profile | Primitive]] | None = None, layer: str = "OUTLINE",
                   size: str = "A4", footer: str = "") -> int:  # fmt: skip
    """Write a full-size template as PDF, from the same drawing as `write_outline` puts into DXF.

    Args:
        path: file to write.
        outlines: profiles or primitives [mm].
        title: lines of text below them, the first larger.
        more: further things by layer.
        layer: layer of the outlines.
        size: paper of the printer, "A4" or "A" (letter), or a larger one.
        footer: written on every page (part and revision).

    Returns:
        How many pages were needed.
    """
    sheet = outline_sheet(outlines, title, more=more, layer=layer)
    page, rows = tiles(extent(sheet), paper(size).with_margin(MARGIN))
    canvas = new_canvas(path, page.width, page.height, title[0])
    marks = crosses(rows)
    pages = [(r, c, rect) for r, row in enumerate(rows) for c, rect in enumerate(row)]
    for n, (r, c, rect) in enumerate(pages, 1):
        canvas.setPageSize((page.width * mm, page.height * mm))
        _tile(canvas, sheet, page, rect, marks)
        where = f"row {r + 1}, column {c + 1} · page {n} of {len(pages)}" if len(pages) > 1 else "page 1 of 1"
        _foot(canvas, page, f"{footer} · {where}" if footer else where)
        canvas.showPage()
    canvas.save()
    return len(pages)


def _tile(canvas: Canvas, sheet: Sheet, page: Paper, rect: Rect, marks: list[tuple[float, float]]) -> None:
    u0, v0, u1, v1 = page.frame
    canvas.saveState()
    clip = canvas.beginPath()
    clip.rect(u0 * mm, v0 * mm, (u1 - u0) * mm, (v1 - v0) * mm)
    canvas.clipPath(clip, stroke=0)
    canvas.translate((u0 - rect[0]) * mm, (v0 - rect[1]) * mm)
    draw(canvas, sheet)
    _pen(canvas)
    for u, v in marks:
        canvas.line((u - MARK) * mm, v * mm, (u + MARK) * mm, v * mm)
        canvas.line(u * mm, (v - MARK) * mm, u * mm, (v + MARK) * mm)
        canvas.circle(u * mm, v * mm, MARK / 2 * mm)
    canvas.restoreState()


def _pen(canvas: Canvas) -> None:
    colour, width, _ = pen("SCALE")
    canvas.setStrokeColor(colour)
    canvas.setFillColor(colour)
    canvas.setLineWidth(width * mm)
    canvas.setDash([])


def _foot(canvas: Canvas, page: Paper, text: str) -> None:
    """Draw the bar of 100 mm and a line of text in the lower margin."""
    _pen(canvas)
    u, v = page.frame[0], 5.0
    canvas.line(u * mm, v * mm, (u + BAR) * mm, v * mm)
    for i in range(11):
        canvas.line((u + 10 * i) * mm, v * mm, (u + 10 * i) * mm, (v + 2.0) * mm)
    words(canvas, Words("SCALE", "100 mm: print at full size", (u + BAR + 3.0, v), 1.8, 0.0, 0.0))
    words(canvas, Words("SCALE", text, (page.frame[2], v), 1.8, 0.0, 1.0))
