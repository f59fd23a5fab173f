"""The book's numbers: every one opens to its formula, what was put in, and its source."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from shared.book.content import Book
from shared.book.html import Child, Markup, join, tag
from shared.book.wording import Wording
from shared.explain import explain
from shared.numbers import UNIT_OF_SUFFIX, Number, unit_of


def terms(pairs: Sequence[tuple[str, Child]], **attributes: str) -> Markup:
    """Return terms with what is said of each; those of which nothing is said are left out."""
    rows = [tag("div", tag("dt", term), tag("dd", said)) for term, said in pairs if said not in ("", None)]
    return tag("dl", rows, **attributes)


def filter_field(target: str, words: str) -> Markup:
    """Return a field that narrows a list; shown only when scripts run."""
    field = tag("input", type="search", id=f"find-{target}", data_filter=target, autocomplete="off", spellcheck="false")
    said = tag("output", for_=f"find-{target}")
    return tag("p", tag("label", words, for_=f"find-{target}"), field, said, class_="filter", hidden=True)


def _lines(number: Number) -> list[Mapping[str, Any]]:
    """Return the lines of a number that is a list of them, each with its own names; else nothing."""
    value = number.value
    return [v for v in value if isinstance(v, Mapping)] if isinstance(value, list) else []


def _head(key: str) -> str:
    ending = next((s for s in sorted(UNIT_OF_SUFFIX, key=len, reverse=True) if key.endswith(s)), "")
    return key.removesuffix(ending).replace("_", " ")


def _cell(key: str, value: object, line: Mapping[str, Any], w: Wording) -> str:
    unit = unit_of(key) or (str(line.get("unit", "")) if key == "tolerance" else "")
    if isinstance(value, bool):
        return _truth(value)
    if isinstance(value, str):
        return w.plain(value)
    found = value if isinstance(value, list | tuple) else [value]
    return w.say(f"{', '.join(_digits(v, unit) for v in found)} {unit}".strip())


def _digits(value: object, unit: str) -> str:
    if not isinstance(value, int | float):
        return str(value)
    return f"{value:.3f}" if unit == "mm" else f"{value:.4g}"


def _truth(value: object) -> str:
    return ("no", "yes")[value] if isinstance(value, bool) else ""


def _told(lines: Sequence[Mapping[str, Any]], w: Wording) -> Markup:
    rows = []
    for line in lines:
        told = [(_head(k), _cell(k, v, line, w)) for k, v in line.items() if k not in ("name", "unit")]
        cells = [tag("span", tag("small", head), " ", said) for head, said in told if said]
        name = tag("b", w.plain(str(line["name"]))) if "name" in line else None
        rows.append(tag("li", name, [join(" ", c) for c in cells]))
    return tag("ul", rows, class_="lines")


def _number(part: str, number: Number, w: Wording) -> Markup:
    e, lines = explain(part, number), _lines(number)
    value = f"{len(lines)} lines" if lines else _truth(number.value) or w.say(e.value)
    head = tag(
        "summary",
        tag("span", w.say(e.meaning), class_="rule"),
        tag("span", value, class_="figure"),
        tag("code", e.name),
    )
    put_in = [tag("div", tag("dt", tag("code", n)), tag("dd", w.plain(v))) for n, v in e.values]
    body = terms(
        [
            ("Value", _told(lines, w) if lines else ""),
            ("Formula", tag("span", e.formula, class_="formula")),
            ("Put in", tag("dl", put_in, class_="put-in") if put_in else ""),
            ("Source", w.plain(e.source)),
            ("Decided by", w.say(e.decided_by)),
        ]
    )
    return tag("details", head, body, class_="number", id=f"n-{e.name}")


def numbers(book: Book) -> Markup:
    """Return every number, part by part, each opening to what `explain` tells of it."""
    parts, w = [], book.wording
    for part, found in book.numbers.items():
        rows = [_number(part, n, w) for n in found]
        title = tag("h3", part.replace("_", " "))
        parts.append(tag("details", tag("summary", title, tag("small", f"{len(rows)} numbers")), rows, class_="fold"))
    lead = tag(
        "p",
        "Each opens to its formula, the values put in and its source, as ",
        tag("code", "planewright explain"),
        " tells them. Values put in are reckoned in mm, degrees, °C, kg, N and MPa where their names say no unit.",
    )
    return join(lead, filter_field("number-list", "Find a number"), tag("div", parts, id="number-list"))
