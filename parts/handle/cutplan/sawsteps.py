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
    """Return the cuts of a board as steps, numbered as its cuts are; sections cut alike make one step."""
    board = plan.board

    def setting(c: SawCut) -> tuple[str, str, str]:
        if c.kind == "rip":
            whole = c.x1 - c.x0 >= board.length_mm - 1e-6
            return "rip", "" if whole else f"{c.x0:.0f} to {c.x1:.0f} mm along", "the lower edge"
        low, high = min(c.y0, c.y1), max(c.y0, c.y1)
        whole = high - low >= board.width_mm - 1e-6
        return c.kind, "" if whole else f"{low:.0f} to {high:.0f} mm up", "the left end"

    gathered: list[tuple[str, list[str], str, tuple[float, ...]]] = []
    for (verb, part, where), group in groupby(plan.cuts, setting):
        at = tuple(round(c.y0 if c.kind == "rip" else c.x0, 2) for c in group)
        last = gathered[-1] if gathered else None
        if last and part and last[1][0] and (last[0], last[2], last[3]) == (verb, where, at):
            last[1].append(part)
        else:
            gathered.append((verb, [part], where, at))
    out: list[Step] = []
    number = 1
    for verb, parts, where, at in gathered:
        noun = ("section" if verb == "rip" else "strip") + ("s" if len(parts) > 1 else "")
        what = f"{verb} the {noun} {'; '.join(parts)}" if parts[0] else f"{verb} the board"
        count = len(at) * len(parts)
        out.append(Step(number, number + count - 1, what if len(parts) == 1 else f"{what}, each alike", at, where))
        number += count
    return out
