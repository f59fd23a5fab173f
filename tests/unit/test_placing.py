"""Distances in the side view that place the tote, against shapely's. The sizes are invented."""

from math import cos, radians, sin

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString, MultiPoint, Point, box

from parts.plane.placing import FINGER_DEPTH, KNUCKLE_CLEARANCE, WOOD_CLEARANCE, Obstacle, place_tote

coordinate = st.floats(-50, 50).map(lambda v: round(v, 2))
points = st.lists(st.tuples(coordinate, coordinate), min_size=3, max_size=7, unique=True)


def convex(corners):
    hull = MultiPoint(corners).convex_hull
    assume(hull.geom_type == "Polygon" and hull.area > 20.0)
    return hull, Obstacle("thing", list(hull.exterior.coords)[:-1])


@given(points, st.tuples(coordinate, coordinate))
def test_distance_is_shapelys_and_less_than_nothing_inside(corners, at):
    hull, thing = convex(corners)
    p = Point(at)
    wanted = -hull.exterior.distance(p) if hull.contains(p) else hull.distance(p)
    assert thing.distance(at) == pytest.approx(wanted, abs=1e-9)


@given(points, st.floats(-60, 60), st.floats(0.1, 12.0))
def test_the_aftmost_place_is_that_of_a_grown_outline(corners, z, near):
    hull, thing = convex(corners)
    # a finely faceted round lies inside the true one by less than 0.001 mm here
    cut = hull.buffer(near, quad_segs=256).intersection(LineString([(-200, z), (200, z)]))
    got = thing.aft_at(z, near)
    if cut.is_empty:
        assert got is None or hull.distance(Point(got, z)) == pytest.approx(near, abs=1e-6)
    else:
        assert got == pytest.approx(cut.bounds[2], abs=0.2)
        assert hull.distance(Point(got, z)) == pytest.approx(near, abs=1e-6)


@pytest.mark.parametrize("lean", [20.0, 45.0, 60.0])
def test_an_upright_front_stands_the_clearance_from_a_leaning_blade(lean):
    x, z = 80 * cos(radians(lean)), 80 * sin(radians(lean))
    blade = Obstacle("blade", [(0.0, 0.0), (x, z), (x - 1.0, z + 3.0), (-1.0, 3.0)])
    place = place_tote([blade], lambda _: 0.0, (-20.0, -15.0), (10.0, 120.0), -20.0, 40.0, 500.0, -100.0)
    # the blade's top end is what an upright front meets first
    assert place.x == pytest.approx(x + WOOD_CLEARANCE, abs=0.05)
    assert place.wood_clearance == pytest.approx(WOOD_CLEARANCE, abs=0.05)
    assert place.decided_by == "the tote clears the blade by 3 mm"
    assert place.clearance > KNUCKLE_CLEARANCE


def test_a_front_as_steep_as_the_blade_stands_the_clearance_square_to_it():
    blade = Obstacle("blade", [(0.0, 0.0), (100.0, 100.0), (98.0, 102.0), (-2.0, 2.0)])
    place = place_tote([blade], lambda z: z, (20.0, 21.0), (20.0, 60.0), -20.0, 40.0, 500.0, -100.0)
    # fingers: 8 mm square to a slope of 45 deg, and their own depth along the sole
    assert place.x == pytest.approx(FINGER_DEPTH + KNUCKLE_CLEARANCE * 2**0.5)
    assert place.clearance == pytest.approx(KNUCKLE_CLEARANCE)


def test_pushed_ahead_by_the_heel_the_tote_says_how_deep_it_stands_in_a_thing():
    wall = Obstacle("wall", list(box(0.0, 0.0, 50.0, 100.0).exterior.coords)[:-1])
    place = place_tote([wall], lambda z: 0.0, (30.0, 40.0), (10.0, 60.0), -5.0, 40.0, 83.0, -100.0)
    assert place.x == pytest.approx(40.0)
    assert place.decided_by == "the foot ends ahead of the heel"
    assert place.wood_clearance == pytest.approx(-10.0)
