"""The heat treater's sections of the blade card: the route, cold treatment, what to do with a piece that reads off."""

from __future__ import annotations

from parts.blade.card_rows import Row, Section
from parts.blade.card_words import plain, sentence, source_text, warmer
from parts.blade.cryo import nitrogen_needed, oxygen_after_release, oxygen_warnings
from parts.blade.heat_treat import ROOM_C, Plan, Step
from parts.blade.retemper import SOURCE as HJ_SOURCE
from parts.blade.retemper import Correction, correct_temper
from shared.both_units import FT_PER_M, L_PER_GALLON, mass, ordered, temperature, temperatures
from shared.errors import InputError

BRITTLE_C = ((450 - 32) / 1.8, (700 - 32) / 1.8)  # tempered-martensite embrittlement; from memory
STEP_K = 25 / 1.8  # common practice, no source
ABOVE = (1.0, 2.0)  # HRC above the accepted band for which a second temper is reckoned


def heat_section(plan: Plan, units: str) -> Section:
    """Return the heat-treating route with what to expect; `units` "inch" puts °F first, "mm" °C."""
    rows = [
        Row(
            f"{i}. {s.name}",
            _step_value(s, units),
            plain(s.text, units) if s.temperature_c or s.minutes else "",
            source_text(s.source),
        )
        for i, s in enumerate(plan.steps, 1)
    ]
    curve = plan.temper.curve
    hard = f"{temperature(curve.hardening_c, units)}, {curve.quench}"
    rows += [
        Row(
            "curve used",
            f"{curve.measured_on} hardened from {hard}",
            plain(curve.note, units),
            source_text(curve.source, curve.known),
        ),
        Row(
            "tempering parameter",
            f"{plan.parameter:.3f}",
            "all tempers together, with the usual constant of 20; to compare routes",
            HJ_SOURCE,
            "T·(20 + log₁₀ t)/1000, T in kelvin, t in hours",
        ),
    ]
    notes: tuple[str, ...] = ()
    if plan.cold_c is None and plan.temper_after_cold is not None:
        other = plan.temper_after_cold
        notes = (
            f"With a cold treatment between quench and temper, temper at {temperature(other.temperature_c, units)} "
            f"instead: {plain(other.branch, units)}.",
        )
    return Section("Heat treatment", tuple(rows), notes)


def _step_value(step: Step, units: str) -> str:
    bits = []
    if step.temperature_c is not None:
        a, b = step.temperature_c
        if step.name == "quench":
            bits.append(f"from {temperature(a, units)} to {temperature(b, units)}")
        else:
            bits.append(temperatures(a, b, units))
    if step.minutes is not None:
        a, b = step.minutes
        bits.append(f"{a:.0f} min" if abs(a - b) < 0.01 else f"{a:.0f} to {b:.0f} min")
    return ", ".join(bits) or plain(step.text, units)


def cold_section(cold_c: float, batch_kg: float, room_m3: float | None, units: str) -> Section:
    """Return the nitrogen for a batch and the oxygen it leaves.

    Args:
        cold_c: set point [degC].
        batch_kg: steel cooled at once [kg].
        room_m3: free volume of the room [m3], or None.
        units: "inch" puts °F first, "mm" °C.

    Raises:
        InputError: a set point that nitrogen cannot reach.
    """
    n = nitrogen_needed(batch_kg, ROOM_C, cold_c)
    span = f"from {temperature(ROOM_C, units)} to {temperature(cold_c, units)}"
    gas = ordered(f"{n.gas_m3 * FT_PER_M**3:.0f} ft³", f"{n.gas_m3:.2f} m³", units)
    rows = [
        Row(
            "liquid nitrogen",
            f"{mass(n.kg, units)}, {ordered(f'{n.litres / L_PER_GALLON:.2f} US gal', f'{n.litres:.2f} l', units)} for "
            f"{mass(batch_kg, units)} of steel {span}",
            "cold vapour wasted; box, baskets and standing loss come on top and usually exceed it",
            "heat capacity of iron: no published source, good to 2 percent; nitrogen 198.8 J/g and 806.5 kg/m³, "
            "UW-Madison data sheet",
        ),
        Row("gas", f"{gas} at {temperature((70 - 32) / 1.8, units)}"),
    ]
    if room_m3 is not None:
        percent = oxygen_after_release(room_m3, n.litres)
        text = f"{percent:.1f} percent if it all boils off in {room_m3:g} m³ of free, closed room"
        said = ". ".join([text, *(sentence(w, units) for w in oxygen_warnings(percent))])
        rows.append(Row("oxygen left", said, "", "University of Oxford S4/03 App. 1"))
    return Section("Cold treatment", tuple(rows))


def correction_section(plan: Plan, units: str) -> Section:
    """Return what to do with what the first piece reads: within the accepted band nothing, beyond it a remedy.

    Args:
        plan: the route; its band is what drawing and inspection accept.
        units: "inch" puts °F first, "mm" °C.
    """
    low, high = plan.band
    rows = [Row(f"{low:g} to {high:g} HRC", "pass: leave it alone")]
    apart, brittle = 0.0, False
    for off in ABOVE:
        # harder than the quench leaves it no tempered piece can read: that is a wrong reading, or no temper at all
        c = _correction(plan, high + off) if high + off <= plan.as_quenched[1] else None
        if c is not None:
            rows.append(Row(f"{high + off:g} HRC, {off:g} too hard", plain(c.advice, units), "", HJ_SOURCE))
            brittle = brittle or (c.temperature_c is not None and BRITTLE_C[0] < c.temperature_c < BRITTLE_C[1])
            if c.temperature_c is not None and c.temperature_other_c is not None:
                apart = max(apart, abs(c.temperature_other_c - c.temperature_c))
    c = _correction(plan, low - 1.0)
    if c is not None:
        rows.append(Row(f"below {low:g} HRC", plain(c.advice, units)))
    notes = ["A piece is easily made softer, never harder: stop short of the temperature given, measure, then go on."]
    if brittle:
        low_c, high_c = BRITTLE_C
        notes.append(
            f"From about {temperatures(low_c, high_c, units)} hardened steel can grow brittle (the maker's sheet gives "
            f"the steel's own range): go up in steps of {warmer(STEP_K, units)}, measure after each, and anneal and "
            "harden anew a piece that would have to go far into that range."
        )
    if apart:
        notes.append(
            "These temperatures take the usual constant of the tempering parameter, 20. The one published for a "
            f"high-carbon steel at low tempers, 13.3, differs by up to {warmer(apart, units)}."
        )
    return Section("What the first piece reads", tuple(rows), tuple(notes))


def _correction(plan: Plan, measured: float) -> Correction | None:
    """Return the remedy for a reading [HRC] after all tempers, or None where the curve gives none."""
    t = plan.temper
    gain = plan.target - t.curve.hardness(t.temperature_c)  # of a cold treatment, over the curve
    try:
        return correct_temper(
            plan.steel,
            plan.target - gain,
            measured - gain,
            t.temperature_c,
            hours=t.hours,
            tempers=t.tempers,
            hardening_c=t.curve.hardening_c,
        )
    except InputError:
        return None
