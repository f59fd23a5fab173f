"""Straight plans free every piece on all four sides, defects or not, and nothing too short goes back on the rack."""

import random

import pytest

from parts.handle.blanks import Blank, WoodPractice
from parts.handle.cutplan.model import BoardPlan, Order, Placement
from parts.handle.cutplan.plan import plan_boards
from parts.handle.rack import Board, Defect
from tests.unit.test_cutplan_bounds import KNOB, TOTE

PRACTICE = WoodPractice(cut_step_mm=1.0)
STRAIGHT = ("crosscut-first", "rip-first")
NEAR_MM = 4.0  # a cut so near another falls in its kerf


def board(name: str, width: float, length: float, defects: list[Defect]) -> Board:
    return Board(name, "black-cherry", 50.8, width, length, "FAS", 7.0, tuple(defects))


def rough_rack(seed: int) -> list[Board]:
    """Return invented boards full of defects; the same seed gives the same boards."""
    dice = random.Random(seed)
    out = []
    for n in range(3):
        width, length = dice.uniform(110, 220), dice.uniform(600, 1500)
        spots = [
            Defect(dice.uniform(0, length - 40), dice.uniform(0, width - 30), dice.uniform(8, 40), dice.uniform(8, 30))
            for _ in range(dice.randint(3, 9))
        ]
        out.append(board(f"B{n}", width, length, spots))
    return out


def open_sides(plan: BoardPlan, p: Placement, practice: WoodPractice) -> list[str]:
    """Return the sides of a piece along which no cut runs, the jointed lower edge aside."""
    half_c, half_r = practice.kerf_crosscut_mm / 2, practice.kerf_rip_mm / 2
    x0, y0, x1, y1 = p.x, p.y, p.x + p.dx, p.y + p.dy

    def cut(kind: str, at: float) -> bool:
        for c in plan.cuts:
            low, high = (min(c.x0, c.x1), max(c.x0, c.x1)) if kind == "rip" else (min(c.y0, c.y1), max(c.y0, c.y1))
            there = c.y0 if kind == "rip" else c.x0
            ends = (x0, x1) if kind == "rip" else (y0, y1)
            right_kind = (c.kind == "rip") is (kind == "rip") and abs(there - at) < NEAR_MM
            if right_kind and low <= ends[0] + NEAR_MM and high >= ends[1] - NEAR_MM:
                return True
        return False

    sides = {
        "left": cut("crosscut", x0 - half_c),
        "right": cut("crosscut", x1 + half_c),
        "lower": cut("rip", y0 - half_r) or y0 <= practice.edge_clearance_mm + 1e-6,
        "upper": cut("rip", y1 + half_r),
    }
    return [side for side, there in sides.items() if not there]


@pytest.mark.parametrize("way", STRAIGHT)
@pytest.mark.parametrize("seed", range(4))
def test_every_piece_is_cut_free_on_all_four_sides(seed, way):
    rack = rough_rack(seed)
    plan = plan_boards([Order("X", "black-cherry", 40, (TOTE, KNOB))], rack, PRACTICE, (way,), quick=True)[way]
    left_open = {(b.board.name, p.x, p.y): open_sides(b, p, PRACTICE) for b in plan.boards for p in b.placements}
    assert left_open and not {k: v for k, v in left_open.items() if v}


def test_a_piece_behind_a_skipped_one_has_its_own_cut():
    """A long section of totes, with a strip of knobs whose middle copy would lie on a knot."""
    long = Blank("tote", 160.0, 60.0, 27.0)
    knot = Defect(25.0 + 75.0, 80.0, 10.0, 10.0)
    one = board("K", 1.6 + 60 + 3.2 + 40 + 6, 25.0 + 160.0 + 3.2 + 28.0, [knot])
    plan = plan_boards([Order("X", "black-cherry", 3, (long, KNOB))], [one], PRACTICE, ("crosscut-first",))[
        "crosscut-first"
    ]
    (made,) = plan.boards
    knobs = sorted(p.x for p in made.placements if p.piece == "knob")
    assert len(knobs) == 2 and knobs[1] - knobs[0] > 2 * KNOB.length_mm  # the copy between them is skipped
    assert not any(open_sides(made, p, PRACTICE) for p in made.placements)


@pytest.mark.parametrize("way", ["crosscut-first", "rip-first", "interlocked"])
@pytest.mark.parametrize("length", [203.2, 290.0, 330.0])
def test_nothing_goes_back_shorter_than_the_shop_keeps(way, length):
    rack = [board(f"S{n}", 203.2, length, []) for n in range(3)]
    plan = plan_boards([Order("X", "black-cherry", 1, (TOTE, KNOB))], rack, PRACTICE, (way,), quick=True)[way]
    assert plan.sets == {"X": 1}
    back = [o for b in plan.boards for o in b.offcuts]
    assert all(o.dx >= PRACTICE.keep_length_mm and o.dy >= PRACTICE.keep_width_mm for o in back)
    if way == "rip-first":
        assert bool(back) is (length >= PRACTICE.keep_length_mm)
