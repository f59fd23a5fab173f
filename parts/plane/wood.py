"""The handles' wood: grain direction, moisture, blanks, from the resolved design."""

from __future__ import annotations

from functools import lru_cache
from math import atan, degrees

from parts.handle.blanks import Blank, WoodPractice, knob_blank, tote_blank
from parts.handle.grain import angle_between, grain_finding, short_grain_strength_mpa
from parts.handle.moisture import Climate, moisture_finding, moisture_numbers
from parts.handle.outline import tote_side
from parts.handle.size import ToteSize, narrowest_section
from parts.handle.wood import Species, species, species_density_kg_m3
from parts.plane.design import Design
from shared.findings import Finding
from shared.numbers import COMMON_PRACTICE, GEOMETRY, Numbers
from shared.record import Record
from shared.tables import table

HORN_AXIS = 0.0  # the horn reaches aft, level with the sole


class Grain(Record):
    """Direction of the fibres in the tote's side view [deg from the sole, x toward z] and what it gives."""

    direction_deg: float
    decides: str
    angle_to_grip_deg: float
    short_grain_mpa: float
    horn_mpa: float


def climates(d: Design) -> tuple[Climate, Climate]:
    """Return the climate the handle is made in and the customer's driest, which loosens and shrinks most."""
    c = d.shop.climate
    return (
        Climate("shop", c.shop_temperature, c.shop_humidity),
        Climate("customer, driest", c.customer_temperature, c.customer_humidity_low),
    )


def wettest(d: Design) -> Climate:
    """Return the customer's wettest climate, in which the wood swells most."""
    c = d.shop.climate
    return Climate("customer, wettest", c.customer_temperature, c.customer_humidity_high)


def shop_density(d: Design) -> float:
    """Return the density of the handles' wood at the shop's moisture [kg/m3]."""
    return species_density_kg_m3(species(d.spec.handle.species), climates(d)[0].emc_percent)


@lru_cache(maxsize=64)
def _grain(name: str, tote: ToteSize) -> Grain:
    """Lay the fibres along the narrowest part of the grip, leaning toward the horn as far as the grip allows.

    The grip breaks first, so its fibres may run out no steeper than the warning slope; within that the direction is
    taken that leaves the horn, which reaches aft, the strongest.
    """
    wood = species(name)
    axis = 90.0 + narrowest_section(tote)[3]
    lean = degrees(atan(1.0 / (1.05 * table("wood")["grain_practice"]["warning_one_in"])))
    tried = [axis - lean, axis, axis + lean]
    horn = [short_grain_strength_mpa(wood, angle_between(HORN_AXIS, t)) for t in tried]
    direction = tried[horn.index(max(horn))]
    angle = angle_between(axis, direction)
    return Grain(
        direction,
        "the grip's narrowest part first, then the horn",
        angle,
        short_grain_strength_mpa(wood, angle),
        max(horn),
    )


def grain(d: Design) -> Grain | None:
    """Return the grain direction that makes the tote's weakest section strongest; None on a plane without a tote."""
    return None if d.tote is None else _grain(d.spec.handle.species, d.tote)


def side_points(tote: ToteSize) -> list[tuple[float, float]]:
    """Return the tote's side view as a polygon [mm], fine enough for a blank."""
    return tote_side(tote).polyline(0.2)


@lru_cache(maxsize=64)
def _tote_blank(d_tote: ToteSize, direction: float, practice: object) -> Blank:
    thickness = max(d_tote.head_width, d_tote.grip_width, d_tote.foot_width)
    return tote_blank(side_points(d_tote), thickness, direction, practice)  # type: ignore[arg-type]


def handle_blanks(d: Design) -> tuple[Blank, ...]:
    """Return the blanks of tote (where there is one) and knob with the shop's allowances."""
    practice = d.shop.wood_practice()
    knob = knob_blank(d.knob.diameter, d.knob.height, practice)
    found = grain(d)
    if d.tote is None or found is None:
        return (knob,)
    return (_tote_blank(d.tote, found.direction_deg, practice), knob)


