"""Full-size templates on paper: one page, or several to be joined by register marks when the outline is larger. mm."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from pathlib import Path as File

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from shared.drawing import lettering
from shared.drawing.dxf import scale_bars
from shared.drawing.ink import Area, Words, ink, pen
from shared.drawing.overlap import text_box
from shared.drawing.paper import Paper, paper
from shared.drawing.plot import draw, new_canvas, words
from shared.drawing.primitives import Note, Primitive
from shared.drawing.sheet import Sheet
from shared.profile import Profile

MARGIN = 10.0  # mm round what a page shows: printers leave 4 to 6 blank, two lines of text stand in it
LAP = 15.0  # mm by which neighbouring pages overlap
BAR = 100.0  # mm, the bar on every page
MARK = 4.0  # mm, half a register cross
EDGE = 1.5  # mm between what is drawn and the border of the outermost pages
GAP = 8.0  # mm between the outlines and the words below them
WIDEST = 190.0  # mm, the longest line of the words
TITLE, TEXT, SMALL = 5.0, 3.0, 2.5  # capital heights of the words [mm]
BARS = 16.0  # height of the two bars with their texts [mm]
ROW = 1.75  # from line to line, per capital height
Rect = tuple[float, float, float, float]
Clear = Callable[[float, float], bool]


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
    # one page stands about the middle of what it shows; several begin at its left and its top
    left = rect[0] if across > 1 else (rect[0] + rect[2] - wide) / 2
    top = rect[3] if down > 1 else (rect[1] + rect[3] + high) / 2
    rows = []
    for r in range(down):
        v = top - r * (high - LAP)
        starts = [left + c * (wide - LAP) for c in range(across)]
        rows.append([(u, v - high, u + wide, v) for u in starts])
    return best, rows


def crosses(rows: list[list[Rect]], clear: Clear = lambda u, v: True) -> list[tuple[float, float]]:
    """Return the places of the register crosses [mm]: in the middle of every overlap, two an edge, on nothing drawn.

    Args:
        rows: what each page shows.
        clear: whether a cross may stand at a place; where none is clear the cross stands at a fifth of the edge.
    """
    out = []
    for r, row in enumerate(rows):
        for c, (u0, v0, u1, v1) in enumerate(row):
            if c + 1 < len(row):
                out += _pair(lambda s, u=u1, v0=v0, v1=v1: (u - LAP / 2, v0 + s * (v1 - v0)), clear)  # type: ignore[misc]
            if r + 1 < len(rows):
                out += _pair(lambda s, v=v0, u0=u0, u1=u1: (u0 + s * (u1 - u0), v + LAP / 2), clear)  # type: ignore[misc]
    return out


def _pair(at: Callable[[float], tuple[float, float]], clear: Clear) -> list[tuple[float, float]]:
    """Return two places of an edge, as near to a fifth and four fifths of it as is clear."""
    found = []
    for wish in (0.2, 0.8):
        shares = sorted((n / 100 for n in range(8, 93) if (n < 50) == (wish < 0.5)), key=lambda s: abs(s - wish))
        found.append(next((at(s) for s in shares if clear(*at(s))), at(wish)))
    return found


def _clear_of(sheet: Sheet) -> Clear:
    """Return a test of whether a register cross at a place lies off everything drawn on a sheet."""
    room = MARK + 1.0
    lines: list[tuple[float, float]] = []
    boxes: list[Rect] = []
    for x in ink(sheet):
        if isinstance(x, Words):
            us, vs = zip(*text_box(x).corners(), strict=True)
            boxes.append((min(us), min(vs), max(us), max(vs)))
            continue
        points = x.corners if isinstance(x, Area) else x.points()
        for a, b in pairwise(points):
            steps = max(1, math.ceil(math.dist(a, b)))
            lines += [(a[0] + (b[0] - a[0]) * i / steps, a[1] + (b[1] - a[1]) * i / steps) for i in range(steps + 1)]

    def clear(u: float, v: float) -> bool:
        if any(abs(p[0] - u) < room and abs(p[1] - v) < room for p in lines):
            return False
        return not any(b[0] - room < u < b[2] + room and b[1] - room < v < b[3] + room for b in boxes)

    return clear


def _block(title: Sequence[str], room: float) -> tuple[list[tuple[str, float]], float]:
    """Return the words wrapped to a room [mm], each line with its height [mm], and how high they and the bars stand."""
    lines: list[tuple[str, float]] = []
    for i, text in enumerate(title):
        height = TEXT if i else TITLE
        lines += [(part, height) for part in lettering.wrap(text, height, room)]
    lines.append(("Full size, 1:1. Measure a bar before the print is used.", SMALL))
    return lines, BARS + sum(_rows(lines))


def _rows(lines: Sequence[tuple[str, float]]) -> list[float]:
    """Return how far each line's foot lies below the foot of the line above [mm]: by the heights of both."""
    heights = [h for _, h in lines]
    return [ROW * (a + b) / 2 for a, b in zip([heights[0], *heights], heights, strict=False)]


