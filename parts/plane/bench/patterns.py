"""The pattern maker's rows of a bench plane's cast parts."""

from __future__ import annotations

from parts.plane.bench.design import BenchDesign
from parts.plane.cap_patterns import cap_rows, lever_rows
from parts.plane.pattern_list import CAST_LARGEST, CastPart, one_factor_note
from parts.plane.pattern_rows import Rows, body_list, boss_rows, trough_rows
from shared.casting.allowance import machining_allowance


def pattern_list(d: BenchDesign) -> list[CastPart]:
    """Return the lists of body, frog, lever cap and cam lever."""
    cap = d.mechanism.lever_cap
    return [_body(d), _frog(d), cap_rows(d, cap), lever_rows(d, cap)]


def _body(d: BenchDesign) -> CastPart:
    b, c = d.body, d.body.cast
    rows = Rows(d, d.contraction, c.required)
    trough_rows(d, rows)
    pads = b.high_pad
    rows.add("low frog pad above the sole face", "z", "outside two sides", b.low_pad.z, (c.sole + c.pad) / 2)
    rows.add("high frog pad above the sole face", "z", "outside two sides", pads.z, (c.sole + c.pad) / 2)
    rows.add("frog pads across", "y", "as cast", 2 * pads.half_width, None, pads.z - b.sole, c.draft_inside, 2)
    rows.add("high frog pad along", "x", "as cast", pads.x1 - pads.x0)
    rows.add("key on the high pad, above the pad", "z", "as cast", b.key_height)
    rows.add("toe end to knob boss", "x", "outside one side", b.knob_boss.x - b.toe_x, c.end)
    rows.add("heel end to tote boss", "x", "outside one side", b.heel_x - b.tote_boss.x, c.end)
    boss_rows(d, rows, (("knob boss", b.knob_boss), ("tote boss", b.tote_boss), ("toe-screw boss", b.toe_boss)))
    rows.add("inside radius, cheek to sole", "n", "inside as cast", b.root_radius)
    return body_list(d, rows)


def _frog(d: BenchDesign) -> CastPart:
    f, metal = d.mechanism.frog, d.frog_alloy
    contraction = d.shop.contraction_of(metal.id, CAST_LARGEST)
    required = machining_allowance(CAST_LARGEST, d.shop.casting.machining_grade)
    rows = Rows(d, contraction, required, f.half_width, f.draft)
    outline = f.outline()
    xs, zs = [p[0] for p in outline], [p[1] for p in outline]
    rows.add("foot, bed edge to aft end", "x", "outside one side", max(xs[:5]) - min(xs), f.stock, sides=2)
    rows.add("height over the low seat", "z", "outside two sides", max(zs) - min(zs), f.stock, sides=2)
    rows.add("bed plate thickness", "n", "outside one side", f.bed_plate, f.stock, sides=2)
    rows.add("bed length up the slope", "n", "outside one side", f.bed_top - f.bed_foot, f.stock, sides=2)
    rows.add("low seat to high seat", "z", "as cast", f.high_z - f.low_z)
    rows.add("width across", "y", "as cast", 2 * f.half_width)
    rows.add("middle web", "y", "as cast", 2 * f.web_half)
    rows.add("floor over the high seat", "z", "outside one side", f.floor, f.stock, sides=2)
    return CastPart("frog", metal.id, contraction, rows.found, one_factor_note(contraction))
