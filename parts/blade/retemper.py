"""Time and temperature of tempering traded by Hollomon and Jaffe, and the second temper of a piece that reads high."""

from __future__ import annotations

import math
from collections.abc import Sequence

from parts.blade.temper import TemperCurve, c_to_f, curve_for
from shared.errors import Fault, InputError
from shared.record import Value
from shared.tables import table

KELVIN = 273.15
#: The usual constant, for time in hours [-].
CONSTANT = 20.0
SOURCE = "Hollomon and Jaffe, Trans. AIME 162 (1945) 223-249; time in hours, temperature in kelvin"


def parameter(temperature_c: float, hours: float, constant: float = CONSTANT) -> float:
    """Return the tempering parameter T*(C + log10 t)/1000 [-].

    Args:
        temperature_c: temper temperature [degC].
        hours: time at temperature [h].
        constant: C for time in hours [-]; 20 is usual, 13.3 fits a 0.98 C steel between 100 and 300 C better.

    Raises:
        InputError: a time that is not above 0.
    """
    if hours <= 0:
        raise InputError(Fault("temper", "time", f"{hours:g} h", "more than 0 h"))
    return (temperature_c + KELVIN) * (constant + math.log10(hours)) / 1000


def parameter_of_holds(holds: Sequence[tuple[float, float]], constant: float = CONSTANT) -> float:
    """Return the parameter of several holds (temperature [degC], hours [h]) one after the other [-].

    Each is turned into an equal time at the hottest of them, and the times are added.
    """
    reference = max(t for t, _ in holds)
    total = sum(equal_time(parameter(t, h, constant), reference, constant) for t, h in holds)
    return parameter(reference, total, constant)


def equal_time(value: float, temperature_c: float, constant: float = CONSTANT) -> float:
    """Return the time [h] at a temperature [degC] that gives a parameter [-].

    Raises:
        InputError: a temperature at or below absolute zero, or a time beyond all numbers.
    """
    kelvin = temperature_c + KELVIN
    power = 1000 * value / kelvin - constant if kelvin > 0 else math.inf
    if abs(power) > 300:
        raise InputError(
            Fault("temper", "new temperature", f"{temperature_c:g} C", "a tempering temperature", "no such time exists")
        )
    return float(10.0**power)


def equal_temperature(value: float, hours: float, constant: float = CONSTANT) -> float:
    """Return the temperature [degC] at which a time [h] gives a parameter [-].

    Raises:
        InputError: a time that is not above 0, or so short that C + log10 t is not above 0.
    """
    if hours <= 0 or constant + math.log10(hours) <= 0:
        raise InputError(Fault("temper", "new time", f"{hours:g} h", "more than 0 h and not absurdly short"))
    return 1000 * value / (constant + math.log10(hours)) - KELVIN


def fit_constant(
    temperatures_c: Sequence[float], hours: Sequence[float], hrc: Sequence[float], degree: int = 3
) -> tuple[float, float]:
    """Return (C, rms error [HRC]) that best joins a shop's own tempering trials into one curve.

    Args:
        temperatures_c: temper temperature of each trial [degC].
        hours: its time [h].
        hrc: its hardness [HRC].
        degree: degree of the polynomial HRC = f(T*(C + log10 t)) [-].
    """
    scan = [round(6 + 0.1 * i, 1) for i in range(241)]
    return min(((c, fit_error(temperatures_c, hours, hrc, c, degree)) for c in scan), key=lambda pair: pair[1])


def fit_error(
    temperatures_c: Sequence[float], hours: Sequence[float], hrc: Sequence[float], constant: float, degree: int = 3
) -> float:
    """Return the rms error [HRC] of a polynomial in the parameter through tempering trials; see `fit_constant`."""
    import numpy as np  # only the fit of a constant needs it

    p = np.array([parameter(t, h, constant) for t, h in zip(temperatures_c, hours, strict=True)])
    fitted = np.polynomial.Polynomial.fit(p, np.asarray(hrc, float), degree)
    return float(np.sqrt(np.mean((fitted(p) - np.asarray(hrc, float)) ** 2)))


class Correction(Value):
    """What to do after the first piece has been measured."""

    reads: str  # "as wanted", "high" or "low"
    advice: str
    temperature_c: float | None  # of one more temper, when that helps
    temperature_other_c: float | None  # the same with the other constant
    hours: float
    constant: float
    parameter_wanted: float | None


