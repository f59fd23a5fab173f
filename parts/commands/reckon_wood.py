"""The ready reckoner's wood questions: emc, movement, board-feet, grade, grain, layout.

The arithmetic is imported inside each command, so that `--help` answers at once.
"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from parts.commands.show import option_fault, print_json, print_numbers, read_option
from shared import units
from shared.numbers import Numbers

JsonFlag = Annotated[bool, typer.Option("--json", help="print one JSON object and nothing else")]


def register(app: typer.Typer) -> None:
    """Add the woodshop's questions to the reckoner."""
    app.command("emc")(emc)
    app.command("movement")(movement)
    app.command("board-feet")(board_feet)
    app.command("grade")(grade)
    app.command("grain")(grain)
    app.command("layout")(layout)


def emc(
    temperature: Annotated[str, typer.Option("--temperature", help='air temperature, such as "70 F" or 20C')],
    humidity: Annotated[str, typer.Option("--humidity", help="relative humidity, such as 65%")],
    as_json: JsonFlag = False,
) -> None:
    """Moisture content that wood settles at in a climate.

    Example: planewright reckon emc --temperature "70 F" --humidity 50%
    """
    from parts.handle.moisture import EMC_SOURCE, emc_percent

    t = read_option("--temperature", temperature, units.TEMPERATURE)
    h = read_option("--humidity", humidity, units.FRACTION)
    if not 0 <= h <= 1:
        raise option_fault("--humidity", humidity, "0% to 100%")
    if not -5 <= t <= 135:
        raise option_fault("--temperature", temperature, "-5 to 135 C (23 to 275 F), where the equation holds")
    out = Numbers("emc")
    out.add(
        "emc_percent", emc_percent(t, h), "moisture content that wood settles at, of its oven-dry mass",
        "1800/W [Kh/(1 - Kh) + (K1 Kh + 2 K1 K2 K²h²)/(1 + K1 Kh + K1 K2 K²h²)]",
        {"temperature_c": t, "humidity": h}, EMC_SOURCE,
    )  # fmt: skip
    print_numbers(out, as_json)


def movement(
    species: Annotated[str, typer.Option("--species", help="wood, such as black-cherry")],
    grain: Annotated[str, typer.Option("--grain", help="flat (along the rings) or quarter (across them)")],
    dimension: Annotated[str, typer.Option("--dimension", help='size across the grain, such as "100 mm"')],
    from_mc: Annotated[str, typer.Option("--from", help="moisture content now, such as 8%")],
    to_mc: Annotated[str, typer.Option("--to", help="moisture content to come, such as 12%")],
    method: Annotated[
        str, typer.Option("--method", help="auto, coefficient (6 to 14 % only) or green-basis (0 to 30 %)")
    ] = "auto",
    as_json: JsonFlag = False,
) -> None:
    """How much wood swells or shrinks across the grain between two moisture contents.

    Example: planewright reckon movement --species black-cherry --grain flat --dimension "4 in" --from 8% --to 12%
    """
    from parts.handle import moisture
    from parts.handle.wood import species as wood_of

    wood = wood_of(species)
    if grain not in ("flat", "quarter"):
        raise option_fault("--grain", grain, "flat or quarter")
    if method not in ("auto", "coefficient", "green-basis"):
        raise option_fault("--method", method, "auto, coefficient or green-basis")
    size = read_option("--dimension", dimension, units.LENGTH, 0.0)
    m1 = 100 * read_option("--from", from_mc, units.FRACTION)
    m2 = 100 * read_option("--to", to_mc, units.FRACTION)
    for option, text, value in (("--from", from_mc, m1), ("--to", to_mc, m2)):
        if not 0 <= value <= 30 + 1e-9:
            raise option_fault(option, text, "0% to 30%: above fibre saturation wood does not move with moisture")
    way = "flat" if grain == "flat" else "quarter"
    chosen = {"auto": None, "coefficient": "coefficient", "green-basis": "green-basis"}[method]
    moved = moisture.movement(wood, way, size, m1, m2, chosen)  # type: ignore[arg-type]
    by_coefficient = moved.method == "coefficient"
    out = Numbers("movement")
    out.add(
        "change_mm", moved.change_mm, "change of the dimension; less than 0 shrinks",
        "D C (M_to - M_from)" if by_coefficient else "D (M_to - M_from)/(3000/S - 30 + M_from)",
        {"D_mm": size, "M_from_percent": m1, "M_to_percent": m2, "C or S": moved.coefficient}, moved.source,
    )  # fmt: skip
    out.add("final_mm", size + moved.change_mm, "the dimension afterwards", "D + change", {}, moved.source)
    out.add("method", moved.method, "which of the handbook's two methods", "coefficient inside 6 to 14 % MC",
            {}, moved.source)  # fmt: skip
    out.add("warnings", [moved.note] if moved.note else [], "what to know of this answer", "limits of the method",
            {}, moved.source)  # fmt: skip
    print_numbers(out, as_json)


