"""Outputs never cost a user a file: other files stay, inputs are not overwritten, wrong places are one message."""

import subprocess
import sys
from pathlib import Path

import pytest

from parts.commands.app import run as program

ROOT = Path(__file__).parents[2]
HEAD = "board,species,thickness_in,width_in,length_in,grade,moisture_percent,defects_in\n"


@pytest.fixture
def desk(tmp_path):
    """A folder with two specs, the works' practice and a rack of one board."""
    specs = ROOT / "specs"
    for name in ("heron.toml", "wren.toml", "shop.toml"):
        (tmp_path / name).write_text((specs / name).read_text(encoding="utf-8"), encoding="utf-8")
    (tmp_path / "rack.csv").write_text(HEAD + "G1,black-cherry,2,8,30,FAS,7,\n", encoding="utf-8")
    return tmp_path


@pytest.fixture
def ask(desk, monkeypatch, capsys):
    """The program in this process, standing in that folder: most of these answers are refusals, and quick."""
    monkeypatch.chdir(desk)

    def answer(*words):
        capsys.readouterr()
        code = program([str(w) for w in words])
        said = capsys.readouterr()
        return subprocess.CompletedProcess(words, code, said.out, said.err)

    return answer


def contents(folder):
    return {p.relative_to(folder).as_posix(): p.read_bytes() if p.is_file() else None for p in folder.rglob("*")}


def refused(done, *said):
    assert done.returncode == 2, done.stderr
    assert len(done.stderr.strip().splitlines()) == 1, done.stderr
    assert done.stdout == ""
    for words in said:
        assert words in done.stderr


def blanks(ask, *more, rack="rack.csv"):
    # a finger rest only: a tote's outline would be interlocked, which takes longer
    return ask("blanks", "wren.toml", "--quantity", 1, "--rack", rack, *more)


def test_papers_leave_every_other_file_alone(ask, desk):
    mine = contents(desk) | {"board-photo.png": b"mine", "notes.txt": b"mine", "sub": None, "sub/board-1.dxf": b"mine"}
    (desk / "sub").mkdir()
    for name, data in mine.items():
        if data is not None:
            (desk / name).write_bytes(data)
    done = blanks(ask, "--papers", ".")
    assert done.returncode == 0, done.stderr
    made = {"plan.txt", "plan.pdf", "plan.png", "board-G1.dxf", "board-G1.png"}
    assert contents(desk).items() >= mine.items()
    assert set(contents(desk)) == set(mine) | made

    (desk / "other.csv").write_text(HEAD + "G2,black-cherry,2,8,30,FAS,7,\n", encoding="utf-8")
    done = blanks(ask, "--papers", ".", rack="other.csv")
    assert done.returncode == 0, done.stderr
    made = {p.replace("G1", "G2") for p in made}
    assert contents(desk).items() >= mine.items()
    assert set(contents(desk)) == set(mine) | made | {"other.csv"}


@pytest.mark.parametrize(
    ("folder", "said"),
    [("rack.csv", "it is a file"), ("rack.csv/deep", "rack.csv is a file"), ("", "a folder"), ("/proc/cuts", "/proc")],
)
def test_papers_in_no_folder_are_refused(ask, desk, folder, said):
    before = contents(desk)
    refused(blanks(ask, "--papers", folder, "--leftovers", "left.csv"), "--papers", said)
    assert contents(desk) == before


def test_a_folder_of_a_paper_s_name_is_refused(ask, desk):
    (desk / "cuts" / "plan.pdf").mkdir(parents=True)
    before = contents(desk)
    refused(blanks(ask, "--papers", "cuts"), "cuts/plan.pdf", "a folder")
    assert contents(desk) == before


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("pattern", "heron.toml", "--shrink-rule", "heron.toml"), (".pdf",)),
        (("pattern", "heron.toml", "--shrink-rule", "folder.pdf"), ("a folder",)),
        (("numbers", "heron.toml", "--family", "--picture", "heron.toml"), (".png, .svg, .pdf",)),
        (("numbers", "heron.toml", "heron.toml", "--family", "--picture", "folder.png"), ("a folder",)),
        (("blanks", "heron.toml", "--quantity", "1", "--rack", "rack.csv", "--leftovers", "shop.toml"), (".csv",)),
        (("blanks", "heron.toml", "--quantity", "1", "--rack", "rack.csv", "--leftovers", "rack.csv"), ("read",)),
        (("blanks", "heron.toml", "--quantity", "1", "--rack", "rack.csv", "--leftovers", "link.csv"), ("read",)),
        (("pattern", "rule.pdf", "--shrink-rule", "rule.pdf"), ("read",)),
    ],
)
def test_an_output_never_replaces_an_input_or_a_folder(ask, desk, words, said):
    (desk / "rule.pdf").write_bytes((desk / "heron.toml").read_bytes())
    (desk / "link.csv").symlink_to("rack.csv")
    for name in ("folder.png", "folder.pdf"):
        (desk / name).mkdir()
    before = contents(desk)
    refused(ask(*words), words[-2], words[-1], *said)
    assert contents(desk) == before


def test_an_earlier_output_is_replaced(ask, desk):
    for words, name, starts in (
        (("pattern", "heron.toml", "--shrink-rule"), "rule.pdf", b"%PDF"),
        (("blanks", "wren.toml", "--quantity", 1, "--rack", "rack.csv", "--leftovers"), "left.csv", b"#"),
        (("numbers", "heron.toml", "--family", "--picture"), "f.PNG", b"\x89PNG"),
    ):
        (desk / name).write_text("an earlier one")
        done = ask(*words, name)
        assert done.returncode == 0, done.stderr
        assert (desk / name).read_bytes().startswith(starts)
    assert not list(desk.glob(".partial*"))


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--out", ""), ("--out", "a folder")),
        (("--out", "/proc/planes"), ("/proc/planes",)),
        (("--out", "rack.csv"), ("rack.csv", "it is a file")),
        (("--out", "full"), ("full/heron", "name another --out, or move it away")),
        (("--out", "taken"), ("taken/heron", "read a file")),
        (("--only", "toe-piece"), ("heron.toml: --only", "one of body, frog, blade, chipbreaker", "no toe-piece")),
    ],
)
def test_a_build_where_none_may_go_is_refused(run, desk, words, said):
    (desk / "full" / "heron").mkdir(parents=True)
    (desk / "full" / "heron" / "notes.txt").write_text("mine")
    (desk / "taken").mkdir()
    (desk / "taken" / "heron").write_text("mine")
    before = contents(desk)
    refused(run("build", "heron.toml", *words, cwd=desk), *said)
    assert contents(desk) == before


def test_a_full_disk_behind_the_printed_answer_is_one_message():
    code = f"import sys; sys.path.insert(0, {str(ROOT)!r}); from parts.commands import main; main()"
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [sys.executable, "-c", code, "schema"], cwd=ROOT, stdout=full, stderr=subprocess.PIPE, text=True, timeout=60
        )
    assert done.returncode == 2
    assert done.stderr.strip() == "the output: cannot be written or read: no space left on device"
