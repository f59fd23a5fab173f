"""Taking a measured contraction over into the shop's practice file, every comment and line of it kept."""

from __future__ import annotations

import os
import re
import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path

from parts.plane.shop import load_shop
from shared.errors import Fault, InputError, RequestError, in_words


def take_over(path: Path, tables: Mapping[str, Sequence[str]]) -> None:
    """Add tables [contraction.ALLOY] at the end of a shop.toml; nothing else in the file changes.

    The new text is read as a practice file before it takes the old one's place, all at once.

    Args:
        path: the practice file.
        tables: alloy id -> its table, the header first.

    Raises:
        InputError: the file cannot be read, or its folder cannot be written.
        RequestError: it has a contraction for such an alloy, or cannot take one at its end; nothing is written.
    """
    load_shop(path)
    text = path.read_text(encoding="utf-8")
    new = text.rstrip("\n") + "\n"
    for alloy_id, lines in tables.items():
        header = re.compile(rf'^\s*\[\s*contraction\s*\.\s*"?{re.escape(alloy_id)}"?\s*\]')
        there = [i for i, line in enumerate(text.splitlines(), 1) if header.match(line)]
        if there:
            raise RequestError(
                f"{path}:{there[0]}: [contraction.{alloy_id}] stands there already: change it by hand to the lines "
                "shown; nothing was written"
            )
        new += "\n" + "\n".join(lines) + "\n"
    try:
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".toml")
    except OSError as err:
        raise InputError(Fault(str(path), "--write", in_words(err), "a folder that can be written")) from None
    draft = Path(name)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="") as out:
            out.write(new)
        try:
            load_shop(draft)
        except InputError as err:
            first = str(err.faults[0]).replace(str(draft), str(path))
            raise RequestError(f"{path} does not take the lines at its end: {first}; add them by hand") from None
        draft.chmod(path.stat().st_mode & 0o777)
        draft.replace(path)
    except OSError as err:
        raise InputError(Fault(str(path), "--write", in_words(err), "a file that can be written")) from None
    finally:
        draft.unlink(missing_ok=True)
