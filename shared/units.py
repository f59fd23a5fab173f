"""Quantities as a shop writes them: "2-3/8 in", "60.3 mm", "45 deg", "70 F", "62HRC", "7/32 in/ft".

Inside, lengths are millimetres, angles degrees, temperatures degrees Celsius, masses kilograms, times seconds,
volumes litres, densities kg/m3; ratios and percentages are plain fractions (4 % is 0.04).
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from fractions import Fraction

from shared.record import Value

MM_PER_IN = 25.4  # exact by definition of the international inch (1959)
G_PER_LB = 453.59237  # exact by definition of the avoirdupois pound (1959)

_NUMBER = re.compile(
    r"^\s*(?P<sign>[-+−]?)\s*(?:(?P<whole>\d+)\s*[-\s]\s*(?P<n1>\d+)\s*/\s*(?P<d1>\d+)"
    r"|(?P<n2>\d+)\s*/\s*(?P<d2>\d+)"
    r"|(?P<dec>(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][-+]?\d+)?))\s*(?P<unit>.*?)\s*$"
)


class QuantityError(ValueError):
    """A quantity that cannot be read; `allowed` says what could have been written."""

    def __init__(self, read: object, allowed: str) -> None:
        self.read, self.allowed = read, allowed
        super().__init__(f"read {read!r}; allowed: {allowed}")


class Kind(Value):
    """A kind of quantity: its unit inside and how each written unit gets there."""

    name: str
    inside: str
    units: dict[str, float | Callable[[float], float]]
    example: str

    @property
    def allowed(self) -> str:
        """What may be written, for messages."""
        return f"a number with a unit of {self.name} such as {self.example}"


def _f_to_c(v: float) -> float:
    return (v - 32.0) / 1.8


LENGTH = Kind(
    "length",
    "mm",
    {
        "mm": 1.0,
        "cm": 10.0,
        "m": 1000.0,
        "um": 1e-3,
        "µm": 1e-3,
        "in": MM_PER_IN,
        "inch": MM_PER_IN,
        "inches": MM_PER_IN,
        '"': MM_PER_IN,
        "ft": 12 * MM_PER_IN,
        "thou": MM_PER_IN / 1000,
    },
    '"2-3/8 in" or "60.3 mm"',
)
ANGLE = Kind("angle", "deg", {"deg": 1.0, "°": 1.0, "rad": 180.0 / math.pi}, '"45 deg"')
TEMPERATURE = Kind(
    "temperature",
    "degC",
    {
        "C": 1.0,
        "°C": 1.0,
        "degC": 1.0,
        "F": _f_to_c,
        "°F": _f_to_c,
        "degF": _f_to_c,
        "K": lambda v: v - 273.15,
    },
    '"400 F" or "204 C"',
)
TEMPERATURE_DIFFERENCE = Kind(
    "temperature difference",
    "K",
    {"K": 1.0, "C": 1.0, "°C": 1.0, "F": 1 / 1.8, "°F": 1 / 1.8},
    '"2 K" or "5 F"',
)
MASS = Kind(
    "mass",
    "kg",
    {"kg": 1.0, "g": 1e-3, "lb": G_PER_LB / 1000, "lbs": G_PER_LB / 1000, "oz": G_PER_LB / 16000, "t": 1000.0},
    '"5 lb" or "2.3 kg"',
)
VOLUME = Kind(
    "volume",
    "l",
    {
        "l": 1.0,
        "L": 1.0,
        "ml": 1e-3,
        "m3": 1000.0,
        "cm3": 1e-3,
        "mm3": 1e-6,
        "in3": (MM_PER_IN / 100) ** 3,
        "ft3": (12 * MM_PER_IN / 100) ** 3,
        "gal": 231 * (MM_PER_IN / 100) ** 3,
    },
    '"36 m3", "10 l" or "12 in3"',
)
AREA = Kind(
    "area",
    "mm2",
    {"mm2": 1.0, "cm2": 100.0, "m2": 1e6, "in2": MM_PER_IN**2, "ft2": (12 * MM_PER_IN) ** 2},
    '"80 cm2" or "12 in2"',
)
TIME = Kind("time", "s", {"s": 1.0, "min": 60.0, "h": 3600.0, "hr": 3600.0}, '"2 h" or "90 min"')
DENSITY = Kind(
    "density",
    "kg/m3",
    {"kg/m3": 1.0, "g/cm3": 1000.0, "lb/in3": G_PER_LB / 1000 / (MM_PER_IN / 1000) ** 3},
    '"7100 kg/m3" or "0.256 lb/in3"',
)
FRACTION = Kind("share", "fraction", {"%": 0.01}, '"4%"')
RATIO_PER_LENGTH = Kind(
    "contraction",
    "fraction",
    {"in/ft": 1 / 12, "%": 0.01, "mm/m": 1e-3},
    '"1/8 in/ft", "1.04 %" or "10.4 mm/m"',
)
MOULD_CONSTANT = Kind("mould constant", "s/cm^n", {"s/cm2": 1.0, "min/cm2": 60.0, "s/cm^n": 1.0}, '"170 s/cm2"')
FORCE = Kind("force", "N", {"N": 1.0, "kN": 1000.0, "lbf": 4.4482216152605}, '"300 N"')

HARDNESS_SCALES = ("HRC", "HV", "HRA", "HBW", "HRB", "HR15N", "HR30N", "HR45N")


def split_number(text: str) -> tuple[float, str]:
    """Split a written quantity into number and unit text.

    Args:
        text: such as "2-3/8 in", "5/32", "-40 F", "62HRC".

    Returns:
        The number [-] and the unit as written ("" when bare).

    Raises:
        QuantityError: there is no number at the front, or a fraction has denominator 0.
    """
    m = _NUMBER.match(text)
    if not m:
        raise QuantityError(text, 'a number, then a unit, such as "2-3/8 in" or "60.3 mm"')
    if m["whole"] is not None or m["n2"] is not None:
        n, d = (m["n1"], m["d1"]) if m["whole"] is not None else (m["n2"], m["d2"])
        if int(d) == 0:
            raise QuantityError(text, "a fraction whose lower part is not 0")
        value = float(Fraction(int(m["whole"] or 0)) + Fraction(int(n), int(d)))
    else:
        value = float(m["dec"])
    return (-value if m["sign"] in ("-", "−") else value), m["unit"]


def parse(value: object, kind: Kind, bare_unit: str | None = None) -> float:
    """Read one quantity into the inside unit of its kind.

    Args:
        value: text such as "5/32 in", or a bare number [-].
        kind: which quantity is expected.
        bare_unit: unit that a bare number takes; None refuses bare numbers.

    Returns:
        The value in `kind.inside` units.

    Raises:
        QuantityError: unreadable, unit of another kind, or bare where a unit is needed.
    """
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise QuantityError(value, kind.allowed)
    if isinstance(value, str):
        try:
            number, unit = split_number(value)
        except QuantityError:
            raise QuantityError(value, kind.allowed) from None
    else:
        number, unit = float(value), ""
    if not math.isfinite(number):
        raise QuantityError(value, kind.allowed)
    if unit == "":
        if bare_unit is None:
            raise QuantityError(value, kind.allowed + "; a bare number has no unit")
        unit = bare_unit
    if unit not in kind.units:
        raise QuantityError(value, f"{kind.allowed}; units: {', '.join(kind.units)}")
    how = kind.units[unit]
    return how(number) if callable(how) else number * how


def parse_hardness(value: object, bare_scale: str | None = None) -> tuple[float, str]:
    """Read a hardness such as "62HRC" or "746 HV".

    Returns:
        The value [-] and the scale's name.

    Raises:
        QuantityError: no number, or a scale that is not known.
    """
    allowed = '"62 HRC" (scales: ' + ", ".join(HARDNESS_SCALES) + ")"
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise QuantityError(value, allowed)
    try:
        number, unit = split_number(value) if isinstance(value, str) else (float(value), "")
    except QuantityError:
        raise QuantityError(value, allowed) from None
    scale = unit or bare_scale or ""
    if scale not in HARDNESS_SCALES:
        raise QuantityError(value, allowed)
    return number, scale


def to_inch(mm: float) -> float:
    """Return a length [mm] in inches [in]."""
    return mm / MM_PER_IN


def inch_fraction(mm: float, denominator: int = 64) -> str:
    """Write a length [mm] as the nearest inch fraction, such as 2-3/8; "~" marks one that is not exact.

    Args:
        mm: length [mm].
        denominator: smallest division of the rule [-], a power of two.
    """
    exact = to_inch(mm)
    near = Fraction(round(exact * denominator), denominator)
    mark = "" if abs(float(near) - exact) < 5e-6 else "~"
    sign = "-" if near < 0 else ""
    whole, rest = divmod(abs(near), 1)
    if rest == 0:
        return f"{mark}{sign}{whole}"
    head = f"{whole}-" if whole else ""
    return f"{mark}{sign}{head}{rest.numerator}/{rest.denominator}"


def both_units(mm: float, first: str = "inch") -> str:
    """Write a length [mm] in both units, the spec's own first."""
    metric, inch = f"{mm:.2f} mm", f"{to_inch(mm):.4f} in"
    return f"{inch} ({metric})" if first == "inch" else f"{metric} ({inch})"
