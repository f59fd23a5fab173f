"""The pour plan as the foundry reads it: what to make, a column a casting, the steps, the melt cards, the cautions."""

from __future__ import annotations

from collections.abc import Callable

from parts.plane.pour import PourPlan
from parts.plane.pour_alloy import AlloyPour
from parts.plane.pour_steps import melt_title
from shared.both_units import area, length, lengths, mass, speed
from shared.casting.match_plate import MatchPlate
from shared.numbers import Numbers
from shared.wording import counted

LABEL, COLUMN = 30, 52  # characters


def pour_text(plan: PourPlan) -> list[str]:
    """Return the sheet, a line an item."""
    n, first = plan.numbers, plan.first
    metal, charge = mass(n.value("poured_mass_kg"), first), mass(n.value("charge_mass_kg"), first)
    lines = [
        f"Altogether {n.value('castings')} castings in {n.value('moulds')} moulds; {metal} of metal in the moulds, "
        f"{charge} to melt; {counted(n.value('taps'), 'tap')} ({n.value('heats')} by mass alone); yield "
        f"{n.value('yield_percent'):.0f} %.",
        "One match plate a cast part; drawings and models: match-plate*.dxf and .step of a build.",
        "",
        "moulds",
        *_table(plan),
    ]
    for pour in plan.alloys.values():
        lines += ["", *_melt_card(pour, first)]
    lines += ["", "steps", *(f"  {i}. {step}" for i, step in enumerate(plan.steps, 1))]
    return [*lines, "", *(f"caution: {line}" for line in plan.cautions)]


def mould_rows(plan: PourPlan) -> list[list[str]]:
    """Return what is to be made and how it is gated as rows of text: a label, then a cell a casting."""

    first = plan.first

    def mm(v: float) -> str:
        return length(v, first)

    def bar(width: float, height: float) -> str:
        return lengths((width, height), first)

    def kg(v: float) -> str:
        return mass(v, first)

    rows: list[tuple[str, Callable[[Numbers, MatchPlate], str]]] = [
        ("castings to pour, good ones", lambda n, p: f"{n.value('castings')}, {n.value('good_castings')}"),
        ("moulds, castings a mould", lambda n, p: f"{n.value('moulds')}, {p.count}"),
        ("flask", lambda n, p: p.flask.name),
        ("mass of a casting", lambda n, p: kg(n.value("casting_mass_kg"))),
        ("gating of a mould", lambda n, p: kg(p.gating_mass_kg)),
        ("risers of a mould", lambda n, p: kg(p.riser_mass_kg) if p.risers else "none"),
        ("cup on the sprue", lambda n, p: kg(n.value("basin_mass_kg"))),
        ("metal of a mould", lambda n, p: kg(n.value("poured_mass_per_mould_kg"))),
        ("yield", lambda n, p: f"{n.value('yield_percent'):.0f} %"),
        ("fill time", lambda n, p: f"{p.pouring_time_s:.1f} s"),
        ("effective head", lambda n, p: mm(p.effective_head_mm)),
        ("choke", lambda n, p: f"{area(p.areas.choke_mm2, first)} at the {p.areas.choke_at}"),
        ("sprue : runners : ingates", lambda n, p: n.value("gating_ratio")),
        ("", lambda n, p: "pressurised" if p.areas.pressurised else "unpressurised"),
        ("sprue at its base", lambda n, p: mm(p.sprue.diameter)),
        ("sprue at the cope's top", lambda n, p: mm(p.sprue.end_diameter or p.sprue.diameter)),
        (
            "runner, arms and section",
            lambda n, p: f"{counted(p.sections.arms, 'arm')}, {bar(p.sections.runner_w, p.sections.runner_h)}",
        ),
        ("ingates", lambda n, p: f"{len(p.ingates)} of {bar(p.sections.ingate_w, p.sections.ingate_h)}"),
        ("speed in the ingates", lambda n, p: speed(p.ingate_velocity_m_s, first)),
        ("risers", lambda n, p: _risers(p, first)),
        ("their necks", lambda n, p: bar(p.sections.neck_w, p.sections.neck_h) if p.necks else "none"),
        ("frozen through after", lambda n, p: f"{n.value('freezing_time_s'):.0f} s"),
        ("weight on the cope", lambda n, p: kg(n.value("cope_weight_kg"))),
    ]
    return [[label, *(cell(plan.parts[name], plan.plates[name]) for name in plan.parts)] for label, cell in rows]


def _table(plan: PourPlan) -> list[str]:
    rows = [["", *plan.parts], *mould_rows(plan)]
    return [f"  {r[0]:<{LABEL}}{''.join(f'{cell:<{COLUMN}}' for cell in r[1:])}".rstrip() for r in rows]


def _risers(plate: MatchPlate, first: str) -> str:
    if not plate.risers:
        return f"none: fed by {plate.feeding.method}"
    r = plate.risers[0]
    return f"{len(plate.risers)} of Ø × height {lengths((r.diameter, r.height_mm), first)}"


def _melt_card(pour: AlloyPour, first: str) -> list[str]:
    lines = [f"{melt_title(pour.metal.name)}, additions to {mass(pour.numbers.value('furnace_mass_kg'), first)}"]
    for r in pour.melt_card:
        what = "carbon equivalent" if r.element == "CE" else r.element
        lines.append(f"  {what} {r.low:g} to {r.high:g}")
        if r.low > 0.0:
            lines.append(f"      low:  {r.when_low}")
        lines.append(f"      high: {r.when_high}")
    return lines
