"""What the parts of one alloy share in a pour: furnace, taps, ladles, time limit, stress relief, finish."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from parts.plane.finish import Finish, finish_of
from parts.plane.pour_numbers import CastPart, Worked, pour_aim
from parts.plane.shop import ShopSpec
from shared.both_units import minute_rate
from shared.casting import melt as melting
from shared.casting import quantity
from shared.casting.alloy import Alloy
from shared.casting.match_plate import MatchPlate
from shared.casting.stress_relief import BakeCheck, ReliefCycle, bake_check, relief_cycle
from shared.errors import RequestError
from shared.numbers import COMMON_PRACTICE, Numbers
from shared.tables import table


@dataclass(frozen=True)
class Fill:
    """How many of the moulds of one part that there are one ladle and one tap fill [-]."""

    part: str
    moulds: int
    ladle: int
    tap: int


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
    fills: tuple[Fill, ...]
    finishes: tuple[Finish, ...]

    @property
    def coated(self) -> tuple[Finish, ...]:
        """The finishes of the parts that are powder coated."""
        return tuple(f for f in self.finishes if f.coated)

    @property
    def bare(self) -> tuple[Finish, ...]:
        """The finishes of the parts that are not."""
        return tuple(f for f in self.finishes if not f.coated)


def alloy_pour(
    metal: Alloy,
    parts: Sequence[CastPart],
    plates: dict[str, MatchPlate],
    numbers: dict[str, Numbers],
    shop: ShopSpec,
    first: str,
) -> AlloyPour:
    """Return what the parts of one alloy share: metal, taps, ladles, time limit, temperatures, heat treatment.

    Args:
        metal: the alloy.
        parts: its castings.
        plates: match plate of each part, by name.
        numbers: numbers of each part, by name.
        shop: the works' practice.
        first: "inch" or "mm": the unit that leads in the texts.
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
    out.add("furnace_mass_kg", min(charge, melt.furnace), "metal in the furnace that a correction goes into",
            "least of charge and furnace", {"furnace_kg": melt.furnace}, "shop.toml")  # fmt: skip
    heats = quantity.heats_for(poured, melt.tap)
    out.add("heats", heats, "taps needed by mass alone", "⌈poured / tap⌉", {"tap_kg": melt.tap}, "shop.toml")
    out.add(
        "furnace_charges", math.ceil(charge / melt.furnace - 1e-9), "charges of the furnace", "⌈charge / furnace⌉",
        {"furnace_kg": melt.furnace}, "shop.toml",
    )  # fmt: skip
    window = melting.pouring_window(metal, pour_aim(metal, shop), first)
    limit_s, why = _time_limit(metal, shop, window, first)
    share, most, fills, by = 0.0, 0.0, [], "metal"
    full, rest = divmod(melt.tap + 1e-9, melt.ladle)
    for p in parts:
        mould, there = numbers[p.name].value("poured_mass_per_mould_kg"), numbers[p.name].value("moulds")
        ladle = quantity.moulds_per_ladle(melt.ladle, melt.ladle_heel, mould)
        in_time = math.inf
        count = int(full) * ladle + math.floor(rest * (1 - melt.ladle_heel) / mould)
        timed = quantity.moulds_within(
            limit_s, melt.first_pour_after, plates[p.name].pouring_time_s, melt.mould_changeover, melt.pourers
        )
        if timed < count:
            count, by, in_time = timed, why, timed * mould
        ladle = min(ladle, timed // melt.pourers)
        fills.append(Fill(p.name, there, min(ladle, there), min(count, there)))
        share += there / count
        most = max(most, in_time)
    tap = min(melt.tap, min(poured, most) / (1 - melt.ladle_heel))
    out.add("tap_mass_kg", tap, "most metal tapped at once: no more than the moulds take before the time limit",
            "least of tap, metal of all moulds and metal poured in time, heel counted",
            {"tap_kg": melt.tap, "poured_kg": poured, "in_time_kg": min(most, poured), "heel": melt.ladle_heel},
            "shop.toml")  # fmt: skip
    out.add("ladles_per_tap", math.ceil(tap / melt.ladle - 1e-9), "ladles filled from one tap", "⌈tap / ladle⌉",
            {"ladle_kg": melt.ladle, "tap_kg": tap}, "shop.toml")  # fmt: skip
    out.add("moulds_per_ladle", [f"{f.part}: {f.ladle}" for f in fills],
            "moulds one ladle fills, none from two ladles, of those there are",
            "least of ⌊ladle·(1 − heel) / mould⌋, those within the time limit, and moulds")  # fmt: skip
    out.add("moulds_per_tap", [f"{f.part}: {f.tap}" for f in fills],
            "moulds one tap fills, by metal and by time, of those there are", "least of metal, time and moulds", {},
            COMMON_PRACTICE, by)  # fmt: skip
    out.add("taps", math.ceil(share - 1e-9), "taps really needed: whole moulds, heels and the time limit counted",
            "⌈Σ moulds / moulds per tap⌉", {}, COMMON_PRACTICE, by)  # fmt: skip
    treated = metal.family == "ductile-iron"
    cooling: dict[str, Any] = {"aim_c": window.aim_c, "low_c": window.low_c, "k_per_min": melt.ladle_cooling}
    out.add("time_limit_min", limit_s / 60, f"last mould filled after {'treatment' if treated else 'tapping'}",
            "least of the ladle's cooling to the window's end" + (", the shop's limit and magnesium fade" * treated),
            cooling, "shop.toml" + ("; magnesium fade 0.001 %/min (memory)" * treated), why)  # fmt: skip
    tap_c = window.aim_c + melt.ladle_cooling * melt.first_pour_after / 60
    out.add("ladle_temperature_c", tap_c,
            f"in the ladle after {'treatment' if treated else 'tapping'}, so that the first mould gets the aim; what "
            "filling and treating take comes on top: measure it", "aim + cooling × time to the first mould",
            cooling | {"first_pour_after_s": melt.first_pour_after}, "shop.toml")  # fmt: skip
    if treated:
        start = 100 * melt.magnesium_residual
        left = melting.magnesium_after(start, limit_s / 60)
        out.add("magnesium_at_limit_percent", left, "residual magnesium in the last mould", "start − fade × time",
                {"start_percent": start}, "fade 0.001 %/min (memory)")  # fmt: skip
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
    bake = bake_check(metal, shop.heat.bake_temperature, shop.heat.bake_time / 60, first)
    finishes = tuple(finish_of(p.name, metal, shop.heat, first) for p in parts)
    if any(f.coated for f in finishes):
        out.add("bake_temperature_c", shop.heat.bake_temperature, f"powder-coat bake; {bake.advice}", "as set", {},
                "shop.toml")  # fmt: skip
    return AlloyPour(
        metal=metal,
        parts=tuple(p.name for p in parts),
        numbers=out,
        window=window,
        composition=melting.composition_window(metal.id),
        carbon_equivalent=melting.carbon_equivalent_window(metal, min(p.section_mm for p in parts)),
        melt_card=melting.melt_card(metal, out.value("furnace_mass_kg"), min(p.section_mm for p in parts), first),
        relief=relief,
        bake=bake,
        fills=tuple(fills),
        finishes=finishes,
    )


def _time_limit(metal: Alloy, shop: ShopSpec, window: melting.PouringWindow, first: str) -> tuple[float, str]:
    """Return how long after treatment or tapping the last mould may end [s], and what decides it.

    Raises:
        RequestError: magnesium that fades to the least before the first mould is poured.
    """
    melt = shop.melt
    # the aim holds at the first mould; from there the ladle cools to the end of the window
    cold = melt.first_pour_after + 60 * max(0.0, window.aim_c - window.low_c) / melt.ladle_cooling
    limits = [(cold, f"the ladle's cooling by {minute_rate(melt.ladle_cooling, first)}")]
    if metal.family == "ductile-iron":
        least = table("foundry")["magnesium"]["residual_target"][0]
        fade = 60 * melting.fade_limit_min(100 * melt.magnesium_residual, least)
        if fade <= melt.first_pour_after:
            rate = table("foundry")["magnesium"]["fade_rate_per_min"]
            need = least + rate * melt.first_pour_after / 60
            raise RequestError(
                f"shop.toml: melt.magnesium_residual {100 * melt.magnesium_residual:.3f} % fades to {least:g} % before "
                f"the first mould, {melt.first_pour_after:.0f} s after treatment: more than {need:.4f} % is needed"
            )
        limits += [(melt.fade_limit, "the shop's time limit"), (fade, f"magnesium fade to {least:g} %")]
    return min(limits, key=lambda limit: limit[0])
