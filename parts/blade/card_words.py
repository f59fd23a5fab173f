"""How the blade card writes its values: lengths, temperatures and formulas, the spec's own unit first."""

from __future__ import annotations

import re
from collections.abc import Sequence

from parts.blade.temper import c_to_f, f_to_c
from shared.both_units import number, ordered, temperature
from shared.numbers import UNIT_OF_SUFFIX, Number
from shared.units import MM_PER_IN
from shared.wording import UNCHECKED, plain_source

#: Names of numbers whose key does not read well as words.
LABELS = {
    "bevel_length_mm": "bevel face, as ground",
    "bevel_along_blade_mm": "edge to heel, as ground",
    "honed_heel_from_edge_mm": "edge to heel, honed",
    "ground_facet_length_mm": "ground face left, honed",
    "honed_bevel_length_mm": "honed face",
    "mouth_opening_worst_mm": "mouth opening, at worst ±",
    "mouth_opening_rss_mm": "mouth opening, likely ±",
    "mouth_contributions": "where that comes from",
    "mouth_largest_contribution": "largest of them",
    "mouth_change_per_mm_thicker_mm": "mouth, thicker blade",
    "mouth_change_per_mm_deeper_mm": "mouth, deeper cut",
    "edge_deflection_um_per_100n": "edge deflection",
    "depth_per_projection": "depth for projection",
    "projection_for_depth_mm": "projection for a cut",
    "mouth_across_low_mm": "mouth width, least",
    "mouth_across_high_mm": "mouth width, greatest",
    "side_clearance_min_mm": "side clearance, least",
    "side_clearance_max_mm": "side clearance, greatest",
}
#: Keys of numbers that are a change of one length for the same of another: no length of their own.
RATIO = "mouth_change_per_mm"
_SIGNS = (
    (r", plus/minus$", ""),
    (r"\bplus/minus ", "±"),
    (r"(?<=\d) deg\b", "°"),
    (r"(?<=\d) um\b", " µm"),
    (r"\bm3\b", "m³"),
    (r"\^2", "²"),
    (r"\^3", "³"),
    (r"\^4", "⁴"),
    (r"sqrt\(", "√("),
    (r"\basin\(", "arcsin("),
    (r"\batan\(", "arctan("),
    (r" -\+ ", " ∓ "),
    (r" \+- ", " ± "),
    (r"(?<=[\w)²³⁴])\*(?=[\w(])", "·"),
    (r" is from memory\b", " has no published source"),
    (r" from memory\b", f": {UNCHECKED}"),
    (r"(?<=\()memory\b", UNCHECKED),
)
_DEGREES = re.compile(
    r"(?<![\w.])(-?\d+(?:\.\d+)?)(?:( to |-)(\d+(?:\.\d+)?))? ([FC])\b(?: \(-?[\d.]+ C\)|, -?[\d.]+ C\b)?"
    r"(?! (?:below|above|lower|cooler|hotter))"
)
_MM = re.compile(r"(?<![\w.])(\d+(?:\.\d+)?) mm\b")


def length(mm: float, units: str) -> str:
    """Write a length [mm] in both units, such as "2.000 in [50.80 mm]"; more decimals for small ones, fewer for large.

    Args:
        mm: length.
        units: "inch" or "mm", which stands first.
    """
    size = abs(mm)
    inch = number(mm / MM_PER_IN, 4 if size < 2.5 else 3 if size < 500 else 2 if size < 2500 else 1)
    metric = number(mm, 3 if size < 0.1 else 2 if size < 500 else 1 if size < 2500 else 0)
    return ordered(f"{_shorter(inch, 3)} in", f"{_shorter(metric, 2)} mm", units)


def nominal(mm: float, units: str) -> str:
    """Write a length as it is bought [mm], such as "36 in [914.4 mm]"; `units` says which stands first."""
    return ordered(f"{mm / MM_PER_IN:.5g} in", f"{mm:.5g} mm", units)


def rough(mm: float, units: str) -> str:
    """Write a small length that nobody measures closely [mm]: "0.039 in [1 mm]"; `units` says which stands first."""
    return ordered(f"{mm / MM_PER_IN:.2g} in", f"{mm:g} mm", units)


