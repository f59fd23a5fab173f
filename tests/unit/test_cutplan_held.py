"""Interlocked sections: what holds them while they are sawn, in which order, and when each piece comes to thickness."""

import re

import pytest

from parts.handle.blanks import Blank, WoodPractice
from parts.handle.cutplan.jobs import jobs
from parts.handle.cutplan.model import BoardPlan, Placement, SawCut
from parts.handle.cutplan.sawing_order import Ground, sawing_order
from parts.handle.rack import Board
from tests.unit.test_cutplan_jobs import BLANKS, nested

PRACTICE = WoodPractice(cut_step_mm=1.0)
SIDE = ((1.5, 1.5), (88.5, 1.5), (88.5, 48.5), (1.5, 48.5))
BOX = {("X", "tote"): Blank("tote", 90.0, 50.0, 27.0, SIDE), ("X", "knob"): BLANKS["X", "knob"]}
GAP = 1.5 + 0.8  # a tote's outline is net; a kerf beyond its allowance


def board(length: float, width: float = 200.0) -> Board:
    return Board("A", "black-cherry", 50.8, width, length, "FAS", 7.0)


def tote(x: float, y: float, dx: float, dy: float) -> Placement:
    return Placement("X", "tote", x, y, dx, dy, outline=((x, y), (x + dx, y), (x + dx, y + dy), (x, y + dy)))


def knob(x: float, y: float) -> Placement:
    return Placement("X", "knob", x, y, 48.0, 40.0)


# a knob with a tote on each side, a kerf and its allowance away: no way in between them
RING = (
    tote(100.0 - GAP - 40, 60.0, 40.0, 40.0),
    tote(100.0 + 48 + GAP, 60.0, 40.0, 40.0),
    tote(80.0, 60.0 - GAP - 40, 88.0, 40.0),
    tote(80.0, 100.0 + GAP, 88.0, 40.0),
)


def told(laid: tuple[Placement, ...], section: float, long: Board) -> list[str]:
    end = 23.4 + section
    cuts = (SawCut("crosscut", 23.4, 0.0, 23.4, 200.0), SawCut("crosscut", end, 0.0, end, 200.0))
    return [j.text for j in jobs(BoardPlan(long, "interlocked", laid, cuts, (), 0.0), BOX, PRACTICE, "mm")]


def order_in(text: str) -> list[str]:
    return re.findall(r"in the order ([TK0-9, ]+);", text)[0].split(", ")


def test_what_is_too_short_for_the_planer_comes_to_its_own_thickness_after_it_is_sawn():
    steps = nested(140.0)
    sawn = next(n for n, t in enumerate(steps) if t.startswith("bandsaw"))
    by_hand = [n for n, t in enumerate(steps) if "too short for the planer" in t]
    assert sum(t.startswith("bandsaw") for t in steps) == 1 and min(by_hand) > sawn
    knobs, totes = (steps[n] for n in by_hand)
    assert "K1" in knobs and "40.0 mm" in knobs and "tote" not in knobs
    assert "may stay thicker" in knobs and "may stay thicker" not in totes  # a tote is not turned
    assert "T1, T2" in totes and "27.0 mm" in totes and "knob" not in totes


HELD = [(1200.0, "board"), (470.0, "board"), (465.0, "carrier"), (190.0, "carrier")]


@pytest.mark.parametrize(("length", "by"), HELD)
def test_a_short_section_is_held_by_its_board_only_where_enough_of_it_is_left(length, by):
    """The section ends at 23.4 + 142 mm and half a kerf of 1.6: 300 mm are left of a board of 467 mm and more."""
    steps = told((tote(30.0, 10.0, 88.0, 47.0), knob(30.0, 100.0)), 142.0, board(length))
    text = " ".join(steps)
    assert ("stays on the board" in text) is (by == "board") and ("carrier board at least 300 mm" in text) is (
        by == "carrier"
    )
    assert ("hang on the board" in text) is (by == "board")
    assert steps[-1].startswith("crosscut the board clean behind the pieces") is (by == "board")


def test_an_enclosed_knob_waits_for_a_neighbour_which_then_comes_down_by_hand():
    far = (tote(420.0, 60.0, 88.0, 47.0), knob(470.0, 10.0))
    steps = told((*RING, knob(100.0, 60.0), *far), 500.0, board(1200.0))
    saws = [t for t in steps if t.startswith("bandsaw")]
    one, two = (order_in(t) for t in saws)
    assert one[0] == "K2" and len(one) == 3 and one[1].startswith("T") and one[2] == "K1"
    assert f"{one[1]} already now" in saws[0] and "already now" not in saws[1]
    assert sorted([*one, *two]) == ["K1", "K2", "T1", "T2", "T3", "T4", "T5"]
    hand = next(n for n, t in enumerate(steps) if t.startswith(f"bring tote {one[1]},"))
    assert steps.index(saws[0]) < hand < next(n for n, t in enumerate(steps) if t.startswith("plane what still holds"))


def test_an_enclosed_knob_on_a_held_section_is_sawn_after_a_neighbour():
    (saw,) = (t for t in told((*RING, knob(100.0, 60.0)), 180.0, board(1200.0)) if t.startswith("bandsaw"))
    order = order_in(saw)
    assert order[0].startswith("T") and "K1" in order[1:]


def test_a_piece_with_a_way_in_keeps_its_turn():
    open_ring = RING[:3]  # nothing above the knob
    laid = (*open_ring, knob(100.0, 60.0))
    ground = Ground(laid, PRACTICE, None, 200.0)
    assert ground.reached(range(4)) == {0, 1, 2, 3}
    assert sawing_order(ground, [3, 1, 2, 0], [3]) == [3]
    closed = Ground((*RING, knob(100.0, 60.0)), PRACTICE, None, 200.0)
    assert closed.reached(range(5)) == {0, 1, 2, 3}
    assert len(sawing_order(closed, [4, 3, 2, 1, 0], [4])) == 2


def test_wood_that_stays_bars_the_way():
    """Open to the right only, where the board goes on behind the cut."""
    laid = (RING[0], RING[2], RING[3], knob(100.0, 60.0))
    assert 3 in Ground(laid, PRACTICE, None, 200.0).reached(range(4))
    assert 3 not in Ground(laid, PRACTICE, 150.0, 200.0).reached(range(4))