def _words(lines: Sequence[tuple[str, float]], left: float, top: float) -> tuple[list[Primitive], list[Primitive]]:
    """Return the bars and the words below them, from their upper left corner [mm]."""
    notes: list[Primitive] = []
    v = top - BARS
    for (text, height), row in zip(lines, _rows(lines), strict=True):
        v -= row
        notes.append(Note(text, (left, v), height))
    return scale_bars((left, top - 3.5)), notes


def write_template(path: File, outlines: Sequence[Profile | Primitive], title: Sequence[str], *,
                   more: Mapping[str, Sequence[Profile | Primitive]] | None = None, layer: str = "OUTLINE",
                   size: str = "A4", footer: str = "") -> int:  # fmt: skip
    """Write a full-size template as PDF; the words stand whole on one page, no register cross on anything drawn.

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
    sheet = Sheet()
    sheet.draw(outlines, layer)
    for name, items in sorted((more or {}).items()):
        sheet.draw(items, name)
    page, rows = _laid(sheet, title, paper(size).with_margin(MARGIN))
    canvas = new_canvas(path, page.width, page.height, title[0])
    marks = crosses(rows, _clear_of(sheet))
    pages = [(r, c, rect) for r, row in enumerate(rows) for c, rect in enumerate(row)]
    for n, (r, c, rect) in enumerate(pages, 1):
        canvas.setPageSize((page.width * mm, page.height * mm))
        _tile(canvas, sheet, page, rect, marks)
        where = f"page {n} of {len(pages)}"
        if len(pages) > 1:
            where = f"row {r + 1}, column {c + 1} · {where} · lay cross on cross"
        _foot(canvas, page, f"{footer} · {where}" if footer else where)
        canvas.showPage()
    canvas.save()
    return len(pages)


def _laid(sheet: Sheet, title: Sequence[str], page: Paper) -> tuple[Paper, list[list[Rect]]]:
    """Draw the words onto a sheet of outlines, in the first column's lowest page; return the page and its tiles."""
    drawn = extent(sheet)
    narrow = min(page.frame[2] - page.frame[0], page.frame[3] - page.frame[1]) - LAP
    lines, high = _block(title, min(WIDEST, narrow))
    wide = max(BAR + 20.0, *(lettering.width(t, h) for t, h in lines))
    # a line on the very border of a page would be cut in half
    whole = (drawn[0] - EDGE, drawn[1] - GAP - high - EDGE, max(drawn[2], drawn[0] + wide) + EDGE, drawn[3] + EDGE)
    best, rows = tiles(whole, page)
    # where several rows are needed the words end with the lowest page; else they follow the outlines
    top = rows[-1][0][1] + EDGE + high if len(rows) > 1 else drawn[1] - GAP
    bars, notes = _words(lines, drawn[0], top)
    sheet.draw(bars, "SCALE")
    sheet.draw(notes, "TEXT")
    return best, rows


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
    """Draw the bar of 100 mm in the lower margin, and a line of text below it."""
    _pen(canvas)
    u, v = page.frame[0], MARGIN - 3.4
    canvas.line(u * mm, v * mm, (u + BAR) * mm, v * mm)
    for i in range(11):
        canvas.line((u + 10 * i) * mm, v * mm, (u + 10 * i) * mm, (v + 2.0) * mm)
    words(canvas, Words("SCALE", "100 mm: print at full size", (u + BAR + 3.0, v), 1.8, 0.0, 0.0))
    words(canvas, Words("SCALE", text, (u, v - 3.0), 1.8, 0.0, 0.0))
