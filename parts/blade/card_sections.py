"""The sections of the blade card."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from parts.blade.angles import Orientation
from parts.blade.bevel import bevel_length
from parts.blade.cryo import nitrogen_needed, oxygen_after_release, oxygen_warnings
from parts.blade.heat_treat import ROOM_C, Plan, Step
from parts.blade.retemper import SOURCE as HJ_SOURCE
from parts.blade.retemper import correct_temper
from parts.blade.stock import GRINDING_SOURCE, BarOrder, Blank, grinding_order
from parts.blade.temper import c_to_f
from shared import thermal
from shared.errors import InputError
from shared.fits import general_angle, general_linear
from shared.numbers import Number, Numbers
from shared.tables import table
from shared.units import both_units


@dataclass(frozen=True)
class Row:
    """One line of the card."""

    label: str
    value: str
    how: str = ""
    source: str = ""


@dataclass(frozen=True)
class Section:
    """One group of lines."""

    name: str
    rows: tuple[Row, ...]
    notes: tuple[str, ...] = ()


def _label(key: str, unit: str) -> str:
    ends = {"mm": "_mm", "deg": "_deg", "°C": "_c", "HRC": "_hrc", "MPa": "_mpa", "N": "_n", "N/mm": "_n_per_mm"}
    return key.removesuffix(ends.get(unit, "")).replace("_", " ")


def say(number: Number, units: str) -> str:
    """Return one number's value as text with its unit, lengths and temperatures in both units."""
    value = number.value
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return "; ".join(_say_item(v) for v in value)
    if not isinstance(value, int | float):
        return str(value)
    if number.unit == "mm":
        return both_units(float(value), units)
    if number.unit == "°C":
        return degrees(float(value))
    return f"{value:.4g} {number.unit}".rstrip() if isinstance(value, float) else f"{value} {number.unit}".rstrip()


def _say_item(item: object) -> str:
    if isinstance(item, dict) and "effect_mm" in item:
        mark = " (largest)" if item.get("largest") else ""
        return f"{item['name']} {item['tolerance']:g} {item['unit']} gives {item['effect_mm']:.3f} mm{mark}"
    return str(item)


def degrees(c: float) -> str:
    """Return a temperature [degC] as text in both scales."""
    return f"{c_to_f(c):.0f} F ({c:.0f} C)"


def numbers_section(name: str, numbers: Numbers, units: str, wanted: Callable[[str], bool]) -> Section:
    """Return a section of the numbers whose key is wanted.

    Args:
        name: heading.
        numbers: the list.
        units: "inch" or "mm", which stands first.
        wanted: tells from a key whether it belongs here.
    """
    rows = [
        Row(_label(n.key, n.unit), say(n, units), f"{n.meaning}: {n.formula}", n.source)
        for n in numbers
        if wanted(n.key)
    ]
    return Section(name, tuple(rows))


def angle_section(blade: Numbers, units: str) -> Section:
    """Return the angles; along the travel only where the edge is skewed. `units` says which unit stands first."""
    rules = ("_section_deg", "_velocity_deg", "_chip_flow_deg")
    skewed = abs(blade.value("cutting_angle_deg") - blade.value("cutting_angle_velocity_deg")) > 1e-9

    def wanted(key: str) -> bool:
        return "_angle_" in key and not key.startswith("hollow") and (skewed or not key.endswith(rules))

    found = numbers_section("Angles", blade, units, wanted)
    if skewed:
        note = "Three published rules for a skewed edge answer three questions; none of them is the one angle."
    else:
        note = "No skew: the three rules for a skewed edge all give these angles."
    return Section(found.name, found.rows, (note,))


def fits_section(bedding: Numbers) -> Section:
    """Return the fits of pins and screws by ISO 286."""
    number = bedding["pin_fits"]
    rows = []
    for pin in number.value if isinstance(number.value, list) else []:
        if isinstance(pin, dict):
            hole, shaft, play = pin["hole_um"], pin["shaft_um"], pin["clearance_um"]
            text = (
                f"{pin['diameter_mm']:g} mm {pin['fit']}: hole {hole[0]:+g} to {hole[1]:+g}, shaft {shaft[0]:+g} to "
                f"{shaft[1]:+g}, clearance {play[0]:+g} to {play[1]:+g} um"
            )
            rows.append(Row(str(pin["name"]), text, "", number.source))
    return Section("Fits", tuple(rows))


