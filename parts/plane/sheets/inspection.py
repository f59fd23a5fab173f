"""The inspection sheet: what is measured on a finished plane, nominal and limits beside room for the reading."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.blade.bedding_numbers import BED_ANGLE_TOL_DEG, FRONT_TOL_MM, THICKNESS_TOL_MM
from parts.plane.sheets.cards import card_sheet
from parts.plane.sheets.common import FLAT, SheetEntry
from parts.plane.sheets.metal import size_text
from parts.plane.sheets.shapes import limits_mm
from shared.drawing.plan import SheetPlan
from shared.fits import general_linear
from shared.numbers import Numbers

if TYPE_CHECKING:
    from parts.plane.run import Run

HEAD = ["characteristic", "nominal", "limits", "instrument", "measured", "initials"]
WIDTHS = (44.0, 26.0, 43.0, 32.0, 20.0, 13.0)  # mm
MOISTURE_TOL = 2.0  # percent points of the shop's moisture; common practice, no source
SETBACK_TOL = 0.1  # mm: as a user sets it by eye
REST_K = 1.0  # K: difference between sole and top that is left before a body is gauged
Row = list[str]


def inspection_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the inspection sheet of one plane."""
    sheet = card_sheet(run, entry)
    sheet.table(["plane no.", "date", "castings' heat no.", "blade's load no.", "inspector", "passed"], [[""] * 6],
                title="This plane", widths=[178.0 / 6] * 6)  # fmt: skip
    first = run.design.spec.units
    for title, rows in (("Body", _body(run)), ("Bed and mouth", _mouth(run)), ("Blade", _blade(run)),
                        ("Fits", _fits(run.numbers, first)), ("Handles", _handles(run)),
                        ("Whole plane", _whole(run))):  # fmt: skip
        sheet.table(HEAD, rows, title=title, widths=WIDTHS)
    sheet.notes(_notes(run))
    sheet.notes(["The edge cuts: blade back or guarded while anything but the edge is measured."], title="Caution",
                numbered=False)  # fmt: skip
    return sheet


def _row(label: str, nominal: str, limits: str, instrument: str) -> Row:
    return [label, nominal, limits, instrument, "", ""]


def sized(label: str, mm: float, off: tuple[float, float], instrument: str, first: str) -> Row:
    """Return the row of a length.

    Args:
        label: what is measured.
        mm: nominal [mm].
        off: upper and lower deviation [mm].
        instrument: what with.
        first: unit that stands first.
    """
    places = (4, 3)
    return _row(label, size_text(mm, first, places), _span(mm + off[1], mm + off[0], first), instrument)


def _span(low: float, high: float, first: str) -> str:
    """Return two limits [mm] in both units: "0.1230 to 0.1270 [3.125 to 3.225]"."""
    (a, b), (c, d) = (size_text(x, first, (4, 3)).removesuffix("]").split(" [") for x in (low, high))
    return f"{a} to {c} [{b} to {d}]"


def at_most(label: str, mm: float, instrument: str, first: str) -> Row:
    """Return the row of a deviation that has a greatest value only [mm]; arguments as `sized`."""
    return _row(label, "0", f"at most {size_text(mm, first, (4, 3))}", instrument)


def _general(mm: float) -> tuple[float, float]:
    off = general_linear(mm, "m")
    return off, -off


def _body(run: Run) -> list[Row]:
    d, first = run.design, run.design.spec.units
    b = d.body
    return [
        at_most("sole flat (minimum zone)", FLAT, "surface plate, indicator", first),
        at_most("each cheek flat", FLAT, "surface plate, indicator", first),
        at_most("each cheek square to the sole", FLAT, "square, indicator", first),
        sized("length", b.heel_x - b.toe_x, _general(b.heel_x - b.toe_x), "caliper", first),
        sized("width", b.width, _general(b.width), "micrometer", first),
        sized("cheek height", b.cheek_height, _general(b.cheek_height), "caliper", first),
        sized("sole thickness", b.sole, _general(b.sole), "height gauge", first),
    ]


def _mouth(run: Run) -> list[Row]:
    d, first, n = run.design, run.design.spec.units, run.numbers["bedding"]
    bed, worst = d.spec.bed.angle, float(n.value("mouth_opening_worst_mm"))
    mouth, opening = d.body.mouth_half_width * 2, d.spec.body.mouth_opening
    front = -d.body.toe_x - opening
    return [
        _row("bed angle to the sole", f"{bed:g}°", f"{bed - BED_ANGLE_TOL_DEG:g}° to {bed + BED_ANGLE_TOL_DEG:g}°",
             "sine bar, indicator"),
        sized("mouth opening, blade at its edge line", opening, (worst, -min(worst, opening)), "feeler gauges", first),
        sized("toe to the mouth's front wall", front, (FRONT_TOL_MM, -FRONT_TOL_MM), "height gauge", first),
        sized("mouth across", mouth, limits_mm(mouth, "H11"), "gauge blocks", first),
    ]  # fmt: skip


