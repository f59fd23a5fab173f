"""A pattern: one way of cutting one board, as the master plan sees it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from parts.handle.cutplan.grid import Instance
from parts.handle.cutplan.model import Offcut, Placement, SawCut, Way

Floats = NDArray[np.float64]
RATIOS = (1.0, 0.5, 0.25, 2.0)


@dataclass(frozen=True)
class Pattern:
    """One way of cutting one board: pieces by kind, footage taken [bf], and where everything lies [mm]."""

    board: int  # index in the instance
    way: Way
    counts: tuple[int, ...]
    cost_bf: float
    placements: tuple[Placement, ...]
    kinds: tuple[int, ...]  # kind of each placement
    cuts: tuple[SawCut, ...]  # neighbours may share a kerf; tidied when the plan is settled
    offcuts: tuple[Offcut, ...]

    @property
    def key(self) -> tuple[int, str, tuple[int, ...], float]:
        """What makes two patterns the same to the master plan."""
        return self.board, self.way, self.counts, round(self.cost_bf, 9)


def target_values(inst: Instance, target: Sequence[int]) -> list[Floats]:
    """Return piece values, by board and kind, that ask for a target in several proportions; unwanted kinds get 0."""
    found: list[tuple[float, ...]] = []
    for ratio in RATIOS:
        one = [
            k.length * k.width * ratio ** (k.blank % 2) if n > 0 else 0.0
            for k, n in zip(inst.kinds, target, strict=True)
        ]
        if any(one):
            found.append(tuple(v / max(one) for v in one))
    return [np.tile(np.array(one), (len(inst.boards), 1)) for one in dict.fromkeys(found)]


def tidy(cuts: list[SawCut]) -> list[SawCut]:
    """Return the cuts without those that fall in the kerf of another (two neighbours share one cut)."""
    kept: list[SawCut] = []
    for c in cuts:
        if not any(
            o.kind == c.kind
            and abs(o.x0 - c.x0) < 4
            and abs(o.y0 - c.y0) < 4
            and abs(o.x1 - c.x1) < 4
            and abs(o.y1 - c.y1) < 4
            for o in kept
        ):
            kept.append(c)
    return kept


def make_pattern(
    inst: Instance,
    b: int,
    way: Way,
    placements: list[Placement],
    kinds: list[int],
    cuts: list[SawCut],
    offcuts: list[Offcut],
    taken_bf: float,
) -> Pattern:
    """Return the pattern with its counts."""
    counts = [0] * len(inst.kinds)
    for i in kinds:
        counts[i] += 1
    return Pattern(b, way, tuple(counts), taken_bf, tuple(placements), tuple(kinds), tuple(cuts), tuple(offcuts))
