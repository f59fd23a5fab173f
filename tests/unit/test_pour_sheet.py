"""The pour sheet: everything a founder asks of it stands there, for iron and for bronze. No kernel."""

from pathlib import Path

import pytest

from parts.plane.pour import PourPlan, pour_plan
from parts.plane.pour_numbers import CastPart
from parts.plane.pour_sheet import pour_text
from parts.plane.shop import load_shop

SHOP = load_shop(Path(__file__).parents[2] / "specs" / "shop.toml")
BODY = CastPart("body", "ductile-iron-65-45-12", 2.76, 361.6, 71.1, 55.2, 0.0, 9.15, 6.7, 18.4, plan_area_mm2=25700.0)
CAP = CastPart("lever cap", "manganese-bronze-c86500", 0.16, 82.2, 47.9, 10.95, 3.25, 4.5, 2.9, 8.5,
               edge=((-41.1, 0.0), (0.0, 6.0), (41.1, 8.4)))  # fmt: skip


@pytest.fixture(scope="module")
def plan() -> PourPlan:
    return pour_plan([BODY, CAP], SHOP, 100)


@pytest.fixture(scope="module")
def text(plan: PourPlan) -> str:
    return "\n".join(pour_text(plan))


@pytest.mark.parametrize(
    "said",
    [
        "108, 100",  # castings for good ones, at 4 % scrap and 95 %
        "54, 2",  # moulds
        "4% scrap and 95% confidence",
        "effective head", "fill time", "yield",
        "mm² at the ingate", "mm² at the sprue base",
        "1.33 : 2.67 : 1", "1 : 2.88 : 4.8", "pressurised", "unpressurised",
        "of up to 1361 kg (3000 lb)", "up to 454 kg (1000 lb) each", "hand ladles of 113 kg (250 lb)",
        "last mould is full 8 min after treatment", "residual magnesium",
        "carbon equivalent C + (Si + P)/3",
        "melt card of Ductile iron 65-45-12", "melt card of Manganese bronze C86500", "do not pour: graphite turns",
        "closed moulds overnight", "Stress-relieve body: heat at", "furnace-cool at 55 K/h or slower", "Why: thick and",
        "232 °C (450 °F) metal temperature", "84 K below the 316 °C", "27 K ABOVE the 205 °C",
        "caution: Damp moulds", "Zinc fume", "Silica", "caution: Water and molten metal",
    ],
)  # fmt: skip
def test_a_founder_finds(said: str, text: str) -> None:
    assert said in text


def test_the_table_has_a_column_a_casting_with_the_plan_s_figures(plan: PourPlan, text: str) -> None:
    head = next(line for line in text.splitlines() if line.split() == ["body", "lever", "cap"])
    at = head.index("lever cap")
    row = next(line for line in text.splitlines() if line.startswith("  metal of a mould"))
    assert row[at:].startswith(f"{plan.plates['lever cap'].poured_mass_kg:.2f} kg")
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
