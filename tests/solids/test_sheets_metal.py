"""Sheets of the cast parts: clean on paper, clean as DXF, and their main dimensions are the models' own extents."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from math import inf
from pathlib import Path

import cadquery as cq
import pytest

from parts.blade.bedding_numbers import FRONT_TOL_MM, mouth_deviations
from parts.body.low_angle.block import block_middle
from parts.body.low_angle.size import LEDGE_TOL, PLATE_TOL
from parts.body.views import mouth_front
from parts.plane.finish import finish_of
from parts.plane.numbers import plane_numbers
from parts.plane.pattern_list import pattern_list
from parts.plane.run import Run
from parts.plane.sheets.body import BODY_SHEETS
from parts.plane.sheets.body_casting import stock_rows
from parts.plane.sheets.common import SheetEntry
from parts.plane.sheets.frog import FROG_SHEETS
from parts.plane.sheets.low_body import LOW_BODY_SHEETS
from parts.plane.sheets.match_plate import MATCH_PLATE_SHEETS
from parts.plane.sheets.metal import angle_zone, full_thread, size_text, thread_call, thread_named
from parts.plane.sheets.rotated import turned_by
from parts.plane.sheets.toe_piece import toe_piece_sheet, toe_piece_sheets
from shared.cad.project import _read, cut_faces, section_view
from shared.drawing.annotations import Datum, DetailMark, Leader, Linear, SectionMark
from shared.drawing.content import DimRow, Frame
from shared.drawing.dimtext import length
from shared.drawing.overlap import assert_clean
from shared.drawing.plan import SheetPlan
from shared.drawing.table import Notes, Table
from shared.errors import GeometryError
from shared.segments import Line
from tests.planes import designed, made

pytestmark = pytest.mark.kernel
SPECS = Path(__file__).parents[2] / "specs"
TOE = SheetEntry("toe-piece", "Toe piece", "toe_piece", ("machine",), toe_piece_sheet)
SHEETS = [
    *(("heron", e) for e in (*BODY_SHEETS, *FROG_SHEETS, MATCH_PLATE_SHEETS[1])),
    *(("wren", e) for e in (*LOW_BODY_SHEETS[:2], TOE)),
]


@lru_cache
def run_of(name: str) -> Run:
    d = designed(name)
    return Run(d, made(name), SPECS, "2000-01-01T00:00:00", None, [], plane_numbers(d))


@lru_cache
def plan_of(name: str, entry: SheetEntry) -> SheetPlan:
    return entry.make(run_of(name), entry)


def extents(solid: cq.Shape) -> tuple[float, float, float]:
    """Length, width and height by the corners of the model: its extremes are flat faces or where two arcs meet."""
    low, high = [inf] * 3, [-inf] * 3
    for v in solid.Vertices():
        for i, c in enumerate((v.X, v.Y, v.Z)):
            low[i], high[i] = min(low[i], c), max(high[i], c)
    return high[0] - low[0], high[1] - low[1], high[2] - low[2]


def values(plan: SheetPlan, view: str, way: str) -> Iterator[float]:
    found = next(v for v in plan.views if v.name == view)
    return (n.value for n in found.notes if isinstance(n, Linear) and n.way == way)


@pytest.mark.parametrize(("plane", "entry"), SHEETS, ids=[f"{p} {e.stem}" for p, e in SHEETS])
def test_a_sheet_is_clean_on_paper_and_as_dxf(plane: str, entry: SheetEntry, tmp_path: Path) -> None:
    plan = plan_of(plane, entry)
    assert_clean(plan)
    assert not plan.layout().remarks
    # `verify` reads the file back and refuses one error or repair of the audit
    files = plan.save(dxf=tmp_path / "sheet.dxf", verify=True)
    assert len(files) == len(plan.layout().pages) == 1


@pytest.mark.parametrize(
    ("plane", "entry", "model", "side", "cross"),
    [
        ("heron", BODY_SHEETS[0], "body", "side", "section E-E"),
        ("heron", BODY_SHEETS[1], "body_casting", "section A-A", "section B-B"),
        ("heron", BODY_SHEETS[2], "body_pattern", "section A-A", "section B-B"),
        ("wren", LOW_BODY_SHEETS[0], "body", "side", "section E-E"),
        ("wren", LOW_BODY_SHEETS[1], "body_casting", "section A-A", "section B-B"),
    ],
    ids=["heron body", "heron casting", "heron pattern", "wren body", "wren casting"],
)
def test_length_width_and_height_are_the_models(
    plane: str, entry: SheetEntry, model: str, side: str, cross: str
) -> None:
    length, width, height = extents(getattr(run_of(plane).models, model))
    plan = plan_of(plane, entry)
    assert max(values(plan, side, "h")) == pytest.approx(length, abs=2e-3)
    assert max(values(plan, side, "v")) == pytest.approx(height, abs=2e-3)
    assert max(values(plan, cross, "h")) == pytest.approx(width, abs=2e-3)


def test_frog_casting_and_toe_piece_are_as_long_as_their_models() -> None:
    casting = plan_of("heron", FROG_SHEETS[1])
    x0, z0, x1, z1 = cut_faces(run_of("heron").models.frog_casting, "front")[0].outer.bounds  # type: ignore[attr-defined]
    assert max(values(casting, "side", "h")) == pytest.approx(x1 - x0, abs=2e-3)
    assert max(values(casting, "side", "v")) == pytest.approx(z1 - z0, abs=2e-3)
    length, width, height = extents(run_of("wren").models.toe_piece)  # type: ignore[attr-defined]
    piece = plan_of("wren", TOE)
    assert max(values(piece, "section C-C", "h")) == pytest.approx(length, abs=1e-4)
    assert max(values(piece, "section C-C", "v")) == pytest.approx(height, abs=1e-4)
    assert max(values(piece, "plan", "v")) == pytest.approx(width, abs=1e-4)


def test_masses_of_the_sheets_are_the_numbers() -> None:
    run = run_of("heron")
    density = run.design.body_alloy.density_kg_m3 * 1e-9
    finished, casting, pattern = (plan_of("heron", e).title.mass_kg for e in BODY_SHEETS)
    assert finished == pytest.approx(run.models.body.Volume() * density, rel=1e-9)
    assert casting == pytest.approx(run.models.body_casting.Volume() * density, rel=1e-9)
    assert pattern is None


def test_the_finish_box_says_what_the_cards_order() -> None:
    bench = (("heron", BODY_SHEETS[0], "body"), ("heron", FROG_SHEETS[0], "frog"))
    for name, entry, part in (*bench, ("wren", LOW_BODY_SHEETS[0], "body")):
        d = run_of(name).design
        box = plan_of(name, entry).title.finish
        assert "powder coated" in box and box == finish_of(part, d.body_alloy, d.shop.heat).box


def test_the_pattern_sheet_carries_every_row_of_the_list() -> None:
    table = next(b for b in plan_of("heron", BODY_SHEETS[2]).blocks if isinstance(b, Table))
    rows = next(p for p in pattern_list(run_of("heron").design) if p.part == "body").rows
    assert [r[0] for r in table.rows] == [r.feature for r in rows]
    assert [r[6] for r in table.rows] == [r.shrink_rule_in for r in rows]
    assert [r[7] for r in table.rows] == [size_text(r.pattern_mm, "inch") for r in rows]
    assert all(r[8] != "–" for r in table.rows)


def texts(plan: SheetPlan) -> str:
    """Every row of the leaders of a sheet's views."""
    leaders = [n for v in plan.views for n in v.notes if isinstance(n, Leader)]
    found = [r.text for n in leaders for r in n.rows]  # type: ignore[union-attr]
    return "\n".join(t if isinstance(t, str) else "".join(p.text for p in t.parts) for t in found)


