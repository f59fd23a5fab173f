"""The frog's outlines and numbers against hand-worked values and plain geometry."""

from __future__ import annotations

from functools import lru_cache
from math import cos, radians, sin
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from parts.frog.numbers import frog_numbers
from parts.frog.outline import cast_offset, casting_outline, crown, mixed_corner, opening_to_hollow, pocket_outline
from parts.frog.size import FrogSize
from parts.plane.bench.mechanism import FrogStock, mechanism
from parts.plane.bench.spec import BenchSpec
from parts.plane.spec import load_spec
from shared.profile import Profile
from shared.record import replace

HERON = Path(__file__).parents[2] / "specs" / "heron.toml"


@lru_cache
def spec() -> BenchSpec:
    return load_spec(HERON).spec


def frog(
    width: float = 50.8, bed: float = 45.0, thickness: float = 3.175, sole: float = 6.35, draft: float = 1.5
) -> FrogSize:
    s = spec()
    changed = s.model_copy(
        update={
            "bed": s.bed.model_copy(update={"angle": bed}),
            "blade": s.blade.model_copy(update={"width": width, "thickness": thickness}),
            "body": s.body.model_copy(update={"sole_thickness": sole}),
        }
    )
    return mechanism(changed, FrogStock(1.7, 0.7, 1.5, draft, 3.0, 2.0, 12.0)).frog


SIZES = st.builds(
    frog,
    width=st.floats(44, 66),
    bed=st.floats(40, 58),
    thickness=st.floats(2.5, 4.8),
    sole=st.floats(5.5, 9),
    draft=st.floats(0.75, 3),
)


def _depth(size: FrogSize, p: tuple[float, float]) -> tuple[float, float]:
    """Return (s, h) of a side-view point."""
    b = radians(size.bed_angle)
    return p[0] * cos(b) + p[1] * sin(b), p[0] * sin(b) - p[1] * cos(b) - size.blade_thickness


def test_bed_numbers_by_hand() -> None:
    # at 45 deg: foot of the bed where its plane meets z = 6.35 + 1.5; s = (7.85 + 3.175 cos 45) / sin 45 = 14.2766
    size = frog()
    n = frog_numbers(size)
    assert size.bed_foot == pytest.approx(14.2766, abs=1e-4)
    assert n.value("bed_length_mm") == pytest.approx(size.bed_top - 14.2766, abs=1e-4)
    assert n.value("bed_width_mm") == pytest.approx(50.8 - 3.0)
    assert n.value("bed_low_land_mm") + n.value("bed_high_land_mm") < n.value("bed_length_mm")
    # 11 = 2 x 2 mm travel + 7.0 mm clearance hole of a 1/4 in screw
    assert n.value("holddown_slot_length_mm") == pytest.approx(11.0)


def test_side_area_by_shoelace() -> None:
    size = frog()
    p = size.outline()
    shoelace = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(p, [*p[1:], p[0]], strict=True)) / 2
    assert frog_numbers(size).value("side_area_mm2") == pytest.approx(shoelace)


@given(SIZES)
def test_casting_outline_holds_the_finished_one_with_its_stock(size: FrogSize) -> None:
    outline = casting_outline(size)
    foot, toe, _, aft_low, aft_high, *_, top = size.outline()
    # middles of the machined sides: the stock and the crown stand outside them
    for a, b in ((foot, toe), (size.outline()[2], aft_low), (top, foot)):
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        assert outline.contains(middle)
        assert outline.distance(middle) == pytest.approx(size.stock + crown(size), abs=1e-6)
    # as-cast sides have their nominal place at the parting plane
    assert outline.distance(((aft_low[0] + aft_high[0]) / 2, (aft_low[1] + aft_high[1]) / 2)) < 1e-6
    assert size.stock - mixed_corner(size) >= size.required
    assert cast_offset(size, "underside") == 0.0


@given(SIZES)
def test_pocket_keeps_its_walls(size: FrogSize) -> None:
    pocket = pocket_outline(size)
    if pocket is None:
        return
    for p in pocket.polyline(0.05):
        s, h = _depth(size, p)
        assert h >= size.bed_wall - 1e-6
        assert s <= size.rear_at - size.rear_wall + 1e-6
        assert p[1] >= size.high_z + size.floor + size.stock - 1e-6
        assert p[0] <= size.aft - size.rear_wall + 1e-6


def test_usual_frogs_have_pockets_and_tight_ones_do_not() -> None:
    assert pocket_outline(frog()) is not None
    assert pocket_outline(replace(frog(), root_radius=8.0)) is None
    assert frog_numbers(replace(frog(), root_radius=2.0)).value("side_pocket_area_mm2") > frog_numbers(frog()).value(
        "side_pocket_area_mm2"
    )


def test_pocket_of_a_plain_triangle_by_hand() -> None:
    # at 45 deg the walls leave a right isosceles triangle on its long side; round corners take (cot(a/2) - (pi-a)/2) r2
    size = replace(frog(), half_width=20.0, web_half=20.0, draft=0.0, root_radius=1.0)
    pocket = pocket_outline(size)
    assert pocket is not None
    z = size.high_z + size.floor + size.stock
    root2 = 2**0.5
    left = z + (size.blade_thickness + size.bed_wall) * root2  # x where h = bed wall meets the floor
    right = (size.rear_at - size.rear_wall) * root2 - z  # x where s = rear limit meets it
    sharp = (right - left) ** 2 / 4
    corners = (1 - 3.14159265 / 4) + 2 * (2.41421356 - 3 * 3.14159265 / 8)
    assert pocket.area == pytest.approx(sharp - corners, abs=1e-6)


@given(SIZES)
def test_post_hole_stays_clear_of_the_way_and_openings_of_the_side(size: FrogSize) -> None:
    n = frog_numbers(size)
    assert n.value("post_hole_to_way_mm") >= 1.5 - 1e-9
    assert n.value("holddown_opening_to_side_mm") > 1.0
    assert size.holddown_y - size.access[1] / 2 >= size.web_half


@given(SIZES)
def test_openings_and_pin_leave_walls(size: FrogSize) -> None:
    n = frog_numbers(size)
    assert n.value("holddown_opening_to_hollow_mm") >= 2.0 - 1e-9
    assert n.value("yoke_pin_wall_mm") >= 1.5 - 1e-9
    # and the screws' thread keeps metal ahead of it in the body's pad, which begins half a millimetre behind the step
    ahead = size.holddown_at - size.high_from - size.travel - 0.5
    assert ahead - size.holddown_slot[1] / 2 > 3.0


def test_opening_to_hollow_by_hand() -> None:
    # draft 0: the hollow is a 3 mm round touching s = 60 + 1.7 and h = 9; at 45 deg and 3.175 mm of steel its middle
    # lies at x = (3.175 + 9 + 3) sin 45 + (61.7 + 3) cos 45 = 56.4802, its foremost place 3 mm ahead of that
    size = replace(frog(), draft=0.0, rear_at=60.0, holddown_at=40.0, access=(17.0, 13.0))
    assert opening_to_hollow(size) == pytest.approx(53.4802 - 48.5, abs=1e-4)


def test_outline_is_one_closed_loop() -> None:
    assert isinstance(casting_outline(frog()), Profile)
    assert len(casting_outline(frog()).segments) == 16
