"""What a finding says to change has been tried: followed literally, the plane stands and the finding passes."""

import json
import re
import tomllib
from pathlib import Path

import pytest

from parts.chipbreaker.spring import YIELD_MPA
from parts.plane.blade_card import card_of
from parts.plane.checks import check_design
from parts.plane.design import design
from parts.plane.numbers import plane_numbers
from parts.plane.rules import pressing
from parts.plane.rules.trial import GROWS, size_of, untried, with_keys
from parts.plane.shop import load_shop
from parts.plane.spec import spec_of
from shared.numbers import Numbers
from shared.specfile import parse_text
from shared.units import LENGTH, parse

SPECS = Path(__file__).parents[2] / "specs"
SHOP = load_shop(SPECS / "shop.toml")
OFFER = re.compile(rf"({'|'.join(GROWS)}) ([a-z_.]+) by about ([0-9./-]+ (?:in|mm))")


def lines_of(table, above=""):
    for key, value in table.items():
        line = f"{above}{key} = {json.dumps(value)}"
        yield from lines_of(value, f"{above}{key}.") if isinstance(value, dict) else [line]


def plane(name, **keys):
    data = tomllib.loads((SPECS / f"{name}.toml").read_text())
    for key, value in keys.items():
        table, _, key = key.partition("__")
        data[table][key] = value
        if value is None:
            del data[table][key]
    text = "\n".join(lines_of(data))
    return design(spec_of(parse_text(f"{name}.toml", text)), SHOP)


def finding(d, code):
    return next(f for f in check_design(d) if f.code == code)


CASES = [
    ("wren-long", "H02", {"body__length": "10 in"}),
    ("wren-long", "H01", {"body__length": "10 in"}),
    ("linnet", "H01", {"body__length": "8.5 in", "body__mouth_from_toe": "2-1/8 in"}),
    ("linnet", "H04", {"body__length": "8.5 in", "body__mouth_from_toe": "2-1/8 in", "bed__angle": "45 deg"}),
    ("heron", "H08", {"body__rail_height": "20 mm"}),
    ("wren-long", "H08", {"body__rail_height": "18 mm"}),
    ("wren", "B06", {"body__mouth_from_toe": "2.4 in"}),
    ("wren", "B06", {"body__mouth_from_toe": "1.2 in"}),
    ("heron", "B06", {"body__rail_height": "10 mm", "body__root_radius": "5 mm"}),
]


@pytest.mark.parametrize(("name", "code", "keys"), CASES)
def test_advice_followed_literally_makes_the_finding_pass(name, code, keys):
    d = plane(name, **keys)
    found = finding(d, code)
    assert found.verdict != "passed"
    offers = OFFER.findall(found.change)
    assert offers, found.change
    for verb, key, amount in offers:
        resolved = getattr(d.tote if key.startswith("handle.") else d.body, key.partition(".")[2], None)
        size = size_of(d, key, resolved)
        changed = with_keys(d, {key: size + GROWS[verb] * parse(amount, LENGTH)})
        assert changed is not None, f"refused: {verb} {key} by {amount}"
        assert finding(changed, code).verdict == "passed", f"{verb} {key} by {amount}"


def test_a_body_that_its_blade_fills_is_narrowed_with_the_blade():
    d = plane("wren", body__width="2-1/8 in", blade__width="1-5/8 in")
    change = finding(d, "H06").change
    assert "body.width and blade.width" in change
    by = parse(re.search(r"by about ([0-9./-]+ in) each", change)[1], LENGTH)
    assert with_keys(d, {"body.width": d.body.width - by}) is None
    changed = with_keys(d, {"body.width": d.body.width - by, "blade.width": d.blade.width - by})
    assert finding(changed, "H06").verdict == "passed"


@pytest.mark.parametrize("name", ["heron", "wren", "wren-long"])
def test_the_limits_said_of_the_parting_plane_are_accepted(name):
    found = finding(plane(name, body__parting_height="20 mm"), "B06")
    low, high = re.search(r"between (-?[0-9.]+) mm and (-?[0-9.]+) mm", found.change).groups()
    assert max(len(low), len(high)) <= 7
    for limit in (low, high):
        assert "parting plane" not in finding(plane(name, body__parting_height=f"{limit} mm"), "B06").value