def test_the_pattern_shop_gets_every_sheet_that_it_cuts_from() -> None:
    from parts.plane.sheets.lever_cap import LEVER_CAP_SHEETS
    from parts.plane.sheets.low_parts import LOW_PARTS_SHEETS

    entries = (*BODY_SHEETS, *FROG_SHEETS, *LEVER_CAP_SHEETS, *MATCH_PLATE_SHEETS)
    cut = {e.stem for e in entries if "pattern" in e.shops}
    assert {"body-casting", "body-pattern", "frog-casting", "lever-cap-cap", "cam-lever", "match-plate"} <= cut
    low = {e.stem for e in (*LOW_BODY_SHEETS, *LOW_PARTS_SHEETS) if "pattern" in e.shops}
    assert low == {"body-casting", "body-pattern", "lever-cap"}


def test_the_bridge_block_stands_where_its_casting_does() -> None:
    run = run_of("wren")
    size, solid = run.design.body, run.models.body_casting
    x0 = min(v.X for v in solid.Vertices())
    block = [v.X for v in solid.Vertices() if abs(v.Z - size.toe_way.block_z - size.cast.boss) < 1e-3]
    assert block_middle(size, size.toe_way) == pytest.approx((min(block) + max(block)) / 2, abs=1e-4)
    row = next(r for p in pattern_list(run.design) for r in p.rows if "block's middle" in r.feature)
    assert row.casting_mm == pytest.approx(block_middle(size, size.toe_way) - x0, abs=1e-4)
    assert f"{size_text(row.casting_mm, 'inch')} toe end to its middle" in texts(plan_of("wren", LOW_BODY_SHEETS[1]))


