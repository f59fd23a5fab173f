"""Planning a rack for orders: one plan a wood and way, offcuts as a new rack, what to buy when it is short."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Sequence

from parts.handle.blanks import Blank, WoodPractice
from parts.handle.cutplan.crosscut import CrosscutFirst
from parts.handle.cutplan.fit import check_fit, check_orders
from parts.handle.cutplan.grid import Instance, make_instance
from parts.handle.cutplan.master import Answer, Finder, board_weights, solve
from parts.handle.cutplan.model import WAYS, BoardPlan, Offcut, Order, Plan, Way
from parts.handle.cutplan.pattern import Pattern, tidy
from parts.handle.cutplan.rip import RipFirst
from parts.handle.cutplan.sawsteps import in_order
from parts.handle.cutplan.sawtime import bandsaw_time_s, straight_time_s
from parts.handle.cutplan.sections import ripped_together, without_jointed_edge
from parts.handle.footage import to_buy
from parts.handle.rack import Board, Defect


def plan_boards(
    orders: Sequence[Order],
    boards: Sequence[Board],
    practice: WoodPractice | None = None,
    ways: Sequence[Way] = WAYS,
    quick: bool = False,
    first: str = "mm",
) -> dict[Way, Plan]:
    """Return the cut plan of a rack for orders, one a way, side by side.

    Each wood is planned by itself, then the plans are joined. An order short of boards gets fewer sets and a line on
    what to buy; it is no error.

    Args:
        orders: sets of blanks wanted, each of one wood.
        boards: the rack.
        practice: the shop's kerfs, trims and rates; None takes the defaults.
        ways: which plans to make.
        quick: interlocked boards are only looked over, not searched again; some percent more wood.
        first: unit that stands first in what is said of the rack, "inch" or "mm".

    Raises:
        InputError: nothing ordered, zero quantity.
        RequestError: a blank that fits no board, with the nearest board.
    """
    practice = practice or WoodPractice()
    check_orders(orders)
    notes = check_fit(orders, boards, practice, first)
    parts: dict[Way, list[tuple[Instance, Answer]]] = {w: [] for w in ways}
    for wood in sorted({o.species for o in orders}):
        inst = make_instance(
            [o for o in orders if o.species == wood], [b for b in boards if b.species == wood], practice
        )
        for way, answer in _answers(inst, ways, quick).items():
            parts[way].append((inst, answer))
    return {way: _join(way, parts[way], orders, boards, practice, notes) for way in ways}


def _answers(inst: Instance, ways: Sequence[Way], quick: bool) -> dict[Way, Answer]:
    weights = board_weights(inst)
    finders: dict[Way, Finder] = {}
    out: dict[Way, Answer] = {}
    if "crosscut-first" in ways or "interlocked" in ways:
        finders["crosscut-first"] = CrosscutFirst(inst, weights)
    if "rip-first" in ways or "interlocked" in ways:
        finders["rip-first"] = RipFirst(inst, weights)
    for way, finder in finders.items():
        out[way] = solve(inst, [finder])
    if "interlocked" in ways:
        from parts.handle.cutplan.interlock import REFINE_ROUNDS, interlocked

        straight = [out["crosscut-first"], out["rip-first"]]
        out["interlocked"] = interlocked(inst, straight, 0 if quick else REFINE_ROUNDS)
    return {w: out[w] for w in ways}


def face_mm2(blank: Blank) -> float:
    """Return the face of a piece [mm2]: of its outline, or of the rectangle where it has none."""
    points = blank.outline
    if not points:
        return blank.length_mm * blank.width_mm
    pairs = zip(points, [*points[1:], *points[:1]], strict=True)
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)) / 2


def _matched(inst: Instance, answer: Answer, order: int) -> int:
    kinds = inst.kinds_of(order)
    return min(answer.sets[order], sum(min(p.counts[i] for i in kinds) for p in answer.chosen))


def _join(
    way: Way,
    parts: Sequence[tuple[Instance, Answer]],
    orders: Sequence[Order],
    boards: Sequence[Board],
    practice: WoodPractice,
    notes: Sequence[str],
) -> Plan:
    plans: list[BoardPlan] = []
    sets: dict[str, int] = {}
    matched: dict[str, int] = {}
    spares: dict[str, int] = {}
    bound_sets, gap, proven, area = 0, 0.0, True, 0.0
    for inst, answer in parts:
        alike = {b: iter(board.alike) for b, board in enumerate(inst.boards)}
        board_plans = [_board_plan(inst, p, next(alike[p.board])) for p in answer.chosen]
        # Boards used up come first, then the short ones: what is left on the rack is then long.
        plans += sorted(
            board_plans, key=lambda b: (-round(b.used_bf / b.board.board_feet, 3), b.board.length_mm, b.board.name)
        )
        for o, order in enumerate(inst.orders):
            sets[order.name] = answer.sets[o]
            matched[order.name] = _matched(inst, answer, o)
            area += answer.sets[o] * sum(face_mm2(b) for b in order.blanks)
        for i, kind in enumerate(inst.kinds):
            extra = sum(p.counts[i] for p in answer.chosen) - answer.sets[kind.order]
            if extra:
                spares[f"{inst.orders[kind.order].name} {kind.name}"] = extra
        bound_sets += _most_sets(inst, answer)
        gap += min(answer.bound - answer.objective, sum(p.used_bf for p in board_plans))
        proven = proven and answer.bound - answer.objective <= max(1e-3, 1e-7 * answer.bound)
    used = {b.board.name for b in plans}
    leftovers = [o for b in plans for o in offcut_boards(b, practice)] + [b for b in boards if b.name not in used]
    short = [o for o in orders if sets[o.name] < o.quantity]
    buy = []
    for late in short:
        missing = late.quantity - sets[late.name]
        lines = to_buy(late.blanks, late.species, missing, practice)
        buy.append(f"{late.name}: {missing} sets short; buy about " + "; or ".join(lines))
    return Plan(
        way=way,
        boards=tuple(plans),
        wanted={o.name: o.quantity for o in orders},
        sets={o.name: sets[o.name] for o in orders},
        matched={o.name: matched[o.name] for o in orders},
        spares=spares,
        piece_area_mm2=area,
        used_area_mm2=sum(_used_area(b) for b in plans),
        used_bf=sum(b.used_bf for b in plans),
        bound_sets=bound_sets,
        gap_bf=(0.0 if proven else gap) if sum(sets.values()) == bound_sets else None,
        proven=proven,
        saw_time_s=sum(b.saw_time_s for b in plans),
        set_aside=tuple(notes),
        to_buy=tuple(buy),
        leftovers=tuple(leftovers),
        orders=tuple(orders),
    )


def _most_sets(inst: Instance, answer: Answer) -> int:
    """Return the most sets that the bound allows: all footage together never weighs as much as one set."""
    wanted = sum(o.quantity for o in inst.orders)
    return min(wanted, math.floor((answer.bound + answer.total_bf) / answer.set_worth + 1e-9))


def _used_area(plan: BoardPlan) -> float:
    return plan.board.length_mm * plan.board.width_mm - sum(o.dx * o.dy for o in plan.offcuts)


def _board_plan(inst: Instance, p: Pattern, board: Board) -> BoardPlan:
    """Return one board's plan: cuts tidied and gathered, saw time of straight cuts and outlines counted."""
    made = tidy(without_jointed_edge(p.cuts, inst.practice))
    if p.way == "crosscut-first":
        made = ripped_together(made, p.placements, inst.practice)
    cuts = in_order(p.way, made, board.length_mm)
    lines = []
    for i, laid in zip(p.kinds, p.placements, strict=True):
        blank = inst.orders[inst.kinds[i].order].blanks[inst.kinds[i].blank]
        if blank.outline:  # a rectangle with an outline still goes to the bandsaw
            lines.append(blank.outline)
        elif p.way == "interlocked":  # there even a square blank is sawn out of the board
            lines.append(((0.0, 0.0), (laid.dx, 0.0), (laid.dx, laid.dy), (0.0, laid.dy)))
    time = straight_time_s(cuts, inst.practice) + bandsaw_time_s(lines, inst.practice)
    offcuts = tuple(_jointed(o, inst.practice.edge_clearance_mm) for o in p.offcuts)
    return BoardPlan(board, p.way, p.placements, tuple(cuts), offcuts, time)


def _jointed(o: Offcut, off: float) -> Offcut:
    """Return what is left of a piece that goes back when the board's whole lower edge is jointed first, `off` [mm]."""
    lost = max(0.0, off - o.y)
    return dataclasses.replace(o, y=o.y + lost, dy=o.dy - lost)


def offcut_boards(plan: BoardPlan, practice: WoodPractice) -> list[Board]:
    """Return what goes back of a cut board as boards of the rack, defects carried along."""
    out = []
    for n, o in enumerate(plan.offcuts):
        defects = []
        for d in plan.board.defects:
            x0, y0 = max(d.x, o.x), max(d.y, o.y)
            x1, y1 = min(d.x + d.dx, o.x + o.dx), min(d.y + d.dy, o.y + o.dy)
            if x1 > x0 and y1 > y0:
                defects.append(Defect(x0 - o.x, y0 - o.y, x1 - x0, y1 - y0))
        name = f"{plan.board.name}-{chr(97 + n)}"
        out.append(dataclasses.replace(plan.board, name=name, width_mm=o.dy, length_mm=o.dx, defects=tuple(defects)))
    return out
