"""Sheets: what is stated is what is drawn, nothing overlaps, nothing is lost, the same bytes from every process."""

from __future__ import annotations

import math
import subprocess
import sys
from pathlib import Path

import ezdxf
import pypdf
import pytest

from shared.drawing.ink import Words, ink
from shared.drawing.overlap import assert_clean
from shared.drawing.plan import SheetPlan
from shared.drawing.sheet import audit
from shared.drawing.title import Title
from shared.drawing.view import View
from shared.errors import GeometryError, InputError
from shared.profile import Profile
from shared.units import MM_PER_IN
from tests.sheet_samples import TITLE, demo

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def saved(tmp_path_factory: pytest.TempPathFactory) -> tuple[SheetPlan, Path]:
    folder = tmp_path_factory.mktemp("sheet")
    plan = demo()
    plan.save(dxf=folder / "d.dxf", pdf=folder / "d.pdf", svg=folder / "d.svg", verify=True)
    return plan, folder


def said(plan: SheetPlan) -> list[str]:
    return [x.text for s in plan.layout().sheets for x in ink(s) if isinstance(x, Words)]


def plate(unit: str = "mm", w: float = 100.0, h: float = 40.0, **how: object) -> tuple[SheetPlan, View]:
    plan = SheetPlan(Title("Larch Lane Plane Works", "Plate", "LL-1", "A"), unit=unit, **how)  # type: ignore[arg-type]
    return plan, plan.view("front", [Profile.rectangle(0, 0, w, h)])


def test_demo_sheet_is_clean_and_as_asked(saved: tuple[SheetPlan, Path]) -> None:
    plan, folder = saved
    assert_clean(plan)
    assert (plan.layout().scale, plan.layout().remarks) == ("1:1", [])
    audit(folder / "d.dxf", len(plan.layout().sheets[0].space))


@pytest.mark.parametrize("unit", ["inch", "mm"])
def test_every_dimension_entity_measures_what_it_states(unit: str, tmp_path: Path) -> None:
    plan = demo(unit)
    plan.save(dxf=tmp_path / "d.dxf")
    doc = ezdxf.readfile(tmp_path / "d.dxf")
    dims = doc.modelspace().query("DIMENSION")
    stated = {}
    for d in dims:
        block = doc.blocks.get(d.dxf.geometry)
        words = [t.dxf.text for t in block.query("TEXT")]
        measured = d.get_measurement()
        assert isinstance(measured, float)
        if d.dimtype not in (2, 5):
            measured *= d.override().get("dimlfac")
            assert d.dxf.actual_measurement == pytest.approx(measured, abs=1e-6)
        places = d.override().get("dimdec")
        shown = f"{measured:.{places}f}"
        assert shown.rstrip("0").rstrip(".") in words[0], (shown, words)
        assert d.dxf.text.count("<>") == 1
        stated[words[0]] = measured
    assert len(stated) == len(dims) == 15
    assert next(v for k, v in stated.items() if k.startswith("4× R")) == pytest.approx(
        0.25 if unit == "inch" else 6.35, abs=1e-6
    )


def wrong(v: View, what: str) -> None:
    match what:
        case "h":
            v.dim_h((0, 0), (100, 40), 100.0011)
        case "v":
            v.dim_v((0, 0), (100, 40), 39.998)
        case "aligned":
            v.dim_aligned((0, 0), (30, 40), 50.002)
        case "angle":
            v.angle((0, 0), (100, 0), (40, 40), 45.01)
        case "radius":
            v.radius((0, 0), (3, 4), 5.01)
        case "diameter":
            v.diameter((0, 0), (3, 4), 5.0)
        case "not a number":
            v.dim_h((0, 0), (100, 0), math.nan)


@pytest.mark.parametrize("what", ["h", "v", "aligned", "angle", "radius", "diameter", "not a number"])
def test_a_sheet_cannot_state_another_number_than_is_drawn(what: str) -> None:
    with pytest.raises(GeometryError, match="another number than is drawn"):
        wrong(plate()[1], what)


def test_within_a_micron_is_the_same_number() -> None:
    plate()[1].dim_h((0, 0), (100, 40), 100.0009).angle((0, 0), (100, 0), (40, 40), 45.0)


