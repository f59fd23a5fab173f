"""The numbers of a pour of each part's moulds: quantities, masses, gating, freezing."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from parts.plane.shop import ShopSpec
from shared.casting import melt as melting
from shared.casting import quantity
from shared.casting.alloy import Alloy, alloy
from shared.casting.gating import SOURCE as GATING_SOURCE
from shared.casting.gating import G, cope_lift
from shared.casting.match_plate import MatchPlate
from shared.casting.solidification import SOURCE as FREEZING_SOURCE
from shared.casting.solidification import freezing_time, mould_constant
from shared.numbers import Numbers, Value
from shared.tables import table

BASIN_OVER_SPRUE = 2.0  # narrowest cup over the sprue's top; common practice, no source
LIFT_MARGIN = 1.5  # weight on the cope over its lift; foundry practice (memory)


class Worked(Numbers):
    """Numbers of which one without a source of its own is plain arithmetic on those beside it."""

    def add(self, key: str, value: Value, meaning: str, formula: str, values: Mapping[str, Value] | None = None,
            source: str = "arithmetic on the numbers beside it", decided_by: str = "") -> None:  # fmt: skip
        """Add one number; arguments as in `Numbers.add`."""
        super().add(key, value, meaning, formula, values, source, decided_by)


@dataclass(frozen=True)
class CastPart:
    """One casting as the pour plan sees it, at casting size (not pattern size) [mm, kg]."""

    name: str
    alloy_id: str
    mass_kg: float  # raw casting
    length_mm: float
    width_mm: float
    cope_mm: float  # height above the parting plane
    drag_mm: float  # depth below it
    section_mm: float  # main wall
    hot_modulus_mm: float  # modulus of the spot that freezes last
    heaviest_section_mm: float | None = None  # for the stress-relief hold; default twice the modulus or the wall
    per_plane: int = 1
    plan_area_mm2: float | None = None
    factors: tuple[float, float, float] | None = None  # pattern over casting along length, width, height; None: shop's
    edge: tuple[tuple[float, float], ...] = ()  # outline that faces the runner, as of an impression
    wall: tuple[tuple[float, float], ...] = ()  # how high it stands along that side, as of an impression

    @property
    def relief_section_mm(self) -> float:
        """Section that the stress-relief hold goes by [mm]."""
        return self.heaviest_section_mm or max(self.section_mm, 2.0 * self.hot_modulus_mm)


def part_numbers(part: CastPart, plate: MatchPlate, shop: ShopSpec, planes: int) -> Numbers:
    """Return the numbers of one part's moulds: quantities, masses, gating, freezing.

    Args:
        part: the casting.
        plate: its match plate.
        shop: the works' practice.
        planes: good planes wanted [-].
    """
    metal, melt = alloy(part.alloy_id), shop.melt
    good = planes * part.per_plane
    least = quantity.castings_to_pour(good, melt.scrap, melt.confidence)
    moulds = quantity.moulds_for(least, plate.count)
    n = moulds * plate.count  # a mould pours all its impressions
    out = Worked(f"pour {part.name}")
    given: dict[str, Any] = {"good": good, "scrap": melt.scrap, "confidence": melt.confidence}
    chance = quantity.chance_of_enough(n, good, melt.scrap)
    out.add("good_castings", good, "good castings wanted", "planes × castings a plane", {"planes": planes}, "order")
    out.add(
        "castings",
        n,
        f"castings to pour; with {chance:.1%} chance enough are good",
        "least n with P(Binomial(n, 1 − scrap) ≥ good) ≥ confidence, up to whole moulds",
        given | {"least": least},
        "binomial distribution, castings independent",
    )
    out.add("moulds", moulds, "moulds to make", "⌈castings / impressions⌉", {"impressions": plate.count}, "counting")
    out.add("casting_mass_kg", part.mass_kg, "mass of one raw casting", "from the casting", {}, "given")
    basin = basin_mass(plate, metal, shop)
    poured = plate.poured_mass_kg + basin
    made = f"{plate.feeding.method}: {plate.feeding.advice}"
    out.add(
        "gating_mass_kg", plate.gating_mass_kg, "sprue, well, runners, ingates and necks of one mould", "volume × ρ"
    )
    out.add(
        "riser_mass_kg",
        plate.riser_mass_kg,
        f"risers of one mould; {made}",
        "volume × ρ",
        {},
        "modulus method (memory)",
    )
    out.add("basin_mass_kg", basin, "metal left in the pouring cup on the sprue", "π/4·D²·h·ρ",
            {"D_mm": basin_diameter(plate, shop), "h_mm": shop.mould.basin_above_cope}, "shop.toml")  # fmt: skip
    out.add("poured_mass_per_mould_kg", poured, "metal of one mould", "castings + gating + risers + basin")
    out.add("yield_percent", 100 * plate.castings_mass_kg / poured, "castings over poured metal", "castings / poured")
    out.add("poured_mass_kg", poured * moulds, "metal in all moulds", "moulds × metal of one", {"moulds": moulds})
    out.add(
        "fill_time_s",
        plate.pouring_time_s,
        "time to fill one mould",
        f"pouring-time rule '{metal.pouring_time_rule}' by poured mass and section",
        {"poured_kg": plate.poured_mass_kg, "section_mm": part.section_mm},
        "AFS; P. N. Rao, Manufacturing Technology vol. 1 (memory)",
    )
    heights = {"h_mm": plate.metal_height_mm, "p_mm": part.cope_mm, "c_mm": part.cope_mm + part.drag_mm}
    out.add("effective_head_mm", plate.effective_head_mm, "effective head", "h − p²/(2c)", heights, GATING_SOURCE)
    out.add(
        "choke_area_mm2",
        plate.areas.choke_mm2,
        f"choke, at the {metal.choke_at}",
        "m/(ρ·t·C·√(2gH))",
        {
            "m_kg": plate.poured_mass_kg,
            "rho_kg_m3": metal.liquid_density_kg_m3,
            "coefficient": shop.mould.discharge_coefficient,
        },
        GATING_SOURCE,
    )
    ratio = " : ".join(f"{r:g}" for r in metal.gating_ratio)
    kind = "pressurised" if plate.areas.pressurised else "unpressurised"
    out.add(
        "gating_ratio", ratio, f"sprue base : runners : ingates, {kind}", "table", {}, metal.source_of("gating_ratio")
    )
    for key, value, what in (
        ("sprue_base_area_mm2", plate.areas.sprue_base_mm2, "sprue base"),
        ("runner_area_mm2", plate.areas.runner_mm2, "all runners together"),
        ("ingate_area_mm2", plate.areas.ingate_mm2, "all ingates together"),
    ):
        out.add(key, value, f"area of {what}", "choke × ratio", {}, GATING_SOURCE)
    out.add("sprue_base_diameter_mm", plate.sprue.diameter, "sprue at its base", "√(4A/π)")
    out.add(
        "sprue_top_diameter_mm",
        plate.sprue.end_diameter or plate.sprue.diameter,
        "sprue at its top, least that runs full",
        "A_base·√(H_base/H_top)",
        {},
        GATING_SOURCE,
    )
    limit = table("foundry")["critical_velocity"]["limit"]
    calm = (
        "calm"
        if plate.ingate_velocity_m_s <= limit
        else f"above {limit} m/s: keep the sprue full, let the first metal run past the ingates, filter if dross shows"
    )
    out.add(
        "ingate_speed_m_s",
        plate.ingate_velocity_m_s,
        f"speed of the metal in the ingates; {calm}",
        "choke/ingate area × C·√(2gH)",
        {},
        "limit 0.5 m/s: J. Campbell, Castings (memory)",
    )
    window = melting.pouring_window(metal, pour_aim(metal, shop))
    superheat = window.aim_c - (metal.solidus_c + metal.liquidus_c) / 2
    out.add(
        "freezing_time_s",
        freezing_time(part.hot_modulus_mm, mould_constant(metal, superheat)),
        "time until the last spot is frozen",
        "B·(V/A)², B from sand and superheat",
        {"modulus_mm": part.hot_modulus_mm, "superheat_k": superheat},
        FREEZING_SOURCE,
    )
    if plate.necks:
        asked = plate.feeding.neck_modulus_mm
        held = "" if plate.neck_modulus_mm > asked - 1e-6 else "; as large as casting and riser leave room for"
        out.add("neck_modulus_mm", plate.neck_modulus_mm, f"modulus of the risers' necks, {asked:.2f} mm asked{held}",
                "b·h/(2(b + h))", {}, "modulus method (memory)")  # fmt: skip
    lift = cope_lift(metal.liquid_density_kg_m3, plate.metal_height_mm, plate.cavity_area_mm2)
    out.add(
        "cope_weight_kg",
        LIFT_MARGIN * lift / G,
        f"weight or clamping on the cope, {LIFT_MARGIN:g} times its lift",
        "1.5·ρ·H·A over all cavities",
        {"area_mm2": plate.cavity_area_mm2},
        "foundry practice (memory)",
    )
    out.add("flask", plate.flask.name, "flask used", "smallest on the shelf that fits, or as set", {}, "shop.toml")
    return out


def basin_diameter(plate: MatchPlate, shop: ShopSpec) -> float:
    """Return the mean diameter of the pouring cup [mm]: the shop's, never less than twice the sprue's top."""
    return max(shop.mould.basin_diameter, BASIN_OVER_SPRUE * (plate.sprue.end_diameter or plate.sprue.diameter))


def basin_mass(plate: MatchPlate, metal: Alloy, shop: ShopSpec) -> float:
    """Return the metal that stays in the pouring cup of one mould [kg]."""
    area = math.pi / 4 * basin_diameter(plate, shop) ** 2
    return area * shop.mould.basin_above_cope * metal.density_kg_m3 / 1e9


def pour_aim(metal: Alloy, shop: ShopSpec) -> float | None:
    """Return the shop's own pouring temperature [°C] where it is one for this alloy."""
    aim = shop.melt.pour_temperature
    return aim if aim is not None and metal.liquidus_c < aim < metal.liquidus_c + 500.0 else None
