"""Sheets of tables and notes only: read from the top down, nothing lost, no row left alone."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from shared.drawing.overlap import assert_clean
from shared.drawing.plan import SheetPlan
from tests.sheet_samples import TITLE


def card(tables, papers=("A",)):
    plan = SheetPlan(TITLE, papers=papers)
    for k, count in enumerate(tables):
        words = "some words that are long enough to wrap once or twice in their cell " * 2
        rows = [[f"t{k}r{i}", words] for i in range(count)]
        plan.table(["row", "what"], rows, title=f"Table {k}", widths=(30.0, 90.0))
        plan.notes([f"note {k}.{i}" for i in range(count % 4 + 1)], title=f"Notes {k}")
    return plan


def told(layout):
    """Return every text of the tables and notes in the order that a reader meets them."""
    out = []
    for sheet in layout.sheets:
        texts = [t.dxf for t in sheet.doc.modelspace().query("TEXT")]
        texts = [t for t in texts if t.text.startswith(("t", "note ")) and t.text != "the"]
        out += [t.text for t in sorted(texts, key=lambda t: -t.insert.y)]
    return [t for t in out if t[0] == "n" or t[1:2].isdigit()]


@settings(max_examples=8, deadline=None)
@given(st.lists(st.integers(1, 45), min_size=1, max_size=4), st.sampled_from(["A", "A4", "A3"]))
def test_everything_stands_in_its_order_on_clean_pages(tables, size):
    plan = card(tables, (size,))
    want = []
    for k, count in enumerate(tables):
        want += [f"t{k}r{i}" for i in range(count)] + [f"note {k}.{i}" for i in range(count % 4 + 1)]
    assert told(plan.layout()) == want
    assert_clean(plan)


def test_a_table_that_carries_on_says_so_and_leaves_no_row_alone():
    layout = card([40]).layout()
    assert len(layout.sheets) > 1
    for i, sheet in enumerate(layout.sheets):
        rows = [t.dxf.text for t in sheet.doc.modelspace().query("TEXT") if t.dxf.text.startswith("t0r")]
        assert len(rows) != 1
        heads = [t.dxf.text for t in sheet.doc.modelspace().query("TEXT") if t.dxf.text.startswith("Table 0")]
        assert heads == (["Table 0"] if i == 0 else ["Table 0 (continued)"] if rows else [])


def test_one_cell_longer_than_a_page_is_dealt_out():
    plan = SheetPlan(TITLE, papers=("A4",)).table(["only"], [["word " * 4000]], title="Endless", widths=(160.0,))
    layout = plan.layout()
    assert len(layout.sheets) > 1
    found = sum(t.dxf.text.count("word") for s in layout.sheets for t in s.doc.modelspace().query("TEXT"))
    assert found == 4000
    assert_clean(plan)


def test_a_page_of_a_sheet_in_a_set_keeps_the_sheets_number():
    plan = card([40])
    plan.title = replace(plan.title, sheet=7, sheets=20)
    layout = plan.layout()
    for i, sheet in enumerate(layout.sheets, 1):
        assert f"7.{i}/20" in [t.dxf.text for t in sheet.doc.modelspace().query("TEXT")]
