"""Lever cap arithmetic: spring, cam, balance; each against a case worked by hand or an independent way."""

from __future__ import annotations

import math
import subprocess
import sys

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from parts.lever_cap import leaf, numbers, outline, spring
from parts.lever_cap.size import PAST_CENTER, SWING, lever_cap_size
from shared.casting.alloy import alloy


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


ANY = st.builds(
    size,
    width=st.floats(44, 80),
    throw=st.floats(0.8, 2),
    leaf_thickness=st.floats(0.6, 1.6),
    stock=st.floats(1.0, 3.0),
    draft=st.floats(0.5, 3.0),
    nose=st.floats(13, 28),
    run=st.floats(58, 80),
    top=st.floats(1.7, 6.5),
)


def test_stiffness_and_stress_by_hand():
    """I = 16/12 mm4; 48·205000·1.3333/22³ = 1232.2 N/mm; 350 N: 3·350·22/(2·16) = 721.9 MPa."""
    assert spring.stiffness(16, 1.0, 11) == pytest.approx(1232.156, abs=0.01)
    assert spring.stress(350, 16, 1.0, 11) == pytest.approx(721.875)


def test_stiffness_against_finite_differences():
    """E I v'' = M integrated numerically over half the beam gives the same deflection under 100 N."""
    half, inertia = 11.0, 16 * 1.0**3 / 12
    x = np.linspace(0, half, 20001)
    curvature = 50.0 * x / (spring.E_MPA * inertia)
    dx = x[1] - x[0]
    slope = np.concatenate([[0], np.cumsum((curvature[1:] + curvature[:-1]) / 2 * dx)])
    slope -= slope[-1]  # level under the load
    sag = -np.sum((slope[1:] + slope[:-1]) / 2 * dx)
    assert 100.0 / sag == pytest.approx(spring.stiffness(16, 1.0, half), rel=1e-6)


@settings(max_examples=80, deadline=None)
@given(ANY)
def test_forces_balance_about_the_screw_and_spare_the_spring(z):
    f = numbers.forces(z)
    assert f.nose * (z.screw_at - z.nose_at) == pytest.approx(f.cam * (z.press_at - z.screw_at))
    assert f.screw == pytest.approx(f.cam + f.nose)
    stress = spring.stress(f.cam, z.spring_width, z.spring_thickness, z.spring_half)
    assert stress <= spring.ALLOWED_SHARE * spring.YIELD_MPA * (1 + 1e-9)
    assert 0 < z.spring_bow < z.throw
    assert f.nose > 100.0


@settings(max_examples=80, deadline=None)
@given(ANY)
def test_cam_rises_by_the_throw_and_presses_where_it_should(z):
    assert numbers.rise_left(z, 0.0) == pytest.approx(0.0, abs=1e-12)
    assert numbers.rise_left(z, SWING) == pytest.approx(z.throw)
    (cs, cq), e = z.cam_center, z.eccentricity
    assert math.dist((cs, cq), (z.pivot_at, z.pivot_q)) == pytest.approx(e)
    assert (cs, cq - z.cam_radius) == pytest.approx((z.press_at, z.press_q + z.spring_thickness))
    # past its highest lift: the load, straight up under the centre, turns the lever further shut
    assert cs < z.pivot_at
    assert numbers.rise_left(z, PAST_CENTER) < 0


@settings(max_examples=80, deadline=None)
@given(ANY)
def test_room(z):
    """What must clear clears: rivet to screw head, leaf's bends to rivet, cam to window, wall over the bridge."""
    assert z.spring_rivet_at - 3.5 - (z.screw_at + z.screw_head / 2) >= 0.5
    assert z.press_at - z.spring_half - (z.spring_rivet_at + 3.5) >= 5.9
    assert z.window[1] - z.pivot_at > z.cam_radius + z.eccentricity + 1.0
    assert z.stop_q - z.underside_q >= z.wall
    assert z.underside_q - z.nose_q >= 1.4 - 1e-9
    head_low = z.strap_q - 1.15
    assert head_low - z.press_q >= 0.79


