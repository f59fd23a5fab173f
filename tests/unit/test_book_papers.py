"""Cards, lists and files of the book, read from a plane's folder."""

from pathlib import Path
from types import SimpleNamespace

from parts.plane.book_papers import files, papers, pictures
from parts.plane.design import design
from parts.plane.shop import load_shop
from parts.plane.spec import load_spec
from tests.book_samples import png

SPECS = Path(__file__).parents[2] / "specs"


def folder(tmp_path):
    for name, text in {
        "cards/blade.txt": "told by the design",
        "cards/pour.txt": "ladle\n  12 kg",
        "lists/pattern.txt": "told by the design",
        "lists/pattern.csv": "a,b\n1,2\n",
        "lists/pins.csv": 'pin,"fit, as asked"\nyoke,H7/m6\n',
        "cut-plan/plan.txt": "board C12",
        "cut-plan/plan.csv": "x\n1\n",
    }.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(text, encoding="utf-8")
    for name in ("cards/blade-temper.png", "cut-plan/board-C12.png", "pictures/rear.png", "pictures/plane.png"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_bytes(png())
    return tmp_path


def test_papers_tell_cards_tables_and_texts(tmp_path):
    d = design(load_spec(SPECS / "heron.toml"), load_shop(SPECS / "shop.toml"))
    found = {p.title: p for p in papers(SimpleNamespace(design=d, work=folder(tmp_path)))}
    card = found["Blade card"]
    entries = {e.label: e.value for g in card.groups for e in g.entries}
    assert entries["cutting angle"] == "45°"
    assert entries["plane"] == "Heron, revision A"
    assert [p.path for p in card.pictures] == ["cards/blade-temper.png"]
    body = found["Pattern maker's list: body"]
    length = dict(zip(body.header, body.rows[0], strict=True))
    assert length["feature"] == "length over all"
    assert length["finished"] == "14 in (355.60 mm)"  # the spec's own size
    assert length["contraction"] == "1.000 %"
    assert found["List: pins"].header == ("pin", "fit, as asked")
    assert found["List: pins"].rows == (("yoke", "H7/m6"),)
    assert found["Card: pour"].plain == "ladle\n  12 kg"
    plan = found["Cut plan: plan"]
    assert (plan.plain, plan.rows) == ("board C12", ())
    assert plan.files == ("cut-plan/plan.csv", "cut-plan/plan.txt")
    assert "told by the design" not in "".join(p.plain for p in found.values())


def test_pictures_begin_with_the_plane_and_files_leave_out_what_is_asked(tmp_path):
    work = folder(tmp_path)
    (work / "manifest.json").write_text("{}", encoding="utf-8")
    assert [p.title for p in pictures(work, "pictures")] == ["plane", "rear"]
    assert pictures(work, "none") == ()
    listed = {f.path: f.size for f in files(work, ("manifest.json",))}
    assert listed["cards/pour.txt"] == 13
    assert "manifest.json" not in listed
    assert list(listed) == sorted(listed)
