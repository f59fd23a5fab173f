"""Choice of paper and scale, and the place of every view, table and note on the page. Paper mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shared.drawing import title as titles
from shared.drawing.arrange import Arranged
from shared.drawing.border import MARK, border
from shared.drawing.choose import Arranger, may_fit, wishes
from shared.drawing.cluster import PlacedView, Rect, clusters, high, moved, wide
from shared.drawing.emit import put
from shared.drawing.flow import flow, upright
from shared.drawing.marks import Piece
from shared.drawing.packing import MARGIN, Page
from shared.drawing.paper import Paper, smaller_scales
from shared.drawing.placement import PlacedBlock, Placement
from shared.drawing.sheet import Sheet
from shared.drawing.table import Block, Notes, Table
from shared.drawing.title import Title
from shared.drawing.view import View
from shared.errors import GeometryError
from shared.record import replace

GAPS = (22.0, 16.0, 10.0)  # mm between related views, the widest that fits
ROOMS = (180.0, 140.0, 110.0, 85.0)  # widths of notes tried [mm]


@dataclass
class Layout:
    """A laid-out sheet: paper, main scale, remarks, the pages and their DXF drawings."""

    paper: Paper
    scale: str
    pages: list[Placement]
    sheets: list[Sheet]
    remarks: list[str]


def compose(title: Title, unit: str, papers: Sequence[Paper], scales: Sequence[str], views: Sequence[View],
            blocks: Sequence[Block]) -> Layout:  # fmt: skip
    """Return the sheet on the paper and at the scale that `wishes` puts first among those that fit.

    Args:
        title: fields of the title block.
        unit: the unit that stands first.
        papers: allowed papers, smallest first.
        scales: allowed scales, largest first.
        views: views with their annotations.
        blocks: tables and notes.
    """
    remarks: list[str] = []
    full = titles.overlong(title)
    if full:
        blocks = [*blocks, Notes(tuple(full), "Fields in full", False)]
        names = [line.partition(" in full")[0] for line in full]
        remarks += [f"{n} is too long for its cell and stands in full in a note" for n in names]
    if not views:
        page = upright(papers[0])
        return _finished(title, unit, page, "–", flow(page, blocks, titles.block(title, "–", unit, page.name)), remarks)
    at_scale = Arranger(views)
    tries: list[tuple[Paper, str, bool]] = [(p, s, spill) for spill in (False, True) for p, s in wishes(papers, scales)]
    tries += [(papers[-1], s, True) for s in smaller_scales(scales[-1])]
    cores = [v.bounds for v in views]
    for page, scale, spill in tries:
        if not may_fit(page, scale, views, cores):
            continue
        arranged = at_scale(scale)
        if arranged is None:
            continue
        got = _try(page, arranged, blocks, titles.block(title, scale, unit, page.name), spill)
        if got is None:
            continue
        if scale not in scales:
            remarks.append(f"drawn at {scale}: too large for {page.name} at {scales[-1]}")
        pages = [got, *_rest(got.left, page, titles.block(title, scale, unit, page.name))]
        return _finished(title, unit, page, scale, pages, remarks)
    if at_scale.refused is not None:
        raise at_scale.refused
    raise GeometryError("sheet", "layout", "it fits no allowed paper at any scale", title=title.title)


def _finished(title: Title, unit: str, page: Paper, scale: str, pages: list[Placement], remarks: list[str]) -> Layout:
    """Return the layout with the number of each page in its title block, drawn."""
    if len(pages) > 1:
        remarks.append(f"{len(pages) - 1} continuation sheet{'s' if len(pages) > 2 else ''} for tables and notes")
    alone = title.sheets == 1
    sheets = []
    for i, placed in enumerate(pages):
        t = title
        if len(pages) > 1:
            # in a set the sheet keeps its number, whatever number of pages the ones before it take
            t = replace(title, sheet=i + 1, sheets=len(pages)) if alone else replace(title, page=i + 1)
        placed.blocks[0] = replace(placed.blocks[0], piece=titles.block(t, scale, unit, page.name))
        sheets.append(_drawn(page, placed))
    return Layout(page, scale, pages, sheets, remarks)


def _start(page: Paper, block: Piece) -> tuple[Page, Placement]:
    _, v0, u1, _ = page.frame
    space = Page(page.frame)
    for r in _centring(page):
        space.take(r)
    placed = PlacedBlock("title block", block, (u1 - block.rect[2], v0))
    space.take(placed.rect)
    return space, Placement(blocks=[placed])


def _centring(page: Paper) -> Iterator[Rect]:
    """Yield the places of the centring marks inside the frame."""
    u0, v0, u1, v1 = page.frame
    mid = page.width / 2, page.height / 2
    yield u0, mid[1] - 1, u0 + MARK, mid[1] + 1
    yield u1 - MARK, mid[1] - 1, u1, mid[1] + 1
    yield mid[0] - 1, v0, mid[0] + 1, v0 + MARK
    yield mid[0] - 1, v1 - MARK, mid[0] + 1, v1


def _try(page: Paper, views: list[Arranged], blocks: Sequence[Block], title: Piece, spill: bool) -> Placement | None:
    if any(wide(a) + 2 * MARGIN > page.frame[2] - page.frame[0]
           or high(a) + 2 * MARGIN > page.frame[3] - page.frame[1] for a in views):  # fmt: skip
        return None
    # a block as large as the sheet still stands clear of the centring marks
    most = page.frame[2] - page.frame[0] - 2 * (MARGIN + MARK + 1)
    tall = page.frame[3] - page.frame[1] - title.rect[3] - 2 * MARGIN - MARK - 2
    rooms = []
    for room in ROOMS if blocks else ROOMS[:1]:
        cut = [(b, b.pieces(min(room if isinstance(b, Notes) else ROOMS[0], most), tall)) for b in blocks]
        if spill or _area(views, cut) < _paper_area(page) - title.rect[2] * title.rect[3]:
            rooms.append(cut)
    if not rooms:
        return None
    for gap in GAPS:
        groups = clusters(views, gap)
        for views_first in (True, False):
            for cut in rooms:
                got = _pack(page, groups, cut, title, views_first, spill)
                if got is not None:
                    return got
    return None


def _paper_area(page: Paper) -> float:
    return (page.frame[2] - page.frame[0]) * (page.frame[3] - page.frame[1])


def _area(views: list[Arranged], cut: list[tuple[Block, list[Piece]]]) -> float:
    """Return the area of everything with half its margin [mm2], to leave hopeless papers out at once."""
    sizes = [(wide(a), high(a)) for a in views] + [(p.rect[2], p.rect[3]) for _, pieces in cut for p in pieces]
    return sum((w + MARGIN) * (h + MARGIN) for w, h in sizes)


def _pack(page: Paper, groups: list[list[PlacedView]], cut: list[tuple[Block, list[Piece]]], title: Piece,
          views_first: bool, spill: bool) -> Placement | None:  # fmt: skip
    space, out = _start(page, title)

    def place_views() -> bool:
        for group in groups:
            rects = [p.rect for p in group]
            at = space.find(rects, (1.0, -1.3))
            if at is None:
                return False
            for p in group:
                put_at = PlacedView(p.arranged, (p.at[0] + at[0], p.at[1] + at[1]))
                out.views.append(put_at)
                space.take(put_at.rect)
        return True

    def place_blocks() -> bool:
        for b, pieces in cut:
            for i, piece in enumerate(pieces):
                pull = (-1.0, 0.6) if isinstance(b, Table) else (0.3, 1.0)
                at = space.find([piece.rect], pull)
                if at is None:
                    out.left.append((b, pieces[i:]))
                    break
                out.blocks.append(PlacedBlock(b.title or "table", piece, at))
                space.take(out.blocks[-1].rect)
        return spill or not out.left

    steps = (place_views, place_blocks) if views_first else (place_blocks, place_views)
    if not all(step() for step in steps):
        return None
    _spread(space, groups, out)
    return out


def _spread(space: Page, groups: list[list[PlacedView]], out: Placement) -> None:
    """Move each group of views to the middle of the room it has."""
    start = 0
    for group in groups:
        placed = out.views[start : start + len(group)]
        for p in placed:
            space.take(p.rect, -1)
        low = min(p.rect[0] for p in placed), min(p.rect[1] for p in placed)
        rects = [moved(p.rect, (-low[0], -low[1])) for p in placed]
        at = space.centred(rects, low)
        by = at[0] - low[0], at[1] - low[1]
        for i, p in enumerate(placed):
            out.views[start + i] = PlacedView(p.arranged, (p.at[0] + by[0], p.at[1] + by[1]))
            space.take(out.views[start + i].rect)
        start += len(group)


def _rest(left: list[tuple[Block, list[Piece]]], page: Paper, title: Piece) -> list[Placement]:
    """Return continuation pages for blocks that found no room."""
    pages: list[Placement] = []
    todo = [(b, p) for b, pieces in left for p in pieces]
    while todo:
        space, out = _start(page, title)
        rest: list[tuple[Block, Piece]] = []
        for b, piece in todo:
            at = space.find([piece.rect], (1.0, -1.3)) if not rest else None
            if at is None:
                rest.append((b, piece))
                continue
            out.blocks.append(PlacedBlock(b.title or "table", piece, at))
            space.take(out.blocks[-1].rect)
        if len(rest) == len(todo):
            raise GeometryError("sheet", "layout", "a table or a note does not fit a sheet of its own", paper=page.name)
        pages.append(out)
        todo = rest
    return pages


def _drawn(page: Paper, placed: Placement) -> Sheet:
    sheet = Sheet()
    sheet.paper = page
    put(sheet, border(page, placed.blocks[0].rect))
    for v in placed.views:
        for layer, items in v.arranged.view.layers:
            sheet.draw(items, layer, v.at, v.arranged.k)
        put(sheet, v.arranged.marks, v.at)
    for b in placed.blocks:
        put(sheet, b.piece.marks, b.at)
    sheet.doc.header["$LIMMAX"] = (page.width, page.height)
    sheet.doc.header["$EXTMIN"] = (0.0, 0.0, 0.0)
    sheet.doc.header["$EXTMAX"] = (page.width, page.height, 0.0)
    return sheet
