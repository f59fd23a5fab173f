"""Quantities as a shop writes them."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shared import units
from shared.units import QuantityError, inch_fraction, parse, parse_hardness


@pytest.mark.parametrize(
    ("text", "kind", "inside"),
    [
        ("2-3/8 in", units.LENGTH, 60.325),
        ("2 3/8 in", units.LENGTH, 60.325),
        ('3/8"', units.LENGTH, 9.525),
        ("60.3 mm", units.LENGTH, 60.3),
        ("60mm", units.LENGTH, 60.0),
        ("0.004 in", units.LENGTH, 0.1016),
        ("4 thou", units.LENGTH, 0.1016),
        ("1 ft", units.LENGTH, 304.8),
        ("45 deg", units.ANGLE, 45.0),
        ("45°", units.ANGLE, 45.0),
        ("32 F", units.TEMPERATURE, 0.0),
        ("-40F", units.TEMPERATURE, -40.0),
        ("−320.4 °F", units.TEMPERATURE, -195.77777778),
        ("20C", units.TEMPERATURE, 20.0),
        ("77.35 K", units.TEMPERATURE, -195.8),
        ("9 F", units.TEMPERATURE_DIFFERENCE, 5.0),
        ("4%", units.FRACTION, 0.04),
        ("1/8 in/ft", units.RATIO_PER_LENGTH, 0.125 / 12),
        ("1.04 %", units.RATIO_PER_LENGTH, 0.0104),
        ("10.4 mm/m", units.RATIO_PER_LENGTH, 0.0104),
        ("1 lb", units.MASS, 0.45359237),
        ("1 in3", units.VOLUME, 0.016387064),
        ("1 gal", units.VOLUME, 3.785411784),
        ("1 lb/in3", units.DENSITY, 27679.9047),
        ("2 h", units.TIME, 7200.0),
    ],
)
def test_reads(text, kind, inside):
    # conversion factors: exact definitions of inch, pound and US gallon (NIST SP 811)
    assert parse(text, kind) == pytest.approx(inside, rel=1e-7)


@pytest.mark.parametrize(
    "text", ["", "wide", "3/0 in", "2..5 in", "5 furlongs", "5 kg", "1-2 in", "--3 mm", "nan mm", True, None, [1]]
)
def test_refuses(text):
    with pytest.raises(QuantityError):
        parse(text, units.LENGTH)


def test_bare_number_needs_a_unit_on_the_command_line_but_not_in_a_file():
    with pytest.raises(QuantityError, match="bare"):
        parse("2", units.LENGTH)
    assert parse(2, units.LENGTH, "in") == pytest.approx(50.8)


@pytest.mark.parametrize(
    ("text", "want"), [("62HRC", (62.0, "HRC")), ("746 HV", (746.0, "HV")), ("82.3HRA", (82.3, "HRA"))]
)
def test_hardness(text, want):
    assert parse_hardness(text) == want


@pytest.mark.parametrize("text", ["62", "62 HRX", "HRC", 62])
def test_hardness_without_scale_is_refused(text):
    with pytest.raises(QuantityError):
        parse_hardness(text)


@given(st.integers(0, 600), st.integers(0, 63))
def test_inch_fraction_round_trips(whole, part):
    mm = (whole + part / 64) * 25.4
    text = inch_fraction(mm)
    assert not text.startswith("~")
    assert parse(f"{text} in", units.LENGTH) == pytest.approx(mm, abs=1e-9)


@given(st.floats(0.01, 5000))
def test_inch_fraction_is_the_nearest(mm):
    text = inch_fraction(mm).lstrip("~")
    assert abs(parse(f"{text} in", units.LENGTH) - mm) <= 25.4 / 128 + 1e-9


@given(st.floats(-1e6, 1e6).filter(lambda v: abs(v) > 1e-6))
def test_mm_reads_back_what_was_written(value):
    assert math.isclose(parse(f"{value:.9f} mm", units.LENGTH), value, rel_tol=1e-6, abs_tol=1e-8)
