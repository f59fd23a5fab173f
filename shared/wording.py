"""Small words of the papers: counted things, lists, and how a source is said."""

from __future__ import annotations

from collections.abc import Sequence

UNCHECKED = "not checked in print"
_KNOWN = {"seen": "", "memory": UNCHECKED, "computed": "computed", "common practice": "common practice, no source",
          "invented": "invented demo data"}  # fmt: skip


def counted(n: int, one: str, many: str = "") -> str:
    """Write a number of things: "1 tap", "2 taps".

    Args:
        n: how many [-].
        one: name of one.
        many: name of several; default: with an s.
    """
    return f"{n} {one if n == 1 else many or one + 's'}"


def times(n: int) -> str:
    """Write how often something is done: "once", "twice", "3 times"."""
    return {1: "once", 2: "twice"}.get(n, f"{n} times")


def listed(words: Sequence[str]) -> str:
    """Write a list: "body, frog and lever cap"."""
    return " and ".join(filter(None, (", ".join(words[:-1]), *words[-1:])))


def plain_source(source: str, known: str = "") -> str:
    """Return a source as a paper says it.

    Args:
        source: as a table has it; marks such as "(memory)" in it are put in words, "(seen)" goes without saying.
        known: how the value is known: seen, memory, computed, common practice, invented.
    """
    text = source
    for mark, said in ((" (seen)", ""), (", seen)", ")"), ("memory)", f"{UNCHECKED})")):
        text = text.replace(mark, said)
    more = _KNOWN.get(known, known)
    return text if not more or more in text else f"{text} ({more})"
