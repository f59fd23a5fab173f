"""Pages of a cut plan for the saw: first what to take from the rack and what comes of it, then a page a board."""

from __future__ import annotations

import textwrap
from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Any

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Polygon, Rectangle

from parts.handle.cutplan.model import BoardPlan, Placement, Plan
from parts.handle.cutplan.sawsteps import steps
from parts.handle.wood import wood_cautions
from shared.units import MM_PER_IN, to_inch

Outlines = Mapping[tuple[str, str], Sequence[tuple[float, float]]]
PAPER_IN = (11.0, 8.5)
LEFT, RIGHT, TOP = 0.06, 0.94, 0.94
ROW = 0.021
PIECE = {"tote": "#d9b38c", "knob": "#c08f5f"}
INK, DEFECT, KEPT, CUT, FAINT = "#222222", "#a33c30", "#eef1ea", "#2f5d7c", "#666666"
UNDER_NUMBER: Any = {"fc": "white", "ec": "none", "alpha": 0.8, "pad": 0.4}
SHOWN_BEYOND_MM = 160.0  # of what goes back on the rack, when the board is drawn broken off
SHORT_CAUTION = (
    "Small pieces at saws: clamp, sled, push blocks; saw curves while the piece still hangs on the board. Dust off at "
    "the machine, mask to sand. The saw's manual and local codes come first."
)


def both(mm: float) -> str:
    """Return a length [mm] in both units."""
    return f"{mm:.1f} mm ({to_inch(mm):.2f} in)"


def sizes(mm: Sequence[float]) -> str:
    """Return sizes [mm] in both units."""
    return " x ".join(f"{v:.1f}" for v in mm) + " mm (" + " x ".join(f"{to_inch(v):.2f}" for v in mm) + " in)"


def piece_names(plan: BoardPlan) -> dict[int, str]:
    """Return a short name of each placement of a board, from left to right: T1, T2, K1."""
    count: Counter[str] = Counter()
    names = {}
    for n in sorted(range(len(plan.placements)), key=lambda n: (plan.placements[n].x, plan.placements[n].y)):
        letter = plan.placements[n].piece[0].upper()
        count[letter] += 1
        names[n] = f"{letter}{count[letter]}"
    return names


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

    def head(self, text: str) -> None:
        self.y -= 0.3 * ROW
        self.say(text, 9.5)

    def close(self) -> None:
        if self.left_out:
            self.figure.text(LEFT, self.bottom - ROW, f"and {self.left_out} lines more: see plan.txt", fontsize=7)


def plan_page(plan: Plan, title: str) -> Figure:
    """Return the first page: blanks, boards in the order to take them, what comes out, what remains, cautions.

    Args:
        plan: the plan to draw.
        title: first line of the page.
    """
    figure = Figure(figsize=PAPER_IN)
    figure.text(LEFT, TOP, title, fontsize=14, color=INK)
    text = _Lines(figure, TOP - 2 * ROW, 0.05)
    found = sum(plan.sets.values())
    proven = f"no plan of this kind could give more than {plan.bound_sets} sets"
    if plan.gap_bf is not None:
        proven = f"no plan of this kind could save more than {plan.gap_bf:.2f} board feet"
    if plan.proven:
        proven = "proven, no plan of this kind takes less"
    text.say(
        f"{plan.way}: {found} of {sum(plan.wanted.values())} sets, {sum(plan.matched.values())} with tote and knob "
        f"from one board; {plan.used_bf:.2f} board feet, yield {100 * plan.yield_fraction:.0f} %, about "
        f"{plan.saw_time_s / 60:.0f} min at the saw; {proven}"
    )
    text.head("Blanks, grain along the first size")
    for order in plan.orders:
        for b in order.blanks:
            size = sizes((b.length_mm, b.width_mm, b.thickness_mm))
            text.say(f"{order.name} {b.name}, {order.species}: {size}; saw and plane to that thickness", indent=0.01)
    text.head("Take from the rack, in this order")
    for n, board in enumerate(plan.boards, 1):
        text.say(f"{n}. {_board_line(board)}", indent=0.01)
    if plan.spares:
        text.say("spare pieces: " + ", ".join(f"{n} {name}" for name, n in plan.spares.items()), indent=0.01)
    for head, lines in (("To buy", plan.to_buy), ("Set aside", plan.set_aside)):
        if lines:
            text.head(head)
            for line in lines:
                text.say(line, indent=0.01)
    text.head("Mark the board before the first cut")
    text.say(
        "Check each board with the meter and by eye: checks at the ends and defects the list does not know come before "
        "the plan. Square one end, joint one edge; all sizes are from the left end and the lower edge of the board as "
        "drawn. Mark every line and every grain arrow first, then saw in the order of the numbers.",
        indent=0.01,
    )
    text.head("Cautions")
    for species in dict.fromkeys(o.species for o in plan.orders):
        for c in wood_cautions(species):
            text.say(f"{c.topic}: {c.text} [{c.source}]", 7.5, 0.01, 160)
    text.close()
    return figure


def _board_line(plan: BoardPlan) -> str:
    board = plan.board
    pieces = ", ".join(f"{n} {name}" for name, n in Counter(p.piece for p in plan.placements).items())
    back = "; ".join(f"{o.dx:.0f} x {o.dy:.0f} mm" for o in plan.offcuts)
    size = sizes((board.length_mm, board.width_mm, board.thickness_mm))
    rest = f"back on the rack {back}" if back else "nothing long enough goes back"
    kind = f"{board.species} {board.grade.replace('_', ' ')}"
    return f"{board.name}, {kind}, {size}: {pieces}; takes {plan.used_bf:.2f} bf; {rest}"


