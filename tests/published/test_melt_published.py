"""Melt and heat treatment against published values.

Sources: metallography.com Tech-Notes table 1 (carbon equivalents); pentictonfoundry.com data sheet (ductile iron);
ASM Handbook vol. 4 (hold, memory); DTIC AD0620556 abstract (600 F does not relieve iron); foundry formula for the
magnesium addition (memory).
"""

import pytest

from shared.casting.alloy import alloy
from shared.casting.melt import carbon_equivalent, composition_window, magnesium_addition
from shared.casting.stress_relief import bake_check, hold_hours, relief_cycle

DUCTILE = "ductile-iron-65-45-12"


@pytest.mark.parametrize(
    ("c", "si", "p", "expected"),
    [(3.5, 2.95, 0.08, 4.51), (4.3, 1.5, 0.12, 4.84), (3.6, 2.9, 0.04, 4.58), (3.3, 1.64, 1.42, 4.32)],
)
def test_carbon_equivalent(c: float, si: float, p: float, expected: float) -> None:
    """The last row is out by 0.47 when phosphorus is forgotten."""
    assert carbon_equivalent(c, si, p) == pytest.approx(expected, abs=0.006)


def test_magnesium_addition() -> None:
    """100·(0.76·0.010 + 0.040)/(0.45·5.5) = 1.923 %."""
    assert magnesium_addition(0.020, 0.010, 0.040, 45.0, 5.5) == pytest.approx(1.923, abs=0.005)


def test_hold_of_a_12_mm_section() -> None:
    assert hold_hours(alloy(DUCTILE), 12.0) == pytest.approx(1.48, abs=0.01)


@pytest.mark.parametrize("alloy_id", [DUCTILE, "grey-iron-class-30"])
def test_a_bake_is_no_stress_relief(alloy_id: str) -> None:
    """200 °C for 20 min; even 316 °C is ineffective."""
    check = bake_check(alloy(alloy_id), 200.0, 20.0)
    assert not check.counts_as_stress_relief
    assert not check.changes_metal
    assert not bake_check(alloy(alloy_id), 315.0, 600.0).changes_metal
    assert bake_check(alloy(alloy_id), 540.0, 120.0).counts_as_stress_relief


def test_mass_of_320_cubic_centimetres() -> None:
    assert alloy(DUCTILE).density_kg_m3 * 320e-6 == pytest.approx(2.272, abs=0.001)


def test_composition_of_the_data_sheet() -> None:
    window = composition_window(DUCTILE)
    assert window["C"] == (3.4, 3.8)
    assert window["Si"] == (2.35, 2.75)
    assert window["Mg"] == (0.025, 0.055)


def test_stress_relief_of_ductile_iron() -> None:
    """ASM Handbook vol. 4 (memory): 510 to 565 °C, furnace cooling to 290 °C at 55 K/h or slower."""
    cycle = relief_cycle(alloy(DUCTILE), 12.0)
    assert (cycle.temperature_low_c, cycle.temperature_high_c) == (510.0, 565.0)
    assert (cycle.furnace_cool_to_c, cycle.cooling_rate_max) == (290.0, 55.0)


def test_stress_relief_of_manganese_bronze() -> None:
    """CDA practice by deepri.com: 260 °C, 1 h per 25 mm."""
    cycle = relief_cycle(alloy("manganese-bronze-c86300"), 50.0)
    assert cycle.temperature_c == 260.0
    assert cycle.hold_h == pytest.approx(2.0)
