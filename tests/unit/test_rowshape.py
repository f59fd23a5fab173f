"""Where one outline keeps another from lying: pairs seen in a mirror against the same pairs measured anew."""

from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from parts.handle.cutplan.rowshape import Gaps, _padded, mirrored, row_shape

# an invented outline with a hollow, so that some rows hold two stretches
OUTLINE = [(0, 0), (60, -5), (80, 20), (55, 45), (50, 70), (20, 60), (25, 30), (5, 25)]


@cache
def shapes(leans, grow=1.5, row=2.0):
    plain = [row_shape(0, OUTLINE, lean, False, grow, row) for lean in leans]
    turned = [mirrored(p, *way, 180.0, way[0] != way[1]) for way in ((1, 1), (0, 1), (1, 0)) for p in plain]
    return [*plain, *turned, row_shape(1, [(0, 0), (30, 0), (30, 17), (0, 17)], 0.0, False, 1.0, row)]


@cache
def gaps_of(leans):
    return Gaps(shapes(leans))


def in_order(low, high):
    order = np.argsort(low, axis=1, kind="stable")
    return np.take_along_axis(low, order, 1), np.take_along_axis(high, order, 1)


@pytest.mark.parametrize("leans", [(0.0,), (-5.0, 0.0, 5.0)])
def test_a_pair_in_the_mirror_forbids_what_it_would_if_measured_anew(leans):
    found = shapes(leans)
    gaps = gaps_of(leans)
    slots = max(len(row) for s in found for row in s.stretches)
    for a, first in enumerate(found):
        for b, second in enumerate(found):
            anew = in_order(*gaps._forbidden(_padded(first, slots), _padded(second, slots)))
            kept = in_order(gaps.low[a, b], gaps.high[a, b])
            np.testing.assert_allclose(kept[0], anew[0], atol=1e-9)
            np.testing.assert_allclose(kept[1], anew[1], atol=1e-9)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 12), st.integers(0, 12), st.integers(-30, 30), st.floats(-120, 120))
def test_outlines_do_not_meet_where_the_table_lets_them_lie(a, b, rows, dx):
    """Measured on the bare outlines by shapely: what is grown by 1.5 mm each may come no nearer than 3 mm."""
    from shapely import Polygon, affinity

    found = shapes((-5.0, 0.0, 5.0))
    gaps = gaps_of((-5.0, 0.0, 5.0))
    at = gaps.tall + rows
    if not 0 <= at < gaps.low.shape[2]:
        return
    forbidden = ((gaps.low[a, b, at] < dx) & (dx < gaps.high[a, b, at])).any()
    one = Polygon(found[a].points)
    other = affinity.translate(Polygon(found[b].points), dx, rows * found[b].row_mm)
    if not forbidden:
        grown = 1.5 + 1.5 if max(a, b) < 12 else (2.5 if min(a, b) < 12 else 2.0)
        assert one.distance(other) >= grown - 1e-6
    elif one.distance(other) > 12.0:
        raise AssertionError("far apart, yet forbidden")
