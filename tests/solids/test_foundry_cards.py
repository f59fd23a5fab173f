"""The foundry's cards: clean pages, the spec's unit first, columns and finish by alloy; castings of round sizes."""

from pathlib import Path

import pytest

from parts.plane.numbers import plane_numbers
from parts.plane.pour import pour_plan
from parts.plane.pour_numbers import CastPart
from parts.plane.run import Run, stamp_of
from parts.plane.sheets.registry import sheet_set
from shared.drawing.overlap import assert_clean
from tests.planes import designed, made

pytestmark = pytest.mark.kernel
SPECS = Path(__file__).parents[2] / "specs"
CARDS = ("card-pour", "card-stress-relief")
IRON, BRONZE = "ductile-iron-65-45-12", "manganese-bronze-c86500"


def castings(body_alloy):
    return [
        CastPart("body", body_alloy, 2.76, 361.6, 71.1, 55.2, 0.0, 9.15, 6.7, 18.4, plan_area_mm2=25700.0),
        CastPart("frog", body_alloy, 0.53, 62.0, 48.0, 24.0, 24.0, 8.0, 5.3, 18.0),
        CastPart("lever cap", BRONZE, 0.16, 82.2, 47.9, 10.95, 3.25, 4.5, 2.9, 8.5),
        CastPart("cam lever", BRONZE, 0.05, 42.0, 18.0, 10.0, 10.0, 5.0, 2.6, 14.0),
    ]


PLANES = [("linnet", BRONZE), ("heron", IRON), ("heron-metric", IRON)]


@pytest.fixture(scope="module", params=PLANES, ids=lambda p: p[0])
def cards(request, tmp_path_factory):
    """Yield units, body's alloy and the two plans, laid out."""
    name, metal = request.param
    d = designed(name)
    run = Run(d, made(name), tmp_path_factory.mktemp(name), stamp_of(), None, [], plane_numbers(d))
    run.drawn["pour plan"] = pour_plan(castings(metal), d.shop, 100, d.spec.units)
    entries = {e.stem: e for e in sheet_set(run)}
    return d.spec.units, metal, {stem: entries[stem].make(run, entries[stem]) for stem in CARDS}


def words(plan):
    return " ".join(t.dxf.text for s in plan.layout().sheets for t in s.doc.modelspace().query("TEXT"))


def test_pages_are_clean_and_few(cards):
    _, _, plans = cards
    for plan in plans.values():
        assert_clean(plan)
    assert len(plans["card-stress-relief"].layout().sheets) == 1
    assert len(plans["card-pour"].layout().sheets) <= 4


def test_the_spec_s_unit_leads_on_both(cards):
    units, _, plans = cards
    pour, relief = words(plans["card-pour"]), words(plans["card-stress-relief"])
    inch, metric = ("1976 °F [1080 °C]", "3000 lb [1361 kg]"), ("1080 °C [1976 °F]", "1361 kg [3000 lb]")
    for said, other in zip(*((inch, metric) if units == "inch" else (metric, inch)), strict=True):
        assert said in pour and other not in pour
    assert ("to 500 °F [260 °C]" if units == "inch" else "to 260 °C [500 °F]") in relief


def test_columns_and_finish_are_those_of_the_alloy(cards):
    _, metal, plans = cards
    pour, relief = words(plans["card-pour"]), words(plans["card-stress-relief"])
    assert ("treated at" in pour) == ("Mg %" in pour) == (metal == IRON)
    assert "Zn %" in pour
    assert ("Powder coat body and frog" in relief) == ("Powder coat body and frog" in pour) == (metal == IRON)
    assert ("Leave body and frog bare" in relief) == (metal == BRONZE)
    assert "Leave lever cap and cam lever bare" in relief


def test_no_words_of_the_program(cards):
    for plan in cards[2].values():
        text = words(plan)
        for word in ("(seen)", "(memory)", "In all", "in all", "degC", "(s)", "melt card", IRON, BRONZE):
            assert word not in text, word
