"""The pattern maker's rows of a low-angle plane's cast parts."""

from __future__ import annotations

from math import radians, tan

from parts.body.low_angle.block import block_middle, foot_growth, pocket
from parts.body.low_angle.floor import hollow_radius, raw_bed_z, sides
from parts.body.low_angle.machined_faces import boss_names
from parts.body.low_angle.size import LowBodySize
from parts.low_angle import outline
from parts.plane.cap_patterns import cap_part
from parts.plane.low_angle.design import LowAngleDesign
from parts.plane.pattern_list import CAST_LARGEST, CastPart
from parts.plane.pattern_rows import BodyRows, Rows, body_list, boss_rows, rib_rows, trough_rows
from shared.casting.allowance import machining_allowance


def pattern_list(d: LowAngleDesign) -> list[CastPart]:
    """Return the lists of body and lever cap."""
    return [_body(d), _cap(d)]


def _body(d: LowAngleDesign) -> CastPart:
    b: LowBodySize = d.body
    rows = BodyRows(d)
    trough_rows(d, rows)
    land, front, aft = sides(b)
    for name, x in (("the front land's aft side", land.x), ("the bridge's fore side", front.x),
                    ("the bridge's aft side", aft.x)):  # fmt: skip
        rows.place(f"{name}, at the finished bed", x)
    for name, x in (("the front land's aft side", land.x), ("the bridge's fore side", front.x),
                    ("the bridge's aft side", aft.x)):  # fmt: skip
        rows.height(f"bed at {name},", b.bed_z(x), raw_bed_z(b, x) - b.bed_z(x))
    along = aft.at(b.sole) - front.at(b.sole)
    rows.add("bridge along the body, at the plate", "x", aft.x - front.x, along, along - (aft.x - front.x))
    rows.add("radius at the feet of land and bridge", "n", hollow_radius(b), inside=True)
    if b.toe_way is not None:
        _block(b, rows)
    boss_rows(d, rows, boss_names(b))
    rib_rows(d, rows)
    return body_list(
        d,
        rows,
        f"the bed leans {b.bed_angle:g}° to the sole; land and bridge run from cheek to cheek",
        "their sides, to the sole: " + ", ".join(f"{s.angle:.0f}°" for s in (land, front, aft)),
    )


def _block(b: LowBodySize, rows: BodyRows) -> None:
    """Add the bridge block over the toe piece: round ends, as long as the piece's travel asks."""
    way = b.toe_way
    assert way is not None
    grown = 2 * foot_growth(b, way)
    x0, _, x1, _ = pocket(b, way, way.block_wall).bounds
    rows.place("the bridge block's middle", block_middle(b, way))
    rows.add("bridge block, length at the plate", "x", x1 - x0, draft=grown)
    rows.add("bridge block, width at the plate", "y", 2 * (way.boss_radius + way.block_wall), draft=grown)
    rows.height("bridge block, top", way.block_z, b.cast.boss)


def _cap(d: LowAngleDesign) -> CastPart:
    cap = d.lever_cap
    contraction = d.shop.contraction_of(d.cap_alloy.id, CAST_LARGEST)
    rows = Rows(d, contraction, machining_allowance(CAST_LARGEST, d.shop.casting.machining_grade))
    front, raw = outline.front_at(cap, cap.blade_top), outline.front_at(cap, cap.blade_top, cap.stock)
    nose = cap.underside_q - cap.blade_top
    # the front is square to the blade below the parting, so its stock there is what the milled slope leaves
    back = (nose + cap.stock) * tan(radians(cap.outside_draft))
    rows.add("length over all", "x", cap.tail - front, cap.tail - raw, back)
    rows.add("width at the nose", "y", cap.width, draft=2 * nose * tan(radians(cap.outside_draft)))
    rows.add("width at the clamp, at the parting", "y", cap.tail_width)
    rows.add("plate at the clamp", "z", cap.end_plate, wall=True)
    rows.add("plate over the land's aft end", "z", outline.NOSE_PLATE, wall=True)
    rows.add("nose land below the underside", "z", nose, nose + cap.stock)
    rows.add("nose front to the clamp", "x", cap.clamp.at - front, cap.clamp.at - raw, back)
    rows.add("radius of the rim", "n", outline.CAP_RIM)
    rows.add("radius in the nose's root", "n", outline.NOSE_ROOT, inside=True)
    return cap_part(d, contraction, rows, "plate", "head's seat, keyhole, clamp's thread")
