"""Moisture: equilibrium content of a climate, and what wood does between two moisture contents."""

from __future__ import annotations

import math
from typing import Any, Literal

from parts.handle.wood import FIBRE_SATURATION_PERCENT, Species
from shared.errors import Fault, InputError
from shared.findings import Finding, judge
from shared.numbers import Numbers
from shared.record import Record
from shared.tables import table

EMC_SOURCE = "Wood Handbook FPL-GTR-190 (2010), Eq. 4-5"
MOVEMENT_SOURCE = "Wood Handbook FPL-GTR-190 (2010), Eq. 13-2 with Table 13-5"
GREEN_SOURCE = "Wood Handbook FPL-GTR-190 (2010), Eq. 13-3 (from memory) with Table 4-3"
MOISTURE_TOL_PERCENT = 2.0  # percent points off the shop's moisture when wood is sawn; common practice, no source
Grain = Literal["flat", "quarter"]
Method = Literal["coefficient", "green-basis"]


class Climate(Record):
    """Air of a place: temperature [degC], relative humidity [share]."""

    name: str
    temperature_c: float
    humidity: float

    @property
    def emc_percent(self) -> float:
        """Moisture content that wood settles at there [percent]."""
        return emc_percent(self.temperature_c, self.humidity)


class Movement(Record):
    """A change of size [mm] with the method that gave it and what to know about it."""

    change_mm: float
    method: Method
    coefficient: float  # share per 1 % MC, or percent shrinkage for the green basis
    source: str
    note: str = ""


def emc_percent(temperature_c: float, humidity: float) -> float:
    """Return the equilibrium moisture content [percent].

    Args:
        temperature_c: air temperature [degC].
        humidity: relative humidity as a share [-], 0 to 1.

    Raises:
        InputError: humidity outside 0 to 1, or a temperature the equation was not made for (-5 to 135 degC).

    Source: Wood Handbook FPL-GTR-190 (2010), Eq. 4-5.
    """
    if not 0 <= humidity <= 1:
        raise InputError(Fault("emc", "humidity", f"{humidity:g}", "0 % to 100 %"))
    if not -5 <= temperature_c <= 135:
        raise InputError(Fault("emc", "temperature", f"{temperature_c:g} degC", "-5 to 135 degC"))
    facts = table("wood")["emc"]
    w, k, k1, k2 = (
        c0 + c1 * temperature_c + c2 * temperature_c**2 for c0, c1, c2 in (facts[n] for n in ("W", "K", "K1", "K2"))
    )
    kh = k * humidity
    second = (k1 * kh + 2 * k1 * k2 * kh**2) / (1 + k1 * kh + k1 * k2 * kh**2)
    return 1800 / w * (kh / (1 - kh) + second)


def coefficient_from_shrinkage(shrinkage_percent: float) -> float:
    """Return the movement coefficient [share per 1 % MC at 10 % MC] that a total shrinkage [percent] implies.

    Source: own derivation from 30 % MC fibre saturation; agrees with Tables 4-3 and 13-5 to about 0.00001.
    """
    return shrinkage_percent / 3000 / (1 - 2 * shrinkage_percent / 300)


def change_by_coefficient(dimension_mm: float, coefficient: float, from_percent: float, to_percent: float) -> float:
    """Return the change of a dimension [mm] by the coefficient method.

    Args:
        dimension_mm: size at the first moisture content [mm].
        coefficient: share per 1 % MC [-].
        from_percent: first moisture content [percent].
        to_percent: last moisture content [percent].

    Raises:
        InputError: a moisture content outside 6 to 14 %, where the method does not hold.

    Source: Wood Handbook FPL-GTR-190 (2010), Eq. 13-2.
    """
    low, high = table("wood")["movement"]["valid_mc_percent"]
    for name, value in (("from", from_percent), ("to", to_percent)):
        if not low - 1e-9 <= value <= high + 1e-9:
            raise InputError(
                Fault(
                    "movement", name, f"{value:g} %", f"{low:g} % to {high:g} % for the coefficient method",
                    "outside of it the green-basis method holds",
                )
            )  # fmt: skip
    return dimension_mm * coefficient * (to_percent - from_percent)


