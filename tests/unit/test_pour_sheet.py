"""The pour sheet: everything a founder asks of it stands there, for iron and for bronze. No kernel."""

from pathlib import Path

import pytest

from parts.plane.finish import finish_of
from parts.plane.pour import PourPlan, pour_plan
from parts.plane.pour_numbers import CastPart
from parts.plane.pour_sheet import pour_text
from parts.plane.shop import load_shop
from shared.casting.alloy import alloy
from shared.casting.quantity import ladle_name

SHOP = load_shop(Path(__file__).parents[2] / "specs" / "shop.toml")
BODY = CastPart("body", "ductile-iron-65-45-12", 2.76, 361.6, 71.1, 55.2, 0.0, 9.15, 6.7, 18.4, plan_area_mm2=25700.0)
CAP = CastPart("lever cap", "manganese-bronze-c86500", 0.16, 82.2, 47.9, 10.95, 3.25, 4.5, 2.9, 8.5,
               edge=((-41.1, 0.0), (0.0, 6.0), (41.1, 8.4)))  # fmt: skip


@pytest.fixture(scope="module")
def plan() -> PourPlan:
    return pour_plan([BODY, CAP], SHOP, 100, "inch")


@pytest.fixture(scope="module")
def text(plan: PourPlan) -> str:
    return "\n".join(pour_text(plan))


@pytest.mark.parametrize(
    "said",
    [
        "108, 100",  # castings for good ones, at 4 % scrap and 95 %
        "54, 2",  # moulds
        "4 % scrap and 95 % confidence", "part by part", "cup on the sprue", "saw gates and necks off",
        "Magnesium, 0.025 to 0.055, is checked after treatment", "9.5 min after tapping",
        "effective head", "fill time", "yield",
        "mm²] at the ingate", "mm²] at the sprue base",
        "1.33 : 2.67 : 1", "1 : 2.88 : 4.8", "pressurised", "unpressurised",
        "in 1 furnace charge of up to 3000 lb [1361 kg]", "Tap twice, up to 709 lb [321 kg] each",
        "into 3 ladles hung from a crane or trolley, each of which holds 250 lb [113 kg]",
        "Tap once, 153 lb [69.4 kg], into 1 ladle hung from a crane or trolley",
        "body 10 of 54", "body 31 of 54", "lever cap all 54",
        "last mould is full 8 min after treatment", "residual magnesium",
        "carbon equivalent C + (Si + P)/3",
        "Melt window of Ductile iron 65-45-12 (wt %)",
        "do what the table “Melt window of Manganese bronze C86500", "do not pour: graphite turns",
        "closed moulds overnight", "Stress-relieve body: heat at", "furnace-cool at 99 °F/h [55 K/h] or slower",
        "Why: thick and",
        "450 °F [232 °C] metal temperature", "151 °F [84 K] below the 601 °F [316 °C]",
        "Powder coat body on the faces left",
        "Mask every machined face", "Leave lever cap bare, no powder coat: it is handled and rubs",
        "49 °F [27 K] above the 401 °F [205 °C]",
        "caution: Damp moulds", "Zinc fume", "Silica", "caution: Water and molten metal",
    ],
)  # fmt: skip
def test_a_founder_finds(said: str, text: str) -> None:
    assert said in text


def test_the_table_has_a_column_a_casting_with_the_plan_s_figures(plan: PourPlan, text: str) -> None:
    head = next(line for line in text.splitlines() if line.split() == ["body", "lever", "cap"])
    at = head.index("lever cap")
    row = next(line for line in text.splitlines() if line.startswith("  metal of a mould"))
    assert row[at:].startswith(f"{plan.parts['lever cap'].value('poured_mass_per_mould_kg') / 0.45359237:.2f} lb [")
    assert plan.as_json()["melt_cards"]["ductile-iron-65-45-12"][0]["element"] == "C"


