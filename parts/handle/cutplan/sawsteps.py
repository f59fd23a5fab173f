"""The saw cuts of one board in the order they are made, and gathered into steps that a sawyer can follow."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Literal

from parts.handle.cutplan.model import BoardPlan, SawCut, Way

Kind = Literal["crosscut", "rip", "trim"]


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
    """Cuts made at one setting of the work, numbered as the board's cuts are. Lengths mm.

    `parts` are the stretches of the board that are cut: along it for a rip, up it for a strip cut to length; none where
    the whole board is cut. `shortest` is the length of the shortest piece that is ripped.
    """

    first: int
    last: int
    kind: Kind
    parts: tuple[tuple[float, float], ...]
    at_mm: tuple[float, ...]
    shortest: float

    @property
    def from_where(self) -> str:
        """What the places are measured from."""
        return "the lower edge" if self.kind == "rip" else "the left end"


def steps(plan: BoardPlan) -> list[Step]:
    """Return the cuts of a board as steps, numbered as its cuts are; parts cut alike make one step."""
    board = plan.board

    def setting(c: SawCut) -> tuple[Kind, tuple[float, float] | None]:
        if c.kind == "rip":
            whole = c.x1 - c.x0 >= board.length_mm - 1e-6
            return "rip", None if whole else (round(c.x0, 2), round(c.x1, 2))
        low, high = min(c.y0, c.y1), max(c.y0, c.y1)
        return c.kind, None if high - low >= board.width_mm - 1e-6 else (round(low, 2), round(high, 2))

    gathered: list[tuple[Kind, list[tuple[float, float]], tuple[float, ...]]] = []
    for (kind, part), group in groupby(plan.cuts, setting):
        at = tuple(round(c.y0 if c.kind == "rip" else c.x0, 2) for c in group)
        last = gathered[-1] if gathered else None
        if last and part and last[1] and (last[0], last[2]) == (kind, at):
            last[1].append(part)
        else:
            gathered.append((kind, [part] if part else [], at))
    out: list[Step] = []
    number = 1
    for kind, parts, at in gathered:
        count = len(at) * max(1, len(parts))
        along = parts if kind == "rip" else []
        least = min((b - a for a, b in along), default=board.length_mm)
        out.append(Step(number, number + count - 1, kind, tuple(parts), at, round(least, 2)))
        number += count
    return out
