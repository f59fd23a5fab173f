"""The lever cap in the kernel: castings that draw, stock, five parts that meet only where they should."""

from __future__ import annotations

import cadquery as cq
import pytest

from parts.lever_cap import numbers, outline
from parts.lever_cap.cap import cap_casting, cap_finished
from parts.lever_cap.lever import lever_casting, lever_finished
from parts.lever_cap.proof import TOLERANCE_MM3, stock_points
from parts.lever_cap.size import SWING, lever_cap_size
from parts.lever_cap.solid import leaf_spring, lever_turned, on_bed, pivot_rivet, spring_rivet
from shared.cad.cast_proof import least_draft, least_stock, meetings, outside_casting
from shared.cad.solids import common_volume

pytestmark = pytest.mark.kernel


def size(width=50.8, throw=1.4, leaf_thickness=1.0, stock=2.0, draft=1.5, nose=16.0, run=66.0, top=3.7):
    return lever_cap_size(
        blade_width=width,
        nose_at=nose,
        nose_q=top + 1.2,
        plate_top=top,
        screw_at=nose + 0.53 * run,
        screw_shank=6.35,
        screw_head=10.4,
        press_at=nose + run,
        throw=throw,
        spring_thickness=leaf_thickness,
        stock=stock,
        draft=draft,
    )


@pytest.fixture(scope="module")
def cap():
    z = size()
    casting = cap_casting(z)
    return casting, cap_finished(z, casting)


@pytest.fixture(scope="module")
def lever():
    z = size()
    casting = lever_casting(z)
    return casting, lever_finished(z, casting)


@pytest.fixture(scope="module")
def bench(cap, lever):
    """All that meets at the lever cap, shut: its five parts, a plain chipbreaker, the screw and the blade."""
    z = size()
    at, up = cq.Vector(z.screw_at, 0, -3), cq.Vector(0, 0, 1)
    plate = cq.Solid.makeBox(120, 50, z.press_q - 0.5, cq.Vector(20, -25, 0.5))
    hump = cq.Solid.makeCylinder(30.0, 50, cq.Vector(z.nose_at, -25, z.nose_q - 30.0), cq.Vector(0, 1, 0))
    room = cq.Solid.makeBox(26, 50, 20, cq.Vector(4, -25, 0.5))
    bore = cq.Solid.makeCylinder(5.7, 40, at, up)
    (breaker,) = hump.intersect(room).fuse(plate).cut(bore).Solids()
    (blade,) = cq.Solid.makeBox(180, 50, 3, cq.Vector(0, -25, -3)).cut(bore).Solids()
    return {
        "cap": cap[1],
        "lever": lever[1],
        "pivot rivet": pivot_rivet(z),
        "spring rivet": spring_rivet(z),
        "leaf spring": leaf_spring(z),
        "chipbreaker": breaker,
        "shank": cq.Solid.makeCylinder(z.screw_shank / 2, z.head_q + 3, at, up),
        "head": cq.Solid.makeCylinder(z.screw_head / 2, 3.0, cq.Vector(z.screw_at, 0, z.head_q), up),
        "blade": blade,
    }


def test_nothing_shares_volume_and_the_right_things_touch(bench):
    met = meetings(list(bench.items()), within=0.01)
    assert all(m.common <= TOLERANCE_MM3 for m in met), met
    touching = {frozenset((m.first, m.second)) for m in met if m.gap < 1e-6}
    assert touching == {
        frozenset(p)
        for p in (
            ("cap", "lever"),  # the stop
            ("cap", "pivot rivet"),
            ("cap", "spring rivet"),
            ("cap", "leaf spring"),
            ("cap", "chipbreaker"),  # the nose
            ("cap", "shank"),  # the keyhole's end
            ("cap", "head"),
            ("lever", "leaf spring"),  # the cam
            ("leaf spring", "chipbreaker"),
            ("shank", "head"),
        )
    }


def test_nose_presses_on_its_line_across_the_width(bench):
    z = size()
    box = cq.Solid.makeBox(0.4, 60, 0.02, cq.Vector(z.nose_at - 0.2, -30, z.nose_q))
    pressed = common_volume(bench["cap"], box) / (0.4 * 0.02)
    assert pressed == pytest.approx(z.width, abs=0.5)  # but for the broken arrises
    under = cq.Solid.makeBox(140, 60, 0.5, cq.Vector(0, -30, z.nose_q - 0.5))
    assert common_volume(bench["cap"], under) < 1e-6


