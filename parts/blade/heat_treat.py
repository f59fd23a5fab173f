"""The heat treater's route for one blade: every step with its temperature, time and reason."""

from __future__ import annotations

import math
from typing import Any

from parts.blade.cryo import retained_after, set_point
from parts.blade.hardness import steel_name
from parts.blade.retemper import CONSTANT, parameter_of_holds
from parts.blade.temper import TemperChoice, c_to_f, choose_temper, f_to_c
from shared.errors import InputError
from shared.record import Value, replace
from shared.tables import table

INCH_MM = 25.4
ROOM_C = 20.0
CAUTIONS = (
    "Hot work: furnace, tongs, eye and face protection, dry floor; no water near a quench oil, a lid and an "
    "extinguisher beside it.",
    "Times count from when the steel, not the furnace, is at temperature.",
    "Keep air off the steel while it is hot (atmosphere, vacuum, an anti-scale coat; foil only for a quench in air or "
    "between plates), or grind the decarburised skin off later.",
    "The steel maker's data sheet for the bar in hand, local codes and licensed practice rule over this card.",
)


class Step(Value):
    """One step of the route."""

    name: str
    temperature_c: tuple[float, float] | None  # from, to; equal when one value is set
    minutes: tuple[float, float] | None
    text: str
    source: str


class Plan(Value):
    """The whole route, with what to expect and what to watch."""

    steel: str
    target: float
    thickness: float
    steps: tuple[Step, ...]
    temper: TemperChoice
    as_quenched: tuple[float, float]
    band: tuple[float, float]
    cold_c: float | None
    temper_after_cold: TemperChoice | None  # where a cold treatment of about 1 HRC gain moves the temper
    parameter: float
    warnings: tuple[str, ...]
    cautions: tuple[str, ...] = CAUTIONS


def schedule(steel: str) -> dict[str, Any]:
    """Return the schedule row of a steel.

    Raises:
        InputError: unknown steel, with the nearest name.
    """
    return dict(table("steel")["schedule"][steel_name(steel)])


def soak_minutes(steel: str, thickness: float) -> tuple[float, float]:
    """Return the soak at hardening temperature [min] for a section thickness [mm].

    The sheets give a time for the first inch; a section up to half an inch takes the lower half of it. One over an
    inch takes the whole time and, for each further inch, the sheet's extra or else the whole time again.

    Raises:
        InputError: unknown steel.
    """
    row = schedule(steel)
    low, high = (float(v) for v in row["soak_first_inch_min"])
    if thickness <= INCH_MM / 2:
        return low, (low + high) / 2
    extra = max(0.0, math.ceil(thickness / INCH_MM - 1)) * float(row.get("soak_further_inch_min", high))
    return low + extra, high + extra


def _degrees(pair: list[float]) -> tuple[float, float]:
    return f_to_c(float(pair[0])), f_to_c(float(pair[1]))


def _preheats(row: dict[str, Any]) -> list[Step]:
    steps = []
    if "preheat_f" in row:
        t = _degrees(row["preheat_f"])
        steps.append(Step("preheat", t, None, "heat through slowly, until the colour is even", row["source"]))
    if "second_preheat_f" in row:
        t = _degrees(row["second_preheat_f"])
        steps.append(Step("second preheat", t, None, "even out just below the hardening range", row["source"]))
    return steps


def _hardening(row: dict[str, Any], steel: str, choice: TemperChoice, thickness: float) -> list[Step]:
    hard = choice.curve.hardening_c
    low, high = (int(v) for v in row.get("austenitise_cold_work_f", row["austenitise_f"]))
    as_quenched = row["as_quenched_hrc"]
    if "air" in row["quench_medium"]:
        how = "A thin blade stays flattest between two plates; else hang it by the slot, away from draughts on one side"
    else:
        how = "Hang it by the slot, in edge first and upright, and move it up and down, never sideways"
    harden = f"range {low} to {high} F; the temper curve belongs to {choice.curve.hardening_f:g} F"
    quench = f"{row['quench']}. {how}. Go on to the next step as soon as it is hand warm; an untempered blade can crack"
    check = f"as quenched {as_quenched[0]} to {as_quenched[1]} HRC on a spot ground free of skin; a file skates over it"
    return [
        Step("harden", (hard, hard), soak_minutes(steel, thickness), harden, row["source"]),
        Step("quench", (hard, f_to_c(float(row["quench_to_f"]))), None, quench, row["source"]),
        Step("check", None, None, check, row["source"]),
    ]


def _cold(steel: str, cold_c: float, thickness: float) -> Step:
    data = table("steel")["cold_treatment"]
    reached = set_point(cold_c).reached_c
    minutes = max(60.0, 60 * float(data["hold_h_per_inch"]) * thickness / INCH_MM)
    before, after = retained_after(steel, ROOM_C), retained_after(steel, reached)
    text = (
        f"{data['after_quench']}. Austenite left by Koistinen-Marburger: {100 * before[0]:.0f} to "
        f"{100 * before[1]:.0f} percent at room temperature, {100 * after[0]:.1f} to {100 * after[1]:.1f} after "
        f"(a trend, not a measurement). The other order is {data['after_snap']}"
    )
    return Step("cold treatment", (reached, reached), (minutes, minutes), text, str(data["source"]))


