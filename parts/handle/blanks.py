"""Blanks: rough sizes of tote and knob from their finished size and the shop's allowances."""

from __future__ import annotations

import math
from collections.abc import Sequence

from parts.handle.lumber import Thickness, exact_board_feet, thickness_to_buy
from shared.record import Record

Point = tuple[float, float]
# the shortest piece that goes through a table saw or a thickness planer [mm]; common practice, no source
LEAST_AT_MACHINE_MM = 300.0


class WoodPractice(Record):
    """What a woodshop does. Lengths [mm], angles [deg], times [s]; common practice, no source, unless said."""

    kerf_rip_mm: float = 3.2  # full-kerf table saw, from memory
    kerf_crosscut_mm: float = 3.2
    kerf_bandsaw_mm: float = 0.8  # narrow band for curves, from memory
    planing_per_face_mm: float = 1.6
    bandsaw_allowance_mm: float = 1.5  # left outside the line all round for shaping
    end_trim_mm: float = 25.0  # off each end of a board, for checks and grit; woodworking articles
    edge_clearance_mm: float = 1.6  # jointed off each edge, from memory
    defect_clearance_mm: float = 3.0
    turning_allowance_mm: float = 1.5  # outside the knob's greatest radius
    knob_end_allowance_mm: float = 3.0  # each end of the knob blank, to face and to drill
    grain_tolerance_deg: float = 3.0  # a piece may be turned this far off the board's length
    cut_step_mm: float = 0.5  # finest setting of stop and fence
    keep_length_mm: float = 300.0  # shorter offcuts are not put back on the rack
    keep_width_mm: float = 60.0  # narrower ones neither
    least_machine_mm: float = LEAST_AT_MACHINE_MM  # shorter pieces go to the bandsaw and the hand plane
    match_sets: bool = True  # tote and knob of one plane from one board where possible
    crosscut_s: float = 25.0
    rip_setup_s: float = 45.0
    rip_s_per_m: float = 12.0
    bandsaw_s_per_m: float = 90.0
    bandsaw_setup_s: float = 15.0  # a piece laid out and started

    def __post_init__(self) -> None:
        """Refuse a practice that cannot be sawn."""
        bad = [n for n, v in vars(self).items() if not isinstance(v, bool) and (not math.isfinite(v) or v < 0)]
        if bad or self.cut_step_mm <= 0:
            from shared.errors import Fault, InputError

            names = bad or ["cut_step_mm"]
            raise InputError([Fault("wood practice", n, f"{getattr(self, n)}", "0 or more, finite") for n in names])


class Blank(Record):
    """A rough blank: along the grain x across the grain x thickness [mm], with the outline to saw from it, if any.

    The outline's points stand in the blank's own frame: x along the grain, origin at the lower-left corner.
    """

    name: str
    length_mm: float
    width_mm: float
    thickness_mm: float
    outline: tuple[Point, ...] = ()

    @property
    def buy(self) -> Thickness:
        """Lumber thickness to buy, kiln-dried scant counted."""
        return thickness_to_buy(self.thickness_mm)

    @property
    def board_feet(self) -> float:
        """Footage of the rectangle at the thickness to buy [bf]."""
        return exact_board_feet(self.length_mm, self.width_mm, self.buy.nominal_mm)


def rotated(points: Sequence[Point], deg: float) -> list[Point]:
    """Return points turned about the origin by an angle [deg, counterclockwise]; lengths keep their unit."""
    c, s = math.cos(math.radians(deg)), math.sin(math.radians(deg))
    return [(x * c - y * s, x * s + y * c) for x, y in points]


def tote_blank(side_view: Sequence[Point], thickness_mm: float, grain_deg: float, practice: WoodPractice) -> Blank:
    """Return the tote's blank.

    Args:
        side_view: outline of the tote in the side view (x aft, z up) [mm], at least 3 points.
        thickness_mm: finished greatest thickness across the tote [mm].
        grain_deg: direction of the fibres in the side view [deg from the sole, x toward z].
        practice: the shop's allowances.
    """
    turned = rotated(side_view, -grain_deg)
    a = practice.bandsaw_allowance_mm
    left, low = min(x for x, _ in turned) - a, min(y for _, y in turned) - a
    length = max(x for x, _ in turned) + a - left
    width = max(y for _, y in turned) + a - low
    points = tuple((x - left, y - low) for x, y in turned)
    return Blank("tote", length, width, thickness_mm + 2 * practice.planing_per_face_mm, points)


def tote_blank_from_envelope(
    length_mm: float, height_mm: float, thickness_mm: float, practice: WoodPractice, grain_deg: float = 0.0
) -> Blank:
    """Return the tote's blank when only its box is known: length and height of the side view, thickness [mm]."""
    box = [(0.0, 0.0), (length_mm, 0.0), (length_mm, height_mm), (0.0, height_mm)]
    blank = tote_blank(box, thickness_mm, grain_deg, practice)
    return Blank(blank.name, blank.length_mm, blank.width_mm, blank.thickness_mm)


def knob_blank(diameter_mm: float, height_mm: float, practice: WoodPractice) -> Blank:
    """Return the knob's blank, grain along the turning axis: a square stick of the knob's height and ends.

    Args:
        diameter_mm: greatest finished diameter [mm].
        height_mm: finished height [mm].
        practice: the shop's allowances.
    """
    side = diameter_mm + 2 * practice.turning_allowance_mm
    return Blank("knob", height_mm + 2 * practice.knob_end_allowance_mm, side, side)
