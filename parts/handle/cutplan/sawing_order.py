"""In which order interlocked pieces are sawn, so that the saw can always come to the next one.

A piece is enclosed while its neighbours leave no passage to it from the outside in which a blade can be steered; it
waits until they are out. Widened by half of such a passage, the pieces grow together to islands: what lies on the shore
of its island can be come to.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from parts.handle.blanks import WoodPractice
from parts.handle.cutplan.model import Placement

PASSAGE_KERFS = 3.0  # narrowest passage that a blade is steered through; common practice, no source
DOORS_TRIED = 6  # pieces in the way that are looked at, the nearest first
FINE_MM = 0.2  # outlines are taken no finer than this


class Ground:
    """The pieces of one board as they lie, and which of them the saw can come to.

    Args:
        placements: the pieces [mm].
        practice: kerf and allowance of the bandsaw.
        wall_mm: where along the board uncut wood begins that stays [mm]; None where nothing is left standing.
        width_mm: of the board [mm].
    """

    def __init__(
        self, placements: Sequence[Placement], practice: WoodPractice, wall_mm: float | None, width_mm: float
    ) -> None:
        from shapely.geometry import Polygon, box

        self.passage = PASSAGE_KERFS * practice.kerf_bandsaw_mm
        self.grown: list[Any] = []
        for p in placements:
            body = Polygon(p.outline).simplify(FINE_MM) if p.outline else box(p.x, p.y, p.x + p.dx, p.y + p.dy)
            around = (practice.bandsaw_allowance_mm if p.outline else 0.0) + self.passage / 2
            self.grown.append(body.buffer(around, quad_segs=3))
        self.wall = [] if wall_mm is None else [box(wall_mm, 0.0, wall_mm + width_mm, width_mm)]

    def reached(self, standing: Iterable[int]) -> set[int]:
        """Return which of the pieces that stand the saw can come to from outside."""
        from shapely.geometry import Polygon
        from shapely.ops import unary_union

        left = list(standing)
        grown = unary_union([self.grown[n] for n in left] + self.wall)
        islands = unary_union([Polygon(g.exterior) for g in getattr(grown, "geoms", [grown])])
        shore = [g.exterior for g in getattr(islands, "geoms", [islands])]
        need = max(self.passage, FINE_MM)
        near = {n: self.grown[n].buffer(0.01, quad_segs=1) for n in left}
        return {n for n in left if sum(s.intersection(near[n]).length for s in shore) >= need}

    def distance(self, a: int, b: int) -> float:
        """Return how far two pieces lie apart, widened [mm]."""
        return round(float(self.grown[a].distance(self.grown[b])), 3)


def sawing_order(ground: Ground, turn: Sequence[int], wanted: Iterable[int]) -> list[int]:
    """Return the pieces to saw now, in their order: those wanted, and others where they are in the way.

    Args:
        ground: the pieces as they lie.
        turn: all pieces that stand, in the turn that is kept where the saw can come to each.
        wanted: those that are to come out.
    """
    pending = [n for n in turn if n in set(wanted)]
    standing = list(turn)
    reached: set[int] = set()
    out: list[int] = []
    while pending:
        if pending[0] not in reached:
            reached |= ground.reached(standing)
        taken = next((n for n in pending if n in reached), None)
        if taken is None:
            taken = _in_the_way(ground, standing, pending, reached)
        out.append(taken)
        standing.remove(taken)
        if taken in pending:
            pending.remove(taken)
    return out


def _in_the_way(ground: Ground, standing: Sequence[int], pending: Sequence[int], reached: set[int]) -> int:
    """Return the piece that comes out first when none of those wanted can be come to."""
    doors = sorted(
        (n for n in standing if n in reached and n not in pending), key=lambda n: (ground.distance(n, pending[0]), n)
    )
    for n in doors[:DOORS_TRIED]:
        if ground.reached([m for m in standing if m != n]) & set(pending):
            return n
    return doors[0] if doors else pending[0]
