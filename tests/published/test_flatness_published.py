"""Flatness and straightness against measured surface plates and exact shapes.

Sources: J. C. Moody, How to Calibrate Surface Plates in the Plant, The Tool Engineer, October 1955, Table 1, column 6
(heights in 0.1 second of arc times 4 in; published peak to valley 92); Espinosa et al., SAND2008-2571C (2008), Figure
14 and Table 4 (microinch; published 235). Minimum zones of both were found by linear program and by convex hull when
the cases were collected. The rest are exact widths of simple shapes.
"""

import numpy as np
import pytest

from shared.flatness import minimum_zone, zone_by_hull, zone_by_program
from shared.straightness import straightness

MOODY = {
    "NW_to_SE": [-36, -22, -13, -14, -13, -9, -4, 0, -1, 3, 0, -1, 0, 2, 0, -5, -14, -12, -14, -20, -36],
    "NE_to_SW": [-53, -35, -30, -24, -21, -14, -5, -4, -2, 3, 0, -4, -8, -11, -12, -18, -24, -31, -31, -37, -53],
    "north_E_to_W": [-53, -40, -34, -21, -9, 1, 9, 7, 11, 8, 2, -2, -8, -15, -22, -23, -36],
    "east_N_to_S": [-53, -49, -60, -65, -68, -65, -64, -60, -51, -40, -36],
    "south_E_to_W": [-36, -18, -14, -3, 6, 11, 18, 24, 24, 18, 8, -3, -16, -29, -40, -46, -53],
    "west_N_to_S": [-36, -30, -38, -46, -53, -57, -66, -61, -54, -48, -53],
    "centre_E_to_W": [-58, -52, -39, -29, -16, -7, -4, -1, 0, 2, -7, -10, -19, -30, -35, -42, -50],
    "centre_N_to_S": [11, 10, 7, 3, 1, 0, 2, 10, 17, 21, 24],
}
SANDIA = {
    "north_W_to_E": [123, 139, 148, 176, 201, 213, 225, 235, 233, 212, 186, 152, 119, 101, 68, 30, 0],
    "south_W_to_E": [0, 10, 31, 63, 110, 141, 166, 192, 203, 212, 210, 204, 192, 181, 163, 146, 123],
    "centre_W_to_E": [97, 123, 141, 166, 178, 189, 193, 198, 187, 188, 181, 171, 157, 140, 119, 108, 90],
    "west_N_to_S": [123, 120, 127, 121, 115, 97, 77, 68, 42, 16, 0],
    "east_N_to_S": [0, 31, 48, 60, 73, 90, 118, 116, 118, 123, 123],
    "centre_N_to_S": [233, 225, 217, 220, 222, 187, 209, 209, 211, 209, 203],
    "NW_to_SE": [123, 139, 159, 177, 190, 202, 207, 215, 214, 187, 186, 165, 165, 160, 155, 149, 137, 131, 123],
    "NE_to_SW": [0, 39, 70, 97, 120, 151, 179, 198, 191, 187, 182, 171, 156, 149, 127, 100, 77, 37, 0],
}
UNIT_MM = 1.9392547244381438e-06 * 25.4  # 0.1 second of arc over 4 in


def points_of(lines: dict[str, list[int]], long: float, wide: float, unit: float) -> np.ndarray:
    """Return every station of the eight lines, duplicates kept; north is +y, east +x [mm]."""
    corner = {"NW": (0, wide), "NE": (long, wide), "SW": (0, 0), "SE": (long, 0)}
    ends = {
        "NW_to_SE": (corner["NW"], corner["SE"]),
        "NE_to_SW": (corner["NE"], corner["SW"]),
        "north": (corner["NW"], corner["NE"]),
        "south": (corner["SW"], corner["SE"]),
        "west": (corner["NW"], corner["SW"]),
        "east": (corner["NE"], corner["SE"]),
        "centre_W": ((0, wide / 2), (long, wide / 2)),
        "centre_N": ((long / 2, wide), (long / 2, 0)),
    }
    rows = []
    for name, heights in lines.items():
        key = name if name in ends else name.split("_")[0]
        if key == "centre":
            key = "centre_N" if name.startswith("centre_N") else "centre_W"
        (x0, y0), (x1, y1) = ends[key]
        if name.endswith("E_to_W"):
            (x0, y0), (x1, y1) = (x1, y1), (x0, y0)
        for f, z in zip(np.linspace(0, 1, len(heights)), heights, strict=True):
            rows.append((x0 + f * (x1 - x0), y0 + f * (y1 - y0), z * unit))
    return np.array(rows)


