"""Lumber measure and grade arithmetic against the NHLA rules and pages that quote them."""

import pytest

from parts.handle import grading, lumber

IN, FT = 25.4, 304.8


@pytest.mark.parametrize(
    ("width", "feet", "surface"),
    [
        pytest.param(6.5, 8, 4, id="importer page on NHLA measure, 6-1/2 in x 8 ft"),
        pytest.param(8, 12, 8, id="importer page on NHLA measure, 8 in x 12 ft"),
        pytest.param(6.25, 8, 4, id="export council measurement page, 6-1/4 in x 8 ft"),
        pytest.param(6, 8.9, 4, id="length drops to the whole foot"),
    ],
)
def test_surface_measure(width, feet, surface):
    assert lumber.surface_measure(width * IN, feet * FT) == surface


def test_board_feet_of_the_export_council():
    """American hardwood export council measurement page: 6-1/4 in x 8 ft x 2 in is 8 board feet."""
    assert lumber.board_feet(lumber.surface_measure(6.25 * IN, 8 * FT), 2 * IN) == pytest.approx(8)


def test_exact_halves_go_up_and_down_by_turns():
    """NHLA measure: exactly one half is alternately raised and dropped from board to board."""
    assert lumber.tally([(6.75 * IN, 8 * FT)] * 4) == [5, 4, 5, 4]


def test_thin_stock_counts_as_one_inch():
    """NHLA measure: nominal thickness under 1 inch is counted as 1 inch."""
    assert lumber.board_feet(6, 0.75 * IN) == pytest.approx(6)


@pytest.mark.parametrize(
    ("nominal", "least_in"), [(1.25, 1.1875), (1.0, 0.9375), (1.75, 1.6875), (2.0, 1.875), (3.0, 2.875)]
)
def test_kiln_dried_least(nominal, least_in):
    """NHLA Rules 2023 p. 56, as quoted 28 Feb 2025: 5/4 may be 1-3/16 in (30.16 mm) at its thinnest."""
    assert lumber.kiln_dried_least_mm(nominal * IN) == pytest.approx(least_in * IN, abs=0.01)


@pytest.mark.parametrize(
    ("name", "surfaced"),
    [("4/4", 13 / 16), ("5/4", 1 + 1 / 16), ("6/4", 1 + 5 / 16), ("8/4", 1.75), ("12/4", 2.75)],
)
def test_surfaced_thickness(name, surfaced):
    """NHLA standard thickness, surfaced two sides."""
    assert {t.name: t for t in lumber.thicknesses()}[name].surfaced_mm == pytest.approx(surfaced * IN)


def test_gross_to_net():
    """Trade article on net and gross measure: 1000 board feet gross at 7 % is 930 net."""
    assert lumber.net_tally(1000) == pytest.approx(930)


@pytest.mark.parametrize(
    ("grade", "units", "cuttings", "extra"),
    [("FAS", 80, 2, 88), ("No1 Common", 64, 3, 72), ("2A Common", 48, 4, None)],
)
def test_grade_numbers_of_8_feet_surface(grade, units, cuttings, extra):
    """NHLA grade chart, SM 8. No.2A's extra cutting ends at 7 ft SM."""
    found = grading.need(grade, 8 * IN, 12 * FT)
    assert (found.surface_measure, found.clear_units, found.cuttings) == (8, units, cuttings)
    assert found.extra_cutting_units == extra


def test_board_a_is_fas():
    """Grade chart: 6 in x 8 ft with one clear cutting 5 in x 8 ft has the 40 units FAS needs."""
    assert grading.grade_board(6 * IN, 8 * FT, [(5.0, 8.0)]) == "FAS"


def test_board_b_is_number_one_common():
    """Grade chart: FAS needs 80 units; 68 in two cuttings make No.1 Common."""
    assert grading.grade_board(8 * IN, 12 * FT, [(4.0, 10.0), (3.5, 8.0)]) == "No1_Common"


@pytest.mark.parametrize(("grade", "share"), [("FAS", 0.833), ("1C", 0.667), ("2A", 0.5), ("3A", 0.333)])
def test_least_clear_share(grade, share):
    """NHLA minimum clear area by grade."""
    assert grading.clear_share(grading.read_grade(grade)) == pytest.approx(share, abs=5e-4)


def test_a_board_foot_is_a_twelfth_of_a_cubic_foot():
    # NHLA rule book: a board foot is one foot long, one foot wide and one inch thick
    assert lumber.exact_board_feet(FT, FT, IN) == pytest.approx(1.0)
    assert lumber.exact_board_feet(FT, FT, FT) == pytest.approx(12.0)
    # thinner than an inch counts as an inch
    assert lumber.exact_board_feet(FT, FT, 0.5 * IN) == pytest.approx(1.0)
