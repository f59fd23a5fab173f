"""What a cut plan is made of: orders, placements, saw cuts, offcuts, and the whole plan with its figures."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Literal

from parts.handle.blanks import Blank, Point
from parts.handle.lumber import exact_board_feet
from parts.handle.rack import Board

Way = Literal["crosscut-first", "rip-first", "interlocked"]
WAYS: tuple[Way, ...] = ("crosscut-first", "rip-first", "interlocked")


@dataclass(frozen=True)
class Order:
    """So many sets of blanks of one wood: one of each blank a set."""

    name: str
    species: str
    quantity: int
    blanks: tuple[Blank, ...]


@dataclass(frozen=True)
class Placement:
    """One piece on one board. Lower-left corner and size of its box on the board [mm], x along the board.

    For an interlocked piece `outline` holds its points on the board, `turned_deg` is 0 or 180 plus what it leans off
    the grain, and `flipped` says it is turned over.
    """

    order: str
    piece: str
    x: float
    y: float
    dx: float
    dy: float
    turned_deg: float = 0.0
    flipped: bool = False
    outline: tuple[Point, ...] = ()


@dataclass(frozen=True)
class SawCut:
    """One straight saw cut on the board, middle of the kerf [mm], in the order it is made."""

    kind: Literal["crosscut", "rip", "trim"]
    x0: float
    y0: float
    x1: float
    y1: float


@dataclass(frozen=True)
class Offcut:
    """A rectangle that goes back on the rack [mm]."""

    x: float
    y: float
    dx: float
    dy: float


@dataclass(frozen=True)
class BoardPlan:
    """What happens to one board."""

    board: Board
    way: Way
    placements: tuple[Placement, ...]
    cuts: tuple[SawCut, ...]
    offcuts: tuple[Offcut, ...]
    saw_time_s: float

    @property
    def used_bf(self) -> float:
        """Footage taken: the board less the offcuts that go back [bf]."""
        back = sum(exact_board_feet(o.dx, o.dy, self.board.thickness_mm) for o in self.offcuts)
        return self.board.board_feet - back


@dataclass(frozen=True)
class Plan:
    """One way of cutting a rack for some orders."""

    way: Way
    boards: tuple[BoardPlan, ...]  # in the order to take them from the rack
    wanted: dict[str, int]
    sets: dict[str, int]
    matched: dict[str, int]  # sets whose pieces come from one board
    spares: dict[str, int]  # pieces beyond what the sets use, by order and piece
    piece_area_mm2: float  # outlines of the pieces that sets use, rectangles where there is no outline
    used_area_mm2: float
    used_bf: float
    bound_sets: int  # no plan of this kind can give more sets
    gap_bf: (
        float | None
    )  # no plan of this kind with these sets can save more (long clear boards weighed up); None: unknown
    proven: bool
    saw_time_s: float
    set_aside: tuple[str, ...] = ()
    to_buy: tuple[str, ...] = ()
    leftovers: tuple[Board, ...] = field(default=(), repr=False)
    orders: tuple[Order, ...] = field(default=(), repr=False)

    @property
    def yield_fraction(self) -> float:
        """Face of the pieces over the face of lumber taken [-]."""
        return self.piece_area_mm2 / self.used_area_mm2 if self.used_area_mm2 else 0.0

    @property
    def short(self) -> dict[str, int]:
        """Sets that the rack could not give, by order."""
        return {o: n - self.sets[o] for o, n in self.wanted.items() if self.sets[o] < n}

    def as_json(self) -> dict[str, Any]:
        """Return plain data, keys ending in their unit."""
        return {
            "way": self.way,
            "sets": self.sets,
            "sets_wanted": self.wanted,
            "sets_short": self.short,
            "sets_from_one_board": self.matched,
            "spare_pieces": self.spares,
            "yield_percent": round(100 * self.yield_fraction, 2),
            "board_feet_used_bf": round(self.used_bf, 3),
            "boards_used": len(self.boards),
            "saw_time_min": round(self.saw_time_s / 60, 1),
            "sets_bound": self.bound_sets,
            "could_still_save_bf": None if self.gap_bf is None else round(self.gap_bf, 3),
            "proven_optimal": self.proven,
            "boards": [_board_json(b) for b in self.boards],
            "set_aside": list(self.set_aside),
            "to_buy": list(self.to_buy),
        }


def _board_json(plan: BoardPlan) -> dict[str, Any]:
    return {
        "board": plan.board.name,
        "way": plan.way,
        "used_bf": round(plan.used_bf, 3),
        "saw_time_min": round(plan.saw_time_s / 60, 1),
        "pieces": [
            {
                "order": p.order,
                "piece": p.piece,
                "x_mm": round(p.x, 2),
                "y_mm": round(p.y, 2),
                "dx_mm": round(p.dx, 2),
                "dy_mm": round(p.dy, 2),
                "turned_deg": p.turned_deg,
                "flipped": p.flipped,
            }
            for p in plan.placements
        ],
        "cuts": [
            {"cut": c.kind, "from_mm": [round(c.x0, 2), round(c.y0, 2)], "to_mm": [round(c.x1, 2), round(c.y1, 2)]}
            for c in plan.cuts
        ],
        "offcuts": [
            {"x_mm": round(o.x, 2), "y_mm": round(o.y, 2), "dx_mm": round(o.dx, 2), "dy_mm": round(o.dy, 2)}
            for o in plan.offcuts
        ],
    }
