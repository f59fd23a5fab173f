"""The inspection sheet: clean, and its limits those that the parts' own sheets show."""

import pytest

from parts.plane.sheets.inspection import INSPECTION
from parts.plane.sheets.inspection_rows import blade_rows, body_rows, fit_rows, frog_rows, mouth_rows
from parts.plane.sheets.registry import sheet_set
from shared.drawing.annotations import Angular, Leader, Linear, Round
from shared.drawing.content import DimRow
from shared.drawing.dimtext import length
from shared.drawing.overlap import assert_clean
from shared.drawing.table import Table
from tests.solids.test_sheets_parts import run_of

pytestmark = pytest.mark.kernel


def shown(run, stem):
    """Return the text of every dimension on a sheet."""
    entry = next(e for e in sheet_set(run) if e.stem == stem)
    found = set()
    for view in entry.make(run, entry).views:
        for note in view.notes:
            if isinstance(note, Linear | Round | Angular):
                found.add(note.text.shown)
            rows = note.rows if isinstance(note, Leader | Round) else ()
            found |= {r.text.shown for r in rows if isinstance(r, DimRow)}
    return found


def limits_of(run):
    """Return nominal and limits of every row, by what is measured."""
    rows = [*body_rows(run), *frog_rows(run), *mouth_rows(run), *blade_rows(run), *fit_rows(run)]
    return {r[0]: (r[1], r[2]) for r in rows}


def has(texts, *parts):
    return any(all(p in t for p in parts) for t in texts)


@pytest.mark.parametrize("name", ["heron", "wren"])
def test_sheet_is_clean_and_says_no_class_without_its_limits(name):
    run = run_of(name)
    plan = INSPECTION.make(run, INSPECTION)
    assert_clean(plan)
    # one row a hole and a pin, each with its least and largest
    fits = fit_rows(run)
    assert len({r[0] for r in fits}) == len(fits)
    assert all(" to " in r[2] for r in fits)


@pytest.mark.parametrize(
    ("name", "stem", "feature", "size", "off"),
    [
        ("heron", "depth-adjuster", "yoke's hole", 4.1, (0.03, 0.0)),
        ("heron", "depth-adjuster", "yoke pin", 4.0, (0.012, 0.004)),
        ("heron", "lateral-adjuster", "lateral lever's pivot hole", 4.1, (0.03, 0.0)),
        ("heron", "lateral-adjuster", "lateral roller's hole", 4.1, (0.03, 0.0)),
        ("heron", "lateral-adjuster", "lateral lever pin", 4.0, (0.012, 0.004)),
        ("heron", "cam-lever", "cam lever's hole", 4.1, (0.05, 0.0)),
        ("heron", "leaf-rivets", "pivot rivet", 4.0, (0.0, -0.03)),
        ("heron", "blade", "thickness", 3.175, (0.05, -0.05)),
        ("heron", "blade", "width", 50.8, (0.0, -0.19)),
        ("wren", "clamp-stud", "clamp foot's hole", 3.3, (0.05, 0.0)),
        ("wren", "clamp-stud", "clamp screw's tip", 3.2, (0.0, -0.05)),
        ("wren", "lever-cap", "keyhole's slot, across", 5.326, (0.1, 0.0)),
        ("wren", "body", "mouth and toe piece's pocket", 36.425, (0.02, 0.0)),
        ("wren", "toe-piece", "toe piece", 36.365, (0.0, -0.02)),
    ],
)
def test_limits_are_those_of_the_parts_sheet(name, stem, feature, size, off):
    run = run_of(name)
    either = off[0] if off[0] == -off[1] else off
    assert has(shown(run, stem), length(size, "inch", either).shown), "drawn otherwise"
    low, high = size + off[1], size + off[0]
    metric = limits_of(run)[feature][1].partition("[")[2].rstrip("]").split(" to ")
    assert [float(x) for x in metric] == pytest.approx([low, high], abs=0.0051)


def test_what_the_body_and_frog_sheets_hold_is_measured():
    run = run_of("heron")
    d, rows, body, frog = run.design, limits_of(run), shown(run, "body"), shown(run, "frog")
    for label, mm, tol, sheet in (
        ("step, low pad to high pad", d.body.high_pad.z - d.body.low_pad.z, 0.03, body),
        ("high pad above the sole", d.body.high_pad.z, 0.05, body),
        ("mouth across", 52.3, (0.19, 0.0), body),
        ("step, low seat to high seat", d.mechanism.frog.high_z - d.mechanism.frog.low_z, 0.03, frog),
    ):
        assert has(sheet, length(mm, "inch", tol).shown), label
        assert label in rows
    # the frog's step and the pads' are held alike; the low pad alone is for reference
    assert "low pad above the sole" not in rows
    assert has(body, "h8", "key")
    assert has(frog, "H8", "way")
    assert {"body's key", "frog's way", "both pads parallel to the sole", "bed flat, lands in one plane"} <= set(rows)


def test_a_bevel_is_held_as_drawn_and_a_shut_mouth_does_not_pass():
    run = run_of("heron")
    rows = limits_of(run)
    assert rows["bevel, ground"] == ("25°", "24.5° to 25.5°")
    assert has(shown(run, "blade"), "25", "±0.5°")
    assert rows["mouth opening, as set"] == ("0.015 [0.38]", "0.013 to 0.017 [0.33 to 0.43]")


def test_a_toe_piece_is_measured_in_its_own_rows():
    rows = limits_of(run_of("wren"))
    assert rows["toe piece flush with sole"][1] == "at most 0.0010 [0.025]"
    assert rows["toe piece's travel"][1] == "0.094 [2.38] or more"
    assert {"its aft edge to the blade's", "toe piece right ahead: mouth"} <= set(rows)
    assert not {"mouth along the sole", "mouth's front wall to bed"} & set(rows)


@pytest.mark.parametrize("name", ["heron", "wren"])
def test_room_beside_the_blade_counts_both_sides_together(name):
    run = run_of(name)
    d, n = run.design, run.numbers["bedding"]
    tables = [b for b in INSPECTION.make(run, INSPECTION).blocks if isinstance(b, Table)]
    (row,) = [r for t in tables for r in t.rows if r[0] == "mouth beside the blade, both sides added"]
    size, within = row[1:3]
    both = 2 * d.body.mouth_half_width - d.blade.width
    assert float(size.partition("[")[2].rstrip("]")) == pytest.approx(both, abs=0.0051)
    low, high = (float(x) for x in within.partition("[")[2].rstrip("]").split(" to "))
    least, most = (2 * float(n.value(f"side_clearance_{x}_mm")) for x in ("min", "max"))
    assert (low, high) == pytest.approx((least, most), abs=0.0051)
