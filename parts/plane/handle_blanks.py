"""Handle blanks of one plane: plans on the rack, or footage without one."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from pathlib import Path

from parts.handle.blanks import WoodPractice
from parts.handle.cutplan.jobs import Blanks, Job, jobs, piece_names
from parts.handle.cutplan.model import WAYS, BoardPlan, Offcut, Order, Plan
from parts.handle.cutplan.plan import plan_boards
from parts.handle.cutplan.words import bare_footage, footage_column, length, proof_text, sizes, span, spares_text
from parts.handle.moisture import MOISTURE_TOL_PERCENT
from parts.handle.rack import Board, read_rack
from parts.handle.wood import wood_label
from parts.plane.design import Design
from parts.plane.printer import printer_paper
from parts.plane.wood import climates, handle_blanks
from shared.record import Record
from shared.wording import counted

MARK_FIRST = (
    "Check each board with the meter and by eye: checks at the ends and defects the list does not know come before "
    "the plan. All places count from the left end and the lower edge of the board as drawn, before anything is taken "
    "off them. Mark every line and every grain arrow first, then work in the order of the steps. Planing takes marks "
    "off: where strips are planed before they are cut to length, carry each mark over to the strip's edge first and "
    "square it across again after; where outlines are sawn from the board, the print is laid on when its step comes."
)
HANDLE_SETS = 10  # sets a build plans for; `planewright blanks` takes any number


def order_of(d: Design, quantity: int) -> Order:
    """Return the order for so many handle sets of a plane."""
    return Order(d.spec.plane.name, d.spec.handle.species, quantity, handle_blanks(d))


def rack_plan(
    d: Design, quantity: int, rack: Path, ways: tuple[str, ...] = WAYS, quick: bool = True
) -> dict[str, Plan]:
    """Plan the cuts.

    Args:
        d: the plane.
        quantity: sets wanted.
        rack: the rack's CSV.
        ways: which ways of sawing to plan.
        quick: interlocked boards are only looked over; a build does so, for time.

    Raises:
        InputError: a fault in the rack, or no quantity.
        RequestError: a blank fits no board.
    """
    order, practice = order_of(d, quantity), d.shop.wood_practice()
    plans = plan_boards([order], read_rack(rack), practice, ways, quick, d.spec.units)  # type: ignore[arg-type]
    return {str(way): plan for way, plan in plans.items()}


class PlanHeading(Record):
    """What every page of a cut plan says and needs of its plane: words, the unit that stands first, paper, practice."""

    title: str
    spec: str  # first letters of the spec's hash
    works: str
    first: str  # "inch" or "mm"
    paper: str  # "A" or "A4"
    practice: WoodPractice
    shop_moisture_percent: float  # what wood settles at in the shop


def plan_title(d: Design, quantity: int) -> PlanHeading:
    """Return the heading of a cut plan's drawings."""
    title = f"{d.spec.plane.name}, revision {d.spec.plane.revision}: blanks for {counted(quantity, 'handle set')}"
    return PlanHeading(title, d.loaded.source.sha256[:12], d.shop.works.name, d.spec.units, printer_paper(d),
                       d.shop.wood_practice(), climates(d)[0].emc_percent)  # fmt: skip


def off_moisture(plan: Plan, shop_percent: float) -> list[Board]:
    """Return the boards of a plan whose moisture is farther from the shop's [percent] than may be when they are sawn.

    What the shop's is, is said and judged to the tenth of a percent point that papers show.
    """
    shop = round(shop_percent, 1)
    return [b.board for b in plan.boards if abs(b.board.moisture_percent - shop) > MOISTURE_TOL_PERCENT + 1e-9]


def moisture_lines(plan: Plan, shop_percent: float) -> list[str]:
    """Return a line for each board of a plan that is to come to the shop's moisture [percent] before it is sawn."""
    return [
        f"board {b.name} reads {b.moisture_percent:g} % moisture: let it come to {shop_percent:.1f} ± "
        f"{MOISTURE_TOL_PERCENT:g} % before it is sawn"
        for b in off_moisture(plan, shop_percent)
    ]


def blanks_of(plan: Plan) -> Blanks:
    """Return the blanks of a plan by order and piece."""
    return {(o.name, b.name): b for o in plan.orders for b in o.blanks}


