"""The blade maker's sections of the blade card: angles, bevel, making, bars, tolerances, fits, warmth."""

from __future__ import annotations

from parts.blade import limits
from parts.blade.angles import Orientation
from parts.blade.card_rows import Row, Section, numbers_section
from parts.blade.card_words import length, nominal, rough, sizes, source_text, warmer
from parts.blade.limits import THICKNESS_TOL_MM
from parts.blade.order_of_work import SOURCE as ORDER_SOURCE
from parts.blade.order_of_work import order_of_work
from parts.blade.stock import END_TRIM_MM, BarOrder, Blank
from shared import thermal
from shared.drawing.dimtext import plus_minus
from shared.drawing.fit_text import gauged, play_text
from shared.fits import tolerance_class
from shared.numbers import COMMON_PRACTICE, Numbers
from shared.tables import table


def is_skewed(blade: Numbers) -> bool:
    """Return whether the edge is skewed, so that the angles along its travel differ."""
    return bool(abs(blade.value("cutting_angle_deg") - blade.value("cutting_angle_velocity_deg")) > 1e-9)


def angle_section(blade: Numbers, units: str) -> Section:
    """Return the angles; along the travel only where the edge is skewed. `units` says which unit stands first."""
    rules = ("_section_deg", "_velocity_deg", "_chip_flow_deg")
    skewed = is_skewed(blade)

    def wanted(key: str) -> bool:
        return "_angle_" in key and not key.startswith("hollow") and (skewed or not key.endswith(rules))

    found = numbers_section("Angles", blade, units, wanted)
    if skewed:
        note = "Three published rules for a skewed edge answer three questions; none of them is the one angle."
        return Section(found.name, found.rows, (note,))
    return found


def bevel_section(blade: Numbers, units: str) -> Section:
    """Return the bevel as ground and as honed; hollow and camber only of a blade that has them."""
    may_lack = (("hollow_", "hollow_depth_mm"), ("camber_", "camber_on_blade_mm"))
    kept = ("bevel_", "honed_", "ground_", *(begin for begin, key in may_lack if blade.value(key)))
    return numbers_section("Bevel and edge", blade, units, lambda key: key.startswith(kept))


def fits_section(bedding: Numbers, units: str) -> Section:
    """Return the fits of pins and screws: limits of hole and pin, and the play; `units` says which stands first."""
    number = bedding["pin_fits"]
    rows = []
    for pair in number.value if isinstance(number.value, list) else []:
        if isinstance(pair, dict):
            sides = [" ".join(filter(None, gauged(pair, side, units))) for side in ("hole", "pin")]
            rows.append(Row(str(pair["name"]), "; ".join([*sides, play_text(pair["clearance_mm"], units)]), "",
                            number.source))  # fmt: skip
    inch = "in [mm]" if units == "inch" else "mm [in]"
    return Section("Fits", tuple(rows), (f"Sizes in {inch}.",))


def making_section(blank: Blank | None, units: str, orientation: Orientation = "bevel-down") -> Section:
    """Return bar, blank and order of work; `units` says which unit stands first."""
    rows = []
    if blank is not None:
        rows += [
            Row("finished", sizes(blank.finished, units), "width × length × thickness"),
            Row("blank, soft", sizes(blank.before_hardening, units), "grinding stock on, growth in hardening off", "",
                f"(finished + stock)/(1 + {blank.growth:g})"),
            Row("saw off", length(blank.sawn_length, units), f"blank, {rough(END_TRIM_MM, units)} an end to square"),
            Row("ground flat bar", sizes(blank.ground_bar, units), "width × thickness, next up"),
        ]  # fmt: skip
        if blank.hot_rolled_bar is not None:
            rows.append(
                Row(
                    "or hot rolled bar",
                    sizes(blank.hot_rolled_bar, units),
                    "least width × thickness, skin and decarburised layer to be taken off every side before hardening",
                    str(table("steel")["grinding"]["hot_rolled_flat"]["source"]),
                )
            )
    order = enumerate(order_of_work(orientation, units), 1)
    rows += [Row(f"{i}. {what}", finish, why, ORDER_SOURCE) for i, (what, finish, why) in order]
    burn = table("steel")["grinding"]["burn"]
    rows.append(Row("grinding burn", str(burn["rule"]), "", source_text(str(burn["source"]))))
    return Section("Making", tuple(rows))


