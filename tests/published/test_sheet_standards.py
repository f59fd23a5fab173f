"""Sheets against the standards they follow, and against an independent reader of DXF.

ISO 216 (paper), ISO 5457 (frames), ISO 5455 (scales), ISO 128-2 (line widths), ISO 3098-1 (lettering), ISO 7200 (title
block), ASME Y14.1 (inch sizes). The values are written from memory; the relations among them (area, halving, ratio of
the root of two) are computed. GDAL's DXF driver is the independent reader.
"""

from __future__ import annotations

import itertools
import math
from collections import Counter
from pathlib import Path

import pyogrio
import pytest
import shapely
from ezdxf.disassemble import recursive_decompose

from shared.drawing.ink import Words, ink
from shared.drawing.marks import SMALL, TEXT
from shared.drawing.paper import ANSI, ISO, SCALES, scale_factor, smaller_scales
from shared.drawing.sheet import LAYERS
from shared.drawing.title import WIDTH
from tests.sheet_samples import demo


@pytest.mark.parametrize(
    ("name", "size", "space"),
    [("A4", (210, 297), (180, 277)), ("A3", (297, 420), (277, 390)), ("A2", (420, 594), (400, 564)),
     ("A1", (594, 841), (574, 811)), ("A0", (841, 1189), (821, 1159))],
)  # fmt: skip
def test_iso_216_sizes_and_iso_5457_drawing_spaces(name: str, size: tuple[int, int], space: tuple[int, int]) -> None:
    p = ISO[name]
    u0, v0, u1, v1 = p.frame
    assert tuple(sorted((p.width, p.height))) == size
    assert tuple(sorted((u1 - u0, v1 - v0))) == space
    assert u0 == 20.0 and v0 == p.width - u1 == p.height - v1 == 10.0


def test_iso_216_each_size_is_half_of_the_next_and_a0_a_square_metre() -> None:
    names = ["A0", "A1", "A2", "A3", "A4"]
    assert ISO["A0"].width * ISO["A0"].height == pytest.approx(1e6, rel=2e-4)
    for big, small in itertools.pairwise(names):
        a, b = sorted((ISO[big].width, ISO[big].height)), sorted((ISO[small].width, ISO[small].height))
        assert b == [a[1] // 2, a[0]]


@pytest.mark.parametrize(
    ("name", "inches"), [("A", (8.5, 11)), ("B", (11, 17)), ("C", (17, 22)), ("D", (22, 34)), ("E", (34, 44))]
)
def test_asme_y14_1_sizes(name: str, inches: tuple[float, float]) -> None:
    p = ANSI[name]
    assert sorted((p.width / 25.4, p.height / 25.4)) == pytest.approx(inches)
    u0, v0, u1, v1 = p.frame
    assert 0 < u0 < u1 < p.width and 0 < v0 < v1 < p.height
    assert u1 - u0 >= WIDTH  # the title block goes on the smallest


def test_iso_128_line_group_half() -> None:
    """Wide to narrow as 2 to 1, of the series 0.13, 0.18, 0.25, 0.35, 0.5, 0.7 that grows by the root of two."""
    series = (13, 18, 25, 35, 50, 70)
    for a, b in itertools.pairwise(series):
        assert b / a == pytest.approx(math.sqrt(2), rel=0.04)
    assert {layer.weight for layer in LAYERS.values()} <= set(series)
    wide, narrow = LAYERS["OUTLINE"].weight, LAYERS["DIM"].weight
    assert wide == 2 * narrow == 50
    assert {LAYERS[n].weight for n in ("HIDDEN", "CENTRE", "HATCH", "GDT")} == {narrow}


def test_iso_3098_letter_heights() -> None:
    series = {1.8, 2.5, 3.5, 5.0, 7.0, 10.0}
    assert {TEXT, SMALL} <= series
    sheet = demo().layout().sheets[0]
    drawn = {x.height for x in ink(sheet) if isinstance(x, Words) and x.layer in ("DIM", "GDT", "SECTION")}
    assert drawn <= series


def test_iso_5455_scales_run_1_2_5() -> None:
    shown = [scale_factor(s) for s in SCALES]
    assert shown == sorted(shown, reverse=True)
    assert all(scale_factor(s) in {f * 10.0**n for f in (1, 2, 5) for n in (-2, -1, 0, 1)} for s in SCALES)
    assert smaller_scales("1:2")[:2] == ("1:5", "1:10")


def test_iso_7200_fields_and_width() -> None:
    """Identifying fields: owner, number, revision, date, sheet; descriptive: title; administrative: persons, type."""
    words = {x.text for x in ink(demo().layout().sheets[0]) if isinstance(x, Words)}
    assert words >= {"Owner", "Document number", "Revision", "Date of issue", "Sheet", "Title", "Created by",
                     "Approved by", "Document type", "Scale", "Units", "Material", "Mass",
                     "Third-angle projection"}  # fmt: skip
    assert words >= {"Larch Lane Plane Works", "LL-100", "B", "1/1", "Part drawing", "1:1", "3f2a91c0"}
    assert WIDTH == 180.0


def test_gdal_reads_the_same_entities_and_extent(tmp_path: Path) -> None:
    plan = demo()
    plan.save(dxf=tmp_path / "d.dxf")
    sheet = plan.layout().sheets[0]
    # GDAL explodes dimensions and reads an inserted symbol as one feature
    seen: Counter[str] = Counter()
    for e in sheet.space:
        many = list(recursive_decompose([e])) if e.dxftype() == "DIMENSION" else [e]
        seen.update(x.dxf.layer for x in many)
    _, _, geometry, fields = pyogrio.raw.read(tmp_path / "d.dxf", columns=["Layer", "Text"])
    assert Counter(fields[0]) == seen
    shapes = shapely.from_wkb(geometry)
    paper = plan.layout().paper
    frame = shapes[fields[0] == "FRAME"]
    u0, v0, u1, v1 = paper.frame
    # the centring marks reach 5 mm out of the frame
    assert shapely.total_bounds(frame) == pytest.approx((u0 - 5, v0 - 5, u1 + 5, v1 + 5))
    outline = shapely.total_bounds(shapes[fields[0] == "OUTLINE"])
    placed = plan.layout().pages[0].views
    cores = [(p.at[0] + p.arranged.core[0], p.at[1] + p.arranged.core[1]) for p in placed]
    assert outline[0] == pytest.approx(min(c[0] for c in cores), abs=1e-6)
    plate = next(p for p in placed if p.arranged.view.name == "plate")
    assert outline[3] == pytest.approx(plate.at[1] + 2 * 25.4, abs=1e-6)
    texts = {str(t).encode("latin-1", "ignore").decode("utf-8", "ignore") for t in fields[1] if t}
    assert {"4.000 ±0.004 [101.60 ±0.10]", "4× R0.250 [6.35]", "26.6°"} <= texts
