"""The heat treater's route as the rows of a table on the blade's sheet."""

from __future__ import annotations

from parts.blade.card_words import plain
from parts.blade.heat_treat import Plan
from shared.both_units import temperature, temperatures


def route_rows(treat: Plan, units: str) -> list[tuple[str, str, str, str]]:
    """Return the route as rows, `units` "inch" with °F first; the whole of it with its sources is on the blade card."""
    rows = []
    for s in treat.steps[:-1]:  # the last is the acceptance
        if s.temperature_c is None:
            rows.append((s.name, "–", "–", plain(s.text, units)))
            continue
        a, b = s.temperature_c
        hot = temperatures(a, b, units) if a <= b else f"{temperature(a, units)} to {temperature(b, units)}"
        low, high = s.minutes or (0.0, 0.0)
        time = (
            "–" if s.minutes is None else f"{low:.0f} min" if abs(high - low) < 0.5 else f"{low:.0f} to {high:.0f} min"
        )
        rows.append((s.name, hot, time, "" if s.name.startswith("temper") else plain(s.text.split(". ")[0], units)))
    rows.append(("accept", f"{treat.band[0]:g} to {treat.band[1]:g} HRC", "–",
                 f"wanted {treat.target:g} HRC; on the flat, above the slot's lower end"))  # fmt: skip
    return rows
