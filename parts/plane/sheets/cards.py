"""Shop cards as sheets of tables: the blade's grinding and heat treatment; which cards a plane has."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from parts.blade.card import Card
from parts.blade.card_rows import Section, sources_of
from parts.blade.heat_treat import CAUTIONS
from parts.plane.blade_card import card_of
from parts.plane.printer import printer_paper
from parts.plane.sheets.common import SheetEntry, new_sheet
from shared.drawing.plan import SheetPlan

if TYPE_CHECKING:
    from parts.plane.run import Run

BATCH = 100  # planes that pour card, bars and nitrogen are reckoned for; `planewright pour` and `edge` take any number
WORK = (
    "Angles",
    "Bevel and edge",
    "Making",
    "Bars to buy",
    "Tolerances",
    "Warmth and flatness",
    "Life",
)
HEAT = ("Heat treatment", "Cold treatment", "What the first piece reads")
COLUMNS = (44.0, 62.0, 72.0)  # mm: label, value, how


def card_sheet(run: Run, entry: SheetEntry, material: str = "") -> SheetPlan:
    """Return an empty shop card on the paper of the shop's own printer.

    Args:
        run: the build.
        entry: which sheet.
        material: what it is about.
    """
    return new_sheet(run, entry, material=material, kind="Shop card", tolerance="as the card says",
                     papers=(printer_paper(run.design),))  # fmt: skip


def _card(run: Run) -> Card:
    key = "blade card"
    if key not in run.drawn:
        run.drawn[key] = card_of(run.design, BATCH)
    made: Card = run.drawn[key]
    return made


def _tables(plan: SheetPlan, sections: Iterable[Section]) -> None:
    for s in sections:
        if any(r.how for r in s.rows):
            plan.table(["what", "value", "how and why"], [[r.label, r.value, r.how] for r in s.rows], title=s.name,
                       widths=COLUMNS)  # fmt: skip
        elif s.rows:
            plan.table(["what", "value"], [[r.label, r.value] for r in s.rows], title=s.name,
                       widths=(COLUMNS[0], COLUMNS[1] + COLUMNS[2]))  # fmt: skip
        if s.notes:
            plan.notes(list(s.notes), title=f"{s.name}: notes", numbered=False)


def blade_card_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the blade maker's card: cautions first, then angles, stock, order of work, what to hold."""
    card = _card(run)
    plan = card_sheet(run, entry, _steel(run))
    _warnings(plan, card, heat=False)
    shown = [s for s in card.sections if s.name in WORK]
    _tables(plan, shown)
    plan.notes([f"Bars are reckoned for {BATCH} blades. cards/blade.txt says of every number where it comes from."],
               title="About this card", numbered=False)  # fmt: skip
    _sources(plan, shown)
    return plan


def heat_card_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the heat treater's card: cautions first, then the cycle, and what to do with the first piece."""
    card = _card(run)
    plan = card_sheet(run, entry, _steel(run))
    _warnings(plan, card, heat=True)
    shown = [s for s in card.sections if s.name in HEAT]
    _tables(plan, shown)
    plan.table(["load", "date", "as quenched HRC", "after last temper HRC", "initials"], [[""] * 5] * 6,
               title="Readings", widths=(30.0, 30.0, 45.0, 45.0, 28.0))  # fmt: skip
    _sources(plan, shown)
    return plan


def _steel(run: Run) -> str:
    blade = run.design.spec.blade
    return f"{blade.steel}, {blade.hardness:g} HRC"


def _warnings(plan: SheetPlan, card: Card, heat: bool) -> None:
    """Add cautions and warnings; those about furnace and steel belong on the heat treater's card."""
    cautions = [c for c in card.cautions if heat != c.startswith("Grinding")]
    plan.notes(cautions if heat else [*cautions, CAUTIONS[-1]], title="Cautions", numbered=False)
    hot = ("temper", "quench", "harden", "cold", "austenite", "furnace", "curve")
    said = [w for w in card.warnings if heat == any(word in w.lower() for word in hot)]
    if said:
        plan.notes(said, title="Warnings", numbered=False)


def _sources(plan: SheetPlan, shown: list[Section]) -> None:
    plan.notes(sources_of(shown), title="Sources", numbered=False)


BLADE_CARDS = [
    SheetEntry("card-blade", "Blade card", "blade", ("blade",), blade_card_sheet),
    SheetEntry("card-heat-treatment", "Heat treatment card", "blade", ("blade",), heat_card_sheet),
]
