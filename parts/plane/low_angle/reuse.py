"""The castings of a low-angle plane as `parts.plane.reuse` compares them.

Datum of the body: the edge along, the middle across, the plate's inner face in height, since that one is as cast.
"""

from __future__ import annotations

from math import cos, radians, sqrt

from parts.body.low_angle.size import LowBodySize
from parts.low_angle import outline
from parts.low_angle.size import LowCapSize
from parts.plane.low_angle.design import LowAngleDesign
from parts.plane.pattern_list import CAST_LARGEST
from parts.plane.reuse import AsCast, CastPiece, Face


def cast_pieces(d: LowAngleDesign) -> list[CastPiece]:
    """Return body and lever cap."""
    grade, metal = d.shop.casting.tolerance_grade, d.cap_alloy.id
    small = d.shop.contraction_of(metal, CAST_LARGEST)
    return [
        CastPiece("body", d.body_alloy.id, d.contraction, grade, _as_cast(d.body), _faces(d.body)),
        CastPiece("lever-cap", metal, small, grade, *_cap(d.lever_cap)),
    ]


def _cap(cap: LowCapSize) -> tuple[tuple[AsCast, ...], tuple[Face, ...]]:
    """Return the cap's sizes from its nose and its parting plane: it is the same cap wherever it sits."""
    nose = cap.nose_at
    (crown_s, crown_q), radius = outline.crown_circle(cap)
    found = (
        AsCast("width at the nose", cap.width, cut="less"),
        AsCast("width at the clamp", cap.tail_width, cut="less"),
        AsCast("clamp from the nose", cap.clamp.at - nose),
        AsCast("plate at the clamp", cap.end_plate, cut="less"),
        AsCast("crown's middle from the nose", crown_s - nose),
        AsCast("crown's top over the parting", crown_q + radius - cap.underside_q),
        AsCast("draft", cap.outside_draft, "deg"),
    )
    faces = (
        Face("nose land", cap.underside_q - cap.blade_top, cap.stock, cap.stock),
        Face("nose front", nose - cap.land[0], cap.stock, cap.stock),
    )
    return found, faces


def _as_cast(b: LowBodySize) -> tuple[AsCast, ...]:
    cast, plate = b.cast, b.sole
    found = [
        AsCast("half width inside the cheeks", b.inside_half, cut="more"),
        AsCast("draft inside", cast.draft_inside, "deg"),
        AsCast("draft outside", cast.draft_outside, "deg"),
        AsCast("root radius", b.root_radius, cut="less"),
        AsCast("edge radius", cast.edge_radius, cut="more"),
        AsCast("rails over the plate", b.rail_height - plate, cut="less"),
        AsCast("cheeks over the plate", b.cheek_height - plate, cut="less"),
        AsCast("parting over the raw sole", cast.parting_z + cast.sole),
        AsCast("arch begins", b.arch_from, cut="more"),
        AsCast("arch's peak", b.arch_peak),
        AsCast("arch ends", b.arch_to, cut="less"),
        AsCast("bed angle", b.bed_angle, "deg"),
        AsCast("front land's aft end", b.ramp_to, cut="less"),
        AsCast("bridge's fore end", b.bridge.x0, cut="more"),
        AsCast("bridge's aft end", b.bridge.x1, cut="less"),
    ]
    if b.toe_way is not None:
        way = b.toe_way
        found += [
            AsCast("bridge block from the edge", way.boss_x),
            AsCast("bridge block, half width", way.boss_radius + way.block_wall, cut="less"),
            AsCast("bridge block, travel", way.travel),
        ]
    named = (("knob boss", b.knob_boss), ("tote boss", b.tote_boss), ("toe-screw boss", b.toe_boss))
    found += [AsCast(f"{name} from the edge", boss.x) for name, boss in named if boss is not None]
    for i, (x, thick, height) in enumerate(sorted(b.ribs), 1):
        found += [
            AsCast(f"rib {i} from the edge", x),
            AsCast(f"rib {i}, thickness", thick, cut="less"),
            AsCast(f"rib {i} over the plate", height - plate, cut="less"),
        ]
    return tuple(found)


def _faces(b: LowBodySize) -> tuple[Face, ...]:
    cast, plate, need = b.cast, b.sole, b.cast.required
    # the bed plane runs through the edge: it stands lower over the plate's inner face where the sole is thicker
    found = [
        Face("toe", -b.toe_x, cast.end, need),
        Face("heel", b.heel_x, cast.end, need),
        Face("cheek's outside", b.width / 2, cast.side, need),
        # how far the rounded corner stands out along the diagonal
        Face("plan corner", -(sqrt(2) - 1) * b.corner_radius, cast.side, need),
        Face("sole face", plate, cast.sole, need),
        Face("bed", -plate * cos(radians(b.bed_angle)), cast.pad, need),
    ]
    if b.toe_way is not None:
        found.append(Face("bridge block, top", b.toe_way.block_z - plate, cast.boss, need))
    bosses = (("knob boss", b.knob_boss), ("tote boss", b.tote_boss), ("toe-screw boss", b.toe_boss))
    for name, boss in bosses:
        if boss is not None:
            found += [
                Face(f"top of the {name}", boss.z_top - plate, cast.boss, need),
                Face(f"side of the {name}", boss.diameter / 2, need, need),
            ]
    return tuple(found)
