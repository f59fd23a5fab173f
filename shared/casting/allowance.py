"""ISO 8062: casting tolerance, required machining allowance, and the raw casting dimension that follows."""

from __future__ import annotations

from typing import Any, Literal

from shared.errors import Fault, InputError, RequestError
from shared.record import Value
from shared.tables import table

GRADES = range(1, 17)
Kind = Literal["outside one side", "outside two sides", "inside one side", "inside two sides", "as cast"]
SOURCE_TOLERANCE = "ISO 8062-3:2007 Table 2 (over 400 mm: memory)"
SOURCE_ALLOWANCE = "ISO 8062:1994 machining-allowance table (memory)"


def read_tolerance_grade(text: str, where: str = "command line", key: str = "--tolerance-grade") -> int:
    """Read a casting tolerance grade written "9", "CT9", "DCTG 9" or "DCTG9".

    Raises:
        InputError: not a grade of 1 to 16.
    """
    bare = text.strip().upper().removeprefix("DCTG").removeprefix("CT").strip()
    if not bare.isdigit() or int(bare) not in GRADES:
        raise InputError(Fault(where, key, repr(text), 'a grade of 1 to 16, such as "9" or "DCTG 9"'))
    return int(bare)


def read_machining_grade(text: str, where: str = "command line", key: str = "--machining-grade") -> str:
    """Read a machining-allowance grade written "E" or "RMAG E".

    Raises:
        InputError: not one of the ten letters.
    """
    bare = text.strip().upper().removeprefix("RMAG").removeprefix("RMA").strip()
    grades = table("foundry")["rma"]["grades"]
    if bare not in grades:
        raise InputError(Fault(where, key, repr(text), "a letter of " + ", ".join(grades) + " (there is no I)"))
    return bare


def _dct_rows() -> list[dict[str, Any]]:
    foundry = table("foundry")
    return [*foundry["dct"]["rows"], *foundry["dct_long"]["rows"]]


def dimension_tolerance(dimension_mm: float, grade: int) -> float:
    """Return the total width of the casting tolerance [mm]; the dimension may be out by half of it either way.

    Args:
        dimension_mm: dimension of the raw casting [mm], more than 0, up to 1600.
        grade: casting tolerance grade [-], 1 to 16 (CT of 1994, DCTG of 2007).

    Raises:
        InputError: the dimension or the grade is outside the standard.
        RequestError: the standard defines no value for this grade at this size.

    Source: ISO 8062-3:2007 Table 2.
    """
    if grade not in GRADES:
        raise InputError(Fault("ISO 8062", "tolerance grade", str(grade), "1 to 16"))
    rows = _dct_rows()
    if not 0.0 < dimension_mm <= 1600.0:
        raise InputError(Fault("ISO 8062", "dimension", f"{dimension_mm:g} mm", "more than 0 and up to 1600 mm"))
    for row in rows:
        if row["over"] < dimension_mm <= row["upto"]:
            values: list[float] = row["t"]
            if values[grade - 1] < 0:
                there = [g for g in GRADES if values[g - 1] >= 0]
                raise RequestError(
                    f"ISO 8062-3 defines no tolerance of grade {grade} for {dimension_mm:g} mm "
                    f"(over {row['over']} up to {row['upto']} mm): defined are grades {there[0]} to {there[-1]}"
                )
            return float(values[grade - 1])
    raise AssertionError("the rows have no gap")


def wall_grade(grade: int) -> int:
    """Return the grade for the thickness of a wall between as-cast faces: one coarser, 16 at most."""
    return min(grade + int(table("foundry")["wall_rule"]["offset"]), 16)


def wall_tolerance(wall_mm: float, grade: int) -> float:
    """Return the total tolerance of an as-cast wall's thickness [mm]; `grade` is the casting's own grade [-]."""
    return dimension_tolerance(wall_mm, wall_grade(grade))


