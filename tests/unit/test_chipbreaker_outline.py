"""The chipbreaker's outline: where it touches, how high it stands, how it runs."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from parts.chipbreaker import outline
from parts.chipbreaker.numbers import shape_numbers
from parts.chipbreaker.size import chipbreaker_size
from parts.chipbreaker.spec import ChipbreakerSpec


def size(thickness=3.175, setback=0.4, edge_angle=45.0, gap=0.5, hump_at=16.0, width=50.8):
    spec = ChipbreakerSpec(thickness=thickness, setback=setback, edge_angle=edge_angle, gap=gap)
    return chipbreaker_size(
        spec,
        blade_width=width,
        hump_at=hump_at,
        screw_at=115.0,
        screw_thread_major=7.94,
        screw_tap_drill=6.5,
        cap_screw_at=51.0,
        cap_screw_opening=(15.4, 11.4),
        yoke_at=74.0,
        yoke_window=(4.8, 8.0),
    )


ANY = st.builds(
    size,
    thickness=st.floats(1.5, 5),
    setback=st.floats(0.05, 3),
    edge_angle=st.floats(25, 80),
    gap=st.floats(0.2, 1.5),
    hump_at=st.floats(13, 28),
    width=st.floats(44, 66),
)


@settings(max_examples=60, deadline=None)
@given(ANY)
def test_touches_the_face_only_at_edge_and_seat(z):
    lows = [(z.setback + 0.05 + k * (z.seat_from - z.setback - 0.1) / 40) for k in range(41)]
    assert all(outline.underside_at(z, s) > 0 for s in lows)
    assert outline.section(z).bounds[1] == pytest.approx(0.0, abs=1e-9)
    assert outline.underside_at(z, (z.seat_from + z.end) / 2) == pytest.approx(0.0, abs=1e-9)
    assert outline.section(z).bounds[0] == pytest.approx(z.setback)


@settings(max_examples=60, deadline=None)
@given(ANY)
def test_hump_is_the_highest_line(z):
    assert outline.section(z).bounds[3] == pytest.approx(z.hump_top, abs=1e-9)
    assert outline.top_at(z, z.hump_at) == pytest.approx(z.hump_top, abs=1e-9)
    for away in (-1.0, 1.0):
        assert outline.top_at(z, z.hump_at + away) < z.hump_top


@settings(max_examples=60, deadline=None)
@given(ANY)
def test_smooth_but_for_edge_and_ends(z):
    """Only three corners, the leading edge and the two of the upper end; none other sharper than 0.5 deg."""
    segments = outline.section(z).segments
    kinks = []
    for a, b in zip(segments, segments[1:] + segments[:1], strict=True):
        (p, q), (r, s) = a.direction(at_end=True), b.direction()
        turn = abs(math.degrees(math.atan2(p * s - q * r, p * r + q * s)))
        if turn > 0.51:
            kinks.append(turn)
    assert len(kinks) == 3


@settings(max_examples=40, deadline=None)
@given(ANY)
def test_leading_edge_has_its_angle(z):
    s, q = outline.bevel_top(z)
    assert math.degrees(math.atan2(q, s - z.setback)) == pytest.approx(z.edge_angle)
    assert outline.top_at(z, z.setback + 0.05) == pytest.approx(0.05 * math.tan(math.radians(z.edge_angle)), rel=1e-6)


def test_plate_keeps_its_thickness_through_the_fall():
    z = size(thickness=3.0, gap=1.0)
    for k in range(1, 20):
        s = z.seat_from - outline.FALL_RUN * k / 20
        square = (outline.top_at(z, s) - outline.underside_at(z, s)) / math.hypot(1.0, slope(z, s))
        assert square == pytest.approx(3.0, abs=0.01)


def slope(z, s):
    return (outline.underside_at(z, s + 0.01) - outline.underside_at(z, s - 0.01)) / 0.02


def test_relief_solved_by_hand():
    """X = 15.6; for small angles 7.8 a + 3.9 a = 0.5, so a = 0.0427 rad = 2.449 deg."""
    z = size(gap=0.5, hump_at=16.0, setback=0.4)
    a = math.radians(outline.relief_angle(z))
    assert 7.8 * math.tan(a) + 7.8 * math.tan(a / 2) == pytest.approx(0.5, abs=1e-9)
    assert math.degrees(a) == pytest.approx(2.449, abs=0.004)


def test_shape_numbers():
    n = shape_numbers(size())
    assert n.value("hump_height_mm") == pytest.approx(0.5 + 3.175 + 1.2)
    assert n.value("length_mm") == pytest.approx(115.0 + 14.0 - 0.4)
    assert all(x.meaning and x.formula for x in n)
