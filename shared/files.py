"""Writing a folder whole: build beside it, then move into place, so that nobody ever sees half of it."""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from shared.errors import Fault, InputError, in_words

PARTIAL = ".partial-"


def check_writable(folder: Path) -> None:
    """Make sure that `folder` is, or can become, a folder.

    Raises:
        InputError: something else stands there, or it cannot be made.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except (FileExistsError, NotADirectoryError):
        raise InputError(Fault(str(folder), "--out", "a file", "a folder, or a name that is free")) from None
    except PermissionError:
        raise InputError(Fault(str(folder), "--out", "a place without write permission", "a writable folder")) from None
    except OSError as err:
        allowed = "a folder that can be made there"
        raise InputError(Fault(str(folder), "--out", in_words(err), allowed)) from None


def sweep_partials(parent: Path, name: str) -> None:
    """Remove what a killed build of the same name left behind; one that still runs keeps its folder.

    One that was killed between putting the old folder aside and moving the new one in gets its old folder back.
    """
    aside, target = parent / f"{PARTIAL}{name}.old", parent / name
    if aside.is_dir() and not target.exists():
        aside.rename(target)
    for old in parent.glob(f"{PARTIAL}{name}.*"):
        owner = old.name.removeprefix(f"{PARTIAL}{name}.").partition(".")[0]
        if not owner.isdigit() or not _runs(int(owner)):
            shutil.rmtree(old, ignore_errors=True)


def _runs(process: int) -> bool:
    if process == os.getpid():
        return False
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except PermissionError:
        return True
    return True


@contextmanager
def whole_folder(target: Path, keep: bool = False) -> Iterator[Path]:
    """Give a folder to write into and move it to `target` when all went well.

    Args:
        target: the folder to replace.
        keep: start from a copy of what `target` holds, so that only some files change.

    Yields:
        The folder to write into. On any error it is removed and `target` is left as it was.

    Raises:
        InputError: `target` is no folder, or its parent is none and cannot be made one.
    """
    parent = target.parent
    if target.exists() and not target.is_dir():
        raise InputError(Fault(str(target), "folder", "a file", "a folder, or a name that is free"))
    check_writable(parent)
    sweep_partials(parent, target.name)
    # a dot ends the name: no folder's name holds one, so "heron" never sweeps what belongs to "heron-m"
    work = Path(tempfile.mkdtemp(prefix=f"{PARTIAL}{target.name}.{os.getpid()}.", dir=parent))
    try:
        if keep and target.is_dir():
            shutil.copytree(target, work, symlinks=True, dirs_exist_ok=True)
        yield work
        work.chmod(0o755)
        _swap(work, target)
    except BaseException:
        shutil.rmtree(work, ignore_errors=True)
        raise


def _swap(work: Path, target: Path) -> None:
    if not target.exists():
        work.rename(target)
        return
    aside = target.parent / f"{PARTIAL}{target.name}.old"
    shutil.rmtree(aside, ignore_errors=True)
    target.rename(aside)
    try:
        work.rename(target)
    except BaseException:
        aside.rename(target)
        raise
    shutil.rmtree(aside, ignore_errors=True)


@contextmanager
def files_into(target: Path, stale: Callable[[Path], list[Path]], option: str = "folder") -> Iterator[Path]:
    """Give a folder to write into and move its files into `target` when all went well; what else is there stays.

    Args:
        target: a folder that may hold other files, or that is not there yet.
        stale: says which files of `target` belong to an earlier run; those not written again are removed.
        option: what messages call the folder.

    Yields:
        The folder to write into. On any error it is removed and `target` is left as it was.

    Raises:
        InputError: `target` is no folder, holds a folder of a file's name, or cannot be written.
    """
    try:
        with _inside(target, stale) if target.is_dir() else whole_folder(target) as work:
            yield work
    except OSError as err:
        raise InputError(Fault(str(target), option, in_words(err), "a folder that can be written")) from None


@contextmanager
def _inside(target: Path, stale: Callable[[Path], list[Path]]) -> Iterator[Path]:
    sweep_partials(target, "files")
    work = Path(tempfile.mkdtemp(prefix=f"{PARTIAL}files.{os.getpid()}.", dir=target))
    try:
        yield work
        made = sorted(work.iterdir())
        if taken := [p.name for p in made if (target / p.name).is_dir()]:
            raise InputError(Fault(str(target / taken[0]), "file", "a folder", "a file, or a name that is free"))
        old = {p.name: p for p in stale(target)}
        for path in made:
            path.replace(target / path.name)
            old.pop(path.name, None)
        for path in old.values():
            path.unlink()
    finally:
        shutil.rmtree(work, ignore_errors=True)


@contextmanager
def whole_file(path: Path, option: str = "file") -> Iterator[Path]:
    """Give a file to write, of the same ending, and move it to `path` when all went well.

    Args:
        path: the file to make or to replace.
        option: what messages call it.

    Yields:
        The file to write. On any error it is removed and `path` is left as it was.

    Raises:
        InputError: it cannot be written.
    """
    work = None
    try:
        handle, name = tempfile.mkstemp(prefix=PARTIAL, suffix=path.suffix, dir=path.parent)
        os.close(handle)
        work = Path(name)
        yield work
        work.chmod(0o644)
        work.replace(path)
    except OSError as err:
        raise InputError(Fault(str(path), option, in_words(err), "a file that can be written")) from None
    finally:
        if work is not None:
            work.unlink(missing_ok=True)


def sha256_of(path: Path) -> str:
    """Return the sha256 of a file, in hex."""
    return hashlib.sha256(path.read_bytes()).hexdigest()


def write_json(path: Path, data: Any) -> None:
    """Write JSON: two spaces, keys in the order given, one line end at the end."""
    path.write_text(json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False) + "\n", encoding="utf-8")


def hashes(folder: Path, leave_out: tuple[str, ...] = ()) -> dict[str, str]:
    """Return path -> sha256 of every file below a folder, sorted by path."""
    files = sorted(p for p in folder.rglob("*") if p.is_file())
    return {p.relative_to(folder).as_posix(): sha256_of(p) for p in files if p.name not in leave_out}


def write_new(path: Path, text: str) -> None:
    """Write a file that was not there before, whole or not at all.

    Raises:
        InputError: something of that name is there, or the place cannot be written.
    """
    try:
        handle, work = tempfile.mkstemp(prefix=f"{PARTIAL}{path.name}.", dir=path.parent)
    except OSError as err:
        raise InputError(Fault(str(path), "file", in_words(err), "a place that can be written")) from None
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(text)
        Path(work).chmod(0o644)
        os.link(work, path)  # unlike a rename it never replaces what is there
    except FileExistsError:
        raise InputError(Fault(str(path), "file", "a file", "a name that is free", "nothing was written")) from None
    finally:
        Path(work).unlink()
