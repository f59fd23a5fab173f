"""The blade card: what it says, in whose units, and that it says nothing else than drawing and inspection do."""

import json
import re

import pytest

from parts.blade import limits
from parts.blade.bevel import bevel_shape
from parts.blade.card import blade_card, card_text
from parts.blade.card_heat import correction_section, heat_section
from parts.blade.card_words import length, nominal, plain, rough
from parts.blade.heat_treat import heat_treat_plan
from parts.blade.numbers import bedding_numbers, blade_numbers
from parts.blade.order_of_work import order_of_work
from parts.blade.stock import bars_to_buy, blank
from parts.chipbreaker.spring import chipbreaker_numbers
from parts.plane.sheets.blade_route import route_rows
from shared.book.wording import Wording
from shared.drawing.dimtext import plus_minus
from shared.fits import tolerance_class
from shared.pairs import Pair, of_class


def card(cold_c: float | None = None, units: str = "inch", hardness: float = 62, **blade):
    shape = {"orientation": "bevel-down", "bed": 45.0, "steel": "A2", "width": 50.8, "thickness": 3.175, "bevel": 25.0}
    shape.update(blade)
    bar = blank(shape["steel"], 50.8, 190.5, 3.175)
    numbers = blade_numbers(**shape, length=190.5, hardness=hardness, slot_from_edge=45, cold_c=cold_c)
    bedding = bedding_numbers(
        **{k: v for k, v in shape.items() if k not in ("skew", "camber_at_work", "wheel_diameter")},
        bed_low_height=6.35,
        bed_top_height=60,
        mouth_opening=0.38,
        side_clearance=0.6,
        pivot_from_edge=110,
        adjuster_lead=0.8,
        pins=[Pair("yoke pin", of_class("hole", 4.0, "H7"), of_class("yoke pin", 4.0, "h6"))],
    )
    breaker = chipbreaker_numbers(
        face_angle=45, edge_angle=45, setback=0.15, width=50, thickness=3, reach=60, deflection=0.01
    )
    return blade_card(
        plane="Heron",
        revision="A",
        blade=numbers,
        plan=heat_treat_plan(shape["steel"], hardness, 3.175, cold_c=cold_c),
        blank=bar,
        length=190.5,
        width=50.8,
        thickness=3.175,
        bevel=25,
        micro_bevel=shape.get("micro_bevel"),
        units=units,
        bedding=bedding,
        chipbreaker=breaker,
        bars=bars_to_buy({bar.sawn_length: 12}, [914.4], 2.0),
        batch_kg=3.0 if cold_c is not None else None,
        room_m3=30.0,
    )


def test_card_says_everything_a_maker_needs() -> None:
    text = card_text(card())
    for words in (
        "A2, 62 HRC",
        "cutting angle    45°",
        "1775 °F [968 °C], 30 to 38 min",
        "temper 1 of 2",
        "300 °F [149 °C], 120 min",
        "expect 61 to 63 HRC",
        "64 HRC, 1 too hard",
        "below 61 HRC",
        "blank, soft",
        "Bars to buy",
        "no other cutting takes less bar",
        "every edge but the cutting edge",
        "[4.000 to 4.012]",
        "do not press its edge down",
        "Cautions",
        "Sources",
    ):
        assert words in text, words
    assert max(len(line) for line in text.splitlines()) <= 110
    json.dumps(card().as_json(), allow_nan=False)


def test_card_with_cold_treatment_reckons_nitrogen_and_oxygen() -> None:
    made = card(cold_c=-184.4)
    text = card_text(made)
    assert "liquid nitrogen" in text
    assert "oxygen left" in text
    assert "400 °F [204 °C], 120 min" in text
    assert any("nitrogen" in c.lower() for c in made.cautions)


def test_skewed_card_prints_three_rules() -> None:
    text = card_text(card(skew=20.0))
    for words in ("angle section", "angle velocity", "angle chip flow", "Three published rules"):
        assert words in text
    assert "cutting angle section" not in card_text(card())


def section(made, name):
    return next(s for s in made.sections if s.name == name)


def value(made, name, row):
    return next(r.value for r in section(made, name).rows if r.label == row)


