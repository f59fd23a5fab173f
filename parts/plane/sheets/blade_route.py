"""The heat treater's route as the rows of a table on the blade's sheet."""

from __future__ import annotations

from parts.blade.heat_treat import Plan
from parts.blade.temper import c_to_f


def route_rows(treat: Plan) -> list[tuple[str, str, str, str]]:
    """Return the route as rows; the whole of it with its sources stands on the blade card."""
    rows = []
    for s in treat.steps[:-1]:  # the last is the acceptance
        if s.temperature_c is None:
            rows.append((s.name, "–", "–", s.text))
            continue
        a, b = s.temperature_c
        hot = f"{c_to_f(a):.0f} °F [{a:.0f} °C]"
        if abs(a - b) > 0.5:
            hot += f" to {c_to_f(b):.0f} °F [{b:.0f} °C]"
        low, high = s.minutes or (0.0, 0.0)
        time = (
            "–" if s.minutes is None else f"{low:.0f} min" if abs(high - low) < 0.5 else f"{low:.0f} to {high:.0f} min"
        )
        rows.append((s.name, hot, time, "" if s.name.startswith("temper") else s.text.split(". ")[0]))
    rows.append(("accept", f"{treat.band[0]:g} to {treat.band[1]:g} HRC", "–",
                 f"wanted {treat.target:g} HRC; on the back, above the slot's lower end"))  # fmt: skip
    return rows
