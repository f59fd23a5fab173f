"""The ready reckoner's questions of heat and cold: temper, temper-time, hardness, nitrogen, oxygen."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated

import typer

from parts.commands.show import option_fault, print_numbers, read_option
from shared import units
from shared.numbers import Numbers, Value
from shared.units import QuantityError

JsonFlag = Annotated[bool, typer.Option("--json", help="print one JSON object and nothing else")]


def register(app: typer.Typer) -> None:
    """Add the questions of heat and cold to the reckoner."""
    app.command("temper")(temper)
    app.command("temper-time")(temper_time)
    app.command("hardness")(hardness)
    app.command("nitrogen")(nitrogen)
    app.command("oxygen")(oxygen)


def finish(
    numbers: Numbers,
    as_json: bool,
    title: str,
    warnings: Sequence[str],
    cautions: Sequence[str],
    where: str = "reckoned",
) -> None:
    """Add the warnings to the numbers and print them; people also get the cautions.

    Args:
        numbers: what was reckoned.
        as_json: print one JSON object and nothing else.
        title: heading for people.
        warnings: what to watch; also in the JSON.
        cautions: where the work can hurt.
        where: source of the warnings.
    """
    if as_json:
        numbers.add("warnings", list(warnings), "what to watch", "limits as tabled", {}, where)
    print_numbers(numbers, as_json, title)
    if not as_json:
        for text in warnings:
            typer.echo(f"  Warning: {text}")
        for text in cautions:
            typer.echo(f"  Caution: {text}")


def _hardness(option: str, text: str) -> tuple[float, str]:
    try:
        return units.parse_hardness(text)
    except QuantityError as err:
        raise option_fault(option, text, err.allowed) from None


def temper(
    steel: Annotated[str, typer.Option("--steel", help="A2, O1, D2, M2, W1 or 52100")],
    hardness: Annotated[str | None, typer.Option("--hardness", help="wanted hardness, such as 62HRC")] = None,
    temperature: Annotated[str | None, typer.Option("--temperature", help='or a temper, such as "400 F"')] = None,
    hardening: Annotated[
        str | None,
        typer.Option("--hardening", help='hardening temperature, such as "1775 F"; default: the schedule\'s'),
    ] = None,
    as_json: JsonFlag = False,
) -> None:
    """Temper for a hardness, or hardness from a temper.

    Example: planewright reckon temper --steel A2 --hardness 61HRC
    """
    from parts.blade import temper as t
    from parts.blade.hardness import blade_hrc
    from parts.blade.heat_treat import CAUTIONS, choice_warnings

    if (hardness is None) == (temperature is None):
        both = "nothing" if hardness is None else f"{hardness} and {temperature}"
        raise option_fault("--hardness", both, "either --hardness or --temperature")
    hard_c = None if hardening is None else read_option("--hardening", hardening, units.TEMPERATURE)
    out = Numbers("temper")
    if hardness is not None:
        choice = t.choose_temper(steel, blade_hrc(*_hardness("--hardness", hardness)), hard_c)
        curve, value, hrc, band = choice.curve, choice.temperature_c, choice.target, choice.band
        warnings = choice_warnings(choice)
    else:
        value = read_option("--temperature", str(temperature), units.TEMPERATURE)
        curve = t.curve_for(steel, hard_c)
        hrc, band = curve.hardness(value), curve.band(value)
        choice, warnings = None, []
    put: dict[str, Value] = {"steel": curve.steel, "hardening_f": curve.hardening_f}
    source = f"{curve.source} ({curve.known})"
    tempers = t.temper_count(curve.steel, curve.hardening_f)
    out.add(
        "temperature_c",
        value,
        choice.branch if choice else "temper as asked",
        "temper curve, linear between rows",
        put,
        source,
    )
    out.add("hardness_hrc", hrc, "hardness on that curve", "temper curve, linear between rows", put, source)
    out.add("tempers", tempers, f"number of tempers; curve held for: {curve.hold}", "schedule", put, source)
    out.add(
        "hardening_temperature_c", curve.hardening_c, "hardening temperature the curve belongs to", "table", put, source
    )
    out.add("expected_low_hrc", band[0], "lowest hardness to expect", "curve - spread", put, curve.note or source)
    out.add("expected_high_hrc", band[1], "highest hardness to expect", "curve + spread", put, curve.note or source)
    if choice is not None:
        out.add("unique", choice.unique, "only one temperature gives it", "temper curve read backward", put, source)
        out.add("temperature_low_c", choice.low_c, "lowest temper that gives it here", "temper curve", put, source)
        out.add("temperature_high_c", choice.high_c, "highest temper that gives it here", "temper curve", put, source)
    finish(out, as_json, f"Temper of {curve.steel}", warnings, CAUTIONS, source)


def temper_time(
    temperature: Annotated[str, typer.Option("--temperature", help='temper used, such as "400 F"')],
    time: Annotated[str, typer.Option("--time", help='time at temperature, such as "2 h"')],
    new_temperature: Annotated[
        str | None, typer.Option("--new-temperature", help="for which the time is asked")
    ] = None,
    new_time: Annotated[str | None, typer.Option("--new-time", help="or for which the temperature is asked")] = None,
    constant: Annotated[float, typer.Option("--constant", help="C for time in hours")] = 20.0,
    as_json: JsonFlag = False,
) -> None:
    """Trade time against temperature of a temper, by Hollomon and Jaffe.

    Example: planewright reckon temper-time --temperature "400 F" --time 2h --new-temperature "350 F"
    """
    from parts.blade import retemper as r

    if (new_temperature is None) == (new_time is None):
        read = "nothing" if new_time is None else f"{new_temperature} and {new_time}"
        raise option_fault("--new-temperature", read, "either --new-temperature or --new-time")
    if not 5 <= constant <= 40:
        raise option_fault("--constant", constant, "5 to 40, for time in hours")
    t_c = read_option("--temperature", temperature, units.TEMPERATURE, -r.KELVIN)
    hours = read_option("--time", time, units.TIME, 0.0) / 3600
    value = r.parameter(t_c, hours, constant)
    if new_temperature is not None:
        t_new = read_option("--new-temperature", new_temperature, units.TEMPERATURE, -r.KELVIN)
        h_new = r.equal_time(value, t_new, constant)
    else:
        h_new = read_option("--new-time", str(new_time), units.TIME, 0.0) / 3600
        t_new = r.equal_temperature(value, h_new, constant)
    out = Numbers("temper-time")
    put: dict[str, Value] = {"T_c": t_c, "t_h": hours, "C": constant}
    source = f"{r.SOURCE}; C = {constant:g}"
    out.add("new_time_h", h_new, f"time at {t_new:.1f} °C", "10^(1000*P/T - C)", put, source)
    out.add("new_temperature_c", t_new, f"temperature for {h_new:.3g} h", "1000*P/(C + log10 t)", put, source)
    out.add("parameter", value, "tempering parameter", "T*(C + log10 t)/1000, T in K, t in h", put, source)
    warnings = [
        f"the answer depends strongly on C: it was reckoned with {constant:g}; 20 is usual, 13.3 fits a plain 0.98 C "
        "steel between 100 and 300 °C better",
        "secondary hardening and retained austenite are not in this rule: keep near the time and temperature tried",
    ]
    finish(out, as_json, "Time and temperature of a temper", warnings, [], source)


def hardness(
    value: Annotated[str, typer.Option("--value", help="hardness with its scale, such as 62HRC")],
    to: Annotated[str, typer.Option("--to", help="wanted scale: HRC, HV, HBW or HRA")],
    as_json: JsonFlag = False,
) -> None:
    """Convert a hardness by ASTM E140 Table 1.

    Example: planewright reckon hardness --value 62HRC --to HV
    """
    from parts.blade.hardness import SOURCE, convert

    number, scale = _hardness("--value", value)
    result = convert(number, scale, to)
    out = Numbers("hardness")
    put: dict[str, Value] = {"value": number, "scale": scale}
    out.add("value", result, f"{number:g} {scale} in {to}, interpolated", "linear between the rows", put, SOURCE)
    out.add(
        "rounded",
        round(result),
        f"as it may be written: {round(result)} {to}",
        "whole number (E140 1.10, E29)",
        put,
        SOURCE,
    )
    warnings = ["every converted hardness is approximate: test in the scale that the drawing names"]
    finish(out, as_json, f"{number:g} {scale} in {to}", warnings, [], SOURCE)


def nitrogen(
    steel_mass: Annotated[str, typer.Option("--steel-mass", help='steel to be cooled, such as "5 lb"')],
    from_: Annotated[str, typer.Option("--from", help='start, such as "70 F"')],
    to: Annotated[str, typer.Option("--to", help='set point, such as "-300 F"')],
    as_json: JsonFlag = False,
) -> None:
    """Liquid nitrogen that boils off to cool steel.

    Example: planewright reckon nitrogen --steel-mass "5 lb" --from "70 F" --to "-300 F"
    """
    from parts.blade.cryo import CAUTIONS, nitrogen_needed

    mass = read_option("--steel-mass", steel_mass, units.MASS, 0.0)
    start = read_option("--from", from_, units.TEMPERATURE)
    end = read_option("--to", to, units.TEMPERATURE)
    n = nitrogen_needed(mass, start, end)
    out = Numbers("nitrogen")
    put: dict[str, Value] = {"mass_kg": mass, "from_c": start, "to_c": end}
    source = (
        "heat capacity of iron (memory, 2 percent); heat of vaporisation 198.8 J/g, 806.5 kg/m3 (UW-Madison data sheet)"
    )
    out.add(
        "nitrogen_kg",
        n.kg,
        "liquid that boils off for the steel alone, cold vapour wasted",
        "mass*dh/198.8",
        put,
        source,
    )
    out.add("nitrogen_l", n.litres, "the same in litres; box and standing loss come on top", "kg/0.8065", put, source)
    out.add("heat_kj", n.heat_kj, "heat the steel gives up", "mass*integral of cp", put, source)
    out.add("gas_m3", n.gas_m3, "gas it becomes, at 70 °F", "litres*0.6949", put, source)
    finish(out, as_json, "Liquid nitrogen for a cold treatment", n.warnings, CAUTIONS, source)


def oxygen(
    room_volume: Annotated[str, typer.Option("--room-volume", help='free volume of the room, such as "36 m3"')],
    nitrogen_volume: Annotated[str, typer.Option("--nitrogen-volume", help='liquid nitrogen, such as "10 l"')],
    as_json: JsonFlag = False,
) -> None:
    """Oxygen left in a closed room when liquid nitrogen has boiled off in it.

    Example: planewright reckon oxygen --room-volume 36m3 --nitrogen-volume 10l
    """
    from parts.blade.cryo import CAUTIONS, oxygen_after_release, oxygen_warnings

    room = read_option("--room-volume", room_volume, units.VOLUME, 0.0) / 1000
    litres = read_option("--nitrogen-volume", nitrogen_volume, units.VOLUME, -1e-12)
    percent = oxygen_after_release(room, litres)
    out = Numbers("oxygen")
    out.add(
        "oxygen_percent",
        percent,
        "oxygen left, evenly mixed, no ventilation",
        "21*(V - 0.7*litres)/V",
        {"room_m3": room, "litres": litres},
        "displacement form, University of Oxford safety policy S4/03 Appendix 1",
    )
    finish(out, as_json, "Oxygen in the room", oxygen_warnings(percent), CAUTIONS)
