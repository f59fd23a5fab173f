"""The foundry's cards as sheets of tables: pour and stress relief."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.plane.pour import PourPlan, pour_plan
from parts.plane.pour_numbers import AlloyPour
from parts.plane.pour_sheet import mould_rows
from parts.plane.pour_steps import mass_text
from parts.plane.sheets.cards import BATCH, card_sheet
from parts.plane.sheets.common import SheetEntry
from shared.casting.stress_relief import ReliefCycle
from shared.drawing.plan import SheetPlan
from shared.errors import RequestError

if TYPE_CHECKING:
    from parts.plane.run import Run


def _plan(run: Run) -> PourPlan | str:
    """Return the pour plan of a standard batch, made once a build; the reason where there can be none."""
    from parts.plane.moulding import foundry_parts

    key = "pour plan"
    if key not in run.drawn:
        try:
            run.drawn[key] = pour_plan(foundry_parts(run.models), run.design.shop, BATCH)
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
    n = made.numbers
    sheet.table(["for", "castings", "moulds", "metal in the moulds", "to melt", "taps", "yield"], [[
        f"{n.value('quantity')} good planes", str(n.value("castings")), str(n.value("moulds")),
        mass_text(n.value("poured_mass_kg")), mass_text(n.value("charge_mass_kg")), str(n.value("taps")),
        f"{n.value('yield_percent'):.0f} %"]], title="In all")  # fmt: skip
    rows, wide = mould_rows(made), (178.0 - 38.0) / len(made.parts)
    sheet.table(["", *made.parts], rows, title="Moulds and gating", widths=[38.0, *[wide] * len(made.parts)])
    for pour in made.alloys.values():
        _melt(sheet, pour)
    sheet.notes(list(made.steps), title="Steps")
    sheet.notes(list(made.cautions), title="Cautions", numbered=False)
    sheet.table(["tap", "date", "treated at", "temperature", "Mg or Zn %", "last mould at", "moulds", "initials"],
                [[""] * 8] * 6, title="Record of taps", widths=[22.25] * 8)  # fmt: skip
    return sheet


def _melt(sheet: SheetPlan, pour: AlloyPour) -> None:
    rows = [["carbon equivalent" if r.element == "CE" else r.element, f"{r.low:g} to {r.high:g}",
             r.when_low if r.low > 0.0 else "–", r.when_high] for r in pour.melt_card]  # fmt: skip
    w = pour.window
    title = f"{pour.metal.name}: melt window (wt %)"
    sheet.notes([f"Pour at {_both(w.aim_c)}, {w.low_c:.0f} to {w.high_c:.0f} °C: {w.why}."],
                title=f"{pour.metal.name}: pour",                numbered=False)  # fmt: skip
    sheet.table(["element", "window", "when low", "when high"], rows, title=title, widths=(28.0, 28.0, 62.0, 60.0))


def relief_card(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the card of stress relief and of the powder coat's bake."""
    made = _plan(run)
    if isinstance(made, str):
        return card_sheet(run, entry).notes([f"No pour plan, so no load is known: {made}."])
    sheet = card_sheet(run, entry, _alloys(made))
    for pour in made.alloys.values():
        names = ", ".join(pour.parts)
        title = f"{pour.metal.name}: {names}"
        if pour.relief is None:
            sheet.notes(
                ["Not stress-relieved: the works' practice says so ([heat] stress_relieve)."],
                title=title,
                numbered=False,
            )
        else:
            sheet.table(["step", "temperature", "rate or time", "why"], cycle_rows(pour.relief), title=title,
                        widths=(26.0, 44.0, 46.0, 62.0))  # fmt: skip
        bake = run.design.shop.heat
        sheet.notes([f"Powder coat {names}: {_both(bake.bake_temperature)} metal temperature, "
                     f"{bake.bake_time / 60:.0f} min; "
                     f"{pour.bake.advice}."], title=f"Bake, {pour.metal.name}", numbered=False)  # fmt: skip
    sheet.notes([
        "Load cold, castings standing free on edge or on a flat plate, so that none sags; a thermocouple in the "
        "heaviest casting's middle. The hold counts from when the slowest casting is at temperature.",
        "Relieve before the first cut; finish the datum faces last, after the powder coat where the bake's note says "
            "so. Nothing is quenched or blown.",
        "Iron and bronze go in loads of their own: their temperatures differ.",
    ])  # fmt: skip
    sheet.notes([
        "Furnace: interlocked doors, extraction, nothing wet or oily in the load; gloves, face shield, tongs; a "
        "casting at 290 "
        "°C looks cold. The furnace's manual, local codes and licensed practice rule over this card.",
    ], title="Cautions", numbered=False)  # fmt: skip
    sheet.table(["load", "date", "castings", "at temperature", "hold ended", "chart no.", "initials"], [[""] * 7] * 6,
                title="Record of loads", widths=[178.0 / 7] * 7)  # fmt: skip
    return sheet


def cycle_rows(r: ReliefCycle) -> list[list[str]]:
    """Return a stress-relief cycle as rows of text: step, temperature, rate or time, why."""
    return [
        ["heat", f"to {_both(r.temperature_c)}", f"{r.heating_rate_low:.0f} to {r.heating_rate_high:.0f} K/h",
         "thick and thin must keep together"],
        ["hold", _span(r.temperature_low_c, r.temperature_high_c), f"{r.hold_h:.1f} h, whole load at temperature",
         "by the heaviest section"],
        ["furnace-cool", f"to {_both(r.furnace_cool_to_c)}", f"{r.cooling_rate_max:.0f} K/h or slower",
         "faster puts the stress back"],
        ["air", "to room temperature", "still air, no draught", "then machine"],
        ["in all", "", f"about {r.total_h:.0f} h", r.source],
    ]  # fmt: skip


def _span(low: float, high: float) -> str:
    return _both(low) if high - low < 0.5 else f"{_both(low)} to {_both(high)}"


def _both(c: float) -> str:
    return f"{c:.0f} °C ({c * 1.8 + 32:.0f} °F)"


FOUNDRY_CARDS = [
    SheetEntry("card-pour", "Pour card", "plane", ("foundry",), pour_card),
    SheetEntry("card-stress-relief", "Stress relief card", "plane", ("foundry", "machine"), relief_card),
]
