"""Hardness, tempering, heat-treating route and cold treatment."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from parts.blade import cryo
from parts.blade.hardness import SCALES, blade_hrc, convert, scale_range, steel_name, steels
from parts.blade.heat_treat import heat_treat_plan, soak_minutes
from parts.blade.retemper import correct_temper, equal_time, parameter, parameter_of_holds
from parts.blade.temper import c_to_f, choose_temper, curve_for, curves, f_to_c
from shared.errors import InputError

QUICK = settings(max_examples=30, deadline=None)


@QUICK
@given(st.sampled_from(SCALES), st.floats(0, 1), st.floats(0, 1))
def test_conversion_is_monotone(scale, a, b) -> None:
    low, high = 20, 65 if scale == "HBW" else 68
    x, y = sorted((low + a * (high - low), low + b * (high - low)))
    if y - x > 1e-6:
        assert convert(x, "HRC", scale) < convert(y, "HRC", scale)


@QUICK
@given(st.sampled_from(SCALES), st.sampled_from(SCALES), st.floats(0, 1))
def test_conversion_round_trips(scale, other, share) -> None:
    low, high = scale_range(scale)
    if "HBW" in (scale, other):  # the Brinell column ends at 65 HRC
        high = convert(65, "HRC", scale)
    value = low + share * (high - low)
    assert convert(convert(value, scale, other), other, scale) == pytest.approx(value, rel=1e-9)


def test_scale_mix_ups() -> None:
    with pytest.raises(InputError, match="did you mean 62 HRC"):
        blade_hrc(62, "HRB")
    with pytest.raises(InputError, match="did you mean 62 HRC"):
        convert(62, "HV", "HRC")
    with pytest.raises(InputError, match="HRB is for soft metals"):
        convert(62, "HRB", "HRC")
    with pytest.raises(InputError, match="at most 65 HRC for HBW"):
        convert(67, "HRC", "HBW")
    assert blade_hrc(746, "HV") == pytest.approx(62)


def test_steel_names() -> None:
    assert steels() == ["A2", "O1", "D2", "M2", "W1", "52100"]
    assert steel_name(" a-2") == "A2"
    assert steel_name("100Cr6") == steel_name("E52100") == "52100"
    with pytest.raises(InputError, match="did you mean A2"):
        steel_name("A22")


def test_every_curve_has_its_hardening_temperature_inside_its_range() -> None:
    for steel in steels():
        for curve in curves(steel):
            assert list(curve.temper_f) == sorted(curve.temper_f)
            assert len(curve.temper_f) == len(curve.hrc) == len(curve.half_band)
            assert curve.as_quenched >= max(curve.hrc) - 1.0
            assert 1400 <= curve.hardening_f <= 2250
        assert curve_for(steel).steel == steel


@QUICK
@given(st.sampled_from(["A2", "O1", "D2", "W1", "52100"]), st.floats(0, 1))
def test_every_answer_gives_the_target_back(steel, share) -> None:
    curve = curve_for(steel)
    target = min(curve.hrc) + share * (max(curve.hrc) - min(curve.hrc))
    for low, high in curve.answers(target):
        assert curve.hardness(f_to_c(low)) == pytest.approx(target, abs=1e-6)
        assert curve.hardness(f_to_c(high)) == pytest.approx(target, abs=1e-6)
    choice = choose_temper(steel, target)
    assert choice.temperature_c == pytest.approx(f_to_c(curve.answers(target)[0][0]))
    assert choice.band[0] <= target <= choice.band[1]


@pytest.mark.parametrize(("steel", "hrc"), [("A2", 63), ("A2", 50), ("O1", 65), ("M2", 66), ("W1", 68), ("52100", 66)])
def test_hardness_out_of_reach(steel, hrc) -> None:
    with pytest.raises(InputError, match="HRC for"):
        choose_temper(steel, hrc)


def test_outside_the_curve_is_refused() -> None:
    with pytest.raises(InputError, match="nothing is extrapolated"):
        curve_for("A2").hardness(f_to_c(250))
    with pytest.raises(InputError, match="within 25 F of"):
        curve_for("A2", f_to_c(1900))


def test_m2_takes_the_hardening_temperature_that_reaches_the_target() -> None:
    assert choose_temper("M2", 62).curve.hardening_f == 2050
    hotter = choose_temper("M2", 64)
    assert hotter.curve.hardening_f == 2150
    assert hotter.tempers == 3
    with pytest.raises(InputError):
        choose_temper("M2", 64, f_to_c(2050))


@QUICK
@given(st.floats(100, 600), st.floats(0.1, 30), st.floats(100, 600), st.floats(10, 22))
def test_time_for_temperature_and_back(t1, h1, t2, c) -> None:
    value = parameter(t1, h1, c)
    try:
        h2 = equal_time(value, t2, c)
    except InputError:
        return
    if 1e-200 < h2 < 1e200:
        assert parameter(t2, h2, c) == pytest.approx(value, rel=1e-9)
        assert (h2 > h1) == (t2 < t1) or t1 == pytest.approx(t2)


def test_order_of_holds_does_not_matter() -> None:
    assert parameter_of_holds([(200, 2), (230, 1)]) == pytest.approx(parameter_of_holds([(230, 1), (200, 2)]))
    assert parameter_of_holds([(200, 2), (230, 1)]) > parameter(230, 1)


def test_a_piece_that_reads_high_gets_one_hotter_temper() -> None:
    c = correct_temper("A2", 61, 61.8, f_to_c(400))
    assert c.reads == "high"
    assert c.temperature_c is not None
    # the curve falls 1 HRC in 100 F, so 0.8 HRC is an 80 F step; one hold must make up for the two given
    assert 480 < c_to_f(c.temperature_c) < 510
    wanted = parameter(f_to_c(480), 4)
    assert parameter_of_holds([(f_to_c(400), 4), (c.temperature_c, 2)]) == pytest.approx(wanted, rel=1e-6)


def test_a_piece_that_reads_low_or_right() -> None:
    assert correct_temper("A2", 61, 60, f_to_c(400)).reads == "low"
    assert "no temper raises it" in correct_temper("O1", 62, 60, f_to_c(400)).advice
    assert correct_temper("A2", 61, 61.3, f_to_c(400)).reads == "as wanted"


@pytest.mark.parametrize("steel", ["A2", "O1", "D2", "M2", "W1", "52100"])
def test_route_of_every_steel(steel) -> None:
    plan = heat_treat_plan(steel, 62 if steel != "D2" else 60, 3.2)
    names = [s.name for s in plan.steps]
    assert names.index("harden") < names.index("quench") < names.index(f"temper 1 of {plan.temper.tempers}")
    assert all(s.source for s in plan.steps)
    harden = plan.steps[names.index("harden")]
    assert harden.temperature_c == (plan.temper.curve.hardening_c,) * 2
    assert harden.minutes == soak_minutes(steel, 3.2)
    assert plan.cautions


def test_a2_at_62_hrc() -> None:
    plan = heat_treat_plan("A2", 62, 3.2)
    assert plan.as_quenched == (64, 65)
    assert any("outside the 350 to 1000 F" in w for w in plan.warnings)
    cold = heat_treat_plan("A2", 62, 3.2, cold_c=f_to_c(-300))
    assert c_to_f(cold.temper.temperature_c) == pytest.approx(400)
    assert cold.band == (61, 63)
    names = [s.name for s in cold.steps]
    assert names.index("quench") < names.index("cold treatment") < names.index("temper 1 of 2")
    assert not any("outside" in w for w in cold.warnings)


def test_cold_treatment_warnings() -> None:
    assert any("does little for W1" in w for w in heat_treat_plan("W1", 62, 3.2, cold_c=-80).warnings)
    assert any("below the boiling point" in w for w in heat_treat_plan("A2", 62, 3.2, cold_c=f_to_c(-330)).warnings)
    with pytest.raises(InputError, match="freezes"):
        heat_treat_plan("A2", 62, 3.2, cold_c=f_to_c(-356))


def test_soak_grows_with_the_section() -> None:
    assert soak_minutes("A2", 3) == (30, 37.5)
    assert soak_minutes("A2", 20) == (30, 45)
    assert soak_minutes("52100", 40) == (45, 70)


@QUICK
@given(st.floats(-195, 60), st.floats(-195, 60), st.floats(-195, 60))
def test_heat_adds_up(a, b, c) -> None:
    assert cryo.enthalpy(a, b) + cryo.enthalpy(b, c) == pytest.approx(cryo.enthalpy(a, c), abs=1e-9)
    if a > b + 1e-6:
        assert cryo.enthalpy(a, b) > 0


def test_warm_start_is_hotter_than_the_table_and_costs_more() -> None:
    """From 65 degC, past the table's end at 27 degC: about 0.46 kJ/(kg K) more for the extra 38 K."""
    extra = cryo.enthalpy(65, 26.85)
    assert extra / (65 - 26.85) == pytest.approx(0.455, abs=0.01)
    with pytest.raises(InputError, match="to 150 C"):
        cryo.enthalpy(300, 20)