def _tempers(used: TemperChoice) -> list[Step]:
    span = (used.temperature_c, used.temperature_c)
    minutes = (60 * used.hours, 60 * used.hours)
    cool = "cool to room temperature in still air before the next step"
    first = cool if used.unique else f"{used.branch}; {cool}"
    return [
        Step(f"temper {i + 1} of {used.tempers}", span, minutes, "the same again" if i else first, used.curve.source)
        for i in range(used.tempers)
    ]


def heat_treat_plan(
    steel: str, target: float, thickness: float, *, hardening_c: float | None = None, cold_c: float | None = None
) -> Plan:
    """Return the heat-treating route of a blade.

    Args:
        steel: such as "A2".
        target: wanted hardness [HRC].
        thickness: blade thickness [mm].
        hardening_c: hardening temperature [degC], or None for the schedule's own.
        cold_c: set point of a cold treatment [degC], or None for none.

    Raises:
        InputError: unknown steel, hardness out of its reach, or a set point that nitrogen cannot reach.
    """
    name = steel_name(steel)
    row = schedule(name)
    choice = choose_temper(name, target, hardening_c)
    after_cold = _after_cold(name, target, choice, row)
    used = after_cold if cold_c is not None and after_cold is not None else choice
    warnings = choice_warnings(used)
    steps = [*_preheats(row), *_hardening(row, name, used, thickness)]
    if cold_c is not None:
        steps.append(_cold(name, cold_c, thickness))
        warnings += set_point(cold_c).warnings
        if row["cold_treatment"] == "little":
            warnings.append(f"a cold treatment does little for {name}: {row['cold_note']}")
    elif row["cold_treatment"] == "helps":
        warnings.append(
            f"this route has no cold treatment: the quench leaves some soft austenite in {name}. Cooling the blade "
            "deep between quench and temper would turn most of it and make the blade harder and steadier in size. Do "
            "not add it unasked: the temper changes with it"
        )
    steps += _tempers(used)
    expect = f"expect {used.band[0]:g} to {used.band[1]:g} HRC, wanted {target:g}"
    steps.append(Step("check", None, None, expect, used.curve.source))
    return Plan(
        steel=name,
        target=target,
        thickness=thickness,
        steps=tuple(steps),
        temper=used,
        as_quenched=(float(row["as_quenched_hrc"][0]), float(row["as_quenched_hrc"][1])),
        band=used.band,
        cold_c=cold_c,
        temper_after_cold=after_cold,
        parameter=parameter_of_holds([(used.temperature_c, used.hours * used.tempers)], CONSTANT),
        warnings=tuple(warnings),
    )


def _after_cold(name: str, target: float, choice: TemperChoice, row: dict[str, Any]) -> TemperChoice | None:
    """Return the temper that still reads the target after a cold treatment of the usual gain, if the curve has one."""
    if row["cold_treatment"] != "helps":
        return None
    gain = float(table("steel")["cold_treatment"]["gain_used_hrc"])
    try:
        moved = choose_temper(name, target - gain, choice.curve.hardening_c)
    except InputError:
        return None
    branch = (
        f"after a cold treatment, which adds about {gain:g} HRC (no published source), the curve's "
        f"{target - gain:g} HRC reads {target:g}"
    ) + ("" if moved.unique else f"; {moved.branch}")
    return replace(moved, target=target, branch=branch, band=(moved.band[0] + gain, moved.band[1] + gain))


def advised_temper(steel: str) -> tuple[float, float]:
    """Return the coolest and hottest temper that a steel's data sheets advise [°C].

    Raises:
        InputError: unknown steel.
    """
    low, high = (f_to_c(float(v)) for v in schedule(steel_name(steel))["temper_f"])
    return low, high


def choice_warnings(choice: TemperChoice) -> list[str]:
    """Return what to watch with a temper: outside the sheets' range, from memory, another steel's curve, not unique."""
    row = schedule(choice.curve.steel)
    warnings = []
    f = c_to_f(choice.temperature_c)
    low, high = (float(v) for v in row["temper_f"])
    if not low - 0.5 <= f <= high + 0.5:
        text = f"temper at {f:.0f} F lies outside the {low:g} to {high:g} F that the steel's data sheets advise"
        if f < low and row["cold_treatment"] == "helps":
            text += "; a cold treatment, about 1 HRC harder, lets the same hardness be had by a hotter temper"
        warnings.append(text)
    if choice.curve.known == "memory":
        warnings.append(f"the temper curve is from memory: {choice.curve.note}")
    if choice.curve.measured_on != choice.curve.steel:
        warnings.append(f"curve measured on {choice.curve.measured_on}")
    if not choice.unique:
        warnings.append(choice.branch)
    return warnings
