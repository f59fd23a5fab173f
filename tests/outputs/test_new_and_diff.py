"""`new`, `diff` and the family, as a user types them, and every bad input."""

import json
import shutil
from pathlib import Path
from types import SimpleNamespace

import pytest

from parts.commands.app import run as front_door

SPECS = Path(__file__).parents[2] / "specs"
PNG = b"\x89PNG"


@pytest.fixture
def run(capsys):
    """Run one command line in this process: what it prints and how it ends are the same, and it starts at once."""

    def go(*words):
        code = front_door([str(word) for word in words])
        out, err = capsys.readouterr()
        return SimpleNamespace(returncode=code, stdout=out, stderr=err)

    return go


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """Specs in a folder of their own, worked in, so that nothing built elsewhere counts."""
    monkeypatch.chdir(tmp_path)
    for name in ("heron", "wren", "shop"):
        shutil.copy(SPECS / f"{name}.toml", tmp_path)
    return tmp_path


def sizes(folder, name="Plover", length="17-1/2 in", width="2-1/4 in", like="heron.toml"):
    return ["new", name, "--like", folder / like, "--length", length, "--blade-width", width]


def test_a_new_size_is_written_beside_its_sibling_and_passes(run, folder):
    done = run(*sizes(folder))
    assert done.returncode == 0, done.stderr
    for word in ("plover.toml", "body.width", "follows the blade", "check:", "0 warnings"):
        assert word in done.stdout
    checked = run("check", folder / "plover.toml", "--json")
    assert checked.returncode == 0, checked.stderr
    assert json.loads(checked.stdout)["counts"]["failed"] == 0
    text = (folder / "plover.toml").read_text()
    assert str(folder) not in text
    assert text.startswith("# Plover, sized from Heron")


def test_decisions_as_json(run, folder):
    done = run(*sizes(folder), "--out", folder / "p.toml", "--json")
    data = json.loads(done.stdout)
    assert {d["key"] for d in data["decisions"]} >= {"body.length", "body.width", "blade.width", "body.mouth_from_toe"}
    assert data["counts"]["failed"] == 0
    assert (folder / "p.toml").is_file()


def test_a_metric_sibling_gives_a_metric_spec(run, folder):
    shutil.copy(SPECS / "heron-metric.toml", folder)
    done = run(*sizes(folder, length="420mm", width="57mm", like="heron-metric.toml"))
    assert done.returncode == 0, done.stderr
    text = (folder / "plover.toml").read_text()
    assert "length = 420 " in text
    assert 'units = "mm"' in text


@pytest.mark.parametrize(
    ("change", "code", "says"),
    [
        ({"length": "40 in"}, 2, "8.4000 in"),  # the covered range is said
        ({"width": "4 in"}, 2, "--blade-width"),
        ({"length": "17.5"}, 2, "has no unit"),
        ({"length": "long"}, 2, "--length"),
        ({"length": "8-1/2 in", "width": "2 in"}, 1, "Lengths that work"),
        ({"name": "Heron"}, 2, "nothing was written"),
        ({"name": "  "}, 2, "NAME"),
        ({"like": "shop.toml"}, 2, "plane"),
        ({"like": "hern.toml"}, 2, "did you mean"),
    ],
)
def test_bad_input_writes_nothing(run, folder, change, code, says):
    before = {p.name: p.read_bytes() for p in folder.iterdir()}
    done = run(*sizes(folder, **change))
    assert done.returncode == code, done.stderr
    assert says in done.stderr
    assert done.stdout == ""
    assert "Traceback" not in done.stderr
    assert {p.name: p.read_bytes() for p in folder.iterdir()} == before


@pytest.mark.parametrize(
    ("more", "says"),
    [
        (("--kind", "low-angle"), "wren.toml"),  # names a sibling of the kind asked for
        (("--kind", "moulding"), "one of bench, low-angle"),
        (("--out", "here/there/p.toml"), "no such folder"),
        (("--out", "plover"), ".toml"),
        (("--out", ""), "a file that ends in .toml"),
    ],
)
def test_a_sibling_of_another_kind_and_a_bad_place(run, folder, more, says):
    done = run(*sizes(folder), *more)
    assert done.returncode == 2
    assert says in done.stderr
    assert not (folder / "plover.toml").exists()


