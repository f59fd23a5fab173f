"""HTML written element by element: every text is escaped, so nothing that a spec says can break a page or be lost."""

from __future__ import annotations

import html
import re
from collections.abc import Iterable

_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")
_VOID = {"meta", "link", "input", "img", "br", "hr", "col"}


class Markup(str):
    """Text that is HTML already."""

    __slots__ = ()


Child = str | int | float | None | Iterable["Child"]


def _picture_of(control: re.Match[str]) -> str:
    # HTML cannot carry control characters; Unicode has a visible sign for each of them
    code = ord(control[0])
    return chr(0x2421 if code == 0x7F else 0x2400 + code)


def text(value: object) -> Markup:
    """Return a value as text of a page; control characters are shown by their signs."""
    return Markup(html.escape(_CONTROL.sub(_picture_of, str(value)), quote=True))


def join(*children: Child) -> Markup:
    """Return children one after another: markup as it is, all else escaped, None as nothing."""
    parts: list[str] = []
    for child in children:
        if child is None:
            continue
        if isinstance(child, Markup):
            parts.append(child)
        elif isinstance(child, str | int | float):
            parts.append(text(child))
        else:
            parts.append(join(*child))
    return Markup("".join(parts))


def tag(name: str, /, *children: Child, **attributes: str | int | bool | None) -> Markup:
    """Return one element.

    Args:
        name: of the element.
        children: what stands inside.
        attributes: `class_` stands for class, `aria_label` for aria-label; True writes the name alone, False and None
            leave it out.
    """
    words = [name]
    for key, value in attributes.items():
        written = key.rstrip("_").replace("_", "-")
        if value is True:
            words.append(written)
        elif value is not False and value is not None:
            words.append(f'{written}="{text(value)}"')
    start = f"<{' '.join(words)}>"
    return Markup(start if name in _VOID else f"{start}{join(*children)}</{name}>")
