"""Bought lengths, drills by name, nuts of one size, and the brass a slotted nut keeps."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest

from parts.body.room import ring_reach
from parts.hardware.size import ROD_IN_NUT, ROD_LENGTH_TOL
from parts.plane.design import design
from parts.plane.sheets.bought import nuts, standard_length
from parts.plane.sheets.edge_text import drill_text, edges
from parts.plane.sheets.knob import TURN_TOL
from parts.plane.shop import load_shop
from parts.plane.spec import load_spec
from shared.both_units import force
from shared.drills import drill_name
from shared.threads import METRIC, UNIFIED

SPECS = Path(__file__).parents[2] / "specs"


@lru_cache
def rods_of(name: str) -> list[Any]:
    d = design(load_spec(SPECS / f"{name}.toml"), load_shop(SPECS / "shop.toml"))
    if hasattr(d, "hardware"):
        return [d.hardware.tote_rod, d.hardware.knob_rod]
    return [rod for rod, _ in d.rods.rods]  # type: ignore[attr-defined]


@pytest.mark.parametrize("name", ["linnet", "heron", "heron-metric", "crane", "wren", "wren-long"])
def test_a_nut_keeps_a_millimetre_between_thread_and_slot(name: str) -> None:
    for rod in rods_of(name):
        assert rod.nut_web >= 1.0 - 1e-9
        assert rod.nut_thread + rod.nut_web + rod.nut_slot == pytest.approx(rod.nut_height)


@pytest.mark.parametrize("name", ["linnet", "heron", "heron-metric", "crane", "wren", "wren-long"])
def test_a_rod_within_its_limits_does_not_bottom_in_its_nut(name: str) -> None:
    # knob or crest 0.3 mm low and its counterbore 0.3 mm deep: the nut sits 0.6 mm lower on the rod
    for rod in rods_of(name):
        assert ROD_LENGTH_TOL[0] == 0.0
        assert rod.nut_slack >= max(1.2, 2 * TURN_TOL)
        assert rod.least_in_nut >= 0.6 * rod.thread.major
        assert rod.nut_full_thread - ROD_IN_NUT * rod.nut_height >= 0.55


def test_two_nuts_of_one_size_are_one_part() -> None:
    ((name, alike),) = nuts(rods_of("heron"))
    assert (name, len(alike)) == ("rod nut", 2)


@pytest.mark.parametrize(
    ("mm", "system", "sold"),
    [
        (0.651 * 25.4, "inch", "3/4 in"),
        (0.25 * 25.4, "inch", "1/4 in"),
        (25.4, "inch", "1 in"),
        (1.035 * 25.4, "inch", "1 1/4 in"),
        (16.54, "mm", "20 mm"),
        (12.0, "mm", "12 mm"),
    ],
)
def test_the_next_length_screws_are_sold_in(mm: float, system: str, sold: str) -> None:
    assert standard_length(mm, system) == sold


def test_only_a_drill_of_the_very_size_is_named() -> None:
    # 5/16-18: 0.3125 - 1/18 = 0.2569 in is letter F (0.257); #10-32: 0.1588 in is No. 21 (0.159)
    assert drill_name(UNIFIED["large"].tap_drill, "inch") == "letter F"
    assert drill_name(UNIFIED["small-fine"].tap_drill, "inch") == "No. 21"
    # 1/4-20: 0.200 in is neither No. 7 (0.201) nor No. 8 (0.199)
    assert drill_name(UNIFIED["medium"].tap_drill, "inch") == ""
    assert drill_name(METRIC["medium"].tap_drill, "mm") == "drill 5.0"
    assert drill_name(METRIC["large"].tap_drill, "mm") == ""
    assert drill_text(0.257 * 25.4, "inch") == "0.257 [6.53] (letter F)"


def test_words_in_both_units() -> None:
    assert edges("inch") == "0.008 [0.20] to 0.020 [0.50]"
    assert edges("mm") == "0.20 [0.008] to 0.50 [0.020]"
    assert force(350.0, "inch") == "79 lbf [350 N]"
    assert force(17.0, "mm") == "17 N [3.8 lbf]"


@pytest.mark.parametrize("name", ["linnet", "heron", "heron-metric", "crane", "wren-long"])
def test_a_knob_bears_on_the_plate_outside_the_ring_that_the_hollow_mill_cuts(name: str) -> None:
    d = design(load_spec(SPECS / f"{name}.toml"), load_shop(SPECS / "shop.toml"))
    flat = d.knob.foot_diameter / 2 - d.knob.arris_radius
    # a turned foot may be 0.3 mm small
    assert flat - TURN_TOL / 2 >= ring_reach(d.body, d.body.knob_boss) + 1.0