def test_a_name_that_another_file_has_is_refused(run, folder):
    (folder / "other.toml").write_text((folder / "heron.toml").read_text().replace('"Heron"', '"Plover"'))
    done = run(*sizes(folder, name="plover"), "--out", folder / "third.toml")
    assert done.returncode == 2
    assert "other.toml" in done.stderr
    assert not (folder / "third.toml").exists()


def revised(folder, *pairs):
    text = (folder / "heron.toml").read_text()
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new, 1)
    (folder / "heron-b.toml").write_text(text)
    return ["diff", folder / "heron.toml", folder / "heron-b.toml"]


MOUTH = ("mouth_opening = 0.015", "mouth_opening = 0.020")


def test_diff_of_a_revision(run, folder):
    done = run(*revised(folder, MOUTH, ('revision = "A"', 'revision = "B"')), "--out", folder / "output")
    assert done.returncode == 0, done.stderr
    for words in ("body.mouth_opening", "heron.toml:17", "+33.3 %", "Parts affected: body, plane", "still serves"):
        assert words in done.stdout
    assert "revision is still" not in done.stdout
    assert "revision is still A" in run(*revised(folder, MOUTH)).stdout


def test_diff_as_json(run, folder):
    done = run(*revised(folder, ("length = 14\n", 'length = "13-15/16 in"\n')), "--json")
    data = json.loads(done.stdout)
    assert [k["key"] for k in data["keys"]] == ["body.length"]
    moved = {n["number"]: n for n in data["numbers"]}
    assert moved["body.casting_length_mm"]["change"] == pytest.approx(-1.5875)
    assert moved["body.casting_length_mm"]["unit"] == "mm"
    assert {a["part"]: a["usable"] for a in data["patterns"]} == {"body": True, "frog": True, "lever-cap": True}
    assert data["papers"]["built"] is False


def test_nothing_differs(run, folder):
    done = run("diff", folder / "heron.toml", folder / "heron.toml")
    assert done.returncode == 0
    assert "no key differs" in done.stdout


@pytest.mark.parametrize(
    ("new", "says"),
    [("wren.toml", "plane.kind: read 'low-angle'; allowed: bench"), ("none.toml", "nothing there")],
)
def test_diff_of_different_kinds_or_of_nothing(run, folder, new, says):
    done = run("diff", folder / "heron.toml", folder / new)
    assert done.returncode == 2
    assert says in done.stderr
    assert done.stdout == ""


def test_family_table_and_picture(run, folder):
    picture = folder / "family.png"
    done = run("numbers", SPECS / "wren.toml", SPECS / "heron.toml", "--family", "--picture", picture)
    assert done.returncode == 0, done.stderr
    for word in ("Wren", "Heron", "mouth from toe", "mass, estimated", "balance"):
        assert word in done.stdout
    assert picture.read_bytes().startswith(PNG)
    data = json.loads(run("numbers", SPECS / "wren.toml", SPECS / "heron.toml", "--family", "--json").stdout)
    assert [m["name"] for m in data["family"]] == ["Wren", "Heron"]
    assert all(m["mass_estimate_kg"] > 0 for m in data["family"])


@pytest.mark.parametrize(
    ("more", "says"),
    [
        (("--picture", "f.png"), "--family"),
        (("--family", "--picture", "f.gif"), ".png"),
        (("--family", "--picture", "no/where.png"), "no such folder"),
        (("--family", "--part", "blade"), "--part"),
    ],
)
def test_bad_family_words(run, more, says):
    done = run("numbers", SPECS / "heron.toml", *more)
    assert done.returncode == 2
    assert says in done.stderr
    assert done.stdout == ""


@pytest.mark.kernel
def test_papers_of_a_real_build_are_all_known(built):
    from parts.plane.reissue import built_files, speaks_of

    folder, _ = built
    parts = ["body", "blade", "chipbreaker", "lever-cap", "frog", "hardware", "tote", "knob"]
    files = built_files(folder)
    whole = {path for path in files if speaks_of(path, parts) == ()}
    # what speaks of the whole plane is named here, so that a new paper is not taken for one by mistake
    assert whole >= {"numbers.json", "manifest.json", "step/plane.step"}
    assert {path for path in files if speaks_of(path, parts) == ("blade",)} >= {"step/blade.step", "dxf/blade.dxf"}
    assert {path for path in files if "body-casting" in speaks_of(path, parts)} >= {"step/body-casting.step"}