def bars_section(bars: BarOrder, kerf: float, units: str) -> Section:
    """Return the bars to buy; kerf [mm], `units` says which unit stands first."""
    rows = [
        Row(
            f"{c.times} bar{'s' if c.times > 1 else ''} of {nominal(c.bar, units)}",
            ", ".join(f"{n} × {length(piece, units)}" for piece, n in c.pieces),
            f"left over {length(c.left_over, units)}",
        )
        for c in bars.cuts
    ]
    proof = "no other cutting takes less bar" if bars.optimal else "the best found; another may take less bar"
    used = 100 * bars.used_fraction
    many = f"{bars.bars} bar{'s' if bars.bars > 1 else ''}"
    note = f"{many}, {used:.1f} percent used, saw cut {rough(kerf, units)}; {proof}."
    return Section("Bars to buy", tuple(rows), (note,))


def tolerance_section(
    blade: Numbers, size: float, width: float, thickness: float, bevel: float, micro_bevel: float | None, units: str
) -> Section:
    """Return what the drawing holds the finished blade to.

    Args:
        blade: from `blade_numbers`.
        size: blade length [mm].
        width: blade width [mm].
        thickness: blade thickness [mm].
        bevel: ground bevel [deg].
        micro_bevel: micro-bevel [deg], or None.
        units: "inch" or "mm", which stands first.
    """
    fit = tolerance_class(width, limits.WIDTH_CLASS)
    under = length(-fit.lower / 1000, units)
    rows = [
        Row("length", f"{length(size, units)}, {plus_minus(limits.LENGTH_TOL_MM, units)}", "", COMMON_PRACTICE),
        Row("width", f"{length(width, units)}, +0 −{under}, {limits.WIDTH_CLASS}", "", "ISO 286-1/-2:2010 as tabled"),
        Row("thickness", f"{length(thickness, units)}, {plus_minus(THICKNESS_TOL_MM, units)}", "", COMMON_PRACTICE),
        Row("bevel", f"{bevel:g}° ±{limits.ANGLE_TOL_DEG:g}°", "", COMMON_PRACTICE),
    ]
    if micro_bevel is not None:
        rows.append(Row("micro-bevel", f"{micro_bevel:g}° ±{limits.ANGLE_TOL_DEG:g}°", "", COMMON_PRACTICE))
    camber = float(blade.value("camber_on_blade_mm"))
    if camber:
        held = f"{length(camber, units)}, {plus_minus(limits.CAMBER_TOL_MM, units)}"
        rows.append(Row("camber on the blade", held, "", COMMON_PRACTICE))
    if not is_skewed(blade):
        rows.append(Row("edge to the side", f"square within {length(limits.SQUARE_MM, units)}", "", COMMON_PRACTICE))
    note = "As on the blade's drawing, which also has the slot. Flatness and finish: order of work above."
    return Section("Tolerances", tuple(rows), (note,))


def bow_section(steel: str, size: float, thickness: float, units: str) -> Section:
    """Return how little warmth already bows the blade; its length `size` and thickness [mm]."""
    alpha = thermal.expansion(steel)
    kelvin = thermal.difference_for_bow(size, thickness, alpha.per_k)
    bow = thermal.bow_per_k(size, thickness, alpha.per_k) / 1000  # mm
    rows = (
        Row(
            f"bow for {warmer(1.0, units)}",
            length(bow, units),
            "one face warmer than the other by that much",
            alpha.source,
            "α·L²/(8·h)",
        ),
        Row(
            f"{length(thermal.THOU_MM, units)} is reached at",
            warmer(kelvin, units),
            "let the blade rest on the plate before it is gauged, and grind cool on a thin blade",
            thermal.BOW_SOURCE,
        ),
    )
    return Section("Warmth and flatness", rows)