def test_a_match_plate_says_which_way_its_castings_lie() -> None:
    plan = plan_of("heron", MATCH_PLATE_SHEETS[1])
    said, notes = texts(plan), [n for b in plan.blocks if isinstance(b, Notes) for n in b.lines]
    assert said.count("bed's foot") == 2 and "aft" not in said
    assert all(n[0].isupper() and n.endswith(".") for n in notes)
    assert any("p6" in n and "H7" in n for n in notes) and any(n.startswith("Draft a side") for n in notes)
    table = next(b for b in plan.blocks if isinstance(b, Table))
    assert list(table.columns[-2:]) == ["high in the cope", "deep in the drag"]
    frog = next(r for r in table.rows if r[0] == "frog 1")
    half = run_of("heron").design.mechanism.frog.half_width * run_of("heron").design.contraction.factors[1]
    assert tuple(frog[-2:]) == (size_text(half, "inch"),) * 2


def test_the_body_sheet_gives_the_limits_that_are_inspected() -> None:
    size = run_of("heron").design.body
    notes = [n for v in plan_of("heron", BODY_SHEETS[0]).views for n in v.notes]
    place = mouth_front(size, 0.0) - size.toe_x
    (found,) = [n for n in notes if isinstance(n, Linear) and n.way == "h" and abs(n.value - place) < 1e-6]
    assert found.text.shown == length(place, "inch", FRONT_TOL_MM, suffix=" mouth to C").shown
    wide = 2 * size.mouth_half_width
    shown = [r.text.shown for n in notes if isinstance(n, Leader) for r in n.rows if isinstance(r, DimRow)]
    assert length(wide, "inch", mouth_deviations(wide), suffix=" mouth across").shown in shown


def test_every_boss_has_its_place_from_datum_c() -> None:
    size = run_of("heron").design.body
    tables = [b for b in plan_of("heron", BODY_SHEETS[0]).blocks if isinstance(b, Table)]
    (table,) = [t for t in tables if t.title.startswith("Bosses")]
    assert [r[2] for r in table.rows] == [size_text(x - size.toe_x, "inch") for x in sorted(b.x for b in size.bosses)]
    # a leaning hole starts elsewhere than its boss stands
    assert size.tote_boss.x != size.tote_boss.hole.x


def test_the_toe_piece_is_never_thinner_than_its_ledges_are_high() -> None:
    assert min(PLATE_TOL) >= max(LEDGE_TOL)
    rows = [r for v in plan_of("wren", TOE).views for n in v.notes if isinstance(n, Leader) for r in n.rows]
    (square,) = [r for r in rows if isinstance(r, Frame) and r.symbol == "perpendicularity"]
    assert square.datums == ("B",)  # an edge in the sole's plane cannot be square to the sole


@pytest.mark.parametrize(
    ("plane", "entry"),
    [("heron", BODY_SHEETS[0]), ("wren", LOW_BODY_SHEETS[0]), ("wren", TOE)],
    ids=["heron body", "wren body", "wren toe piece"],
)
def test_no_section_or_detail_takes_a_datums_letter(plane: str, entry: SheetEntry) -> None:
    notes = [n for v in plan_of(plane, entry).views for n in v.notes]
    datums = {n.letter for n in notes if isinstance(n, Datum)}
    marks = [n.letter for n in notes if isinstance(n, SectionMark | DetailMark)]
    assert datums and marks and len(set(marks)) == len(marks)
    assert not datums & set(marks)


