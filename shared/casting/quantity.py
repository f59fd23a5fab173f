"""How many castings, moulds, ladles and taps an order needs."""

from __future__ import annotations

import math

from scipy.special import betainc

from shared.errors import Fault, InputError, RequestError
from shared.tables import table


def chance_of_enough(poured: int, good: int, scrap: float) -> float:
    """Return the chance [-] that at least `good` [-] of `poured` [-] castings are good.

    Args:
        poured: castings poured [-].
        good: good castings needed [-].
        scrap: chance that one casting is rejected [-], independent of the others.
    """
    if good <= 0:
        return 1.0
    if poured < good:
        return 0.0
    # the binomial tail is a regularised incomplete beta function
    return float(betainc(good, poured - good + 1, 1.0 - scrap))


def castings_to_pour(good: int, scrap: float, confidence: float) -> int:
    """Return the least number of castings to pour so that `good` of them are good at the asked confidence.

    Args:
        good: good castings needed [-], 1 or more.
        scrap: scrap rate [-], 0 up to (not with) 1.
        confidence: chance wanted [-], more than 0, less than 1.

    Raises:
        InputError: a value out of its range.
    """
    faults = []
    if good < 1:
        faults.append(Fault("quantity", "good castings", str(good), "1 or more"))
    if not 0.0 <= scrap < 1.0:
        faults.append(Fault("quantity", "scrap", f"{100 * scrap:g}%", "0% or more, less than 100%"))
    if not 0.0 < confidence < 1.0:
        faults.append(Fault("quantity", "confidence", f"{100 * confidence:g}%", "more than 0%, less than 100%"))
    if faults:
        raise InputError(faults)
    low, high = good - 1, good  # chance at low is too small, at high enough once the doubling stops
    while chance_of_enough(high, good, scrap) < confidence:
        low, high = high, 2 * high
    while high - low > 1:
        middle = (low + high) // 2
        if chance_of_enough(middle, good, scrap) >= confidence:
            high = middle
        else:
            low = middle
    return high


def moulds_for(castings: int, impressions: int) -> int:
    """Return the moulds [-] for a number of castings [-] at so many impressions a mould [-]."""
    if impressions < 1:
        raise InputError(Fault("quantity", "impressions", str(impressions), "1 or more"))
    return math.ceil(castings / impressions)


def heats_for(mass_kg: float, tap_kg: float) -> int:
    """Return how many taps of `tap_kg` [kg] a poured mass [kg] needs, by mass alone."""
    if not tap_kg > 0.0:
        raise InputError(Fault("quantity", "tap", f"{tap_kg:g} kg", "more than 0"))
    return math.ceil(mass_kg / tap_kg - 1e-9)


def moulds_per_ladle(ladle_kg: float, heel: float, mould_kg: float) -> int:
    """Return how many moulds one ladle fills [-]; a mould is never poured from two ladles.

    Args:
        ladle_kg: metal in a full ladle [kg].
        heel: share that is pigged out [-].
        mould_kg: metal of one mould [kg].

    Raises:
        RequestError: the ladle does not hold one mould's metal.
    """
    usable = ladle_kg * (1.0 - heel)
    count = math.floor(usable / mould_kg + 1e-9)
    if count < 1:
        raise RequestError(
            f"one mould takes {mould_kg:.1f} kg but a ladle gives only {usable:.1f} kg: use a larger ladle"
        )
    return count


def ladle_name(ladle_kg: float) -> tuple[str, str]:
    """Return what a ladle of so much metal [kg] is called, one and several: by how many people can carry it."""
    rows = table("foundry")["ladle"]
    if ladle_kg <= rows["one_carrier"]:
        return "hand ladle", "hand ladles"
    if ladle_kg <= rows["two_carriers"]:
        return "shank ladle for two carriers", "shank ladles for two carriers"
    return "ladle hung from a crane or trolley", "ladles hung from a crane or trolley"


def moulds_within(limit_s: float, first_s: float, fill_s: float, changeover_s: float, pourers: int = 1) -> int:
    """Return how many moulds can be poured to the end before a time limit [-].

    Args:
        limit_s: time from treatment to the end of the last mould [s].
        first_s: time from treatment to the start of the first mould [s].
        fill_s: pouring time of a mould [s].
        changeover_s: from the end of one mould to the start of the next [s].
        pourers: ladles poured at the same time [-].

    Raises:
        RequestError: not even one mould is possible.
    """
    room = limit_s - first_s - fill_s
    if room < 0.0:
        raise RequestError(
            f"the first mould ends {first_s + fill_s:.0f} s after treatment, past the limit of {limit_s:.0f} s: "
            "carry faster"
        )
    return pourers * (1 + math.floor(room / (fill_s + changeover_s) + 1e-9))
