"""The melt: composition windows, carbon equivalent, magnesium, pouring temperature, and what to do when one is off."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from shared.both_units import length, mass, temperature
from shared.casting.alloy import Alloy
from shared.casting.remedies import remedies
from shared.errors import Fault, InputError
from shared.tables import table


def carbon_equivalent(c: float, si: float, p: float = 0.0) -> float:
    """Return the carbon equivalent [wt %] from carbon, silicon and phosphorus [wt %]: C + (Si + P)/3.

    Source: metallography.com Tech-Notes table 1.
    """
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


@dataclass(frozen=True)
class SampleFinding:
    """One element (or carbon equivalent) of a sample against its window, all in wt %."""

    element: str
    value: float
    low: float
    high: float
    verdict: str  # "in", "low" or "high"
    action: str


def _correction(
    metal: Alloy, element: str, short: float, aim: float, melt_kg: float, first: str, each: str = ""
) -> str:
    known = remedies(metal)
    if element in known.when_low:
        return known.when_low[element]
    by = known.raise_by.get(element)
    if by is None:
        return "add the element by the supplier's instructions and sample again"
    return f"add about {mass(by.amount(melt_kg, short, aim), first, 2)} {by.what}{each or ', stir, sample again'}"


def _dilution(metal: Alloy, element: str) -> str:
    known = remedies(metal)
    return known.when_high.get(element, known.else_high)


def _carbon_aim(metal: Alloy) -> float:
    low, high = composition_window(metal.id).get("C", (3.5, 3.5))
    return (low + high) / 2.0


def judge_sample(
    metal: Alloy, sample: Mapping[str, float], melt_kg: float, section_mm: float, first: str = "mm"
) -> list[SampleFinding]:
    """Judge one melt sample against its windows and say what to do.

    Args:
        metal: the alloy.
        sample: element symbol -> content [wt %].
        melt_kg: metal in the furnace or ladle [kg], for the size of a correction.
        section_mm: main section of the castings [mm].
        first: "inch" or "mm": the unit that leads.

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
        elif verdict == "low":
            middle = (low + high) / 2.0
            action = _correction(metal, element, middle - value, middle, melt_kg, first)
        else:
            action = _dilution(metal, element)
        found.append(SampleFinding(element, value, low, high, verdict, action))
    ce_window = carbon_equivalent_window(metal, section_mm)
    if ce_window and "C" in sample and "Si" in sample:
        low, high = ce_window
        ce = carbon_equivalent(sample["C"], sample["Si"], sample.get("P", 0.0))
        verdict = "low" if ce < low else "high" if ce > high else "in"
        action = {
            "in": "pour",
            "low": f"{_correction(metal, 'C', low - ce, _carbon_aim(metal), melt_kg, first)}; "
            + _correction(metal, "CE", 0.0, low, melt_kg, first),
            "high": _dilution(metal, "CE"),
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


THIN_MM = 8.0  # walls that the pouring window of ductile iron is meant for
SHORT_STEP, FINE_STEP = 0.10, 0.01  # wt % short, for which a melt card gives the addition; FINE in a narrow window


def melt_card(metal: Alloy, melt_kg: float, section_mm: float, first: str = "mm") -> list[MeltRow]:
    """Return the melt card of an alloy: every element's window and what to do when a sample is off it.

    Args:
        metal: the alloy.
        melt_kg: metal that one correction goes into [kg].
        section_mm: main section of the castings [mm].
        first: "inch" or "mm": the unit that leads.
    """
    known = remedies(metal)

    def low(element: str, least: float, most: float, aim: float) -> str:
        if least <= 0.0:
            return "nothing: none is needed"
        step = SHORT_STEP if most - least >= SHORT_STEP else FINE_STEP
        weighed = element in known.raise_by and element not in known.when_low
        each = f" for each {step:g} % short" if weighed else ""
        return _correction(metal, element, step, aim, melt_kg, first, each)

    window = composition_window(metal.id)
    rows = [
        MeltRow(e, least, most, low(e, least, most, least), _dilution(metal, e)) for e, (least, most) in window.items()
    ]
    ce = carbon_equivalent_window(metal, section_mm)
    if ce is not None:
        when_low = f"{low('C', *ce, _carbon_aim(metal))}; {low('CE', *ce, ce[0])}"
        rows.append(MeltRow("CE", *ce, when_low, _dilution(metal, "CE")))
    return rows


@dataclass(frozen=True)
class PouringWindow:
    """Pouring temperature [°C]: least, most, aim, and why."""

    low_c: float
    high_c: float
    aim_c: float
    why: str


def pouring_window(metal: Alloy, aim_c: float | None = None, first: str = "mm") -> PouringWindow:
    """Return the pouring window of an alloy in thin castings.

    Args:
        metal: the alloy.
        aim_c: the shop's own aim [°C]; default the middle.
        first: "inch" or "mm": the unit that leads in the reason.

    Raises:
        InputError: an aim at which the metal is not fully liquid.
    """
    if aim_c is not None and aim_c <= metal.liquidus_c:
        allowed = f"above the liquidus of {metal.liquidus_c:.0f} °C"
        raise InputError(Fault("shop.toml", "melt.pour_temperature", f"{aim_c:.0f} °C", allowed))
    why = "thin walls need superheat; more of it coarsens the grain, burns the sand and gasses the metal"
    if metal.family == "ductile-iron":
        dross = table("foundry")["ductile_pouring"]["dross_risk_below"]
        why = f"walls under {length(THIN_MM, first, (2, 0))}; below {temperature(dross, first)} dross is a risk"
    if metal.zinc_fume:
        zinc = table("foundry")["zinc"]
        boils, flares = temperature(zinc["boils"], first), temperature(zinc["flares_above"], first)
        why = f"thin walls; zinc boils at {boils} and flares above about {flares}"
    middle = (metal.pouring_low_c + metal.pouring_high_c) / 2.0
    return PouringWindow(metal.pouring_low_c, metal.pouring_high_c, middle if aim_c is None else aim_c, why)


def cautions(metal: Alloy, first: str = "mm") -> list[str]:
    """Return the cautions that stand on every pour sheet of this alloy, in own words, deferring to local rules.

    Args:
        metal: the alloy.
        first: "inch" or "mm": the unit that leads.
    """
    rows = table("foundry")
    safety = rows["safety"]
    said = list(safety["all"])
    if metal.is_iron:
        said += safety["iron"]
    if metal.family == "ductile-iron":
        said += safety["magnesium"]
    if metal.zinc_fume:
        boils = temperature(rows["zinc"]["boils"], first)
        said += [text.format(zinc_boils=boils) for text in safety["zinc"]]
    return [*said, safety["defer"]]