def test_only_a_moving_mouth_has_a_toe_piece() -> None:
    assert [e.stem for e in toe_piece_sheets(run_of("wren"))] == ["toe-piece"]
    assert toe_piece_sheets(run_of("wren-long")) == []


def test_cut_faces_are_those_of_the_whole_section_view() -> None:
    frog = run_of("heron").models.frog_casting  # type: ignore[attr-defined]
    for view, through in (("front", (0.0, 0.0, 0.0)), ("heel", (35.0, 0.0, 0.0))):
        whole = section_view(frog, view, through).faces
        assert [f.area for f in cut_faces(frog, view, through)] == pytest.approx([f.area for f in whole], rel=1e-6)
    with pytest.raises(GeometryError, match="does not cut"):
        cut_faces(frog, "front", (0.0, 500.0, 0.0))


def test_threads_and_sizes_as_a_shop_reads_them() -> None:
    assert thread_call("1/4-20 UNC") == "1/4-20 UNC-2B"
    assert thread_call("M6") == "M6-6H"
    assert thread_named("M6").pitch == 1.0
    hole = run_of("heron").design.body.holddown[0]
    assert full_thread(hole) == pytest.approx(hole.depth - 25.4 / 20)
    assert size_text(12.7, "inch") == "0.500 [12.70]"
    assert size_text(-1e-9, "mm") == "0.00 [0.000]"
    # 0.1 deg shared by two seats 60 mm long: 60 mm * tan(0.05 deg) = 0.0524 mm, rounded down
    assert angle_zone(60.0) == 0.05


def test_faces_of_one_kind_share_a_row_of_stock() -> None:
    from parts.body.machined_faces import machined_faces

    faces = machined_faces(run_of("heron").design.body)
    rows = stock_rows(faces, "inch")
    assert [r[0] for r in rows if "corner" in r[0] or "boss" in r[0]] == [
        "four corners", "knob boss, toe-screw boss, tote boss", "sides of the three bosses"]  # fmt: skip
    assert {"key top", "right cheek, left cheek"} <= {r[0] for r in rows}
    assert [r[1] for r in rows if r[0] == "sole"] == [size_text(run_of("heron").design.body.cast.sole, "inch")]


def test_an_outline_that_swings_out_of_the_shape_is_drawn_straight() -> None:
    # as the kernel gave it for a hand edge's corner: ends 0.02 mm apart, in between 150 mm outside of the body
    wild = cq.Edge.makeSpline([cq.Vector(*p, 0) for p in ((10.0, 10.0), (-170.0, 122.0), (10.0, 10.02))])
    made = _read(wild, ((0.0, 0.0), (60.0, 20.0)))
    assert made == Line((10.0, 10.0), (10.0, 10.02))


def test_the_yoke_pins_hole_has_its_place_and_its_depth() -> None:
    f = run_of("heron").design.mechanism.frog  # type: ignore[attr-defined]
    plan = plan_of("heron", FROG_SHEETS[0])
    assert any(v == pytest.approx(f.yoke_at - f.bed_foot) for v in values(plan, "bed upright", "v"))
    assert any(v == pytest.approx(f.yoke_pivot_h) for v in values(plan, "bed upright", "h"))
    upright = next(v for v in plan.views if v.name == "bed upright")
    texts = [r.text for n in upright.notes for r in getattr(n, "rows", ()) if isinstance(getattr(r, "text", None), str)]
    assert f"full Ø to {size_text(f.yoke_pin_to, 'inch')} past the middle" in texts
    # the way's round end runs on past the step by its half width
    assert any(v == pytest.approx(f.key_half) for v in values(plan, "foot from below", "h"))


def test_a_turned_section_is_the_same_section() -> None:
    cut = section_view(run_of("heron").models.frog_casting, "front", (0.0, 0.0, 0.0))  # type: ignore[attr-defined]
    back = turned_by(turned_by(cut, 40.0, (0.0, 0.0)), -40.0, (3.0, -2.0))
    assert [f.area for f in back.faces] == pytest.approx([f.area for f in cut.faces])
    x0, z0, x1, z1 = cut.projection.bounds
    assert back.projection.bounds == pytest.approx((x0 + 3.0, z0 - 2.0, x1 + 3.0, z1 - 2.0), abs=1e-6)