def sizes(lengths: Sequence[float], units: str) -> str:
    """Write lengths [mm] that belong together: "2.000 × 7.500 × 0.125 in [50.80 × 190.50 × 3.18 mm]"."""
    inch = " × ".join(number(v / MM_PER_IN, 3) for v in lengths)
    metric = " × ".join(number(v, 2) for v in lengths)
    return ordered(f"{inch} in", f"{metric} mm", units)


def warmer(kelvin: float, units: str) -> str:
    """Write a difference of temperature [K] in both scales: "3.0 °F [1.7 °C]"; `units` "inch" puts °F first."""
    return ordered(f"{number(1.8 * kelvin, 1)} °F", f"{number(kelvin, 1)} °C", units)


def plain(text: str, units: str) -> str:
    """Return a text of tables and reckoning as a card says it: signs for words, every temperature in both scales.

    Args:
        text: with temperatures as "150 F", "150-125 F" or "150 F (65 C)", signs spelled out.
        units: "inch" or "mm"; "inch" puts °F first.
    """
    text = _DEGREES.sub(lambda m: _temperatures(m, units), text)
    text = re.sub(r"(?<=\d) ([FC])\b", r" °\1", text)
    for pattern, sign in _SIGNS:
        text = re.sub(pattern, sign, text)
    return text


def meaning(n: Number, units: str) -> str:
    """Return what a number means, as a card says it; `units` says which unit stands first."""
    if n.key.startswith(RATIO):
        return "what the opening loses or gains, per length added"
    return plain(lengths_in(n.meaning, units), units)


def source_text(source: str, known: str = "") -> str:
    """Return a source as a card lists it; `known` as in `shared.wording.plain_source`."""
    text = re.sub(r" from memory\b", f": {UNCHECKED}", plain_source(source, known))
    return re.sub(r"(?<=\d) ([FC])\b", r" °\1", text)


def sentence(text: str, units: str) -> str:
    """Return `plain` of a text as a sentence: a capital first, a full stop last."""
    said = plain(text, units)
    return f"{said[:1].upper()}{said[1:].rstrip('.')}."


def lengths_in(text: str, units: str) -> str:
    """Return a text with every "0.1 mm" written in both units where inches stand first; a metric card keeps it."""
    return text if units == "mm" else _MM.sub(lambda m: rough(float(m[1]), units), text)


def label(key: str) -> str:
    """Return what a card calls a number: its key as words, without the unit at its end."""
    if key in LABELS:
        return LABELS[key]
    end = max((s for s in UNIT_OF_SUFFIX if key.endswith(s)), key=len, default="")
    return key.removesuffix(end).replace("_", " ")


def say(n: Number, units: str) -> str:
    """Return one number's value as text with its unit, lengths and temperatures in both units."""
    value = n.value
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return "; ".join(_say_item(v, units) for v in value)
    if not isinstance(value, int | float):
        return str(value)
    if n.key.startswith(RATIO):
        way = "closes" if value < 0 else "opens"
        return f"{way} by {abs(value):.2f} × that" if value else "does not change"
    if n.unit == "mm":
        return length(float(value), units)
    if n.unit == "°C":
        return temperature(float(value), units)
    if n.unit == "deg":
        return f"{value:.4g}°"
    figures = value if isinstance(value, int) else f"{value:.3g}" if abs(value) < 999.5 else f"{value:.0f}"
    return f"{figures} {n.unit}".rstrip()


def _say_item(item: object, units: str) -> str:
    if isinstance(item, dict) and "effect_mm" in item:
        mark = " (largest)" if item.get("largest") else ""
        off = f"{item['tolerance']:g}°" if item["unit"] == "deg" else length(float(item["tolerance"]), units)
        return f"{item['name']} ±{off} gives ±{length(float(item['effect_mm']), units)}{mark}"
    return str(item)


def _temperatures(m: re.Match[str], units: str) -> str:
    places = max(len(v.partition(".")[2]) for v in (m[1], m[3] or ""))
    given = [float(v) for v in (m[1], m[3]) if v is not None]
    f = given if m[4] == "F" else [c_to_f(v) for v in given]
    c = given if m[4] == "C" else [f_to_c(v) for v in given]
    told = [" to ".join(number(v, places) for v in scale) for scale in (f, c)]
    return ordered(f"{told[0]} °F", f"{told[1]} °C", units)


def _shorter(text: str, least: int) -> str:
    """Return a decimal number without noughts at its end beyond the least places."""
    whole, point, rest = text.partition(".")
    return whole + point + rest[:least] + rest[least:].rstrip("0")
