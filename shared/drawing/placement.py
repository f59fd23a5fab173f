"""What stands on one page: placed views, tables and notes. Paper mm."""

from __future__ import annotations

from dataclasses import dataclass, field

from shared.drawing.cluster import PlacedView, Rect, moved
from shared.drawing.marks import Piece
from shared.drawing.table import Block
from shared.segments import Point


@dataclass(frozen=True)
class PlacedBlock:
    """A table, notes or the title block on the page."""

    name: str
    piece: Piece
    at: Point

    @property
    def rect(self) -> Rect:
        """Its extent on the page [mm]."""
        return moved(self.piece.rect, self.at)


@dataclass
class Placement:
    """What stands on one page, and the blocks that found no room on it."""

    views: list[PlacedView] = field(default_factory=list)
    blocks: list[PlacedBlock] = field(default_factory=list)
    left: list[tuple[Block, list[Piece]]] = field(default_factory=list)