def board_feet(
    thickness: Annotated[str, typer.Option("--thickness", help='nominal thickness, such as "5/4 in"')],
    width: Annotated[str, typer.Option("--width", help='board width, such as "6-1/2 in"')],
    length: Annotated[str, typer.Option("--length", help='board length, such as "8 ft"')],
    count: Annotated[int, typer.Option("--count", min=1, help="boards of that size")] = 1,
    as_json: JsonFlag = False,
) -> None:
    """Surface measure and board feet by the hardwood trade's rules.

    Example: planewright reckon board-feet --thickness "2 in" --width "6-1/4 in" --length "8 ft"
    """
    from parts.handle import lumber

    t = read_option("--thickness", thickness, units.LENGTH, 0.0)
    w = read_option("--width", width, units.LENGTH, 0.0)
    le = read_option("--length", length, units.LENGTH, 0.0)
    surface = sum(lumber.tally([(w, le)] * count))
    out = Numbers("board_feet")
    out.add(
        "surface_measure", surface, f"surface measure of {count} board{'s' if count > 1 else ''}, square feet",
        "sum of round(width in inches x whole feet / 12); exact halves go up and down by turns",
        {"width_in": units.to_inch(w), "length_ft": lumber.standard_length_ft(le), "count": count},
        lumber.MEASURE_SOURCE,
    )  # fmt: skip
    out.add(
        "board_feet", lumber.board_feet(surface, t), "footage", "surface measure x nominal thickness, 1 in at least",
        {"surface_measure": surface, "thickness_in": units.to_inch(t)}, lumber.MEASURE_SOURCE,
    )  # fmt: skip
    print_numbers(out, as_json)


def grade(
    grade: Annotated[str, typer.Option("--grade", help='FAS, F1F, Selects, "No1 Common", "No2A Common", ...')],
    width: Annotated[str, typer.Option("--width", help='board width, such as "8 in"')],
    length: Annotated[str, typer.Option("--length", help='board length, such as "12 ft"')],
    as_json: JsonFlag = False,
) -> None:
    """Clear units a grade asks of a board, and in how many cuttings.

    Example: planewright reckon grade --grade FAS --width "8 in" --length "12 ft"
    """
    from parts.handle.grading import GRADE_SOURCE, need
    from parts.handle.lumber import MEASURE_SOURCE

    w = read_option("--width", width, units.LENGTH, 0.0)
    le = read_option("--length", length, units.LENGTH, 0.0)
    found = need(grade, w, le)
    out = Numbers("grade")
    out.add("grade", found.grade.replace("_", " "), "grade asked for", "as given", {}, GRADE_SOURCE)
    out.add("surface_measure", found.surface_measure, "surface measure, square feet",
            "round(width in inches x whole feet / 12)", {"width_in": units.to_inch(w)}, MEASURE_SOURCE)  # fmt: skip
    out.add(
        "clear_units_required", found.clear_units, "clear units of 1 in x 1 ft on the poor face",
        f"surface measure x {found.clear_units / max(1, found.surface_measure):g}",
        {"surface_measure": found.surface_measure}, GRADE_SOURCE,
    )  # fmt: skip
    out.add("cuttings_allowed", "unlimited" if found.cuttings is None else found.cuttings,
            "cuttings the clear units may come in", "by the grade's rule, fractions dropped", {},
            GRADE_SOURCE)  # fmt: skip
    if found.extra_cutting_units is not None:
        out.add("clear_units_with_extra_cutting", found.extra_cutting_units, "clear units that allow one cutting more",
                "surface measure x the grade's higher figure", {}, GRADE_SOURCE)  # fmt: skip
    out.add("smallest_cuttings", [f"{cw:g} in x {cl:g} ft" for cw, cl in found.min_cuttings_in_ft],
            "least size of a cutting", "by the grade's rule", {}, GRADE_SOURCE)  # fmt: skip
    out.add("notes", [found.note] if found.note else [], "what else the grade asks", "by the grade's rule", {},
            GRADE_SOURCE)  # fmt: skip
    print_numbers(out, as_json)


