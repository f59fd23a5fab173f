"""The pattern maker's list of a plane's cast parts: every feature from finished size to pattern and master."""

from __future__ import annotations

import csv
import io
from textwrap import wrap

from parts.plane import kinds
from parts.plane.design import Design
from parts.plane.pattern_bow import bow_text
from shared.casting.alloy import alloy
from shared.casting.contraction import Contraction
from shared.casting.counter_bow import CounterBow
from shared.casting.pattern_row import PatternRow
from shared.record import Record
from shared.units import to_inch

TEXT_WIDTH = 140  # letters of the list's widest line
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


AXES = {"x": "along", "y": "across", "z": "up", "n": "any"}  # how the list calls the axes
AXES_SAID = "along, across and up the part; any: a round or sloping size, by the mean of the three contractions"


def alloy_name(part: CastPart) -> str:
    """Return the name of the alloy that a part is cast in."""
    return alloy(part.alloy).name


def pattern_metal(d: Design) -> str:
    """Return the name of the metal that working patterns are cast in."""
    return alloy(d.shop.pattern.metal).name.partition(" (")[0].lower()


def contraction_text(d: Design, part: CastPart) -> str:
    """Return the contraction of a part's alloy with its source, and of the pattern metal where there is a master."""
    c = part.contraction
    if c.is_uniform:
        said = f"{100 * c.x:.3f} % ({12 * c.x:.4f} in/ft)"
    else:
        said = ", ".join(f"{AXES[a]} {100 * c.along(a):.3f} % ({12 * c.along(a):.4f} in/ft)" for a in "xyz")
    if c.low is not None and c.high is not None:
        said += f", usual {100 * c.low:.2f} to {100 * c.high:.2f} %"
    said += f"; {c.source.replace(f', {part.alloy}', '')}"
    if d.master is not None:
        said += f". Master: a further {100 * d.master.x:.3f} % for the pattern's own metal, {pattern_metal(d)}"
    return said


def rule_note(d: Design) -> str:
    """Return what a shrink rule is good for."""
    n = d.shop.pattern.shrink_rule_denominator
    division = f"1/{n} in" if d.spec.units == "inch" else "0.5 mm"
    return (
        f"The shrink rule has the contraction in it: read the casting's size off it, to the nearest {division} (~ not "
        "exact). That lays out and checks; it does not hold a tolerance. What must be true is cut by plain calipers to "
        "the pattern's size, or the master's where the working pattern is cast."
    )


PARTING_END = (
    "casting and pattern sizes are at the parting end of the draw, where an outside is largest, or where the name says"
)
COLUMNS = ("axis", "finished", "stock", "draft", "casting", "shrink rule", "pattern", "master")


def pattern_text(d: Design, parts: list[CastPart]) -> str:
    """Return the list as text: a line a feature in the spec's unit and on the shrink rule, the other unit under it."""
    inch = d.spec.units == "inch"
    lines = [
        f"{d.spec.plane.name}, revision {d.spec.plane.revision}: pattern maker's list",
        "inches; below each line mm" if inch else "mm; below each line inches",
        f"axis: {AXES_SAID}",
        PARTING_END,
        *wrap(rule_note(d), TEXT_WIDTH),
    ]
    for part in parts:
        wide = max(len(r.feature) for r in part.rows) + 2
        lines += ["", *wrap(f"{part.part}: {alloy_name(part)}, contraction {contraction_text(d, part)}", TEXT_WIDTH)]
        lines.append(f"  {'feature':<{wide}}" + "".join(f"{c:>12}" for c in COLUMNS))
        for r in part.rows:
            head = f"  {r.feature:<{wide}}{AXES[r.axis]:>12}"
            lines.append(head + _line(r, inch, r.shrink_rule(d.spec.units)))
            lines.append(" " * len(head) + _line(r, not inch, ""))
        for note in part.notes:
            lines += wrap(f"note: {note}", TEXT_WIDTH, initial_indent="  ", subsequent_indent="    ")
        if part.bow is not None:
            lines += bow_text(part.bow, d.master)
    return "\n".join(lines) + "\n"


def _line(r: PatternRow, inch: bool, rule: str) -> str:
    """Write the sizes of a row in inches or mm, with what is read off the shrink rule."""

    def size(mm: float | None) -> str:
        return "-" if mm is None else (f"{to_inch(mm):.4f}" if inch else f"{mm:.2f}")

    sizes = (size(r.finished_mm), size(r.allowance_mm), size(r.draft_mm), size(r.casting_mm), rule,
             size(r.pattern_mm), size(r.master_mm))  # fmt: skip
    return "".join(f"{text:>12}" for text in sizes)


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
