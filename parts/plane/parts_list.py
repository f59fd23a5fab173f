"""Which parts `build --only` knows, and which files belong to each."""

from __future__ import annotations

import difflib

from shared.errors import Fault, InputError

PARTS = ("body", "toe-piece", "frog", "blade", "chipbreaker", "lever-cap", "tote", "knob", "plane", "lists")


def check_only(part: str) -> None:
    """Refuse a part that is not known.

    Raises:
        InputError: names the nearest part.
    """
    if part not in PARTS:
        near = difflib.get_close_matches(part.replace("_", "-"), PARTS, 1, 0.4)
        hint = f"did you mean {near[0]}?" if near else ""
        raise InputError(Fault("command line", "--only", repr(part), "one of " + ", ".join(PARTS), hint))