def test_body_stays_a_millimetre_clear_of_the_hump(bench):
    z = size()
    aft = cq.Solid.makeBox(120, 60, 20, cq.Vector(z.land[1] + 2.0, -30, 0))
    body = bench["cap"].intersect(aft).Solids()[0]
    assert body.distance(bench["chipbreaker"]) >= 1.0


@pytest.mark.parametrize("opened", [0.0, 30.0, 60.0, SWING])
def test_lever_swings_free(bench, opened):
    z = size()
    turned = lever_turned(z, bench["lever"], opened)
    for name in ("cap", "pivot rivet", "leaf spring", "spring rivet"):
        assert common_volume(turned, bench[name]) <= TOLERANCE_MM3, name
    assert turned.distance(bench["leaf spring"]) == pytest.approx(numbers.rise_left(z, opened), abs=1e-4)


def test_keyhole_lets_the_cap_on_and_stops_it(bench):
    z = size()
    for share, lift in ((1.0, 0.0), (1.0, 6.0), (0.5, 0.0), (0.0, 0.0)):
        moved = bench["cap"].moved(cq.Location((share * z.slide, 0, lift)))
        assert common_volume(moved, bench["shank"]) < 1e-6, share
        assert common_volume(moved, bench["head"]) < 1e-6, share
    too_far = bench["cap"].moved(cq.Location((-0.2, 0, 0)))
    assert common_volume(too_far, bench["shank"]) > 0.1
    seated_and_lifted = bench["cap"].moved(cq.Location((0, 0, 1.0)))
    assert common_volume(seated_and_lifted, bench["head"]) > 10.0


def test_castings_draw(cap, lever):
    z = size()
    assert least_draft(cap[0], "z", z.underside_q) >= 1.5 - 1e-6
    assert least_draft(lever[0], "y", 0.0) >= 1.5 - 1e-6


def test_draft_check_sees_an_undercut():
    cone = cq.Solid.makeCone(5.0, 6.0, 10.0)
    assert least_draft(cone, "z", 0.0) < -5.0


def test_finished_lies_in_the_casting_with_stock(cap, lever):
    z = size()
    assert outside_casting(cap[1], cap[0]) < TOLERANCE_MM3
    assert outside_casting(lever[1], lever[0]) < TOLERANCE_MM3
    for name, (point, out) in stock_points(z).items():
        assert least_stock(cap[0], point, out) >= z.nose_stock - 1e-3, name
    cam = (z.cam_center[0], 8.9, z.cam_center[1] - z.cam_radius)  # near the side, where draft has run longest
    assert least_stock(lever[0], cam, (0.0, 0.0, -1.0)) >= z.nose_stock - 1e-3
    stop = (z.tail - 1.0, 0.0, z.stop_q)
    assert least_stock(lever[0], stop, (0.0, 0.0, -1.0)) >= z.nose_stock - 1e-3
    assert least_stock(lever[0], (z.pivot_at, z.lever_width / 2, z.pivot_q), (0.0, 1.0, 0.0)) >= z.nose_stock - 1e-3


@pytest.mark.parametrize(
    "z",
    [size(44, 0.8, 0.6, 1.2, 3.0, 13.0, 70.0, 2.0), size(66, 2.0, 1.6, 3.0, 1.0, 26.0, 60.0, 6.5)],
    ids=["narrow", "wide"],
)
def test_ends_of_the_range(z):
    casting = cap_casting(z)
    assert cap_finished(z, casting).Volume() < casting.Volume()
    assert least_draft(casting, "z", z.underside_q) >= min(z.outside_draft, z.inside_draft) - 1e-6
    if z.throw > 1.0:  # nothing of the lever goes by the blade's width
        assert lever_finished(z, lever_casting(z)).Volume() > 2000


def test_window_cast_or_milled():
    assert outline.window_cast_open(size())
    assert not outline.window_cast_open(size(stock=3.0))


def test_placing_is_rigid(lever):
    placed = on_bed(lever[1], 45.0)
    assert placed.Volume() == pytest.approx(lever[1].Volume(), rel=1e-9)
    a, b = lever[1].Center(), placed.Center()
    assert (b.x, b.z) == pytest.approx(((a.x - a.z) / 2**0.5, (a.x + a.z) / 2**0.5), abs=1e-6)
