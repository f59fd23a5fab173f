"""Interlocked outlines for the bandsaw: totes nested turned end for end and turned over, knob blanks in what is left.

Its patterns join all straight patterns in one master plan, so it never gives less than the better straight plan.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from parts.handle.blanks import Blank, Point
from parts.handle.cutplan.grid import MANY_BOARDS, GridBoard, Instance
from parts.handle.cutplan.master import Answer, Master, board_weights
from parts.handle.cutplan.model import Offcut, Placement, SawCut
from parts.handle.cutplan.nest import Room, Spot, State, fill, nest_best, start
from parts.handle.cutplan.pattern import Pattern
from parts.handle.cutplan.rowshape import ROW_MM, Gaps, RowShape, row_shape

# Searches of a board: part-plans kept and weight of an even front. Clear boards of one width share theirs.
Tries = tuple[tuple[int, float], ...]
CLEAR_TRIES: Tries = ((6, 0.0), (8, 1.0), (12, 0.0))
DEFECT_TRIES: Tries = ((3, 0.0), (3, 1.0))
CLEAR_TRIES_MANY: Tries = ((4, 0.0), (4, 1.0))  # also where wood is plenty
DEFECT_TRIES_MANY: Tries = ((1, 1.0),)
ENOUGH = 4  # on a large rack boards are nested until an order could be served this many times over
EVERY = 10  # up to so many pieces every part-full board is looked at
SIZES = 8  # part-full boards looked at on a large rack, twice as many on a small one


def box_points(blank: Blank) -> list[Point]:
    """Return the rectangle of a blank [mm]."""
    return [(0.0, 0.0), (blank.length_mm, 0.0), (blank.length_mm, blank.width_mm), (0.0, blank.width_mm)]


@dataclass
class Nester:
    """Makes interlocked patterns of the boards of one instance, one order's pieces a board."""

    inst: Instance
    shapes: dict[int, list[RowShape]] = field(init=False)
    cache: dict[tuple[int, int], list[tuple[float, list[tuple[int, float, int]]]]] = field(init=False)

    def __post_init__(self) -> None:
        """Lay out the postures of every kind."""
        p = self.inst.practice
        lean = p.grain_tolerance_deg if len(self.inst.boards) <= MANY_BOARDS else 0.0
        leans = sorted({-lean, 0.0, lean})
        self.shapes, self.cache = {}, {}
        for i, kind in enumerate(self.inst.kinds):
            blank = self.inst.orders[kind.order].blanks[kind.blank]
            if blank.outline:
                grow = p.bandsaw_allowance_mm + p.kerf_bandsaw_mm / 2
                self.shapes[i] = [
                    row_shape(i, blank.outline, base + lean, over, grow)
                    for over in (False, True)
                    for base in (0.0, 180.0)
                    for lean in leans
                ]
            else:  # a blank without outline keeps its rectangle; its own allowances are in it
                self.shapes[i] = [row_shape(i, box_points(blank), 0.0, False, p.kerf_bandsaw_mm / 2)]

    def outlined(self) -> list[int]:
        """Return the kinds that have an outline to interlock."""
        return [i for i, k in enumerate(self.inst.kinds) if self.inst.orders[k.order].blanks[k.blank].outline]

    def _room(self, board: GridBoard, shapes: Sequence[RowShape], gaps: Gaps, only: Sequence[int]) -> Room:
        """Return the board's room: half a bandsaw kerf may run off each trimmed end and jointed edge."""
        p, b, half = self.inst.practice, board.board, self.inst.practice.kerf_bandsaw_mm / 2
        left, low = p.end_trim_mm - half, p.edge_clearance_mm - half
        rows = math.floor((b.width_mm - 2 * low) / ROW_MM + 1e-9)
        c = p.defect_clearance_mm
        defects = [(d.x - c - left, d.y - c - low, d.x + d.dx + c - left, d.y + d.dy + c - low) for d in b.defects]
        return Room(shapes, gaps, max(0, rows), b.length_mm - 2 * left, defects, only)

    def patterns(self, lead: int) -> list[Pattern]:
        """Return interlocked patterns of every board for one outlined kind and the other kinds of its order."""
        order = self.inst.kinds[lead].order
        others = [i for i in self.inst.kinds_of(order) if i != lead]
        shapes = [*self.shapes[lead], *(s for i in others for s in self.shapes[i])]
        gaps = Gaps(shapes)
        n_lead = len(self.shapes[lead])
        most = self.inst.orders[order].quantity
        groups: dict[int, list[int]] = {}
        for at, s in enumerate(shapes):
            groups.setdefault(s.kind, []).append(at)
        clear: dict[int, tuple[float, list[State]]] = {}  # by width: length nested, its part-plans
        out: list[Pattern] = []
        # Boards that serve the whole order first; among them the longest clear ones, since a shorter clear board of the
        # same width takes the same nest, cut off earlier.
        whole = self.inst.kinds_of(order)
        boards = self.inst.boards
        turn = sorted(
            range(len(boards)),
            key=lambda b: (
                not all(self._thick(boards[b], i) for i in whole), bool(boards[b].defects), -boards[b].length, b
            ),
        )  # fmt: skip
        many, served = len(boards) > MANY_BOARDS, 0
        face = 2 * self.inst.kinds[lead].length * self.inst.kinds[lead].width * self.inst.step**2
        scarce = sum(b.length * b.width for b in boards) * self.inst.step**2 < 2 * most * face
        for b in turn:
            board = boards[b]
            if many and served >= ENOUGH * most:
                break
            if not self._thick(board, lead):
                continue
            room = self._room(board, shapes, gaps, range(n_lead))
            if room.empty:
                continue
            key = room.rows
            if not board.board.defects and key in clear and clear[key][0] >= room.length:
                states = [s for s in clear[key][1] if s.end <= room.length + 1e-7]
            else:
                if board.board.defects:
                    tries = DEFECT_TRIES_MANY if many else DEFECT_TRIES
                else:
                    tries = CLEAR_TRIES if scarce and not many else CLEAR_TRIES_MANY
                states = nest_best(room, tries, most)
                if not board.board.defects:
                    clear[key] = (room.length, states)
            served += len(states)
            out += self._with_others(b, board, shapes, gaps, groups, others, states)
        return out

    def _thick(self, board: GridBoard, kind: int) -> bool:
        return self.inst.kinds[kind].thickness_mm <= board.board.usable_thickness_mm + 1e-6

    def _with_others(
        self,
        b: int,
        board: GridBoard,
        shapes: Sequence[RowShape],
        gaps: Gaps,
        groups: dict[int, list[int]],
        others: Sequence[int],
        states: Sequence[State],
    ) -> list[Pattern]:
        """Return patterns of growing numbers of the lead piece: alone, with others in the holes, and as full sets."""
        others = [i for i in others if self._thick(board, i)]
        laid = [s.spots for s in states]
        rooms = {i: self._room(board, shapes, gaps, groups[i]) for i in others}
        rooms = {i: room for i, room in rooms.items() if not room.empty}
        if rooms:
            for n in self._sizes(len(states), self.inst.orders[self.inst.kinds[shapes[0].kind].order].quantity):
                holes = sets = states[n - 1].spots
                for room in rooms.values():
                    holes = fill(room, start(room, holes), n, states[n - 1].end).spots
                    sets = fill(room, start(room, sets), n, room.length).spots
                laid += [holes, sets]
            if states:  # and the whole board filled up
                spots = states[-1].spots
                for room in rooms.values():
                    spots = fill(room, start(room, spots), 10_000, room.length).spots
                laid.append(spots)
        return [self._pattern(b, shapes, spots, end) for spots, end in self._useful(b, shapes, laid)]

    def _sizes(self, most: int, wanted: int) -> list[int]:
        """Return the numbers of lead pieces worth a look: every small one, then some, and just what is wanted."""
        many = len(self.inst.boards) > MANY_BOARDS
        every, parts = (0, SIZES) if many else (EVERY, 2 * SIZES)
        steps = {max(1, round(most * i / parts)) for i in range(1, parts + 1)} | {min(most, wanted)}
        return sorted({n for n in steps if 1 <= n <= most} | set(range(1, min(every, most) + 1)))

    def _useful(
        self, b: int, shapes: Sequence[RowShape], laid: Sequence[Sequence[Spot]]
    ) -> list[tuple[Sequence[Spot], float]]:
        """Return the layouts of one board that no other beats, with as many of each piece for as little wood."""
        rows = []
        for n, spots in enumerate(laid):
            counts = [0] * len(self.inst.kinds)
            for s, _, _ in spots:
                counts[shapes[s].kind] += 1
            end = max(x + shapes[s].length for s, x, _ in spots)
            rows.append((round(self._taken(b, end)[0], 9), -sum(counts), n, counts, end))
        kept: list[tuple[list[int], Sequence[Spot], float]] = []
        for _, _, n, counts, end in sorted(rows):
            if not any(all(x >= y for x, y in zip(k[0], counts, strict=True)) for k in kept):
                kept.append((counts, laid[n], end))
        return [(spots, end) for _, spots, end in kept]

    def _taken(self, b: int, end: float) -> tuple[float, float]:
        """Return the footage taken when pieces reach an end [mm], and where the last crosscut's kerf ends [mm]."""
        p, board = self.inst.practice, self.inst.boards[b]
        stop = p.end_trim_mm - p.kerf_bandsaw_mm + end + p.kerf_crosscut_mm
        kept = board.board.length_mm - stop >= p.keep_length_mm
        return (stop if kept else board.board.length_mm) * board.board.width_mm * board.bf_per_mm2, stop

    def _pattern(
        self, b: int, shapes: Sequence[RowShape], spots: Sequence[tuple[int, float, int]], end: float
    ) -> Pattern:
        inst, board = self.inst, self.inst.boards[b]
        p, long, wide = inst.practice, board.board.length_mm, board.board.width_mm
        half = p.kerf_bandsaw_mm / 2
        left, low = p.end_trim_mm - half, p.edge_clearance_mm - half
        placements, kinds = [], []
        counts = [0] * len(inst.kinds)
        for s, x, r in spots:
            shape = shapes[s]
            points = tuple((px + x + left, py + r * ROW_MM + low) for px, py in shape.points)
            kind = inst.kinds[shape.kind]
            blank = inst.orders[kind.order].blanks[kind.blank]
            xs, ys = [q[0] for q in points], [q[1] for q in points]
            placements.append(
                Placement(
                    inst.orders[kind.order].name, kind.name, min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys),
                    shape.turned_deg % 360, shape.flipped, points if blank.outline else (),
                )
            )  # fmt: skip
            kinds.append(shape.kind)
            counts[shape.kind] += 1
        taken, stop = self._taken(b, end)
        rest = long - stop
        kept = rest >= p.keep_length_mm
        cuts = [
            SawCut(
                "crosscut", p.end_trim_mm - p.kerf_crosscut_mm / 2, 0.0, p.end_trim_mm - p.kerf_crosscut_mm / 2, wide
            )
        ]
        middle = stop - p.kerf_crosscut_mm / 2
        cuts.append(SawCut("crosscut", middle, 0.0, middle, wide))
        offcuts = (Offcut(stop, 0.0, rest, wide),) if kept else ()
        return Pattern(b, "interlocked", tuple(counts), taken, tuple(placements), tuple(kinds), tuple(cuts), offcuts)


def interlocked(inst: Instance, straight: Sequence[Answer]) -> Answer:
    """Return the best plan over interlocked and straight patterns together.

    Args:
        inst: orders and boards of one wood.
        straight: the straight answers, with the patterns they were made from.
    """
    nester = Nester(inst)
    master = Master(inst, board_weights(inst))
    for answer in straight:
        for p in answer.pool:
            master.add(p)
    for lead in nester.outlined():
        for p in nester.patterns(lead):
            master.add(p)
    chosen, sets, objective = master.settle()
    best = max(straight, key=lambda a: a.objective)
    if best.objective > objective:
        chosen, sets, objective = best.chosen, best.sets, best.objective
    return Answer(chosen, sets, objective, math.inf, master.set_worth, master.total_bf, master.patterns)