@pytest.mark.parametrize("units", ["inch", "mm"])
def test_tolerances_are_the_drawings(units) -> None:
    """As the blade's sheet writes them, from the same limits; no class of general tolerances beside them."""
    made = card(units=units, micro_bevel=30.0, camber_at_work=0.05)
    under = length(-tolerance_class(50.8, limits.WIDTH_CLASS).lower / 1000, units)
    for row, end in (
        ("length", plus_minus(limits.LENGTH_TOL_MM, units)),
        ("width", f"+0 −{under}, {limits.WIDTH_CLASS}"),
        ("thickness", plus_minus(limits.THICKNESS_TOL_MM, units)),
        ("bevel", f"25° ±{limits.ANGLE_TOL_DEG:g}°"),
        ("micro-bevel", f"30° ±{limits.ANGLE_TOL_DEG:g}°"),
        ("camber on the blade", plus_minus(limits.CAMBER_TOL_MM, units)),
    ):
        assert value(made, "Tolerances", row).endswith(end), row
    assert "2768" not in card_text(made)


def test_order_of_work_holds_the_drawings_finishes() -> None:
    for way, name in (("bevel-down", "face"), ("bevel-up", "flat")):
        order = {what: finish for what, finish, _ in order_of_work(way, "mm")}
        told = re.findall(r"(?<!\[)\b\d[\d.]*(?= [µm])", order[f"grind the {name}"])
        assert [float(t) for t in told] == [limits.FACE_RA, limits.FACE_FLAT_MM, limits.FACE_FIRST_MM]
        back = order["grind the back" if way == "bevel-down" else "grind the upper side"]
        assert f"Ra {limits.BACK_RA:g} µm" in back and f"{limits.BACK_PARALLEL_MM[way]:.2f} mm" in back
        assert f"Ra {limits.BEVEL_RA[way]:g} µm" in order["grind the bevel"]
        assert f"Ra {limits.EDGE_RA:g} µm" in order["hone"]


@pytest.mark.parametrize("steel", ["A2", "O1", "D2", "M2", "W1", "52100"])
@pytest.mark.parametrize("cold_c", [None, -184.0])
def test_no_remedy_inside_the_accepted_band(steel, cold_c) -> None:
    plan = heat_treat_plan(steel, 60 if steel == "D2" else 61, 3.2, cold_c=cold_c)
    low, high = plan.band
    first, *rest = correction_section(plan, "inch").rows
    assert (first.label, first.value) == (f"{low:g} to {high:g} HRC", "pass: leave it alone")
    # the blade's drawing accepts the same
    assert route_rows(plan, "inch")[-1][:2] == ("accept", first.label)
    assert rest[-1].label == f"below {low:g} HRC"
    for row in rest[:-1]:
        assert high < float(row.label.split()[0]) <= plan.as_quenched[1]
        # one temperature, in both scales
        assert row.value.count("°F") == row.value.count("°C") <= 1


@pytest.mark.parametrize(
    ("units", "first"), [("inch", "1200 to 1350 °F [649 to 732 °C]"), ("mm", "649 to 732 °C [1200 to 1350 °F]")]
)
def test_route_on_the_drawing_is_the_cards(units, first) -> None:
    plan = heat_treat_plan("O1", 61, 3.5)
    on_card = {r.label.split(". ", 1)[-1]: r.value for r in heat_section(plan, units).rows}
    rows = route_rows(plan, units)
    assert rows[0][1] == first
    for name, hot, *_ in rows:
        if hot != "–" and name in on_card:
            assert on_card[name].removeprefix("from ").startswith(hot)


def test_remedies_lead_with_the_planes_scale() -> None:
    plan = heat_treat_plan("A2", 62, 3.175)
    for units, told in (("inch", "514 °F [268 °C]"), ("mm", "268 °C [514 °F]")):
        rows = {r.label: r.value for r in correction_section(plan, units).rows}
        assert rows["64 HRC, 1 too hard"] == f"temper once more, 2 h at {told}"
        assert "61 to 63 HRC" in rows


@pytest.mark.parametrize("units", ["inch", "mm"])
@pytest.mark.parametrize("steel", ["A2", "O1", "D2", "52100"])
def test_card_uses_signs_and_both_scales(units, steel) -> None:
    """No letters for degrees, no spelled-out signs, no bare temperature, no words of the program, no noughts."""
    made = card(units=units, steel=steel, hardness=60)
    text = card_text(made).partition("\nSources\n")[0]
    for bad in (r"\d ?[FC]\b", r"\d deg\b", r"\d um\b", r"\^\d", "sqrt", "plus/minus", "HiGHS", r"\(seen\)", "memory",
                "rss", "per 100n", r"\d\.\d{5}", r"36\.0", r" C = "):  # fmt: skip
        assert not re.search(bad, text), (bad, re.search(f".*{bad}.*", text))
    flat = " ".join(text.split())
    first, other = ("°F", "°C") if units == "inch" else ("°C", "°F")
    assert flat.count(first) == len(re.findall(rf"{first} \[[-\d. to]+ {other}\]", flat)) > 8