def machining_allowance(largest_mm: float, grade_letter: str) -> float:
    """Return the required machining allowance of every machined face of one casting [mm].

    Args:
        largest_mm: largest overall dimension of the part once machined [mm], up to 1600.
        grade_letter: allowance grade, A to K without I.

    Raises:
        InputError: dimension or grade outside the standard.

    Source: ISO 8062:1994 (memory).
    """
    rma = table("foundry")["rma"]
    letter = read_machining_grade(grade_letter, "ISO 8062", "machining grade")
    if not 0.0 < largest_mm <= 1600.0:
        raise InputError(Fault("ISO 8062", "largest dimension", f"{largest_mm:g} mm", "more than 0 and up to 1600 mm"))
    for row in rma["rows"]:
        if row["over"] < largest_mm <= row["upto"]:
            return float(row["r"][rma["grades"].index(letter)])
    raise AssertionError("the rows have no gap")


class Raw(Value):
    """A raw casting dimension and what went into it, all in mm."""

    raw_mm: float
    finished_mm: float
    allowance_mm: float  # required machining allowance of one face
    tolerance_mm: float  # total tolerance at the raw dimension
    kind: Kind

    @property
    def stock_mm(self) -> float:
        """Stock that the pattern carries on each machined face [mm]; 0 where nothing is machined."""
        return abs(self.raw_mm - self.finished_mm) / (2 if self.kind.endswith("two sides") else 1)


def raw_dimension(finished_mm: float, kind: Kind, allowance_mm: float, grade: int) -> Raw:
    """Return the raw casting dimension.

    Outside one side F + RMA + CT/2, two sides F + 2·RMA + CT/2; inside one side F − RMA − CT/2, two sides
    F − 2·RMA − CT/2; as cast F. CT goes by the raw dimension itself: the first band that holds the raw size it
    gives is taken; where none does (an inside size just at a band's end) the wider tolerance of the two.

    Args:
        finished_mm: dimension after machining [mm].
        kind: which faces are machined.
        allowance_mm: required machining allowance [mm] of `machining_allowance`.
        grade: casting tolerance grade [-].

    Raises:
        InputError, RequestError: as `dimension_tolerance`.
        RequestError: an inside dimension that the stock closes (cast it solid).
    """
    if kind == "as cast":
        return Raw(finished_mm, finished_mm, allowance_mm, dimension_tolerance(finished_mm, grade), kind)
    sign = -1.0 if kind.startswith("inside") else 1.0
    faces = 2.0 if kind.endswith("two sides") else 1.0
    fixed = finished_mm + sign * faces * allowance_mm
    if not finished_mm > 0.0:
        raise InputError(Fault("ISO 8062", "finished dimension", f"{finished_mm:g} mm", "more than 0"))
    for row in _dct_rows():
        tolerance = row["t"][grade - 1] if grade in GRADES else -1.0
        raw = fixed + sign * tolerance / 2.0
        if tolerance >= 0.0 and row["over"] < raw <= row["upto"]:
            return Raw(raw, finished_mm, allowance_mm, tolerance, kind)
    # No band agrees with the raw size it gives: it is undefined, closed, or falls between two bands.
    if fixed > 0.0:
        tolerance = dimension_tolerance(fixed, grade)
        raw = fixed + sign * tolerance / 2.0
        if raw > 0.0:
            tolerance = max(tolerance, dimension_tolerance(raw, grade))
            return Raw(fixed + sign * tolerance / 2.0, finished_mm, allowance_mm, tolerance, kind)
    raise RequestError(
        f"an inside dimension of {finished_mm:g} mm is closed by its stock ({faces * allowance_mm:g} mm machining "
        "allowance and half the casting tolerance): cast it solid"
    )


def stock_one_side(finished_mm: float, largest_mm: float, grade: int, grade_letter: str) -> float:
    """Return the stock on a face machined on one side only [mm]: RMA + CT/2.

    Args:
        finished_mm: dimension across which the face stands, such as the sole's thickness [mm].
        largest_mm: largest finished dimension of the part [mm].
        grade: casting tolerance grade [-].
        grade_letter: machining-allowance grade.
    """
    rma = machining_allowance(largest_mm, grade_letter)
    return raw_dimension(finished_mm, "outside one side", rma, grade).stock_mm


def stock_per_side(finished_mm: float, largest_mm: float, grade: int, grade_letter: str) -> float:
    """Return the stock on each face of an outside dimension machined on both sides [mm]: RMA + CT/4.

    Arguments as `stock_one_side`; `finished_mm` is the width or length across both faces.
    """
    rma = machining_allowance(largest_mm, grade_letter)
    return raw_dimension(finished_mm, "outside two sides", rma, grade).stock_mm
