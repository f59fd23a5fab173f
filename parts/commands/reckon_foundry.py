"""The ready reckoner's foundry questions: contraction, allowance, choke, solidification, castings.

The arithmetic is imported inside each command, so that `--help` answers at once.
"""

from __future__ import annotations

from typing import Annotated

import typer

from parts.commands.show import option_fault, print_numbers, read_option
from shared import units
from shared.numbers import Numbers

JsonFlag = Annotated[bool, typer.Option("--json", help="print one JSON object and nothing else")]


def register(app: typer.Typer) -> None:
    """Add the foundry's questions to the reckoner."""
    app.command("contraction")(contraction)
    app.command("allowance")(allowance)
    app.command("choke")(choke)
    app.command("solidification")(solidification)
    app.command("castings")(castings)


def _one_contraction(
    alloy_id: str | None, written: str | None, alloy_option: str, text_option: str
) -> tuple[float, str] | None:
    """Return a contraction [-] and where it comes from, from an alloy's id or from text; None when neither is given."""
    from shared.casting.alloy import alloy
    from shared.casting.contraction import parse_contraction

    if alloy_id is not None and written is not None:
        raise option_fault(text_option, written, f"either {alloy_option} or {text_option}, not both")
    if written is not None:
        return parse_contraction(written, "command line", text_option), f"given with {text_option}"
    if alloy_id is not None:
        metal = alloy(alloy_id, "command line", alloy_option)
        spread = f"{100 * metal.contraction_low:.2f} to {100 * metal.contraction_high:.2f} %"
        return metal.contraction, f"{metal.name}: spread {spread}; {metal.source_of('contraction')}"
    return None


def contraction(
    length: Annotated[str, typer.Option("--length", help='size of the casting, such as "14 in"')],
    alloy: Annotated[str | None, typer.Option("--alloy", help="cast alloy, such as ductile-iron-65-45-12")] = None,
    allowance: Annotated[str | None, typer.Option("--allowance", help='instead: "7/32 in/ft", "1.8 %"')] = None,
    pattern_alloy: Annotated[
        str | None, typer.Option("--pattern-alloy", help="metal of a cast working pattern: aluminium-pattern-metal")
    ] = None,
    pattern_allowance: Annotated[
        str | None, typer.Option("--pattern-allowance", help="instead: its contraction")
    ] = None,
    as_json: JsonFlag = False,
) -> None:
    """Size of a pattern, and of the master a cast pattern is moulded from.

    Example: planewright reckon contraction --length "14 in" --alloy ductile-iron-65-45-12
    """
    from shared.casting.contraction import CONVENTION, master_size, pattern_size

    size = read_option("--length", length, units.LENGTH, 0.0)
    cast = _one_contraction(alloy, allowance, "--alloy", "--allowance")
    if cast is None:
        raise option_fault("--alloy", "nothing", 'an alloy\'s id, or --allowance such as "1/8 in/ft"')
    pattern_metal = _one_contraction(pattern_alloy, pattern_allowance, "--pattern-alloy", "--pattern-allowance")
    s, source = cast
    out = Numbers("contraction")
    out.add("contraction", s, "contraction, of the casting's length", "allowance per unit length", {}, source)
    values = {"casting_mm": size, "contraction": s}
    out.add(
        "pattern_length_mm",
        pattern_size(size, s),
        "size of the pattern",
        "casting × (1 + contraction)",
        values,
        CONVENTION,
    )
    if pattern_metal is not None:
        p, p_source = pattern_metal
        out.add(
            "master_length_mm",
            master_size(size, s, p),
            "size of the master for a cast working pattern",
            f"casting × (1 + contraction) × (1 + {p:.5g})",
            {**values, "pattern_contraction": p},
            f"{CONVENTION}; pattern metal {p_source}",
        )
    print_numbers(out, as_json, f"Contraction of {units.both_units(size)}")


