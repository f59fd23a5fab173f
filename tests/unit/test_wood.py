"""Wood, grain, moisture and blanks: properties that hold for every wood and size."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from parts.commands.load import load_design
from parts.handle import grain, moisture, wood
from parts.handle.blanks import WoodPractice, knob_blank, tote_blank, tote_blank_from_envelope
from parts.handle.lumber import thickness_to_buy
from parts.plane.wood import wood_numbers_of
from shared.errors import InputError, RequestError

SPECS = Path(__file__).parents[2] / "specs"
woods = st.sampled_from(wood.species_ids())
SHOP = moisture.Climate("shop", 20.0, 0.45)
DRY = moisture.Climate("customer", 21.0, 0.25)


@given(st.floats(0, 60), st.floats(0.02, 0.95), st.floats(0.001, 0.04))
def test_emc_grows_with_humidity(t, h, dh):
    assert moisture.emc_percent(t, h + dh) > moisture.emc_percent(t, h)


@given(woods, st.floats(6, 14), st.floats(6, 14))
def test_both_methods_agree_in_sign_and_size(name, m1, m2):
    one = wood.species(name)
    a = moisture.movement(one, "flat", 100, m1, m2, "coefficient").change_mm
    b = moisture.movement(one, "flat", 100, m1, m2, "green-basis").change_mm
    assert a == pytest.approx(b, abs=0.03 + 0.1 * abs(a))


@given(woods, st.floats(0, 89), st.floats(0.5, 45))
def test_a_length_moves_more_the_farther_it_lies_off_the_grain(name, angle, more):
    one = wood.species(name)
    lengths = [moisture.movement_off_grain(one, 100, a, 6, 12) for a in (0, angle, min(angle + more, 90), 90)]
    assert 0 < lengths[0] <= lengths[1] < lengths[2] <= lengths[3]
    assert lengths[3] == pytest.approx(moisture.movement(one, "flat", 100, 6, 12).change_mm)
    # a rectangle about the length turns with it: both sides together always move as much
    square = moisture.movement_off_grain(one, 100, 90 - min(angle, 90), 6, 12)
    assert lengths[1] + square == pytest.approx(lengths[0] + lengths[3])


def test_a_length_along_the_grain_loses_a_thirtieth_of_its_shrinkage_a_percent():
    # 0.1 to 0.2 % of the green length from 30 % to dry: Wood Handbook FPL-GTR-190 chapter 4, upper end
    cherry = wood.species("black-cherry")
    assert moisture.movement_off_grain(cherry, 1000, 0, 30, 0) == pytest.approx(-2.0)
    assert moisture.movement_off_grain(cherry, 1000, 0, 12, 6) == pytest.approx(-0.4, abs=0.001)


@given(woods, st.floats(0, 45), st.floats(0.5, 45))
def test_strength_falls_with_the_angle(name, angle, more):
    one = wood.species(name)
    assert grain.short_grain_strength_mpa(one, angle + more) < grain.short_grain_strength_mpa(one, angle)


def test_modulus_and_aliases():
    cherry = wood.species("black-cherry")
    assert grain.strength_at_angle(cherry, "MOR", 0).value_mpa == pytest.approx(85.0)
    assert grain.strength_at_angle(cherry, "tension", 90).value_mpa == pytest.approx(3.9)
    assert grain.strength_at_angle(cherry, "modulus", 90).value_mpa == pytest.approx(0.08 * 10300)
    with pytest.raises(RequestError, match="sugar-maple"):
        grain.strength_at_angle(wood.species("sugar-maple"), "tension", 10)
    with pytest.raises(InputError, match="bending"):
        grain.strength_at_angle(cherry, "bounce", 10)
    with pytest.raises(InputError, match="0 to 90"):
        grain.strength_at_angle(cherry, "bending", 91)


def test_unknown_species_names_the_nearest():
    with pytest.raises(InputError, match="nearest: black-cherry"):
        wood.species("blackcherry")


def test_best_grain_runs_along_a_lone_section_and_between_two_like_ones():
    cherry = wood.species("black-cherry")
    lone = [grain.Section("grip", 60.0, 1000.0)]
    assert grain.best_grain_deg(cherry, lone)[0] == pytest.approx(60.0)
    two = [grain.Section("grip", 70.0, 1000.0), grain.Section("toe", 10.0, 1000.0)]
    angle, _, moment = grain.best_grain_deg(cherry, two)
    assert angle == pytest.approx(40.0, abs=0.5)
    assert all(grain.weakest(cherry, two, angle + d)[1] <= moment for d in (-5, 5))


@pytest.mark.parametrize(("angle", "verdict"), [(3.0, "passed"), (8.0, "warning"), (20.0, "failed")])
def test_short_grain_is_judged_by_its_slope(angle, verdict):
    finding = grain.grain_finding(wood.species("black-walnut"), angle, "the grip")
    assert finding.verdict == verdict
    assert (finding.change == "") == (verdict == "passed")


def test_rod_clearance_follows_the_drier_customer():
    maple = wood.species("sugar-maple")
    shrink = -moisture.movement(maple, "flat", 8.0, SHOP.emc_percent, DRY.emc_percent).change_mm
    assert shrink > 0
    assert moisture.rod_clearance_mm(maple, 8.0, SHOP.emc_percent, DRY.emc_percent) == pytest.approx(shrink + 0.1)
    assert moisture.moisture_finding(maple, SHOP, DRY, 0.5, 8.0).verdict == "passed"
    assert moisture.moisture_finding(maple, SHOP, DRY, 0.0, 8.0).verdict == "failed"
    assert moisture.acclimation_finding(SHOP.emc_percent + 3, SHOP).verdict == "warning"
    assert moisture.acclimation_finding(SHOP.emc_percent - 1.9, SHOP).verdict == "passed"


def test_blank_sizes_by_hand():
    practice = WoodPractice(bandsaw_allowance_mm=2.0, planing_per_face_mm=1.5, turning_allowance_mm=1.0)
    box = tote_blank_from_envelope(100.0, 80.0, 24.0, practice, 90.0)
    assert (box.length_mm, box.width_mm, box.thickness_mm) == pytest.approx((84.0, 104.0, 27.0))
    knob = knob_blank(40.0, 44.0, practice)
    assert (knob.length_mm, knob.width_mm, knob.thickness_mm) == pytest.approx((50.0, 42.0, 42.0))
    assert box.buy.name == "5/4" and knob.buy.name == "7/4"


@given(st.floats(-90, 90))
def test_outline_sits_in_its_blank_whatever_the_grain(angle):
    practice = WoodPractice()
    blank = tote_blank([(0, 0), (90, 0), (80, 90), (40, 100)], 24.0, angle, practice)
    xs, ys = [p[0] for p in blank.outline], [p[1] for p in blank.outline]
    a = practice.bandsaw_allowance_mm
    assert min(xs) == pytest.approx(a) and max(xs) == pytest.approx(blank.length_mm - a)
    assert min(ys) == pytest.approx(a) and max(ys) == pytest.approx(blank.width_mm - a)


def test_thickness_to_buy_counts_the_scant():
    assert thickness_to_buy(30.16).name == "5/4"
    assert thickness_to_buy(30.17).name == "6/4"
    with pytest.raises(InputError, match="16/4"):
        thickness_to_buy(120)


@pytest.mark.parametrize(
    ("name", "word"), [("white-oak", "confirmed"), ("black-walnut", "suspected"), ("black-cherry", "A4")]
)
def test_cautions_say_what_the_dust_is(name, word):
    cautions = wood.wood_cautions(name)
    assert {c.topic for c in cautions} == {"dust", "small pieces", "turning"}
    assert word in cautions[0].text and all(c.source for c in cautions)


@pytest.mark.parametrize(
    "key, number",
    [
        ("customer_humidity_low", "knob_movement_mm"),
        ("customer_humidity_low", "nut_travel_needed_mm"),
        ("customer_humidity_high", "nut_travel_needed_mm"),
        ("shop_humidity", "knob_movement_mm"),
    ],
)
def test_each_climate_of_the_shop_file_moves_its_number(tmp_path, key, number):
    def value(humidity):
        shop = tmp_path / "shop.toml"
        shop.write_text(f'[climate]\n{key} = "{humidity}%"\n')
        return wood_numbers_of(load_design(SPECS / "heron.toml", shop)).value(number)

    low, high = {"customer_humidity_low": (20, 40), "customer_humidity_high": (60, 85), "shop_humidity": (40, 50)}[key]
    a, b = value(low), value(high)
    assert abs(a - b) > 0.005
    # the drier the customer, the more a knob made in the shop shrinks
    if number == "knob_movement_mm":
        assert a < b if key == "customer_humidity_low" else a > b