def board_page(plan: BoardPlan, title: str, page: str, outlines: Outlines) -> Figure:
    """Return one page: the board to scale with defects, pieces, grain, saw cuts in their order, and what goes back.

    Args:
        plan: what happens to one board.
        title: first line of the page.
        page: which page of how many.
        outlines: what is sawn from each rectangle later, by order and piece [mm].
    """
    board = plan.board
    figure = Figure(figsize=PAPER_IN)
    figure.text(LEFT, TOP, f"Board {board.name}: {title}", fontsize=13, color=INK)
    figure.text(RIGHT, TOP, page, fontsize=8, ha="right", color=FAINT)
    size = sizes((board.length_mm, board.width_mm, board.thickness_mm))
    kind = f"{board.species}, {board.grade.replace('_', ' ')}, {board.moisture_percent:g} % moisture"
    figure.text(LEFT, TOP - 0.035, f"{kind}, {size}")
    takes = f"takes {plan.used_bf:.2f} board feet, about {plan.saw_time_s / 60:.0f} min at the saw"
    counts = ", ".join(f"{n} {name}" for name, n in Counter(p.piece for p in plan.placements).items())
    figure.text(LEFT, TOP - 0.06, f"{plan.way}: {counts}; {takes}; arrows show the grain, hatching the defects")
    axes = figure.add_axes((LEFT, 0.44, RIGHT - LEFT, 0.41))
    _draw_board(axes, plan, outlines)
    wide, tall = 1.02 * _end_shown(plan), 1.14 * board.width_mm
    drawn = (RIGHT - LEFT) * PAPER_IN[0] * tall / wide / PAPER_IN[1]  # height of the drawing, share of the page
    text = _Lines(figure, max(0.36, 0.85 - drawn - 0.09), 0.09)
    _say_steps(text, plan)
    text.close()
    figure.text(LEFT, 0.03, "\n".join(textwrap.wrap(SHORT_CAUTION, 165)), fontsize=7, color=DEFECT)
    return figure


def _say_steps(text: _Lines, plan: BoardPlan) -> None:
    for s in steps(plan):
        numbers = f"{s.first}" if s.first == s.last else f"{s.first} to {s.last}"
        at = ", ".join(f"{v:.1f} ({to_inch(v):.2f})" for v in s.at_mm)
        text.say(f"{numbers}. {s.what}, middle of the kerf from {s.from_where} at mm (in): {at}", 7.5, wide=165)
    if plan.way == "interlocked":
        last = len(plan.cuts)
        text.say(
            f"{last + 1}. lay the full-size print (the DXF of this board, scale checked) on the marked board, lower "
            "edge and left end together, and prick the outlines through; grain arrows along the board",
            7.5,
            wide=165,
        )
        order = ", ".join(reversed(list(piece_names(plan).values())))
        text.say(
            f"{last + 2}. bandsaw outside the lines, from the free end inward while the rest still hangs on the board, "
            f"in the order {order}; the line left on is the shaping allowance",
            7.5,
            wide=165,
        )
    for o in plan.offcuts:
        corner = f"its corner at {o.x:.0f}, {o.y:.0f} mm"
        text.say(f"back on the rack: {both(o.dx)} by {both(o.dy)}, {corner}", 7.5, wide=165)


def _end_shown(plan: BoardPlan) -> float:
    """Return how much of the board's length is drawn [mm]: all of it, or the part worked and a little beyond."""
    worked = max((p.x + p.dx for p in plan.placements), default=0.0)
    worked = max([worked, *(max(c.x0, c.x1) for c in plan.cuts if c.kind != "rip")])
    length = plan.board.length_mm
    return worked + SHOWN_BEYOND_MM if worked + 2 * SHOWN_BEYOND_MM < length else length


def _to_inches(mm: Any) -> Any:
    return mm / MM_PER_IN


def _from_inches(inches: Any) -> Any:
    return inches * MM_PER_IN


def _draw_board(axes: Axes, plan: BoardPlan, outlines: Outlines) -> None:
    board, end = plan.board, _end_shown(plan)
    axes.add_patch(Rectangle((0, 0), board.length_mm, board.width_mm, fc="#faf6ee", ec=INK, lw=1.0))
    for o in plan.offcuts:
        axes.add_patch(Rectangle((o.x, o.y), o.dx, o.dy, fc=KEPT, ec="#8a9a80", lw=0.6, ls=":"))
        seen = min(o.x + o.dx, end)
        if seen - o.x > 40:
            axes.text((o.x + seen) / 2, o.y + o.dy / 2, f"back on\nthe rack\n{o.dx:.0f} x {o.dy:.0f}", fontsize=6.5,
                      ha="center", va="center", color=INK)  # fmt: skip
    for n, name in piece_names(plan).items():
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
        # a number stands where its cut begins: crosscuts above the line, rips at its left end
        if c.kind == "rip":
            axes.text(c.x0 - 2, c.y0, str(i), color=CUT, fontsize=5.5, ha="right", va="center", bbox=UNDER_NUMBER)
        else:
            axes.text(c.x0, max(c.y0, c.y1) + 1, str(i), color=CUT, fontsize=5.5, ha="center", va="bottom")
    axes.set_xlim(-0.015 * end, 1.005 * end)
    axes.set_ylim(-0.06 * board.width_mm, 1.08 * board.width_mm)
    axes.set_aspect("equal", anchor="N")
    axes.set_xlabel(
        "mm from the left end (inches above)" + ("" if end == board.length_mm else "; board drawn broken off")
    )
    axes.set_ylabel("mm from the lower edge" if board.width_mm > 0.2 * end else "mm", fontsize=7)
    above = axes.secondary_xaxis("top", functions=(_to_inches, _from_inches))
    for one in (axes, above):
        one.tick_params(labelsize=7)
    axes.spines["right"].set_visible(False)
