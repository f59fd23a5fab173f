"""Limits and fits by ISO 286, general tolerances by ISO 2768.

Deviations are computed from the standard tolerances and fundamental deviations in `tables/fits.toml`; holes follow
the general rule (mirror image of the shaft) and, for K to N up to IT8 and P up to IT7, the special rule with the
difference of two grades.
"""

from __future__ import annotations

import difflib
import math
import re
from typing import Literal

from shared.errors import Fault, InputError
from shared.record import Value
from shared.tables import table

LETTERS = ("c", "d", "e", "f", "g", "h", "js", "k", "m", "n", "p")
LARGEST_MM = 500.0
_CLASS = re.compile(r"^([A-Za-z]{1,2})(\d{1,2})$")
_UPPER_TABLE = {"c": "c_es", "f": "f_es", "g": "g_es"}
_MEMORY_UPPER = {"d": "d_es", "e": "e_es"}
_MEMORY_LOWER = {"m": "m_ei", "n": "n_ei", "p": "p_ei"}


class Limits(Value):
    """Deviations of one tolerance class from the nominal size [um]."""

    name: str
    lower: float
    upper: float
    from_memory: bool  # a fundamental deviation that was recalled, not read in a copy


class Fit(Value):
    """A hole and a shaft of the same nominal size [um]; a negative clearance is interference."""

    diameter: float
    hole: Limits
    shaft: Limits

    @property
    def clearance_max(self) -> float:
        """Largest hole less smallest shaft [um]."""
        return self.hole.upper - self.shaft.lower

    @property
    def clearance_min(self) -> float:
        """Smallest hole less largest shaft [um]."""
        return self.hole.lower - self.shaft.upper

    @property
    def kind(self) -> str:
        """Return "clearance", "transition" or "interference"."""
        if self.clearance_min >= 0:
            return "clearance"
        return "interference" if self.clearance_max <= 0 else "transition"


def _row(over: list[float], to: list[float], size: float) -> int:
    """Return the row of a size; one on a bound belongs to the lower range."""
    for i, (low, high) in enumerate(zip(over, to, strict=True)):
        if low < size <= high:
            return i
    raise InputError(Fault("fit", "diameter", f"{size:g} mm", f"more than 0 and at most {LARGEST_MM:g} mm"))


def grades() -> list[int]:
    """Return the standard tolerance grades of the table, such as 7 for IT7."""
    return sorted(int(k[2:]) for k in table("fits")["it"] if k.startswith("IT"))


def standard_tolerance(diameter: float, grade: int) -> float:
    """Return the standard tolerance IT of a size [um].

    Args:
        diameter: nominal size [mm], up to 500.
        grade: number of the grade, 7 for IT7 [-].

    Raises:
        InputError: size or grade outside the table.

    Source: ISO 286-1:2010 Table 1 as tabled.
    """
    data = table("fits")["it"]
    i = _row(data["over_mm"], data["to_mm"], diameter)
    if f"IT{grade}" not in data:
        known = grades()
        raise InputError(Fault("fit", "grade", f"IT{grade}", f"IT{known[0]} to IT{known[-1]}"))
    return float(data[f"IT{grade}"][i])


def tolerance_unit(low: float, high: float) -> float:
    """Return the tolerance unit i [um] of a range of sizes [mm]: 0.45*D^(1/3) + 0.001*D, D their geometric mean.

    The table's values are rounded multiples of it; the table rules. Source: ISO 286-1 annex, from memory.
    """
    d = math.sqrt(low * high)
    return 0.45 * d ** (1 / 3) + 0.001 * d


