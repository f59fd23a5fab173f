"""Cut plans: what is laid is on clear wood, kerf apart, counted right; the bound holds; interlocked never below."""

import itertools

import pytest
from shapely.geometry import Polygon, box

from parts.handle.blanks import Blank, WoodPractice, knob_blank, tote_blank
from parts.handle.cutplan.model import WAYS, Order
from parts.handle.cutplan.plan import plan_boards
from parts.handle.footage import footage, to_buy
from parts.handle.rack import Board, Defect, parse_rack, write_rack
from shared.errors import InputError, RequestError

PRACTICE = WoodPractice(cut_step_mm=1.0)
SIDE = [
    (0, 0),
    (92, 0),
    (96, 8),
    (80, 22),
    (74, 40),
    (80, 62),
    (92, 80),
    (70, 98),
    (50, 78),
    (56, 60),
    (52, 40),
    (4, 12),
]
TOTE = tote_blank([(float(x), float(z)) for x, z in SIDE], 24.0, 50.0, PRACTICE)
KNOB = knob_blank(40.0, 44.0, PRACTICE)
RACK = [
    Board("A", "black-cherry", 50.8, 150.0, 800.0, "FAS", 7.0, (Defect(400.0, 0.0, 60.0, 30.0),)),
    Board("B", "black-cherry", 31.75, 160.0, 620.0, "FAS", 7.0, ()),
    Board("C", "black-cherry", 50.8, 120.0, 560.0, "No1_Common", 7.0, (Defect(300.0, 50.0, 40.0, 40.0),)),
    Board("T", "black-cherry", 25.4, 150.0, 2000.0, "FAS", 7.0, ()),
    Board("M", "sugar-maple", 50.8, 130.0, 560.0, "FAS", 7.0, ()),
]


@pytest.fixture(scope="module", params=[2, 200], ids=["few", "more than the rack gives"])
def plans(request):
    order = Order("Heron", "black-cherry", request.param, (TOTE, KNOB))
    return plan_boards([order], RACK, PRACTICE, quick=request.param > 10)


def shape(placement):
    if placement.outline:
        return Polygon(placement.outline)
    return box(placement.x, placement.y, placement.x + placement.dx, placement.y + placement.dy)


@pytest.mark.parametrize("way", WAYS)
def test_pieces_lie_on_clear_wood_a_kerf_apart(plans, way):
    for board_plan in plans[way].boards:
        board = board_plan.board
        inside = box(
            PRACTICE.end_trim_mm, PRACTICE.edge_clearance_mm,
            board.length_mm - PRACTICE.end_trim_mm, board.width_mm - PRACTICE.edge_clearance_mm,
        ).buffer(1e-6)  # fmt: skip
        shapes = [shape(p) for p in board_plan.placements]
        nested = board_plan.way == "interlocked"
        kerf = PRACTICE.kerf_bandsaw_mm if nested else min(PRACTICE.kerf_rip_mm, PRACTICE.kerf_crosscut_mm)
        for one, p in zip(shapes, board_plan.placements, strict=True):
            assert inside.contains(one)
            for d in board.defects:
                assert one.distance(box(d.x, d.y, d.x + d.dx, d.y + d.dy)) >= PRACTICE.defect_clearance_mm - 1e-6
            thickness = TOTE.thickness_mm if p.piece == "tote" else KNOB.thickness_mm
            assert board.usable_thickness_mm >= thickness
        for (a, p), (b, q) in itertools.combinations(zip(shapes, board_plan.placements, strict=True), 2):
            both = bool(p.outline) + bool(q.outline)
            need = kerf + (PRACTICE.bandsaw_allowance_mm * both if nested else 0.0)
            assert a.distance(b) >= need - 1e-6


@pytest.mark.parametrize("way", WAYS)
def test_straight_cuts_miss_the_pieces_and_free_them(plans, way):
    for board_plan in plans[way].boards:
        if board_plan.way == "interlocked":
            continue
        for p in board_plan.placements:
            body = shape(p)
            for c in board_plan.cuts:
                half = 1.6
                line = box(min(c.x0, c.x1), min(c.y0, c.y1), max(c.x0, c.x1), max(c.y0, c.y1)).buffer(
                    half - 1e-6, cap_style="square"
                )
                if c.kind == "rip":
                    line = box(min(c.x0, c.x1), c.y0 - half, max(c.x0, c.x1), c.y0 + half)
                else:
                    line = box(c.x0 - half, min(c.y0, c.y1), c.x0 + half, max(c.y0, c.y1))
                assert body.intersection(line).area < 1.0 * max(p.dx, p.dy)  # no more than a step of rounding
            assert any(c.kind != "rip" and abs(c.x0 - 1.6 - p.x - p.dx) <= 2.0 for c in board_plan.cuts)
            assert any(c.kind == "rip" and abs(c.y0 - 1.6 - p.y - p.dy) <= 2.0 for c in board_plan.cuts)


@pytest.mark.parametrize("way", WAYS)
def test_sets_spares_and_bound_add_up(plans, way):
    plan = plans[way]
    laid = [p.piece for b in plan.boards for p in b.placements]
    for blank in ("tote", "knob"):
        assert laid.count(blank) == plan.sets["Heron"] + plan.spares.get(f"Heron {blank}", 0)
    assert plan.sets["Heron"] <= plan.bound_sets <= plan.wanted["Heron"]
    assert plan.matched["Heron"] <= plan.sets["Heron"]
    assert 0 < plan.yield_fraction < 1
    assert plan.saw_time_s > 0
    short = plan.wanted["Heron"] - plan.sets["Heron"]
    assert plan.short == ({"Heron": short} if short else {})
    assert bool(plan.to_buy) == bool(short)
    assert plan.set_aside == (
        "board T is thinner than any blank: 25.4 mm [1.00 in], of which 23.8 mm [0.94 in] can be counted on; the tote "
        "needs 27.2 mm [1.07 in]",
    )