def test_a_plane_only_judged_gets_the_same_verdicts_without_advice():
    d = plane("wren-long", body__length="10 in")
    with untried():
        bare = check_design(d)
    assert [(f.code, f.verdict) for f in bare] == [(f.code, f.verdict) for f in check_design(d)]
    assert "by about" not in next(f for f in bare if f.code == "H02").change


SEDGE = {"bed__angle": "55 deg", "blade__width": "1-3/4 in", "body__width": "2-1/4 in"}


def test_a_chipbreaker_that_does_not_close_is_found_and_its_advice_closes_it():
    d = plane("linnet", **SEDGE)
    found = finding(d, "P01")
    assert not plane_numbers(d)["chipbreaker"].value("closes")
    assert found.verdict == "warning"
    ((verb, key, amount),) = OFFER.findall(found.change)
    changed = with_keys(d, {key: size_of(d, key) + GROWS[verb] * parse(amount, LENGTH)})
    assert finding(changed, "P01").verdict == "passed"
    assert plane_numbers(changed)["chipbreaker"].value("closes")


def test_a_bend_that_takes_a_set_is_found(monkeypatch):
    assert finding(plane("heron"), "P02").verdict == "passed"
    numbers = Numbers("chipbreaker")
    stressed = {"closes": True, "takes_a_set": True, "edge_force_n_per_mm": 9.0, "closing_force_n_per_mm": 5.0}
    for key, value in (stressed | {"spring_stress_mpa": YIELD_MPA + 1}).items():
        numbers.add(key, value, "meaning", "formula")
    monkeypatch.setattr(pressing, "chipbreaker_of", lambda _: numbers)
    found = next(f for f in pressing.pressing(plane("heron")) if f.code == "P02")
    assert found.verdict == "warning"


def test_a_temper_outside_the_data_sheets_is_found_and_its_advice_brings_it_within():
    warm = {"blade__cold_treatment": None}
    found = finding(plane("heron", **warm), "E04")
    assert found.verdict == "warning"
    assert "350 to 1000 °F" in found.limit
    hardness = re.search(r"lower blade.hardness to ([0-9.]+) HRC", found.change)[1]
    assert finding(plane("heron", **warm, blade__hardness=f"{hardness} HRC"), "E04").verdict == "passed"
    cold = re.search(r"blade.cold_treatment to (-?[0-9]+) °C", found.change)[1]
    cold_too = plane("heron", blade__cold_treatment=f"{cold} degC")
    assert finding(cold_too, "E04").verdict == "passed"


@pytest.mark.parametrize("name", ["heron", "linnet", "crane", "wren"])
def test_check_and_blade_card_agree_of_temper_and_chipbreaker(name):
    d = plane(name)
    warned = " ".join(card_of(d).warnings)
    codes = {f.code for f in check_design(d) if f.verdict != "passed"}
    assert ("E04" in codes) == ("lies outside the" in warned)
    assert ("P01" in codes) == ("press its edge down" in warned)


SHORT = {"body__length": "8.5 in", "body__mouth_from_toe": "2-1/8 in", "bed__angle": "45 deg"}


def test_a_short_bodys_form_is_named_where_it_and_not_the_proportion_decides():
    d = plane("linnet", **SHORT)
    n = plane_numbers(d)["handle"]
    for key, value in (("lean_deg", 6.0), ("toe_reach_mm", 30.0)):
        assert n.value(key) == value
        assert n[key].decided_by == d.tote_form_decided_by
        assert "short body" in n[key].decided_by
        assert n[key].formula.startswith(f"{value:g} ")
    usual = plane_numbers(plane("crane"))["handle"]["lean_deg"]
    assert (usual.value, usual.formula, usual.decided_by) == (12.0, "12 deg", "")


def test_a_size_of_the_spec_has_no_formula_of_a_proportion():
    n = plane_numbers(plane("crane", handle__lean="10 deg"))["handle"]["lean_deg"]
    assert (n.value, n.formula) == (10.0, "as set in the spec")


@pytest.mark.parametrize("name", ["heron", "heron-metric", "linnet", "crane", "wren", "wren-long"])
def test_nothing_is_tried_for_a_plane_that_passes(name, monkeypatch):
    d = plane(name)
    monkeypatch.setattr("parts.plane.rules.trial.with_keys", lambda *_: pytest.fail("a plane was tried"))
    assert {f.verdict for f in check_design(d)} == {"passed"}