def _shaft_deviation(letter: str, diameter: float, grade: int) -> tuple[float, bool, bool]:
    """Return (fundamental deviation [um], it is the upper one, recalled) of a shaft letter."""
    data, memory = table("fits")["fundamental"], table("fits")["fundamental_memory"]
    i = _row(data["over_mm"], data["to_mm"], diameter)
    j = _row(memory["over_mm"], memory["to_mm"], diameter)
    if letter == "h":
        return 0.0, True, False
    if letter in _UPPER_TABLE:
        return float(data[_UPPER_TABLE[letter]][i]), True, False
    if letter in _MEMORY_UPPER:
        return float(memory[_MEMORY_UPPER[letter]][j]), True, True
    if letter == "k":
        # the table holds k6; its lower deviation is the same for IT4 to IT7 and 0 for coarser grades
        own = float(data["k6_es"][i]) - standard_tolerance(diameter, 6)
        return (own if grade <= 7 else 0.0), False, False
    return float(memory[_MEMORY_LOWER[letter]][j]), False, True


def shaft_limits(diameter: float, letter: str, grade: int) -> Limits:
    """Return the deviations of a shaft class [um]; diameter [mm], letter such as "g", grade such as 6."""
    it = standard_tolerance(diameter, grade)
    name = f"{letter}{grade}"
    if letter == "js":
        return Limits(name, -it / 2, it / 2, False)
    value, upper, recalled = _shaft_deviation(letter, diameter, grade)
    return Limits(name, value - it, value, recalled) if upper else Limits(name, value, value + it, recalled)


def _hole_upper(letter: str, diameter: float, grade: int) -> tuple[float, bool]:
    """Return (upper deviation ES [um], recalled) of a hole K to P."""
    low = letter.lower()
    value, _, recalled = _shaft_deviation(low, diameter, min(grade, 7) if low == "k" else grade)
    special = diameter > 3 and grade <= (7 if low == "p" else 8)
    if low == "k" and grade > 8:
        raise InputError(Fault("fit", "fit", f"K{grade}", "K up to K8", "the standard has no coarser K"))
    if low == "n" and grade > 8 and diameter > 3:
        return 0.0, recalled
    if not special:
        return 0.0 - value, recalled
    if grade - 1 not in grades():
        raise InputError(Fault("fit", "fit", f"{letter}{grade}", f"{letter}{grades()[0] + 1} or coarser"))
    delta = standard_tolerance(diameter, grade) - standard_tolerance(diameter, grade - 1)
    if low == "m" and grade == 6 and 250 < diameter <= 315:
        return -9.0, True  # the one exception that the standard makes
    return delta - value, recalled


def hole_limits(diameter: float, letter: str, grade: int) -> Limits:
    """Return the deviations of a hole class [um]; diameter [mm], letter such as "H", grade such as 7."""
    it = standard_tolerance(diameter, grade)
    name, low = f"{letter}{grade}", letter.lower()
    if low == "js":
        return Limits(name, -it / 2, it / 2, False)
    if low in ("k", "m", "n", "p"):
        upper, recalled = _hole_upper(letter, diameter, grade)
        return Limits(name, upper - it, upper, recalled)
    value, _, recalled = _shaft_deviation(low, diameter, grade)
    return Limits(name, 0.0 - value, it - value, recalled)


def tolerance_class(diameter: float, name: str) -> Limits:
    """Return the deviations of a tolerance class such as "H7" (hole) or "g6" (shaft) [um].

    Args:
        diameter: nominal size [mm].
        name: letter and grade.

    Raises:
        InputError: the class or the size is not in the table.
    """
    m = _CLASS.match(name)
    lower = m[1].lower() if m else ""
    one_case = bool(m) and (m[1].islower() or m[1].isupper() or m[1] in ("Js", "jS"))  # type: ignore[index]
    if not m or lower not in LETTERS or not one_case:
        holes = ", ".join(x.upper() for x in LETTERS)
        near = difflib.get_close_matches(lower, LETTERS, 1)
        hint = f"did you mean {near[0]}{m[2]}?" if m and near else "upper case is a hole, lower case a shaft"
        allowed = f"a letter of {', '.join(LETTERS)} (shaft) or {holes} (hole) and a grade of 5 to 14, such as H7"
        raise InputError(Fault("fit", "fit", repr(name), allowed, hint))
    if m[1][0].isupper():
        return hole_limits(diameter, m[1], int(m[2]))
    return shaft_limits(diameter, m[1].lower(), int(m[2]))


