"""The body's outline, walls, floor and limits, by arithmetic alone."""

from __future__ import annotations

import math
import subprocess
import sys
from itertools import pairwise
from math import radians, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from parts.body import outline
from parts.body.arch import arch, rim, rim_height
from parts.body.floor import floor, high_pad_raw, low_pad_raw
from parts.body.key import key
from parts.body.limits import check_limits, holes
from parts.body.machined_faces import machined_faces
from parts.body.mass_estimate import casting_volume, finished_volume
from parts.body.pattern import scaled_size
from parts.body.ribs import ribs_of
from parts.body.room import hole_floor, largest_corner_radius
from parts.body.walls import cheek_thickness, envelope, inside_half
from shared.errors import GeometryError
from shared.record import replace
from shared.segments import Arc
from tests.body_samples import jack, random_body

seeds = st.integers(0, 100_000)


@given(seeds)
def test_rim_is_smooth_and_reaches_the_peak(seed: int) -> None:
    size = random_body(seed)
    pieces = rim(size, beyond=5.0)
    for a, b in pairwise(pieces):
        assert math.dist(a.end, b.start) < 1e-6
        (ax, az), (bx, bz) = a.direction(at_end=True), b.direction()
        assert abs(ax * bz - az * bx) < 1e-7 and ax * bx + az * bz > 0
    assert max(s.bounds()[3] for s in pieces) == pytest.approx(size.cheek_height, abs=1e-6)
    assert min(s.bounds()[1] for s in pieces) == pytest.approx(size.rail_height, abs=1e-9)
    assert sum(isinstance(s, Arc) for s in pieces) == 4


@given(seeds, st.floats(0.0, 1.0))
def test_rim_height_lies_on_the_drawn_rim(seed: int, share: float) -> None:
    size = random_body(seed)
    x = size.toe_x + share * size.length
    on_pieces = max(z for s in rim(size) for z in s.crossings(0, x))
    assert rim_height(size, x) == pytest.approx(on_pieces, abs=1e-6)


def test_arch_radii_sum_as_two_touching_arcs_must() -> None:
    a = arch(jack())
    rise = a.height - a.rail
    for run, crown, hollow in (
        (a.peak - a.start, a.toe_crown, a.toe_hollow),
        (a.end - a.peak, a.heel_crown, a.heel_hollow),
    ):
        # centres stand run apart along the body, and crown + hollow apart along the line between them
        assert math.hypot(run, crown + hollow - rise) == pytest.approx(crown + hollow)


def test_a_peak_behind_the_heel_rail_is_refused() -> None:
    with pytest.raises(GeometryError, match="peak must lie"):
        arch(jack(arch_peak=230.0))


def test_cheek_has_its_thickness_half_way_up_and_leans_by_the_draft() -> None:
    size = jack()
    foot, peak = cheek_thickness(size, size.sole), cheek_thickness(size, size.cheek_height)
    assert (foot + peak) / 2 == pytest.approx(size.cheek)
    assert foot - peak == pytest.approx((size.cheek_height - size.sole) * math.tan(math.radians(2.0)))
    assert size.inside_half == inside_half(size, size.sole)


@given(seeds)
def test_outside_keeps_its_stock_from_sole_to_rim(seed: int) -> None:
    size = random_body(seed)
    env = envelope(size)
    for x, y, top, stock in (
        (0.0, size.width / 2, size.cheek_height, size.cast.side),
        (size.toe_x, 0.0, size.rail_height, size.cast.end),
        (size.heel_x, 0.0, size.rail_height, size.cast.end),
    ):
        for share in (0.0, 0.4, 1.0):
            assert -env.outside(x, y, share * top) >= stock - 1e-9
    # a corner of the finished plan lies inside by the lesser stock
    r = size.corner_radius
    reach = r - r / math.sqrt(2)
    corner = (size.toe_x + reach, size.width / 2 - reach)
    assert -env.outside(*corner, size.rail_height) >= min(size.cast.side, size.cast.end) - 1e-9


def test_floor_carries_pads_with_their_stock() -> None:
    size = jack()
    chain = floor(size, 0.0)

    def height(x: float) -> float:
        return max(z for s in chain for z in s.crossings(0, x))

    assert height(size.low_pad.x0 + 6.0) == pytest.approx(low_pad_raw(size)) == size.low_pad.z + size.cast.pad
    assert height(size.high_pad.x1 - 6.0) == pytest.approx(high_pad_raw(size))
    assert height(size.high_pad.x0) >= size.high_pad.z
    assert height(size.toe_x + 1.0) == height(size.heel_x - 1.0) == size.sole


@given(seeds)
def test_random_sizes_are_within_the_limits(seed: int) -> None:
    check_limits(random_body(seed))


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"corner_radius": 9.0}, "corner radius"),
        ({"root_radius": 9.0}, "rail above the plate"),
        ({"cheek": 2.2}, "cheek at its peak"),
        ({"key_half": 9.0}, "high pad is too small"),
        ({"ribs": ((-60.0, 4.5, 11.0),)}, "plate between"),
        ({"ribs": ((-22.0, 4.5, 50.0),)}, "rim above the rib|plate between"),
        ({"mouth_half_width": 31.0}, "beside the mouth"),
    ],
)
def test_what_cannot_be_built_is_refused_by_arithmetic(change: dict[str, object], why: str) -> None:
    with pytest.raises(GeometryError, match=why):
        size = jack(**change)
        check_limits(size)
        key(size)


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"parting_z": 40.0}, "parting plane must lie"),
        ({"parting_z": -5.0}, "parting plane must lie"),
        ({"pad": 0.5}, "stock on the pads"),
        ({"edge_radius": 2.6}, "cheek at its peak|stock on the cheeks"),
    ],
)
def test_castings_that_cannot_be_made_are_refused(change: dict[str, float], why: str) -> None:
    size = jack()
    with pytest.raises(GeometryError, match=why):
        check_limits(replace(size, cast=replace(size.cast, **change)))