def test_interlocked_is_never_below_the_straight_plans(plans):
    best = max((p.sets["Heron"], p.matched["Heron"]) for w, p in plans.items() if w != "interlocked")
    assert (plans["interlocked"].sets["Heron"], plans["interlocked"].matched["Heron"]) >= best
    assert plans["interlocked"].sets["Heron"] > 0


def test_a_small_order_comes_matched_from_one_board_with_the_rest_put_back():
    plan = plan_boards([Order("Heron", "black-cherry", 2, (TOTE, KNOB))], RACK, PRACTICE, ("crosscut-first",))[
        "crosscut-first"
    ]
    assert plan.matched == {"Heron": 2} and len(plan.boards) == 1
    assert plan.boards[0].offcuts
    names = {b.name for b in plan.leftovers}
    assert f"{plan.boards[0].board.name}-a" in names and plan.boards[0].board.name not in names
    back = parse_rack(write_rack(plan.leftovers))
    assert sum(b.board_feet for b in back) == pytest.approx(sum(b.board_feet for b in RACK) - plan.used_bf, abs=1e-3)


@pytest.mark.parametrize("plans", [2], indirect=True)
def test_the_same_rack_gives_the_same_plan(plans):
    again = plan_boards([Order("Heron", "black-cherry", 2, (TOTE, KNOB))], RACK, PRACTICE)
    assert [p.as_json() for p in again.values()] == [p.as_json() for p in plans.values()]


def test_woods_are_planned_apart_and_joined():
    orders = [Order("Heron", "black-cherry", 2, (TOTE, KNOB)), Order("Wren", "sugar-maple", 2, (TOTE, KNOB))]
    plan = plan_boards(orders, RACK, PRACTICE, ways=("crosscut-first",))["crosscut-first"]
    assert plan.sets == {"Heron": 2, "Wren": 2}
    assert {b.board.species for b in plan.boards} == {"black-cherry", "sugar-maple"}


def hand_rows(board, blank):
    """What a careful hand layout of one blank in plain rows gives on a clear board."""
    along = int((board.length_mm - 50 + 3.2) // (blank.length_mm + 3.2))
    across = int((board.width_mm - 3.2 + 3.2) // (blank.width_mm + 3.2))
    return along * across


def test_clear_boards_give_no_less_than_rows_laid_by_hand():
    """Step of the stops 0.1 mm, so that rounding takes nothing."""
    fine = WoodPractice(cut_step_mm=0.2)
    blank = Blank("tote", 130.0, 93.0, 27.0, TOTE.outline)
    plans = plan_boards([Order("X", "black-cherry", 500, (blank,))], [RACK[1]], fine, quick=True)
    for way in WAYS:
        assert plans[way].sets["X"] >= hand_rows(RACK[1], blank)
    assert plans["interlocked"].sets["X"] > hand_rows(RACK[1], blank)


def test_a_straight_plan_of_one_kind_is_proven_by_counting():
    """One clear board, squares: the count is known, the bound must meet it and prove it."""
    board = Board("S", "black-cherry", 50.8, 3.2 + 2 * 50 + 3.2, 50 + 5 * 50 + 4 * 3.2, "FAS", 7.0)
    blank = Blank("knob", 50.0, 50.0, 45.0)
    for way in ("crosscut-first", "rip-first"):
        plan = plan_boards([Order("X", "black-cherry", 99, (blank,))], [board], WoodPractice(cut_step_mm=0.1), (way,))[
            way
        ]
        assert plan.sets == {"X": 10}
        assert plan.bound_sets == 10 and plan.proven


@pytest.mark.parametrize(
    ("order", "error", "match"),
    [
        (Order("Heron", "black-cherry", 0, (TOTE, KNOB)), InputError, "1 or more"),
        (Order("Heron", "white-oak", 1, (TOTE, KNOB)), RequestError, "no board of white-oak"),
        (Order("Heron", "black-cherry", 1, (Blank("tote", 130, 300, 27), KNOB)), RequestError, "nearest is board B"),
        (
            Order("Heron", "black-cherry", 1, (Blank("tote", 130, 90, 60), KNOB)),
            RequestError,
            "needs a thickness of 60.0 mm.*thickest is board A, 50.8 mm \\[2.00 in\\], of which 47.6",
        ),
        (Order("Heron", "black-cherry", 1, (Blank("tote", -1, 90, 60), KNOB)), InputError, "more than 0"),
    ],
)
def test_requests_that_cannot_be_met(order, error, match):
    with pytest.raises(error, match=match):
        plan_boards([order], RACK, PRACTICE)


def test_practice_that_cannot_be_sawn_is_refused():
    with pytest.raises(InputError, match="kerf_rip_mm"):
        WoodPractice(kerf_rip_mm=-1)
    with pytest.raises(InputError, match="cut_step_mm"):
        WoodPractice(cut_step_mm=0)


def test_footage_grows_as_grades_fall_and_covers_the_blanks():
    rows = footage([TOTE, KNOB], 12, PRACTICE)
    by_grade = {r.grade: r.needed_bf for r in rows if r.blank == "knob"}
    assert by_grade["FAS"] < by_grade["No1_Common"] < by_grade["No2A_Common"]
    assert all(r.needed_bf > 12 * (TOTE if r.blank == "tote" else KNOB).board_feet for r in rows)
    assert all("board feet of 8/4" in line for line in to_buy([KNOB], "black-cherry", 12, PRACTICE))
