"""What a cut plan says beside its cuts: moisture, marks, short boards, and the unit its leftovers are kept in."""

import dataclasses
import json
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from parts.commands import blanks
from parts.commands.load import load_design
from parts.handle.cutplan.jobs import jobs
from parts.handle.cutplan.model import WAYS, BoardPlan, Offcut, Order, Placement, SawCut
from parts.handle.rack import Board, parse_rack, rack_unit, read_rack, write_rack
from parts.plane.cut_plan_pages import board_page, plan_page
from parts.plane.handle_blanks import (
    MARK_FIRST,
    best_way,
    moisture_lines,
    off_moisture,
    plan_title,
    rack_plan,
    rack_plan_text,
)
from parts.plane.numbers import plane_numbers
from parts.plane.sheets import handle
from shared.errors import InputError
from tests.unit.test_cutplan_held import BOX, RING, tote
from tests.unit.test_cutplan_jobs import BLANKS, PRACTICE

SPECS = Path(__file__).parents[2] / "specs"
HEAD = "board,species,thickness_in,width_in,length_in,grade,moisture_percent,defects_in\n"


@pytest.fixture(scope="module")
def wet(tmp_path_factory):
    rack = tmp_path_factory.mktemp("rack") / "rack.csv"
    rack.write_text(HEAD + "W,black-cherry,2,8,60,FAS,19,\nD,black-cherry,2,8,48,FAS,7,\n", encoding="utf-8")
    d = load_design(SPECS / "heron.toml", None)
    return d, rack_plan(d, 30, rack, ("crosscut-first",))


def test_a_board_off_the_shops_moisture_is_named_before_it_is_sawn(wet):
    """The shop of the demo settles wood at 8.5 %: a board of 19 % waits, one of 7 % is within 2 % points."""
    d, plans = wet
    plan, heading = plans["crosscut-first"], plan_title(d, 30)
    assert {b.board.name for b in plan.boards} == {"W", "D"}
    assert [b.name for b in off_moisture(plan, heading.shop_moisture_percent)] == ["W"]
    (line,) = moisture_lines(plan, heading.shop_moisture_percent)
    assert line == "board W reads 19 % moisture: let it come to 8.5 ± 2 % before it is sawn"
    assert f"moisture: {line}\n" in rack_plan_text(d, plans)
    page = " ".join(t.get_text() for t in plan_page(plan, heading, "page 1 of 1").texts)
    assert line in page and "lines more" not in page


@pytest.mark.parametrize(("reads", "off"), [(6.4, True), (6.5, False), (10.5, False), (10.6, True)])
def test_two_points_either_way_are_near_enough(wet, reads, off):
    plan = wet[1]["crosscut-first"]
    boards = tuple(
        dataclasses.replace(b, board=dataclasses.replace(b.board, moisture_percent=reads)) for b in plan.boards
    )
    assert bool(off_moisture(dataclasses.replace(plan, boards=boards), 8.46)) is off


def test_marks_are_carried_over_where_strips_are_planed(wet):
    d, plans = wet
    text = rack_plan_text(d, plans)
    assert f"before the first cut: {MARK_FIRST}\n" in text
    planed = [line for line in text.splitlines() if "plane to thickness, before the strips" in line]
    assert planed and all("carry each over to the strip's edge before, and square it across again" in p for p in planed)
    page = " ".join(t.get_text() for t in plan_page(plans[best_way(plans)], plan_title(d, 30), "page 1 of 1").texts)
    assert MARK_FIRST in page


@pytest.mark.parametrize("far", [600.0, 3000.0])
def test_all_steps_of_a_board_stand_on_its_page(wet, far):
    """An interlocked board with an enclosed knob has the most to say; a section as wide as the page shows it tall."""
    d, plans = wet
    laid = (*RING, Placement("X", "knob", 100.0, 60.0, 48.0, 40.0), tote(far - 100.0, 60.0, 88.0, 47.0))
    cuts = tuple(SawCut("crosscut", x, 0.0, x, 254.0) for x in (23.4, far))
    one = Board("A", "black-cherry", 50.8, 254.0, far + 500.0, "FAS", 7.0)
    made = BoardPlan(one, "interlocked", laid, cuts, (Offcut(far, 0.0, 500.0, 254.0),), 0.0)
    order = Order("X", "black-cherry", 1, tuple(BOX.values()))
    whole = dataclasses.replace(plans["crosscut-first"], boards=(made,), orders=(order,))
    figure = board_page(made, whole, plan_title(d, 1), "page 1 of 1", {})
    said = " ".join(t.get_text() for t in figure.texts)
    assert "lines more" not in said and said.count("lay the full-size print") == 2
    figure.set_dpi(100)
    across = max(t.get_window_extent().x1 for t in figure.texts) / (100 * figure.get_size_inches()[0])
    assert across <= 0.96


