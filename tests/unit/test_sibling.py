"""A new size from a sibling: what follows what, sizes as a person writes them, and refusals."""

import re
from pathlib import Path

import pytest

from parts.plane.checks import check_design
from parts.plane.design import design
from parts.plane.rules.trial import with_value
from parts.plane.shop import load_shop
from parts.plane.sibling import RULES, Wish
from parts.plane.sibling_fit import REMEDIES, first_draft, fit
from parts.plane.sibling_other import follows, smaller_grip
from parts.plane.sibling_spec import sized, stated_range
from parts.plane.spec import load_spec, spec_of
from shared.errors import InputError, RequestError
from shared.human import Step, rounded, said, written
from shared.specfile import parse_text
from shared.units import LENGTH, parse

SPECS = Path(__file__).parents[2] / "specs"
SHOP = load_shop(SPECS / "shop.toml")
IN = 25.4


def spec(name):
    return load_spec(SPECS / f"{name}.toml")


def made(name, length, blade):
    new = sized(spec(name), Wish("Plover", length, blade), SHOP)
    return new, spec_of(parse_text("new", new.text))


@pytest.mark.parametrize(
    ("mm", "units", "toml", "sentence"),
    [
        (17.5 * IN, "inch", "17.5", "17-1/2 in"),
        (2.1875 * IN, "inch", '"2-3/16 in"', "2-3/16 in"),
        (0.135 * IN, "inch", "0.135", "0.135 in"),
        (2 * IN, "inch", "2", "2 in"),
        (64.0, "mm", "64", "64 mm"),
        (4.2, "mm", "4.2", "4.2 mm"),
        (36.0, "inch", '"36 mm"', "36 mm"),
    ],
)
def test_sizes_are_written_as_a_person_writes_them(mm, units, toml, sentence):
    assert written(mm, units) == toml
    assert said(mm, units) == sentence
    # what is written reads back as the same size
    line = "x = " + toml
    assert line.count('"') in (0, 2)


@pytest.mark.parametrize(("way", "inches"), [("near", 2.625), ("up", 2.6875), ("down", 2.625)])
def test_rounding_has_a_direction(way, inches):
    assert rounded(2.65 * IN, Step(1 / 16, 0.5), "inch", way) == pytest.approx(inches * IN)


@pytest.mark.parametrize(
    ("name", "length", "blade"),
    [("heron", 17.5 * IN, 2.25 * IN), ("heron", 10 * IN, 2 * IN), ("heron-metric", 420, 57), ("wren", 6.5 * IN, 36)],
)
def test_a_new_size_passes_its_checks(name, length, blade):
    new, loaded = made(name, length, blade)
    assert loaded.spec.body.length == pytest.approx(length)
    assert loaded.spec.blade.width == pytest.approx(blade)
    assert [f.code for f in check_design(design(loaded, SHOP)) if f.verdict == "failed"] == []
    assert new.verdict.works
    # every line but the name says what decides it
    lines = [line for line in new.text.splitlines() if " = " in line]
    assert [line for line in lines if "#" not in line] == ['name = "Plover"']


def test_what_follows_the_blade_and_what_the_length():
    _, loaded = made("heron", 17.5 * IN, 2.25 * IN)
    old, new = spec("heron").spec, loaded.spec
    cheeks = 2 * (new.body.cheek_thickness - old.body.cheek_thickness)
    room = new.body.width - old.body.width - 0.25 * IN - cheeks
    assert 0 <= room + 1e-9 < IN / 16  # rounded up, so that nothing loses its room
    grown = new.body.cheek_thickness / old.body.cheek_thickness
    assert grown == pytest.approx((17.5 / 14) ** 0.25, abs=0.5 / 10)  # to the nearest 64th of an inch, of ten
    assert new.body.mouth_from_toe / new.body.length == pytest.approx(4.5 / 14, abs=0.005)


def test_hand_work_and_process_stay():
    _, loaded = made("heron", 17.5 * IN, 2.25 * IN)
    old, new = spec("heron").spec, loaded.spec
    assert new.handle == old.handle
    assert new.bed == old.bed
    assert new.chipbreaker == old.chipbreaker
    assert new.body.alloy == old.body.alloy
    assert (new.blade.steel, new.blade.hardness) == (old.blade.steel, old.blade.hardness)


