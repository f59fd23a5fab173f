"""The pour plan of a whole plane, from plain masses and sizes of its castings: no CAD.

Each cast part has its own match plate; parts of one alloy share the furnace, the taps and the ladles.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

from parts.plane.pour_alloy import AlloyPour, alloy_pour
from parts.plane.pour_numbers import CastPart, Worked, part_numbers
from parts.plane.pour_steps import steps_of
from parts.plane.shop import ShopSpec
from shared.casting.alloy import alloy
from shared.casting.match_plate import Flask, Impression, MatchPlate, Practice, lay_out
from shared.casting.melt import cautions as melt_cautions
from shared.errors import Fault, InputError
from shared.numbers import Numbers
from shared.tables import table

__all__ = ["AlloyPour", "CastPart", "PourPlan", "match_plate", "plate_practice", "pour_plan"]


@dataclass(frozen=True)
class PourPlan:
    """The whole plan: totals, numbers of each part, plates, alloys, steps and cautions."""

    numbers: Numbers
    parts: dict[str, Numbers]
    plates: dict[str, MatchPlate]
    alloys: dict[str, AlloyPour]
    steps: tuple[str, ...]
    cautions: tuple[str, ...]
    first: str  # "inch" or "mm": the unit that leads

    def as_json(self) -> dict[str, Any]:
        """Return the plan for JSON: totals first, then parts, alloys, steps, cautions."""
        return {
            **self.numbers.as_json(),
            "parts": {k: v.as_json() for k, v in self.parts.items()},
            "alloys": {k: v.numbers.as_json() for k, v in self.alloys.items()},
            "melt_cards": {k: [asdict(row) for row in v.melt_card] for k, v in self.alloys.items()},
            "steps": list(self.steps),
            "cautions": list(self.cautions),
        }


def plate_practice(shop: ShopSpec) -> Practice:
    """Return what of the shop's practice a match plate needs."""
    m = shop.mould
    return Practice(
        flasks=tuple(Flask(f.name, f.length, f.width, f.cope, f.drag) for f in shop.flask),
        flask=m.flask,
        impressions=m.impressions,
        between_mm=m.between_impressions,
        to_flask_mm=m.to_flask,
        discharge=m.discharge_coefficient,
        basin_above_cope_mm=m.basin_above_cope,
        pin_diameter_mm=m.pin_diameter,
        pin_beyond_flask_mm=m.pin_beyond_flask,
    )


def match_plate(part: CastPart, shop: ShopSpec) -> MatchPlate:
    """Lay out the match plate of one part, contraction put on.

    Args:
        part: the casting, at casting size.
        shop: the works' practice.

    Raises:
        RequestError: no flask fits.
        InputError: a size that no casting has, or no such alloy.
    """
    metal = alloy(part.alloy_id)
    x, y, z = part.factors or shop.contraction_of(part.alloy_id, part.length_mm).factors
    item = Impression(
        name=part.name,
        length_mm=part.length_mm * x,
        width_mm=part.width_mm * y,
        cope_mm=part.cope_mm * z,
        drag_mm=part.drag_mm * z,
        mass_kg=part.mass_kg,
        section_mm=part.section_mm,
        hot_modulus_mm=part.hot_modulus_mm,
        plan_area_mm2=part.plan_area_mm2,
        edge=tuple((along * x, depth * y) for along, depth in part.edge),
        wall=tuple((along * x, height * z) for along, height in part.wall),
    )
    return lay_out(item, metal, plate_practice(shop))


def pour_plan(parts: Sequence[CastPart], shop: ShopSpec, quantity_planes: int, first: str = "mm") -> PourPlan:
    """Plan the pour of so many good planes.

    Args:
        parts: the castings of one plane.
        shop: the works' practice.
        quantity_planes: good planes wanted [-].
        first: "inch" or "mm": the unit that leads in the texts.

    Raises:
        InputError: a quantity below 1, a size that no casting has, no such alloy.
        RequestError: no flask fits, a ladle too small for a mould, a casting too heavy for the tables.
    """
    faults = []
    if quantity_planes < 1:
        faults.append(Fault("pour", "quantity", str(quantity_planes), "1 or more"))
    if not parts:
        faults.append(Fault("pour", "castings", "none", "at least one casting"))
    if len({p.name for p in parts}) != len(parts):
        faults.append(Fault("pour", "castings", ", ".join(p.name for p in parts), "each name only once"))
    if faults:
        raise InputError(faults)
    plates = {p.name: match_plate(p, shop) for p in parts}
    numbers = {p.name: part_numbers(p, plates[p.name], shop, quantity_planes) for p in parts}
    alloys: dict[str, AlloyPour] = {}
    for alloy_id in dict.fromkeys(p.alloy_id for p in parts):
        same = [p for p in parts if p.alloy_id == alloy_id]
        alloys[alloy_id] = alloy_pour(alloy(alloy_id), same, plates, numbers, shop, first)
    total = _totals(parts, numbers, alloys, quantity_planes)
    cautions = list(dict.fromkeys(c for a in alloys.values() for c in melt_cautions(a.metal, first)))
    # the deferring sentence stands last
    defer = table("foundry")["safety"]["defer"]
    cautions = [*(c for c in cautions if c != defer), defer]
    steps = tuple(steps_of(parts, numbers, plates, alloys, shop, first))
    return PourPlan(total, numbers, plates, alloys, steps, tuple(cautions), first)


def _totals(
    parts: Sequence[CastPart], numbers: dict[str, Numbers], alloys: dict[str, AlloyPour], planes: int
) -> Numbers:
    out = Worked("pour")
    rows = [numbers[p.name] for p in parts]
    out.add("quantity", planes, "good planes wanted", "as asked", {}, "order")
    out.add("castings", sum(r.value("castings") for r in rows), "castings to pour, all parts", "sum")
    out.add("moulds", sum(r.value("moulds") for r in rows), "moulds to make, all parts", "sum")
    out.add(
        "heats",
        sum(a.numbers.value("heats") for a in alloys.values()),
        "taps by mass alone, all alloys",
        "Σ ⌈poured / tap⌉",
    )
    out.add("taps", sum(a.numbers.value("taps") for a in alloys.values()), "taps really needed, all alloys", "sum")
    cast = sum(r.value("castings") * p.mass_kg for p, r in zip(parts, rows, strict=True))
    poured = sum(r.value("poured_mass_kg") for r in rows)
    out.add("castings_mass_kg", cast, "mass of all castings", "Σ castings × mass")
    out.add("poured_mass_kg", poured, "metal in all moulds", "sum of the parts")
    out.add("charge_mass_kg", sum(a.numbers.value("charge_mass_kg") for a in alloys.values()), "metal to melt", "sum")
    out.add("yield_percent", 100 * cast / poured, "castings over poured metal", "castings / poured")
    return out
