"""Interlocked outlines for the bandsaw: totes nested turned end for end and turned over, knob blanks in what is left.

Its patterns join all straight patterns in one master plan, so it never gives less than the better straight plan.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from parts.handle.blanks import Blank, Point
from parts.handle.cutplan.area_bound import area_bound
from parts.handle.cutplan.grid import MANY_BOARDS, GridBoard, Instance
from parts.handle.cutplan.master import Answer, Master, board_weights
from parts.handle.cutplan.model import Offcut, Placement, SawCut
from parts.handle.cutplan.nest import Room, Spot, State, fill, nest, nest_best, start
from parts.handle.cutplan.pattern import Pattern
from parts.handle.cutplan.rowshape import Gaps, RowShape, mirrored, row_shape
from parts.handle.cutplan.squeeze import squeezed

Tries = tuple[tuple[int, float], ...]  # searches of a board: part-plans kept and weight of an even front


@dataclass(frozen=True)
class Effort:
    """How hard a board is searched."""

    clear: Tries  # boards without defects; those of one width share theirs
    defects: Tries
    leans: bool  # pieces turned off the grain too, as far as the practice allows
    row_mm: float  # how finely pieces are set across the board
    every: int  # up to so many pieces every part-full board is looked at
    sizes: int  # part-full boards looked at beyond
    moves: int = 0  # for one piece more on clear boards that an order would fill


QUICK = Effort(
    ((1, 1.0),), ((1, 1.0),), False, 1.0, 0, 4
)  # every board; then those that the plan takes are searched again
WIDE = Effort(((4, 0.0), (4, 1.0), (8, 1.0), (12, 0.0), (24, 0.3)), ((3, 0.0), (3, 1.0)), True, 0.5, 10, 16, 36_000)
WIDE_MANY = Effort(((4, 0.0), (4, 1.0)), ((2, 1.0),), True, 0.5, 0, 8)  # on a large rack
BEGIN_WIDTH, BEGIN_EVEN = 8, 0.3  # search for where that begins: part-plans kept and weight of an even front
A_TRY = 6_000  # moves before another throw of the dice
NEAR = 1.02  # one piece more is tried for where it would need no more than so many times the board's length
ENOUGH = 4  # boards are looked at until an order could be served this many times over
REFINE_ROUNDS = 4


def box_points(blank: Blank) -> list[Point]:
    """Return the rectangle of a blank [mm]."""
    return [(0.0, 0.0), (blank.length_mm, 0.0), (blank.length_mm, blank.width_mm), (0.0, blank.width_mm)]


@dataclass
class Nester:
    """Makes interlocked patterns of the boards of one instance, one order's pieces a board.

    It is made for one outlined kind, the lead, and the other kinds of its order.
    """

    inst: Instance
    lead: int
    effort: Effort
    shapes: list[RowShape] = field(init=False)
    gaps: Gaps = field(init=False)
    groups: dict[int, list[int]] = field(init=False)  # by kind: indexes of its shapes
    clear: dict[int, tuple[float, list[State]]] = field(init=False)  # by width: length nested, its part-plans
    moves: int = field(init=False)  # left to get one piece more on a board

    def __post_init__(self) -> None:
        """Lay out the postures of every kind, the lead's first."""
        p = self.inst.practice
        self.order = self.inst.kinds[self.lead].order
        self.others = [i for i in self.inst.kinds_of(self.order) if i != self.lead]
        self.most = self.inst.orders[self.order].quantity
        self.shapes, self.groups, self.clear, self.moves = [], {}, {}, self.effort.moves
        for i in (self.lead, *self.others):
            blank = self.inst.orders[self.order].blanks[self.inst.kinds[i].blank]
            mine = len(self.shapes)
            if blank.outline:
                self.shapes += self._postures(i, blank.outline)
            else:  # a blank without outline keeps its rectangle; its own allowances are in it
                grow = p.kerf_bandsaw_mm / 2
                self.shapes.append(row_shape(i, box_points(blank), 0.0, False, grow, self.effort.row_mm))
            self.groups[i] = list(range(mine, len(self.shapes)))
        self.gaps = Gaps(self.shapes)

    def _postures(self, kind: int, outline: Sequence[Point]) -> list[RowShape]:
        """Return an outline as it may lie: end for end, turned over, and off the grain as far as the shop allows."""
        p = self.inst.practice
        grow = p.bandsaw_allowance_mm + p.kerf_bandsaw_mm / 2
        leans = sorted({-p.grain_tolerance_deg, 0.0, p.grain_tolerance_deg}) if self.effort.leans else [0.0]
        plain = {lean: row_shape(kind, outline, lean, False, grow, self.effort.row_mm) for lean in leans}
        out = list(plain.values()) + [mirrored(plain[v], True, True, 180.0 + v, False) for v in leans]
        # turned over, a piece that leans one way shows the mirror of one that leans the other way
        out += [mirrored(plain[-v], False, True, v, True) for v in leans]
        return out + [mirrored(plain[-v], True, False, 180.0 + v, True) for v in leans]

    def _room(self, board: GridBoard, only: Sequence[int]) -> Room:
        """Return the board's room: half a bandsaw kerf may run off each trimmed end and jointed edge."""
        p, b, half = self.inst.practice, board.board, self.inst.practice.kerf_bandsaw_mm / 2
        left, low = p.end_trim_mm - half, p.edge_clearance_mm - half
        rows = math.floor((b.width_mm - 2 * low) / self.effort.row_mm + 1e-9)
        c = p.defect_clearance_mm
        defects = [(d.x - c - left, d.y - c - low, d.x + d.dx + c - left, d.y + d.dy + c - low) for d in b.defects]
        return Room(self.shapes, self.gaps, max(0, rows), b.length_mm - 2 * left, defects, only)

    def look_over(self) -> list[Pattern]:
        """Return patterns of boards enough to serve the order several times over.

        Boards that serve the whole order come first; among them the longest clear ones, since a shorter clear board of
        the same width takes the same nest, cut off earlier. On a small rack every board is looked at.
        """
        boards, whole = self.inst.boards, self.inst.kinds_of(self.order)
        turn = sorted(
            range(len(boards)),
            key=lambda b: (
                not all(self._thick(boards[b], i) for i in whole), bool(boards[b].defects), -boards[b].length, b
            ),
        )  # fmt: skip
        out: list[Pattern] = []
        served = 0
        for b in turn:
            if len(boards) > MANY_BOARDS and served >= ENOUGH * self.most:
                break
            found = self.patterns(b)
            served += boards[b].copies * max((p.counts[self.lead] for p in found), default=0)
            out += found
        return out

    def patterns(self, b: int) -> list[Pattern]:
        """Return interlocked patterns of one board, by its index."""
        board = self.inst.boards[b]
        if not self._thick(board, self.lead):
            return []
        room = self._room(board, self.groups[self.lead])
        if room.empty:
            return []
        key, effort = room.rows, self.effort
        if not board.board.defects and key in self.clear and self.clear[key][0] >= room.length:
            states = [s for s in self.clear[key][1] if s.end <= room.length + 1e-7]
        else:
            states = nest_best(room, effort.defects if board.board.defects else effort.clear, self.most)
            if not board.board.defects:
                self.clear[key] = (room.length, states)
        while states and len(states) < self.most and not board.board.defects:
            more = self._one_more(room, len(states) + 1)
            if more is None:
                break
            states = [*states, more]
        return self._with_others(b, board, states)

    def _one_more(self, room: Room, count: int) -> State | None:
        """Return a part-plan of more pieces than the beam search has found, or None; uses up the nester's moves."""
        if self.moves <= 0:
            return None
        one_hand = [i for i in room.use if not self.shapes[i].flipped]
        level = [i for i in one_hand if self.shapes[i].turned_deg % 180.0 == 0.0]
        long = room.length + max(self.shapes[i].length for i in level)
        begin = nest(Room(self.shapes, self.gaps, room.rows, long, (), level), BEGIN_WIDTH, count, BEGIN_EVEN)
        if len(begin) < count or begin[-1].end > NEAR * room.length:
            return None
        room = Room(self.shapes, self.gaps, room.rows, room.length, (), one_hand)
        seed = 0
        while self.moves > 0:
            self.moves -= A_TRY
            seed += 1
            found = squeezed(room, begin[-1].spots, A_TRY, seed)
            if found is not None:
                return found
        return None

    def _thick(self, board: GridBoard, kind: int) -> bool:
        return self.inst.kinds[kind].thickness_mm <= board.board.usable_thickness_mm + 1e-6

    def _with_others(self, b: int, board: GridBoard, states: Sequence[State]) -> list[Pattern]:
        """Return patterns of growing numbers of the lead piece: alone, with others in the holes, and as full sets."""
        laid = [s.spots for s in states]
        rooms = [self._room(board, self.groups[i]) for i in self.others if self._thick(board, i)]
        rooms = [room for room in rooms if not room.empty]
        if rooms:
            for n in self._sizes(len(states)):
                holes = sets = states[n - 1].spots
                for room in rooms:
                    holes = fill(room, start(room, holes), n, states[n - 1].end).spots
                    sets = fill(room, start(room, sets), n, room.length).spots
                laid += [holes, sets]
            if states:  # and the whole board filled up
                spots = states[-1].spots
                for room in rooms:
                    spots = fill(room, start(room, spots), 10_000, room.length).spots
                laid.append(spots)
        return [self._pattern(b, spots, end) for spots, end in self._useful(b, laid)]

    def _sizes(self, most: int) -> list[int]:
        """Return the numbers of lead pieces worth a look: every small one, then some, and just what is wanted."""
        effort = self.effort
        steps = {max(1, round(most * i / effort.sizes)) for i in range(1, effort.sizes + 1)} | {min(most, self.most)}
        return sorted({n for n in steps if 1 <= n <= most} | set(range(1, min(effort.every, most) + 1)))

    def _useful(self, b: int, laid: Sequence[Sequence[Spot]]) -> list[tuple[Sequence[Spot], float]]:
        """Return the layouts of one board that no other beats, with as many of each piece for as little wood."""
        rows = []
        for n, spots in enumerate(laid):
            counts = [0] * len(self.inst.kinds)
            for s, _, _ in spots:
                counts[self.shapes[s].kind] += 1
            end = max(x + self.shapes[s].length for s, x, _ in spots)
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

    def _pattern(self, b: int, spots: Sequence[Spot], end: float) -> Pattern:
        inst, board = self.inst, self.inst.boards[b]
        p, long, wide = inst.practice, board.board.length_mm, board.board.width_mm
        half = p.kerf_bandsaw_mm / 2
        left, low = p.end_trim_mm - half, p.edge_clearance_mm - half
        placements, kinds = [], []
        counts = [0] * len(inst.kinds)
        for s, x, r in spots:
            shape = self.shapes[s]
            points = tuple((px + x + left, py + r * shape.row_mm + low) for px, py in shape.points)
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


