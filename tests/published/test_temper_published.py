"""Tempering against distributors' data sheets and Hollomon and Jaffe.

Sources: easterntoolsteel.com sheets for A-2, O-1 and M-2; a stock-book table for W2; AZoM article 6214 for D2;
fushunspecialsteel.com for M2; Hollomon and Jaffe, Trans. AIME 162 (1945) 223-249 (steel R, 0.98 C);
the consecutive-treatment rule of the Dillinger help page "Hollomon parameter".
"""

import pytest

from parts.blade.retemper import (
    equal_temperature,
    equal_time,
    fit_constant,
    fit_error,
    parameter,
    parameter_of_holds,
)
from parts.blade.temper import c_to_f, choose_temper, curve_for, f_to_c
from shared.tables import table


@pytest.mark.parametrize(
    ("steel", "hrc", "low_f", "high_f"),
    [
        pytest.param("O1", 62, 375, 425, id="temper-O1-62 easterntoolsteel O-1"),
        pytest.param("A2", 61, 375, 425, id="temper-A2-61 easterntoolsteel A-2"),
        pytest.param("A2", 62, 300, 350, id="temper-A2-62 easterntoolsteel A-2 and a second page"),
        pytest.param("52100", 62, 350, 400, id="temper-52100-62 producer data"),
    ],
)
def test_temper_for_hardness(steel: str, hrc: float, low_f: float, high_f: float) -> None:
    choice = choose_temper(steel, hrc)
    assert low_f - 1e-6 <= c_to_f(choice.temperature_c) <= high_f + 1e-6
    assert choice.unique


def test_o1_62_in_celsius() -> None:
    assert choose_temper("O1", 62).temperature_c == pytest.approx(204.4, abs=0.1)


def test_a2_58_is_flat_from_700_to_900_f() -> None:
    """easterntoolsteel.com A-2: 58 HRC at 700, 800 and 900 F, so no single answer."""
    choice = choose_temper("A2", 58)
    assert not choice.unique
    assert c_to_f(choice.low_c) == pytest.approx(700)
    assert c_to_f(choice.high_c) == pytest.approx(900)
    assert "not unique" in choice.branch


@pytest.mark.parametrize(
    ("steel", "hardening_f", "temper_c", "hrc", "tolerance"),
    [
        pytest.param("W1", 1450, f_to_c(400), 62, 1.0, id="temper-W2-62 stock book, W2 used for W1"),
        pytest.param("M2", 2050, f_to_c(1025), 62, 0.5, id="temper-M2-2050 easterntoolsteel M-2"),
        pytest.param("M2", 2150, f_to_c(1050), 63, 1.0, id="temper-M2-2150-1050 fushunspecialsteel"),
        pytest.param("D2", 1850, 204, 61, 1.5, id="temper-D2-61 AZoM 6214"),
    ],
)
def test_hardness_after_temper(steel: str, hardening_f: float, temper_c: float, hrc: float, tolerance: float) -> None:
    curve = curve_for(steel, f_to_c(hardening_f))
    assert abs(curve.hardening_f - hardening_f) <= 25
    assert curve.hardness(temper_c) == pytest.approx(hrc, abs=tolerance)


def test_o1_lies_in_a_second_source() -> None:
    """artmetal.com O1 article prints a band of 1450 to 1500 F hardening; the curve used must lie in it below 800 F."""
    band = table("steel")["temper_curve"]["O1_range"]
    curve = curve_for("O1")
    for f, low, high in zip(band["temper_f"], band["hrc_low"], band["hrc_high"], strict=True):
        if 300 <= f <= 700:
            assert low - 1 <= curve.hardness(f_to_c(f)) <= high + 1


def test_parameter_of_200_c_for_2_h() -> None:
    assert parameter(200, 2) == pytest.approx(9.6054, abs=0.001)


def test_parameter_with_minutes_needs_its_own_constant() -> None:
    """C for minutes = C for hours - log10 60: 120 min with 18.222 is the same state as 2 h with 20."""
    assert parameter(200, 120, 18.222) == pytest.approx(parameter(200, 2), abs=0.001)


@pytest.mark.parametrize(("constant", "hours"), [(20.0, 35.9), (13.3, 13.8)])
def test_400_f_2_h_moved_to_350_f(constant: float, hours: float) -> None:
    value = parameter(f_to_c(400), 2, constant)
    found = equal_time(value, f_to_c(350), constant)
    assert found == pytest.approx(hours, rel=0.01)
    assert equal_temperature(value, found, constant) == pytest.approx(f_to_c(350), abs=1e-6)


def test_two_tempers_add_their_times() -> None:
    """Dillinger: consecutive holds are turned into equal times and added."""
    assert parameter_of_holds([(200, 2), (200, 2)]) == pytest.approx(9.7479, abs=0.001)


def test_constant_that_fits_hollomon_and_jaffe_0_98_carbon() -> None:
    """Hollomon and Jaffe 1945, steel R, rows of 100 to 300 degC: C 13.3 rms 0.80, C 20 rms 1.16 HRC."""
    data = table("steel")["hollomon_jaffe_0_98_c"]
    rows = [
        (t, s / 3600, data["hrc"][i][j])
        for i, s in enumerate(data["time_s"])
        for j, t in enumerate(data["temperature_c"])
        if 100 <= t <= 300
    ]
    temperatures, hours, hrc = zip(*rows, strict=True)
    best, rms = fit_constant(temperatures, hours, hrc)
    assert best == pytest.approx(13.3, abs=0.5)
    assert rms == pytest.approx(0.80, abs=0.05)
    assert fit_error(temperatures, hours, hrc, 20.0) == pytest.approx(1.16, abs=0.05)
