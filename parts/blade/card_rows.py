"""What a card is made of: sections of rows."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from parts.blade.card_words import label, meaning, plain, say, source_text
from shared.numbers import Numbers


@dataclass(frozen=True)
class Row:
    """One line of the card."""

    label: str
    value: str
    how: str = ""
    source: str = ""
    formula: str = ""  # for who checks the card; the shop's sheet leaves it out


@dataclass(frozen=True)
class Section:
    """One group of lines."""

    name: str
    rows: tuple[Row, ...]
    notes: tuple[str, ...] = ()


def numbers_section(name: str, numbers: Numbers, units: str, wanted: Callable[[str], bool]) -> Section:
    """Return a section of the numbers whose key is wanted.

    Args:
        name: heading.
        numbers: the list.
        units: "inch" or "mm", which stands first.
        wanted: tells from a key whether it belongs here.
    """
    rows = [
        Row(label(n.key), say(n, units), meaning(n, units), source_text(n.source), plain(n.formula, units))
        for n in numbers
        if wanted(n.key)
    ]
    return Section(name, tuple(rows))


def sources_of(sections: list[Section]) -> list[str]:
    """Return where the values of each section come from, a line a section, for a list at a card's end."""
    lines = []
    for s in sections:
        found = list(dict.fromkeys(r.source for r in s.rows if r.source))
        # a source that another one begins with says nothing more
        kept = [f for f in found if not any(other != f and other.startswith(f) for other in found)]
        if kept:
            lines.append(f"{s.name}: {'; '.join(kept)}.")
    return lines