def grain(
    species: Annotated[str, typer.Option("--species", help="wood, such as black-cherry")],
    property_: Annotated[str, typer.Option("--property", help="compression, bending, tension or modulus")],
    angle: Annotated[str, typer.Option("--angle", help='angle from the fibres, such as "45 deg"')],
    exponent: Annotated[float | None, typer.Option("--exponent", help="other exponent of the formula")] = None,
    as_json: JsonFlag = False,
) -> None:
    """Strength of wood at an angle to its fibres.

    Example: planewright reckon grain --species black-cherry --property compression --angle "45 deg"
    """
    from parts.handle.grain import slope_one_in, strength_at_angle
    from parts.handle.wood import species as wood_of

    wood = wood_of(species)
    a = read_option("--angle", angle, units.ANGLE)
    if not 0 <= a <= 90:
        raise option_fault("--angle", angle, "0 to 90 deg")
    if exponent is not None and not 1 <= exponent <= 3:
        raise option_fault("--exponent", exponent, "1 to 3")
    found = strength_at_angle(wood, property_, a, exponent)
    out = Numbers("grain")
    values = {"P": found.along_mpa, "Q": round(found.across_mpa, 4), "n": found.exponent, "angle_deg": a}
    out.add("strength_mpa", found.value_mpa, f"{property_} at that angle", "P Q/(P sinⁿa + Q cosⁿa)", values,
            found.source)  # fmt: skip
    out.add("along_grain_mpa", found.along_mpa, "P, along the fibres", "table", {}, found.source)
    out.add("across_grain_mpa", found.across_mpa, "Q, across them", "table, or the property's usual Q/P", {},
            found.source)  # fmt: skip
    out.add("share_percent", 100 * found.value_mpa / found.along_mpa, "of the value along the fibres", "N/P", {},
            found.source)  # fmt: skip
    slope = slope_one_in(a)
    if slope < 1000:
        out.add("slope_of_grain_one_in", slope, "the angle as a slope, 1 in x", "1/tan a", {"angle_deg": a})
    print_numbers(out, as_json)


def _read_board(text: str) -> tuple[float, float]:
    """Return length and width [mm] of a board written "70x40 mm" or "8 ft x 6 in"."""
    bits = text.lower().replace("×", "x").split("x")
    allowed = 'length x width with a unit, such as "70x40 mm" or "96 in x 6-1/2 in"'
    if len(bits) != 2:
        raise option_fault("--board", text, allowed)
    try:
        last_unit = units.split_number(bits[1])[1]
    except units.QuantityError:
        last_unit = ""
    if not last_unit:
        raise option_fault("--board", text, allowed)
    first = bits[0].strip()
    if first and first[-1].isdigit():
        first = f"{first} {last_unit}"
    return read_option("--board", first, units.LENGTH, 0.0), read_option("--board", bits[1], units.LENGTH, 0.0)


def layout(
    board: Annotated[str, typer.Option("--board", help='length x width, such as "70x40 mm"')],
    pieces: Annotated[Path, typer.Option("--pieces", help="CSV: name,length_mm,width_mm,count,value (value 0: area)")],
    kerf: Annotated[str, typer.Option("--kerf", help='what a saw cut takes, such as "3.2 mm"')] = "0mm",
    rotate: Annotated[bool, typer.Option("--rotate", help="let pieces turn by 90 deg (no grain)")] = False,
    as_json: JsonFlag = False,
) -> None:
    """Best layout of pieces on one board by saw cuts edge to edge.

    Example: planewright reckon layout --board "70x40 mm" --pieces pieces.csv --kerf "3.2 mm"
    """
    from parts.handle.cutplan.guillotine import solve_layout
    from parts.handle.cutplan.piecelist import read_pieces

    length, width = _read_board(board)
    cut = read_option("--kerf", kerf, units.LENGTH)
    if cut < 0:
        raise option_fault("--kerf", kerf, "0 mm or more")
    items = read_pieces(pieces)
    found = solve_layout(length, width, items, cut, rotate)
    used = sum(p.length * p.width for p in found.placements) / (length * width)
    rows = [
        {
            "name": p.name, "x_mm": p.x, "y_mm": p.y, "length_mm": p.length, "width_mm": p.width, "rotated": p.rotated
        }
        for p in found.placements
    ]  # fmt: skip
    value = int(found.value) if float(found.value).is_integer() else found.value
    if as_json:
        print_json({"value": value, "used_fraction": used, "optimal": found.optimal, "placements": rows})
        return
    source = "exact search; guillotine cuts, each piece's length along the board's"
    out = Numbers("layout")
    out.add("value", value, "worth of all pieces laid", "sum of values (areas where value is 0)", {}, source)
    out.add("used_fraction", used, "face of the pieces over face of the board", "piece areas / board area", {}, source)
    out.add("optimal", found.optimal, "proven that no layout is worth more", "no rectangle left that could beat it",
            {}, source)  # fmt: skip
    print_numbers(out, False)
    for r in rows:
        turned = ", turned" if r["rotated"] else ""
        size = f"{r['length_mm']:g} x {r['width_mm']:g} mm at x {r['x_mm']:g}, y {r['y_mm']:g} mm"
        typer.echo(f"  {r['name']}: {size}{turned}")
