"""How the book words what the program's findings, cards and numbers say: signs for units, the spec's own unit first.

Those texts are made once for terminal, files and book, many of them in one unit; a page read in the shop leads with
the unit of its plane and gives the other in brackets.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from shared.drawing.content import ra_text
from shared.units import G_PER_LB, MM_PER_IN

_NUMBER = r"[±+−-]?\d+(?:\.\d+)?"
_BETWEEN = r" to | or | and | by | × | x |-|–"
_SEVERAL = rf"{_NUMBER}(?:(?:{_BETWEEN}){_NUMBER})*"
_INCH = rf"(?:~?[±+−-]?(?:\d+-)?\d+/\d+|~?{_SEVERAL})"  # a fraction, or as others
_SIGNS = (
    (re.compile(r"(?<=\d) deg(?:rees?)?\b"), "°"),
    (re.compile(r"(?<=\d) ?(?:deg|°)?([CF])\b(?! [=A-Z])"), r" °\1"),
    (re.compile(r"(?<=\d) um\b"), " µm"),
    (re.compile(r"\bplus/minus "), "±"),
    (re.compile(r"(?<=\d)\.0+°"), "°"),
)
_ROUGHNESS = re.compile(r"\bRa (\d+(?:\.\d+)?) µm(?! \[)")


@dataclass(frozen=True)
class _Measure:
    """A metric unit, the other one, and how a number goes over: value and decimals read -> text."""

    metric: str
    inch: str
    across: Callable[[float, int], str]
    back: Callable[[float, int], str] | None = None  # where one alone is rewritten for a metric plane too
    written: str = _SEVERAL  # pattern of numbers in the inch unit


def _inches(mm: float, places: int) -> str:
    kept = min(places + 2, 4 if mm == 0 or abs(mm) >= 0.01 else 5)
    return f"{mm / MM_PER_IN:.{kept}f}"


def _pounds(kg: float, places: int) -> str:
    return f"{1000 * kg / G_PER_LB:.{min(max(places, 1), 3)}f}"


def _ounces(g: float, _: int) -> str:
    return f"{16 * g / G_PER_LB:.2f}"


def _fahrenheit(c: float, _: int) -> str:
    return f"{1.8 * c + 32:.0f}"


def _celsius(f: float, _: int) -> str:
    return f"{(f - 32) / 1.8:.0f}"


_MEASURES = (
    _Measure("mm", "in", _inches, written=_INCH),
    _Measure("kg", "lb", _pounds),
    _Measure("g", "oz", _ounces),
    _Measure("°C", "°F", _fahrenheit, _celsius),
)


def signs(text: str) -> str:
    """Return a text with the signs of units: "45 deg" is 45°, "300 F" is 300 °F, "0.4 um" is 0.4 µm."""
    for pattern, sign in _SIGNS:
        text = pattern.sub(sign, text)
    return text


@dataclass(frozen=True)
class Wording:
    """How one book words things: the unit that leads, and the names of what tables know by an id."""

    units: str = "inch"  # "inch" or "mm"
    names: Mapping[str, str] = field(default_factory=dict)  # id -> name

    def plain(self, text: str) -> str:
        """Return a text with signs for units and names for ids, its sizes as they are: sources, labels."""
        for known, name in self.names.items():
            if known in text:
                text = re.sub(rf"(?<![\w/-]){re.escape(known)}(?![\w-]|\.\w)", name, text)
        return signs(text)

    def say(self, text: str) -> str:
        """Return a text as `plain` does, its lengths, masses and temperatures in both units, the plane's own first."""
        text = self.plain(text)
        for m in _MEASURES:
            text = _both(text, m, self.units == "inch")
        return _ROUGHNESS.sub(lambda found: ra_text(float(found[1]), self.units), text)


def _both(text: str, m: _Measure, inch: bool) -> str:
    """Return a text with pairs of a measure in the right order, and the other unit beside what stands alone."""
    own, other, across = (m.inch, m.metric, m.across) if inch else (m.metric, m.inch, m.back)
    alone = other if across else "(?!)"  # what is not to be rewritten is never found
    end = r"(?![\w²³/·])"
    numbers = {m.metric: _SEVERAL, m.inch: m.written}
    pairs = [rf"(?P<a{i}>{numbers[u]} {u}){end},? ?[(\[]?(?P<b{i}>{numbers[v]} {v}){end}[)\]]?"
             for i, (u, v) in enumerate(((m.metric, m.inch), (m.inch, m.metric)))]  # fmt: skip
    several = rf"(?P<many>{_SEVERAL}) {alone}{end}(?! [A-Z]{{1,2}}\d+/)"
    listed = re.fullmatch(rf"({_NUMBER}(?:, {_NUMBER})+) {alone}", text)
    if listed:
        return _told(listed[1], other, own, across, False)
    pattern = re.compile(rf"(?<![\w.,/^])(?:{'|'.join(pairs)}|{several})")

    def put(found: re.Match[str]) -> str:
        before = text[: found.start()]
        nested = before.count("(") > before.count(")")
        if found["many"] is not None:
            own_list = re.search(rf" {own} \([^()]*$", before)
            if own_list or before.count("[") > before.count("]") or text.startswith(" [", found.end()):
                return found[0]  # said in both units already
            return _told(found["many"], other, own, across, nested)
        first, second = next((found[f"a{i}"], found[f"b{i}"]) for i in (0, 1) if found[f"a{i}"] is not None)
        left = found[0][len(first) :].lstrip(" ,")[0]
        if left not in "([":
            return found[0]  # such as "272 °C, 521 °F"
        if not first.endswith(f" {own}"):
            first, second = second, first
        left, right = "[]" if nested or left == "[" else "()"
        return f"{first} {left}{second}{right}"

    return pattern.sub(put, text)


def _told(numbers: str, unit: str, own: str, across: Callable[[float, int], str] | None, nested: bool) -> str:
    """Return numbers of one unit as the other one's, with those read in brackets behind."""
    assert across is not None
    places = max(len(part) for part in re.findall(r"\d+\.?(\d*)", numbers))

    def over(found: re.Match[str]) -> str:
        mark = found[0][0] if found[0][0] in "±+" else ""
        return mark + across(float(found[0].lstrip("±+").replace("−", "-")), places)

    # a hyphen between two numbers is no minus
    changed = re.sub(r"(?:(?<![\d])[±+−-])?\d+(?:\.\d+)?", over, numbers)
    left, right = "[]" if nested else "()"
    return f"{changed} {own} {left}{numbers} {unit}{right}"
