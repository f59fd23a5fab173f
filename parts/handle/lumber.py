"""Hardwood lumber measure: nominal thickness, kiln-dried scant, surface measure and board feet by the trade's rules."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache

from shared.errors import Fault, InputError
from shared.record import Record
from shared.tables import table
from shared.units import MM_PER_IN, split_number, to_inch

MEASURE_SOURCE = "NHLA Rules, measurement of hardwood lumber, as quoted"
MM_PER_FT = 12 * MM_PER_IN


class Thickness(Record):
    """One nominal rough thickness and what is left of it [mm]."""

    name: str  # in quarters, such as 5/4
    nominal_mm: float
    surfaced_mm: float  # surfaced two sides
    kiln_dried_mm: float  # thinnest a kiln-dried rough board may be


@cache
def thicknesses() -> tuple[Thickness, ...]:
    """Return the standard thicknesses, thinnest first."""
    facts = table("wood")
    out = []
    for rough, surfaced in zip(facts["thickness"]["rough"], facts["thickness"]["surfaced"], strict=True):
        inch = split_number(rough)[0]
        name = f"{inch * 4:g}/4" if inch >= 1 else rough
        out.append(
            Thickness(
                name, inch * MM_PER_IN, split_number(surfaced)[0] * MM_PER_IN, kiln_dried_least_mm(inch * MM_PER_IN)
            )
        )
    return tuple(out)


def kiln_dried_least_mm(nominal_mm: float) -> float:
    """Return the thinnest a kiln-dried rough board of a nominal thickness [mm] may be [mm].

    Source: NHLA Rules 2023, p. 56: 1/16 in scant up to 1-3/4 in, 1/8 in from 2 in.
    """
    facts = table("wood")["kiln_dried"]
    inch = to_inch(nominal_mm)
    scant = facts["thickness_from_2"] if inch >= 2 - 1e-9 else facts["thickness_up_to_1_3_4"]
    return (inch - scant) * MM_PER_IN


def usable_thickness_mm(thickness_mm: float) -> float:
    """Return the thickness [mm] to count on in a rough board whose thickness on the rack list is given [mm].

    A standard nominal thickness from 4/4 up may be scant by the kiln-dried rule; any other figure is taken as measured.
    """
    for t in thicknesses():
        if t.nominal_mm >= MM_PER_IN - 1e-9 and abs(t.nominal_mm - thickness_mm) < 0.05:
            return t.kiln_dried_mm
    return thickness_mm


def thickness_to_buy(needed_mm: float) -> Thickness:
    """Return the thinnest standard thickness, 4/4 and up, whose kiln-dried least still holds a rough need [mm].

    Raises:
        InputError: thicker than the thickest standard lumber.
    """
    for t in thicknesses():
        if t.nominal_mm >= MM_PER_IN - 1e-9 and t.kiln_dried_mm >= needed_mm - 1e-6:
            return t
    thick = thicknesses()[-1]
    raise InputError(
        Fault(
            "lumber", "thickness needed", f"{needed_mm:.1f} mm", f"at most {thick.kiln_dried_mm:.1f} mm ({thick.name})"
        )
    )


def standard_length_ft(length_mm: float) -> int:
    """Return the length [mm] in whole feet, dropped, never raised."""
    return math.floor(length_mm / MM_PER_FT + 1e-6)


def exact_surface_ft2(width_mm: float, length_mm: float) -> float:
    """Return width [mm] by dropped standard length [mm] in square feet, before rounding."""
    return to_inch(width_mm) * standard_length_ft(length_mm) / 12


def tally(boards: Sequence[tuple[float, float]]) -> list[int]:
    """Return the surface measure [ft2, whole] of each board of a tally.

    An exact half is alternately raised and dropped from board to board, the first one raised.

    Args:
        boards: width and length of each [mm].

    Source: NHLA Rules, measurement.
    """
    raise_next = True
    out = []
    for width, length in boards:
        exact = exact_surface_ft2(width, length)
        low = math.floor(exact + 1e-9)
        rest = exact - low
        if abs(rest - 0.5) < 1e-6:
            out.append(low + (1 if raise_next else 0))
            raise_next = not raise_next
        else:
            out.append(low + (1 if rest > 0.5 else 0))
    return out


def surface_measure(width_mm: float, length_mm: float) -> int:
    """Return the surface measure [ft2, whole] of one board by width and length [mm]."""
    return tally([(width_mm, length_mm)])[0]


def board_feet(surface: float, nominal_thickness_mm: float) -> float:
    """Return board feet of a surface measure [ft2] at a nominal thickness [mm]; under 1 inch counts as 1 inch."""
    least = table("wood")["measure"]["least_counted_thickness_in"]
    return surface * max(least, to_inch(nominal_thickness_mm))


def exact_board_feet(length_mm: float, width_mm: float, nominal_thickness_mm: float) -> float:
    """Return the board feet of a piece [mm] as plain volume, without the rounding of the trade (1 bf = 144 in3)."""
    least = table("wood")["measure"]["least_counted_thickness_in"]
    return to_inch(length_mm) * to_inch(width_mm) * max(least, to_inch(nominal_thickness_mm)) / 144


def net_tally(gross_bf: float, shrink_percent: float | None = None) -> float:
    """Return the footage after drying [bf] of a gross, green footage [bf]; 7 % is the usual loss."""
    percent = table("wood")["tally"]["shrink_percent"] if shrink_percent is None else shrink_percent
    return gross_bf * (1 - percent / 100)
