"""Drawing a cut plan: one picture a board, for the bench, PNG or PDF by the file's ending."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from parts.handle.cutplan.model import BoardPlan, Plan
from shared.units import to_inch

if TYPE_CHECKING:
    from matplotlib.axes import Axes

INK = "#3a3126"
WOOD = "#efe3cd"
OFFCUT = "#f8f3e8"
DEFECT = "#8c6a4f"
PIECES = ("#c98f52", "#8fa37a", "#b9a04a", "#7d93a8", "#a87d7d", "#9a8fb5")


def _board(ax: Axes, plan: BoardPlan, colours: dict[str, str]) -> None:
    from matplotlib.patches import Polygon, Rectangle

    board = plan.board
    ax.add_patch(Rectangle((0, 0), board.length_mm, board.width_mm, facecolor=WOOD, edgecolor=INK, linewidth=1.2))
    for o in plan.offcuts:
        ax.add_patch(Rectangle((o.x, o.y), o.dx, o.dy, facecolor=OFFCUT, edgecolor="none"))
        ax.text(o.x + o.dx / 2, o.y + o.dy / 2, f"back to the rack\n{o.dx:.0f} × {o.dy:.0f}", ha="center", va="center",
                fontsize=7, color=INK)  # fmt: skip
    for n, p in enumerate(plan.placements, 1):
        colour = colours[f"{p.order} {p.piece}"]
        shape: Any = (
            Polygon(p.outline, closed=True, facecolor=colour, edgecolor=INK, linewidth=0.7)
            if p.outline
            else Rectangle((p.x, p.y), p.dx, p.dy, facecolor=colour, edgecolor=INK, linewidth=0.7)
        )
        ax.add_patch(shape)
        middle = _middle(p.outline) if p.outline else (p.x + p.dx / 2, p.y + p.dy / 2)
        ax.text(*middle, str(n), ha="center", va="center", fontsize=6, color=INK)
    for d in board.defects:
        ax.add_patch(Rectangle((d.x, d.y), d.dx, d.dy, facecolor=DEFECT, edgecolor=INK, linewidth=0.5, hatch="xxx"))
    for c in plan.cuts:
        style = {"crosscut": ("#a33", 1.0), "rip": ("#235a8c", 0.7), "trim": ("#a33", 0.6)}[c.kind]
        ax.plot([c.x0, c.x1], [c.y0, c.y1], color=style[0], linewidth=style[1])
    arrow = -0.13 * board.width_mm
    ax.annotate("", (0.16 * board.length_mm, arrow), (0, arrow), arrowprops={"arrowstyle": "<->", "color": INK})
    ax.text(0.17 * board.length_mm, arrow, "grain", va="center", fontsize=7, color=INK)
    ax.set_xlim(-10, board.length_mm + 10)
    ax.set_ylim(-0.25 * board.width_mm, board.width_mm + 5)
    ax.set_aspect("equal")
    ax.axis("off")
    size = f"{to_inch(board.length_mm):.4g} × {to_inch(board.width_mm):.4g} × {to_inch(board.thickness_mm):.4g} in"
    ax.set_title(
        f"board {board.name}, {board.species}, {size}: {len(plan.placements)} pieces, {plan.used_bf:.2f} board feet "
        f"taken, {plan.saw_time_s / 60:.0f} min ({plan.way})",
        fontsize=9, loc="left", color=INK,
    )  # fmt: skip


def _middle(points: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """Return the centroid of an outline [mm]."""
    area = cx = cy = 0.0
    for (x0, y0), (x1, y1) in zip(points, [*points[1:], *points[:1]], strict=True):
        a = x0 * y1 - x1 * y0
        area, cx, cy = area + a, cx + (x0 + x1) * a, cy + (y0 + y1) * a
    return cx / (3 * area), cy / (3 * area)


def draw_plan(plan: Plan, path: Path | str, boards_a_page: int = 6) -> list[Path]:
    """Draw every board of a plan to scale with its cuts, pieces, defects and offcuts.

    Args:
        plan: the plan.
        path: .png or .pdf; pages after the first get -2, -3, ... before the ending.
        boards_a_page: boards on one page.

    Returns:
        The files written; none when the plan uses no board.
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure
    from matplotlib.patches import Patch

    names = sorted({f"{p.order} {p.piece}" for b in plan.boards for p in b.placements})
    colours = {n: PIECES[i % len(PIECES)] for i, n in enumerate(names)}
    path, out = Path(path), []
    for page, first in enumerate(range(0, len(plan.boards), boards_a_page), 1):
        some = plan.boards[first : first + boards_a_page]
        figure = Figure(figsize=(11.7, 1.0 + 1.75 * len(some)), dpi=150)
        FigureCanvasAgg(figure)
        for ax, board_plan in zip(figure.subplots(len(some), 1, squeeze=False)[:, 0], some, strict=True):
            _board(ax, board_plan, colours)
        figure.legend(
            handles=[Patch(facecolor=colours[n], edgecolor=INK, label=n) for n in names]
            + [Patch(facecolor=DEFECT, edgecolor=INK, hatch="xxx", label="defect")],
            loc="lower left", ncols=6, fontsize=7, frameon=False,
        )  # fmt: skip
        figure.subplots_adjust(left=0.03, right=0.98, top=1 - 0.35 / figure.get_figheight(), bottom=0.06, hspace=0.35)
        target = path if page == 1 else path.with_name(f"{path.stem}-{page}{path.suffix}")
        metadata = {"CreationDate": None} if target.suffix == ".pdf" else {"Software": None}
        figure.savefig(target, metadata=metadata)
        out.append(target)
    return out
