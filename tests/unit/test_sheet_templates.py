"""Templates at 1:1 over one page or more, and printed shrink rules."""

from __future__ import annotations

import itertools
from pathlib import Path

import pypdf
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shared.drawing.ink import Path as InkPath
from shared.drawing.ink import Words, ink
from shared.drawing.overlap import ink_faults, text_box
from shared.drawing.paper import paper
from shared.drawing.sheet import Sheet
from shared.drawing.shrink_rule import shrink_rule, ticks
from shared.drawing.templates import LAP, MARGIN, MARK, _clear_of, _laid, crosses, tiles, write_template
from shared.errors import InputError
from shared.profile import Profile

MM = 72 / 25.4


@settings(deadline=None)
@given(st.floats(5, 1500), st.floats(5, 1500), st.sampled_from(["A4", "A", "A3"]))
def test_tiles_cover_everything_and_each_cross_stands_on_both_neighbours(w: float, h: float, size: str) -> None:
    page, rows = tiles((10.0, -20.0, 10.0 + w, -20.0 + h), paper(size).with_margin(12.0))
    flat = [t for row in rows for t in row]
    assert all(t[2] - t[0] == pytest.approx(page.width - 24) for t in flat)
    assert min(t[0] for t in flat) <= 10.0 + 1e-6 and max(t[2] for t in flat) >= 10.0 + w - 1e-6
    assert min(t[1] for t in flat) <= -20.0 + 1e-6 and max(t[3] for t in flat) >= -20.0 + h - 1e-6
    for a, b in zip(rows[0], rows[0][1:], strict=False):
        assert a[2] - b[0] == pytest.approx(LAP)
    for u, v in crosses(rows):
        on = [t for t in flat if t[0] + MARK <= u <= t[2] - MARK and t[1] + MARK <= v <= t[3] - MARK]
        assert len(on) >= 2


def test_a_long_outline_goes_over_pages_at_full_size(tmp_path: Path) -> None:
    file = tmp_path / "t.pdf"
    title = ["Cheek outline", "Heron, revision A"]
    n = write_template(file, [Profile.rectangle(0, 0, 356, 62)], title, footer="Heron A")
    reader = pypdf.PdfReader(file)
    assert n == len(reader.pages) == 2
    first = reader.pages[0].extract_text()
    assert "Cheek outline" in first and "row 1, column 1 · page 1 of 2" in first and "100 mm" in first
    page = pypdfium2.PdfDocument(file)[0]
    heights = [(o.get_bounds()[3] - o.get_bounds()[1]) / MM for o in page.get_objects() if o.type == 2]
    assert any(h == pytest.approx(63.0, abs=0.02) for h in heights)
    one = write_template(tmp_path / "s.pdf", [Profile.rectangle(0, 0, 120, 62)], ["Small"], size="A")
    assert one == 1
    again = tmp_path / "again.pdf"
    write_template(again, [Profile.rectangle(0, 0, 356, 62)], title, footer="Heron A")
    assert again.read_bytes() == file.read_bytes()


def test_words_stand_whole_on_one_page_and_the_cross_moves_off_the_outline(tmp_path: Path) -> None:
    """An outline over two pages that runs through the place a cross would have, and a title wider than a page."""
    long = "body pattern, plan at the parting plane, at pattern size, for a plane with a very long name indeed, again"
    slab = Profile.rectangle(0, 0, 356, 62)
    file = tmp_path / "t.pdf"
    assert write_template(file, [slab], [long, "revision A"], size="A", footer="Heron revision A") == 2
    first, second = (p.extract_text() for p in pypdf.PdfReader(file).pages)
    assert all(word in first for word in long.split())
    assert "lay cross on cross" in first and "lay cross on cross" in second
    sheet = Sheet()
    sheet.draw([slab], "OUTLINE")
    _, rows = _laid(sheet, [long], paper("A").with_margin(MARGIN))
    lowest, rect = min(t[1] for t in rows[0]), rows[0][0]
    for x in ink(sheet):
        if isinstance(x, Words):
            us, vs = zip(*text_box(x).corners(), strict=True)
            assert min(vs) >= lowest and max(us) <= rect[2] - LAP and min(us) >= rect[0]
    clear = _clear_of(sheet)
    marks = crosses(rows, clear)
    assert all(clear(u, v) for u, v in marks)
    for u, v in marks:
        assert min(abs(v), abs(v - 62.0)) >= MARK and rect[2] - LAP < u < rect[2]
    # the place asked for lies on the outline: it moves
    on_line = Sheet()
    plain = crosses(rows)[0]
    on_line.draw([Profile.rectangle(0, plain[1], 356, plain[1] + 62)], "OUTLINE")
    assert crosses(rows, _clear_of(on_line))[0] != plain


