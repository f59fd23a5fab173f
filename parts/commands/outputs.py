"""Where a command may write: files of the right ending that are none of its inputs, folders that can be written."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path

from parts.commands.show import option_fault


def check_output(option: str, path: Path, endings: tuple[str, ...], read: Iterable[Path | None]) -> None:
    """Refuse a file that a command must not write.

    Args:
        option: name of the option, for the message.
        path: the file to write; an earlier output there may be replaced.
        endings: those of the formats that can be written, each with its dot.
        read: the files that the command reads; None where there is none.

    Raises:
        InputError: another ending, a folder, an input of the same command, or a place that cannot be written.
    """
    if path.suffix.lower() not in endings:
        raise option_fault(option, str(path), "a file that ends in " + ", ".join(endings))
    if path.is_dir():
        raise option_fault(option, str(path), "a file", "it is a folder")
    if any(_same(path, other) for other in read if other is not None):
        raise option_fault(option, str(path), "another file than those that are read")
    if not path.parent.is_dir():
        raise option_fault(option, str(path), "a file in a folder that exists", f"{path.parent}: no such folder")
    if not os.access(path.parent, os.W_OK | os.X_OK) or (path.exists() and not os.access(path, os.W_OK)):
        raise option_fault(option, str(path), "a file that can be written", "no permission")


def output_folder(option: str, text: str) -> Path:
    """Read a folder to write into; it need not be there yet.

    Args:
        option: name of the option, for the message.
        text: as written.

    Raises:
        InputError: nothing, a file, or a place that cannot be written.
    """
    if not text.strip():
        raise option_fault(option, text, "a folder", "a dot is the current folder")
    path = Path(text)
    there = next(p for p in (path, *path.absolute().parents) if os.path.lexists(p))
    if not there.is_dir():
        hint = "" if there == path else f"{there} is a file"
        raise option_fault(option, text, "a folder, or a name that is free", hint or "it is a file")
    if not os.access(there, os.W_OK | os.X_OK):
        raise option_fault(option, text, "a folder that can be written", f"no permission in {there}")
    return path


def _same(a: Path, b: Path) -> bool:
    if a.resolve() == b.resolve():
        return True
    return a.exists() and b.exists() and a.samefile(b)
