"""A folder is written whole or not at all."""

import os
import subprocess
import sys

import pytest

from shared.errors import InputError
from shared.files import hashes, whole_folder


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
