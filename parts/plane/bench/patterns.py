"""The pattern maker's rows of a bench plane's cast parts."""

from __future__ import annotations

from parts.plane.bench.design import BenchDesign
from parts.plane.pattern_list import CAST_LARGEST, CastPart
from shared.casting.allowance import machining_allowance
from shared.casting.pattern_row import PatternRow, pattern_row


def pattern_list(d: BenchDesign) -> list[CastPart]:
    """Return the lists of body and frog."""
    return [_body(d), _frog(d)]


def _body(d: BenchDesign) -> CastPart:
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


def _frog(d: BenchDesign) -> CastPart:
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
