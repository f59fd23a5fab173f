"""The woodshop's sheets and the shop cards: sizes against the models, clean pages, bad input."""

from math import dist
from pathlib import Path

import pytest

from parts.handle.form import point_on_rod
from parts.plane import sheet_papers
from parts.plane.blade_card import card_of
from parts.plane.design import design
from parts.plane.models import models_of
from parts.plane.numbers import plane_numbers
from parts.plane.run import Run, stamp_of
from parts.plane.sheets import blade, handle, knob
from parts.plane.sheets.registry import sheet_set
from parts.plane.shop import PaperSpec, load_shop
from parts.plane.spec import load_spec
from shared.cad.project import View, cut_faces
from shared.drawing.overlap import assert_clean
from shared.errors import GeometryError
from shared.units import MM_PER_IN

pytestmark = pytest.mark.kernel
WOOD = ("tote", "knob", "blanks", "card-cut-plan")
CARDS = ("card-blade", "card-heat-treatment")


def make_run(spec, work, shop=None):
    d = design(load_spec(spec), shop or load_shop())
    return Run(d, models_of(d), work, stamp_of(), None, [], plane_numbers(d))


@pytest.fixture(scope="module")
def heron(tmp_path_factory):
    return make_run("specs/heron.toml", tmp_path_factory.mktemp("heron"))


@pytest.fixture(scope="module")
def wren(tmp_path_factory):
    return make_run("specs/wren.toml", tmp_path_factory.mktemp("wren"))


def entry(run, stem):
    return next(e for e in sheet_set(run) if e.stem == stem)


def plan_of(run, stem):
    e = entry(run, stem)
    return e.make(run, e)


def words(layout):
    return " ".join(t.dxf.text for s in layout.sheets for t in s.doc.modelspace().query("TEXT"))


@pytest.mark.parametrize("stem", [*WOOD, *CARDS])
def test_sheets_are_clean(heron, stem):
    assert_clean(plan_of(heron, stem))


@pytest.mark.parametrize("stem", ["knob", "blanks", *CARDS])
def test_sheets_of_a_plane_without_a_tote_are_clean(wren, stem):
    assert_clean(plan_of(wren, stem))


def test_a_plane_without_a_tote_has_no_tote_sheet(wren):
    assert "tote" not in [e.stem for e in sheet_set(wren)]
    laid = plan_of(wren, "blanks").layout()
    assert "tote" not in words(laid).lower()
    assert laid.scale == "2:1"  # a knob's blank of 30 mm would be lost at full size


@pytest.mark.parametrize(("stem", "said"), [("blanks", "sawn +0.039 in / 0"), ("knob", "wood ±0.020 in [0.50 mm]")])
def test_general_tolerances_of_wood_lead_with_the_planes_unit(wren, stem, said):
    assert said in words(plan_of(wren, stem).layout())


def test_cautions_lead_with_the_planes_unit(wren):
    text = words(plan_of(wren, "blanks").layout())
    assert "12 in [300 mm]" in text and "mg/m³" in text and "mg/m3" not in text


def test_sections_of_the_tote_are_those_of_the_solid(heron):
    """Each drawn oval against the solid cut by the same plane: depth, width, and the bore's place."""
    size = heron.design.tote
    for v in handle.sections_of(size).values():
        s = size.form.station(v)
        depth = dist(s.front, s.back)
        along = tuple((b - a) / depth for a, b in zip(s.front, s.back, strict=True))
        plane = View((along[0], 0.0, along[1]), (0.0, 1.0, 0.0))
        faces = cut_faces(heron.models.tote_local, plane, (s.front[0], 0.0, s.front[1]))
        face = max(faces, key=lambda f: f.outer.area)
        u0, y0, u1, y1 = face.outer.bounds
        start = s.front[0] * along[0] + s.front[1] * along[1]
        assert (u0 - start, u1 - start) == pytest.approx((0.0, depth), abs=0.05)
        assert (y0, y1) == pytest.approx((-s.half_width, s.half_width), abs=0.05)
        drawn, (hole,) = handle.bore_in(size, s), face.holes
        assert (hole.bounds[0] + hole.bounds[2]) / 2 - start == pytest.approx(drawn.centre[0], abs=0.01)
        assert hole.bounds[2] - hole.bounds[0] == pytest.approx(2 * dist((0, 0), drawn.major), abs=0.01)


def test_every_seat_of_the_tote_is_told(heron):
    size, text = heron.design.tote, words(plan_of(heron, "tote").layout())
    for mm in (size.bore_diameter, size.nut_counterbore_diameter, size.boss_counterbore_depth, size.toe.head_diameter,
               size.toe.boss_diameter, size.rim_radius):  # fmt: skip
        assert f"{mm / MM_PER_IN:.3f}" in text
    assert f"{heron.numbers['handle'].value('tote_grain_direction_deg') % 180:.1f}° to the foot" in text
    top = point_on_rod(size.lean_deg, size.rod_height, 0.0)[1]
    assert heron.models.tote_local.BoundingBox().zmax == pytest.approx(max(top, _height(heron)), abs=0.1)


