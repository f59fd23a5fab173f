"""Distortion allowance: a long pattern is bowed against the bow that its castings come out with."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from shared.casting.contraction import counter_bow

STEP_MM = 25.0  # ordinates stand about this far apart


@dataclass(frozen=True)
class CounterBow:
    """A bow of constant curvature along x, over a length about its middle [mm].

    A positive depth stands for castings whose middle comes out high (a sole hollow along its length): the pattern's
    middle is lowered by the depth against its ends. A negative one the other way round.
    """

    start_mm: float  # x of one end
    length_mm: float
    depth_mm: float

    def ordinate(self, x_mm: float) -> float:
        """Return how far the pattern stands above the straight line through its ends at x [mm]; negative below."""
        from_middle = (x_mm - self.start_mm - self.length_mm / 2.0) / (self.length_mm / 2.0)
        return -self.depth_mm * (1.0 - from_middle**2)

    def ordinates(self, step_mm: float = STEP_MM) -> list[tuple[float, float]]:
        """Return (distance from the end at the start, ordinate) [mm] at equal steps, at most `step_mm` apart."""
        steps = ceil(self.length_mm / step_mm - 1e-9)
        places = [self.length_mm * i / steps for i in range(steps + 1)]
        return [(p, self.ordinate(self.start_mm + p)) for p in places]

    def grown(self, along: float, up: float) -> CounterBow:
        """Return the bow of a master: factors [-] along the length and in height."""
        return CounterBow(self.start_mm * along, self.length_mm * along, self.depth_mm * up)


def bow_of(start_mm: float, length_mm: float, per_metre_mm: float) -> CounterBow | None:
    """Return the counter-bow of a pattern; None where the shop asks for none.

    Args:
        start_mm: x of the pattern's end [mm].
        length_mm: its length [mm].
        per_metre_mm: bow that the shop has seen on one metre [mm]; positive: the castings' middle comes out high.
    """
    depth = counter_bow(length_mm, per_metre_mm)
    return CounterBow(start_mm, length_mm, depth) if depth else None