def test_third_angle_views_line_up() -> None:
    plan, front = plate()
    for place in ("above", "right", "below", "left"):
        plan.view(place, [Profile.rectangle(0, 0, 100, 40)], of=front, place=place)
    at = {p.arranged.view.name: p for p in plan.layout().pages[0].views}
    f = at["front"]
    assert at["above"].at[0] == at["below"].at[0] == f.at[0]
    assert at["right"].at[1] == at["left"].at[1] == f.at[1]
    assert at["above"].rect[1] > f.rect[3] and at["below"].rect[3] < f.rect[1]
    assert at["right"].rect[0] > f.rect[2] and at["left"].rect[2] < f.rect[0]


def test_smallest_paper_and_largest_scale_are_chosen() -> None:
    def chosen(w: float, h: float) -> tuple[str, str]:
        plan, v = plate("mm", w, h)
        v.dim_h((0, 0), (w, 0), w).dim_v((0, 0), (0, h), h)
        got = plan.layout()
        return got.paper.name, got.scale

    assert chosen(40, 40) == ("A4", "2:1")
    assert chosen(120, 40) == ("A4", "1:1")
    assert chosen(300, 100) == ("A3", "1:1")
    assert chosen(260, 230) == ("A4", "1:2")
    assert chosen(700, 100) == ("A3", "1:2")


def test_too_large_for_the_largest_paper_takes_the_next_smaller_scale_and_says_so() -> None:
    plan, v = plate("mm", 900.0, 300.0, papers=["A4", "A3"], scales=["1:1", "1:2"])
    v.dim_h((0, 0), (900, 0), 900.0)
    got = plan.layout()
    assert (got.paper.name, got.scale) == ("A3", "1:5")
    assert got.remarks == ["drawn at 1:5: too large for A3 at 1:2"]
    assert_clean(plan)
    assert "900.00 [35.433]" in said(plan)


def test_what_does_not_fit_carries_on_on_further_sheets_and_nothing_is_lost() -> None:
    plan, _ = plate("mm", papers=["A4"], scales=["1:1"])
    plan.notes([f"word{i} " * 40 for i in range(40)])
    plan.table(["No", "Thing"], [[str(i), f"thing{i}"] for i in range(120)], title="Things")
    got = plan.layout()
    assert len(got.pages) > 2 and "continuation sheets" in got.remarks[-1]
    assert_clean(plan)
    every = " ".join(said(plan))
    assert all(every.count(f"word{i} ") + every.count(f"word{i}\n") >= 39 for i in range(40))
    assert all(f"thing{i} " in every + " " for i in range(120))
    assert f"{len(got.pages)}/{len(got.pages)}" in said(plan)


def test_a_cell_longer_than_a_sheet_and_a_long_leader_keep_every_word() -> None:
    plan, v = plate("mm", papers=["A4"], scales=["1:1"])
    v.leader((10, 40), " ".join(f"lead{i}" for i in range(60)))
    plan.table(["No", "Text"], [["1", " ".join(f"cell{i}" for i in range(900))]], title="Long")
    assert_clean(plan)
    every = " ".join(said(plan)).split()
    assert {f"lead{i}" for i in range(60)} | {f"cell{i}" for i in range(900)} <= set(every)


def test_a_sheet_of_tables_alone_has_no_scale() -> None:
    plan = SheetPlan(TITLE, papers=["A4"]).table(["Step", "Limit"], [["Grind", "0.001 in"]], title="Card")
    assert (plan.layout().paper.name, plan.layout().scale) == ("A4", "–")
    assert_clean(plan)