def cold_section(cold_c: float, batch_kg: float, room_m3: float | None) -> Section:
    """Return the nitrogen for a batch and the oxygen it leaves.

    Args:
        cold_c: set point [degC].
        batch_kg: steel cooled at once [kg].
        room_m3: free volume of the room [m3], or None.

    Raises:
        InputError: a set point that nitrogen cannot reach.
    """
    n = nitrogen_needed(batch_kg, ROOM_C, cold_c)
    rows = [
        Row(
            "liquid nitrogen",
            f"{n.kg:.2f} kg, {n.litres:.2f} l for {batch_kg:g} kg of steel from {degrees(ROOM_C)} to {degrees(cold_c)}",
            "cold vapour wasted; box, baskets and standing loss come on top and usually exceed it",
            "heat capacity of iron (memory, 2 percent); 198.8 J/g and 806.5 kg/m3, UW-Madison data sheet",
        ),
        Row("gas", f"{n.gas_m3:.2f} m3 at 70 F"),
    ]
    if room_m3 is not None:
        percent = oxygen_after_release(room_m3, n.litres)
        text = f"{percent:.1f} percent if it all boils off in {room_m3:g} m3 of free, closed room"
        rows.append(
            Row("oxygen left", " ".join([text, *oxygen_warnings(percent)]), "", "University of Oxford S4/03 App. 1")
        )
    return Section("Cold treatment", tuple(rows))


def _size3(sizes: tuple[float, float, float], units: str) -> str:
    return " x ".join(both_units(v, units) for v in sizes)


def making_section(blank: Blank | None, units: str, orientation: Orientation = "bevel-down") -> Section:
    """Return bar, blank and order of work; `units` says which unit stands first."""
    rows = []
    if blank is not None:
        rows += [
            Row("finished", _size3(blank.finished, units), "width x length x thickness"),
            Row(
                "blank, soft",
                _size3(blank.before_hardening, units),
                f"(finished + stock)/(1 + {blank.growth:g} growth)",
            ),
            Row("saw off", both_units(blank.sawn_length, units), "blank length and 1 mm at each end to square"),
            Row(
                "ground flat bar",
                " x ".join(both_units(v, units) for v in blank.ground_bar),
                "width x thickness, next up",
            ),
        ]
        if blank.hot_rolled_bar is not None:
            rows.append(
                Row(
                    "or hot rolled bar",
                    " x ".join(both_units(v, units) for v in blank.hot_rolled_bar),
                    "least width x thickness, skin and decarburised layer to be taken off every side before hardening",
                    str(table("steel")["grinding"]["hot_rolled_flat"]["source"]),
                )
            )
    order = enumerate(grinding_order(orientation), 1)
    rows += [Row(f"{i}. {what}", finish, why, GRINDING_SOURCE) for i, (what, finish, why) in order]
    burn = table("steel")["grinding"]["burn"]
    return Section("Making", tuple(rows), (f"Grinding burn: {burn['rule']} ({burn['source']}).",))


def bars_section(bars: BarOrder, kerf: float, units: str) -> Section:
    """Return the bars to buy; kerf [mm], `units` says which unit stands first."""
    rows = [
        Row(
            f"{c.times} bar{'s' if c.times > 1 else ''} of {both_units(c.bar, units)}",
            ", ".join(f"{n} x {both_units(length, units)}" for length, n in c.pieces),
            f"left over {both_units(c.left_over, units)}",
        )
        for c in bars.cuts
    ]
    proof = "proven the least length bought" if bars.optimal else "best found, not proven the least"
    used = 100 * bars.used_fraction
    used = 100 * bars.used_fraction
    note = f"{bars.bars} bars, {used:.1f} percent used, kerf {kerf:g} mm; {proof} (integer program, HiGHS)."
    return Section("Bars to buy", tuple(rows), (note,))


