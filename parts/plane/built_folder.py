"""The folder of a built plane: which files the build made, by its manifest, and which are a guest's and stay."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

from shared.errors import Fault, InputError

MANIFEST = "manifest.json"


def built_names(folder: Path) -> set[str] | None:
    """Return the files that an earlier build's manifest names, itself among them; None where there is no such one."""
    try:
        data = json.loads((folder / MANIFEST).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return None
    files = data.get("files") if isinstance(data, dict) and "planewright" in data else None
    return {MANIFEST, *files} if isinstance(files, dict) else None


def check_target(folder: Path) -> None:
    """Refuse to build into something that no build has made.

    Raises:
        InputError: a file stands there, or a folder that holds files and no manifest of a build.
    """
    hint = "name another --out, or move it away"
    if folder.exists() and not folder.is_dir():
        raise InputError(Fault(str(folder), "--out", "a file", "a folder, or a name that is free", hint))
    if folder.is_dir() and any(folder.iterdir()) and built_names(folder) is None:
        allowed = f"a folder that an earlier build made ({MANIFEST} says so), an empty one, or a name that is free"
        raise InputError(Fault(str(folder), "--out", "a folder with other files", allowed, hint))


def guests(folder: Path) -> list[str]:
    """Return the files of a built folder that its manifest does not name, as paths below it, sorted."""
    known = built_names(folder) or set()
    found = (p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_symlink() or not p.is_dir())
    return sorted(name for name in found if name not in known)


def carry_over(names: list[str], old: Path, new: Path) -> None:
    """Copy guests into the folder that takes the old one's place; what the build itself has made there stays."""
    for name in names:
        place = new / name
        if not place.exists():
            place.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(old / name, place, follow_symlinks=False)


def taken_away(before: set[str] | None, now: set[str], quick: bool) -> list[str]:
    """Return a note of how many files of an earlier build are gone, if any.

    Args:
        before: files that the earlier build made, or None.
        now: files that this one made.
        quick: this build leaves papers out.
    """
    gone = len((before or set()) - now)
    if not gone:
        return []
    why = "a quick build makes none, and they might not match it" if quick else "this build makes none like them"
    return [f"{gone} {'paper' if gone == 1 else 'papers'} of the earlier build taken away: {why}"]
