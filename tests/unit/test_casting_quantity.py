"""Quantities: castings, moulds, ladles, taps."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from shared.casting.quantity import (
    castings_to_pour,
    chance_of_enough,
    heats_for,
    moulds_for,
    moulds_per_ladle,
    moulds_within,
)
from shared.errors import InputError, RequestError


@given(st.integers(1, 400), st.floats(0.0, 0.5), st.floats(0.5, 0.999))
def test_confidence_is_met_and_not_with_one_less(good: int, scrap: float, confidence: float) -> None:
    """Against scipy.stats' binomial distribution."""
    n = castings_to_pour(good, scrap, confidence)
    assert n >= good
    assert stats.binom.sf(good - 1, n, 1 - scrap) >= confidence - 1e-12
    if n > good:
        assert stats.binom.sf(good - 1, n - 1, 1 - scrap) < confidence + 1e-12


@given(st.integers(0, 60), st.integers(0, 60), st.floats(0.0, 0.9))
def test_chance_against_the_distribution(poured: int, good: int, scrap: float) -> None:
    assert chance_of_enough(poured, good, scrap) == pytest.approx(
        stats.binom.sf(good - 1, poured, 1 - scrap), abs=1e-12
    )


def test_one_hundred_castings_at_two_a_mould_are_fifty_moulds() -> None:
    assert castings_to_pour(100, 0.0, 0.95) == 100
    assert moulds_for(100, 2) == 50
    assert moulds_for(101, 2) == 51


@pytest.mark.parametrize(("good", "scrap", "confidence"), [(0, 0.1, 0.9), (5, 1.0, 0.9), (5, -0.1, 0.9), (5, 0.1, 1.0)])
def test_bad_quantities(good: int, scrap: float, confidence: float) -> None:
    with pytest.raises(InputError):
        castings_to_pour(good, scrap, confidence)


def test_heats_by_mass() -> None:
    assert heats_for(900.0, 450.0) == 2
    assert heats_for(900.1, 450.0) == 3
    with pytest.raises(InputError):
        heats_for(1.0, 0.0)
    with pytest.raises(InputError):
        moulds_for(1, 0)


def test_no_mould_is_poured_from_two_ladles() -> None:
    assert moulds_per_ladle(113.4, 0.04, 7.0) == 15  # 108.9 kg usable
    with pytest.raises(RequestError, match="use a larger ladle"):
        moulds_per_ladle(5.0, 0.04, 5.0)


@given(st.floats(200, 900), st.floats(0, 120), st.floats(1, 20), st.floats(0, 20), st.integers(1, 4))
def test_moulds_within_the_time_limit(limit: float, first: float, fill: float, change: float, pourers: int) -> None:
    n = moulds_within(limit, first, fill, change, pourers) // pourers
    assert first + n * fill + (n - 1) * change <= limit + 1e-6
    assert first + (n + 1) * fill + n * change > limit - 1e-6


def test_a_limit_too_short_for_one_mould() -> None:
    with pytest.raises(RequestError, match="past the limit"):
        moulds_within(60.0, 90.0, 5.0, 5.0)