def _step_value(step: Step) -> str:
    bits = []
    if step.temperature_c is not None:
        a, b = step.temperature_c
        if step.name == "quench":
            bits.append(f"from {degrees(a)} to {degrees(b)}")
        else:
            bits.append(degrees(a) if abs(a - b) < 0.01 else f"{degrees(a)} to {degrees(b)}")
    if step.minutes is not None:
        a, b = step.minutes
        bits.append(f"{a:.0f} min" if abs(a - b) < 0.01 else f"{a:.0f} to {b:.0f} min")
    return ", ".join(bits) or step.text


def heat_section(plan: Plan) -> Section:
    """Return the heat-treating route with what to expect."""
    rows = [
        Row(f"{i}. {s.name}", _step_value(s), s.text if s.temperature_c or s.minutes else "", s.source)
        for i, s in enumerate(plan.steps, 1)
    ]
    notes = [
        f"Temper curve: hardened at {plan.temper.curve.hardening_f:g} F, {plan.temper.curve.quench}; measured on "
        f"{plan.temper.curve.measured_on}; {plan.temper.curve.note} ({plan.temper.curve.known}).",
        f"Tempering parameter T*(20 + log10 t)/1000 of all tempers together: {plan.parameter:.3f} ({HJ_SOURCE}).",
    ]
    if plan.cold_c is None and plan.temper_after_cold is not None:
        notes.append(
            "With a cold treatment between quench and temper, temper at "
            f"{degrees(plan.temper_after_cold.temperature_c)} instead: {plan.temper_after_cold.branch}."
        )
    return Section("Heat treatment", tuple(rows), tuple(notes))


def correction_section(plan: Plan) -> Section:
    """Return what to do when the first piece reads high or low."""
    t = plan.temper
    gain = plan.target - t.curve.hardness(t.temperature_c)
    rows = []
    for off in (2.0, 1.0, -1.0):
        try:
            c = correct_temper(
                plan.steel,
                plan.target - gain,
                plan.target - gain + off,
                t.temperature_c,
                hours=t.hours,
                tempers=t.tempers,
                hardening_c=t.curve.hardening_c,
            )
        except InputError:
            continue
        word = "high" if off > 0 else "low"
        rows.append(
            Row(f"reads {plan.target + off:g} HRC ({abs(off):g} {word})", c.advice, "", HJ_SOURCE if off > 0 else "")
        )
    rows.append(Row("within 0.5 HRC", "leave it alone"))
    return Section("If the first piece reads otherwise", tuple(rows))


def tolerance_section(length: float, width: float, thickness: float, bevel: float, units: str) -> Section:
    """Return the general tolerances that apply where the drawing gives none; sizes [mm], bevel [deg]."""
    source = "ISO 2768-1:1989 class m"
    rows = [
        Row(name, f"{both_units(size, units)} plus/minus {both_units(general_linear(size, 'm'), units)}", "", source)
        for name, size in (("length", length), ("width", width), ("thickness", thickness))
    ]
    side = bevel_length(thickness, bevel)
    rows.append(Row("bevel angle", f"{bevel:g} deg plus/minus {general_angle(side, 'm') / 60:g} deg", "", source))
    note = "Too coarse for thickness and face: there the finishes and tolerances under Making hold."
    return Section("General tolerances", tuple(rows), (note,))


def bow_section(steel: str, length: float, thickness: float, units: str) -> Section:
    """Return how little warmth already bows the blade; length and thickness [mm]."""
    alpha = thermal.expansion(steel)
    kelvin = thermal.difference_for_bow(length, thickness, alpha.per_k)
    rows = (
        Row(
            "bow per kelvin",
            f"{thermal.bow_per_k(length, thickness, alpha.per_k):.1f} um/K",
            "alpha*L^2/(8h), face and back differing by 1 K",
            alpha.source,
        ),
        Row(
            f"{both_units(thermal.THOU_MM, units)} is reached at",
            f"{kelvin:.2f} K ({1.8 * kelvin:.2f} F)",
            "let the blade rest on the plate before it is gauged, and grind cool on a thin blade",
            thermal.BOW_SOURCE,
        ),
    )
    return Section("Warmth and flatness", rows)