def told(length: float) -> list[str]:
    one = Board("S", "black-cherry", 50.8, 203.2, length, "FAS", 7.0)
    laid = (Placement("X", "tote", 25.0, 1.6, 97.0, 60.0), Placement("X", "knob", 25.0, 64.8, 48.0, 40.0))
    cuts = (
        *(SawCut("rip", 0.0, y, length, y) for y in (63.2, 106.4)),
        *(SawCut("crosscut", x, 1.6, x, 61.6) for x in (23.4, 123.6)),
        *(SawCut("crosscut", x, 64.8, x, 104.8) for x in (23.4, 74.6)),
    )
    return [j.text for j in jobs(BoardPlan(one, "rip-first", laid, cuts, (), 0.0), BLANKS, PRACTICE, "mm")]


@pytest.mark.parametrize(("length", "short"), [(203.2, True), (299.0, True), (300.0, False), (1200.0, False)])
def test_a_board_shorter_than_goes_through_machines_is_ripped_and_planed_without_them(length, short):
    lower, rip, planing, *_ = told(length)
    assert lower.startswith("plane the lower edge straight by hand, not at the jointer") is short
    assert lower.startswith("joint the lower edge") is not short
    assert rip.startswith("rip at the bandsaw, not at the table saw: under 300 mm [12 in] long") is short
    assert rip.startswith("rip the board, ") is not short
    assert ("too short for the planer: by hand" in planing) is short


def test_a_short_board_is_clamped_where_it_is_crosscut():
    one = Board("S", "black-cherry", 50.8, 100.0, 203.2, "FAS", 7.0)
    cuts = (SawCut("crosscut", 23.4, 0.0, 23.4, 100.0), SawCut("rip", 25.0, 63.2, 122.0, 63.2),
            SawCut("crosscut", 123.6, 0.0, 123.6, 100.0))  # fmt: skip
    for length, clamped in ((203.2, True), (900.0, False)):
        plan = BoardPlan(dataclasses.replace(one, length_mm=length), "crosscut-first",
                         (Placement("X", "tote", 25.0, 1.6, 97.0, 60.0),), cuts, (), 0.0)  # fmt: skip
        cut = next(j.text for j in jobs(plan, BLANKS, PRACTICE, "mm") if j.text.startswith("crosscut the board"))
        assert cut.startswith("crosscut the board, clamped on the crosscut sled") is clamped


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_a_rack_knows_the_unit_it_is_kept_in(tmp_path, unit):
    path = tmp_path / "rack.csv"
    path.write_text(write_rack(read_rack(SPECS / "rack.csv"), "a rack", unit), encoding="utf-8")
    assert rack_unit(path) == unit
    assert f"length_{unit}" in write_rack(parse_rack(path.read_text(encoding="utf-8")), "", rack_unit(path))


def test_a_mixed_rack_goes_by_its_lengths_and_a_broken_one_is_refused(tmp_path):
    path = tmp_path / "rack.csv"
    path.write_text(HEAD.replace("length_in", "length_mm"), encoding="utf-8")
    assert rack_unit(path) == "mm"
    path.write_text(HEAD.replace("length_in", "length"), encoding="utf-8")
    with pytest.raises(InputError, match="length"):
        rack_unit(path)


def test_the_command_keeps_the_racks_unit_and_tells_moisture_as_data(tmp_path, capsys, monkeypatch):
    straight = WAYS[:2]  # interlocked plans take their time and say the same
    monkeypatch.setattr(blanks, "rack_plan", lambda d, n, rack, quick: rack_plan(d, n, rack, straight, quick))
    rack, left = tmp_path / "rack.csv", tmp_path / "left.csv"
    rack.write_text(
        HEAD.replace("_in", "_mm") + "W,black-cherry,50,150,400,FAS,13,\nD,black-cherry,20,100,700,FAS,7,\n",
        encoding="utf-8",
    )
    blanks.run_blanks(SPECS / "heron.toml", 1, rack, left, None, True, None)
    told = json.loads(capsys.readouterr().out)
    said = {"board": "W", "moisture_percent": 13.0, "shop_moisture_percent": 8.5, "may_differ_percent": 2.0}
    assert told["off_moisture"] == {way: [said] for way in straight}
    lines = left.read_text(encoding="utf-8").splitlines()
    assert "length_mm" in lines[1] and any(line.startswith("D,black-cherry,20,100,700,") for line in lines)


def test_the_tote_sheet_bores_from_the_blank_and_from_a_sawn_outline():
    d = load_design(SPECS / "heron.toml", None)
    run: Any = SimpleNamespace(design=d, numbers=plane_numbers(d))
    (bores,) = (n for n in handle._notes(run, d.tote) if "Bores before carving" in n)
    assert "square blank before its outline is sawn" in bores and "cradle of the offcut" in bores
