"""Whether a rack can serve an order at all: wrong orders, blanks that fit no board, boards that serve no blank."""

from __future__ import annotations

from collections.abc import Sequence

from parts.handle.blanks import Blank, WoodPractice
from parts.handle.cutplan.model import Order
from parts.handle.cutplan.words import length, sizes
from parts.handle.rack import Board
from shared.errors import Fault, InputError, RequestError


def check_orders(orders: Sequence[Order]) -> None:
    """Refuse orders that ask for nothing or have no size.

    Raises:
        InputError: with every fault.
    """
    faults = []
    if not orders:
        faults.append(Fault("command line", "orders", "none", "at least one plane"))
    for order in orders:
        if order.quantity < 1:
            faults.append(Fault("command line", "--quantity", str(order.quantity), "1 or more", order.name))
        for b in order.blanks:
            if min(b.length_mm, b.width_mm, b.thickness_mm) <= 0:
                size = f"{b.length_mm:g} x {b.width_mm:g} x {b.thickness_mm:g} mm"
                faults.append(Fault(order.name, b.name, size, "sizes of more than 0"))
    names = [o.name for o in orders]
    faults += [Fault("orders", n, "twice", "each order once") for n in sorted({n for n in names if names.count(n) > 1})]
    if faults:
        raise InputError(faults)


def _lack(board: Board, blank: Blank, practice: WoodPractice, first: str) -> tuple[float, str]:
    """Return how far a board is from holding a blank [mm, summed] and what is missing, in words."""
    have = {
        "thickness": (board.usable_thickness_mm, blank.thickness_mm),
        "width": (board.width_mm - 2 * practice.edge_clearance_mm, blank.width_mm),
        "length": (board.length_mm - 2 * practice.end_trim_mm, blank.length_mm),
    }
    missing = {n: need - got for n, (got, need) in have.items() if got < need - 1e-6}
    said = ", ".join(f"{n} {length(have[n][0], first)} for {length(have[n][1], first)}" for n in missing)
    return sum(missing.values()), said


def _thick(board: Board, first: str) -> str:
    """Return a board's thickness in words, the kiln-dried scant said where it counts."""
    thick = length(board.thickness_mm, first)
    if board.usable_thickness_mm < board.thickness_mm - 1e-6:
        return f"{thick}, of which {length(board.usable_thickness_mm, first)} can be counted on"
    return thick


def _misfit(order: Order, blank: Blank, boards: Sequence[Board], practice: WoodPractice, first: str) -> str:
    """Return why a blank fits none of the boards of its wood, naming the nearest; "" when it fits one."""
    lacks = sorted((*_lack(b, blank, practice, first), b.name) for b in boards)
    if lacks[0][0] <= 0:
        return ""
    thickest = max(boards, key=lambda b: b.usable_thickness_mm)
    if thickest.usable_thickness_mm < blank.thickness_mm - 1e-6:
        return (
            f"{order.name}: blank {blank.name} needs a thickness of {length(blank.thickness_mm, first)}, and every "
            f"board of {order.species} is thinner; the thickest is board {thickest.name}, "
            f"{_thick(thickest, first)}; buy {blank.buy.name}"
        )
    size = sizes((blank.length_mm, blank.width_mm, blank.thickness_mm), first)
    return (
        f"{order.name}: blank {blank.name} ({size}) fits no board of {order.species}; nearest is board "
        f"{lacks[0][2]}, which has {lacks[0][1]}"
    )


def check_fit(orders: Sequence[Order], boards: Sequence[Board], practice: WoodPractice, first: str = "mm") -> list[str]:
    """Refuse blanks that fit no board of their wood, naming the nearest; return notes on boards that serve no blank.

    `first` is the unit that stands first in the words, "inch" or "mm".

    Raises:
        RequestError: a blank fits no board, or no board is of its wood.
    """
    faults: list[str] = []
    notes: list[str] = []
    for order in orders:
        mine = [b for b in boards if b.species == order.species]
        if mine:
            faults += filter(None, (_misfit(order, blank, mine, practice, first) for blank in order.blanks))
        else:
            kinds = ", ".join(sorted({b.species for b in boards}))
            faults.append(f"{order.name}: no board of {order.species} on the rack; it holds {kinds}")
    if faults:
        raise RequestError("\n".join(faults))
    for board in boards:
        blanks = [blank for o in orders if o.species == board.species for blank in o.blanks]
        if not blanks:
            continue
        if board.usable_thickness_mm < min(b.thickness_mm for b in blanks) - 1e-6:
            least = min(blanks, key=lambda b: b.thickness_mm)
            notes.append(
                f"board {board.name} is thinner than any blank: {_thick(board, first)}; the {least.name} needs "
                f"{length(least.thickness_mm, first)}"
            )
            continue
        lacks = [(*_lack(board, blank, practice, first), blank.name) for blank in blanks]
        if min(lacks)[0] > 0:
            notes.append(f"board {board.name} serves no blank: {min(lacks)[2]} needs more ({min(lacks)[1]})")
    return notes
