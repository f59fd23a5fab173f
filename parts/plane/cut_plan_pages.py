"""Pages of a cut plan for the saw: first what to take from the rack and what comes of it, then a page a board."""

from __future__ import annotations

import textwrap
from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Any

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Polygon, Rectangle
from matplotlib.ticker import FuncFormatter, MultipleLocator

from parts.handle.cutplan.jobs import piece_names
from parts.handle.cutplan.model import BoardPlan, Placement, Plan
from parts.handle.cutplan.words import footage, matched_text, proof_text, sizes, spares_text
from parts.handle.grading import grade_name
from parts.handle.wood import wood_cautions, wood_label
from parts.plane.handle_blanks import MARK_FIRST, PlanHeading, back_text, board_steps, moisture_lines
from shared.units import MM_PER_IN
from shared.wording import counted

Outlines = Mapping[tuple[str, str], Sequence[tuple[float, float]]]
PAPERS_IN = {"A": (11.0, 8.5), "A4": (297.0 / MM_PER_IN, 210.0 / MM_PER_IN)}  # letter and A4, lying
LEFT, RIGHT, TOP, FOOT = 0.06, 0.94, 0.94, 0.025
ROW = 0.021
PIECE = {"tote": "#d9b38c", "knob": "#c08f5f"}
INK, DEFECT, KEPT, CUT, FAINT = "#222222", "#a33c30", "#eef1ea", "#2f5d7c", "#666666"
UNDER_NUMBER: Any = {"fc": "white", "ec": "none", "alpha": 0.8, "pad": 0.4}
# what one numbered division of an axis may be, in its unit
STEPS = {"inches": (0.5, 1, 2, 4, 6, 12, 24, 48), "mm": (10, 20, 50, 100, 200, 500, 1000)}
SHOWN_BEYOND_MM = 160.0  # of what goes back on the rack, when the board is drawn broken off
STEP_SIZES = (7.5, 7.0, 6.5, 6.0)  # points; the first at which all steps of a board fit its page
SHORT_CAUTION = (
    "Small pieces at saws: clamp, sled, push blocks; saw curves while the piece still hangs on the board. Dust off at "
    "the machine, mask to sand. The saw's manual and local codes come first."
)


def piece_points(p: Placement) -> list[tuple[float, float]]:
    """Return the outline of a piece on its board [mm]: its own, or its rectangle."""
    if p.outline:
        return list(p.outline)
    return [(p.x, p.y), (p.x + p.dx, p.y), (p.x + p.dx, p.y + p.dy), (p.x, p.y + p.dy)]


class _Lines:
    """Text down a page, one line below the other; what has no room left is said in the last line."""

    def __init__(self, figure: Figure, top: float, bottom: float) -> None:
        self.figure, self.y, self.bottom = figure, top, bottom
        self.left_out = 0

    def say(self, text: str, size: float = 8.0, indent: float = 0.0, wide: int = 150) -> None:
        for line in textwrap.wrap(text, wide) or [""]:
            if self.y < self.bottom:
                self.left_out += 1
                continue
            self.figure.text(LEFT + indent, self.y, line, fontsize=size, color=INK)
            self.y -= ROW * size / 8

    def room(self, lines: Sequence[str], size: float, wide: int) -> bool:
        """Return whether all of some lines fit at a size of type [points], wrapped at so many letters."""
        wrapped = sum(len(textwrap.wrap(line, wide)) for line in lines)
        return self.y - (wrapped - 1) * ROW * size / 8 >= self.bottom

    def head(self, text: str) -> None:
        self.y -= 0.3 * ROW
        self.say(text, 9.5)

    def close(self) -> None:
        if self.left_out:
            self.figure.text(LEFT, self.bottom - ROW, f"and {self.left_out} lines more: see plan.txt", fontsize=7)


def _wide(size: float) -> int:
    """Return how many letters of a size of type [points] a line of steps holds."""
    return round(178 * 7.5 / size)


def _page(heading: PlanHeading, head: str, page: str) -> Figure:
    """Return an empty page with its head, and what it belongs to at its foot."""
    figure = Figure(figsize=PAPERS_IN[heading.paper])
    figure.text(LEFT, TOP, head, fontsize=13, color=INK)
    figure.text(RIGHT, TOP, page, fontsize=8, ha="right", color=FAINT)
    figure.text(RIGHT, FOOT, f"{heading.title} · spec {heading.spec} · {heading.works} · {page}", fontsize=6.5,
                ha="right", color=FAINT)  # fmt: skip
    return figure


