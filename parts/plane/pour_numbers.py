"""The numbers of a pour: of each part's moulds, and of what the parts of one alloy share."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
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
from shared.casting.stress_relief import BakeCheck, ReliefCycle, bake_check, relief_cycle
from shared.numbers import COMMON_PRACTICE, Numbers, Value
from shared.tables import table

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

    @property
    def relief_section_mm(self) -> float:
        """Section that the stress-relief hold goes by [mm]."""
        return self.heaviest_section_mm or max(self.section_mm, 2.0 * self.hot_modulus_mm)


@dataclass(frozen=True)
class AlloyPour:
    """What the parts of one alloy share: furnace, taps, ladles, melt card, heat treatment."""

    metal: Alloy
    parts: tuple[str, ...]
    numbers: Numbers
    window: melting.PouringWindow
    composition: dict[str, tuple[float, float]]
    carbon_equivalent: tuple[float, float] | None
    melt_card: list[melting.MeltRow]
    relief: ReliefCycle | None
    bake: BakeCheck


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
    n = quantity.castings_to_pour(good, melt.scrap, melt.confidence)
    moulds = quantity.moulds_for(n, plate.count)
    out = Worked(f"pour {part.name}")
    given: dict[str, Any] = {"good": good, "scrap": melt.scrap, "confidence": melt.confidence}
    chance = quantity.chance_of_enough(n, good, melt.scrap)
    out.add("good_castings", good, "good castings wanted", "planes × castings a plane", {"planes": planes}, "order")
    out.add(
        "castings",
        n,
        f"castings to pour; with {chance:.1%} chance enough are good",
        "least n with P(Binomial(n, 1 − scrap) ≥ good) ≥ confidence",
        given,
        "binomial distribution, castings independent",
    )
    out.add("moulds", moulds, "moulds to make", "⌈castings / impressions⌉", {"impressions": plate.count}, "counting")
    out.add("casting_mass_kg", part.mass_kg, "mass of one raw casting", "from the casting", {}, "given")
    poured = plate.poured_mass_kg
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
    out.add("poured_mass_per_mould_kg", poured, "metal of one mould", "castings + gating + risers")
    out.add("yield_percent", 100 * plate.yield_share, "castings over poured metal", "castings / poured")
    out.add("poured_mass_kg", poured * moulds, "metal in all moulds", "moulds × metal of one", {"moulds": moulds})
    out.add(
        "fill_time_s",
        plate.pouring_time_s,
        "time to fill one mould",
        f"pouring-time rule '{metal.pouring_time_rule}' by poured mass and section",
        {"poured_kg": poured, "section_mm": part.section_mm},
        "AFS; P. N. Rao, Manufacturing Technology vol. 1 (memory)",
    )
    heights = {"h_mm": plate.metal_height_mm, "p_mm": part.cope_mm, "c_mm": part.cope_mm + part.drag_mm}
    out.add("effective_head_mm", plate.effective_head_mm, "effective head", "h − p²/(2c)", heights, GATING_SOURCE)
    out.add(
        "choke_area_mm2",
        plate.areas.choke_mm2,
        f"choke, at the {metal.choke_at}",
        "m/(ρ·t·C·√(2gH))",
        {"m_kg": poured, "rho_kg_m3": metal.liquid_density_kg_m3, "coefficient": shop.mould.discharge_coefficient},
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
    window = melting.pouring_window(metal, _aim(metal, shop))
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


def _aim(metal: Alloy, shop: ShopSpec) -> float | None:
    """Return the shop's own pouring temperature [°C] where it is one for this alloy."""
    aim = shop.melt.pour_temperature
    return aim if aim is not None and metal.liquidus_c < aim < metal.liquidus_c + 500.0 else None


