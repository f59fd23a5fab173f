"""What the sawyer is told: nothing short at the table saw, thickness before outlines, sizes in the plane's own unit."""

import csv
import dataclasses
import io
import re
from pathlib import Path

import pytest

from parts.commands.load import load_design
from parts.handle.blanks import Blank, WoodPractice
from parts.handle.cutplan.jobs import jobs
from parts.handle.cutplan.model import BoardPlan, Order, Placement, SawCut
from parts.handle.cutplan.plan import plan_boards
from parts.handle.cutplan.words import footage, length
from parts.handle.rack import Board
from parts.plane.handle_blanks import best_way, blanks_of, plan_title, rack_plan, rack_plan_csv, rack_plan_text
from tests.unit.test_cutplan_bounds import KNOB, MIXED, TOTE

SPECS = Path(__file__).parents[2] / "specs"
PRACTICE = WoodPractice(cut_step_mm=1.0)
BLANKS = {("X", "tote"): TOTE, ("X", "knob"): KNOB}
BOARD = Board("A", "black-cherry", 50.8, 150.0, 1200.0, "FAS", 7.0)


@pytest.fixture(scope="module", params=["wren", "linnet", "heron-metric"])
def demo(request):
    d = load_design(SPECS / f"{request.param}.toml", None)
    return d, rack_plan(d, 10, SPECS / "rack.csv", ("crosscut-first", "rip-first"))


def numbers(text: str) -> range:
    low, _, high = text.partition(" to ")
    return range(int(low), int(high or low) + 1)


def test_no_short_piece_is_ripped_at_the_table_saw(demo):
    d, plans = demo
    least = d.shop.wood_practice().least_machine_mm
    for plan in plans.values():
        for b in plan.boards:
            told = jobs(b, blanks_of(plan), d.shop.wood_practice(), d.spec.units)
            by_cut = {n: j.text for j in told if j.cuts for n in numbers(j.cuts)}
            assert sorted(by_cut) == list(range(1, len(b.cuts) + 1))
            for n, c in enumerate(b.cuts, 1):
                if c.kind == "rip" and c.x1 - c.x0 < least:
                    assert by_cut[n].startswith("rip at the bandsaw, not at the table saw")


def test_sections_alike_are_ripped_in_one_piece_and_no_rip_runs_along_the_edge(demo):
    d, plans = demo
    half = d.shop.wood_practice().kerf_rip_mm / 2
    for plan in plans.values():
        for b in plan.boards:
            rips = [c for c in b.cuts if c.kind == "rip"]
            assert min(c.y0 for c in rips) > half  # the edge itself is jointed
    if d.spec.plane.name == "Wren":
        (board,) = plans["crosscut-first"].boards
        spans = {(c.x0, c.x1) for c in board.cuts if c.kind == "rip"}
        assert len(spans) == 1  # two sections a knob long stay together until they are ripped
        first, last = min(p.x for p in board.placements), max(p.x + p.dx for p in board.placements)
        assert next(iter(spans)) == pytest.approx((first, last), abs=0.5)


@pytest.mark.parametrize("way", ["crosscut-first", "rip-first"])
def test_strips_are_planed_before_they_are_cut_to_length(way):
    plan = plan_boards([Order("X", "black-cherry", 4, (TOTE, KNOB))], MIXED, PRACTICE, (way,))[way]
    for b in plan.boards:
        told = [j.text for j in jobs(b, BLANKS, PRACTICE, "mm")]
        planing = next(n for n, t in enumerate(told) if t.startswith("plane to thickness"))
        lengths = [n for n, t in enumerate(told) if t.startswith("cut to length")]
        assert all(n > planing for n in lengths)
        thick = max(BLANKS["X", p.piece].thickness_mm for p in b.placements)
        assert length(thick, "mm") in told[planing]


