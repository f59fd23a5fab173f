"""Handle blanks of one plane: plans on the rack, or footage without one."""

from __future__ import annotations

import csv
import io
from pathlib import Path

from parts.handle.cutplan.model import WAYS, Order, Plan
from parts.handle.cutplan.plan import plan_boards
from parts.handle.cutplan.sawsteps import steps
from parts.handle.rack import read_rack
from parts.plane.design import Design
from parts.plane.wood import handle_blanks
from shared.units import to_inch

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
    plans = plan_boards([order], read_rack(rack), practice, ways, quick)  # type: ignore[arg-type]
    return {str(way): plan for way, plan in plans.items()}


def plan_title(d: Design, quantity: int) -> str:
    """Return the first line of a cut plan's drawings."""
    return f"{d.spec.plane.name}, revision {d.spec.plane.revision}: blanks for {quantity} handle sets"


def best_way(plans: dict[str, Plan]) -> str:
    """Return the way that gives most sets, then takes the least lumber, then the least saw time."""
    return min(plans, key=lambda w: (-sum(plans[w].sets.values()), round(plans[w].used_bf, 3), plans[w].saw_time_s))


def _sizes(mm: tuple[float, float, float]) -> str:
    inches = " x ".join(f"{to_inch(v):.2f}" for v in mm)
    return f"{mm[0]:.1f} x {mm[1]:.1f} x {mm[2]:.1f} mm ({inches} in)"


def rack_plan_text(d: Design, plans: dict[str, Plan]) -> str:
    """Return the plans side by side, then the best one board by board, as text."""
    lines = [
        f"{d.spec.plane.name}, revision {d.spec.plane.revision}: cut plan for handle blanks, {d.spec.handle.species}"
    ]
    for blank in handle_blanks(d):
        size = _sizes((blank.length_mm, blank.width_mm, blank.thickness_mm))
        lines.append(f"  {blank.name} blank {size}, grain along the first; lumber {blank.buy.name}")
    lines.append(
        f"  {'way':<16}{'sets':>6}{'wanted':>8}{'yield':>9}{'board feet':>12}{'boards':>8}{'saw time':>10}  bound"
    )
    for way, plan in plans.items():
        proven = f"at most {plan.bound_sets} sets" if plan.gap_bf is None else f"within {plan.gap_bf:.2f} bf"
        if plan.proven:
            proven = "optimal"
        lines.append(
            f"  {way:<16}{sum(plan.sets.values()):>6}{sum(plan.wanted.values()):>8}"
            f"{100 * plan.yield_fraction:>8.1f}%{plan.used_bf:>12.2f}{len(plan.boards):>8}"
            f"{plan.saw_time_s / 60:>7.0f} min  {proven}"
        )
    best = best_way(plans)
    lines += ["", f"take: {best}"]
    for b in plans[best].boards:
        lines.append(f"  board {b.board.name}: {_sizes((b.board.thickness_mm, b.board.width_mm, b.board.length_mm))}")
        for step in steps(b):
            numbers = f"{step.first}" if step.first == step.last else f"{step.first} to {step.last}"
            at = ", ".join(f"{v:.1f} ({to_inch(v):.2f})" for v in step.at_mm)
            lines.append(f"    {numbers}. {step.what}, middle of the kerf from {step.from_where} at mm (in): {at}")
        for p in b.placements:
            lines.append(f"    {p.piece:<9} x {p.x:.1f} to {p.x + p.dx:.1f}, y {p.y:.1f} to {p.y + p.dy:.1f} mm")
        for o in b.offcuts:
            lines.append(f"    back on the rack: {o.dx:.0f} x {o.dy:.0f} mm at x {o.x:.0f}, y {o.y:.0f}")
    lines += [f"to buy: {line}" for line in plans[best].to_buy]
    lines += [f"set aside: {line}" for line in plans[best].set_aside]
    return "\n".join(lines) + "\n"


def rack_plan_csv(plans: dict[str, Plan]) -> str:
    """Return every placement of every way as CSV."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(["way", "board", "piece", "x_mm", "y_mm", "dx_mm", "dy_mm", "turned_deg", "flipped"])
    for way, plan in plans.items():
        for b in plan.boards:
            for p in b.placements:
                writer.writerow(
                    [
                        way,
                        b.board.name,
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