@pytest.mark.parametrize(("unit", "length", "true"), [("inch", 18.0, "18.416 in"), ("mm", 444.0, "454.3 mm")])
@pytest.mark.parametrize("size", ["A", "A4"])
def test_a_rule_with_a_long_name_keeps_its_bars_free_and_says_what_it_belongs_to(
    unit: str, length: float, true: str, size: str
) -> None:
    name = "Ductile iron 65-45-12, master of a pattern cast in aluminium pattern metal (cast, 319 or 356 type)"
    pages = shrink_rule(0.0231255, length, unit, name=name, size=size, belongs="Heron revision A · spec 0123456789ab")
    for n, sheet in enumerate(pages, 1):
        assert ink_faults(sheet) == []
        said = [x.text for x in ink(sheet) if isinstance(x, Words)]
        assert f"Heron revision A · spec 0123456789ab · page {n} of {len(pages)}" in said
        assert any(f"on this rule measure {true}." in w for w in said)
        title = next(x for x in ink(sheet) if isinstance(x, Words) and x.text.startswith("Shrink rule"))
        bars = [x for x in ink(sheet) if isinstance(x, Words) and x.text in ("100 mm", "4 in")]
        low = min(v for _, v in text_box(title).corners())
        assert all(low > max(v for _, v in text_box(b).corners()) for b in bars)


@pytest.mark.parametrize(("unit", "length", "one"), [("inch", 12.0, 25.4), ("mm", 320.0, 1.0), ("inch", 3.0, 25.4)])
def test_divisions_are_longer_by_the_contraction(unit: str, length: float, one: float) -> None:
    pages = shrink_rule(0.0125, length, unit, name="ductile iron", size="A")
    for sheet in pages:
        assert ink_faults(sheet) == []
    marks = [x for s in pages for x in ink(s) if isinstance(x, InkPath) and x.layer == "SCALE"]
    # the longest graduations stand one numbered division apart
    top = max(x.start[1] for x in marks if x.points()[1][1] < x.start[1] - 10.5)
    us = sorted(x.start[0] for x in marks if x.start[1] == top and x.points()[1][0] == x.start[0]
                and 10.5 < x.start[1] - x.points()[1][1] < 12.5)  # fmt: skip
    step = one * (10 if unit == "mm" else 1) * 1.0125
    assert [b - a for a, b in itertools.pairwise(us)] == pytest.approx([step] * (len(us) - 1), abs=2e-6)
    words = [x.text for s in pages for x in ink(s) if isinstance(x, Words)]
    assert any("1.250 %" in w and "0.1500 in/ft" in w for w in words)
    assert {str(int(length)), "0"} <= set(words)


def test_graduations_of_an_inch() -> None:
    got = ticks(1.0, "inch", 16)
    assert len(got) == 17
    assert [t for t in got if t[2]] == [(0.0, 12.0, "0"), (1.0, 12.0, "1")]
    assert got[8] == (0.5, 9.5, "") and got[1][1] == 4.0


@pytest.mark.parametrize("args", [(0.5, 12.0, "inch"), (0.01, 0.0, "inch"), (0.01, 12.0, "ell"), (0.01, 1e9, "mm")])
def test_wrong_rules_are_refused(args: tuple[float, float, str]) -> None:
    with pytest.raises(InputError):
        shrink_rule(*args)
    with pytest.raises(InputError):
        shrink_rule(0.01, 12.0, finest=10)
