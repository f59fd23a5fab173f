"""Minimum zone: what must hold for every set of points, and what is refused."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation

from shared.errors import InputError
from shared.flatness import in_a_line_in_plan, minimum_zone, zone_by_hull, zone_by_program
from shared.points import read_points
from shared.straightness import straightness

SEEDS = st.integers(0, 10_000)


def plate(seed: int, count: int = 40, rough: float = 0.02) -> np.ndarray:
    rng = np.random.default_rng(seed)
    return np.column_stack([rng.uniform(0, 250, count), rng.uniform(0, 60, count), rng.normal(0, rough, count)])


@settings(max_examples=12, deadline=None)
@given(SEEDS, st.floats(0.0001, 5))
def test_never_above_least_squares(seed, rough) -> None:
    zone = minimum_zone(plate(seed, rough=rough))
    assert zone.width <= zone.least_squares * (1 + 1e-12)


@settings(max_examples=12, deadline=None)
@given(SEEDS, st.floats(-1000, 1000))
def test_unchanged_by_rigid_motion(seed, shift) -> None:
    points = plate(seed)
    turned = Rotation.random(rng=np.random.default_rng(seed)).apply(points) + np.array([shift, -shift, 2 * shift])
    assert minimum_zone(turned).width == pytest.approx(minimum_zone(points).width, rel=1e-7)


@settings(max_examples=12, deadline=None)
@given(SEEDS)
def test_program_and_hull_agree_on_plates(seed) -> None:
    points = plate(seed)
    assert zone_by_program(points)[0] == pytest.approx(zone_by_hull(points)[0], rel=1e-8)


@settings(max_examples=10, deadline=None)
@given(SEEDS)
def test_no_direction_is_narrower_on_bulky_points(seed) -> None:
    rng = np.random.default_rng(seed)
    points = rng.normal(size=(12, 3))
    zone = minimum_zone(points)
    assert np.ptp(points @ np.array(zone.normal)) == pytest.approx(zone.width, rel=1e-9)
    tried = rng.normal(size=(4000, 3))
    tried /= np.linalg.norm(tried, axis=1)[:, None]
    assert zone.width <= np.ptp(points @ tried.T, axis=0).min() + 1e-12


def test_scales_with_its_points() -> None:
    points = plate(3)
    assert minimum_zone(points * 25.4).width == pytest.approx(25.4 * minimum_zone(points).width, rel=1e-9)


def test_three_points_and_a_true_plane_have_no_height() -> None:
    assert minimum_zone([[0, 0, 0], [100, 0, 1], [0, 100, 2]]).width == 0
    x, y = np.meshgrid(np.arange(5.0), np.arange(4.0))
    flat = np.column_stack([x.ravel(), y.ravel(), 0.25 * x.ravel()])
    assert minimum_zone(flat).width == pytest.approx(0, abs=1e-12)


def test_one_high_point_over_three_others_far_away() -> None:
    """A needle over a triangle: the zone is its height when it stands inside, whatever the slope."""
    slope = math.radians(30)
    base = np.array([[0, 0, 0], [100, 0, 0], [0, 100, 0], [20, 30, 0.2]])
    turned = Rotation.from_euler("x", slope).apply(base)
    assert minimum_zone(turned).width == pytest.approx(0.2)


@pytest.mark.parametrize(
    ("points", "word"),
    [
        ([[0, 0, 0], [1, 0, 0]], "3 points or more"),
        ([], "values a point|3 points or more"),
        ([[0, 0, 0], [1, 1, 1], [2, 2, 2], [5, 5, 5]], "points in a line"),
        ([[1, 1, 1]] * 4, "points in a line"),
        ([[0, 0, 0], [1, 0, 0], [0, 1, float("nan")]], "no number"),
        ([[0, 0], [1, 0], [0, 1]], "three"),
    ],
)
def test_refused(points, word) -> None:
    with pytest.raises(InputError, match=word):
        minimum_zone(points)


def test_a_line_of_heights_is_no_plane() -> None:
    line = [[x, 2 * x, z] for x, z in [(0, 0), (50, 0.1), (100, 0)]]
    assert in_a_line_in_plan(line)
    assert not in_a_line_in_plan([*line, [0, 40, 0]])


@settings(max_examples=30, deadline=None)
@given(st.lists(st.floats(-5, 5), min_size=3, max_size=30))
def test_straightness_order(heights) -> None:
    x = [10.0 * i for i in range(len(heights))]
    s = straightness(x, heights)
    slack = 1e-9
    assert s.minimum_zone <= s.minimum_zone_vertical + slack
    assert s.minimum_zone_vertical <= s.least_squares_vertical + slack
    assert s.minimum_zone_vertical <= s.end_points_vertical + slack


def test_straightness_refusals() -> None:
    with pytest.raises(InputError):
        straightness([0, 1], [0])
    with pytest.raises(InputError):
        straightness([1, 1], [0, 2])


def test_points_file_with_units_and_faults(tmp_path) -> None:
    good = tmp_path / "good.csv"
    good.write_text("# sole\nx_in,y_in,z_thou\n1,2,3\n\n2,0,-1\n")
    assert read_points(good) == [(25.4, 50.8, pytest.approx(0.0762)), (50.8, 0.0, pytest.approx(-0.0254))]
    bad = tmp_path / "bad.csv"
    bad.write_text("0,0,0\n1,x,2\n1,2\n1,2,nan\n")
    with pytest.raises(InputError) as err:
        read_points(bad)
    assert [f.where.rsplit(":", 1)[1] for f in err.value.faults] == ["2", "3", "4"]
    with pytest.raises(InputError, match="nothing there"):
        read_points(tmp_path / "none.csv")
    odd = tmp_path / "odd.csv"
    odd.write_text("x,z,y\n1,2,3\n")
    with pytest.raises(InputError, match="names"):
        read_points(odd)
