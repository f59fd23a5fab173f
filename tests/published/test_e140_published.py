"""Hardness conversion against ASTM E140 Table 1 (copies) and an independent Vickers-ordered table.

Sources: ASTM E140 Table 1 as reproduced in conversion charts; a Brinell/Vickers ordered ASTM-type table (ferritec,
appendix 2, on oocities.com), which must agree with linear interpolation of Table 1 within 0.2 HRC.
"""

import pytest

from parts.blade.hardness import convert
from shared.errors import InputError


@pytest.mark.parametrize(
    ("hrc", "scale", "expected", "tolerance"),
    [
        pytest.param(62, "HV", 746, 1, id="e140-hrc62-HV"),
        pytest.param(62, "HRA", 82.3, 0.1, id="e140-hrc62-HRA"),
        pytest.param(62, "HBW", 688, 1, id="e140-hrc62-HBW"),
        pytest.param(45, "HV", 446, 0.5, id="e140-hrc45-HV"),
        pytest.param(45, "HRA", 73.1, 0.05, id="e140-hrc45-HRA"),
        pytest.param(45, "HBW", 421, 0.5, id="e140-hrc45-HBW"),
    ],
)
def test_table_1(hrc: float, scale: str, expected: float, tolerance: float) -> None:
    assert convert(hrc, "HRC", scale) == pytest.approx(expected, abs=tolerance)


@pytest.mark.parametrize(("hv", "hrc"), [(880, 66.4), (820, 64.7), (720, 61.0), (700, 60.1), (670, 58.8)])
def test_independent_vickers_ordered_table(hv: float, hrc: float) -> None:
    assert convert(hv, "HV", "HRC") == pytest.approx(hrc, abs=0.2)


@pytest.mark.parametrize("hrc", [70, 68.5, 19])
def test_outside_table_1_is_refused(hrc: float) -> None:
    """E140 Table 1 runs from 20 to 68 HRC."""
    with pytest.raises(InputError, match="20 to 68 HRC"):
        convert(hrc, "HRC", "HV")
