"""Quantities as the shop's papers write them: "1976 °F [1080 °C]", the spec's own unit first, the other behind it.

`first` is everywhere "inch" (in, lb, °F lead) or "mm" (mm, kg, °C lead).
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal

from shared.units import FORCE, G_PER_LB, MM_PER_IN

L_PER_GALLON = 3.785411784  # US gallon, by definition
FT_PER_M = 1000.0 / (12.0 * MM_PER_IN)
N_PER_LBF = float(FORCE.units["lbf"])  # type: ignore[arg-type]  # a plain factor


def ordered(inch: str, metric: str, first: str) -> str:
    """Return two texts of one quantity with the spec's own first."""
    return f"{inch} [{metric}]" if first == "inch" else f"{metric} [{inch}]"


def number(value: float, places: int) -> str:
    """Return a number with a fixed count of decimals and no minus zero.

    Rounded as it is written in decimals, a half away from nothing: 41.275 is 41.28, however a computer holds it.
    """
    text = str(Decimal(repr(round(value, 9))).quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP))
    return text[1:] if text.startswith("-") and not text.strip("-0.") else text


def lengths(mm: Sequence[float], first: str, places: tuple[int, int] = (3, 1)) -> str:
    """Write lengths [mm] that belong together: "1.126 × 0.563 in [28.6 × 14.3 mm]".

    Args:
        mm: one length or several.
        first: "inch" or "mm".
        places: decimals of inch and of mm.
    """
    inch = " × ".join(number(v / MM_PER_IN, places[0]) for v in mm)
    return ordered(f"{inch} in", " × ".join(number(v, places[1]) for v in mm) + " mm", first)


def length(mm: float, first: str, places: tuple[int, int] = (3, 1)) -> str:
    """Write a length [mm]: "0.749 in [19.0 mm]"."""
    return lengths((mm,), first, places)


def area(mm2: float, first: str) -> str:
    """Write an area [mm²]: "0.440 in² [284 mm²]"."""
    return ordered(f"{mm2 / MM_PER_IN**2:.3f} in²", f"{mm2:.0f} mm²", first)


def speed(m_s: float, first: str) -> str:
    """Write a speed [m/s]: "0.72 ft/s [0.22 m/s]"."""
    return ordered(f"{m_s * FT_PER_M:.2f} ft/s", f"{m_s:.2f} m/s", first)


def _digits(value: float, places: int | None) -> str:
    if places is None:
        places = 2 if value < 9.95 else 1 if value < 99.5 else 0
    return f"{value:.{places}f}"


def mass(kg: float, first: str, places: int | None = None) -> str:
    """Write a mass [kg]: "4.85 lb [2.20 kg]".

    Args:
        kg: mass.
        first: "inch" or "mm".
        places: decimals of both; default: three figures.
    """
    return ordered(f"{_digits(1000.0 * kg / G_PER_LB, places)} lb", f"{_digits(kg, places)} kg", first)


def temperature(c: float, first: str) -> str:
    """Write a temperature [°C]: "1976 °F [1080 °C]"."""
    return ordered(f"{c * 1.8 + 32.0:.0f} °F", f"{c:.0f} °C", first)


def temperatures(low_c: float, high_c: float, first: str) -> str:
    """Write a span of temperatures [°C]: "1904 to 2048 °F [1040 to 1120 °C]"; one where both are the same."""
    if high_c - low_c < 0.5:
        return temperature(low_c, first)
    inch = f"{low_c * 1.8 + 32.0:.0f} to {high_c * 1.8 + 32.0:.0f} °F"
    return ordered(inch, f"{low_c:.0f} to {high_c:.0f} °C", first)


def difference(k: float, first: str) -> str:
    """Write a difference of temperature [K]: "49 °F [27 K]"."""
    return ordered(f"{1.8 * k:.0f} °F", f"{k:.0f} K", first)


def rate(k_per_h: float, first: str, most_k_per_h: float | None = None) -> str:
    """Write a rate of heating or cooling [K/h], or a span of it: "90 to 270 °F/h [50 to 150 K/h]"."""
    both = (k_per_h,) if most_k_per_h is None else (k_per_h, most_k_per_h)
    inch = " to ".join(f"{1.8 * v:.0f}" for v in both)
    return ordered(f"{inch} °F/h", " to ".join(f"{v:.0f}" for v in both) + " K/h", first)


def minute_rate(k_per_min: float, first: str) -> str:
    """Write a rate of cooling [K/min]: "9 °F/min [5 K/min]"."""
    return ordered(f"{1.8 * k_per_min:.3g} °F/min", f"{k_per_min:g} K/min", first)


def stress(mpa: float, first: str) -> str:
    """Write a stress [MPa]: "9600 psi [66 MPa]"."""
    return ordered(f"{round(mpa * MM_PER_IN**2 / N_PER_LBF, -2):.0f} psi", f"{mpa:.0f} MPa", first)


def force(newton: float, first: str) -> str:
    """Write a force [N]: "7.4 lbf [33 N]"."""
    pounds = newton / N_PER_LBF
    return ordered(f"{pounds:.1f} lbf" if pounds < 10.0 else f"{pounds:.0f} lbf", f"{newton:.0f} N", first)