def plan_page(plan: Plan, heading: PlanHeading, page: str) -> Figure:
    """Return the first page: blanks, boards in the order to take them, what comes out, what remains, cautions.

    Args:
        plan: the plan to draw.
        heading: title, spec, units and paper.
        page: which page of how many.
    """
    first = heading.first
    figure = _page(heading, heading.title, page)
    text = _Lines(figure, TOP - 2 * ROW, 0.07)
    matched = matched_text(plan)
    out = f"{sum(plan.sets.values())} of {sum(plan.wanted.values())} sets{', ' + matched if matched else ''}"
    text.say(
        f"{plan.way}: {out}; "
        f"{footage(plan.used_bf, first)}, yield {100 * plan.yield_fraction:.0f} %, about "
        f"{plan.saw_time_s / 60:.0f} min at the saw; {proof_text(plan, first)}"
    )
    text.head("Blanks, grain along the first size")
    for order in plan.orders:
        for b in order.blanks:
            size = sizes((b.length_mm, b.width_mm, b.thickness_mm), first)
            text.say(f"{order.name} {b.name}, {wood_label(order.species)}: {size}", indent=0.01)
    text.head("Take from the rack, in this order")
    for n, board in enumerate(plan.boards, 1):
        text.say(f"{n}. {_board_line(board, first)}", indent=0.01)
    if plan.spares:
        text.say(spares_text(plan), indent=0.01)
    damp = moisture_lines(plan, heading.shop_moisture_percent)
    for head, lines in (("Moisture", damp), ("To buy", plan.to_buy), ("Set aside", plan.set_aside)):
        if lines:
            text.head(head)
            for line in lines:
                text.say(line, indent=0.01)
    text.head("Mark the board before the first cut")
    text.say(MARK_FIRST, indent=0.01)
    text.head("Cautions")
    for species in dict.fromkeys(o.species for o in plan.orders):
        for c in wood_cautions(species, first):
            text.say(f"{c.topic}: {c.text} [{c.source}]", 7.5, 0.01, 160)
    text.close()
    return figure


def _pieces(plan: BoardPlan) -> str:
    return ", ".join(counted(n, name) for name, n in Counter(p.piece for p in plan.placements).items())


def _board_line(plan: BoardPlan, first: str) -> str:
    board = plan.board
    back = "; ".join(sizes((o.dx, o.dy), first) for o in plan.offcuts)
    size = sizes((board.length_mm, board.width_mm, board.thickness_mm), first)
    rest = f"back on the rack {back}" if back else "nothing long enough goes back"
    kind = f"{wood_label(board.species)} {grade_name(board.grade)}"
    return f"{board.name}, {kind}, {size}: {_pieces(plan)}; takes {footage(plan.used_bf, first)}; {rest}"


def board_page(plan: BoardPlan, whole: Plan, heading: PlanHeading, page: str, outlines: Outlines) -> Figure:
    """Return one page: the board to scale with defects, pieces, grain, saw cuts in their order, and what goes back.

    Args:
        plan: what happens to one board.
        whole: the plan that the board belongs to.
        heading: title, spec, units and paper.
        page: which page of how many.
        outlines: what is sawn from each rectangle later, by order and piece [mm].
    """
    board, first = plan.board, heading.first
    figure = _page(heading, f"Board {board.name}: {heading.title}", page)
    size = sizes((board.length_mm, board.width_mm, board.thickness_mm), first)
    kind = f"{wood_label(board.species)}, {grade_name(board.grade)}, {board.moisture_percent:g} % moisture"
    figure.text(LEFT, TOP - 0.035, f"{kind}, {size}")
    takes = f"takes {footage(plan.used_bf, first)}, about {plan.saw_time_s / 60:.0f} min at the saw"
    figure.text(LEFT, TOP - 0.06, f"{plan.way}: {_pieces(plan)}; {takes}; arrows show the grain, hatching the defects")
    axes = figure.add_axes((LEFT, 0.44, RIGHT - LEFT, 0.41))
    _draw_board(axes, plan, outlines, first)
    paper = PAPERS_IN[heading.paper]
    wide, tall = 1.02 * _end_shown(plan), 1.14 * board.width_mm
    drawn = (RIGHT - LEFT) * paper[0] * tall / wide / paper[1]  # height of the drawing, share of the page
    text = _Lines(figure, max(0.36, 0.85 - drawn - 0.09), 0.09)
    lines = [*board_steps(plan, whole, heading), *(back_text(o, first) for o in plan.offcuts)]
    points = next((s for s in STEP_SIZES if text.room(lines, s, _wide(s))), STEP_SIZES[-1])
    for line in lines:
        text.say(line, points, wide=_wide(points))
    text.close()
    figure.text(LEFT, 0.05, "\n".join(textwrap.wrap(SHORT_CAUTION, 165)), fontsize=7, color=DEFECT)
    return figure


