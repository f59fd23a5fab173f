"""ISO 8062 against published cells and lists.

Sources: ISO 8062-3:2007 Table 2 (read in copies); castfast.com guideline for iron castings of 28.01.2025, the list of
allowances for DCTG 11 with RMAG G; public research note quoting ISO 8062-3:2007 on walls and on grade 11;
a research note quoting a BDG sheet for RMA grade H.
"""

import math

import pytest

from shared.casting.allowance import (
    dimension_tolerance,
    machining_allowance,
    raw_dimension,
    stock_one_side,
    stock_per_side,
    wall_grade,
    wall_tolerance,
)
from shared.errors import RequestError


@pytest.mark.parametrize(
    ("dimension", "grade", "total"),
    [
        (240, 11, 5.6),
        (63.0, 10, 2.8),
        (63.01, 10, 3.2),
        (10, 1, 0.09),
        (100, 9, 2.2),
        (250, 9, 2.8),
        (400, 16, 25.0),
        (600, 13, 14.0),
        (800, 11, 8.0),  # research note: grade 11 is 8 mm for 630 to 1000
        (1500, 11, 9.0),  # and 9 mm for 1000 to 1600
    ],
)
def test_tolerance_cells(dimension: float, grade: int, total: float) -> None:
    assert dimension_tolerance(dimension, grade) == total


def test_undefined_cell_is_said_and_not_zero() -> None:
    """Grades 13 to 16 have no value up to 16 mm."""
    with pytest.raises(RequestError, match=r"no tolerance of grade 13 for 8 mm.*grades 1 to 12"):
        dimension_tolerance(8.0, 13)


def test_wall_is_one_grade_coarser() -> None:
    """Research note: grade-11 casting, wall of 30 mm, 5 mm, which is grade 12."""
    assert wall_grade(11) == 12
    assert wall_tolerance(30.0, 11) == 5.0


def test_sole_machined_on_one_side() -> None:
    """ISO 8062:1994, R = F + RMA + CT/2: F 5, largest 245, RMA F = 2, CT11 at the raw 8.4 is 2.8."""
    rma = machining_allowance(245.0, "F")
    raw = raw_dimension(5.0, "outside one side", rma, 11)
    assert rma == 2.0
    assert raw.tolerance_mm == 2.8
    assert raw.raw_mm == pytest.approx(8.4, abs=1e-9)
    assert stock_one_side(5.0, 245.0, 11, "F") == pytest.approx(3.4)


@pytest.mark.parametrize(("longest", "allowance"), [(100, 4), (250, 6), (630, 8), (1000, 9)])
def test_combined_allowance_of_an_iron_foundry(longest: float, allowance: float) -> None:
    """castfast.com 2025: DCTG 11 with RMAG G is RMA + DCT/2, rounded up, from 100 to 1000 mm."""
    exact = machining_allowance(longest, "G") + dimension_tolerance(longest, 11) / 2
    assert math.ceil(exact - 1e-9) == allowance


@pytest.mark.parametrize(("largest", "allowance"), [(800, 7.0), (1500, 8.0)])
def test_grade_h_of_large_castings(largest: float, allowance: float) -> None:
    assert machining_allowance(largest, "H") == allowance


def test_two_sides_share_half_the_tolerance() -> None:
    """R = F + 2·RMA + CT/2, so each face carries RMA + CT/4: 60 wide, largest 350, E = 1.8, CT9 at 64.7 is 2.2."""
    assert raw_dimension(60.0, "outside two sides", 1.8, 9).raw_mm == pytest.approx(64.7)
    assert stock_per_side(60.0, 350.0, 9, "E") == pytest.approx(1.8 + 2.2 / 4)


def test_inside_two_sides() -> None:
    """R = F − 2·RMA − CT/2: 240, RMA 2, CT11 at 233.2 is 5.6."""
    assert raw_dimension(240.0, "inside two sides", 2.0, 11).raw_mm == pytest.approx(233.2)
