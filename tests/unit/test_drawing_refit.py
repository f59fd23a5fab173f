"""Sampled curves go back to lines, arcs and ellipses; overlaps are joined; hidden lines under seen ones go."""

from __future__ import annotations

import math

import numpy as np
import pytest

from shared.drawing.merge import tidy
from shared.drawing.primitives import Curve, Ellipse, bounds
from shared.drawing.refit import fit
from shared.segments import Arc, Line


def sample(curve, n: int = 33) -> np.ndarray:  # type: ignore[no-untyped-def]
    return np.array([curve(t) for t in np.linspace(0, 1, n)])


@pytest.mark.parametrize("radius", [0.3, 3.0, 250.0])
@pytest.mark.parametrize(("start", "sweep"), [(10, 80), (200, -120), (350, 40), (0, 360)])
def test_arcs_come_back_exactly(radius: float, start: float, sweep: float) -> None:
    arc = Arc((12.0, -7.0), radius, start, sweep)
    turn = lambda t: Arc((12.0, -7.0), radius, start + sweep * t, 1.0).start  # noqa: E731
    got = fit(sample(turn))
    assert isinstance(got, Arc)
    assert got.centre == pytest.approx((12.0, -7.0), abs=1e-8)
    assert got.radius == pytest.approx(radius, abs=1e-8)
    assert abs(got.sweep) == pytest.approx(abs(arc.sweep))
    assert got.middle == pytest.approx(arc.middle, abs=1e-6) or got.full


def test_folded_line_point_ellipse_and_free_curve() -> None:
    fold = fit(sample(lambda t: (math.sin(math.pi * t) * 5, 2.0)))
    assert isinstance(fold, Line)
    assert fold.start == pytest.approx((0.0, 2.0), abs=1e-9)
    assert fold.end == pytest.approx((5.0, 2.0), abs=1e-9)
    assert fit(sample(lambda t: (1.0, 2.0 + 1e-6 * t))) is None
    wanted = Ellipse((4.0, 5.0), (6.0, 8.0), 0.4, 20.0, 200.0)
    got = fit(np.array(wanted.points(33)))
    assert isinstance(got, Ellipse)
    assert got.centre == pytest.approx(wanted.centre, abs=1e-6)
    assert got.ratio == pytest.approx(0.4, abs=1e-8)
    assert math.hypot(*got.major) == pytest.approx(10.0, abs=1e-6)
    ends = sorted([got.at(got.start_param), got.at(got.end_param)])
    assert ends == [pytest.approx(e, abs=1e-6) for e in sorted([wanted.at(20.0), wanted.at(200.0)])]
    assert isinstance(fit(sample(lambda t: (50 * t, 4 * math.sin(7 * t)))), Curve)


def test_ellipse_bounds_are_exact() -> None:
    e = Ellipse((0.0, 0.0), (3.0, 4.0), 0.5)
    # half extents of a turned ellipse: sqrt(a^2 cos^2 + b^2 sin^2)
    wide = math.hypot(5 * 0.6, 2.5 * 0.8)
    assert bounds((e,))[2] == pytest.approx(wide)


def test_overlapping_lines_and_arcs_are_joined() -> None:
    lines = [Line((0, 0), (10, 5)), Line((20, 10), (8, 4)), Line((0, 1), (10, 6)), Line((30, 15), (40, 20))]
    out = tidy(lines)
    assert [round(s.length / math.hypot(10, 5), 6) for s in out if isinstance(s, Line)] == [2.0, 1.0, 1.0]
    ring = tidy([Arc((0, 0), 5, 350, 100), Arc((0, 0), 5, 80, 200), Arc((0, 0), 5, 270, 85)])
    assert ring == (Arc((0, 0), 5, 0.0, 360.0),)
    over_zero = tidy([Arc((0, 0), 5, 350, 10), Arc((0, 0), 5, 0, 30)])
    assert len(over_zero) == 1
    assert isinstance(over_zero[0], Arc) and over_zero[0].sweep == pytest.approx(40)


def test_hidden_under_seen_goes() -> None:
    seen = [Line((5, 0), (15, 0)), Arc((0, 0), 5, 0, 90)]
    hidden = tidy([Line((0, 0), (20, 0)), Arc((0, 0), 5, 45, 90), Line((6, 0), (7, 0))], seen)
    assert hidden[:2] == (Line((0.0, 0.0), (5.0, 0.0)), Line((15.0, 0.0), (20.0, 0.0)))
    assert len(hidden) == 3
    arc = hidden[2]
    assert isinstance(arc, Arc) and (arc.start_angle, arc.sweep) == pytest.approx((90.0, 45.0), abs=0.1)
    ellipse = Ellipse((0, 0), (5, 0), 0.5)
    assert tidy([ellipse], [ellipse]) == ()


def test_order_does_not_depend_on_the_order_given() -> None:
    pieces = [Line((0, 0), (1, 3)), Line((2, 0), (2, 9)), Arc((1, 1), 2, 0, 90), Arc((1, 1), 3, 0, 90)]
    assert tidy(pieces) == tidy(pieces[::-1])