def _blade(run: Run) -> list[Row]:
    d, first, n = run.design, run.design.spec.units, run.numbers["blade"]
    b = d.blade
    low, high = n.value("expected_low_hrc"), n.value("expected_high_hrc")
    rows = [
        _row("hardness", f"{d.spec.blade.hardness:g} HRC", f"{low:g} to {high:g} HRC", "Rockwell C, 3 readings"),
        sized("thickness", b.thickness, (THICKNESS_TOL_MM, -THICKNESS_TOL_MM), "micrometer", first),
        sized("width", b.width, limits_mm(b.width, "h11"), "micrometer", first),
        _row("bevel, ground", f"{b.bevel:g}°", f"{b.bevel - 1:g}° to {b.bevel + 1:g}°", "protractor"),
    ]
    if b.micro_bevel is not None:
        rows.append(
            _row(
                "micro-bevel", f"{b.micro_bevel:g}°", f"{b.micro_bevel - 1:g}° to {b.micro_bevel + 1:g}°", "protractor"
            )
        )
    camber = float(n.value("camber_on_blade_mm"))
    rows.append(sized("camber in the blade's face", camber, (0.03, -min(camber, 0.03)), "straightedge, feeler", first))
    if "chipbreaker" in run.numbers:
        back = float(run.numbers["chipbreaker"].value("setback_mm"))
        off = (SETBACK_TOL, -min(back, SETBACK_TOL))
        rows.append(sized("chipbreaker's edge behind the cutting edge", back, off, "loupe, scale", first))
        rows.append(_row("light between chipbreaker and face", "none", "none along the width", "held to the light"))
    return rows


def _fits(numbers: dict[str, Numbers], first: str) -> list[Row]:
    found = numbers["bedding"].value("pin_fits") if "pin_fits" in numbers["bedding"] else []
    rows = []
    for pin in found if isinstance(found, list) else []:
        size = float(pin["diameter_mm"])
        for what, limits, by in (
            ("hole", pin["hole_um"], "plug gauge"),
            ("pin or screw", pin["shaft_um"], "micrometer"),
        ):
            low, high = (size + um / 1000 for um in limits)
            rows.append(
                _row(
                    f"{pin['name']}: {what}",
                    f"{size:g} mm {pin['fit']}",
                    _span(low, high, first),
                    by,
                )
            )
    return rows


def _handles(run: Run) -> list[Row]:
    d, first, n = run.design, run.design.spec.units, run.numbers["handle"]
    shop = float(n.value("shop_emc_percent"))
    rows = [
        _row(
            "moisture of the wood",
            f"{shop:.1f} %",
            f"{shop - MOISTURE_TOL:.1f} to {shop + MOISTURE_TOL:.1f} %",
            "moisture meter",
        ),
        sized("rod's bore", d.knob.bore_diameter, (0.3, 0.0), "drill shank", first),
        sized("knob height", d.knob.height, (0.3, -0.3), "caliper", first),
    ]
    if d.tote is not None:
        rows.append(sized("tote to its crest, along the rod", d.tote.rod_height, (0.3, -0.3), "caliper", first))
        rows.append(
            _row(
                "grain through the narrowest grip",
                "along the lines",
                f"within {d.shop.woodshop.grain_tolerance:g}°",
                "eye, template",
            )
        )
    rows.append(_row("handles under the hand", "tight", "no turning, no rock", "hand"))
    return rows


def _whole(run: Run) -> list[Row]:
    n, first = run.numbers["bedding"], run.design.spec.units
    kg = run.models.mass_and_centre()[0]
    rows = [
        _row(
            "mass, complete",
            f"{kg:.2f} kg ({kg / 0.45359237:.2f} lb)",
            f"{0.95 * kg:.2f} to {1.05 * kg:.2f} kg",
            "scale",
        ),
        _row(
            "depth for one turn of the wheel",
            size_text(float(n.value("depth_per_turn_mm")), first, (4, 3)),
            "moves both ways, no jump",
            "indicator at the edge",
        ),
        _row(
            "lateral way, each side",
            f"{float(n.value('lateral_adjust_deg')):.2f}°",
            "edge clear of the mouth's sides",
            "eye",
        ),
    ]
    side = float(n.value("side_clearance_min_mm")), float(n.value("side_clearance_max_mm"))
    rows.append(
        _row(
            "blade to each side of the mouth",
            "–",
            f"{size_text(side[0], first)} to {size_text(side[1], first)}",
            "feeler gauges",
        )
    )
    rows.append(_row("full-width shaving", "yes", "even, both corners clear", "trial on planed stock"))
    return rows


def _notes(run: Run) -> list[str]:
    bow = float(run.numbers["body"].value("thermal_bow_um_per_k"))
    first = run.design.spec.units
    return [
        f"Let the body rest on the plate until sole and top differ by less than {REST_K:g} K: each kelvin bows the "
        f"sole {bow:.1f} µm of the {size_text(FLAT, first, (3, 3))} allowed. Plate, gauges and part at the same "
        "temperature, 20 °C.",
        "Flatness is the minimum zone: read a grid of points, `planewright reckon flatness FILE.csv` gives it.",
        "Measure with the lever cap shut and the blade set back 1 mm, then again with the blade at work.",
        "A reading outside its limits: mark it, tag the plane, do not pass it on.",
        "Flat and square: the works' own rule, whatever the size. Lengths and fits: ISO 2768-m and ISO 286. Bed, mouth, "
        "bevels, camber, setback, handles, moisture and mass: common practice, no published source.",
    ]


INSPECTION = SheetEntry("inspection", "Inspection sheet", "plane", ("assembly", "machine"), inspection_sheet)