def wood_numbers_of(d: Design) -> Numbers:
    """Return the numbers of blanks, grain and moisture."""
    n = Numbers("handle")
    *totes, knob = handle_blanks(d)
    g = grain(d)
    practice = d.shop.wood_practice()
    if d.tote is not None and g is not None:
        _add_tote(n, d.tote, totes[0], g, practice)
    n.add(
        "knob_blank_side_mm",
        knob.width_mm,
        "knob blank, square",
        "diameter + 2 × turning allowance",
        {"diameter_mm": d.knob.diameter, "allowance_mm": practice.turning_allowance_mm},
        GEOMETRY,
    )
    n.add(
        "knob_blank_length_mm",
        knob.length_mm,
        "knob blank along the grain",
        "height + 2 × end allowance",
        {"height_mm": d.knob.height, "allowance_mm": practice.knob_end_allowance_mm},
        GEOMETRY,
    )
    n.add(
        "knob_lumber_mm",
        knob.buy.nominal_mm,
        "lumber to buy for the knob, nominal",
        "thinnest whose kiln-dried least is enough",
        {"needed_mm": knob.thickness_mm},
        COMMON_PRACTICE,
    )
    n.add(
        "set_bf",
        sum(b.board_feet for b in (*totes, knob)),
        "lumber in one set of blanks, no waste counted",
        "Σ length × width × nominal thickness / 144 in³",
        source=GEOMETRY,
    )
    rod = None
    if d.tote is not None and g is not None:
        rod = d.tote.rod_height - d.tote.nut_counterbore_depth, g.angle_to_grip_deg
    shop, customer = climates(d)
    n.update(
        moisture_numbers(
            species(d.spec.handle.species),
            shop,
            customer,
            wettest(d),
            rod,
            _bore(d),
            d.knob.diameter,
        )
    )
    return n


def _add_tote(n: Numbers, size: ToteSize, tote: Blank, g: Grain, practice: WoodPractice) -> None:
    saw = {"bandsaw_allowance_mm": practice.bandsaw_allowance_mm, "grain_deg": g.direction_deg}
    n.add(
        "tote_grain_direction_deg",
        g.direction_deg,
        "fibres in the tote's side view, from the sole, counter-clockwise from aft",
        "along the grip's narrowest part, leaning toward the horn by the slope that still passes there",
        {"lean_deg": size.lean_deg},
        "grain practice, see the wood table; choice of this works",
        g.decides,
    )
    n.add(
        "tote_horn_strength_mpa",
        g.horn_mpa,
        "bending strength of the horn at its angle to the fibres",
        "Hankinson: P·Q/(P·sinⁿθ + Q·cosⁿθ)",
        {"theta_deg": angle_between(HORN_AXIS, g.direction_deg)},
        "Wood Handbook FPL-GTR-190 Table 5-3a (12 % MC) and ch. 5",
    )
    n.add(
        "tote_grain_angle_deg",
        g.angle_to_grip_deg,
        "angle of the fibres to the grip's axis at its narrowest part",
        "difference of the two directions",
        {"grain_deg": g.direction_deg, "lean_deg": size.lean_deg},
        GEOMETRY,
    )
    n.add(
        "tote_short_grain_strength_mpa",
        g.short_grain_mpa,
        "bending strength across the grip's narrowest part",
        "Hankinson: P·Q/(P·sinⁿθ + Q·cosⁿθ)",
        {"theta_deg": g.angle_to_grip_deg},
        "Wood Handbook FPL-GTR-190 Table 5-3a (12 % MC) and ch. 5",
    )
    n.add(
        "tote_blank_length_mm",
        tote.length_mm,
        "tote blank along the grain",
        "side view along the grain + 2 × bandsaw allowance",
        saw,
        GEOMETRY,
    )
    n.add(
        "tote_blank_width_mm",
        tote.width_mm,
        "tote blank across the grain",
        "side view across the grain + 2 × bandsaw allowance",
        saw,
        GEOMETRY,
    )
    n.add(
        "tote_blank_thickness_mm",
        tote.thickness_mm,
        "tote blank before planing",
        "widest of grip, head and foot + 2 × planing",
        {"planing_per_face_mm": practice.planing_per_face_mm},
        GEOMETRY,
    )
    n.add(
        "tote_lumber_mm",
        tote.buy.nominal_mm,
        "lumber to buy for the tote, nominal",
        "thinnest whose kiln-dried least is enough",
        {"needed_mm": tote.thickness_mm},
        COMMON_PRACTICE,
    )


def _bore(d: Design) -> float:
    return (d.knob if d.tote is None else d.tote).bore_diameter


def wood_findings(d: Design) -> list[Finding]:
    """Return what grain and moisture have to say."""
    wood: Species = species(d.spec.handle.species)
    shop, customer = climates(d)
    found = grain(d)
    grip = [] if found is None else [grain_finding(wood, found.angle_to_grip_deg, "the grip's narrowest part")]
    return [*grip, moisture_finding(wood, shop, customer, _bore(d) - d.rod_diameter, _bore(d))]