def _constants() -> tuple[float, float]:
    row = table("steel")["tempering_parameter"]
    return float(row["constant"]), float(row["constant_high_carbon"])


def correct_temper(
    steel: str,
    target: float,
    measured: float,
    temperature_c: float,
    *,
    hours: float = 2.0,
    tempers: int = 2,
    hardening_c: float | None = None,
    within: float = 0.5,
) -> Correction:
    """Return what to do with a piece that has been tempered and measured.

    A piece that reads high behaves as one tempered cooler than it was. The curve says by how many kelvin the target
    lies higher; that step is added to the temperature really used, and Hollomon-Jaffe finds the temperature at which
    one more hold of the same length, on top of those already given, does what the wanted temper would have done.

    Args:
        steel: such as "A2".
        target: wanted hardness [HRC].
        measured: what the piece reads [HRC].
        temperature_c: temper temperature used [degC].
        hours: each hold [h].
        tempers: holds given so far [-].
        hardening_c: hardening temperature [degC], or None for the schedule's own.
        within: a reading this close to the target is left alone [HRC].

    Raises:
        InputError: unknown steel, or the temper used lies outside the curve.
    """
    curve = curve_for(steel, hardening_c)
    constant, other = _constants()
    curve.hardness(temperature_c)
    if abs(measured - target) <= within:
        return Correction("as wanted", "leave it alone", None, None, hours, constant, None)
    if measured < target:
        return Correction("low", _low_advice(curve), None, None, hours, constant, None)
    step = _step_on_curve(curve, measured, target)
    if step is None:
        advice = f"the curve has no way from {measured:g} to {target:g} HRC by tempering alone; harden the piece anew"
        return Correction("high", advice, None, None, hours, constant, None)
    values = []
    for c in (constant, other):
        wanted = parameter(temperature_c + step, hours * tempers, c)
        values.append((_one_more(wanted, temperature_c, hours, tempers, c), wanted))
    (t, wanted), (t_other, _) = values
    if c_to_f(t) > curve.temper_f[-1]:
        advice = f"one more temper would have to be at {c_to_f(t):.0f} F, beyond the curve; harden the piece anew"
        return Correction("high", advice, None, None, hours, constant, None)
    advice = f"temper once more, {hours:g} h at {c_to_f(t):.0f} F"
    return Correction("high", advice, t, t_other, hours, constant, wanted)


def _step_on_curve(curve: TemperCurve, measured: float, target: float) -> float | None:
    """Return the kelvin between two hardnesses on the curve's lowest falling branch, or None."""
    high, low = curve.answers(min(measured, curve.hrc[0])), curve.answers(target)
    if not high or not low:
        return None
    slope_above = 0.0
    if measured > curve.hrc[0]:  # harder than the curve begins: go on at its first falling slope
        i = next((k for k in range(1, len(curve.hrc)) if curve.hrc[k] < curve.hrc[0]), None)
        if i is None:
            return None
        slope_above = (curve.temper_f[i] - curve.temper_f[i - 1]) / (curve.hrc[i - 1] - curve.hrc[i])
    start = high[0][1] - slope_above * max(measured - curve.hrc[0], 0.0)
    step = (low[0][0] - start) / 1.8
    return step if step > 0 else None


def _one_more(wanted: float, used_c: float, hours: float, tempers: int, constant: float) -> float:
    """Return the temperature [degC] of one more hold that brings all holds together up to a parameter."""

    def reached(t: float) -> float:
        return parameter_of_holds([(used_c, hours * tempers), (t, hours)], constant) - wanted

    low, high = used_c, used_c + 1.0
    while reached(high) < 0 and high < 1200:
        high += 20.0
    for _ in range(80):
        mid = (low + high) / 2
        low, high = (mid, high) if reached(mid) < 0 else (low, mid)
    return high


def _low_advice(curve: TemperCurve) -> str:
    text = (
        "too soft: no temper raises it. Check the reading (scale, decarburised skin ground off, flat and thick "
        "enough), then the furnace; anneal and harden anew"
    )
    if table("steel")["schedule"][curve.steel]["cold_treatment"] == "helps":
        text += ". Soft as quenched can also be retained austenite: then a cold treatment and a new temper raise it"
    return text
