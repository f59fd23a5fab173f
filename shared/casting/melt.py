"""The melt: composition windows, carbon equivalent, magnesium, pouring temperature, and what to do when one is off."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from shared.casting.alloy import Alloy
from shared.errors import Fault, InputError
from shared.tables import table

SOURCE_CE = "CE = C + (Si + P)/3, metallography.com Tech-Notes table 1"


def carbon_equivalent(c: float, si: float, p: float = 0.0) -> float:
    """Return the carbon equivalent [wt %] from carbon, silicon and phosphorus [wt %]: C + (Si + P)/3."""
    return c + (si + p) / 3.0


def magnesium_addition(
    s_base: float, s_final: float, mg_residual: float, recovery_percent: float, mg_in_alloy_percent: float
) -> float:
    """Return the treatment alloy [% of the melt]: 100·(0.76·ΔS + Mg)/(recovery·Mg in alloy).

    Args:
        s_base: sulphur before treatment [wt %].
        s_final: sulphur after treatment [wt %].
        mg_residual: residual magnesium wanted [wt %].
        recovery_percent: recovery of magnesium [%].
        mg_in_alloy_percent: magnesium in the treatment alloy [wt %].

    Raises:
        InputError: a recovery or alloy content out of 0 to 100 %, or sulphur that grows.
    """
    faults = []
    for key, value in (("recovery", recovery_percent), ("magnesium in the alloy", mg_in_alloy_percent)):
        if not 0.0 < value <= 100.0:
            faults.append(Fault("melt", key, f"{value:g} %", "more than 0, at most 100 %"))
    if not 0.0 <= s_final <= s_base:
        faults.append(Fault("melt", "sulphur after treatment", f"{s_final:g} %", f"0 to {s_base:g} %"))
    if faults:
        raise InputError(faults)
    need = table("foundry")["magnesium"]["mg_per_s"] * (s_base - s_final) + mg_residual
    return 100.0 * need / (recovery_percent / 100.0 * mg_in_alloy_percent)


def magnesium_after(start_percent: float, minutes: float, rate_per_min: float | None = None) -> float:
    """Return the residual magnesium [wt %] some minutes [min] after treatment, fading at a steady rate [wt %/min].

    Args:
        start_percent: residual magnesium right after treatment [wt %].
        minutes: time since treatment [min].
        rate_per_min: fade [wt %/min]; default the table's (memory).
    """
    rate = table("foundry")["magnesium"]["fade_rate_per_min"] if rate_per_min is None else rate_per_min
    return max(0.0, start_percent - rate * minutes)


def fade_limit_min(start_percent: float, least_percent: float, rate_per_min: float | None = None) -> float:
    """Return the time [min] in which magnesium fades from a start to the least allowed [wt %], also held to practice.

    The table's practice limit (8 to 12 min after treatment, memory) caps it at 12, since inoculation fades too.
    """
    rows = table("foundry")["magnesium"]
    rate = rows["fade_rate_per_min"] if rate_per_min is None else rate_per_min
    return float(min(max(0.0, (start_percent - least_percent) / rate), rows["pour_within_min"][1]))


def composition_window(alloy_id: str) -> dict[str, tuple[float, float]]:
    """Return least and most [wt %] of each element of an alloy, empty when the table has none."""
    row = table("foundry")["window"].get(alloy_id, {})
    return {k: (float(v[0]), float(v[1])) for k, v in row.items() if isinstance(v, list)}


def carbon_equivalent_window(metal: Alloy, section_mm: float) -> tuple[float, float] | None:
    """Return the carbon equivalent to aim at [wt %], by the section [mm]; None when the alloy is no iron."""
    rows = table("foundry")["carbon_equivalent"]
    if metal.family == "ductile-iron":
        low, high = rows["ductile_thin" if section_mm < 25.0 else "ductile_heavy"]
        return float(low), float(high)
    if metal.family == "grey-iron":
        low, high = rows["grey_class_30"]
        return float(low), float(high)
    return None


# Recovery of the addition [-] and its content [-]: common practice, no source.
_RAISE = {
    "C": ("carburiser (98 % C)", 0.98, 0.85),
    "Si": ("ferrosilicon (75 % Si)", 0.75, 0.90),
    "Mn": ("ferromanganese (78 % Mn)", 0.78, 0.85),
    "Cu": ("clean copper scrap", 1.0, 0.97),
    "Zn": ("zinc ingot, plunged", 1.0, 0.90),
    "Al": ("aluminium", 1.0, 0.90),
}
_MG_LOW = "do not pour: graphite turns to flake. Pig the tap or treat it again; find why: fade, sulphur, recovery"
_CE_HIGH = "dilute with steel scrap; too high floats graphite in heavy sections and weakens grey iron"
_HIGH = {
    "C": "dilute with steel scrap",
    "Si": "dilute with steel scrap or a base iron of less silicon",
    "Mn": "dilute with high-purity pig; manganese makes carbides in thin walls",
    "Cr": "dilute with high-purity pig, find the scrap it came from; chromium makes carbides in thin walls",
    "S": "desulphurise before treatment, or treat for the higher sulphur; check the charge",
    "P": "dilute with high-purity pig; phosphorus embrittles",
    "Mg": "wait (it fades), sample again, treat the next tap with less; too much makes carbides, dross, shrinkage",
    "Zn": "hold covered or dilute with copper; do not burn it off by overheating",
    "Pb": "reject for this job; lead cannot be taken out",
}


@dataclass(frozen=True)
class SampleFinding:
    """One element (or carbon equivalent) of a sample against its window, all in wt %."""

    element: str
    value: float
    low: float
    high: float
    verdict: str  # "in", "low" or "high"
    action: str


def _correction(element: str, short: float, melt_kg: float) -> str:
    if element not in _RAISE:
        return "add the element by the supplier's instructions and sample again"
    what, content, recovery = _RAISE[element]
    return f"add about {melt_kg * short / 100.0 / (content * recovery):.2f} kg {what}, stir, sample again"


def judge_sample(metal: Alloy, sample: Mapping[str, float], melt_kg: float, section_mm: float) -> list[SampleFinding]:
    """Judge one melt sample against its windows and say what to do.

    Args:
        metal: the alloy.
        sample: element symbol -> content [wt %].
        melt_kg: metal in the furnace or ladle [kg], for the size of a correction.
        section_mm: main section of the castings [mm].

    Returns:
        One finding an element that has a window and was measured, then carbon equivalent for irons.

    Raises:
        InputError: an element below 0 or above 100 %.
    """
    bad = [Fault("sample", e, f"{v:g} %", "0 to 100 %") for e, v in sample.items() if not 0.0 <= v <= 100.0]
    if bad:
        raise InputError(bad)
    found = []
    for element, (low, high) in composition_window(metal.id).items():
        if element not in sample:
            continue
        value = sample[element]
        verdict = "low" if value < low else "high" if value > high else "in"
        if verdict == "in":
            action = "pour"
        elif element == "Mg" and verdict == "low":
            action = _MG_LOW
        elif verdict == "low":
            action = _correction(element, (low + high) / 2.0 - value, melt_kg)
        else:
            action = _HIGH.get(element, "dilute with clean charge and sample again")
        found.append(SampleFinding(element, value, low, high, verdict, action))
    ce_window = carbon_equivalent_window(metal, section_mm)
    if ce_window and "C" in sample and "Si" in sample:
        low, high = ce_window
        ce = carbon_equivalent(sample["C"], sample["Si"], sample.get("P", 0.0))
        verdict = "low" if ce < low else "high" if ce > high else "in"
        action = {
            "in": "pour",
            "low": f"{_correction('C', low - ce, melt_kg)}; low carbon equivalent chills thin walls",
            "high": _CE_HIGH,
        }[verdict]
        found.append(SampleFinding("CE", ce, low, high, verdict, action))
    return found


@dataclass(frozen=True)
class MeltRow:
    """One line of a melt card: an element (or carbon equivalent) with its window [wt %] and what to do outside it."""

    element: str
    low: float
    high: float
    when_low: str
    when_high: str


SHORT_STEP = 0.10  # wt % short, for which a melt card gives the addition


def melt_card(metal: Alloy, melt_kg: float, section_mm: float) -> list[MeltRow]:
    """Return the melt card of an alloy: every element's window and what to do when a sample is off it.

    Args:
        metal: the alloy.
        melt_kg: metal that one correction goes into [kg].
        section_mm: main section of the castings [mm].
    """

    def high(element: str) -> str:
        return _HIGH.get(element, "dilute with clean charge and sample again")

    def low(element: str, least: float) -> str:
        if element == "Mg":
            return _MG_LOW
        if least <= 0.0:
            return "nothing: none is needed"
        each = f" (for each {SHORT_STEP:g} % short in {melt_kg:.0f} kg)" if element in _RAISE else ""
        return _correction(element, SHORT_STEP, melt_kg) + each

    window = composition_window(metal.id)
    rows = [MeltRow(e, least, most, low(e, least), high(e)) for e, (least, most) in window.items()]
    ce = carbon_equivalent_window(metal, section_mm)
    if ce is not None:
        rows.append(MeltRow("CE", *ce, low("C", 1.0) + "; a low one chills thin walls", _CE_HIGH))
    return rows


@dataclass(frozen=True)
class PouringWindow:
    """Pouring temperature [°C]: least, most, aim, and why."""

    low_c: float
    high_c: float
    aim_c: float
    why: str


def pouring_window(metal: Alloy, aim_c: float | None = None) -> PouringWindow:
    """Return the pouring window of an alloy in thin castings.

    Args:
        metal: the alloy.
        aim_c: the shop's own aim [°C]; default the middle.

    Raises:
        InputError: an aim at which the metal is not fully liquid.
    """
    if aim_c is not None and aim_c <= metal.liquidus_c:
        allowed = f"above the liquidus of {metal.liquidus_c:.0f} °C"
        raise InputError(Fault("shop.toml", "melt.pour_temperature", f"{aim_c:.0f} °C", allowed))
    why = "thin walls need superheat; more of it coarsens the grain, burns the sand and gasses the metal"
    if metal.family == "ductile-iron":
        dross = table("foundry")["ductile_pouring"]["dross_risk_below"]
        why = f"walls under 8 mm; below {dross:.0f} °C dross is a risk"
    if metal.zinc_fume:
        zinc = table("foundry")["zinc"]
        why = f"thin walls; zinc boils at {zinc['boils']:.0f} °C and flares above about {zinc['flares_above']:.0f} °C"
    middle = (metal.pouring_low_c + metal.pouring_high_c) / 2.0
    return PouringWindow(metal.pouring_low_c, metal.pouring_high_c, middle if aim_c is None else aim_c, why)


def cautions(metal: Alloy) -> list[str]:
    """Return the cautions that stand on every pour sheet of this alloy, in own words, deferring to local rules."""
    safety = table("foundry")["safety"]
    said = list(safety["all"])
    if metal.family == "ductile-iron":
        said += safety["iron"]
    if metal.zinc_fume:
        said += safety["zinc"]
    return [*said, safety["defer"]]
