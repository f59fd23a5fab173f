"""Rows of the inspection sheet: what is measured on the metal parts. Limits come from where the parts' sheets read."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from parts.blade.bedding_numbers import (
    BED_ANGLE_TOL_DEG,
    BED_POSITION_TOL_MM,
    FRONT_TOL_MM,
    MOUTH_SET_TOL_MM,
    set_deviations,
)
from parts.blade.limits import ANGLE_TOL_DEG, CAMBER_TOL_MM, LENGTH_TOL_MM, THICKNESS_TOL_MM, WIDTH_CLASS
from parts.body.low_angle.block import throat
from parts.body.low_angle.size import LowBodySize, ToeWay
from parts.body.outline import mouth_at
from parts.plane.practice import wall_grade
from parts.plane.sheets.common import FLAT
from parts.plane.sheets.metal import FLAT_BED, SEAT_HEIGHT_TOL, SEAT_STEP_TOL, angle_zone, size_text
from parts.plane.sheets.shapes import limits_mm
from shared.casting.allowance import dimension_tolerance
from shared.drawing.dimtext import limits
from shared.drawing.fit_text import gauged
from shared.fits import general_linear

if TYPE_CHECKING:
    from parts.plane.bench.design import BenchDesign
    from parts.plane.run import Run

SHUT = 0.01  # mm: no feeler gauge goes into a lesser mouth
SETBACK_TOL = 0.1  # mm: as a user sets it by eye
Row = list[str]


def plain(label: str, nominal: str, within: str, instrument: str) -> Row:
    """Return a row with room for reading and initials."""
    return [label, nominal, within, instrument, "", ""]


def sized(label: str, mm: float, off: tuple[float, float], instrument: str, first: str,
          least: dict[str, int] | None = None) -> Row:  # fmt: skip
    """Return the row of a length.

    Args:
        label: what is measured.
        mm: nominal [mm].
        off: upper and lower deviation [mm].
        instrument: what with.
        first: unit that stands first.
        least: decimals at least, by unit; default: a dimension's.
    """
    size, span = limits(mm, off, first, least)
    return plain(label, size, span, instrument)


def at_most(label: str, mm: float, instrument: str, first: str) -> Row:
    """Return the row of a deviation that has a greatest value only [mm]; arguments as `sized`."""
    return plain(label, "0", f"at most {size_text(mm, first, (4, 3))}", instrument)


def angle(label: str, degrees: float, tol: float, instrument: str) -> Row:
    """Return the row of an angle and its plus-minus tolerance [deg]."""
    return plain(label, f"{degrees:g}°", f"{degrees - tol:g}° to {degrees + tol:g}°", instrument)


def _cast(whole: float) -> tuple[float, float]:
    """Return the limits of a size from a machined face to one that stays as cast; `whole` is its tolerance [mm]."""
    return whole / 2, -whole / 2


def _general(mm: float) -> tuple[float, float]:
    off = general_linear(mm, "m")
    return off, -off


def has_toe_piece(run: Run) -> bool:
    """Return whether a toe piece sets the mouth; its pocket is the mouth then, and stands among the fits."""
    return run.design.orientation == "bevel-up" and run.design.body.toe_way is not None


def body_rows(run: Run) -> list[Row]:
    """Return the rows of the finished body."""
    d, first = run.design, run.design.spec.units
    b, grade = d.body, d.shop.casting.tolerance_grade
    rows = [
        at_most("sole flat (minimum zone)", FLAT, "plate, indicator", first),
        at_most("each cheek flat", FLAT, "plate, indicator", first),
        at_most("each cheek square to sole", FLAT, "square, indicator", first),
        sized("length", b.heel_x - b.toe_x, _general(b.heel_x - b.toe_x), "caliper", first),
        sized("width", b.width, _general(b.width), "micrometer", first),
        # by the size as cast: what the foundry is held to
        sized("cheek height", b.cheek_height, _cast(dimension_tolerance(b.cheek_height + b.cast.sole, grade)),
              "caliper", first),
        sized("sole thickness", b.sole, _cast(dimension_tolerance(b.sole + b.cast.sole, wall_grade(d.shop))),
              "height gauge", first),
    ]  # fmt: skip
    if d.orientation == "bevel-up":
        return [*rows, at_most("bed flat, lands in one plane", FLAT_BED, "straightedge, feeler", first)]
    seat = mouth_at(b, b.low_pad.z)[1]
    pad, rise = (SEAT_HEIGHT_TOL, -SEAT_HEIGHT_TOL), (SEAT_STEP_TOL, -SEAT_STEP_TOL)
    return [
        *rows,
        sized("high pad above the sole", b.high_pad.z, pad, "height gauge", first),
        sized("step, low pad to high pad", b.high_pad.z - b.low_pad.z, rise, "height gauge", first),
        at_most("both pads parallel to the sole", angle_zone(b.high_pad.x1 - seat), "indicator", first),
    ]


def frog_rows(run: Run) -> list[Row]:
    """Return the rows of a bench plane's frog; none for a bed that is part of the body."""
    if run.design.orientation == "bevel-up":
        return []
    d, first = cast("BenchDesign", run.design), run.design.spec.units
    f = d.mechanism.frog
    step = (SEAT_STEP_TOL, -SEAT_STEP_TOL)
    return [
        at_most("bed flat, lands in one plane", FLAT_BED, "straightedge, feeler", first),
        at_most("bed's slope to high seat", angle_zone(f.bed_top - f.bed_foot),
                "sine bar, indicator", first),
        sized("step, low seat to high seat", f.high_z - f.low_z, step, "height gauge", first),
        at_most("low seat parallel to high", SEAT_STEP_TOL, "indicator", first),
    ]  # fmt: skip