def numbered(jobs_of_board: Sequence[Job]) -> list[str]:
    """Return the steps of a board numbered, the saw cuts that each makes in brackets."""
    return [
        f"{n}. {j.text}" + (f" (cut{'s' if ' ' in j.cuts else ''} {j.cuts})" if j.cuts else "")
        for n, j in enumerate(jobs_of_board, 1)
    ]


def board_steps(board: BoardPlan, plan: Plan, heading: PlanHeading) -> list[str]:
    """Return what is done to one board of a plan, numbered lines in the units of the heading."""
    return numbered(jobs(board, blanks_of(plan), heading.practice, heading.first))


def best_way(plans: dict[str, Plan]) -> str:
    """Return the way that gives most sets, then takes the least lumber, then the least saw time."""
    return min(plans, key=lambda w: (-sum(plans[w].sets.values()), round(plans[w].used_bf, 3), plans[w].saw_time_s))


def back_text(o: Offcut, first: str) -> str:
    """Return what is said of a piece that goes back on the rack; `first` is "inch" or "mm"."""
    corner = f"{length(o.x, first)} along, {length(o.y, first)} up"
    return f"back on the rack: {sizes((o.dx, o.dy), first)}, its corner {corner}"


def rack_plan_text(d: Design, plans: dict[str, Plan]) -> str:
    """Return the plans side by side, then the best one board by board, as text."""
    first = d.spec.units
    best = best_way(plans)
    wanted = sum(plans[best].wanted.values())
    heading = plan_title(d, wanted)
    lines = [f"{heading.title}, {wood_label(d.spec.handle.species)}; spec {heading.spec}"]
    for blank in handle_blanks(d):
        size = sizes((blank.length_mm, blank.width_mm, blank.thickness_mm), first)
        lines.append(f"  {blank.name} blank {size}, grain along the first; lumber {blank.buy.name}")
    volume = footage_column(first)
    lines.append(f"  {'way':<16}{'sets':>6}{'wanted':>8}{'yield':>9}{volume:>18}{'boards':>8}{'saw time':>10}  proof")
    for way, plan in plans.items():
        used = bare_footage(plan.used_bf, first)
        lines.append(
            f"  {way:<16}{sum(plan.sets.values()):>6}{sum(plan.wanted.values()):>8}"
            f"{100 * plan.yield_fraction:>8.1f}%{used:>18}{len(plan.boards):>8}"
            f"{plan.saw_time_s / 60:>6.0f} min  {proof_text(plan, first)}"
        )
    lines += ["", f"take: {best}"]
    lines += [f"moisture: {line}" for line in moisture_lines(plans[best], heading.shop_moisture_percent)]
    lines.append(f"before the first cut: {MARK_FIRST}")
    for b in plans[best].boards:
        size = sizes((b.board.length_mm, b.board.width_mm, b.board.thickness_mm), first)
        lines.append(f"  board {b.board.name}: {size}")
        lines += [f"    {line}" for line in board_steps(b, plans[best], heading)]
        for n, mark in piece_names(b.placements).items():
            p = b.placements[n]
            along, up = span(p.x, p.x + p.dx, first), span(p.y, p.y + p.dy, first)
            lines.append(f"    {mark:<4}{p.piece:<6} along {along}, up {up}")
        for o in b.offcuts:
            lines.append(f"    {back_text(o, first)}")
    if plans[best].spares:
        lines.append(spares_text(plans[best]))
    lines += [f"to buy: {line}" for line in plans[best].to_buy]
    lines += [f"set aside: {line}" for line in plans[best].set_aside]
    return "\n".join(lines) + "\n"


def rack_plan_csv(plans: dict[str, Plan]) -> str:
    """Return every placement of every way as CSV."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(["way", "board", "mark", "piece", "x_mm", "y_mm", "dx_mm", "dy_mm", "turned_deg", "flipped"])
    for way, plan in plans.items():
        for b in plan.boards:
            for n, mark in piece_names(b.placements).items():
                p = b.placements[n]
                writer.writerow(
                    [
                        way,
                        b.board.name,
                        mark,
                        p.piece,
                        f"{p.x:.2f}",
                        f"{p.y:.2f}",
                        f"{p.dx:.2f}",
                        f"{p.dy:.2f}",
                        f"{p.turned_deg:.1f}",
                        int(p.flipped),
                    ]
                )
    return out.getvalue()