def test_nitrogen_refusals_and_warnings() -> None:
    with pytest.raises(InputError, match="swapped"):
        cryo.nitrogen_needed(1, -180, 20)
    warned = cryo.nitrogen_needed(1, 20, f_to_c(-330))
    assert len(warned.warnings) == 2
    assert warned.litres == pytest.approx(cryo.nitrogen_needed(1, 20, cryo.boiling_c()).litres)
    assert cryo.nitrogen_needed(1, 20, f_to_c(-300)).warnings == ()


@QUICK
@given(st.floats(1, 200), st.floats(0, 500))
def test_oxygen_stays_between_none_and_air(room, litres) -> None:
    percent = cryo.oxygen_after_release(room, litres)
    assert 0 <= percent <= 21
    assert bool(cryo.oxygen_warnings(percent)) == (percent < 19.5)


def test_oxygen_bad_input() -> None:
    with pytest.raises(InputError):
        cryo.oxygen_after_release(0, 1)
    with pytest.raises(InputError):
        cryo.oxygen_after_release(10, -1)


def test_more_cold_leaves_less_austenite() -> None:
    warm, cold = cryo.retained_after("A2", 20), cryo.retained_after("A2", -184)
    assert cold[1] < warm[0]
    assert cryo.retained_austenite(150, 200) == 1