def test_sources_are_those_of_a_foundry_not_of_a_drawing(plan: PourPlan) -> None:
    for numbers in (plan.numbers, *plan.parts.values(), *(a.numbers for a in plan.alloys.values())):
        assert all(n.source != "plane geometry" for n in numbers)
    cooling = plan.alloys["ductile-iron-65-45-12"].numbers["stress_relief_cooling_k_per_h"]
    assert cooling.unit == "K/h"


def test_a_neck_that_casting_or_riser_hold_down_is_said() -> None:
    low = CastPart("plate", "manganese-bronze-c86500", 0.5, 90.0, 60.0, 4.0, 4.0, 8.0, 5.0)
    number = pour_plan([low], SHOP, 10).parts["plate"]["neck_modulus_mm"]
    assert number.value < 5.5 and "as large as casting and riser leave room for" in number.meaning


def test_a_metric_plane_leads_with_metric_units() -> None:
    text = "\n".join(pour_text(pour_plan([BODY, CAP], SHOP, 100)))
    for said in ("1361 kg [3000 lb]", "1415 °C [2579 °F]", "55 K/h [99 °F/h]", "559 × 406 mm [22 × 16 in]"):
        assert said in text


@pytest.mark.parametrize("planes", [1, 10, 100, 400])
def test_no_more_metal_and_moulds_than_there_are(planes: int) -> None:
    """Ladles follow from the metal that is tapped, and neither ladle nor tap fills more moulds than there are."""
    plan = pour_plan([BODY, CAP], SHOP, planes, "inch")
    for pour in plan.alloys.values():
        n = pour.numbers
        tap, ladle = n.value("tap_mass_kg"), SHOP.melt.ladle
        assert (n.value("ladles_per_tap") - 1) * ladle < tap <= min(SHOP.melt.tap, n.value("charge_mass_kg"))
        for f in pour.fills:
            assert f.moulds == plan.parts[f.part].value("moulds")
            assert 1 <= f.ladle <= f.tap <= f.moulds
        assert n.value("taps") * tap * (1 - SHOP.melt.ladle_heel) >= n.value("poured_mass_kg") * 0.999


def test_a_ladle_is_named_by_what_people_can_carry() -> None:
    assert [ladle_name(kg)[0] for kg in (20.0, 45.0, 113.0)] == [
        "hand ladle", "shank ladle for two carriers", "ladle hung from a crane or trolley"]  # fmt: skip


def test_a_bronze_plane_hears_nothing_of_iron() -> None:
    body = CastPart("body", CAP.alloy_id, 2.2, 250.0, 70.0, 50.0, 0.0, 9.0, 6.0, 18.0)
    text = "\n".join(pour_text(pour_plan([body, CAP], SHOP, 100, "inch")))
    for word in ("avoids chill", "oal dust", "treatment", "carbon equivalent", "pig iron"):
        assert word not in text
    assert "Leave body bare, no powder coat: it does not rust" in text and "Powder coat" not in text


def test_a_little_metal_is_carried_by_hand() -> None:
    text = "\n".join(pour_text(pour_plan([CAP], SHOP, 10, "inch")))
    assert "into 1 hand ladle, dried" in text and "trolley" not in text


def test_words_of_the_program_stay_off_the_floor(text: str) -> None:
    for word in ("(s)", "(seen)", "(memory)", "In all", "degC", "ductile-iron", "manganese-bronze", "melt card"):
        assert word not in text


def test_finish_by_part_and_alloy() -> None:
    heat, iron, bronze = SHOP.heat, alloy(BODY.alloy_id), alloy(CAP.alloy_id)
    assert finish_of("body", iron, heat).coated and finish_of("frog", iron, heat).coated
    assert "sole" in finish_of("body", iron, heat).masked
    for part, metal in (("body", bronze), ("frog", bronze), ("lever cap", bronze), ("cam lever", iron)):
        bare = finish_of(part, metal, heat)
        assert not bare.coated and "no coat" in bare.box and bare.why
