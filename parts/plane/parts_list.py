"""Which parts `build --only` knows, and which of them each kind of plane has."""

from __future__ import annotations

import difflib

from parts.plane import kinds
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


def check_only_of(kind: str, part: str, spec: str) -> None:
    """Refuse a part that planes of a kind have not got.

    Args:
        kind: of the plane.
        part: one of `PARTS`.
        spec: the plane's file, for the message.

    Raises:
        InputError: names the parts that it has.
    """
    has = kinds.of(kind, "spec").PARTS
    if part not in has:
        allowed = "one of " + ", ".join(has)
        raise InputError(Fault(spec, "--only", repr(part), allowed, f"a {kind} plane has no {part}"))
