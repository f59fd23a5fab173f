"""Fingers round the tote beside the cheeks, by hand and by properties. The sizes are invented."""

from math import hypot
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from parts.body.arch import rim_height
from parts.handle.measure import grip_front_at
from parts.plane.design import design
from parts.plane.hand_room import CHEEK_CLEARANCE, RADIUS, Finger, arch_end, cheek_clearance, finger_band, fingers
from parts.plane.placing import FINGER_DEPTH
from parts.plane.shop import load_shop
from parts.plane.spec import load_spec
from shared.record import replace

SPECS = Path(__file__).parents[2] / "specs"
WITH_TOTE = ("crane", "heron", "heron-metric", "linnet", "wren-long")
FINGER = Finger(30.0, 100.0, 140.0, 12.0)  # axis 21 mm from the middle plane beside the wood


def plane(name):
    return design(load_spec(SPECS / f"{name}.toml"), load_shop(None))


def test_a_wall_as_high_as_the_finger_is_met_across():
    # 27 - 12 of wood - 18 of finger
    assert FINGER.gap(120.0, 27.0, 35.0) == pytest.approx(-3.0)
    assert FINGER.gap(120.0, 35.0, 35.0) == pytest.approx(5.0)


def test_a_low_rim_is_met_slantwise():
    # from the axis at (21, 30) to the rim's edge at (27, 14): 17.09, less the finger's 9
    assert FINGER.gap(120.0, 27.0, 14.0) == pytest.approx(hypot(6.0, 16.0) - 9.0)


def test_a_rim_under_the_flesh_is_met_from_above():
    assert FINGER.gap(120.0, 15.0, 14.0) == pytest.approx(16.0 - 9.0)


def test_ahead_of_the_wood_the_finger_curls_round_it():
    # the wood's end is a half circle about x = 112; a point 30 mm ahead of that and 27 mm aside
    assert FINGER.gap(82.0, 27.0, 35.0) == pytest.approx(hypot(30.0, 27.0) - 12.0 - FINGER_DEPTH)


@given(st.floats(60, 180), st.floats(10, 60), st.floats(5, 60), st.floats(0.0, 10.0))
def test_a_higher_rim_is_never_farther(x, y, rim, more):
    assert FINGER.gap(x, y, rim + more) <= FINGER.gap(x, y, rim) + 1e-9


@pytest.mark.parametrize("name", WITH_TOTE)
def test_three_fingers_lie_in_front_of_the_grip_over_the_foot(name):
    d = plane(name)
    hand = fingers(d.tote, d.tote_at.x)
    low, high = finger_band(d.tote)
    assert [f.z for f in hand] == pytest.approx([low, (low + high) / 2, high])
    assert low - RADIUS == pytest.approx(d.tote.foot_plane_z + d.tote.foot_height)
    for f in hand:
        assert f.front == pytest.approx(d.tote_at.x + grip_front_at(d.tote, f.z - d.tote.foot_plane_z))
        # what the wood is across, mid-grip, as the spec or the rule of thumb says
        assert f.half <= d.tote.grip_width / 2 + 0.5


@pytest.mark.parametrize("name", WITH_TOTE)
def test_every_shipped_plane_leaves_the_hand_its_room(name):
    """Measured anew: a hand's outline in plan at every height of the lowest finger, against the rim."""
    d = plane(name)
    hand = fingers(d.tote, d.tote_at.x)
    assert cheek_clearance(hand, d.body) >= CHEEK_CLEARANCE - 1e-6
    lowest = hand[0]
    for i in range(200):
        x = lowest.front - FINGER_DEPTH + i * 0.5
        if x > d.body.heel_x:
            break
        rim = rim_height(d.body, x)
        y = d.body.inside_half_at(rim)
        beside = max(lowest.front + lowest.half - x, 0.0)
        for k in range(37):
            z = lowest.z - RADIUS + RADIUS * k / 18
            if z > rim:
                continue
            # half the hand's breadth where a round finger is cut at this height
            reach = lowest.half + RADIUS + (RADIUS**2 - (z - lowest.z) ** 2) ** 0.5
            assert hypot(beside, y) > reach


def test_a_cheek_that_stood_beside_the_hand_falls_ahead_of_it():
    d = plane("crane")
    hand = fingers(d.tote, d.tote_at.x)
    far = replace(d.body, arch_to=d.tote_at.x + 0.35 * (d.body.heel_x - d.tote_at.x))
    assert cheek_clearance(hand, far) < CHEEK_CLEARANCE
    end = arch_end(hand, far)
    assert end == d.body.arch_to < far.arch_to
    # no farther ahead than it must
    assert cheek_clearance(hand, replace(far, arch_to=end + 1.0)) < CHEEK_CLEARANCE


def test_an_outline_that_clears_the_hand_stays():
    d = plane("wren-long")
    hand = fingers(d.tote, d.tote_at.x)
    assert arch_end(hand, d.body) == d.body.arch_to


def test_rails_too_high_for_any_outline_keep_a_calm_one():
    d = plane("heron")
    high = replace(d.body, rail_height=26.0)
    end = arch_end(fingers(d.tote, d.tote_at.x), high)
    assert end >= high.arch_peak + high.cheek_height - high.rail_height
    assert cheek_clearance(fingers(d.tote, d.tote_at.x), replace(high, arch_to=end)) < CHEEK_CLEARANCE
