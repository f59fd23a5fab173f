"""The pattern maker's list of a plane's cast parts: every feature from finished size to pattern and master."""

from __future__ import annotations

import csv
import io

from parts.plane import kinds
from parts.plane.design import Design
from parts.plane.pattern_bow import bow_text
from shared.casting.contraction import Contraction
from shared.casting.counter_bow import CounterBow
from shared.casting.pattern_row import PatternRow
from shared.record import Record
from shared.units import inch_fraction, to_inch

CAST_LARGEST = 100.0  # band of the allowance table that frog and lever cap fall in [mm]


class CastPart(Record):
    """The list of one cast part."""

    part: str
    alloy: str
    contraction: Contraction
    rows: list[PatternRow]
    notes: tuple[str, ...] = ()
    bow: CounterBow | None = None  # of the working pattern


def pattern_list(d: Design) -> list[CastPart]:
    """Return the list of each cast part."""
    found: list[CastPart] = kinds.of(d.spec.plane.kind, "patterns").pattern_list(d)
    return found


def one_factor_note(c: Contraction) -> tuple[str, ...]:
    """Return what to say of a small part whose model is scaled by one factor while the list goes by each axis."""
    if c.is_uniform:
        return ()
    mean = c.along("n")
    worst = max(abs(s - mean) for s in (c.x, c.y, c.z)) * CAST_LARGEST
    return (
        f"the model (STEP, STL, 3MF) is scaled by the mean of the axes, {100 * mean:.3f} %: up to {worst:.2f} mm in "
        f"{CAST_LARGEST:.0f} mm from this list, which rules",
    )


def shrink_sizes(part: CastPart) -> list[dict[str, object]]:
    """Return the rows of one part as plain dicts, ready for JSON."""
    return [row.as_json() for row in part.rows]


COLUMNS = ("feature", "finished", "allowance", "draft", "casting", "contraction", "pattern", "master")


def pattern_text(d: Design, parts: list[CastPart]) -> str:
    """Return the list as text: a line a feature in mm and, under it, in inches with the fraction on the shrink rule."""
    lines = [
        f"{d.spec.plane.name}, revision {d.spec.plane.revision}: pattern maker's list",
        "mm; below each line inches: decimal sizes, and casting size as a fraction on the shrink rule (~ nearest)",
        "casting and pattern sizes are at the parting end of the draw, where an outside is largest",
    ]
    for part in parts:
        spread = ""
        if part.contraction.low is not None and part.contraction.high is not None:
            spread = f", usual {100 * part.contraction.low:.2f} to {100 * part.contraction.high:.2f} %"
        c = part.contraction
        lines += ["", f"{part.part}: {part.alloy}, contraction {_contraction(c)}{spread}; {c.source}"]
        if d.master is not None:
            lines.append(f"master: a further {100 * d.master.x:.3f} % for the pattern metal {d.shop.pattern.metal}")
        lines.append(f"  {COLUMNS[0]:<42}" + "".join(f"{c:>12}" for c in COLUMNS[1:]))
        for r in part.rows:
            master = "-" if r.master_mm is None else f"{r.master_mm:.2f}"
            lines.append(
                f"  {r.feature:<42}{r.finished_mm:>12.2f}{r.allowance_mm:>12.2f}{r.draft_mm:>12.2f}"
                f"{r.casting_mm:>12.2f}{100 * r.contraction:>11.3f}%{r.pattern_mm:>12.2f}{master:>12}"
            )
            master = "-" if r.master_mm is None else f"{to_inch(r.master_mm):.4f}"
            lines.append(
                f"  {'':<42}{inch_fraction(r.finished_mm):>12}{to_inch(r.allowance_mm):>12.4f}"
                f"{to_inch(r.draft_mm):>12.4f}{r.shrink_rule_in:>12}{'':>12}{r.pattern_in:>12.4f}{master:>12}"
            )
        lines += [f"  note: {note}" for note in part.notes]
        if part.bow is not None:
            lines += bow_text(part.bow, d.master)
    return "\n".join(lines) + "\n"


def _contraction(c: Contraction) -> str:
    """Write a contraction in % and in/ft, axis by axis where they differ."""
    if c.is_uniform:
        return f"{100 * c.x:.3f} % ({12 * c.x:.4f} in/ft)"
    return ", ".join(f"{axis} {100 * c.along(axis):.3f} % ({12 * c.along(axis):.4f} in/ft)" for axis in "xyz")


def pattern_csv(parts: list[CastPart]) -> str:
    """Return the lists as CSV, one line a feature."""
    out = io.StringIO()
    fields = ["part", *parts[0].rows[0].as_json()]
    if "master_mm" not in fields:
        fields += ["master_mm", "master_in"]
    writer = csv.DictWriter(out, fields, lineterminator="\n")
    writer.writeheader()
    for part in parts:
        for r in part.rows:
            writer.writerow({"part": part.part, **{k: _plain(v) for k, v in r.as_json().items()}})
    return out.getvalue()


def _plain(value: object) -> object:
    return (
        f"{value:.5g}"
        if isinstance(value, float) and abs(value) < 1
        else (f"{value:.4f}" if isinstance(value, float) else value)
    )
