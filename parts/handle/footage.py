"""Footage and expected count by grade, for when there is no rack to look at, or it falls short."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from parts.handle.blanks import Blank, WoodPractice
from parts.handle.grading import clear_share, grade_name
from parts.handle.lumber import MM_PER_FT, exact_board_feet
from parts.handle.wood import wood_label
from shared.units import MM_PER_IN

BOUGHT_GRADES = ("FAS", "Selects", "No1_Common", "No2A_Common")
_TYPICAL_CUTTING_IN_FT = {"FAS": (6.0, 7.0), "Selects": (4.0, 5.0), "No1_Common": (4.0, 3.0), "No2A_Common": (3.0, 2.0)}


@dataclass(frozen=True)
class GradeFootage:
    """What one grade gives of one blank, and what to buy of it."""

    blank: str
    grade: str
    thickness: str
    clear_share: float
    fill: float  # share of a clear cutting that blanks fill, kerf counted
    per_100_bf: float  # blanks expected from 100 board feet
    needed_bf: float  # for the asked quantity, spare for scrap not counted

    def as_json(self) -> dict[str, Any]:
        """Return plain data."""
        return {
            "blank": self.blank,
            "grade": self.grade.replace("_", " "),
            "thickness": self.thickness,
            "clear_percent": round(100 * self.clear_share, 1),
            "fill_percent": round(100 * self.fill, 1),
            "blanks_per_100_bf": round(self.per_100_bf, 1),
            "needed_bf": math.ceil(self.needed_bf * 10) / 10,
        }


def _fill(blank: Blank, width_mm: float, length_mm: float, practice: WoodPractice) -> float:
    """Return the share of a clear cutting [mm] that rows of one blank fill; 0 when it does not go in."""
    along = math.floor((length_mm + practice.kerf_crosscut_mm) / (blank.length_mm + practice.kerf_crosscut_mm) + 1e-9)
    across = math.floor((width_mm + practice.kerf_rip_mm) / (blank.width_mm + practice.kerf_rip_mm) + 1e-9)
    return along * across * blank.length_mm * blank.width_mm / (width_mm * length_mm)


def grade_footage(blank: Blank, grade: str, quantity: int, practice: WoodPractice) -> GradeFootage:
    """Return what a grade gives of a blank.

    The cutting taken is the least the grade admits for most of its clear face; where the blank is wider than that, one
    just wide enough, since only such boards would be bought. Expected, not promised: boards differ.

    Args:
        blank: the blank.
        grade: grade id of the table.
        quantity: blanks wanted.
        practice: the shop's kerfs.
    """
    width_in, length_ft = _TYPICAL_CUTTING_IN_FT[grade]
    width = max(width_in * MM_PER_IN, blank.width_mm)
    fill = _fill(blank, width, max(length_ft * MM_PER_FT, blank.length_mm), practice)
    share = clear_share(grade)
    each = exact_board_feet(blank.length_mm, blank.width_mm, blank.buy.nominal_mm)
    per_100 = 100 * share * fill / each
    return GradeFootage(blank.name, grade, blank.buy.name, share, fill, per_100, quantity * each / (share * fill))


def footage(blanks: Sequence[Blank], quantity: int, practice: WoodPractice) -> list[GradeFootage]:
    """Return the footage of each blank in each grade sold, for a number of sets."""
    return [grade_footage(b, g, quantity, practice) for b in blanks for g in BOUGHT_GRADES]


def to_buy(blanks: Sequence[Blank], species: str, quantity: int, practice: WoodPractice) -> list[str]:
    """Return lines saying what to buy for a number of sets, one a thickness and grade of FAS and No.1 Common."""
    lines = []
    for grade in ("FAS", "No1_Common"):
        by_thickness: dict[str, float] = {}
        for blank in blanks:
            one = grade_footage(blank, grade, quantity, practice)
            by_thickness[one.thickness] = by_thickness.get(one.thickness, 0.0) + one.needed_bf
        amounts = " and ".join(f"{math.ceil(bf)} board feet of {t}" for t, bf in by_thickness.items())
        lines.append(f"{amounts} {wood_label(species)}, {grade_name(grade)}")
    return lines
