"""Every plan is optimal or says its bound; the interlocked bound is computed from faces alone; like boards are one."""

import dataclasses

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from parts.handle.blanks import Blank, WoodPractice
from parts.handle.cutplan.area_bound import clear_face_mm2, least_face_mm2
from parts.handle.cutplan.grid import MANY_BOARDS, make_instance
from parts.handle.cutplan.model import WAYS, Order
from parts.handle.cutplan.plan import plan_boards
from parts.handle.cutplan.sawsteps import steps
from parts.handle.rack import Board, Defect

PRACTICE = WoodPractice(cut_step_mm=1.0)
SHAPE = ((1.5, 1.5), (95.5, 1.5), (95.5, 20.0), (60.0, 30.0), (60.0, 58.5), (20.0, 58.5), (20.0, 25.0), (1.5, 20.0))
TOTE = Blank("tote", 97.0, 60.0, 27.0, SHAPE)
KNOB = Blank("knob", 48.0, 40.0, 40.0)


def board(name, width, length, defects=()):
    return Board(name, "black-cherry", 50.8, width, length, "FAS", 7.0, tuple(defects))


MIXED = [board("A", 140.0, 520.0), board("B", 110.0, 430.0, [Defect(150.0, 0.0, 40.0, 60.0)]), board("C", 95.0, 700.0)]


@pytest.fixture(scope="module", params=[1, 4, 60], ids=["one", "few", "too many"])
def plans(request):
    return plan_boards([Order("X", "black-cherry", request.param, (TOTE, KNOB))], MIXED, PRACTICE, quick=True)


@pytest.mark.parametrize("way", WAYS)
def test_every_plan_is_proven_or_says_its_bound(plans, way):
    plan = plans[way]
    sets, wanted = plan.sets["X"], plan.wanted["X"]
    assert sets <= plan.bound_sets <= wanted
    if plan.proven:
        assert plan.bound_sets == sets and plan.gap_bf == 0.0
    elif sets == plan.bound_sets:
        assert 0 < plan.gap_bf <= plan.used_bf
    else:
        assert plan.gap_bf is None


def test_interlocked_is_never_below_a_straight_plan_nor_above_the_face_there_is(plans):
    """More sets, or as many with no less matched, or both alike for no more footage (weighed by at most 5 %)."""
    nested = plans["interlocked"]
    for way in ("crosscut-first", "rip-first"):
        straight = plans[way]
        assert (nested.sets["X"], nested.matched["X"]) >= (straight.sets["X"], straight.matched["X"])
        if (nested.sets, nested.matched) == (straight.sets, straight.matched):
            assert nested.used_bf <= 1.05 * straight.used_bf + 1e-9
    face = sum(min(b.width_mm * b.length_mm, 1e9) for b in MIXED)
    assert nested.bound_sets * (least_face_mm2(TOTE, PRACTICE) + least_face_mm2(KNOB, PRACTICE)) <= face


def test_the_face_bound_holds_against_a_plan_that_is_known_to_be_best():
    """Squares that fill a board exactly, kerf and trims 0: the count is the face over the face of one."""
    none = dataclasses.asdict(PRACTICE) if dataclasses.is_dataclass(PRACTICE) else dict(vars(PRACTICE))
    bare = {k: 0.0 for k, v in none.items() if isinstance(v, float) and k.endswith("_mm") and k != "cut_step_mm"}
    practice = WoodPractice(**{**none, **bare, "cut_step_mm": 1.0})
    plan = plan_boards(
        [Order("X", "black-cherry", 99, (Blank("knob", 50.0, 50.0, 40.0),))], [board("S", 100.0, 500.0)], practice
    )["interlocked"]
    assert plan.sets == {"X": 20} and plan.bound_sets == 20 and plan.proven


# a growth that is neither nothing nor far above what the polygon library's numbers can tell makes it return nothing
grown = st.just(0.0) | st.floats(0.001, 2)
points = st.lists(st.tuples(st.floats(0, 120), st.floats(0, 80)), min_size=3, max_size=7)