def change_green_basis(dimension_mm: float, shrinkage_percent: float, from_percent: float, to_percent: float) -> float:
    """Return the change of a dimension [mm] by the green-basis method.

    Args:
        dimension_mm: size at the first moisture content [mm].
        shrinkage_percent: total shrinkage green to oven-dry in that direction [percent].
        from_percent: first moisture content [percent].
        to_percent: last moisture content [percent].

    Raises:
        InputError: a moisture content below 0 or above 30 %, where wood does not move with moisture.

    Source: Wood Handbook FPL-GTR-190 (2010), Eq. 13-3 (formula from memory).
    """
    for name, value in (("from", from_percent), ("to", to_percent)):
        if not 0 <= value <= FIBRE_SATURATION_PERCENT + 1e-9:
            raise InputError(
                Fault("movement", name, f"{value:g} %", f"0 % to {FIBRE_SATURATION_PERCENT:g} % (fibre saturation)")
            )
    return dimension_mm * (to_percent - from_percent) / (3000 / shrinkage_percent - 30 + from_percent)


def movement(
    wood: Species,
    grain: Grain,
    dimension_mm: float,
    from_percent: float,
    to_percent: float,
    method: Method | None = None,
) -> Movement:
    """Return how a dimension across the grain changes.

    Args:
        wood: the species.
        grain: "flat": width of a flat-sawn board (along the rings); "quarter": of a quartersawn one (across them).
        dimension_mm: size at the first moisture content [mm].
        from_percent: first moisture content [percent].
        to_percent: last moisture content [percent].
        method: None takes the coefficients inside 6 to 14 % MC and the green basis outside, and says so.

    Raises:
        InputError: a moisture content that the method does not cover.
    """
    low, high = table("wood")["movement"]["valid_mc_percent"]
    inside = all(low - 1e-9 <= m <= high + 1e-9 for m in (from_percent, to_percent))
    flat = grain == "flat"
    if method == "coefficient" or (method is None and inside):
        c = wood.movement_tangential if flat else wood.movement_radial
        change = change_by_coefficient(dimension_mm, c, from_percent, to_percent)
        return Movement(change, "coefficient", c, MOVEMENT_SOURCE)
    s = wood.shrinkage_tangential_percent if flat else wood.shrinkage_radial_percent
    change = change_green_basis(dimension_mm, s, from_percent, to_percent)
    note = "" if inside else (
        f"the coefficient method holds only from {low:g} to {high:g} % MC; the green-basis method was used"
    )  # fmt: skip
    return Movement(change, "green-basis", s, GREEN_SOURCE, note)


def _along() -> dict[str, Any]:
    """Return what the wood table knows of shrinkage along the fibres."""
    found: dict[str, Any] = table("wood")["shrinkage"]["along_the_grain"]
    return found


def movement_off_grain(
    wood: Species, length_mm: float, angle_deg: float, from_percent: float, to_percent: float
) -> float:
    """Return the change [mm] of a length that lies off the grain in the face of a flat-sawn board.

    Swelling is a strain whose principal axes are the wood's own, so lengths turn with the square of the sine.

    Args:
        wood: the species.
        length_mm: size at the first moisture content [mm].
        angle_deg: angle between the length and the fibres [deg].
        from_percent: first moisture content [percent].
        to_percent: last moisture content [percent].

    Raises:
        InputError: a moisture content that the method does not cover.

    Source: rotation of a strain tensor; shrinkage along the fibres from the wood table.
    """
    across = movement(wood, "flat", length_mm, from_percent, to_percent).change_mm
    along = change_green_basis(length_mm, _along()["percent"], from_percent, to_percent)
    s = math.sin(math.radians(angle_deg))
    return across * s**2 + along * (1 - s**2)