def test_hostile_and_overlong_fields_are_kept_whole(tmp_path: Path) -> None:
    name = 'Ωmega "x" <&> ^A %%d \\P {curly} Ünïcode ⌀5\tnew\nline'
    title = Title("Larch Lane Plane Works", "Body " * 60, name, "A", material="iron " * 80)
    plan = SheetPlan(title, unit="inch")
    plan.view("front", [Profile.rectangle(0, 0, 60, 30)])
    plan.save(dxf=tmp_path / "x.dxf", pdf=tmp_path / "x.pdf", svg=tmp_path / "x.svg", verify=True)
    assert_clean(plan)
    assert {r.split(" is too long")[0] for r in plan.layout().remarks} >= {"Title", "Material"}
    every = " ".join(said(plan))
    assert every.count("Body") >= 60 and every.count("iron") >= 80
    for part in ("Ωmega", '"x"', "<&>", "^A", "\\P", "{curly}", "Ünïcode", "Ø5"):
        assert part in every, part
    doc = ezdxf.readfile(tmp_path / "x.dxf")
    assert "Ωmega" in " ".join(t.plain_text() for t in doc.modelspace().query("TEXT"))
    page = pypdf.PdfReader(tmp_path / "x.pdf").pages[0].extract_text()
    assert "Ωmega" in page.replace("\n", "")


def test_text_of_the_pdf_can_be_selected(saved: tuple[SheetPlan, Path]) -> None:
    text = pypdf.PdfReader(saved[1] / "d.pdf").pages[0].extract_text()
    for wanted in ("4.000 ±0.004 [101.60 ±0.10]", "4× R0.250 [6.35]", "Ø0.5000 H7 [12.70] THRU", "26.6°",
                   "1/4-20 UNC-2B", "0.001 [0.025]", "Ra 63 µin [1.6 µm]", "ISO 2768-m unless stated", "SECTION A-A",
                   "3f2a91c0",
                   "inch [mm]", "0.908 lb [0.412 kg]"):  # fmt: skip
        assert wanted in text, wanted


def test_same_bytes_again_and_in_another_process(saved: tuple[SheetPlan, Path], tmp_path: Path) -> None:
    script = ("import sys; from pathlib import Path; from tests.sheet_samples import demo; p = Path(sys.argv[1])\n"
              "demo().save(dxf=p / 'd.dxf', pdf=p / 'd.pdf', svg=p / 'd.svg')\n")  # fmt: skip
    subprocess.run([sys.executable, "-c", script, str(tmp_path)], check=True, cwd=ROOT,
                   env={"PYTHONHASHSEED": "11", "PATH": "", "PYTHONPATH": str(ROOT)})  # fmt: skip
    again = tmp_path / "again"
    again.mkdir()
    demo().save(dxf=again / "d.dxf", pdf=again / "d.pdf", svg=again / "d.svg")
    for name in ("d.dxf", "d.pdf", "d.svg"):
        wanted = (saved[1] / name).read_bytes()
        assert (tmp_path / name).read_bytes() == wanted, name
        assert (again / name).read_bytes() == wanted, name


def test_wrong_wishes_are_refused_by_name() -> None:
    plan, v = plate()
    for call in (
        lambda: plan.view("x", [], of=v, place="beside"),
        lambda: plan.view("x", [], place="above"),
        lambda: plan.view("x", [], of=v, place="above", scale="1:5"),
        lambda: plan.view("x", [], scale="half"),
        lambda: plan.table(["a", "b"], [["1"]]),
        lambda: v.dim_h((0, 0), (1, 0), 1.0, side="left"),
        lambda: v.tolerance_frame((0, 0), "niceness", 0.1),
        lambda: v.surface((0, 0), 1.6, process="wet"),
        lambda: SheetPlan(TITLE, unit="cubit"),
        lambda: SheetPlan(TITLE, papers=["A9"]),
    ):
        with pytest.raises(InputError, match="allowed"):
            call()
    plan.view("empty", [])
    with pytest.raises(GeometryError, match="nothing is drawn"):
        plan.layout()


def test_a_detail_of_its_own_scale_states_true_sizes() -> None:
    plan, _ = plate("inch", scales=["1:1"], papers=["A4"])
    plan.view("B", [Profile.circle((0, 0), 2.54)], label="DETAIL B", scale="5:1").dim_h((-2.54, 0), (2.54, 0), 5.08)
    assert "DETAIL B (5:1)" in said(plan)
    dim = plan.layout().sheets[0].space.query("DIMENSION").first
    assert dim is not None
    assert dim.get_measurement() == pytest.approx(25.4)
    assert dim.get_measurement() * dim.override().get("dimlfac") == pytest.approx(5.08 / MM_PER_IN)
