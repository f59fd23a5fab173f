"""Limits and fits by ISO 286, general tolerances by ISO 2768.

Sources: ISO 286-1/-2:2010 values (tables copied in a CAD program's source and on engineersvault); classes of the
letters d, e, m, n, p from ISO 286 tables recalled; ISO 2768-1:1989 Tables 1 to 3 (copy at modulusmetal.com).
"""

import pytest

from shared.errors import InputError
from shared.fits import (
    fit,
    general_angle,
    general_edge,
    general_flatness,
    general_linear,
    hole_limits,
    standard_tolerance,
    tolerance_unit,
)
from shared.tables import table


@pytest.mark.parametrize(
    ("size", "name", "hole", "shaft", "play"),
    [
        pytest.param(25, "H7/g6", (0, 21), (-20, -7), (7, 41), id="fit-25H7g6"),
        pytest.param(40, "H8/f7", (0, 39), (-50, -25), (25, 89), id="fit-40H8f7"),
        pytest.param(30, "H7/h6", (0, 21), (-13, 0), (0, 34), id="fit-30H7h6 size on a bound"),
        pytest.param(12, "H7/h6", (0, 18), (-11, 0), (0, 29), id="fit-12H7h6"),
        pytest.param(18, "H8/h7", (0, 27), (-18, 0), (0, 45), id="fit-18H8h7 size on a bound"),
        pytest.param(25, "H7/k6", (0, 21), (2, 15), (-15, 19), id="25H7k6"),
        pytest.param(25, "H7/p6", (0, 21), (22, 35), (-35, -1), id="25H7p6 recalled"),
        pytest.param(25, "H7/n6", (0, 21), (15, 28), (-28, 6), id="25H7n6 recalled"),
        pytest.param(25, "H9/d9", (0, 52), (-117, -65), (65, 169), id="25H9d9 recalled"),
        pytest.param(25, "K7/h6", (-15, 6), (-13, 0), (-15, 19), id="25K7h6 recalled, with delta"),
        pytest.param(25, "P7/h6", (-35, -14), (-13, 0), (-35, -1), id="25P7h6 recalled, with delta"),
    ],
)
def test_fit(size: float, name: str, hole: tuple, shaft: tuple, play: tuple) -> None:
    f = fit(size, name)
    assert (f.hole.lower, f.hole.upper) == hole
    assert (f.shaft.lower, f.shaft.upper) == shaft
    assert (f.clearance_min, f.clearance_max) == play


# upper deviations of F8 and G7 as printed in the source, against those computed from f, g and the grades
SIZES_TO = [3, 6, 10, 14, 18, 24, 30, 40, 50, 65, 80, 100, 120, 140, 160, 180, 200]
SIZES_TO += [225, 250, 280, 315, 355, 400, 450, 500]
F8 = [20, 28, 35, 43, 43, 53, 53, 64, 64, 76, 76, 90, 90, 106, 106, 106, 122, 122, 122, 137, 137, 151, 151, 165, 165]
G7 = [12, 16, 20, 24, 24, 28, 28, 34, 34, 40, 40, 47, 47, 54, 54, 54, 61, 61, 61, 69, 69, 75, 75, 83, 83]


@pytest.mark.parametrize(("letter", "grade", "column"), [("F", 8, F8), ("G", 7, G7)])
def test_printed_hole_columns(letter: str, grade: int, column: list[int]) -> None:
    assert [hole_limits(size, letter, grade).upper for size in SIZES_TO] == column


def test_tolerance_unit_of_30_to_50_mm() -> None:
    """i = 1.561 um and 16 i rounds to the table's IT7 of 25 um (ISO 286-1 annex, recalled)."""
    i = tolerance_unit(30, 50)
    assert i == pytest.approx(1.561, abs=0.002)
    assert round(16 * i) == standard_tolerance(40, 7) == 25


def test_every_standard_tolerance_is_near_its_formula() -> None:
    """The table is the formula rounded, over 3 mm; a slipped digit in the copy would show."""
    data = table("fits")["it"]
    multiples = table("fits")["it_formula"]["multiples"]
    for low, high in zip(data["over_mm"][1:], data["to_mm"][1:], strict=True):
        i = tolerance_unit(low, high)
        for name, factor in multiples.items():
            value = standard_tolerance(high, int(name[2:]))
            assert value == pytest.approx(factor * i, rel=0.1, abs=1.0), (high, name)


@pytest.mark.parametrize(
    ("size", "cls", "expected"),
    [(50.8, "m", 0.3), (6.35, "m", 0.2), (180, "c", 1.2), (450, "m", 0.8), (4.5, "v", 0.5), (0.5, "m", 0.1)],
)
def test_iso2768_linear(size: float, cls: str, expected: float) -> None:
    assert general_linear(size, cls) == expected  # type: ignore[arg-type]


@pytest.mark.parametrize(("size", "cls"), [(0.3, "m"), (2.0, "v"), (3000, "f")])
def test_iso2768_gives_none(size: float, cls: str) -> None:
    with pytest.raises(InputError, match="state the tolerance"):
        general_linear(size, cls)  # type: ignore[arg-type]


def test_iso2768_angle_of_a_25_degree_bevel_on_3_mm() -> None:
    assert general_angle(7.1, "m") == 60


def test_iso2768_edges_and_flatness() -> None:
    assert general_edge(2, "m") == 0.2
    assert general_edge(4, "c") == 1.0
    assert general_flatness(190, "K") == 0.4