def nested(section_mm: float, board: Board = BOARD) -> list[str]:
    """Return the jobs of a board with a knob and a tote laid in a section so long [mm]."""
    end = 23.4 + section_mm
    cuts = (SawCut("crosscut", 23.4, 0.0, 23.4, 150.0), SawCut("crosscut", end, 0.0, end, 150.0))
    outline = tuple((x + 25.0, y + 3.0) for x, y in TOTE.outline)
    far = Placement("X", "tote", section_mm - 97.0, 3.0, 97.0, 60.0, outline=outline)
    laid = (Placement("X", "tote", 26.5, 4.5, 94.0, 57.0, outline=outline), far,
            Placement("X", "knob", 26.0, 70.0, 48.0, 40.0))  # fmt: skip
    return [j.text for j in jobs(BoardPlan(board, "interlocked", laid, cuts, (), 0.0), BLANKS, PRACTICE, "mm")]


def test_an_interlocked_section_comes_to_thickness_before_its_outlines_are_sawn():
    told = nested(500.0)
    starts = [t.replace(",", " ").split()[0] for t in told]
    assert starts == ["crosscut", "plane", "lay", "bandsaw", "plane", "lay", "bandsaw"]
    assert "40.0 mm" in told[1] and "27.0 mm" in told[4] and "totes" in told[4]
    # a knob's blank is drawn with its allowance, a tote's outline is net
    assert "outside the line" not in told[3] and "1.50 mm" in told[6] and "outside the line" in told[6]
    as_thick = nested(500.0, dataclasses.replace(BOARD, thickness_mm=40.2))
    starts = [t.replace(",", " ").split()[0] for t in as_thick]
    assert starts == ["crosscut", "lay", "bandsaw", "plane", "lay", "bandsaw"]


def test_a_short_interlocked_section_stays_on_the_board_until_its_pieces_are_sawn():
    told = nested(140.0)
    assert "stays on the board" in told[0] and told[-1].startswith("crosscut the board clean behind the pieces")
    assert not any(t.startswith("plane") for t in told)
    assert sum("too short for the planer" in t for t in told) == 2


def test_the_plan_in_words_leads_with_the_planes_unit(demo):
    d, plans = demo
    text = rack_plan_text(d, plans)
    board = next(line for line in text.splitlines() if line.startswith("  board "))
    inch = d.spec.units == "inch"
    assert ("in [" in board) is inch and ("mm [" in board) is not inch
    assert "optimal" not in text and "american-beech" not in text and "black-cherry" not in text
    assert plan_title(d, 1).title.endswith("1 handle set") and plan_title(d, 10).paper == ("A" if inch else "A4")


def test_the_plan_in_words_and_its_table_name_every_piece_as_the_steps_do(demo):
    d, plans = demo
    text, rows = rack_plan_text(d, plans), list(csv.DictReader(io.StringIO(rack_plan_csv(plans))))
    best = plans[best_way(plans)]
    for b in best.boards:
        mine = [r for r in rows if (r["way"], r["board"]) == (best.way, b.board.name)]
        assert len({r["mark"] for r in mine}) == len(b.placements)
        for r in mine:
            assert re.search(rf"^ +{r['mark']} +{r['piece']} +along ", text, re.M), r
    for name, count in best.spares.items():
        assert re.search(rf"^spare pieces, for stock: .*\b{count} {name}", text, re.M)
    assert ("spare pieces" in text) == bool(best.spares)


def test_footage_leads_with_the_planes_unit():
    """A board foot is 144 cubic inches: 2.360 dm³."""
    assert footage(1.0, "inch") == "1.00 board feet" and footage(1.0, "mm") == "2.36 dm³ [1.00 board feet]"


def test_a_blank_without_an_outline_is_told_by_its_kerf():
    only = Blank("knob", 48.0, 40.0, 40.0)
    cuts = (SawCut("crosscut", 23.4, 0.0, 23.4, 150.0), SawCut("crosscut", 423.0, 0.0, 423.0, 150.0))
    plan = BoardPlan(BOARD, "interlocked", (Placement("X", "knob", 26.0, 70.0, 48.0, 40.0),), cuts, (), 0.0)
    told = jobs(plan, {("X", "knob"): only}, PRACTICE, "inch")
    assert told[0].cuts == "1 to 2" and "middle of the gap" in told[-1].text and "0.03 in [0.8 mm]" in told[-1].text
