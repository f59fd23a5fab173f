"""The pattern maker's list of a plane's cast parts: every feature from finished size to pattern and master."""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass

from parts.plane.design import Design
from shared.casting.allowance import machining_allowance
from shared.casting.contraction import Contraction
from shared.casting.pattern_row import PatternRow, pattern_row
from shared.units import inch_fraction, to_inch

CAST_LARGEST = 100.0  # band of the allowance table that frog and lever cap fall in [mm]


@dataclass(frozen=True, eq=False, repr=False)
class CastPart:
    """The list of one cast part."""

    part: str
    alloy: str
    contraction: Contraction
    rows: list[PatternRow]


def pattern_list(d: Design) -> list[CastPart]:
    """Return the lists of body and frog."""
    return [_body(d), _frog(d)]


def _body(d: Design) -> CastPart:
    b, c = d.body, d.body.cast
    shop = d.shop.casting
    rows: list[PatternRow] = []

    def row(
        feature: str,
        axis: str,
        kind: str,
        size: float,
        stock: float | None = None,
        height: float = 0.0,
        draft: float = 0.0,
        sides: int = 0,
        grade: int = shop.tolerance_grade,
    ) -> None:
        rows.append(
            pattern_row(
                feature,
                axis,
                kind,
                size,
                allowance_mm=c.required,
                grade=grade,
                contraction=d.contraction,
                master=d.master,
                draw_height_mm=height,
                draft_deg=draft,
                drafted_sides=sides,
                denominator=d.shop.pattern.shrink_rule_denominator,
                stock_mm=stock,
                rapping_mm=d.shop.pattern.rapping,
            )
        )

    end_h = max(b.rail_height - c.parting_z, c.parting_z)
    side_h = max(b.cheek_height - c.parting_z, c.parting_z)
    inside_h = b.cheek_height - b.sole
    row("length over all", "x", "outside two sides", b.length, c.end, end_h, c.draft_outside, 2)
    row("width over the cheeks", "y", "outside two sides", b.width, c.side, side_h, c.draft_outside, 2)
    row(
        "width inside, between the cheeks' tops",
        "y",
        "inside as cast",
        2 * b.inside_half_at(b.cheek_height),
        None,
        inside_h,
        c.draft_inside,
        2,
    )
    row("cheek height above the sole face", "z", "outside one side", b.cheek_height, c.sole)
    row("rail height above the sole face", "z", "outside one side", b.rail_height, c.sole)
    row("sole thickness", "z", "outside one side", b.sole, c.sole)
    row("cheek thickness at its top", "y", "outside one side", b.width / 2 - b.inside_half_at(b.cheek_height), c.side)
    row("low frog pad above the sole face", "z", "outside two sides", b.low_pad.z, (c.sole + c.pad) / 2)
    row("high frog pad above the sole face", "z", "outside two sides", b.high_pad.z, (c.sole + c.pad) / 2)
    row("frog pads across", "y", "as cast", 2 * b.high_pad.half_width, None, b.high_pad.z - b.sole, c.draft_inside, 2)
    row("high frog pad along", "x", "as cast", b.high_pad.x1 - b.high_pad.x0)
    row("key on the high pad, above the pad", "z", "as cast", b.key_height)
    row("toe end to knob boss", "x", "outside one side", b.knob_boss.x - b.toe_x, c.end)
    row("heel end to tote boss", "x", "outside one side", b.heel_x - b.tote_boss.x, c.end)
    for name, boss in (("knob boss", b.knob_boss), ("tote boss", b.tote_boss), ("toe-screw boss", b.toe_boss)):
        if boss is not None:
            row(
                f"{name}, diameter at its top",
                "n",
                "as cast",
                boss.diameter,
                None,
                boss.z_top - b.sole,
                c.draft_inside,
                2,
            )
            row(f"{name}, top above the sole face", "z", "outside two sides", boss.z_top, (c.sole + c.boss) / 2)
    row("inside radius, cheek to sole", "n", "inside as cast", b.root_radius)
    return CastPart("body", d.spec.body.alloy, d.contraction, rows)


def _frog(d: Design) -> CastPart:
    f = d.mechanism.frog
    metal = d.frog_alloy
    contraction = d.shop.contraction_of(metal.id, CAST_LARGEST)
    required = machining_allowance(CAST_LARGEST, d.shop.casting.machining_grade)
    rows: list[PatternRow] = []

    def row(feature: str, axis: str, kind: str, size: float, stock: float | None = None, sides: int = 0) -> None:
        rows.append(
            pattern_row(
                feature,
                axis,
                kind,
                size,
                allowance_mm=required,
                grade=d.shop.casting.tolerance_grade,
                contraction=contraction,
                master=d.master,
                draw_height_mm=f.half_width,
                draft_deg=f.draft,
                drafted_sides=sides,
                denominator=d.shop.pattern.shrink_rule_denominator,
                stock_mm=stock,
                rapping_mm=d.shop.pattern.rapping,
            )
        )

    outline = f.outline()
    xs, zs = [p[0] for p in outline], [p[1] for p in outline]
    row("foot, bed edge to aft end", "x", "outside one side", max(xs[:5]) - min(xs), f.stock, 2)
    row("height over the low seat", "z", "outside two sides", max(zs) - min(zs), f.stock, 2)
    row("bed plate thickness", "n", "outside one side", f.bed_plate, f.stock, 2)
    row("bed length up the slope", "n", "outside one side", f.bed_top - f.bed_foot, f.stock, 2)
    row("low seat to high seat", "z", "as cast", f.high_z - f.low_z)
    row("width across", "y", "as cast", 2 * f.half_width)
    row("middle web", "y", "as cast", 2 * f.web_half)
    row("floor over the high seat", "z", "outside one side", f.floor, f.stock, 2)
    return CastPart("frog", metal.id, contraction, rows)


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
            spread = f", table {100 * part.contraction.low:.2f} to {100 * part.contraction.high:.2f} %"
        lines += [
            "",
            f"{part.part}: {part.alloy}, contraction {100 * part.contraction.x:.3f} % "
            f"({12 * part.contraction.x:.4f} in/ft{spread})",
        ]
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
    return "\n".join(lines) + "\n"


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
