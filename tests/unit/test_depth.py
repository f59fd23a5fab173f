"""Which surface is nearest at each spot of a view: two plates, one over a part of the other."""

from __future__ import annotations

import numpy as np
import pytest

from shared.depth import Grid, depths, nearest_of
from shared.surface import Surface

RIGHT, UP = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)


def plate(x0: float, y0: float, x1: float, y1: float, z: float, slope: float = 0.0) -> Surface:
    corners = np.array([(x, y, z + slope * x) for x, y in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))])
    up = np.tile([0.0, 0.0, 1.0], (4, 1))
    return Surface(corners, up, np.array([[0, 1, 2], [0, 2, 3]]), np.empty((0, 2), dtype=np.int64))


def test_the_nearer_plate_is_seen_whole_and_the_other_less_it() -> None:
    under, over = plate(0.0, 0.0, 40.0, 20.0, 0.0), plate(10.0, 5.0, 25.0, 15.0, 3.0)
    grid = Grid.over([under, over], RIGHT, UP, 0.25)
    low, high = nearest_of([depths(s, grid, RIGHT, UP) for s in (under, over)])
    assert not (low & high).any()
    # within half a step all round
    assert grid.area(high) == pytest.approx(150.0, abs=0.25 * 50 / 2 + 0.1)
    assert grid.area(low) == pytest.approx(800.0 - 150.0, abs=0.25 * (120 + 50) / 2 + 0.1)
    u, v = grid.inmost(high)
    assert 14.0 <= u <= 21.0 and v == pytest.approx(10.0, abs=0.5)


def test_what_is_nearer_than_a_cut_is_taken_away() -> None:
    low, sloping = plate(0.0, 0.0, 20.0, 10.0, -5.0), plate(0.0, 0.0, 20.0, 10.0, -2.0, slope=0.2)
    grid = Grid.over([low, sloping], RIGHT, UP, 0.5)
    fields = [depths(s, grid, RIGHT, UP, nearest=0.0) for s in (low, sloping)]
    us, _ = grid.spots()
    met = np.isfinite(fields[1])
    assert met.any() and us[met].max() <= 10.0 + 1e-6  # -2 + 0.2 x = 0 at x = 10
    assert fields[1][met] == pytest.approx(-2.0 + 0.2 * us[met])
    behind, _ = nearest_of(fields)
    assert us[behind].min() >= 10.0 - 1e-6  # where the other is cut away


def test_a_face_turned_away_is_not_seen() -> None:
    away = plate(0.0, 0.0, 20.0, 10.0, 0.0)
    turned = Surface(away.vertices, -away.normals, away.triangles[:, ::-1], away.edges)
    grid = Grid.over([turned], RIGHT, UP, 0.5)
    assert not np.isfinite(depths(turned, grid, RIGHT, UP)).any()