def test_moody_plate() -> None:
    points = points_of(MOODY, 64 * 25.4, 40 * 25.4, UNIT_MM)
    zone = minimum_zone(points)
    assert len(points) == 126
    assert zone.width / UNIT_MM == pytest.approx(84.5, abs=0.02)
    assert zone.least_squares / UNIT_MM == pytest.approx(90.412, abs=0.02)
    assert 1000 * zone.width == pytest.approx(4.162, abs=0.005)
    assert zone.width / UNIT_MM < 92
    assert zone.contact == "2-2"


def test_sandia_plate() -> None:
    unit = 25.4e-6
    points = points_of(SANDIA, 1800.0, 1200.0, unit)
    zone = minimum_zone(points)
    assert len(points) == 122
    assert zone.width / unit == pytest.approx(223.5, abs=0.05)
    assert zone.least_squares / unit == pytest.approx(233.115, abs=0.05)


@pytest.mark.parametrize("lines", [MOODY, SANDIA], ids=["moody", "sandia"])
def test_linear_program_and_hull_search_agree_on_plates(lines: dict[str, list[int]]) -> None:
    points = points_of(lines, 1600.0, 1000.0, UNIT_MM)
    by_hull = zone_by_hull(points)
    assert by_hull is not None
    assert zone_by_program(points)[0] == pytest.approx(by_hull[0], rel=1e-9)


def test_regular_tetrahedron_needs_an_edge_edge_contact() -> None:
    """Edge 2 sqrt 2: width is edge/sqrt 2 = 2; a search over faces alone returns 2.309."""
    zone = minimum_zone([[1, 1, 1], [1, -1, -1], [-1, 1, -1], [-1, -1, 1]])
    assert zone.width == pytest.approx(2.0, abs=1e-6)
    assert zone.contact == "2-2"


def test_regular_octahedron() -> None:
    """Edge sqrt 2: face to face is 2/sqrt 3."""
    zone = minimum_zone([[1, 0, 0], [-1, 0, 0], [0, 1, 0], [0, -1, 0], [0, 0, 1], [0, 0, -1]])
    assert zone.width == pytest.approx(1.154701, abs=1e-5)
    assert zone.contact == "3-3"


def test_three_one_contact() -> None:
    zone = minimum_zone([[0, 0, 0], [100, 0, 0], [0, 100, 0], [20, 30, 0.05]])
    assert zone.width == pytest.approx(0.05, abs=1e-5)
    assert zone.least_squares == pytest.approx(0.05435, abs=1e-5)
    assert zone.contact == "3-1"


@pytest.mark.parametrize(
    ("line", "zone", "fitted", "ends"),
    [("west_N_to_S", 24.75, 24.7636, 27.5), ("south_E_to_W", 68.5, 75.1765, 68.5)],
)
def test_moody_lines(line: str, zone: float, fitted: float, ends: float) -> None:
    z = MOODY[line]
    s = straightness([4.0 * i for i in range(len(z))], z)
    assert s.minimum_zone_vertical == pytest.approx(zone, abs=0.01)
    assert s.least_squares_vertical == pytest.approx(fitted, abs=0.01)
    assert s.end_points_vertical == pytest.approx(ends, abs=0.01)


@pytest.mark.parametrize(
    ("x", "z", "vertical", "square", "fitted"),
    [
        pytest.param([0, 1, 2, 3, 4], [0, 0, 0, 0, 1], 0.75, 0.727607, 0.8, id="straight-hook"),
        pytest.param([0, 10, 20, 30, 40, 50], [0, 2, -1, 3, 1, 0], 3.666667, 3.664631, 3.97143, id="straight-six"),
    ],
)
def test_exact_profiles(x: list[float], z: list[float], vertical: float, square: float, fitted: float) -> None:
    s = straightness(x, z)
    assert s.minimum_zone_vertical == pytest.approx(vertical, abs=1e-4)
    assert s.minimum_zone == pytest.approx(square, abs=1e-4)
    assert s.least_squares_vertical == pytest.approx(fitted, abs=1e-4)


def test_regular_pentagon() -> None:
    """Width 1 + cos 36 degrees."""
    x = [1.0, 0.309016994, -0.809016994, -0.809016994, 0.309016994]
    z = [0.0, 0.951056516, 0.587785252, -0.587785252, -0.951056516]
    assert straightness(x, z).minimum_zone == pytest.approx(1.809017, abs=1e-5)
