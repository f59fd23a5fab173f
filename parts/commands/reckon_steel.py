"""The ready reckoner's questions of edge, fit, flatness and bow; those of heat are in `reckon_heat`.

The arithmetic is imported inside each command, so that `--help` answers at once.
"""

from __future__ import annotations

import math
from pathlib import Path
from typing import Annotated

import typer

from parts.commands import reckon_heat
from parts.commands.reckon_heat import JsonFlag, finish
from parts.commands.show import option_fault, read_option
from shared import units
from shared.numbers import Numbers, Value


def register(app: typer.Typer) -> None:
    """Add the questions of blade and steel to the reckoner."""
    app.command("edge")(edge)
    reckon_heat.register(app)
    app.command("fit")(fit)
    app.command("flatness")(flatness)
    app.command("bow")(bow)


def _angle(option: str, text: str | None, default: float = 0.0) -> float:
    return default if text is None else read_option(option, text, units.ANGLE)


def _length(option: str, text: str | None) -> float | None:
    return None if text is None else read_option(option, text, units.LENGTH, 0.0)


def edge(
    orientation: Annotated[str, typer.Option("--orientation", help="bevel-down or bevel-up")],
    bed: Annotated[str, typer.Option("--bed", help='bed angle, such as "45 deg"')],
    bevel: Annotated[str, typer.Option("--bevel", help='ground bevel, such as "25 deg"')],
    micro_bevel: Annotated[str | None, typer.Option("--micro-bevel", help='honed bevel, such as "30 deg"')] = None,
    back_bevel: Annotated[str | None, typer.Option("--back-bevel", help="bevel on the blade's flat")] = None,
    skew: Annotated[str | None, typer.Option("--skew", help="edge's normal to the travel")] = None,
    thickness: Annotated[str | None, typer.Option("--thickness", help='blade thickness, such as "1/8 in"')] = None,
    width: Annotated[str | None, typer.Option("--width", help='blade width, such as "2 in"')] = None,
    wheel_diameter: Annotated[str | None, typer.Option("--wheel-diameter", help="wheel of a hollow grind")] = None,
    camber_depth: Annotated[
        str | None, typer.Option("--camber-depth", help='how much deeper the middle cuts, such as "0.002 in"')
    ] = None,
    as_json: JsonFlag = False,
) -> None:
    """Angles of an edge, its bevel, hollow and camber.

    Example: planewright reckon edge --orientation bevel-down --bed 45deg --bevel 25deg --thickness 3mm
    """
    from parts.blade.angles import CLEARANCE_GUIDE_DEG, ORIENTATIONS
    from parts.blade.numbers import angle_numbers, shape_numbers

    way = next((o for o in ORIENTATIONS if o == orientation), None)
    if way is None:
        raise option_fault("--orientation", orientation, "bevel-down or bevel-up")
    ground = _angle("--bevel", bevel)
    micro = None if micro_bevel is None else _angle("--micro-bevel", micro_bevel)
    if micro is not None and micro < ground:
        raise option_fault("--micro-bevel", micro_bevel, f"at least the ground bevel of {ground:g} deg")
    b, k = _angle("--bed", bed), _angle("--back-bevel", back_bevel)
    t = _length("--thickness", thickness)
    if wheel_diameter is not None and t is None:
        raise option_fault("--wheel-diameter", wheel_diameter, "together with --thickness")
    depth = None if camber_depth is None else read_option("--camber-depth", camber_depth, units.LENGTH, -1e-12)
    out = Numbers("edge")
    angle_numbers(out, way, b, ground if micro is None else micro, k, _angle("--skew", skew))
    shape_numbers(
        out,
        orientation=way,
        bed=b,
        thickness=t,
        width=_length("--width", width),
        bevel=ground,
        micro_bevel=micro,
        back_bevel=k,
        wheel_diameter=_length("--wheel-diameter", wheel_diameter),
        camber_at_work=depth,
    )
    clearance = float(out.value("clearance_angle_deg"))
    warnings = []
    if clearance < CLEARANCE_GUIDE_DEG - 1e-9:
        warnings.append(
            f"clearance of {clearance:g} deg is below the guide of {CLEARANCE_GUIDE_DEG:g} deg: the edge stops cutting "
            "soon after it begins to wear"
        )
    finish(out, as_json, "Edge", warnings, ["Grinding: eye protection, guarded wheel; a fresh edge cuts to the bone."])


