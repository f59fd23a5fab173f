"""Reading between rows agrees with numpy everywhere."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shared.interpolate import interpolate

TABLES = st.lists(
    st.tuples(st.floats(-1e3, 1e3), st.floats(-1e3, 1e3)), min_size=1, max_size=12, unique_by=lambda r: r[0]
)


@given(TABLES, st.floats(-2e3, 2e3))
def test_agrees_with_numpy(rows, x):
    xs, ys = zip(*sorted(rows), strict=True)
    assert interpolate(x, xs, ys) == pytest.approx(float(np.interp(x, xs, ys)), rel=1e-6, abs=1e-6)


@pytest.mark.parametrize(("xs", "ys"), [((), ()), ((1.0,), (1.0, 2.0))])
def test_a_table_without_rows_is_refused(xs, ys):
    with pytest.raises(ValueError, match="rows"):
        interpolate(0.0, xs, ys)
