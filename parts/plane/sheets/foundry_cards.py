"""The foundry's cards as sheets of tables: pour and stress relief."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from parts.plane.pour import PourPlan, pour_plan
from parts.plane.pour_alloy import AlloyPour
from parts.plane.pour_sheet import mould_rows
from parts.plane.pour_steps import finish_lines, melt_title
from parts.plane.sheets.cards import BATCH, card_sheet
from parts.plane.sheets.common import SheetEntry
from shared.both_units import mass, rate, temperature, temperatures
from shared.casting.stress_relief import ReliefCycle
from shared.drawing.plan import SheetPlan
from shared.errors import RequestError
from shared.tables import table
from shared.wording import listed, plain_source

if TYPE_CHECKING:
    from parts.plane.run import Run

WIDE = 178.0  # mm: a card's tables
SPAN_K = 0.5  # a narrower span of temperature is said as one


def _plan(run: Run) -> PourPlan | str:
    """Return the pour plan of a standard batch, made once a build; the reason where there can be none."""
    from parts.plane.moulding import foundry_parts

    key = "pour plan"
    if key not in run.drawn:
        try:
            run.drawn[key] = pour_plan(foundry_parts(run.models), run.design.shop, BATCH, run.design.spec.units)
        except RequestError as err:
            # a flask or ladle too small must not keep the other shops' papers back; the card says what is missing
            run.drawn[key] = str(err)
            run.notes.append(f"no pour plan: {err}")
    made: PourPlan | str = run.drawn[key]
    return made


def _alloys(plan: PourPlan) -> str:
    return ", ".join(a.metal.name for a in plan.alloys.values())


def pour_card(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the pour card for a standard batch."""
    made = _plan(run)
    if isinstance(made, str):
        return card_sheet(run, entry).notes([f"No pour plan: {made}."])
    sheet = card_sheet(run, entry, _alloys(made))
    n, first = made.numbers, made.first
    sheet.table(["for", "castings", "moulds", "metal in the moulds", "to melt", "taps", "yield"], [[
        f"{n.value('quantity')} good planes", str(n.value("castings")), str(n.value("moulds")),
        mass(n.value("poured_mass_kg"), first), mass(n.value("charge_mass_kg"), first), str(n.value("taps")),
        f"{n.value('yield_percent'):.0f} %"]], title="Totals")  # fmt: skip
    rows, wide = mould_rows(made), (WIDE - 32.0) / len(made.parts)
    sheet.table(["", *made.parts], rows, title="Moulds and gating", widths=[32.0, *[wide] * len(made.parts)])
    for pour in made.alloys.values():
        _melt(sheet, pour, first)
    sheet.notes(list(made.steps), title="Steps")
    sheet.notes(list(made.cautions), title="Cautions", numbered=False)
    for pour in made.alloys.values():
        _record(sheet, pour)
    sheet.notes([_pour_sources(made)], title="Sources", numbered=False)
    return sheet


def _melt(sheet: SheetPlan, pour: AlloyPour, first: str) -> None:
    rows = [["carbon equivalent" if r.element == "CE" else r.element, f"{r.low:g} to {r.high:g}",
             r.when_low if r.low > 0.0 else "–", r.when_high] for r in pour.melt_card]  # fmt: skip
    low = f"when low, in {mass(pour.numbers.value('furnace_mass_kg'), first)}"
    sheet.table(["element", "window", low, "when high"], rows, title=melt_title(pour.metal.name),
                widths=(18.0, 23.0, 67.0, 70.0))  # fmt: skip


def _record(sheet: SheetPlan, pour: AlloyPour) -> None:
    """Add the table that the floor fills in: what is measured and timed differs by alloy."""
    treated = pour.metal.family == "ductile-iron"
    columns = ["tap", "date", "treated at" if treated else "tapped at", "temperature"]
    columns += ["Mg %"] if treated else ["Zn %"] if pour.metal.zinc_fume else []
    columns += ["last mould at", "moulds", "initials"]
    rows = [[""] * len(columns)] * min(8, pour.numbers.value("taps"))
    sheet.table(columns, rows, title=f"Record of taps, {pour.metal.name}", widths=[WIDE / len(columns)] * len(columns))


