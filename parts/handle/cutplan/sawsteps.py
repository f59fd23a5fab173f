"""The saw cuts of one board in the order they are made, and gathered into steps that a sawyer can follow."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from parts.handle.cutplan.model import BoardPlan, SawCut, Way


def in_order(way: Way, cuts: Sequence[SawCut], length_mm: float) -> list[SawCut]:
    """Return cuts in the order they are made.

    Crosscut first: across the board, then each section into strips, then the strips to length. Rip first: along the
    whole board, then each strip to length, then narrower pieces out of it.

    Args:
        way: how the board is cut.
        cuts: its cuts, in any order.
        length_mm: length of the board [mm].
    """

    def rank(c: SawCut) -> tuple[float, ...]:
        if way == "rip-first":
            whole = c.kind == "rip" and c.x1 - c.x0 >= length_mm - 1e-6
            low = min(c.y0, c.y1)
            return (0, low) if whole else (1, low, c.x0) if c.kind != "rip" else (2, low, c.x0)
        if c.kind == "crosscut":
            return 0, c.x0
        return (1, c.x0, c.y0) if c.kind == "rip" else (2, min(c.y0, c.y1), c.x0)

    return sorted(cuts, key=rank)


@dataclass(frozen=True)
class Step:
    """Cuts made at one setting of the work: numbers of the first and last, what is done, where each cut lies [mm]."""

    first: int
    last: int
    what: str
    at_mm: tuple[float, ...]
    from_where: str


def steps(plan: BoardPlan) -> list[Step]:
    """Return the cuts of a board as steps, numbered as its cuts are."""
    board = plan.board
    out: list[Step] = []

    def setting(c: SawCut) -> tuple[str, str]:
        if c.kind == "rip":
            whole = c.x1 - c.x0 >= board.length_mm - 1e-6
            part = "the board" if whole else f"what lies from {c.x0:.0f} to {c.x1:.0f} mm"
            return f"rip {part}", "the lower edge"
        low, high = min(c.y0, c.y1), max(c.y0, c.y1)
        whole = high - low >= board.width_mm - 1e-6
        part = "the board" if whole else f"the strip {low:.0f} to {high:.0f} mm up"
        return f"{'trim' if c.kind == 'trim' else 'crosscut'} {part}", "the left end"

    number = 1
    for (what, where), group in groupby(plan.cuts, setting):
        at = tuple(c.y0 if c.kind == "rip" else c.x0 for c in group)
        out.append(Step(number, number + len(at) - 1, what, at, where))
        number += len(at)
    return out