def allowance(
    dimension: Annotated[str, typer.Option("--dimension", help='finished size, such as "240 mm"')],
    tolerance_grade: Annotated[str, typer.Option("--tolerance-grade", help='casting tolerance grade, "9" or "DCTG 9"')],
    machining_grade: Annotated[str, typer.Option("--machining-grade", help="machining-allowance grade, A to K")],
    largest: Annotated[
        str | None, typer.Option("--largest", help="largest finished size of the whole part; default: --dimension")
    ] = None,
    as_json: JsonFlag = False,
) -> None:
    """Casting tolerance, machining allowance and raw sizes by ISO 8062.

    Example: planewright reckon allowance --dimension 240mm --tolerance-grade 9 --machining-grade E
    """
    from shared.casting import allowance as iso
    from shared.errors import RequestError

    size = read_option("--dimension", dimension, units.LENGTH, 0.0, 1600.0)
    most = size if largest is None else read_option("--largest", largest, units.LENGTH, 0.0, 1600.0)
    if most < size:
        raise option_fault("--largest", largest, f"at least --dimension ({size:g} mm)")
    grade = iso.read_tolerance_grade(tolerance_grade)
    letter = iso.read_machining_grade(machining_grade)
    tolerance = iso.dimension_tolerance(size, grade)
    rma = iso.machining_allowance(most, letter)
    out = Numbers("allowance")
    out.add(
        "tolerance_mm", tolerance, f"whole casting tolerance, ± {tolerance / 2:g} mm", f"table, grade {grade}",
        {"dimension_mm": size, "grade": grade}, iso.SOURCE_TOLERANCE,
    )  # fmt: skip
    out.add(
        "machining_allowance_mm", rma, "required allowance of each machined face", f"table, grade {letter}",
        {"largest_mm": most}, iso.SOURCE_ALLOWANCE,
    )  # fmt: skip
    rows: list[tuple[str, iso.Kind, str]] = [
        ("raw_outside_one_side_mm", "outside one side", "F + RMA + CT/2"),
        ("raw_outside_two_sides_mm", "outside two sides", "F + 2·RMA + CT/2"),
        ("raw_inside_two_sides_mm", "inside two sides", "F − 2·RMA − CT/2"),
    ]
    for key, kind, formula in rows:
        try:
            raw = iso.raw_dimension(size, kind, rma, grade)
        except RequestError as err:
            if not kind.startswith("inside"):
                raise
            typer.echo(f"{key} is left out: {err}", err=True)
            continue
        values = {"finished_mm": size, "rma_mm": rma, "ct_at_raw_mm": raw.tolerance_mm}
        out.add(key, raw.raw_mm, f"raw casting size, {kind} machined", formula, values, "ISO 8062:1994")
    print_numbers(out, as_json, f"ISO 8062 for {units.both_units(size)}, DCTG {grade}, RMAG {letter}")


def choke(
    mass: Annotated[str, typer.Option("--mass", help='all metal that passes the choke, such as "2.5 kg"')],
    density: Annotated[str, typer.Option("--density", help='density of the LIQUID metal, such as "6900 kg/m3"')],
    head: Annotated[str, typer.Option("--head", help='effective head, such as "100 mm"')],
    time: Annotated[str, typer.Option("--time", help='pouring time, such as "4 s"')],
    coefficient: Annotated[float, typer.Option("--coefficient", help="discharge; 0.4 to 0.7 with bends")] = 0.8,
    as_json: JsonFlag = False,
) -> None:
    """Area of the choke of a gating system.

    Example: planewright reckon choke --mass 2.5kg --density "6900 kg/m3" --head 100mm --time 4s
    """
    from shared.casting.gating import SOURCE, choke_area

    values = {
        "mass_kg": read_option("--mass", mass, units.MASS, 0.0),
        "density_kg_m3": read_option("--density", density, units.DENSITY, 0.0),
        "head_mm": read_option("--head", head, units.LENGTH, 0.0),
        "time_s": read_option("--time", time, units.TIME, 0.0),
        "coefficient": coefficient,
    }
    if not 0.0 < coefficient <= 1.0:
        raise option_fault("--coefficient", coefficient, "more than 0 and at most 1")
    out = Numbers("choke")
    out.add("area_mm2", choke_area(**values), "area of the choke", "m/(ρ·t·C·√(2gH))", dict(values), SOURCE)
    print_numbers(out, as_json, "Choke")


