"""Gating against solved exercises.

Sources: smartsolve.ai (free sprue), byjus.com (10 mm sprue), testbook.com (bottom gate), a public formula page for the
pouring time of shell-moulded ductile iron, AFS grey-iron pouring time in its two forms (tutorsglobe.com; P. N. Rao),
A = W/(ρ t C √(2gH)) worked by hand. The exercises take g = 9.81, the module 9.80665: less than 0.02 % apart.
"""

import math

import pytest

from shared.casting.alloy import alloy
from shared.casting.gating import (
    bottom_fill_time,
    choke_area,
    choke_time,
    effective_head,
    flow_rate,
    pouring_time,
    pouring_time_grey,
    pouring_time_root,
    sprue_top_area,
    velocity,
)


def test_free_sprue() -> None:
    """smartsolve.ai: 175 mm sprue, 444 mm² base, 1376 cm³: 1.854 m/s, 1.67 s."""
    assert velocity(175.0) == pytest.approx(1.854, abs=0.01)
    assert 1376e3 / flow_rate(444.0, 175.0) == pytest.approx(1.67, abs=0.01)


def test_ten_millimetre_sprue() -> None:
    """byjus.com: base 10 mm, 250 mm high: 173 942 mm³/s; 10⁶ mm³ then take 5.75 s."""
    flow = flow_rate(math.pi / 4 * 10**2, 250.0)
    assert flow == pytest.approx(173942, rel=0.001)
    assert 1e6 / flow == pytest.approx(5.75, rel=0.001)


def test_bottom_gate() -> None:
    """testbook.com: mould 0.5 m² × 0.25 m, gate 0.001 m², head 0.3 m: 73.17 s."""
    assert bottom_fill_time(0.5e6, 1000.0, 300.0, 250.0) == pytest.approx(73.17, abs=0.05)


def test_effective_head_between_cope_and_drag() -> None:
    """h − p²/(2c) = 125 − 30²/100 = 116."""
    assert effective_head(125.0, 30.0, 50.0) == pytest.approx(116.0, abs=0.01)


@pytest.mark.parametrize(("above", "head"), [(0.0, 125.0), (50.0, 100.0), (25.0, 118.75)])
def test_the_three_special_heads(above: float, head: float) -> None:
    """All in the drag h, all in the cope h − c/2, half and half h − c/8 (derived, foundry texts)."""
    assert effective_head(125.0, above, 50.0) == pytest.approx(head)


def test_choke_of_an_iron_casting() -> None:
    assert choke_area(2.5, 6900.0, 100.0, 4.0, 0.8) == pytest.approx(80.83, abs=0.05)


def test_choke_of_a_bronze_casting() -> None:
    area = choke_area(3.2, 7700.0, 110.0, 5.0, 0.7)
    assert area == pytest.approx(80.82, abs=0.05)
    assert choke_time(3.2, 7700.0, 110.0, area, 0.7) == pytest.approx(5.0)


def test_pouring_time_of_shell_ductile() -> None:
    """t = 1.82 √36.8 = 11.0407 s."""
    assert pouring_time_root(36.8, 1.82) == pytest.approx(11.0407, abs=0.001)


def test_grey_iron_pouring_time_in_both_units() -> None:
    """5 kg, 8 mm: 4.379 s; the inch-pound form K(0.95 + T/0.853)√W gives the same."""
    metric = pouring_time_grey(5.0, 8.0)
    assert metric == pytest.approx(4.379, abs=0.01)
    inch_pound = (0.95 + 8.0 / 25.4 / 0.853) * math.sqrt(5.0 / 0.45359237)
    assert metric == pytest.approx(inch_pound, abs=0.01)


def test_thin_ductile_iron_takes_the_thin_constant() -> None:
    """P. N. Rao (memory): K1 = 2.080 up to 10 mm, 2.670 to 25 mm; W = 4 kg."""
    iron = alloy("ductile-iron-65-45-12")
    assert pouring_time(iron, 4.0, 6.0) == pytest.approx(2 * 2.080)
    assert pouring_time(iron, 4.0, 20.0) == pytest.approx(2 * 2.670)


def test_sprue_taper() -> None:
    """A_top/A_bottom = √(H_bottom/H_top): heads 200 and 50 mm double the area."""
    assert sprue_top_area(100.0, 200.0, 50.0) == pytest.approx(200.0)
