"""The small parts in the kernel: nothing shares metal at any setting, and each thread fits its hole."""

from __future__ import annotations

from functools import lru_cache
from itertools import combinations
from pathlib import Path

import cadquery as cq
import pytest

from parts.blade.solid import solid as blade_solid
from parts.frog.solid import solids as frog_solids
from parts.hardware.adjusters import depth_adjuster, lateral_adjuster, slope
from parts.hardware.seating import NOMINAL, Setting, wheel_travel
from parts.hardware.solid import hardware_solids, moved_with_blade
from parts.hardware.turned import washer
from parts.plane.bench.design import BenchDesign, design
from parts.plane.bench.seats import seating
from parts.plane.shop import load_shop
from parts.plane.spec import load_spec
from shared.cad.slope import cylinder, drilled
from shared.cad.solids import common_volume
from shared.profile import Profile

pytestmark = pytest.mark.kernel
SPECS = Path(__file__).parents[2] / "specs"
TOUCH = 1e-3  # mm3
TIPPED = [Setting(2.0, 5.0), Setting(-2.0, -5.0)]


@lru_cache
def plane() -> BenchDesign:
    return design(load_spec(SPECS / "heron.toml"), load_shop(SPECS / "shop.toml"))


@lru_cache
def fixed() -> dict[str, cq.Solid]:
    m = plane().mechanism
    return {"frog": frog_solids(m.frog).finished, "blade": blade_solid(m.blade, m.frog.bed_angle)}


@lru_cache
def small(setting: Setting = NOMINAL) -> dict[str, cq.Solid]:
    d, seats = plane(), seating(plane())
    if setting == NOMINAL:
        return dict(hardware_solids(d.hardware, seats))
    moving = [*depth_adjuster(d.hardware, seats, setting), *lateral_adjuster(d.hardware, seats, setting)]
    still = {k: v for k, v in small().items() if k == "lever-cap screw"}
    screw = moved_with_blade(small()["chipbreaker screw"], d.hardware, seats, setting)
    return {**still, "chipbreaker screw": screw, **dict(moving)}


def shared_metal(parts: dict[str, cq.Solid]) -> dict[tuple[str, str], float]:
    found = {(a, b): common_volume(parts[a], parts[b]) for a, b in combinations(parts, 2)}
    return {pair: round(v, 4) for pair, v in found.items() if v > TOUCH}


def test_names_differ_and_are_plain() -> None:
    names = [n for n, _ in hardware_solids(plane().hardware, seating(plane()))]
    assert len(set(names)) == len(names) == 19
    assert all(n.isascii() for n in names)


def test_nothing_interferes_at_the_nominal_place() -> None:
    assert shared_metal({**fixed(), **small()}) == {}


@pytest.mark.parametrize("setting", TIPPED)
def test_nothing_interferes_at_the_ends_of_the_adjusters(setting: Setting) -> None:
    blade = moved_with_blade(fixed()["blade"], plane().hardware, seating(plane()), setting)
    assert shared_metal({"frog": fixed()["frog"], "blade": blade, **small(setting)}) == {}


@pytest.mark.parametrize("setting", [NOMINAL, *TIPPED])
def test_yoke_holds_wheel_and_chipbreaker_with_little_play(setting: Setting) -> None:
    d, at = plane(), slope(seating(plane()))
    yoke, wheel = small(setting)["yoke"], small(setting)["depth wheel"]
    breaker = d.mechanism.chipbreaker
    length, width = breaker.yoke_window
    s, low = breaker.yoke_at, -(d.mechanism.blade.thickness + breaker.gap)
    plate = at.push_down(Profile.rectangle(s - 20, -15, s + 20, 15), low - breaker.thickness, low)
    hole = at.push_down(Profile.rectangle(s - length / 2, -width / 2, s + length / 2, width / 2), low - 20, 0.0)
    window = moved_with_blade(plate.cut(hole).Solids()[0], d.hardware, seating(d), setting)
    assert common_volume(yoke, wheel) < TOUCH
    assert common_volume(yoke, window) < TOUCH
    for way in (0.25, -0.25):  # more than the whole play of 0.2 mm
        push = cq.Vector(*at.up) * way
        assert common_volume(yoke, wheel.translate(push)) > 0.01
        assert common_volume(yoke, window.translate(push)) > 0.01


def test_blade_and_wheel_move_as_the_setting_says() -> None:
    d, seats, at = plane(), seating(plane()), slope(seating(plane()))
    up = cq.Vector(*at.up)
    setting = Setting(blade_travel=2.0)
    blade = moved_with_blade(fixed()["blade"], d.hardware, seats, setting)
    assert (blade.Center() - fixed()["blade"].Center()).dot(up) == pytest.approx(2.0, abs=1e-6)
    moved = small(TIPPED[0])["depth wheel"].Center() - small()["depth wheel"].Center()
    assert moved.dot(up) == pytest.approx(wheel_travel(d.hardware, setting), abs=1e-6)
    # arms of 9.7625 and 16.5 mm by hand: 2 x 16.5 / 9.7625
    assert moved.dot(up) == pytest.approx(-2.0 * 16.5 / 9.7625, abs=1e-6)
    right = moved_with_blade(fixed()["blade"], d.hardware, seats, Setting(lateral=5.0))
    assert right.Center().y - fixed()["blade"].Center().y > 0.2


def test_threads_fit_the_tap_drill_and_no_smaller_hole() -> None:
    d, seats = plane(), seating(plane())
    thread = d.mechanism.holddown.thread
    screw = small()["frog hold-down screw right"]
    x, y = seats.holddown[0]
    block = cylinder((x, y, seats.holddown_pad_z - 12.0), (0.0, 0.0, 1.0), 20.0, 12.0)
    mouth = (x, y, seats.holddown_pad_z)

    def tapped(drill: float) -> cq.Shape:
        return block.cut(drilled(mouth, (0.0, 0.0, -1.0), drill, 10.0))

    assert common_volume(screw, tapped(thread.tap_drill)) < TOUCH
    # a ring 0.1 mm thick over the 7.94 mm in the hole, less the tip's chamfer
    assert common_volume(screw, tapped(thread.tap_drill - 0.2)) == pytest.approx(12.4, abs=1.2)


def test_washer_is_a_ring_of_its_sizes() -> None:
    part = plane().hardware.holddown
    outer, inner = part.washer_diameter, part.thread.major + 0.6
    expected = 3.14159265 / 4 * (outer**2 - inner**2) * part.washer_thickness
    assert washer(part, (0.0, 0.0, 0.0)).Volume() == pytest.approx(expected, rel=1e-6)
