"""The handle numbers that the woodshop reads: blanks, lumber to buy, grain, short grain, moisture."""

from __future__ import annotations

from parts.handle.blanks import PRACTICE_SOURCE, Blank, WoodPractice
from parts.handle.grain import HANKINSON_SOURCE, angle_between, short_grain_strength_mpa, slope_one_in
from parts.handle.lumber import KILN_DRIED_SOURCE
from parts.handle.moisture import Climate, moisture_numbers
from parts.handle.wood import DENSITY_SOURCE, MECHANICAL_SOURCE, Species, species_density_kg_m3
from shared.numbers import Numbers


def _blank_numbers(numbers: Numbers, tote: Blank, knob: Blank, practice: WoodPractice) -> None:
    a, p = practice.bandsaw_allowance_mm, practice.planing_per_face_mm
    rows = (
        ("tote_blank_length_mm", tote.length_mm, "tote blank along the grain", "extent along the grain + 2 bandsaw",
         {"bandsaw_allowance_mm": a}),
        ("tote_blank_width_mm", tote.width_mm, "tote blank across the grain", "extent across the grain + 2 bandsaw",
         {"bandsaw_allowance_mm": a}),
        ("tote_blank_thickness_mm", tote.thickness_mm, "tote blank's rough thickness",
         "finished thickness + 2 planing", {"planing_per_face_mm": p}),
        ("knob_blank_side_mm", knob.width_mm, "side of the square knob blank", "diameter + 2 turning",
         {"turning_allowance_mm": practice.turning_allowance_mm}),
        ("knob_blank_length_mm", knob.length_mm, "knob blank along the grain and the turning axis", "height + 2 ends",
         {"knob_end_allowance_mm": practice.knob_end_allowance_mm}),
    )  # fmt: skip
    for key, value, meaning, formula, values in rows:
        numbers.add(key, value, meaning, formula, values, PRACTICE_SOURCE)
    for name, blank in (("tote", tote), ("knob", knob)):
        buy = blank.buy
        numbers.add(
            f"{name}_lumber_thickness", buy.name, f"lumber thickness to buy for the {name}",
            "thinnest standard thickness whose kiln-dried least holds the blank",
            {"kiln_dried_least_mm": round(buy.kiln_dried_mm, 2), "blank_mm": round(blank.thickness_mm, 2)},
            KILN_DRIED_SOURCE,
        )  # fmt: skip
    numbers.add(
        "set_board_feet_bf", tote.board_feet + knob.board_feet,
        "footage of one tote blank and one knob blank, saw kerf and waste not counted",
        "sum of length x width x nominal thickness / 144 in³",
        {"tote_bf": round(tote.board_feet, 4), "knob_bf": round(knob.board_feet, 4)}, "board foot by definition",
    )  # fmt: skip


def wood_numbers(
    wood: Species,
    tote: Blank,
    knob: Blank,
    practice: WoodPractice,
    *,
    grain_deg: float,
    grip_axis_deg: float,
    shop: Climate,
    customer: Climate,
    tote_height_mm: float,
    bore_mm: float,
    knob_diameter_mm: float,
) -> Numbers:
    """Return the handle numbers of the woodshop.

    Args:
        wood: the species.
        tote: the tote's blank.
        knob: the knob's blank.
        practice: the shop's allowances.
        grain_deg: direction of the tote's fibres in the side view [deg from the sole].
        grip_axis_deg: direction of the axis at the grip's narrowest section [deg from the sole].
        shop: climate the handle is made in.
        customer: climate it is used in.
        tote_height_mm: height of the tote along its rod [mm].
        bore_mm: diameter of the rod's bore [mm].
        knob_diameter_mm: greatest diameter of the knob [mm].
    """
    numbers = Numbers("handle")
    _blank_numbers(numbers, tote, knob, practice)
    angle = angle_between(grip_axis_deg, grain_deg)
    numbers.add(
        "tote_grain_angle_deg", angle, "angle between the fibres and the axis of the narrowest grip section",
        "|axis - grain|, 90 at most", {"axis_deg": grip_axis_deg, "grain_deg": grain_deg},
    )  # fmt: skip
    slope = slope_one_in(angle)
    numbers.add("tote_grain_slope", "straight" if slope > 1000 else f"1 in {slope:.1f}",
                "slope of grain there", "1 in 1/tan(angle)", {"angle_deg": angle})  # fmt: skip
    numbers.add(
        "tote_short_grain_strength_mpa", short_grain_strength_mpa(wood, angle),
        "bending strength of the wood at the narrowest grip section, across its short grain",
        "P Q/(P sinⁿa + Q cosⁿa), Q = 0.1 P, n = 1.5", {"P_mpa": wood.bending_mpa, "angle_deg": angle},
        f"{HANKINSON_SOURCE}; {MECHANICAL_SOURCE}",
    )  # fmt: skip
    numbers.add(
        "wood_density_kg_m3", species_density_kg_m3(wood, customer.emc_percent),
        "density of the wood at the customer's moisture", "1000 G_M (1 + M/100)",
        {"G_12": wood.specific_gravity, "M_percent": round(customer.emc_percent, 2)}, DENSITY_SOURCE,
    )  # fmt: skip
    numbers.update(moisture_numbers(wood, shop, customer, tote_height_mm, bore_mm, knob_diameter_mm))
    return numbers