def _height(run):
    return float(run.numbers["handle"].value("tote_height_mm"))


def test_the_knobs_table_is_the_solid(heron):
    size = heron.design.knob
    rows = knob.profile_rows(size, "mm")
    assert len(rows) == knob.STEPS + 2
    for told, across in rows:
        z, d = float(told.split()[0]), float(across.split()[1])
        faces = cut_faces(heron.models.knob_local, "top", (0.0, 0.0, z))
        u0, _, u1, _ = max(faces, key=lambda f: f.outer.area).outer.bounds
        assert u1 - u0 == pytest.approx(d, abs=0.05)


def test_the_heat_card_holds_the_whole_cycle(heron):
    text = words(plan_of(heron, "card-heat-treatment").layout())
    for word in ("preheat", "quench", "temper 1 of 2", "temper 2 of 2", "300 °F", "expect 61 to 63 HRC", "Hot work"):
        assert word in text


def test_cautions_stand_on_the_first_page_before_the_work(heron):
    for stem, caution, work in (("card-heat-treatment", "Hot work", "preheat"), ("card-blade", "Grinding:", "Making")):
        first = plan_of(heron, stem).layout().sheets[0]
        at = {t.dxf.text: t.dxf.insert.y for t in first.doc.modelspace().query("TEXT")}
        told = {word: max(y for text, y in at.items() if word in text) for word in (caution, work)}
        assert told[caution] > told[work]


def test_bevel_of_card_and_drawing_is_one(heron):
    drawn = blade.nose(heron.design.blade).heel[0]
    assert heron.numbers["blade"].value("honed_heel_from_edge_mm") == pytest.approx(drawn)
    rows = {r.label: r.value for s in card_of(heron.design).sections for r in s.rows}
    assert rows["edge to heel, honed"] == "0.264 in [6.71 mm]"
    assert rows["edge to heel, as ground"] == "0.268 in [6.81 mm]"


def test_one_part_only_and_the_same_bytes_twice(tmp_path):
    made = []
    for name in ("one", "two"):
        run = make_run("specs/heron.toml", tmp_path / name)
        run.work.mkdir()
        sheet_papers.sheets(run, "knob")
        made.append({p.relative_to(run.work): p.read_bytes() for p in sorted(run.work.rglob("*")) if p.is_file()})
        assert [s.title for s in run.sheets] == ["Knob", "Handle blanks"]
        assert all(s.svg_text.startswith("<svg") for s in run.sheets)
    assert {str(p) for p in made[0]} == {"dxf/knob.dxf", "pdf/knob.pdf", "dxf/blanks.dxf", "pdf/blanks.pdf"}
    assert made[0] == made[1]


def test_a_part_too_large_for_the_shops_paper_takes_the_next_size_and_says_so(tmp_path):
    shop = load_shop().model_copy(update={"paper": PaperSpec(size="A4")})
    run = make_run("specs/heron.toml", tmp_path, shop)
    sheet_papers.sheets(run, "tote")
    assert any("Tote: too large for A4: drawn on A" in note for note in run.notes)


def test_names_that_files_cannot_carry_and_endless_ones(tmp_path):
    text = Path("specs/heron.toml").read_text(encoding="utf-8")
    name = 'He/ro*n: \\"ö\\" <&> ' + "WIDE " * 8  # about as long as a spec takes
    spec = tmp_path / "odd.toml"
    text = text.replace('name = "Heron"', f'name = "{name}"\ndescription = "{"more " * 400}"')
    spec.write_text(text, encoding="utf-8")
    run = make_run(spec, tmp_path / "out")
    run.work.mkdir()
    sheet_papers.sheets(run, "knob")
    assert {p.name for p in (run.work / "pdf").iterdir()} == {"knob.pdf", "blanks.pdf"}
    assert run.design.loaded.folder.strip("/") and "/" not in run.design.loaded.folder
    said = words(plan_of(run, "knob").numbered(1, 2).layout())
    assert said.count("WIDE") >= 8, "the whole name stands on the sheet"


def test_a_sheet_that_fails_fails_the_build_by_name(heron, monkeypatch):
    from parts.plane.sheets.common import SheetEntry

    def broken(run, entry):
        return {}["nothing"]

    monkeypatch.setattr(sheet_papers, "sheet_set", lambda run: [SheetEntry("x", "Broken", "frog", ("wood",), broken)])
    with pytest.raises(GeometryError) as caught:
        sheet_papers.sheets(heron)
    assert (caught.value.part, caught.value.step) == ("frog", "sheet Broken")