def test_what_a_plain_blade_has_not_is_not_on_its_card() -> None:
    straight = {r.label for r in section(card(), "Bevel and edge").rows}
    assert not any("hollow" in x or "camber" in x or "edge to heel, honed" in x for x in straight)
    more = {
        r.label
        for r in section(card(camber_at_work=0.05, wheel_diameter=200.0, micro_bevel=30.0), "Bevel and edge").rows
    }
    assert {"hollow depth", "hollow edge angle", "camber on blade", "camber radius", "edge to heel, honed"} <= more


def test_bevel_as_ground_and_as_honed() -> None:
    """3.5 mm at 25°: 7.51 ground; with a facet of 0.5 at 33°: 0.42 + (3.5 - 0.27)/tan 25 = 7.34, 7.64 of it ground."""
    n = blade_numbers(orientation="bevel-down", bed=50, steel="O1", width=51, length=185, thickness=3.5, bevel=25,
                      micro_bevel=33, hardness=61, slot_from_edge=45)  # fmt: skip
    assert n.value("bevel_along_blade_mm") == pytest.approx(7.506, abs=1e-3)
    assert n.value("honed_heel_from_edge_mm") == pytest.approx(7.341, abs=1e-3)
    assert n.value("honed_heel_from_edge_mm") == bevel_shape(3.5, 25, 33).heel_from_edge
    assert n.value("ground_facet_length_mm") == pytest.approx(7.637, abs=1e-3)
    made = card(micro_bevel=30.0)
    assert value(made, "Bevel and edge", "edge to heel, honed") == length(
        bevel_shape(3.175, 25, 30).heel_from_edge, "inch"
    )


def test_cautions_come_before_any_step() -> None:
    text = card_text(card(cold_c=-184.4))
    assert text.index("Hot work") < text.index("Liquid nitrogen: cold burns") < text.index("preheat")


def test_lengths_have_the_decimals_a_shop_reads() -> None:
    assert length(0.0254, "inch") == "0.001 in [0.025 mm]"
    assert length(50.8, "mm") == "50.80 mm [2.000 in]"
    assert length(3.175, "inch") == "0.125 in [3.18 mm]"
    assert length(4490.1, "inch") == "176.8 in [4490 mm]"
    assert nominal(914.4, "inch") == "36 in [914.4 mm]"
    assert rough(1.0, "inch") == "0.039 in [1 mm]"


def test_temperatures_of_a_text() -> None:
    assert plain("to about 150 F (65 C); oil", "inch") == "to about 150 °F [66 °C]; oil"
    assert plain("150-125 F", "mm") == "66 to 52 °C [150 to 125 °F]"
    assert plain("agitated oil at or below 150 C", "inch") == "agitated oil at or below 302 °F [150 °C]"
    assert plain("lies 10.0 F below the boiling point (-320.4 F, -195.8 C)", "inch") == (
        "lies 10.0 °F below the boiling point (-320.4 °F [-195.8 °C])"
    )
    assert plain("sqrt(p^2 + (w/2)^2)*3, plus/minus 2 deg", "mm") == "√(p² + (w/2)²)·3, ±2°"


@pytest.mark.parametrize("units", ["inch", "mm"])
def test_the_book_leaves_as_it_is_what_the_card_says_in_both_units(units) -> None:
    wording = Wording(units)
    made = card(units=units, micro_bevel=30.0, camber_at_work=0.05)
    for text in (t for s in made.sections for r in s.rows for t in (r.label, r.value, r.how)):
        assert wording.say(text) == text


@pytest.mark.parametrize("steel, hardness, warned", [("O1", 61, True), ("52100", 63, False)])
def test_a_second_temper_into_the_brittle_range_is_warned_of(steel, hardness, warned) -> None:
    """O1 for 61 HRC that reads too hard would go to 565 °F; 52100 for 63 HRC stays below 450 °F."""
    text = " ".join(card_text(card(steel=steel, hardness=hardness, units="inch")).split())
    assert "too hard temper once more" in text
    assert ("can grow brittle" in text) == warned
