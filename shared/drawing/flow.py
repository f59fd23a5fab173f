"""A sheet of tables and notes only: read from top to bottom, over as many pages as it takes. Paper mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from shared.drawing.border import MARK
from shared.drawing.marks import Piece
from shared.drawing.packing import MARGIN
from shared.drawing.paper import Paper
from shared.drawing.placement import PlacedBlock, Placement
from shared.drawing.table import Block, Notes

GAP = 4.0  # between blocks
INSET = MARK + 1.0  # clear of the centring marks
LEAST = 3  # lines or rows that stay together when a block is parted
ACROSS = 190.0  # no line of text runs wider


def upright(page: Paper) -> Paper:
    """Return the sheet standing where the title block still fits across it: text reads best so."""
    turned = page.turned()
    fits = turned.frame[2] - turned.frame[0] >= 180.0
    return turned if page.width > page.height and fits and page.height < 300.0 else page


def flow(page: Paper, blocks: Sequence[Block], title: Piece) -> list[Placement]:
    """Return pages with the blocks in their order.

    Args:
        page: the paper as it lies.
        blocks: tables and notes.
        title: title block, of the same size on every page.
    """
    u0, v0, u1, v1 = page.frame
    left, top, low = u0 + INSET, v1 - INSET, v0 + title.rect[3] + MARGIN
    room = min(u1 - u0 - 2 * INSET, ACROSS)
    pages = [_fresh(page, title)]
    at = top
    todo = [_scaled(b, room) for b in blocks]
    while todo:
        block = todo.pop(0)
        piece = _whole(block, room)
        if at - piece.rect[3] >= low:
            pages[-1].blocks.append(PlacedBlock(block.title or "table", piece, (left, at - piece.rect[3])))
            at -= piece.rect[3] + GAP
            continue
        parted = _parted(block, room, at - low)
        if parted is not None:
            todo[:0] = list(parted)
            continue
        if at == top:
            # one row or note taller than a page: its lines are dealt out
            pieces = block.pieces(room, at - low)
            for i, part in enumerate(pieces):
                pages[-1].blocks.append(PlacedBlock(block.title or "table", part, (left, top - part.rect[3])))
                at = top - part.rect[3] - GAP
                if i + 1 < len(pieces):
                    pages.append(_fresh(page, title))
            continue
        pages.append(_fresh(page, title))
        at = top
        todo.insert(0, block)
    return pages


def _fresh(page: Paper, title: Piece) -> Placement:
    return Placement(blocks=[PlacedBlock("title block", title, (page.frame[2] - title.rect[2], page.frame[1]))])


def _scaled(block: Block, room: float) -> Block:
    """Return a table with columns of a set width stretched or shrunk to the room."""
    if isinstance(block, Notes) or block.widths is None:
        return block
    share = room / sum(block.widths)
    return replace(block, widths=tuple(w * share for w in block.widths))


def _whole(block: Block, room: float) -> Piece:
    return block.pieces(room, 1e6)[0]


def _lines(block: Block) -> int:
    return len(block.lines) if isinstance(block, Notes) else len(block.rows)


def _cut(block: Block, n: int) -> tuple[Block, Block]:
    more = block.title if not block.title or block.title.endswith("(continued)") else f"{block.title} (continued)"
    if isinstance(block, Notes):
        rest = replace(block, lines=block.lines[n:], title=more, start=block.start + n)
        return replace(block, lines=block.lines[:n]), rest
    return replace(block, rows=block.rows[:n]), replace(block, rows=block.rows[n:], title=more)


def _parted(block: Block, room: float, tall: float) -> tuple[Block, Block] | None:
    """Return a block in two, the first as long as the height allows; None where too little of it would fit."""
    count = _lines(block)
    least = min(LEAST, count - 1)
    # neither a row or two alone at the foot of a page, nor one alone on the next
    for n in range(count - 2 if count > LEAST else count - 1, max(least, 1) - 1, -1):
        head, rest = _cut(block, n)
        if _whole(head, room).rect[3] <= tall:
            return head, rest
    return None