def fit(
    diameter: Annotated[str, typer.Option("--diameter", help='nominal size, such as "6 mm"')],
    fit_name: Annotated[str, typer.Option("--fit", help="hole and shaft, such as H7/g6")],
    as_json: JsonFlag = False,
) -> None:
    """Limits of hole and shaft by ISO 286.

    Example: planewright reckon fit --diameter 25mm --fit H7/g6
    """
    from shared.fits import LARGEST_MM
    from shared.fits import fit as limits

    size = read_option("--diameter", diameter, units.LENGTH, 0.0, LARGEST_MM)
    f = limits(size, fit_name)
    out = Numbers("fit")
    source = "ISO 286-1/-2:2010 as tabled"
    if f.hole.from_memory or f.shaft.from_memory:
        source += "; the deviation of this letter is from memory"
    for key, value, said, formula in (
        ("hole_upper_um", f.hole.upper, f"upper deviation of hole {f.hole.name}", "lower deviation + IT"),
        ("hole_lower_um", f.hole.lower, f"lower deviation of hole {f.hole.name}", "upper deviation - IT"),
        ("shaft_upper_um", f.shaft.upper, f"upper deviation of shaft {f.shaft.name}", "lower deviation + IT"),
        ("shaft_lower_um", f.shaft.lower, f"lower deviation of shaft {f.shaft.name}", "upper deviation - IT"),
        ("clearance_max_um", f.clearance_max, "largest hole, smallest shaft", "hole upper - shaft lower"),
        (
            "clearance_min_um",
            f.clearance_min,
            "smallest hole, largest shaft; minus presses",
            "hole lower - shaft upper",
        ),
    ):
        out.add(key, value, said, formula, {"diameter": size}, source)
    out.add("kind", f.kind, "kind of fit", "from the clearances", {}, source)
    finish(out, as_json, f"Fit {fit_name} of {units.both_units(size, 'mm')}", [], [])


def flatness(
    file: Annotated[Path, typer.Argument(metavar="FILE.csv", help="measured points: x,y,z in mm, z the height")],
    as_json: JsonFlag = False,
) -> None:
    """Flatness of measured points: minimum zone, and least squares for comparison.

    Example: planewright reckon flatness sole.csv
    """
    from shared.errors import Fault, InputError
    from shared.flatness import in_a_line_in_plan, minimum_zone
    from shared.points import read_points

    points = read_points(file)
    if len(points) >= 3 and in_a_line_in_plan(points):
        raise InputError(
            Fault(str(file), "points", "points in a line seen from above", "three points or more not in a line")
        )
    zone = minimum_zone(points)
    out = Numbers("flatness")
    put: dict[str, Value] = {"points": len(points)}
    out.add(
        "minimum_zone_mm",
        zone.width,
        f"flatness: two parallel planes that just hold every point; contacts {zone.contact}",
        "least distance, by linear program and by search over the convex hull",
        put,
        "ISO 1101 minimum zone",
    )
    out.add(
        "least_squares_mm",
        zone.least_squares,
        "peak to valley about the least-squares plane; never smaller, not the flatness",
        "max - min of the distances",
        put,
        "for comparison with older instruments",
    )
    out.add("minimum_zone_um", 1000 * zone.width, "the same in micrometres", "as above", put, "ISO 1101 minimum zone")
    warnings = ["three points always lie in a plane: measure more"] if len(points) == 3 else []
    finish(out, as_json, f"Flatness of {len(points)} points", warnings, [])


def bow(
    length: Annotated[str, typer.Option("--length", help='length of the sole or blade, such as "14 in"')],
    height: Annotated[str, typer.Option("--height", help="height through which the temperature differs")],
    gradient: Annotated[str, typer.Option("--gradient", help='temperature difference, such as "2 K" or "5 F"')],
    alloy: Annotated[
        str | None, typer.Option("--alloy", help="cast alloy or tool steel; default: ductile iron")
    ] = None,
    as_json: JsonFlag = False,
) -> None:
    """Bow of a plate that is warmer on one side, and the difference that already spoils 0.001 in.

    Example: planewright reckon bow --length 200mm --height 4mm --gradient 5K --alloy A2
    """
    from shared import thermal

    along = read_option("--length", length, units.LENGTH, 0.0)
    high = read_option("--height", height, units.LENGTH, 0.0)
    delta = read_option("--gradient", gradient, units.TEMPERATURE_DIFFERENCE)
    metal = thermal.expansion(alloy or thermal.DEFAULT_ALLOY)
    out = Numbers("bow")
    put: dict[str, Value] = {"alpha_per_k": metal.per_k, "L": along, "h": high, "dT": delta}
    source = f"{thermal.BOW_SOURCE}; expansion of {metal.material}: {metal.source}"
    sag = thermal.bow(along, high, abs(delta), metal.per_k)
    out.add("bow_um", 1000 * sag, "bow of the free plate, hollow on the cooler side", "alpha*dT*L^2/(8h)", put, source)
    out.add(
        "spoils_thou_k",
        thermal.difference_for_bow(along, high, metal.per_k),
        "temperature difference that already bows it by 0.001 in",
        "0.0254*8h/(alpha*L^2)",
        put,
        source,
    )
    side = math.copysign(1.0, delta)
    warnings = [] if side > 0 else ["a negative difference bows the other way; the size is given"]
    finish(out, as_json, f"Thermal bow, {metal.material}", warnings, [])