def _end_shown(plan: BoardPlan) -> float:
    """Return how much of the board's length is drawn [mm]: all of it, or the part worked and a little beyond."""
    worked = max((p.x + p.dx for p in plan.placements), default=0.0)
    worked = max([worked, *(max(c.x0, c.x1) for c in plan.cuts if c.kind != "rip")])
    length = plan.board.length_mm
    return worked + SHOWN_BEYOND_MM if worked + 2 * SHOWN_BEYOND_MM < length else length


def _draw_board(axes: Axes, plan: BoardPlan, outlines: Outlines, first: str) -> None:
    """Draw a board in the plane's own unit along the near axes, in the other along the far ones."""
    board, end = plan.board, _end_shown(plan)
    axes.add_patch(Rectangle((0, 0), board.length_mm, board.width_mm, fc="#faf6ee", ec=INK, lw=1.0))
    for o in plan.offcuts:
        axes.add_patch(Rectangle((o.x, o.y), o.dx, o.dy, fc=KEPT, ec="#8a9a80", lw=0.6, ls=":"))
        seen = min(o.x + o.dx, end)
        if seen - o.x > 40:
            said = "back on\nthe rack\n" + sizes((o.dx, o.dy), first).replace(" [", "\n[")
            axes.text((o.x + seen) / 2, o.y + o.dy / 2, said, fontsize=6.5, ha="center", va="center", color=INK)
    for n, name in piece_names(plan.placements).items():
        p = plan.placements[n]
        axes.add_patch(Polygon(piece_points(p), fc=PIECE.get(p.piece, "#cccccc"), ec=INK, lw=0.7))
        later = outlines.get((p.order, p.piece), ())
        if later and not p.outline:
            inside = [(p.x + x, p.y + y) for x, y in later]
            axes.add_patch(Polygon(inside, fc="none", ec=FAINT, lw=0.5, ls=(0, (4, 2))))
        middle, half = (p.x + p.dx / 2, p.y + p.dy / 2), 0.26 * p.dx
        ends = (middle[0] + half, middle[1]), (middle[0] - half, middle[1])
        axes.annotate("", *ends, arrowprops={"arrowstyle": "<->", "color": INK, "lw": 0.5, "shrinkA": 0, "shrinkB": 0})
        axes.text(middle[0], middle[1] + 0.03 * p.dy, name, fontsize=6, ha="center", va="bottom", color=INK)
    for spot in board.defects:
        axes.add_patch(Rectangle((spot.x, spot.y), spot.dx, spot.dy, fc="none", ec=DEFECT, lw=0.8, hatch="xx"))
    for i, c in enumerate(plan.cuts, 1):
        axes.plot([c.x0, c.x1], [c.y0, c.y1], color=CUT, lw=0.8, ls="-" if c.kind != "trim" else "--")
        # a number stands where its cut begins: crosscuts above the line, rips at the left; a trim's in its middle
        if c.kind == "trim":
            axes.text(c.x0, (c.y0 + c.y1) / 2, str(i), color=CUT, fontsize=5.5, ha="center", va="center",
                      bbox=UNDER_NUMBER)  # fmt: skip
        elif c.kind == "rip":
            axes.text(c.x0 - 2, c.y0, str(i), color=CUT, fontsize=5.5, ha="right", va="center", bbox=UNDER_NUMBER)
        else:
            axes.text(c.x0, max(c.y0, c.y1) + 1, str(i), color=CUT, fontsize=5.5, ha="center", va="bottom")
    axes.set_xlim(-0.015 * end, 1.005 * end)
    axes.set_ylim(-0.06 * board.width_mm, 1.08 * board.width_mm)
    axes.set_aspect("equal", anchor="N")
    near, far = ("inches", "mm") if first == "inch" else ("mm", "inches")
    broken = "" if end == board.length_mm else "; board drawn broken off"
    axes.set_xlabel(f"{near} from the left end ({far} above){broken}")
    axes.set_ylabel(f"{near} from the lower edge" if board.width_mm > 0.2 * end else near, fontsize=7)
    above = axes.secondary_xaxis("top", functions=(_same, _same))
    for axis, unit in ((axes.xaxis, near), (axes.yaxis, near), (above.xaxis, far)):
        one = MM_PER_IN if unit == "inches" else 1.0
        span = board.width_mm if axis is axes.yaxis else end
        step = next(s for s in STEPS[unit] if span / (s * one) <= 12)
        axis.set_major_locator(MultipleLocator(step * one))
        axis.set_major_formatter(FuncFormatter(lambda v, _, one=one: f"{v / one:g}"))
    for frame in (axes, above):
        frame.tick_params(labelsize=7)
    axes.spines["right"].set_visible(False)


def _same(mm: Any) -> Any:
    return mm
