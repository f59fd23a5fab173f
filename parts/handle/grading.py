"""Grade arithmetic: clear units a grade asks of a board, in how many cuttings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from parts.handle.lumber import MM_PER_FT, surface_measure
from shared.errors import Fault, InputError, RequestError
from shared.tables import table
from shared.units import MM_PER_IN, to_inch

GRADE_SOURCE = "NHLA grade chart as reproduced by a hardwood distributor"
_ALIASES = {
    "fas": "FAS",
    "f1f": "F1F",
    "fas1f": "F1F",
    "fasoneface": "F1F",
    "selects": "Selects",
    "select": "Selects",
    "sel": "Selects",
    "no1common": "No1_Common",
    "1common": "No1_Common",
    "1c": "No1_Common",
    "no1c": "No1_Common",
    "no2acommon": "No2A_Common",
    "no2common": "No2A_Common",
    "2acommon": "No2A_Common",
    "2common": "No2A_Common",
    "2a": "No2A_Common",
    "2ac": "No2A_Common",
    "2c": "No2A_Common",
    "no3acommon": "No3A_Common",
    "3acommon": "No3A_Common",
    "3a": "No3A_Common",
    "3ac": "No3A_Common",
    "no3bcommon": "No3B_Common",
    "3bcommon": "No3B_Common",
    "3b": "No3B_Common",
    "3bc": "No3B_Common",
}
GRADES = ("FAS", "F1F", "Selects", "No1_Common", "No2A_Common", "No3A_Common", "No3B_Common")
_ORDER = ("FAS", "No1_Common", "No2A_Common", "No3A_Common")


@dataclass(frozen=True)
class GradeNeed:
    """What a grade asks of the face that decides. Units are 1 inch by 1 foot."""

    grade: str
    face_rule: str  # grade whose numbers the deciding (poor) face must meet
    surface_measure: int
    clear_units: float
    cuttings: int | None  # None: any number
    extra_cutting_units: float | None  # units that allow one cutting more
    min_cuttings_in_ft: list[list[float]]
    note: str


def read_grade(text: str, where: str = "command line", key: str = "--grade") -> str:
    """Return the table's id of a grade as people write it ("FAS", "No. 1 Common", "1C", "2A Common").

    Raises:
        InputError: not a grade.
    """
    plain = "".join(ch for ch in text.lower() if ch.isalnum())
    if plain not in _ALIASES:
        raise InputError(Fault(where, key, repr(text), ", ".join(g.replace("_", " ") for g in GRADES)))
    return _ALIASES[plain]


def grade_name(grade: str) -> str:
    """Return a grade's id as the trade writes it: "No. 1 Common" for "No1_Common"."""
    text = grade.replace("_", " ")
    return f"No. {text[2:]}" if text[:2] == "No" else text


def _row(grade: str) -> dict[str, Any]:
    return dict(table("wood")["grades"][grade])


def clear_share(grade: str) -> float:
    """Return the least share of clear face [-] that a grade promises on its poor face."""
    row = _row(grade)
    if "poor_face" in row:
        row = _row(row["poor_face"])
    return row["clear"][0] / row["clear"][1]


def _need(grade: str, sm: int) -> tuple[float, int | None, float | None]:
    row = _row(grade)
    per_ft = row["units_per_sm"]
    small = row.get("small", {})
    per_ft = small.get(str(sm), per_ft)
    if "cuttings" not in row:
        return per_ft * sm, None, None
    add, divide = row["cuttings"]
    cuttings = max(1, min((sm + add) // divide, row["max_cuttings"]))
    extra = row["extra"]
    more = extra["units_per_sm"] * sm if extra["sm"][0] <= sm <= extra["sm"][1] else None
    return per_ft * sm, cuttings, more


def need(grade: str, width_mm: float, length_mm: float) -> GradeNeed:
    """Return what a grade asks of a board.

    Args:
        grade: as people write it.
        width_mm: board width [mm].
        length_mm: board length [mm], dropped to whole feet.

    Raises:
        InputError: not a grade.
        RequestError: the board is smaller than the grade admits.

    Source: NHLA grade chart.
    """
    grade = read_grade(grade)
    row = _row(grade)
    min_w, min_l = row["min_board"]
    if width_mm < min_w * MM_PER_IN - 1e-6 or length_mm < min_l * MM_PER_FT - 1e-6:
        raise RequestError(
            f"grade: {grade.replace('_', ' ')} admits boards of {min_w} in by {min_l} ft and larger; "
            f"read {to_inch(width_mm):.4g} in by {length_mm / MM_PER_FT:.4g} ft"
        )
    sm = surface_measure(width_mm, length_mm)
    face = row.get("poor_face", grade)
    units, cuttings, more = _need(face, sm)
    note = ""
    if "better_face" in row:
        better = _need(row["better_face"], sm)[0]
        note = f"poor face as {face.replace('_', ' ')}; better face as {row['better_face']}: {better:g} units"
        if "small_note" in row and sm <= 3:
            note = f"poor face as {face.replace('_', ' ')}; {row['small_note']}"
    if "min_cutting_note" in row:
        note = str(row["min_cutting_note"])
    return GradeNeed(grade, face, sm, units, cuttings, more, _row(face).get("min_cuttings", []), note)


def grade_board(width_mm: float, length_mm: float, cuttings_in_ft: Sequence[tuple[float, float]]) -> str:
    """Return the highest grade whose numbers a set of clear cuttings on the poor face meets.

    Args:
        width_mm: board width [mm].
        length_mm: board length [mm].
        cuttings_in_ft: clear cuttings on the poor face, width [in] and length [ft]; none overlap.

    Returns:
        Grade id, or "below grade". Limits on pith, wane, splits and knots are the grader's to judge.
    """
    for grade in _ORDER:
        row = _row(grade)
        if width_mm < row["min_board"][0] * MM_PER_IN - 1e-6 or length_mm < row["min_board"][1] * MM_PER_FT - 1e-6:
            continue
        sm = surface_measure(width_mm, length_mm)
        units, allowed, more = _need(grade, sm)
        least = row["min_cuttings"]
        good = sorted(
            (w * le for w, le in cuttings_in_ft if any(w >= mw and le >= ml for mw, ml in least)), reverse=True
        )
        if allowed is None or sum(good[:allowed]) >= units - 1e-9:
            if sum(good) >= units - 1e-9:
                return grade
        elif more is not None and sum(good[: allowed + 1]) >= more - 1e-9:
            return grade
    return "below grade"
