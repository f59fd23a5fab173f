"""The folder of a built plane: only a build's own folder is built over, and a guest's files stay in it."""

import json
from pathlib import Path

import pytest

from parts.plane import kinds
from parts.plane.built_folder import built_names, carry_over, check_target, guests, taken_away
from parts.plane.parts_list import PARTS, check_only_of
from shared.errors import InputError


def _built(folder: Path, *names: str) -> Path:
    folder.mkdir(exist_ok=True)
    for name in names:
        (folder / name).parent.mkdir(exist_ok=True)
        (folder / name).write_text(name)
    manifest = {"planewright": "1", "files": dict.fromkeys(names, "hash")}
    (folder / "manifest.json").write_text(json.dumps(manifest))
    return folder


def test_a_free_name_an_empty_folder_and_a_build_may_be_built_over(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    for folder in (tmp_path / "free", tmp_path / "empty", _built(tmp_path / "heron", "a.txt")):
        check_target(folder)


@pytest.mark.parametrize("manifest", [None, "", "{", "[]", "{}", '{"files": {}}', '{"planewright": "1", "files": []}'])
def test_a_folder_that_no_build_made_is_refused(tmp_path: Path, manifest: str | None) -> None:
    (tmp_path / "notes.txt").write_text("mine")
    if manifest is not None:
        (tmp_path / "manifest.json").write_text(manifest)
    with pytest.raises(InputError, match="name another --out, or move it away"):
        check_target(tmp_path)


def test_a_file_in_the_folder_s_place_is_refused(tmp_path: Path) -> None:
    (tmp_path / "heron").write_text("mine")
    with pytest.raises(InputError, match="read a file"):
        check_target(tmp_path / "heron")


def test_guests_are_what_the_manifest_does_not_name_and_are_carried_over(tmp_path: Path) -> None:
    old, new = _built(tmp_path / "old", "a.txt", "pdf/b.pdf"), _built(tmp_path / "new", "a.txt")
    (old / "notes.txt").write_text("mine")
    (old / "pdf" / "c.pdf").write_text("mine")
    (old / "away").symlink_to("nowhere")
    assert guests(old) == ["away", "notes.txt", "pdf/c.pdf"]
    carry_over(guests(old), old, new)
    assert (new / "notes.txt").read_text() == (new / "pdf" / "c.pdf").read_text() == "mine"
    assert (new / "away").is_symlink()
    assert guests(new) == guests(old)
    assert built_names(new) == {"manifest.json", "a.txt"}


def test_a_guest_never_takes_the_place_of_a_new_paper(tmp_path: Path) -> None:
    old, new = _built(tmp_path / "old"), _built(tmp_path / "new", "a.txt")
    (old / "a.txt").write_text("mine")
    carry_over(guests(old), old, new)
    assert (new / "a.txt").read_text() == "a.txt"


def test_papers_taken_away_are_counted() -> None:
    assert taken_away(None, {"a"}, True) == []
    assert taken_away({"a"}, {"a", "b"}, True) == []
    (note,) = taken_away({"a", "b", "c"}, {"a"}, True)
    assert note.startswith("2 papers of the earlier build taken away")


@pytest.mark.parametrize("kind", list(kinds.KINDS))
def test_each_kind_names_the_parts_that_its_build_has_steps_for(kind: str) -> None:
    steps = {s.part for s in kinds.of(kind, "steps").STEPS}
    assert steps - {None} == set(kinds.of(kind, "spec").PARTS)
    assert set(kinds.of(kind, "spec").PARTS) <= set(PARTS)


def test_a_part_of_another_kind_is_refused_with_the_parts_there_are() -> None:
    check_only_of("bench", "frog", "heron.toml")
    with pytest.raises(InputError, match=r"one of body, toe-piece, blade.*no frog"):
        check_only_of("low-angle", "frog", "wren.toml")
