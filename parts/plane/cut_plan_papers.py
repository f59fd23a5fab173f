"""The cut plan drawn: a page a board (PNG and PDF) and a full-size DXF a board."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from matplotlib import rc_context
from matplotlib.axes import Axes
from matplotlib.backends.backend_pdf import PdfPages
from matplotlib.figure import Figure
from matplotlib.patches import Polygon, Rectangle

from parts.handle.cutplan.model import BoardPlan, Placement, Plan
from shared.drawing.dxf import write_outline
from shared.profile import Profile
from shared.segments import Line
from shared.units import to_inch

STYLE: Any = {"font.family": "DejaVu Sans", "font.size": 8, "pdf.fonttype": 42, "svg.hashsalt": "planewright"}
PAPER_IN = (11.0, 6.0)
CAUTION = (
    "Small pieces at saws: clamp, sled, push blocks; dust off at the machine. "
    "The saw's manual and local codes come first."
)
PIECE = {"tote": "#d9b38c", "knob": "#c08f5f"}
INK, DEFECT, KEPT, CUT = "#222222", "#a33c30", "#eef1ea", "#2f5d7c"


def _points(p: Placement) -> list[tuple[float, float]]:
    if p.outline:
        return list(p.outline)
    return [(p.x, p.y), (p.x + p.dx, p.y), (p.x + p.dx, p.y + p.dy), (p.x, p.y + p.dy)]


def _grain(axes: Axes, p: Placement) -> None:
    middle, half = (p.x + p.dx / 2, p.y + p.dy / 2), 0.28 * p.dx
    axes.annotate("", (middle[0] + half, middle[1]), (middle[0] - half, middle[1]),
                  arrowprops={"arrowstyle": "<->", "color": INK, "lw": 0.6})  # fmt: skip


def board_page(plan: BoardPlan, title: str) -> Figure:
    """Return one page: the board to scale with defects, pieces, grain, saw cuts in their order, and what goes back.

    Args:
        plan: what happens to one board.
        title: first line of the page.
    """
    board = plan.board
    figure = Figure(figsize=PAPER_IN)
    axes = figure.add_axes((0.06, 0.46, 0.88, 0.36))
    axes.add_patch(Rectangle((0, 0), board.length_mm, board.width_mm, fc="#faf6ee", ec=INK, lw=1.0))
    for o in plan.offcuts:
        axes.add_patch(Rectangle((o.x, o.y), o.dx, o.dy, fc=KEPT, ec="#8a9a80", lw=0.6, ls=":"))
        axes.text(
            o.x + o.dx / 2, o.y + o.dy / 2, f"back on the rack\n{o.dx:.0f} x {o.dy:.0f} mm", ha="center", va="center"
        )
    for p in plan.placements:
        axes.add_patch(Polygon(_points(p), fc=PIECE.get(p.piece, "#cccccc"), ec=INK, lw=0.7))
        _grain(axes, p)
    for spot in board.defects:
        axes.add_patch(Rectangle((spot.x, spot.y), spot.dx, spot.dy, fc="none", ec=DEFECT, lw=0.8, hatch="xx"))
    for i, c in enumerate(plan.cuts, 1):
        axes.plot([c.x0, c.x1], [c.y0, c.y1], color=CUT, lw=0.9, ls="-" if c.kind != "trim" else "--")
        axes.text(c.x0, c.y1 if c.kind != "rip" else c.y0, str(i), color=CUT, fontsize=5.5, va="bottom")
    axes.set_xlim(-0.02 * board.length_mm, 1.02 * board.length_mm)
    axes.set_ylim(-0.08 * board.width_mm, 1.12 * board.width_mm)
    axes.set_aspect("equal", anchor="N")
    axes.set_xlabel("mm from the left end")
    axes.set_ylabel("mm from the lower edge")
    for side in ("top", "right"):
        axes.spines[side].set_visible(False)
    size = f"{board.length_mm:.0f} x {board.width_mm:.0f} x {board.thickness_mm:.1f} mm"
    inches = " x ".join(f"{to_inch(v):.2f}" for v in (board.length_mm, board.width_mm, board.thickness_mm))
    figure.text(0.06, 0.93, title, fontsize=13)
    takes = f"takes {plan.used_bf:.2f} board feet, about {plan.saw_time_s / 60:.0f} min at the saw"
    kind = f"{board.species}, {board.grade.replace('_', ' ')}"
    figure.text(0.06, 0.885, f"board {board.name}, {kind}: {size} ({inches} in); {plan.way}; {takes}")
    names = list(dict.fromkeys(p.piece for p in plan.placements))
    counts = [f"{sum(p.piece == name for p in plan.placements)} {name}" for name in names]
    figure.text(0.06, 0.845, "pieces: " + ", ".join(counts) + "; arrows show the grain")
    _cut_list(figure, plan)
    figure.text(0.06, 0.03, CAUTION, fontsize=7)
    return figure


def _cut_list(figure: Figure, plan: BoardPlan) -> None:
    rows = []
    for i, c in enumerate(plan.cuts, 1):
        at, what = (c.y0, "from the lower edge") if c.kind == "rip" else (c.x0, "from the left end")
        rows.append(f"{i}. {c.kind} at {at:.1f} mm ({to_inch(at):.3f} in) {what}")
    columns, deep = 3, 14
    for i, row in enumerate(rows[: columns * deep]):
        figure.text(0.06 + 0.30 * (i // deep), 0.36 - 0.022 * (i % deep), row, fontsize=6)
    if len(rows) > columns * deep:
        figure.text(0.66, 0.05, f"and {len(rows) - columns * deep} more: see plan.txt", fontsize=6)


def draw_plan(plan: Plan, title: str, folder: Path) -> None:
    """Write the plan's drawings: board-NAME.png and .dxf for each board, all pages in plan.pdf.

    Args:
        plan: the plan to draw.
        title: first line of each page.
        folder: where to write.
    """
    with rc_context(STYLE), PdfPages(folder / "plan.pdf", metadata={"CreationDate": None}) as pdf:
        for b in plan.boards:
            figure = board_page(b, title)
            pdf.savefig(figure)
            figure.savefig(folder / f"board-{_plain(b.board.name)}.png", dpi=110, metadata={"Software": None})
    for b in plan.boards:
        _dxf(b, title, folder / f"board-{_plain(b.board.name)}.dxf")


def _plain(name: str) -> str:
    return "".join(c if c.isalnum() or c in "-_" else "-" for c in name)


def _dxf(plan: BoardPlan, title: str, path: Path) -> None:
    board = plan.board
    pieces = [Profile.polygon(_points(p), name=p.piece) for p in plan.placements]
    edge = Profile.rectangle(0.0, 0.0, board.length_mm, board.width_mm, name="board")
    cuts = [Line((c.x0, c.y0), (c.x1, c.y1)) for c in plan.cuts]
    defects = [Profile.rectangle(s.x, s.y, s.x + s.dx, s.y + s.dy, name="defect") for s in board.defects]
    more: dict[str, list[Profile | Line]] = {"CUT": list(pieces)}
    if cuts:
        more["CENTRE"] = list(cuts)
    if defects:
        more["HIDDEN"] = list(defects)
    write_outline(path, [edge], [title, f"board {board.name}, {board.species}", plan.way], more=more)