def fit(diameter: float, name: str) -> Fit:
    """Return the limits of a fit such as "H7/g6".

    Args:
        diameter: nominal size [mm].
        name: hole class, a slash, shaft class.

    Raises:
        InputError: not a hole and a shaft, or outside the tables.
    """
    bits = [b.strip() for b in name.split("/")]
    if len(bits) != 2 or not bits[0][:1].isupper() or not bits[1][:1].islower():
        hint = ""
        if len(bits) == 2 and bits[0][:1].islower() and bits[1][:1].isupper():
            hint = f"did you mean {bits[1]}/{bits[0]}?"
        raise InputError(Fault("fit", "fit", repr(name), 'a hole and a shaft, such as "H7/g6"', hint))
    return Fit(diameter, tolerance_class(diameter, bits[0]), tolerance_class(diameter, bits[1]))


def general_linear(size: float, grade: Literal["f", "m", "c", "v"]) -> float:
    """Return the general tolerance of a length [plus/minus mm]; size [mm], class f, m, c or v.

    Raises:
        InputError: a size or class for which the standard gives none (state the tolerance on the drawing).

    Source: ISO 2768-1:1989 Table 1.
    """
    data = table("fits")["general_linear"]
    if grade not in ("f", "m", "c", "v"):
        raise InputError(Fault("ISO 2768", "class", repr(grade), "f, m, c or v"))
    # this table includes its lowest bound
    index = 0 if size == data["size_over_mm"][0] else -1
    for i, (low, high) in enumerate(zip(data["size_over_mm"], data["size_to_mm"], strict=True)):
        if low < size <= high:
            index = i
    if index < 0 or data[grade][index] == 0:
        raise InputError(
            Fault("ISO 2768", "size", f"{size:g} mm, class {grade}", "0.5 to 4000 mm; state the tolerance on the size")
        )
    return float(data[grade][index])


def general_edge(size: float, grade: Literal["f", "m", "c", "v"]) -> float:
    """Return the general tolerance of an outside radius or chamfer [plus/minus mm]; size [mm].

    Source: ISO 2768-1:1989 Table 2.
    """
    data = table("fits")["general_broken_edges"]
    if size < data["size_over_mm"][0]:
        raise InputError(Fault("ISO 2768", "size", f"{size:g} mm", "0.5 mm or more; state the tolerance on the size"))
    column = data["f_m" if grade in ("f", "m") else "c_v"]
    return float(column[max(i for i, low in enumerate(data["size_over_mm"]) if size > low or i == 0)])


def general_angle(shorter_side: float, grade: Literal["f", "m", "c", "v"]) -> float:
    """Return the general tolerance of an angle [plus/minus arc minutes]; its shorter side [mm].

    Source: ISO 2768-1:1989 Table 3.
    """
    data = table("fits")["general_angle"]
    column = data[{"f": "f_m_minutes", "m": "f_m_minutes", "c": "c_minutes", "v": "v_minutes"}[grade]]
    return float(column[sum(shorter_side > bound for bound in data["shorter_side_up_to_mm"])])


def general_flatness(length: float, grade: Literal["H", "K", "L"]) -> float:
    """Return the general straightness and flatness tolerance [mm] of a length [mm], class H, K or L.

    Source: ISO 2768-2:1989 Table 1 (withdrawn for ISO 22081:2021).
    """
    data = table("fits")["general_flatness"]
    for bound, value in zip(data["length_up_to_mm"], data[grade], strict=True):
        if length <= bound:
            return float(value)
    raise InputError(Fault("ISO 2768", "length", f"{length:g} mm", f"at most {data['length_up_to_mm'][-1]} mm"))