def alloy_pour(
    metal: Alloy, parts: Sequence[CastPart], plates: dict[str, MatchPlate], numbers: dict[str, Numbers], shop: ShopSpec
) -> AlloyPour:
    """Return what the parts of one alloy share: metal, taps, ladles, time limit, temperatures, heat treatment.

    Args:
        metal: the alloy.
        parts: its castings.
        plates: match plate of each part, by name.
        numbers: numbers of each part, by name.
        shop: the works' practice.
    """
    melt = shop.melt
    out = Worked(f"pour {metal.id}")
    poured = sum(numbers[p.name].value("poured_mass_kg") for p in parts)
    charge = poured / (1 - melt.ladle_heel) / (1 - melt.melt_loss)
    out.add("poured_mass_kg", poured, "metal in all moulds of this alloy", "sum of its parts")
    loss: dict[str, Any] = {"poured_kg": poured, "heel": melt.ladle_heel, "loss": melt.melt_loss}
    out.add(
        "charge_mass_kg",
        charge,
        "metal to melt, heels and losses counted",
        "poured/(1 − heel)/(1 − loss)",
        loss,
        "shop.toml",
    )
    heats = quantity.heats_for(poured, melt.tap)
    out.add("heats", heats, "taps needed by mass alone", "⌈poured / tap⌉", {"tap_kg": melt.tap}, "shop.toml")
    out.add(
        "furnace_charges", math.ceil(charge / melt.furnace - 1e-9), "charges of the furnace", "⌈charge / furnace⌉",
        {"furnace_kg": melt.furnace}, "shop.toml",
    )  # fmt: skip
    limit_s, why = _time_limit(metal, shop)
    share, per_ladle, per_tap, by = 0.0, [], [], "metal"
    full, rest = divmod(melt.tap + 1e-9, melt.ladle)
    for p in parts:
        mould = plates[p.name].poured_mass_kg
        ladle = quantity.moulds_per_ladle(melt.ladle, melt.ladle_heel, mould)
        count = int(full) * ladle + math.floor(rest * (1 - melt.ladle_heel) / mould)
        if limit_s is not None:
            timed = quantity.moulds_within(
                limit_s, melt.first_pour_after, plates[p.name].pouring_time_s, melt.mould_changeover, melt.pourers
            )
            if timed < count:
                count, by = timed, why
        per_ladle.append(f"{p.name}: {ladle}")
        per_tap.append(f"{p.name}: {count}")
        share += numbers[p.name].value("moulds") / count
    out.add("ladles_per_tap", math.ceil(melt.tap / melt.ladle - 1e-9), "ladles filled from one tap", "⌈tap / ladle⌉",
            {"ladle_kg": melt.ladle}, "shop.toml")  # fmt: skip
    out.add("moulds_per_ladle", per_ladle, "moulds one ladle fills, none from two ladles", "⌊ladle·(1 − heel) / mould⌋")
    out.add("moulds_per_tap", per_tap, "moulds one tap fills, by metal and by time", "least of metal and time", {},
            COMMON_PRACTICE, by)  # fmt: skip
    out.add("taps", math.ceil(share - 1e-9), "taps really needed: whole moulds, heels and the time limit counted",
            "⌈Σ moulds / moulds per tap⌉", {}, COMMON_PRACTICE, by)  # fmt: skip
    if limit_s is not None:
        out.add("time_limit_min", limit_s / 60, "last mould filled after treatment", "least of limit and fade", {},
                "magnesium fade 0.001 %/min (memory)", why)  # fmt: skip
        start = 100 * melt.magnesium_residual
        left = melting.magnesium_after(start, limit_s / 60)
        out.add("magnesium_at_limit_percent", left, "residual magnesium in the last mould", "start − fade × time",
                {"start_percent": start}, "fade 0.001 %/min (memory)")  # fmt: skip
    window = melting.pouring_window(metal, _aim(metal, shop))
    why_hot = f"aim in the ladle at the first mould; {window.why}"
    out.add("pouring_temperature_c", window.aim_c, why_hot, "middle of the window, or as set",
            {"low_c": window.low_c, "high_c": window.high_c}, metal.source_of("pouring_low_c"))  # fmt: skip
    section = max(p.relief_section_mm for p in parts)
    relief = None
    if shop.heat.stress_relieve:
        own = shop.heat.temperature if metal.is_iron else None  # one setting cannot serve iron and bronze
        relief = relief_cycle(metal, section, own)
        out.add("stress_relief_temperature_c", relief.temperature_c, "stress relief", "middle of window, or as set", {},
                relief.source)  # fmt: skip
        out.add("stress_relief_hold_h", relief.hold_h, "hold at temperature, by the heaviest section",
                "1 h + 1 h per 25 mm" if metal.is_iron else "1 h per 25 mm, at least 1 h", {"section_mm": section},
                relief.source)  # fmt: skip
        out.add("stress_relief_cooling_k_per_h", relief.cooling_rate_max, "fastest cooling in the furnace", "table", {},
                relief.source)  # fmt: skip
    bake = bake_check(metal, shop.heat.bake_temperature, shop.heat.bake_time / 60)
    out.add(
        "bake_temperature_c", shop.heat.bake_temperature, f"powder-coat bake; {bake.advice}", "as set", {}, "shop.toml"
    )
    return AlloyPour(
        metal=metal,
        parts=tuple(p.name for p in parts),
        numbers=out,
        window=window,
        composition=melting.composition_window(metal.id),
        carbon_equivalent=melting.carbon_equivalent_window(metal, min(p.section_mm for p in parts)),
        melt_card=melting.melt_card(metal, min(charge, melt.tap), min(p.section_mm for p in parts)),
        relief=relief,
        bake=bake,
    )


def _time_limit(metal: Alloy, shop: ShopSpec) -> tuple[float | None, str]:
    """Return how long after treatment the last mould may end [s], and what decides it; None without a limit."""
    if metal.family != "ductile-iron":
        return None, ""
    least = table("foundry")["magnesium"]["residual_target"][0]
    fade = 60 * melting.fade_limit_min(100 * shop.melt.magnesium_residual, least)
    if fade < shop.melt.fade_limit:
        return fade, f"magnesium fade to {least:g} %"
    return shop.melt.fade_limit, "the shop's time limit"
