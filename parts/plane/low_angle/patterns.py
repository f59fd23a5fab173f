"""The pattern maker's rows of a low-angle plane's cast parts."""

from __future__ import annotations

from parts.body.low_angle.size import LowBodySize
from parts.low_angle import outline
from parts.plane.low_angle.design import LowAngleDesign
from parts.plane.pattern_list import CAST_LARGEST, CastPart, one_factor_note
from parts.plane.pattern_rows import Rows, body_list, boss_rows, trough_rows
from shared.casting.allowance import machining_allowance


def pattern_list(d: LowAngleDesign) -> list[CastPart]:
    """Return the lists of body and lever cap."""
    return [_body(d), _cap(d)]


def _body(d: LowAngleDesign) -> CastPart:
    b: LowBodySize = d.body
    c = b.cast
    rows = Rows(d, d.contraction, c.required)
    trough_rows(d, rows)
    bed = (c.sole + c.pad) / 2
    rows.add("front land's aft end above the sole face", "z", "outside two sides", b.bed_z(b.ramp_to), bed)
    rows.add("bridge's fore end above the sole face", "z", "outside two sides", b.bed_z(b.bridge.x0), bed)
    rows.add("bridge's aft end above the sole face", "z", "outside two sides", b.bed_z(b.bridge.x1), bed)
    rows.add("toe end to front land's aft end", "x", "outside one side", b.ramp_to - b.toe_x, c.end)
    rows.add("toe end to the bridge's fore end", "x", "outside one side", b.bridge.x0 - b.toe_x, c.end)
    rows.add("bridge along the body, at its top", "x", "as cast", b.bridge.x1 - b.bridge.x0, None,
             b.bed_z(b.bridge.x1) - b.sole, c.draft_inside, 2)  # fmt: skip
    if b.toe_way is not None:
        way = b.toe_way
        rows.add("toe end to the bridge block's middle", "x", "outside one side", way.boss_x - b.toe_x, c.end)
        rows.add("bridge block, top above the sole face", "z", "outside two sides", way.block_z, (c.sole + c.boss) / 2)
        rows.add("bridge block across its top", "n", "as cast", 2 * (way.boss_radius + way.block_wall), None,
                 way.block_z - b.sole, c.draft_inside, 2)  # fmt: skip
    if b.knob_boss is not None:
        rows.add("toe end to knob boss", "x", "outside one side", b.knob_boss.x - b.toe_x, c.end)
    if b.tote_boss is not None:
        rows.add("heel end to tote boss", "x", "outside one side", b.heel_x - b.tote_boss.x, c.end)
    boss_rows(d, rows, (("knob boss", b.knob_boss), ("tote boss", b.tote_boss), ("toe-screw boss", b.toe_boss)))
    rows.add("inside radius, cheek to sole", "n", "inside as cast", b.root_radius)
    return body_list(d, rows)


def _cap(d: LowAngleDesign) -> CastPart:
    cap = d.lever_cap
    contraction = d.shop.contraction_of(d.cap_alloy.id, CAST_LARGEST)
    required = machining_allowance(CAST_LARGEST, d.shop.casting.machining_grade)
    rows = Rows(d, contraction, required, cap.end_plate, cap.outside_draft)
    front = outline.front_at(cap, cap.blade_top)
    nose = cap.underside_q - cap.blade_top
    rows.add("length over all", "x", "outside one side", cap.tail - front, cap.stock, sides=2)
    rows.add("width at the nose", "y", "as cast", cap.width, None, nose, cap.outside_draft, 2)
    rows.add("width at the clamp", "y", "as cast", cap.tail_width, sides=2)
    rows.add("plate at the clamp", "z", "as cast", cap.end_plate)
    rows.add("plate behind the nose", "z", "as cast", outline.NOSE_PLATE)
    rows.add("nose under the plate", "z", "outside one side", nose, cap.stock)
    rows.add("nose front to the clamp", "x", "outside one side", cap.clamp.at - front, cap.stock)
    return CastPart("lever cap", d.cap_alloy.id, contraction, rows.found, one_factor_note(contraction))
