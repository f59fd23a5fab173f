"""Angles, bevel, camber and bedding: what must hold for every blade."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from parts.blade import bedding as g
from parts.blade.angles import edge_angles
from parts.blade.bevel import bevel_length, bevel_shape, hollow_depth, hollow_edge_angle
from parts.blade.camber import camber_profile, camber_radius
from shared.errors import InputError

QUICK = settings(max_examples=30, deadline=None)
BED = st.floats(38, 60)
BEVEL = st.floats(15, 36)
THICK = st.floats(2, 6)


@QUICK
@given(
    st.sampled_from(["bevel-down", "bevel-up"]),
    st.floats(12, 60),
    st.floats(10, 40),
    st.floats(0, 10),
    st.floats(0, 40),
)
def test_cutting_is_wedge_plus_clearance(way, bed, bevel, back, skew) -> None:
    clearance = bed - (bevel if way == "bevel-down" else back)
    cutting = bed + (back if way == "bevel-down" else bevel)
    if clearance <= 1e-6 or cutting >= 90:
        with pytest.raises(InputError):
            edge_angles(way, bed, bevel, back, skew)
        return
    e = edge_angles(way, bed, bevel, back, skew)
    assert e.cutting == pytest.approx(e.wedge + e.clearance, abs=1e-9)
    for along, normal in (
        ((e.cutting_section, e.cutting_chip_flow, e.cutting_velocity), e.cutting),
        ((e.clearance_section, e.clearance_chip_flow, e.clearance_velocity), e.clearance),
    ):
        assert normal + 1e-9 >= along[0] >= along[1] - 1e-9
        assert along[1] >= along[2] - 1e-9 > 0


def test_without_skew_the_rules_agree() -> None:
    e = edge_angles("bevel-up", 12, 33, 2)
    assert e.cutting == pytest.approx(e.cutting_section) == pytest.approx(e.cutting_velocity)
    assert e.clearance == pytest.approx(e.clearance_chip_flow) == 10


@pytest.mark.parametrize(
    ("way", "bed", "bevel", "back", "key"),
    [
        ("bevel-down", 45, 45, 0, "bevel"),
        ("bevel-down", 37, 40, 0, "bevel"),
        ("bevel-up", 12, 25, 12, "back_bevel"),
        ("bevel-up", 60, 35, 0, "bevel"),
        ("bevel-down", 0, 25, 0, "bed"),
        ("bevel-down", 45, -5, 0, "bevel"),
        ("sideways", 45, 25, 0, "orientation"),
    ],
)
def test_impossible_angles_name_the_key(way, bed, bevel, back, key) -> None:
    with pytest.raises(InputError) as err:
        edge_angles(way, bed, bevel, back)
    assert key in [f.key for f in err.value.faults]


@QUICK
@given(THICK, BED, BEVEL)
def test_heel_without_micro_bevel_is_the_design_formula(t, bed, v) -> None:
    b, w = math.radians(bed), math.radians(v)
    x, z = g.bevel_heel(t, bed, v)
    assert z == pytest.approx(t * math.sin(b - w) / math.sin(w), rel=1e-9, abs=1e-9)
    assert x == pytest.approx(t * math.cos(b) / math.tan(w) + t * math.sin(b), rel=1e-9)
    # the bevel runs from the edge to its heel at the clearance angle, and is as long as its formula says
    assert math.degrees(math.atan2(z, x)) == pytest.approx(bed - v, abs=1e-6)
    assert math.hypot(x, z) == pytest.approx(bevel_length(t, v), rel=1e-9)


@QUICK
@given(THICK, BED, st.floats(15, 30), st.floats(0, 8), st.floats(0.1, 1.0))
def test_heel_with_micro_bevel_closes_the_outline(t, bed, ground, more, width) -> None:
    shape = bevel_shape(t, ground, ground + more, width)
    micro, v = math.radians(ground + more), math.radians(ground)
    depth = width * math.sin(micro) + shape.ground_length * math.sin(v)
    along = width * math.cos(micro) + shape.ground_length * math.cos(v)
    assert depth == pytest.approx(t, rel=1e-9)
    assert along == pytest.approx(shape.heel_from_edge, rel=1e-9)
    x, z = g.bevel_heel(t, bed, ground, ground + more, width)
    # the heel lies on the bed plane
    assert z == pytest.approx(g.bed_height(t, bed, x), abs=1e-9)
    assert x <= g.bevel_heel(t, bed, ground)[0] + 1e-9


def test_micro_bevel_that_uses_up_the_blade_is_refused() -> None:
    with pytest.raises(InputError, match="use up the thickness"):
        bevel_shape(2.0, 25, 30, 4.5)
    with pytest.raises(InputError, match="at least the ground bevel"):
        bevel_shape(3.0, 25, 20)


@QUICK
@given(THICK, BED, st.floats(0, 12))
def test_support_point_lies_on_the_bed_plane(t, bed, z) -> None:
    u = g.unsupported_length(t, bed, z)
    b = math.radians(bed)
    x, height = u * math.cos(b) + t * math.sin(b), u * math.sin(b) - t * math.cos(b)
    assert height == pytest.approx(z, abs=1e-9)
    assert g.bed_height(t, bed, x) == pytest.approx(z, abs=1e-9)
    assert g.contact_length(t, bed, z, z + 10) == pytest.approx(10 / math.sin(b))


def test_bed_foot_and_adjusters() -> None:
    assert g.bed_foot(3.175, 45) == pytest.approx(3.175 * math.sqrt(2))
    assert g.bed_foot(g.steel_under_edge("bevel-up", 4.5), 12) == 0
    assert g.steel_under_edge("bevel-down", 3.0, 10, 0.5) == pytest.approx(3 - 0.5 * math.sin(math.radians(10)))
    assert g.depth_per_turn(0.8, 1.5, 30) == pytest.approx(0.6)
    assert g.projection_for_depth(0.1, 30) == pytest.approx(0.2)
    assert g.mouth_per_thickness(30) == pytest.approx(-2)
    assert g.mouth_per_thickness(12, "bevel-up") == 0


def test_edge_deflection_by_hand() -> None:
    """u 10 mm, w 50, t 3, E 200 GPa: 4*1000/(2e5*50*27) = 1.4815e-5 mm/N."""
    assert g.edge_deflection(10, 200_000, 50, 3) == pytest.approx(1.48148e-5, rel=1e-5)


@QUICK
@given(st.floats(40, 80), st.floats(0.1, 2), st.floats(40, 150))
def test_lateral_turn_just_touches(width, side, pivot) -> None:
    theta = math.radians(g.lateral_adjust(width, side, pivot))
    corner = pivot * math.sin(theta) + width / 2 * math.cos(theta)
    assert corner == pytest.approx(width / 2 + side, rel=1e-9)
    assert theta > 0


@QUICK
@given(THICK, st.floats(18, 40), st.floats(100, 500))
def test_hollow_is_a_circle_through_edge_and_heel(t, bevel, wheel) -> None:
    chord = bevel_length(t, bevel)
    depth = hollow_depth(t, bevel, wheel)
    assert depth == pytest.approx(wheel / 2 - math.sqrt((wheel / 2) ** 2 - (chord / 2) ** 2), rel=1e-6)
    true = hollow_edge_angle(t, bevel, wheel)
    assert 0 < true < bevel
    assert math.sin(math.radians(bevel - true)) == pytest.approx(chord / wheel)


def test_wheel_too_small() -> None:
    with pytest.raises(InputError, match="more than the bevel's length"):
        hollow_depth(5, 20, 12)
    with pytest.raises(InputError, match="no steel at the edge"):
        hollow_edge_angle(5, 20, 16)


@QUICK
@given(st.floats(40, 80), st.floats(0.01, 2))
def test_camber_circle_meets_the_corners(width, sagitta) -> None:
    radius = camber_radius(width, sagitta)
    assert radius**2 == pytest.approx((width / 2) ** 2 + (radius - sagitta) ** 2, rel=1e-9)
    points = camber_profile(width, sagitta)
    assert points[0][1] == pytest.approx(sagitta, rel=1e-9)
    assert points[len(points) // 2][1] == pytest.approx(0, abs=1e-12)


def test_straight_edge() -> None:
    assert math.isinf(camber_radius(50, 0))
    assert {z for _, z in camber_profile(50, 0)} == {0.0}
    with pytest.raises(InputError, match="half the width"):
        camber_radius(50, 26)
