"""A folder is written whole or not at all."""

import errno
import os
import subprocess
import sys

import pytest

from shared.errors import InputError
from shared.files import files_into, hashes, sweep_partials, whole_file, whole_folder


def test_an_error_leaves_the_old_folder_whole(tmp_path):
    target = tmp_path / "heron"
    with whole_folder(target) as work:
        (work / "a.txt").write_text("old")
    before = hashes(target)
    with pytest.raises(RuntimeError), whole_folder(target) as work:
        (work / "a.txt").write_text("new")
        raise RuntimeError
    assert hashes(target) == before
    assert [p.name for p in tmp_path.iterdir()] == ["heron"]


def test_a_new_folder_replaces_the_old_one(tmp_path):
    target = tmp_path / "heron"
    for text in ("one", "two"):
        with whole_folder(target) as work:
            (work / f"{text}.txt").write_text(text)
    assert list(hashes(target)) == ["two.txt"]


def test_keep_starts_from_what_is_there(tmp_path):
    target = tmp_path / "heron"
    with whole_folder(target) as work:
        (work / "a.txt").write_text("a")
    with whole_folder(target, keep=True) as work:
        (work / "b.txt").write_text("b")
    assert sorted(hashes(target)) == ["a.txt", "b.txt"]


def test_what_a_killed_build_left_is_swept(tmp_path):
    dead = subprocess.run([sys.executable, "-c", "import os; print(os.getpid())"], capture_output=True, text=True)
    (tmp_path / f".partial-heron.{dead.stdout.strip()}.x1").mkdir()
    with whole_folder(tmp_path / "heron") as work:
        (work / "a.txt").write_text("a")
    assert [p.name for p in tmp_path.iterdir()] == ["heron"]


def test_a_running_build_and_a_longer_name_keep_their_folders(tmp_path):
    mine, other = tmp_path / f".partial-heron.{os.getppid()}.x1", tmp_path / ".partial-heron-m.1.x1"
    mine.mkdir()
    other.mkdir()
    with whole_folder(tmp_path / "heron") as work:
        (work / "a.txt").write_text("a")
    assert mine.is_dir()
    assert other.is_dir()


def test_out_that_is_a_file_is_refused(tmp_path):
    (tmp_path / "out").write_text("")
    with pytest.raises(InputError), whole_folder(tmp_path / "out" / "heron"):
        pass


def test_a_file_in_the_folder_s_place_stays(tmp_path):
    (tmp_path / "heron").write_text("mine")
    with pytest.raises(InputError), whole_folder(tmp_path / "heron"):
        pass
    assert [p.name for p in tmp_path.iterdir()] == ["heron"]
    assert (tmp_path / "heron").read_text() == "mine"


def test_a_build_killed_in_the_middle_of_its_move_gives_the_old_folder_back(tmp_path):
    (tmp_path / ".partial-heron.old").mkdir()
    (tmp_path / ".partial-heron.old" / "a.txt").write_text("old")
    sweep_partials(tmp_path, "heron")
    assert (tmp_path / "heron" / "a.txt").read_text() == "old"
    assert [p.name for p in tmp_path.iterdir()] == ["heron"]


def test_a_file_that_cannot_be_written_is_one_message_and_leaves_no_half(tmp_path):
    (tmp_path / "a.csv").write_text("old")
    with pytest.raises(InputError, match="no space left on device"), whole_file(tmp_path / "a.csv") as work:
        work.write_text("half")
        raise OSError(errno.ENOSPC, "No space left on device")
    with pytest.raises(InputError, match="a file where a folder is needed"), whole_file(tmp_path / "a.csv" / "b.csv"):
        pass
    assert [p.name for p in tmp_path.iterdir()] == ["a.csv"]
    assert (tmp_path / "a.csv").read_text() == "old"


def test_files_into_a_folder_leave_no_half_when_they_cannot_be_written(tmp_path):
    (tmp_path / "old-1").write_text("old")
    with pytest.raises(InputError, match="no space"), files_into(tmp_path, lambda f: [f / "old-1"]) as work:
        (work / "new-1").write_text("half")
        raise OSError(errno.ENOSPC, "No space left on device")
    assert [p.name for p in tmp_path.iterdir()] == ["old-1"]
