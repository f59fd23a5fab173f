"""Hardness scales by ASTM E140 Table 1, and steel names."""

from __future__ import annotations

import difflib

from shared.errors import Fault, InputError
from shared.interpolate import interpolate
from shared.tables import table

SCALES = ("HRC", "HV", "HBW", "HRA")
SOURCE = "ASTM E140 Table 1 (Rockwell C range), linear between its rows"
_ALIASES = {"E52100": "52100", "100CR6": "52100"}


def steels() -> list[str]:
    """Return the steels that have a heat-treating schedule."""
    return list(table("steel")["schedule"])


def steel_name(text: str) -> str:
    """Return a steel's name as the tables have it.

    Raises:
        InputError: unknown, with the nearest name.
    """
    known = steels()
    key = text.strip().upper().replace(" ", "").replace("-", "")
    key = _ALIASES.get(key, key)
    if key in known:
        return key
    near = difflib.get_close_matches(key, known, 1, 0.3)
    raise InputError(
        Fault("steel", "steel", repr(text), "one of " + ", ".join(known), f"did you mean {near[0]}?" if near else "")
    )


def _column(scale: str) -> tuple[list[float], list[float]]:
    """Return HRC and the scale's values, both rising, without the rows that the table leaves empty."""
    data = table("steel")["e140_table_1"]
    listed = [(float(h), float(v)) for h, v in zip(data["HRC"], data[scale], strict=True) if v > 0]
    rising = listed[::-1]
    return [h for h, _ in rising], [v for _, v in rising]


def scale_range(scale: str) -> tuple[float, float]:
    """Return the lowest and highest value of a scale [-] that the table holds."""
    values = _column(scale)[1]
    return float(values[0]), float(values[-1])


def _check_scale(scale: str) -> None:
    if scale in SCALES:
        return
    hint = f"E140 Table 1 covers steels of 20 to 68 HRC; it has no column {scale}"
    if scale == "HRB":
        hint = "HRB is for soft metals and ends near 100, about 23 HRC; a hardened blade is given in HRC"
    raise InputError(Fault("hardness", "scale", scale, "one of " + ", ".join(SCALES), hint))


def convert(value: float, scale: str, to: str) -> float:
    """Convert a hardness by ASTM E140 Table 1, linear between the rows.

    Every converted value is approximate; a converted Rockwell number is to be rounded to a whole one before it is
    written on a certificate.

    Args:
        value: hardness number [-].
        scale: its scale, HRC, HV, HBW or HRA.
        to: wanted scale.

    Raises:
        InputError: a scale the table does not have, or a value outside the table.
    """
    _check_scale(scale)
    _check_scale(to)
    low, high = scale_range(scale)
    if not low <= value <= high:
        hint = "outside, the table gives nothing and nothing is extrapolated"
        if scale != "HRC" and 40 <= value <= 68:
            hint = f"{value:g} looks like HRC; did you mean {value:g} HRC?"
        raise InputError(
            Fault("hardness", "value", f"{value:g} {scale}", f"{low:g} to {high:g} {scale} (E140 Table 1)", hint)
        )
    hrc, own = _column(scale)
    as_hrc = value if scale == "HRC" else interpolate(value, own, hrc)
    if to == "HRC":
        return as_hrc
    target_hrc, target = _column(to)
    if not target_hrc[0] <= as_hrc <= target_hrc[-1]:
        raise InputError(
            Fault("hardness", "value", f"{value:g} {scale}", f"at most {target_hrc[-1]:g} HRC for {to} (E140 Table 1)")
        )
    return interpolate(as_hrc, target_hrc, target)


def blade_hrc(value: float, scale: str) -> float:
    """Return a wanted blade hardness in HRC, catching the usual mix-ups of scale.

    Args:
        value: hardness number [-].
        scale: its scale.

    Raises:
        InputError: a scale that is not for hardened steel, or outside 20 to 68 HRC.
    """
    if scale not in SCALES:
        hint = f"did you mean {value:g} HRC?" if 20 <= value <= 68 else ""
        raise InputError(
            Fault("hardness", "hardness", f"{value:g} {scale}", "a hardness in HRC (or HV, HBW, HRA)", hint)
        )
    return convert(value, scale, "HRC")
