"""Small parts by hand: what the wheel does to the cut, how far the yoke swings, how deep threads hold."""

from __future__ import annotations

from functools import lru_cache
from math import atan, degrees, radians, sin, tan
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from parts.hardware.numbers import hardware_numbers, parts_list
from parts.hardware.seating import Setting, blade_turn, wheel_travel, yoke_swing
from parts.plane.bench.design import BenchDesign, design
from parts.plane.bench.seats import seating
from parts.plane.shop import load_shop
from parts.plane.spec import load_spec
from shared.errors import RequestError

SPECS = Path(__file__).parents[2] / "specs"
PLANES = ["heron", "linnet", "crane", "heron-metric"]


@lru_cache
def plane(name: str = "heron") -> BenchDesign:
    return design(load_spec(SPECS / f"{name}.toml"), load_shop(SPECS / "shop.toml"))


def test_depth_per_turn_by_hand() -> None:
    # 28 threads an inch: 0.907143 mm a turn. Upper arm 4.5 + 3.175 + 0.5 + 3.175/2 = 9.7625, lower 21 - 4.5 = 16.5.
    n = hardware_numbers(plane().hardware, seating(plane()))
    assert n.value("depth_lead_mm") == pytest.approx(25.4 / 28)
    assert n.value("depth_ratio") == pytest.approx(9.7625 / 16.5)
    assert n.value("depth_per_turn_mm") == pytest.approx(0.907143 * 0.591667 * 0.707107, abs=1e-6)


def test_backlash_by_hand() -> None:
    # 0.2 mm in the groove and 0.2 mm in the window over the ratio, at 0.907143 mm a turn
    n = hardware_numbers(plane().hardware, seating(plane()))
    assert n.value("depth_backlash_turns") == pytest.approx((0.2 + 0.2 / 0.591667) / 0.907143, abs=1e-5)


@pytest.mark.parametrize("name", PLANES)
def test_every_thread_in_a_casting_holds_a_diameter(name: str) -> None:
    d = plane(name)
    rows = parts_list(d.hardware, seating(d))
    held = {r["name"]: r["engagement_diameters"] for r in rows if r.get("into") in ("body", "frog")}
    assert min(held.values()) >= 1.0
    assert all(r["tap_drill_mm"] < d.mechanism.stations.threads["large"].major for r in rows if "tap_drill_mm" in r)
    assert hardware_numbers(d.hardware, seating(d)).value("least_engagement_diameters") == min(held.values())


def test_the_chipbreakers_thread_counts_without_its_broken_mouths() -> None:
    # 3.175 mm plate less 0.2 mm at either mouth, over 7.9375 mm
    (row,) = (r for r in parts_list(plane().hardware, seating(plane())) if r.get("into") == "chipbreaker")
    assert row["engagement_mm"] == pytest.approx(3.175 - 0.4)
    assert row["engagement_diameters"] == 0.35


def test_list_has_every_solid_once() -> None:
    rows = {r["name"]: r["count"] for r in parts_list(plane().hardware, seating(plane()))}
    assert rows["frog hold-down screw"] == 2
    assert len(rows) == 14
    metric = {r["name"]: r for r in parts_list(plane("heron-metric").hardware, seating(plane("heron-metric")))}
    assert metric["frog hold-down screw"]["thread"] == "M6"
    assert metric["frog hold-down screw"]["tap_drill_mm"] == 5.0


@given(st.floats(-2, 2))
def test_yoke_carries_blade_and_wheel_against_each_other(travel: float) -> None:
    d = plane().hardware
    setting = Setting(blade_travel=travel)
    swing = yoke_swing(d, setting)
    assert d.depth.upper_arm * sin(radians(swing)) == pytest.approx(travel, abs=1e-9)
    assert wheel_travel(d, setting) == pytest.approx(-travel / d.depth.ratio, abs=1e-9)


def test_yoke_does_not_reach_beyond_half_its_arm() -> None:
    with pytest.raises(RequestError, match="more than half of the yoke's upper arm"):
        yoke_swing(plane().hardware, Setting(blade_travel=6.0))


def test_groove_is_wide_enough_for_the_leaning_arm() -> None:
    # at full swing the arm's edge at any radius lies within the groove's flank
    for name in PLANES:
        d = plane(name).hardware.depth
        swing = radians(yoke_swing(plane(name).hardware, Setting(blade_travel=2.0)))
        for radius in (d.fork_inside, 8.0, d.wheel_diameter / 2):
            edge = radius * tan(swing) + d.arm_thickness / 2
            flank = d.groove / 2 + (radius - d.hub_diameter / 2) * tan(radians(d.groove_flank))
            assert edge < flank
        assert d.wheel_thickness - d.wheel_front > d.groove / 2 + 5.5 * tan(radians(d.groove_flank)) + 1.5


def test_lateral_lever_turns_the_blade_less_than_itself() -> None:
    seats = seating(plane())
    v = plane().hardware.lateral
    lever = 8.0
    sideways = (v.roller_at - v.pivot_at) * sin(radians(lever))
    by_hand = degrees(atan(sideways / (v.roller_at - seats.cap_screw_at)))
    assert blade_turn(plane().hardware, seats, Setting(lateral=lever)) == pytest.approx(by_hand, rel=1e-3)
    assert blade_turn(plane().hardware, seats, Setting(lateral=-lever)) < 0
