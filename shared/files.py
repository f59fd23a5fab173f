"""Writing a folder whole: build beside it, then move into place, so that nobody ever sees half of it."""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from shared.errors import Fault, InputError

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


def sweep_partials(parent: Path, name: str) -> None:
    """Remove what a killed build of the same name left behind; one that still runs keeps its folder."""
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
    """
    parent = target.parent
    check_writable(parent)
    sweep_partials(parent, target.name)
    # a dot ends the name: no folder's name holds one, so "heron" never sweeps what belongs to "heron-m"
    work = Path(tempfile.mkdtemp(prefix=f"{PARTIAL}{target.name}.{os.getpid()}.", dir=parent))
    try:
        if keep and target.is_dir():
            shutil.copytree(target, work, dirs_exist_ok=True)
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
        raise InputError(Fault(str(path), "file", type(err).__name__, "a place that can be written")) from None
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(text)
        Path(work).chmod(0o644)
        os.link(work, path)  # unlike a rename it never replaces what is there
    except FileExistsError:
        raise InputError(Fault(str(path), "file", "a file", "a name that is free", "nothing was written")) from None
    finally:
        Path(work).unlink()
