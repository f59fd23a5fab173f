"""One line of the pattern maker's list: from a finished size to the pattern's and the master's."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from shared.casting.allowance import Kind, dimension_tolerance, raw_dimension, wall_grade
from shared.casting.contraction import Contraction
from shared.casting.draft import draft_offset
from shared.units import inch_fraction, to_inch

KINDS = (
    "outside one side",
    "outside two sides",
    "inside one side",
    "inside two sides",
    "as cast",
    "inside as cast",
    "wall",
)


@dataclass(frozen=True)
class PatternRow:
    """One feature through its stages, all lengths in mm.

    `casting_mm` is the size at the parting end of the draw and `casting_far_mm` at the other; draft always adds metal,
    so an outside is largest, and a pocket widest, at the parting.
    """

    feature: str
    axis: str  # x, y, z, or n for a size along no fixed axis, such as a radius
    kind: str
    finished_mm: float
    allowance_mm: float  # all stock added to (outside) or taken from (inside) this size; of a radius it may be below 0
    tolerance_mm: float  # total casting tolerance at the raw size
    grade: int  # that it goes by [-]
    draft_mm: float  # added over the whole draw, all drafted sides together
    casting_mm: float
    casting_far_mm: float
    contraction: float
    pattern_mm: float
    pattern_far_mm: float
    master_mm: float | None
    master_contraction: float | None
    denominator: int

    @property
    def shrink_rule_in(self) -> str:
        """Casting size as an inch fraction: what the pattern maker reads off the shrink rule; "~" if not exact."""
        return inch_fraction(self.casting_mm, self.denominator)

    @property
    def shrink_rule_mm(self) -> str:
        """Casting size as it is read off a shrink rule in mm: to the nearest half; "~" if not exact."""
        near = round(2 * self.casting_mm) / 2
        return f"{'' if abs(near - self.casting_mm) < 5e-4 else '~'}{near:.1f}"

    def shrink_rule(self, unit: str) -> str:
        """Return the casting size as it is read off a shrink rule in "inch" or "mm", without the unit."""
        return self.shrink_rule_in if unit == "inch" else self.shrink_rule_mm

    @property
    def pattern_in(self) -> float:
        """Pattern size by a plain rule [in]."""
        return to_inch(self.pattern_mm)

    @property
    def working_mm(self) -> float:
        """Size that the pattern maker cuts [mm]: the master's where there is one, else the pattern's."""
        return self.pattern_mm if self.master_mm is None else self.master_mm

    def as_json(self) -> dict[str, Any]:
        """Return the row for JSON; the master's size only where there is one."""
        row: dict[str, Any] = {
            "feature": self.feature,
            "axis": self.axis,
            "kind": self.kind,
            "finished_mm": self.finished_mm,
            "allowance_mm": self.allowance_mm,
            "tolerance_mm": self.tolerance_mm,
            "draft_mm": self.draft_mm,
            "casting_mm": self.casting_mm,
            "casting_far_mm": self.casting_far_mm,
            "contraction": self.contraction,
            "pattern_mm": self.pattern_mm,
            "pattern_far_mm": self.pattern_far_mm,
            "pattern_in": round(self.pattern_in, 4),
            "shrink_rule_in": self.shrink_rule_in,
            "shrink_rule_mm": self.shrink_rule_mm,
        }
        if self.master_mm is not None:
            row["master_mm"] = self.master_mm
            row["master_in"] = round(to_inch(self.master_mm), 4)
        return row


def pattern_row(
    feature: str,
    axis: str,
    kind: str,
    finished_mm: float,
    *,
    allowance_mm: float,
    grade: int,
    contraction: Contraction,
    master: Contraction | None = None,
    draw_height_mm: float = 0.0,
    draft_deg: float = 0.0,
    drafted_sides: int = 0,
    rapping_mm: float = 0.0,
    denominator: int = 64,
    stock_mm: float | None = None,
) -> PatternRow:
    """Make one row from a finished size.

    Args:
        feature: name of the size.
        axis: "x", "y", "z" or "n".
        kind: one of `KINDS`; "wall" takes the tolerance one grade coarser.
        finished_mm: finished size [mm].
        allowance_mm: required machining allowance of a face of this casting [mm].
        grade: casting tolerance grade [-].
        contraction: of the cast alloy.
        master: of the pattern metal when the working pattern is cast, else None.
        draw_height_mm: height of the drafted walls along the draw [mm].
        draft_deg: their draft [deg].
        drafted_sides: how many of the two ends of the size are drafted walls [-], 0, 1 or 2.
        rapping_mm: taken off the pattern along and across, never in height [mm].
        denominator: smallest division of the shrink rule [-].
        stock_mm: stock of each machined face already settled elsewhere [mm], so that list and model agree; default by
            ISO 8062.

    Raises:
        ValueError: an unknown kind, or a number of drafted sides that is not 0, 1 or 2.
        InputError, RequestError: as `raw_dimension`.
    """
    if kind not in KINDS:
        raise ValueError(f"kind is one of {', '.join(KINDS)}, not {kind!r}")
    if drafted_sides not in (0, 1, 2):
        raise ValueError(f"drafted_sides is 0, 1 or 2, not {drafted_sides}")
    inside = kind.startswith("inside")
    if kind in ("as cast", "inside as cast", "wall"):
        grade = wall_grade(grade) if kind == "wall" else grade
        raw, tolerance = finished_mm, dimension_tolerance(finished_mm, grade)
    elif stock_mm is not None:
        faces = 2 if kind.endswith("two sides") else 1
        raw = finished_mm + (-1 if inside else 1) * faces * stock_mm
        tolerance = dimension_tolerance(raw, grade)
    else:
        iso_kind: Kind = kind  # type: ignore[assignment]
        iso = raw_dimension(finished_mm, iso_kind, allowance_mm, grade)
        raw, tolerance = iso.raw_mm, iso.tolerance_mm
    draft = drafted_sides * draft_offset(draw_height_mm, draft_deg)
    near, far = (raw, raw - draft) if inside else (raw + draft, raw)
    s = contraction.along(axis)
    rap = rapping_mm if axis in ("x", "y") else 0.0
    # rapping enlarges the mould all round, so a pocket's pattern core is cut larger, an outside smaller
    rap = -rap if inside else rap
    m = None if master is None else master.along(axis)
    pattern = near * (1.0 + s) - rap
    return PatternRow(
        feature=feature,
        axis=axis,
        kind=kind,
        finished_mm=finished_mm,
        allowance_mm=finished_mm - raw if inside else raw - finished_mm,
        tolerance_mm=tolerance,
        grade=grade,
        draft_mm=draft,
        casting_mm=near,
        casting_far_mm=far,
        contraction=s,
        pattern_mm=pattern,
        pattern_far_mm=far * (1.0 + s) - rap,
        master_mm=None if m is None else pattern * (1.0 + m),
        master_contraction=m,
        denominator=denominator,
    )
