"""A pattern: one way of cutting one board, as the master plan sees it."""

from __future__ import annotations

from dataclasses import dataclass

from parts.handle.cutplan.model import Offcut, Placement, SawCut, Way


@dataclass(frozen=True)
class Pattern:
    """One way of cutting one board: pieces by kind, footage taken [bf], and where everything lies [mm]."""

    board: int  # index in the instance
    way: Way
    counts: tuple[int, ...]
    cost_bf: float
    placements: tuple[Placement, ...]
    kinds: tuple[int, ...]  # kind of each placement
    cuts: tuple[SawCut, ...]
    offcuts: tuple[Offcut, ...]
    saw_time_s: float

    @property
    def key(self) -> tuple[int, str, tuple[int, ...], float]:
        """What makes two patterns the same to the master plan."""
        return self.board, self.way, self.counts, round(self.cost_bf, 9)