def moisture_numbers(
    wood: Species,
    shop: Climate,
    customer: Climate,
    wettest: Climate,
    rod: tuple[float, float] | None,
    bore_mm: float,
    knob_across_mm: float,
) -> Numbers:
    """Return the handle numbers that moisture decides.

    Args:
        wood: the species.
        shop: climate the handle is made in.
        customer: driest climate it is used in.
        wettest: climate it is used in that swells it most.
        rod: length of wood along the tote's rod [mm] and angle of rod to fibres [deg]; None: no tote.
        bore_mm: diameter of the rod's bore [mm].
        knob_across_mm: greatest diameter of the knob [mm].
    """
    numbers = Numbers("handle")
    m1, m2 = shop.emc_percent, customer.emc_percent
    for key, place, m in (("shop_emc_percent", shop, m1), ("customer_emc_percent", customer, m2)):
        numbers.add(
            key, round(m, 3), f"moisture content that wood settles at in the climate of the {place.name}",
            "1800/W (Kh/(1 - Kh) + (K1 Kh + 2 K1 K2 K²h²)/(1 + K1 Kh + K1 K2 K²h²))",
            {"temperature_c": place.temperature_c, "humidity_percent": 100 * place.humidity}, EMC_SOURCE,
        )  # fmt: skip
    moved = {
        "bore_movement_mm": (bore_mm, "change of the rod bore across the grain, flat-sawn"),
        "knob_movement_mm": (knob_across_mm, "change of the knob's diameter along the rings; the other way moves less"),
    }
    for key, (size, meaning) in moved.items():
        one = movement(wood, "flat", size, m1, m2)
        numbers.add(
            key, one.change_mm, f"{meaning}, from the shop's climate to the customer's",
            "D C_T (M_to - M_from)" if one.method == "coefficient" else "D (M_to - M_from)/(3000/S_T - 30 + M_from)",
            {"D_mm": size, "M_from_percent": round(m1, 2), "M_to_percent": round(m2, 2), "C_T": one.coefficient},
            one.source,
        )  # fmt: skip
    needed = rod_clearance_mm(wood, bore_mm, m1, m2)
    numbers.add(
        "rod_clearance_needed_mm", needed,
        "least clearance of rod to bore, on the diameter, so that a drier customer's bore still lets the rod slide",
        "max(0, -bore movement) + 0.1 mm to slide", {"bore_mm": bore_mm}, MOVEMENT_SOURCE,
    )  # fmt: skip
    if rod is None:
        return numbers
    length, angle = rod
    change = movement_off_grain(wood, length, angle, m1, m2)
    numbers.add(
        "tote_height_movement_mm", change,
        "change of the wood along the tote's rod, from the shop's climate to the customer's",
        "ΔD_T sin² + ΔD_L cos², ΔD_T across flat-sawn wood, ΔD_L along its fibres",
        {"D_mm": length, "angle_deg": angle, "M_from_percent": round(m1, 2), "M_to_percent": round(m2, 2),
         "S_L_percent": _along()["percent"]},
        f"{MOVEMENT_SOURCE}; along the fibres {_along()['source']} (seen in {_along()['seen_in']})",
    )  # fmt: skip
    wet = wettest.emc_percent
    swollen = movement_off_grain(wood, length, angle, m1, wet)
    numbers.add(
        "nut_travel_needed_mm", max(change, swollen, 0.0) - min(change, swollen, 0.0),
        "travel the rod's nut must have so that it can follow the tote's height from the customer's driest to wettest",
        "greatest less least change of the tote's height, made at none",
        {"driest_mm": change, "wettest_mm": swollen, "M_wet_percent": round(wet, 2)}, MOVEMENT_SOURCE,
    )  # fmt: skip
    return numbers


def rod_clearance_mm(wood: Species, bore_mm: float, from_percent: float, to_percent: float) -> float:
    """Return the diametral clearance [mm] a rod needs in a bore [mm] made at one MC and used at another [percent].

    A bore shrinks in proportion with the wood around it; 0.1 mm remains to slide (common practice, no source).
    """
    return max(0.0, -movement(wood, "flat", bore_mm, from_percent, to_percent).change_mm) + 0.1


def moisture_finding(wood: Species, shop: Climate, customer: Climate, clearance_mm: float, bore_mm: float) -> Finding:
    """Judge whether the rod stays free in its bore at the customer's.

    Args:
        wood: the species.
        shop: climate the handle is made in.
        customer: climate it is used in.
        clearance_mm: clearance of rod to bore as made, on the diameter [mm].
        bore_mm: diameter of the bore [mm].
    """
    needed = rod_clearance_mm(wood, bore_mm, shop.emc_percent, customer.emc_percent)
    return Finding(
        "H20",
        "handle",
        "rod stays free in its bore at the customer's moisture",
        judge(clearance_mm >= needed, clearance_mm >= needed - 0.1),
        f"{clearance_mm:.2f} mm",
        f"{needed:.2f} mm or more",
        f"{wood.id} goes from {shop.emc_percent:.1f} % to {customer.emc_percent:.1f} % MC; a bore that shrinks onto "
        "the rod splits the handle",
        MOVEMENT_SOURCE,
        ""
        if clearance_mm >= needed
        else f"ream the bore {needed - clearance_mm:.2f} mm wider, or bring shop_humidity in shop.toml's [climate] "
        "nearer to the customer's",
    )


def acclimation_finding(board_mc_percent: float, shop: Climate) -> Finding:
    """Judge a board's moisture [percent] against the shop: within 2 points before it is machined."""
    off = board_mc_percent - shop.emc_percent
    return Finding(
        "H21",
        "handle",
        "lumber has settled to the shop before it is machined",
        judge(abs(off) <= 2, abs(off) <= 4),
        f"{board_mc_percent:.1f} %",
        f"{shop.emc_percent:.1f} % +/- 2",
        "wood machined away from its resting moisture goes on moving afterwards",
        "adviser quoted on a moisture-meter page",
        "" if abs(off) <= 2 else "leave the boards stickered in the shop until the meter agrees",
    )
