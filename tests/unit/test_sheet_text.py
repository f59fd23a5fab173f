"""Texts of dimensions in both units, widths that agree with the PDF's face, and wrapping that loses nothing."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from reportlab.pdfbase.pdfmetrics import stringWidth

from shared.drawing import lettering
from shared.drawing.content import ra_text
from shared.drawing.dimtext import degrees, length, plus_minus
from shared.drawing.primitives import Note


@pytest.mark.parametrize(
    ("value", "unit", "tol", "how", "shown"),
    [
        (355.6, "inch", None, {}, "14.000 [355.60]"),
        (355.6, "mm", None, {}, "355.60 [14.000]"),
        (355.6, "inch", 0.2, {}, "14.000 ±0.008 [355.60 ±0.20]"),
        (50.8, "mm", 0.025, {}, "50.800 ±0.025 [2.000 ±0.001]"),
        (12.7, "inch", "H7", {"prefix": "Ø", "suffix": " THRU"}, "Ø0.5000 H7 [12.70] THRU"),
        (12.7, "mm", (0.018, 0.0), {"prefix": "Ø"}, "Ø12.700 +0.018/0 [0.5000 +0.0007/−0.0000]"),
        (25.4, "inch", (-0.05, -0.13), {}, "1.000 −0.002/−0.005 [25.40 −0.05/−0.13]"),
        # 6 um are 0.00024 in: shown inward of the limits, so that a part within the inches is within the mm
        (12.0, "mm", (-0.006, -0.017), {"prefix": "Ø"}, "Ø12.000 −0.006/−0.017 [0.4724 −0.0003/−0.0007]"),
        (20.0, "mm", None, {"reference": True}, "(20.00 [0.787])"),
        (20.0, "mm", None, {"places": (4, 1)}, "20.0 [0.7874]"),
        (20.0, "mm", None, {"single": True, "suffix": " deep"}, "20.00 deep"),
        (0.0004, "mm", None, {}, "0.00 [0.000]"),
        # halves go up as they are written, not as a computer holds them
        (41.275, "mm", None, {}, "41.28 [1.625]"),
        (15.875, "inch", (0.2, 0.0), {}, "0.625 +0.008/−0.000 [15.88 +0.20/0]"),
    ],
)
def test_lengths_in_both_units(value: float, unit: str, tol: object, how: dict[str, object], shown: str) -> None:
    assert length(value, unit, tol, **how).shown == shown  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("value", "tol", "shown"),
    [(45.0, None, "45°"), (12.5, None, "12.5°"), (45.0, 0.5, "45.0° ±0.5°"), (45.0, (0.5, 0.0), "45.0° +0.5°/0°")],
)
def test_angles(value: float, tol: object, shown: str) -> None:
    assert degrees(value, tol).shown == shown  # type: ignore[arg-type]


def test_a_lower_zero_stands_clear_of_the_number_in_the_digits_column() -> None:
    text = length(15.875, "mm", (0.2, 0.0), single=True)
    number, upper, lower = (s.what for s in text.strokes((0.0, 0.0)))
    assert isinstance(number, Note) and isinstance(upper, Note) and isinstance(lower, Note)
    end = number.at[0] + lettering.width(number.text, number.height)
    sign = lettering.width("+", upper.height)
    assert upper.height == pytest.approx(1.8)
    assert upper.at[0] - end == pytest.approx(0.35 * number.height)
    assert lower.text == "0" and lower.at[0] - upper.at[0] == pytest.approx(sign)
    assert lower.at[0] + lettering.width("0", lower.height) <= text.width


@pytest.mark.parametrize(
    ("first", "tolerance", "texture"),
    [("inch", "±0.008 in [0.20 mm]", "Ra 125 µin [3.2 µm]"), ("mm", "±0.20 mm [0.008 in]", "Ra 3.2 µm [125 µin]")],
)
def test_texts_lead_with_the_unit_of_the_spec(first: str, tolerance: str, texture: str) -> None:
    assert plus_minus(0.2, first) == tolerance
    assert ra_text(3.2, first) == texture


def test_roughness_goes_by_the_usual_series() -> None:
    found = [ra_text(um, "inch").split()[1] for um in (0.4, 0.8, 1.6, 3.2, 6.3, 12.5)]
    assert found == ["16", "32", "63", "125", "250", "500"]
    assert ra_text(5.0, "inch") == "Ra 197 µin [5 µm]"


def test_the_short_form_has_the_second_unit_below_the_line() -> None:
    two = length(12.7, "inch", 0.1).two
    assert two is not None and two.shown == "0.500 ±0.004 [12.70 ±0.10]"
    assert two.width < length(12.7, "inch", 0.1).width
    assert two.code == "<> ±0.004\\X[12.70 ±0.10]"


@given(st.text(st.characters(codec="cp1252", exclude_categories=["Cc"]), max_size=30), st.floats(1.0, 10.0))
@settings(max_examples=50, deadline=None)
def test_widths_are_those_of_the_pdf(text: str, height: float) -> None:
    wanted = stringWidth(text, "Helvetica", height / lettering.CAPITAL) * lettering.NARROW
    assert lettering.width(text, height) == pytest.approx(wanted)


@given(st.lists(st.text("abc defWØ°", min_size=1, max_size=40), max_size=12), st.floats(8.0, 120.0))
@settings(max_examples=80, deadline=None)
def test_wrapped_lines_fit_and_keep_every_letter(words: list[str], room: float) -> None:
    text = " ".join(words)
    lines = lettering.wrap(text, 2.5, room)
    assert all(lettering.width(line, 2.5) <= room for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")