def test_a_short_body_moves_its_mouth_ahead_and_says_so():
    first = first_draft(spec("heron"), Wish("Plover", 10 * IN, 2 * IN))
    new, loaded = made("heron", 10 * IN, 2 * IN)
    assert loaded.spec.body.mouth_from_toe < first.entries["body.mouth_from_toe"].mm
    why = {key: reason for key, _, reason in new.decisions}["body.mouth_from_toe"]
    assert "then further ahead" in why


def test_a_set_tote_is_left_open_where_a_short_body_needs_it():
    text = (SPECS / "heron.toml").read_text().replace("[handle]", "[handle]\ntoe_reach = 0.8\nlean = 18")
    loaded = spec_of(parse_text("heron", text))
    new = sized(loaded, Wish("Plover", 10.5 * IN, 2 * IN), SHOP)
    assert "toe_reach" not in new.text
    assert ("handle", "open") in {(key, value) for key, value, _ in new.decisions}


@pytest.mark.parametrize(
    ("length", "blade", "key"), [(40, 2, "--length"), (14, 3, "--blade-width"), (2, 2, "--length")]
)
def test_what_no_rule_covers_is_refused_with_the_covered_range(length, blade, key):
    with pytest.raises(InputError) as err:
        made("heron", length * IN, blade * IN)
    assert [f.key for f in err.value.faults] == [key]
    assert "8.4000 in" in str(err.value) if key == "--length" else "2.5000 in" in str(err.value)


SHORT = Wish("Plover", 8.5 * IN, 2 * IN)


@pytest.fixture(scope="module")
def refused():
    with pytest.raises(RequestError) as err:
        sized(spec("heron"), SHORT, SHOP)
    return str(err.value)


def test_a_length_that_cannot_work_names_those_that_do(refused):
    assert "H01" in refused
    assert "Lengths that work" in refused
    shortest = parse(re.search(r"with this blade: ([0-9/-]+ in) to", refused)[1], LENGTH)
    assert made("heron", shortest, 2 * IN)[0].verdict.works
    assert not follows(spec("heron"), Wish("Plover", shortest - IN / 8, 2 * IN), SHOP)


def test_only_what_works_in_the_sibling_is_named(refused):
    assert "handle.grip" not in refused  # not even the least grip would do
    angle = re.search(r"In the sibling: raise bed.angle to ([0-9.]+) deg", refused)[1]
    assert sized(with_value(spec("heron"), {"bed.angle": f"{angle} deg"}), SHORT, SHOP).verdict.works


def test_a_smaller_grip_is_named_by_the_greatest_that_works():
    large, wish = with_value(spec("heron"), {"handle.grip": "105 mm"}), Wish("Plover", 9.5 * IN, 2 * IN)
    assert not follows(large, wish, SHOP)
    named = smaller_grip(large, wish, SHOP, stated_range)
    grip = parse(named.removeprefix("lower handle.grip to "), LENGTH)
    assert follows(with_value(large, {"handle.grip": f"{grip} mm"}), wish, SHOP)
    assert not follows(with_value(large, {"handle.grip": f"{grip + IN / 8} mm"}), wish, SHOP)


def test_a_plane_without_a_tote_is_not_told_of_its_grip():
    assert smaller_grip(spec("wren"), Wish("Plover", 5 * IN, 1.625 * IN), SHOP, stated_range) == ""


def test_a_sibling_that_fails_is_no_sibling():
    text = (SPECS / "heron.toml").read_text().replace("micro_bevel = 30", "micro_bevel = 42")
    with pytest.raises(RequestError, match="E01"):
        sized(spec_of(parse_text("heron", text)), Wish("Plover", 14 * IN, 2 * IN), SHOP)


def test_the_rules_name_keys_that_specs_have():
    for name in ("heron", "wren"):
        for key in [rule.key for rule in RULES] + [r.key for r in REMEDIES if r.sign]:
            section, _, field = key.partition(".")
            if not hasattr(spec(name).spec, section):
                assert name == "wren"  # the low-angle kind has no frog and no chipbreaker
                continue
            assert hasattr(getattr(spec(name).spec, section), field), key


def test_a_key_moved_one_way_is_not_moved_back():
    wish = Wish("Plover", 9 * IN, 2 * IN)
    draft, verdict = fit(first_draft(spec("heron"), wish), SHOP, set())
    assert not verdict.works
    ways = [key for key, sign in draft.moved if sign]
    assert len(ways) == len(set(ways))