@settings(max_examples=30, deadline=None)
@given(points, grown, grown)
def test_the_least_face_is_no_more_than_the_true_grown_face(corners, allowance, kerf):
    """Checked against an independent polygon library's offset (its round corners are cut a little short)."""
    hull = Polygon(corners).convex_hull if len(set(corners)) >= 3 else Polygon()
    if hull.geom_type != "Polygon" or hull.area < 1:
        return
    practice = WoodPractice(bandsaw_allowance_mm=allowance, kerf_bandsaw_mm=kerf)
    x0, y0, x1, y1 = hull.bounds
    outline = tuple(hull.exterior.coords)[:-1]
    blank = Blank("p", x1 - x0 + 2 * allowance, y1 - y0 + 2 * allowance, 20.0, outline)
    true = hull.buffer(allowance + kerf / 2, quad_segs=64).area
    assert hull.area - 1e-6 <= least_face_mm2(blank, practice) <= true * (1 + 1e-3) + 1e-6


spots = st.lists(st.tuples(*(st.integers(0, n) for n in (400, 90)), *(st.integers(1, n) for n in (99, 49))), max_size=4)


@settings(max_examples=40, deadline=None)
@given(spots)
def test_clear_face_leaves_overlapping_defects_out_once(found):
    one = board("A", 140.0, 500.0, [Defect(*map(float, s)) for s in found])
    instance = make_instance([Order("X", "black-cherry", 1, (KNOB,))], [one], PRACTICE)
    if not instance.boards:
        return
    p, half = PRACTICE, PRACTICE.kerf_bandsaw_mm / 2
    room = box(p.end_trim_mm - half, p.edge_clearance_mm - half, 500 - p.end_trim_mm + half, 140 - p.edge_clearance_mm + half)  # fmt: skip  # noqa: E501
    c = p.defect_clearance_mm
    holes = unary_union([box(d.x - c, d.y - c, d.x + d.dx + c, d.y + d.dy + c) for d in one.defects])
    assert clear_face_mm2(instance.boards[0], PRACTICE) == pytest.approx(room.difference(holes).area)


def test_boards_alike_are_planned_as_one_and_taken_one_by_one():
    rack = [board(f"B{n}", 120.0, 420.0) for n in range(40)]
    instance = make_instance([Order("X", "black-cherry", 30, (TOTE, KNOB))], rack, PRACTICE)
    assert len(instance.boards) == 1 and instance.boards[0].copies == 40 > MANY_BOARDS
    assert instance.step == 1.0
    plans = plan_boards([Order("X", "black-cherry", 30, (TOTE, KNOB))], rack, PRACTICE, quick=True)
    for plan in plans.values():
        taken = [b.board.name for b in plan.boards]
        assert len(set(taken)) == len(taken) and plan.sets == {"X": 30}
        assert not {b.name for b in plan.leftovers} & set(taken)


def test_a_rack_of_many_different_boards_is_planned_on_a_coarser_stop():
    fine = WoodPractice(cut_step_mm=0.5)
    rack = [board(f"B{n}", 100.0 + n, 400.0 + n) for n in range(MANY_BOARDS + 1)]
    assert make_instance([Order("X", "black-cherry", 1, (KNOB,))], rack, fine).step == 1.0
    assert make_instance([Order("X", "black-cherry", 1, (KNOB,))], rack[:-1], fine).step == 0.5
    plan = plan_boards([Order("X", "black-cherry", 3, (TOTE, KNOB))], rack, fine, quick=True)["interlocked"]
    assert plan.sets == plan.matched == {"X": 3}


@pytest.mark.parametrize("way", ["crosscut-first", "rip-first"])
def test_cuts_stand_in_the_order_they_are_made_and_every_step_says_where(plans, way):
    for b in plans[way].boards:
        told = steps(b)
        assert [s.first for s in told] == [1, *(s.last + 1 for s in told[:-1])]
        assert told[-1].last == len(b.cuts)
        whole = [not s.parts for s in told]
        assert whole == sorted(whole, reverse=True)  # the whole board is cut through before any part of it
        assert whole[0] and told[0].kind == ("crosscut" if way == "crosscut-first" else "rip")
