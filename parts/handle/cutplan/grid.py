"""The planner's own view of a rack: every length a whole number of stop steps, pieces rounded up, boards down."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from parts.handle.blanks import WoodPractice
from parts.handle.cutplan.model import Order
from parts.handle.rack import Board
from shared.record import replace

EPS = 1e-6
MANY_BOARDS = 30  # a rack of more different boards of one wood is planned on a coarser stop, to answer within a minute
COARSE_STEP_MM = 1.0


@dataclass(frozen=True)
class Kind:
    """One kind of piece; sizes in steps."""

    order: int  # index of its order
    blank: int  # index in the order's blanks
    name: str
    length: int
    width: int
    thickness_mm: float


@dataclass(frozen=True)
class GridBoard:
    """One board in steps; defects (x0, y0, x1, y1), clearance added, in the frame of the trimmed and jointed board.

    Boards of the same size with the same defects are planned as one with several copies.
    """

    board: Board
    length: int  # usable, ends trimmed
    width: int  # usable, edges jointed
    defects: tuple[tuple[int, int, int, int], ...]
    fits: tuple[bool, ...]  # by kind: thick enough, and not too large
    bf_per_mm2: float
    alike: tuple[Board, ...]  # this board and those like it, in the rack's order

    @property
    def copies(self) -> int:
        """How many boards of the rack are like this one, itself counted."""
        return len(self.alike)


@dataclass(frozen=True)
class Instance:
    """Orders of one wood and the boards that can serve them."""

    orders: tuple[Order, ...]
    kinds: tuple[Kind, ...]
    boards: tuple[GridBoard, ...]
    practice: WoodPractice
    kerf_rip: int
    kerf_crosscut: int

    @property
    def step(self) -> float:
        """Length of a step [mm]."""
        return self.practice.cut_step_mm

    def kinds_of(self, order: int) -> list[int]:
        """Return the indexes of an order's kinds."""
        return [i for i, k in enumerate(self.kinds) if k.order == order]


def steps_up(mm: float, step: float) -> int:
    """Return a length [mm] in whole steps, rounded up."""
    return math.ceil(mm / step - EPS)


def steps_down(mm: float, step: float) -> int:
    """Return a length [mm] in whole steps, rounded down."""
    return math.floor(mm / step + EPS)


def grid_board(alike: Sequence[Board], kinds: Sequence[Kind], practice: WoodPractice) -> GridBoard:
    """Return boards that are alike as the planner sees them."""
    board = alike[0]
    p, g = practice, practice.cut_step_mm
    length = max(0, steps_down(board.length_mm - 2 * p.end_trim_mm, g))
    width = max(0, steps_down(board.width_mm - 2 * p.edge_clearance_mm, g))
    grown = []
    for d in board.defects:
        c = p.defect_clearance_mm
        x0, y0 = d.x - c - p.end_trim_mm, d.y - c - p.edge_clearance_mm
        box = (
            max(0, steps_down(x0, g)),
            max(0, steps_down(y0, g)),
            min(length, steps_up(x0 + d.dx + 2 * c, g)),
            min(width, steps_up(y0 + d.dy + 2 * c, g)),
        )
        if box[0] < box[2] and box[1] < box[3]:
            grown.append(box)
    thick = board.usable_thickness_mm
    fits = tuple(k.thickness_mm <= thick + EPS and k.length <= length and k.width <= width for k in kinds)
    bf = board.board_feet / (board.length_mm * board.width_mm)
    return GridBoard(board, length, width, tuple(sorted(grown)), fits, bf, tuple(alike))


def make_instance(orders: Sequence[Order], boards: Sequence[Board], practice: WoodPractice) -> Instance:
    """Return the planner's instance of orders and boards of one wood; boards that fit nothing are left out."""
    groups: dict[object, list[Board]] = {}
    for b in boards:
        groups.setdefault((b.thickness_mm, b.width_mm, b.length_mm, b.defects), []).append(b)
    if len(groups) > MANY_BOARDS:
        practice = replace(practice, cut_step_mm=max(COARSE_STEP_MM, practice.cut_step_mm))
    g = practice.cut_step_mm
    kinds = tuple(
        Kind(o, b, blank.name, steps_up(blank.length_mm, g), steps_up(blank.width_mm, g), blank.thickness_mm)
        for o, order in enumerate(orders)
        for b, blank in enumerate(order.blanks)
    )
    seen = (grid_board(alike, kinds, practice) for alike in groups.values())
    usable = tuple(b for b in seen if any(b.fits))
    kerfs = steps_up(practice.kerf_rip_mm, g), steps_up(practice.kerf_crosscut_mm, g)
    return Instance(tuple(orders), kinds, usable, practice, *kerfs)


def clear_starts(board: GridBoard, y: int, length: int, width: int, span: int) -> NDArray[np.bool_]:
    """Return for each start x in 0..span-1 whether a piece of a size with its lower edge at y lies clear and on board.

    Args:
        board: the board.
        y: lower edge [steps].
        length: of the piece [steps].
        width: of the piece [steps].
        span: how many starts [steps].
    """
    ok = np.zeros(span, dtype=bool)
    if y + width > board.width:
        return ok
    ok[: max(0, board.length - length + 1)] = True
    for x0, y0, x1, y1 in board.defects:
        if y < y1 and y0 < y + width:
            ok[max(0, x0 - length + 1) : x1] = False
    return ok


def stack_positions(board: GridBoard, widths: Sequence[int], kerf: int) -> list[int]:
    """Return every lower edge worth trying: jointed edge and defect tops, plus sums of strip widths and kerfs.

    Any stack of strips can be pushed down until each rests on one of these without losing a piece.
    """
    reached = {0, *(y1 for _, _, _, y1 in board.defects)}
    todo = sorted(reached)
    while todo:
        y = todo.pop()
        for w in widths:
            up = y + w + kerf
            if up <= board.width and up not in reached:
                reached.add(up)
                todo.append(up)
    return sorted(reached)