def interlocked(inst: Instance, straight: Sequence[Answer], refine: int = REFINE_ROUNDS) -> Answer:
    """Return the best plan over interlocked and straight patterns together.

    Every board is looked over quickly; then the boards that the plan takes are searched harder, until it takes none
    that was not.

    Args:
        inst: orders and boards of one wood.
        straight: the straight answers, with the patterns they were made from.
        refine: how many times the boards taken are searched again; 0 is quick.
    """
    master = Master(inst, board_weights(inst))
    for answer in straight:
        for p in answer.pool:
            master.add(p)
    kinds = [i for i, k in enumerate(inst.kinds) if inst.orders[k.order].blanks[k.blank].outline]
    for i in kinds:
        for p in Nester(inst, i, QUICK).look_over():
            master.add(p)
    best = max(straight, key=lambda a: a.objective)
    chosen, sets, objective = best.chosen, best.sets, best.objective
    effort = WIDE_MANY if len(inst.boards) > MANY_BOARDS else WIDE
    nesters: dict[int, Nester] = {}
    searched: set[tuple[int, int]] = set()
    for n in range(refine + 1):
        found = master.settle()
        if found[2] > objective:
            chosen, sets, objective = found
        if n == refine:
            break
        todo = sorted({(i, p.board) for p in chosen for i in kinds if p.counts[i]} - searched)
        if not todo:
            break
        searched.update(todo)
        for i, b in todo:
            if i not in nesters:
                nesters[i] = Nester(inst, i, effort)
            for p in nesters[i].patterns(b):
                master.add(p)
    bound = max(objective, area_bound(inst, master))
    return Answer(chosen, sets, objective, bound, master.set_worth, master.total_bf, master.patterns)
