"""Cold treatment, liquid nitrogen and oxygen against published values.

Sources: Koistinen and Marburger 1959; nitrogen at 77.35 K and 63.15 K; ASM deep cryogenic practice; University of
Wisconsin-Madison liquid nitrogen data sheet; PMC9017651 Table 2; University of Oxford S4/03 Appendix 1.
"""

import pytest

from parts.blade.cryo import (
    boiling_c,
    gas_m3,
    martensite_start_c,
    nitrogen_needed,
    oxygen_after_release,
    oxygen_fall_steady,
    oxygen_warnings,
    retained_austenite,
    set_point,
)
from parts.blade.temper import c_to_f, f_to_c
from shared.errors import InputError


def test_koistinen_marburger_quench() -> None:
    assert retained_austenite(200, 20) == pytest.approx(0.1381, abs=0.002)


def test_set_point_minus_350_f_is_below_the_triple_point() -> None:
    with pytest.raises(InputError, match=r"29\.6 F below the boiling point"):
        set_point(f_to_c(-350))


def test_set_point_minus_356_f_is_refused() -> None:
    with pytest.raises(InputError, match="freezes at -346"):
        set_point(f_to_c(-356))


def test_set_point_minus_330_f_is_warned_about() -> None:
    point = set_point(f_to_c(-330))
    assert point.warnings
    assert point.reached_c == pytest.approx(boiling_c())


@pytest.mark.parametrize("f", [-300, -320, -120])
def test_usual_set_points_pass(f: float) -> None:
    """ASM deep cryogenic practice is -300 F (-184.44 degC); -320 F is nitrogen's own temperature."""
    assert set_point(f_to_c(f)).warnings == ()
    assert f_to_c(-300) == pytest.approx(-184.44, abs=0.05)


def test_boiling_point_in_fahrenheit() -> None:
    assert c_to_f(boiling_c()) == pytest.approx(-320.4, abs=0.1)


def test_one_kilogram_of_iron() -> None:
    """Integral of the iron table with the UW-Madison nitrogen figures: 74.7 kJ, 0.376 kg, 0.466 l."""
    n = nitrogen_needed(1.0, 293.15 - 273.15, 77.35 - 273.15)
    assert n.heat_kj == pytest.approx(74.7, rel=0.03)
    assert n.kg == pytest.approx(0.376, rel=0.03)
    assert n.litres == pytest.approx(0.466, rel=0.03)


def test_iron_lies_between_copper_and_stainless_steel() -> None:
    """PMC9017651 Table 2, 300 K to boiling, latent heat only: copper 0.46, stainless steel 0.53 l/kg."""
    litres = nitrogen_needed(1.0, 300 - 273.15, 77.35 - 273.15).litres
    assert litres == pytest.approx(0.485, rel=0.03)
    assert 0.46 < litres < 0.53


def test_gas_from_a_litre() -> None:
    """24.54 ft3 per litre at 70 F, UW-Madison."""
    assert gas_m3(1.0) == pytest.approx(0.6949, abs=0.004)


def test_oxford_steady_loss() -> None:
    """Five dewars, 0.15 l/day each, 36 m3, 0.4 changes an hour: a fall of 0.06 percentage points."""
    assert oxygen_fall_steady(36, 5 * 0.15, 0.4) == pytest.approx(0.06, abs=0.005)


def test_oxford_sudden_release() -> None:
    percent = oxygen_after_release(36, 10)
    assert percent == pytest.approx(16.92, abs=0.02)
    assert oxygen_warnings(percent)


def test_oxford_filling_loss() -> None:
    """A tenth of a 50 l vessel lost while it is filled, 36 m3: 18.96 percent, below the alarm."""
    percent = oxygen_after_release(36, 0.1 * 50)
    assert percent == pytest.approx(18.96, abs=0.03)
    assert oxygen_warnings(percent)


def test_martensite_start_is_measured_not_reckoned_from_bulk_carbon() -> None:
    """MsDatabase_2022 measures 196 degC for 0.96 C steel where Andrews' formula gives 114.7."""
    low, high = martensite_start_c("W1")
    andrews = 539 - 423 * 0.96 - 30.4 * 0.6
    assert andrews == pytest.approx(114.7, abs=0.2)
    assert low > andrews + 40
    assert low <= 196 <= high