def _pour_sources(made: PourPlan) -> str:
    """Return where the card's outside values come from, in a sentence an alloy."""
    said = []
    for pour in made.alloys.values():
        row = table("foundry")["window"].get(pour.metal.id)
        window = f"melt window: {plain_source(row['source'], row['known'])}; " if row else ""
        hot = plain_source(pour.metal.source_of("pouring_low_c"))
        said.append(f"{pour.metal.name}: {window}pouring temperature: {hot}.")
    return " ".join(said) + " Sizes of additions and ladles: common practice, no source."


def relief_card(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the card of stress relief and of the powder coat's bake."""
    made = _plan(run)
    if isinstance(made, str):
        return card_sheet(run, entry).notes([f"No pour plan, so no load is known: {made}."])
    sheet = card_sheet(run, entry, _alloys(made))
    first, shop = made.first, run.design.shop
    pours = list(made.alloys.values())
    relieved = [p for p in pours if p.relief is not None]
    if relieved:
        wide = (WIDE - 26.0 - 44.0) / len(relieved)
        heads = [f"{p.metal.name}: {listed(p.parts)}" for p in relieved]
        sheet.table(["step", *heads, "why"], cycle_rows(relieved, first), title="Cycle",
                    widths=(26.0, *[wide] * len(relieved), 44.0))  # fmt: skip
    said = [f"{listed(p.parts)}: not stress-relieved, by the works' practice." for p in pours if p.relief is None]
    said += [f"{line}." for p in pours for line in finish_lines(p, shop, first)]
    sheet.notes(said, title="Finish after it", numbered=False)
    several = len({p.metal.family for p in relieved}) > 1
    coats = any(p.coated for p in pours)
    sheet.notes([
        "Load cold, castings standing free on edge or on a flat plate, so that none sags; a thermocouple in the "
        "heaviest casting's middle. The hold counts from when the slowest casting is at temperature.",
        f"Relieve before the first cut; finish the datum faces last{', after the powder coat' if coats else ''}. "
        "Nothing is quenched or blown.",
        *(["Iron and bronze go in loads of their own: their temperatures differ."] if several else []),
    ])  # fmt: skip
    sheet.notes([
        "Furnace: interlocked doors, extraction, nothing wet or oily in the load; gloves, face shield, tongs; a "
        f"casting at {temperature(290.0, first)} looks cold. The furnace's manual, local codes and licensed practice "
        "rule over this card.",
    ], title="Cautions", numbered=False)  # fmt: skip
    sheet.table(["load", "date", "castings", "at temperature", "hold ended", "chart no.", "initials"], [[""] * 7] * 4,
                title="Record of loads", widths=[WIDE / 7] * 7)  # fmt: skip
    if relieved:
        lines = [f"{p.metal.name}: {p.relief.source}." for p in relieved if p.relief]
        sheet.notes([" ".join(lines)], title="Sources", numbered=False)
    return sheet


def cycle_rows(pours: Sequence[AlloyPour], first: str) -> list[list[str]]:
    """Return the stress-relief cycles of some alloys as rows of text: step, a cell an alloy, why.

    Args:
        pours: the alloys that are stress-relieved.
        first: "inch" or "mm": the unit that leads.
    """
    cycles = [p.relief for p in pours if p.relief is not None]

    def heat(r: ReliefCycle) -> str:
        return f"to {temperature(r.temperature_c, first)} at {rate(r.heating_rate_low, first, r.heating_rate_high)}"

    def hold(r: ReliefCycle) -> str:
        return (f"{r.hold_h:.1f} h, whole load within {temperatures(r.temperature_low_c, r.temperature_high_c, first)}"
                if r.temperature_high_c - r.temperature_low_c >= SPAN_K
                else f"{r.hold_h:.1f} h, whole load at {temperature(r.temperature_c, first)}")  # fmt: skip

    def cool(r: ReliefCycle) -> str:
        return f"to {temperature(r.furnace_cool_to_c, first)} at {rate(r.cooling_rate_max, first)} or slower"

    return [
        ["heat", *map(heat, cycles), "thick and thin must keep together"],
        ["hold", *map(hold, cycles), "by the heaviest section"],
        ["furnace-cool", *map(cool, cycles), "faster puts the stress back"],
        ["air", *["to room temperature, still air, no draught" for _ in cycles], "then machine"],
        ["whole cycle", *[f"about {r.total_h:.0f} h" for r in cycles], ""],
    ]


FOUNDRY_CARDS = [
    SheetEntry("card-pour", "Pour card", "plane", ("foundry",), pour_card),
    SheetEntry("card-stress-relief", "Stress relief card", "plane", ("foundry", "machine"), relief_card),
]
