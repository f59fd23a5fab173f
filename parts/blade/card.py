"""The blade card: everything the blade maker and the heat treater need, as data and as plain text."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any

from parts.blade.angles import Orientation
from parts.blade.card_heat import cold_section, correction_section, heat_section
from parts.blade.card_rows import Row, Section, numbers_section
from parts.blade.card_sections import (
    angle_section,
    bars_section,
    bevel_section,
    bow_section,
    fits_section,
    making_section,
    tolerance_section,
)
from parts.blade.card_words import sentence
from parts.blade.cryo import CAUTIONS as COLD_CAUTIONS
from parts.blade.heat_treat import Plan
from parts.blade.stock import BarOrder, Blank
from shared.numbers import Numbers

GRIND_CAUTIONS = (
    "Grinding: eye protection, guarded and dressed wheel, no gloves near it, dust drawn off; a fresh edge cuts deep.",
)


@dataclass(frozen=True)
class Card:
    """The whole card."""

    title: str
    identity: tuple[Row, ...]
    sections: tuple[Section, ...]
    warnings: tuple[str, ...]
    cautions: tuple[str, ...]

    def as_json(self) -> dict[str, Any]:
        """Return plain data."""
        return asdict(self)


def blade_card(
    *,
    plane: str,
    revision: str,
    blade: Numbers,
    plan: Plan,
    blank: Blank | None,
    length: float,
    width: float,
    thickness: float,
    bevel: float,
    micro_bevel: float | None = None,
    bedding: Numbers | None = None,
    chipbreaker: Numbers | None = None,
    bars: BarOrder | None = None,
    kerf: float = 2.0,
    batch_kg: float | None = None,
    room_m3: float | None = None,
    identity: Mapping[str, str] | None = None,
    units: str = "inch",
    orientation: Orientation = "bevel-down",
) -> Card:
    """Return the blade card.

    Args:
        plane: name of the plane.
        revision: revision of its spec.
        blade: from `blade_numbers`.
        plan: from `heat_treat_plan`.
        blank: from `stock.blank`, or None when no bar is large enough.
        length: blade length [mm].
        width: blade width [mm].
        thickness: blade thickness [mm].
        bevel: ground bevel [deg].
        micro_bevel: micro-bevel [deg], or None.
        bedding: from `bedding_numbers`, or None.
        chipbreaker: from `chipbreaker_numbers`, or None.
        bars: from `bars_to_buy`, or None.
        kerf: saw cut of that order [mm].
        batch_kg: steel cold treated at once [kg], or None.
        room_m3: free volume of the room it is done in [m3], or None.
        identity: further lines of the head, such as the spec's hash.
        units: "inch" or "mm", which of both stands first.
        orientation: "bevel-down" or "bevel-up".
    """
    head = [
        Row("plane", f"{plane}, revision {revision}"),
        Row("steel", f"{plan.steel}, {plan.target:g} HRC"),
        *(Row(k, v) for k, v in (identity or {}).items()),
    ]
    sections = [
        angle_section(blade, units),
        bevel_section(blade, units),
        making_section(blank, units, orientation),
    ]
    if bars is not None:
        sections.append(bars_section(bars, kerf, units))
    sections.append(tolerance_section(blade, length, width, thickness, bevel, micro_bevel, units))
    sections.append(bow_section(plan.steel, length, thickness, units))
    sections.append(heat_section(plan, units))
    if plan.cold_c is not None and batch_kg is not None:
        sections.append(cold_section(plan.cold_c, batch_kg, room_m3, units))
    sections.append(correction_section(plan, units))
    sections.append(numbers_section("Life", blade, units, lambda k: k in ("usable_length_mm", "sharpenings")))
    if bedding is not None:
        sections.append(numbers_section("In the plane", bedding, units, lambda k: k != "pin_fits"))
        if "pin_fits" in bedding:
            sections.append(fits_section(bedding, units))
    if chipbreaker is not None:
        sections.append(numbers_section("Chipbreaker", chipbreaker, units, lambda _: True))
    cautions = [*GRIND_CAUTIONS, *plan.cautions]
    if plan.cold_c is not None:
        cautions += COLD_CAUTIONS
    return Card(
        title=f"Blade card: {plane}",
        identity=tuple(head),
        sections=tuple(sections),
        warnings=tuple(sentence(w, units) for w in _warnings(blade, plan, chipbreaker)),
        cautions=tuple(dict.fromkeys(cautions)),
    )


def _warnings(blade: Numbers, plan: Plan, chipbreaker: Numbers | None) -> list[str]:
    found = list(plan.warnings)
    clearance = float(blade.value("clearance_angle_deg"))
    if clearance < 10 - 1e-9:
        found.append(f"clearance of {clearance:g} deg is below the guide of 10 deg: the edge stops cutting early")
    if chipbreaker is not None and not chipbreaker.value("closes"):
        found.append("the chipbreaker's spring and lever cap together do not press its edge down along the whole width")
    if chipbreaker is not None and chipbreaker.value("takes_a_set"):
        found.append("closing the chipbreaker's bend would bend it for good: thinner, longer or a smaller gap")
    return found


def card_text(card: Card, columns: int = 110) -> str:
    """Return the card as plain text: cautions first; sources are numbered and listed once, at the end.

    Args:
        card: the card.
        columns: width of the text [-].
    """
    sources: dict[str, int] = {}
    lines = [card.title, "=" * len(card.title), ""]
    lines += _rows_text(card.identity, columns, sources)
    for name, texts in (("Cautions", card.cautions), ("Warnings", card.warnings)):
        if texts:
            lines += ["", name, "-" * len(name)]
            for text in texts:
                lines += textwrap.wrap(text, columns, initial_indent="  ! ", subsequent_indent="    ")
    for section in card.sections:
        lines += ["", section.name, "-" * len(section.name)]
        lines += _rows_text(section.rows, columns, sources)
        for note in section.notes:
            lines += textwrap.wrap(note, columns, initial_indent="  ", subsequent_indent="  ")
    lines += ["", "Sources", "-------"]
    for source, number in sources.items():
        head = f"  [{number}] "
        lines += textwrap.wrap(source, columns, initial_indent=head, subsequent_indent=" " * len(head))
    return "\n".join(lines) + "\n"


def _rows_text(rows: tuple[Row, ...], columns: int, sources: dict[str, int]) -> list[str]:
    wide = max((len(r.label) for r in rows), default=0)
    lines = []
    for r in rows:
        mark = f"  [{sources.setdefault(r.source, len(sources) + 1)}]" if r.source else ""
        head = f"  {r.label:<{wide}}  "
        lines += textwrap.wrap(r.value + mark, columns, initial_indent=head, subsequent_indent=" " * len(head)) or [
            head
        ]
        told = ": ".join(filter(None, (r.how, r.formula)))
        if told:
            indent = " " * (len(head) + 2)
            lines += textwrap.wrap(told, columns, initial_indent=indent, subsequent_indent=indent)
    return lines