def solidification(
    volume: Annotated[str, typer.Option("--volume", help='volume of the casting, such as "320 cm3" ("0.32 l")')],
    area: Annotated[str, typer.Option("--area", help='surface that cools, such as "800 cm2"')],
    mould_constant: Annotated[str, typer.Option("--mould-constant", help='such as "170 s/cm2" or "2.85 min/cm2"')],
    exponent: Annotated[float, typer.Option("--exponent", help="n of (V/A)^n")] = 2.0,
    as_json: JsonFlag = False,
) -> None:
    """Modulus and freezing time by Chvorinov's rule.

    Example: planewright reckon solidification --volume 320cm3 --area 800cm2 --mould-constant "170 s/cm2"
    """
    from shared.casting.solidification import SOURCE, freezing_time, modulus

    v = read_option("--volume", volume, units.VOLUME, 0.0) * 1e6
    a = read_option("--area", area, units.AREA, 0.0)
    b = read_option("--mould-constant", mould_constant, units.MOULD_CONSTANT, 0.0)
    if not 0.0 < exponent <= 4.0:
        raise option_fault("--exponent", exponent, "more than 0, at most 4 (2 by theory)")
    m = modulus(v, a)
    out = Numbers("solidification")
    out.add("modulus_mm", m, "volume over cooling surface", "V/A", {"volume_mm3": v, "area_mm2": a})
    values = {"mould_constant_s_per_cm_n": b, "modulus_cm": m / 10, "exponent": exponent}
    time_s = freezing_time(m, b, exponent)
    out.add("time_s", time_s, "time to freeze through", "B·(V/A)ⁿ, V/A in cm", values, SOURCE)
    print_numbers(out, as_json, "Freezing")


def castings(
    good: Annotated[int, typer.Option("--good", help="good castings wanted")],
    scrap: Annotated[str, typer.Option("--scrap", help='share that is rejected, such as "4%"')],
    confidence: Annotated[str, typer.Option("--confidence", help='chance that they suffice, such as "95%"')],
    impressions: Annotated[int, typer.Option("--impressions", help="castings a mould")],
    as_json: JsonFlag = False,
) -> None:
    """Castings to pour and moulds to make for so many good ones.

    Example: planewright reckon castings --good 100 --scrap 4% --confidence 95% --impressions 2
    """
    from shared.casting.quantity import castings_to_pour, chance_of_enough, moulds_for

    if good < 1:
        raise option_fault("--good", good, "1 or more")
    if impressions < 1:
        raise option_fault("--impressions", impressions, "1 or more")
    q = read_option("--scrap", scrap, units.FRACTION)
    c = read_option("--confidence", confidence, units.FRACTION, 0.0)
    if not 0.0 <= q < 1.0:
        raise option_fault("--scrap", scrap, "0% or more, less than 100%")
    if not c < 1.0:
        raise option_fault("--confidence", confidence, "less than 100%")
    n = castings_to_pour(good, q, c)
    chance = chance_of_enough(n, good, q)
    out = Numbers("castings")
    out.add(
        "castings", n, f"castings to pour; the chance that {good} are good is then {chance:.2%}",
        "least n with P(Binomial(n, 1 − scrap) ≥ good) ≥ confidence",
        {"good": good, "scrap": q, "confidence": c}, "binomial distribution, castings independent",
    )  # fmt: skip
    out.add(
        "moulds", moulds_for(n, impressions), "moulds to make", "⌈castings / impressions⌉",
        {"castings": n, "impressions": impressions}, "counting",
    )  # fmt: skip
    print_numbers(out, as_json, f"For {good} good castings")
