"""Edge geometry against published and hand-worked cases.

Sources: Whelan, The Wooden Plane (1993) Appendix A and a web table of 2010 reckoned from it (sine rule); plane
geometry; rpwoodwork.com 2009 (camber on a bed); tinyshopww.blogspot.com 2022 (camber radius); van der Heiden 2014
(chipbreaker); buffaloprecision.com (growth of A2); diehlsteel.com (hot rolled allowance).
"""

import math

import pytest

from parts.blade.angles import chip_flow_rule, edge_angles, section_rule, velocity_rule
from parts.blade.bevel import bevel_length, hollow_depth, hollow_edge_angle
from parts.blade.camber import camber_on_blade, camber_radius, depth_at_work
from parts.blade.stock import growth_share, skin_allowance
from parts.chipbreaker.spring import equivalent_cutting_angle
from shared.tables import table
from shared.thermal import bow, expansion


@pytest.mark.parametrize(
    ("pitch", "skew", "sine", "section", "stabler"),
    [
        pytest.param(45, 20, 41.64, 43.22, 42.15, id="skew-45-20"),
        pytest.param(45, 45, 30.0, 35.26, 31.4, id="skew-45-45"),
        pytest.param(50, 20, 46.04, 48.24, 46.8, id="skew-50-20"),
        pytest.param(45, 15, 43.08, 44.01, 43.39, id="skew-45-15"),
    ],
)
def test_three_skew_rules(pitch: float, skew: float, sine: float, section: float, stabler: float) -> None:
    e = edge_angles("bevel-down", pitch, 25, 0, skew)
    assert e.cutting_velocity == pytest.approx(sine, abs=0.02)
    assert e.cutting_section == pytest.approx(section, abs=0.02)
    assert e.cutting_chip_flow == pytest.approx(stabler, abs=0.02)


@pytest.mark.parametrize(("pitch", "skew", "expected"), [(35, 45, 23.9), (40, 20, 37.2)])
def test_web_table_of_whelans_rule(pitch: float, skew: float, expected: float) -> None:
    assert velocity_rule(pitch, skew) == pytest.approx(expected, abs=0.06)


@pytest.mark.parametrize(("skew", "expected"), [(20, 42), (45, 30), (55, 24)])
def test_whelans_own_examples(skew: float, expected: float) -> None:
    assert velocity_rule(45, skew) == pytest.approx(expected, abs=0.5)


@pytest.mark.parametrize("skew", [5, 20, 45, 60])
def test_stabler_as_printed(skew: float) -> None:
    """sin(90 - e) = sin^2 s + cos^2 s * sin(90 - n), against the form used."""
    s, n = math.radians(skew), math.radians(47)
    printed = math.degrees(math.acos(math.sin(s) ** 2 + math.cos(s) ** 2 * math.cos(n)))
    assert chip_flow_rule(47, skew) == pytest.approx(printed, abs=1e-9)
    assert section_rule(47, skew) > printed > velocity_rule(47, skew)


@pytest.mark.parametrize(
    ("way", "bed", "honed", "cutting", "clearance", "wedge"),
    [
        pytest.param("bevel-down", 45, 30, 45, 15, 30, id="angles-bd-45-30"),
        pytest.param("bevel-up", 12, 33, 45, 12, 33, id="angles-bu-12-33"),
        pytest.param("bevel-down", 37, 35, 37, 2, 35, id="angles-bd-37-35"),
    ],
)
def test_edge_angles(way: str, bed: float, honed: float, cutting: float, clearance: float, wedge: float) -> None:
    e = edge_angles(way, bed, honed)  # type: ignore[arg-type]
    assert (e.cutting, e.clearance, e.wedge) == (cutting, clearance, wedge)
    assert e.clearance_is_small == (clearance < 10)


@pytest.mark.parametrize(
    ("radius", "t", "bevel", "length", "depth", "at_edge"),
    [
        pytest.param(100, 3.0, 25, 7.0986, 0.06301, 22.966, id="hollow-100-3.0-25"),
        pytest.param(75, 3.0, 25, 7.0986, 0.08403, 22.288, id="hollow-75-3.0-25"),
        pytest.param(76.2, 6.35, 25, 15.0254, 0.37125, 19.342, id="hollow-76.2-6.35-25"),
    ],
)
def test_hollow_grind(radius: float, t: float, bevel: float, length: float, depth: float, at_edge: float) -> None:
    assert bevel_length(t, bevel) == pytest.approx(length, abs=0.001)
    assert hollow_depth(t, bevel, 2 * radius) == pytest.approx(depth, abs=0.0005)
    assert hollow_edge_angle(t, bevel, 2 * radius) == pytest.approx(at_edge, abs=0.01)


def test_camber_radius_of_a_jack() -> None:
    """2 in wide, 1/16 in bulge: 8.03125 in, in the 8 to 10 in that sharpeninghandbook.info gives."""
    assert camber_radius(2.0, 0.0625) == pytest.approx(8.03125, abs=1e-4)


@pytest.mark.parametrize(("bed", "depth"), [(45, 0.0035), (12, 0.001)])
def test_camber_is_foreshortened_by_the_bed(bed: float, depth: float) -> None:
    """rpwoodwork.com 2009: 0.005 in on the blade is 0.0035 in at 45 and 0.001 in at 12 degrees."""
    assert depth_at_work(0.005, bed) == pytest.approx(depth, abs=5e-5)
    assert camber_on_blade(depth_at_work(0.005, bed), bed) == pytest.approx(0.005)


@pytest.mark.parametrize(("setback", "expected"), [(0.1, 60), (0.2, 55)])
def test_chipbreaker_equivalence(setback: float, expected: float) -> None:
    assert equivalent_cutting_angle(setback) == pytest.approx(expected, abs=2.5)


@pytest.mark.parametrize("setback", [0.05, 0.25, 0.4])
def test_no_equivalence_outside_what_was_measured(setback: float) -> None:
    assert equivalent_cutting_angle(setback) is None


def test_growth_of_a2() -> None:
    """0.001 in per in: 50.8 mm grows 0.0508 mm."""
    assert 50.8 * growth_share("A2") == pytest.approx(0.0508, abs=0.001)


def test_hot_rolled_allowance_of_a_quarter_by_two_inch_flat() -> None:
    face, edge = skin_allowance(0.25 * 25.4, 2.0 * 25.4)
    assert face == pytest.approx(0.03 * 25.4)
    assert edge == pytest.approx(0.044 * 25.4)
    decarb = table("steel")["grinding"]["hot_rolled_flat"]["decarburisation_fraction"]
    assert decarb * face == pytest.approx(0.024 * 25.4)


def test_thermal_bow_of_an_a2_blade() -> None:
    """alpha 10.7e-6, 5 K, 200 mm, 4 mm: 0.06687 mm."""
    assert bow(200, 4, 5, expansion("A2").per_k) == pytest.approx(0.06687, abs=1e-4)
