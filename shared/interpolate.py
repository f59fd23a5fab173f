"""Reading a table between its rows, without numpy: the numbers' path must answer at once."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence


def interpolate(x: float, xs: Sequence[float], ys: Sequence[float]) -> float:
    """Return y at x on the straight lines between rows; held constant beyond the first and last row.

    Args:
        x: where to read [unit of xs].
        xs: rising arguments.
        ys: values, as many as arguments.

    Raises:
        ValueError: no rows, or unequal lengths.
    """
    if not xs or len(xs) != len(ys):
        raise ValueError(f"a table needs rows, and as many values as arguments: {len(xs)} and {len(ys)}")
    if x <= xs[0]:
        return float(ys[0])
    if x >= xs[-1]:
        return float(ys[-1])
    i = bisect_right(xs, x)
    share = (x - xs[i - 1]) / (xs[i] - xs[i - 1])
    return ys[i - 1] + share * (ys[i] - ys[i - 1])