@settings(max_examples=60, deadline=None)
@given(ANY)
def test_top_leaves_wall_and_stock(z):
    assert 0.0 < outline.top_slope(z) < 12.01
    assert outline.top_at(z, z.land[1] + 3.0) - z.underside_q >= z.wall - 1e-6
    assert outline.top_at(z, z.screw_at - z.screw_head / 2) - z.head_q >= z.nose_stock - 1e-6


@settings(max_examples=60, deadline=None)
@given(ANY)
def test_outlines_close(z):
    for made in (outline.cap_section(z, z.nose_stock), outline.cap_section(z, 0.0), outline.cap_plan(z),
                 outline.front_cut(z), outline.lever_section(z, z.nose_stock), outline.lever_section(z, 0.0),
                 outline.lever_hub_cut(z), outline.lever_plan(z, z.nose_stock), leaf.leaf_section(z),
                 leaf.leaf_plan(z), outline.head_pocket(z), outline.window(z), outline.slot(z)):  # fmt: skip
        assert made.area > 10.0


@settings(max_examples=40, deadline=None)
@given(ANY)
def test_leaf_lies_on_the_chipbreaker_and_hangs_on_the_cap(z):
    section = leaf.leaf_section(z)
    assert section.bounds[1] == pytest.approx(z.press_q)
    assert section.bounds[3] == pytest.approx(z.underside_q)
    at_cam = section.crossings(0, z.press_at)
    assert (min(at_cam), max(at_cam)) == pytest.approx((z.press_q, z.press_q + z.spring_thickness))
    # one thickness all through: the area is the strip's length times its thickness
    flat = z.spring_end - (z.spring_rivet_at - leaf.OVER)
    assert flat < leaf.leaf_length(z) < flat * 1.1


def test_hand_force_by_brute_moments():
    """Load and arms written out again, at a tenth of a degree, for the standard cap."""
    z = size()
    k, worst = spring.stiffness(16, 1.0, 11.0), 0.0
    for a in np.arange(-10.0, 90.05, 0.1):
        e, lift = z.eccentricity, z.eccentricity * math.cos(math.radians(a))
        squeezed = z.spring_bow - max(0.0, z.eccentricity * math.cos(math.radians(10)) - lift)
        load = k * max(0.0, squeezed)
        arm = 0.15 * (5.5 + lift + 2.0) + e * math.sin(math.radians(a))
        worst = max(worst, load * arm / 32.0)
    assert numbers.hand_force(z) == pytest.approx(worst, rel=2e-3)
    assert 5.0 < worst < 40.0


def test_holding_friction_is_the_worst_of_the_loaded_way():
    z = size()
    angles = np.radians(np.linspace(0.0, numbers.touch_angle(z) - PAST_CENTER, 500))
    needed = z.eccentricity * np.sin(angles) / (z.cam_radius + z.eccentricity * np.cos(angles) + 2.0)
    assert numbers.holding_friction(z) == pytest.approx(needed.max())
    assert numbers.rise_left(z, numbers.touch_angle(z)) == pytest.approx(z.spring_bow)


def test_numbers_are_complete():
    n = numbers.numbers(size(), alloy("manganese-bronze-c86500"))
    assert n.part == "lever_cap"
    assert n.value("nose_force_n") == pytest.approx(numbers.nose_force(size()))
    assert n.value("cap_stress_share") < 0.5
    assert n.value("self_locking") is True
    assert all(x.meaning and x.formula and x.source for x in n)
    assert n["spring_bow_mm"].decided_by == "aimed force"
    thin = numbers.numbers(size(leaf_thickness=0.6), alloy("manganese-bronze-c86500"))
    assert thin["spring_bow_mm"].decided_by == "spring's stress"


def test_numbers_need_no_kernel():
    code = ("import sys, parts.lever_cap.numbers, parts.chipbreaker.numbers; "
            "print([m for m in ('cadquery', 'OCP', 'vtk', 'matplotlib') if m in sys.modules])")  # fmt: skip
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout == "[]\n"
