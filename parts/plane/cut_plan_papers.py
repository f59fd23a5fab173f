"""The cut plan drawn: an overview and a page a board (PNG and PDF), and a full-size DXF a board."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from matplotlib import rc_context
from matplotlib.backends.backend_pdf import PdfPages

from parts.handle.cutplan.jobs import piece_names
from parts.handle.cutplan.model import BoardPlan, Placement, Plan
from parts.handle.wood import wood_label
from parts.plane.cut_plan_pages import board_page, piece_points, plan_page
from parts.plane.handle_blanks import PlanHeading
from shared.drawing.dxf import write_outline
from shared.drawing.primitives import Note, Primitive
from shared.profile import Profile
from shared.segments import Line

STYLE: Any = {"font.family": "DejaVu Sans", "font.size": 8, "pdf.fonttype": 42, "svg.hashsalt": "planewright"}
ARROW_HEAD_MM = 3.0
NAME_HEIGHT_MM = 4.0


def draw_plan(plan: Plan, heading: PlanHeading, folder: Path) -> None:
    """Write the plan's drawings: plan.png, board-NAME.png and .dxf for each board, all pages in plan.pdf.

    Args:
        plan: the plan to draw.
        heading: title, spec, units and paper of the pages.
        folder: where to write.
    """
    pages = len(plan.boards) + 1
    outlines = {(o.name, b.name): b.outline for o in plan.orders for b in o.blanks}
    with rc_context(STYLE), PdfPages(folder / "plan.pdf", metadata={"CreationDate": None}) as pdf:
        first = plan_page(plan, heading, f"page 1 of {pages}")
        pdf.savefig(first)
        first.savefig(folder / "plan.png", dpi=110, metadata={"Software": None})
        for n, b in enumerate(plan.boards, 2):
            figure = board_page(b, plan, heading, f"page {n} of {pages}", outlines)
            pdf.savefig(figure)
            figure.savefig(folder / f"board-{_plain(b.board.name)}.png", dpi=110, metadata={"Software": None})
    for b in plan.boards:
        _dxf(b, heading, folder / f"board-{_plain(b.board.name)}.dxf")


def earlier_papers(folder: Path) -> list[Path]:
    """Return the papers of boards that an earlier plan left in a folder: a drawing and its picture, beside a plan."""
    if not (folder / "plan.pdf").is_file():
        return []
    pairs = ((p, p.with_suffix(".png")) for p in sorted(folder.glob("board-*.dxf")))
    return [p for pair in pairs if all(q.is_file() for q in pair) for p in pair]


def _plain(name: str) -> str:
    return "".join(c if c.isalnum() or c in "-_" else "-" for c in name)


def _grain(p: Placement) -> list[Line]:
    """Return a double arrow along the board's length in the middle of a piece [mm]."""
    x, y, half = p.x + p.dx / 2, p.y + p.dy / 2, 0.26 * p.dx
    out = [Line((x - half, y), (x + half, y))]
    for tip, back in ((x - half, ARROW_HEAD_MM), (x + half, -ARROW_HEAD_MM)):
        out += [Line((tip, y), (tip + back, y + up * ARROW_HEAD_MM / 3)) for up in (1, -1)]
    return out


def _dxf(plan: BoardPlan, heading: PlanHeading, path: Path) -> None:
    board = plan.board
    pieces = [Profile.polygon(piece_points(p), name=p.piece) for p in plan.placements]
    edge = Profile.rectangle(0.0, 0.0, board.length_mm, board.width_mm, name="board")
    words = [
        Note(name, (p.x + p.dx / 2, p.y + p.dy / 2 + ARROW_HEAD_MM), NAME_HEIGHT_MM, 0.0, "centre")
        for n, name in piece_names(plan.placements).items()
        for p in [plan.placements[n]]
    ]
    more: dict[str, list[Profile | Primitive]] = {
        "CUT": list(pieces),
        "CENTRE": [Line((c.x0, c.y0), (c.x1, c.y1)) for c in plan.cuts],
        "HIDDEN": [Profile.rectangle(s.x, s.y, s.x + s.dx, s.y + s.dy, name="defect") for s in board.defects],
        "TEXT": [*words, *(line for p in plan.placements for line in _grain(p))],
    }
    filled = {layer: items for layer, items in more.items() if items}
    write_outline(
        path,
        [edge],
        [heading.title, f"board {board.name}, {wood_label(board.species)}", plan.way, f"spec {heading.spec}"],
        more=filled,
    )