def test_holes_that_break_the_sole_are_refused() -> None:
    size = jack()
    deep = replace(size.knob_boss.hole, depth=size.knob_boss.z_top)
    with pytest.raises(GeometryError, match="metal under the hole"):
        check_limits(replace(size, knob_boss=replace(size.knob_boss, hole=deep)))
    assert min(hole_floor(h) for h in holes(size)) >= 2.5
    leaning = size.tote_boss.hole
    low_side = leaning.z_top - leaning.depth * math.cos(math.radians(12)) - 2.54 * math.sin(math.radians(12))
    assert hole_floor(leaning) == pytest.approx(low_side)


def test_corner_limit_keeps_enough_metal_at_the_tip() -> None:
    size = jack()
    r = largest_corner_radius(size)
    wall, centre = inside_half(size, size.rail_height), size.width / 2 - r
    assert math.degrees(math.acos((wall - centre) / r)) == pytest.approx(73.0)


def test_ribs_stop_short_of_the_cheeks_roots() -> None:
    size = jack()
    for rib in ribs_of(size):
        assert rib.half_long + rib.root + size.root_radius < inside_half(size, size.sole)


def test_drawn_outlines_have_the_finished_sizes() -> None:
    size = jack()
    assert outline.plan_outline(size).bounds == pytest.approx((size.toe_x, -31.75, size.heel_x, 31.75))
    r = size.corner_radius
    assert outline.plan_outline(size).area == pytest.approx(355.6 * 63.5 - (4 - math.pi) * r * r)
    assert outline.side_outline(size).bounds == pytest.approx((size.toe_x, 0.0, size.heel_x, 52.4))
    front, aft = outline.mouth_at(size, 0.0)
    assert -front == size.mouth_opening and aft == size.wall_foot_x
    assert outline.mouth_outline(size).bounds == pytest.approx(
        (front, -size.mouth_half_width, aft, size.mouth_half_width)
    )
    # the aft wall rises at the bed angle to the low pad, the front wall leans away from it
    assert outline.mouth_at(size, size.low_pad.z)[1] == pytest.approx(size.low_pad.x0)
    assert outline.mouth_at(size, size.sole)[0] == pytest.approx(-0.38 - 6.35 / math.tan(math.radians(75)))


def test_views_draw_true_arcs_only() -> None:
    size = jack()
    plan, side = outline.plan_view(size), outline.side_view(size)
    assert {p.name for p in plan.outlines} >= {"body plan", "mouth", "low pad", "high pad", "frog key", "boss"}
    holes_drawn = [p for p in plan.outlines if p.name == "tapped hole"]
    assert len(holes_drawn) == 5
    assert side.outlines[0].name == "body side" and set(side.more) == {"HIDDEN", "CENTRE"}


def test_every_machined_face_has_at_least_the_required_stock_asked() -> None:
    size = jack()
    faces = machined_faces(size)
    assert len({f.name for f in faces}) == len(faces)
    assert all(f.stock >= size.cast.required for f in faces)
    assert {"sole", "left cheek", "right cheek", "toe", "heel", "low pad", "high pad", "knob boss"} <= {
        f.name for f in faces
    }


def test_volume_of_a_plain_trough_is_that_of_a_prism() -> None:
    # by hand: plate and cheeks of a jack are about 350 x 63.5 x 6.35 and two cheeks of 0.5 x 350 x 30 x 4
    assert 1.9e5 < finished_volume(jack()) < 2.6e5
    assert casting_volume(jack()) > 1.4 * finished_volume(jack())


def test_scaled_sizes_keep_proportions_and_angles() -> None:
    size = jack()
    big = scaled_size(size, 1.01, 1.01, 1.01)
    assert big.length == pytest.approx(1.01 * size.length) and big.low_pad.z == pytest.approx(1.01 * size.low_pad.z)
    assert big.cast.draft_inside == pytest.approx(size.cast.draft_inside)
    assert big.cast.parting_z == 1.01 * size.cast.parting_z
    assert inside_half(big, 1.01 * 20) == pytest.approx(1.01 * inside_half(size, 20))
    assert rim_height(big, 1.01 * 40) == pytest.approx(1.01 * rim_height(size, 40))
    long = scaled_size(size, 1.02, 1.0, 1.0)
    assert long.length == pytest.approx(1.02 * size.length) and long.width == size.width and long.sole == size.sole
    tall = scaled_size(size, 1.0, 1.0, 1.02)
    # a wall 2 % taller keeps its lean: the angle is a little less
    assert tan(radians(tall.cast.draft_outside)) * 1.02 == pytest.approx(tan(radians(size.cast.draft_outside)))
    assert inside_half(tall, 1.02 * 20) == pytest.approx(inside_half(size, 20))


def test_numbers_path_does_not_load_the_kernel() -> None:
    code = (
        "import sys, parts.body.outline, parts.body.machined_faces, parts.body.mass_estimate, parts.body.limits;"
        "sys.exit(any(m in sys.modules for m in ('cadquery', 'OCP', 'vtk', 'matplotlib')))"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