def mouth_rows(run: Run) -> list[Row]:
    """Return the rows of bed and mouth."""
    d, first, n = run.design, run.design.spec.units, run.numbers["bedding"]
    rows = [angle("bed angle to the sole", d.spec.bed.angle, BED_ANGLE_TOL_DEG, "sine bar, indicator")]
    place, front = (BED_POSITION_TOL_MM, -BED_POSITION_TOL_MM), (FRONT_TOL_MM, -FRONT_TOL_MM)
    if d.orientation == "bevel-up":
        b = cast(LowBodySize, d.body)
        rows.append(sized("toe to the bed's lower end", b.bed_from - b.toe_x, place, "height gauge", first))
        if b.toe_way is None:
            wall = throat(b, 0.0)
            rows.append(sized("mouth's front wall to bed", b.bed_from - wall, front, "caliper", first))
    else:
        (fore, aft), step = mouth_at(d.body, 0.0), d.body.high_pad.x0
        rows.append(sized("mouth along the sole", aft - fore, front, "caliper", first))
        rows.append(sized("aft wall to the pads' step", step - aft, place, "height gauge", first))
    if not has_toe_piece(run):
        across, low, high = 2 * d.body.mouth_half_width, *(n.value(f"mouth_across_{x}_mm") for x in ("low", "high"))
        off = round(float(high) - across, 6), round(float(low) - across, 6)
        rows.append(sized("mouth across", across, off, "gauge blocks", first))
    return [*rows, *_opening(run)]


def _opening(run: Run) -> list[Row]:
    """Return the rows of the mouth's opening: set by the frog or the toe piece, or fixed by the body alone."""
    d, first, opening = run.design, run.design.spec.units, run.design.spec.body.mouth_opening
    way: ToeWay | None = d.body.toe_way if has_toe_piece(run) else None
    if d.orientation == "bevel-up" and way is None:
        worst = float(run.numbers["bedding"].value("mouth_opening_worst_mm"))
        off = worst, -min(worst, opening / 2)
        return [sized("mouth opening, fixed", opening, off, "feeler gauges", first)]
    rows = [sized("mouth opening, as set", opening, set_deviations(opening), "feeler gauges", first)]
    if way is None:
        return rows
    least, most = size_text(way.opening_least, first), size_text(way.opening_most, first)
    return [
        *rows,
        plain("toe piece right aft: mouth", least, f"{least} or less", "feeler gauges")
        if way.opening_least > SHUT
        else plain("toe piece right aft: mouth", "shut", "shut; draw the blade back first", "eye"),
        plain("toe piece right ahead: mouth", most, f"{most} or more", "feeler gauges"),
        plain("toe piece's travel", size_text(way.travel, first), f"{size_text(way.travel, first)} or more", "caliper"),
        at_most("toe piece flush with sole", FLAT, "indicator", first),
        plain("its aft edge to the blade's", "0", f"parallel within {size_text(MOUTH_SET_TOL_MM, first, (4, 3))}",
              "feeler gauges"),
    ]  # fmt: skip


def blade_rows(run: Run) -> list[Row]:
    """Return the rows of blade and chipbreaker."""
    d, first, n = run.design, run.design.spec.units, run.numbers["blade"]
    b = d.blade
    low, high = n.value("expected_low_hrc"), n.value("expected_high_hrc")
    rows = [
        plain("hardness", f"{d.spec.blade.hardness:g} HRC", f"{low:g} to {high:g} HRC", "Rockwell C, 3 times"),
        sized("thickness", b.thickness, (THICKNESS_TOL_MM, -THICKNESS_TOL_MM), "micrometer", first),
        sized("width", b.width, limits_mm(b.width, WIDTH_CLASS), "micrometer", first),
        sized("length, new", b.length, (LENGTH_TOL_MM, -LENGTH_TOL_MM), "caliper", first),
        angle("bevel, ground", b.bevel, ANGLE_TOL_DEG, "protractor"),
    ]
    if b.micro_bevel is not None:
        rows.append(angle("micro-bevel", b.micro_bevel, ANGLE_TOL_DEG, "protractor"))
    camber = float(n.value("camber_on_blade_mm"))
    off = (CAMBER_TOL_MM, -min(camber, CAMBER_TOL_MM))
    rows.append(sized("camber in the blade's face", camber, off, "straightedge, feeler", first))
    if "chipbreaker" in run.numbers:
        back = float(run.numbers["chipbreaker"].value("setback_mm"))
        off = (SETBACK_TOL, -min(back, SETBACK_TOL))
        rows.append(sized("chipbreaker behind edge", back, off, "loupe, scale", first))
        rows.append(plain("light under chipbreaker", "none", "none along the width", "held to the light"))
    return rows


def fit_rows(run: Run) -> list[Row]:
    """Return one row a hole and one a pin, however many fits it has a part in; bought threads are not gauged."""
    found = run.numbers["bedding"].value("pin_fits") if "pin_fits" in run.numbers["bedding"] else []
    rows: dict[str, Row] = {}
    for pair in found if isinstance(found, list) else []:
        for side in ("hole", "pin"):
            name, size, span = gauged(cast("dict[str, object]", pair), side, run.design.spec.units)
            if span:
                wide = float(cast("dict[str, float]", pair)[f"{side}_size_mm"]) > 9.0
                by = "micrometer" if side == "pin" else "gauge blocks" if wide else "plug gauge"
                rows.setdefault(name, plain(name, size, span, by))
    return list(rows.values())
