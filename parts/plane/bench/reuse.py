"""The castings of a bench plane as `parts.plane.reuse` compares them.

Datum of the body: the edge along, the middle across, the plate's inner face in height, since that one is as cast.
"""

from __future__ import annotations

from math import radians, sqrt, tan

from parts.body.size import BodySize
from parts.lever_cap.size import LeverCapSize
from parts.plane.bench.design import BenchDesign
from parts.plane.diff import leaves
from parts.plane.pattern_list import CAST_LARGEST
from parts.plane.reuse import AsCast, CastPiece, Face

# sizes of the frog that only drills and cutters give; its casting does not know them
FROG_CUT = (
    "relief", "relief_depth", "holddown_at", "holddown_y", "holddown_slot", "access", "key_half", "key_depth",
    "cap_screw_at", "cap_screw_tap_drill", "cap_screw_depth", "yoke_at", "yoke_slot", "yoke_pivot_h", "yoke_pin",
    "yoke_pin_to", "post_h", "post_tap_drill", "post_tap_depth", "lateral_at", "lateral_pin", "lateral_recess",
    "travel",
)  # fmt: skip
ANGLES = ("bed_angle", "draft", "outside_draft", "inside_draft")


def cast_pieces(d: BenchDesign) -> list[CastPiece]:
    """Return body, frog and lever cap."""
    grade, small = d.shop.casting.tolerance_grade, d.shop.contraction_of
    frog, cap = d.mechanism.frog, d.mechanism.lever_cap
    return [
        CastPiece("body", d.body_alloy.id, d.contraction, grade, _body_as_cast(d.body), _body_faces(d.body)),
        CastPiece("frog", d.frog_alloy.id, small(d.frog_alloy.id, CAST_LARGEST), grade, _sizes(frog, FROG_CUT), ()),
        CastPiece("lever-cap", d.cap_alloy.id, small(d.cap_alloy.id, CAST_LARGEST), grade, _cap(cap), ()),
    ]


def _sizes(size: object, but: tuple[str, ...]) -> tuple[AsCast, ...]:
    """Return every size of a small casting that is not named in `but`: each must stay as it is."""
    found = []
    for path, value in leaves(size).items():
        name = path.partition(".")[0]
        if name not in but and isinstance(value, int | float):
            said = path.replace("_", " ").replace(".", " ")
            found.append(AsCast(said, float(value), "deg" if name in ANGLES else "mm"))
    return tuple(found)


def _cap(cap: LeverCapSize) -> tuple[AsCast, ...]:
    """Return the lever cap's sizes, its places from nose and parting plane: it is the same cap wherever it sits."""
    along, up = ("nose at", "screw at", "tail", "pivot at", "press at", "window", "spring rivet at"), (" q",)
    return tuple(
        AsCast(s.name, s.value - cap.nose_at) if s.name.startswith(along)
        else AsCast(s.name, s.value - cap.underside_q) if s.name.endswith(up)
        else s
        for s in _sizes(cap, ())
    )  # fmt: skip


def _body_as_cast(b: BodySize) -> tuple[AsCast, ...]:
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
        AsCast("frog pads' aft end", b.high_pad.x1),
        AsCast("knob boss from the edge", b.knob_boss.x),
        AsCast("tote boss from the edge", b.tote_boss.x),
    ]
    if b.toe_boss is not None:
        found.append(AsCast("toe-screw boss from the edge", b.toe_boss.x))
    for i, (x, thick, height) in enumerate(sorted(b.ribs), 1):
        found += [
            AsCast(f"rib {i} from the edge", x),
            AsCast(f"rib {i}, thickness", thick, cut="less"),
            AsCast(f"rib {i} over the plate", height - plate, cut="less"),
        ]
    return tuple(found)


def _body_faces(b: BodySize) -> tuple[Face, ...]:
    cast, plate, need = b.cast, b.sole, b.cast.required
    found = [
        Face("toe", -b.toe_x, cast.end, need),
        Face("heel", b.heel_x, cast.end, need),
        Face("cheek's outside", b.width / 2, cast.side, need),
        # how far the rounded corner stands out along the diagonal
        Face("plan corner", -(sqrt(2) - 1) * b.corner_radius, cast.side, need),
        Face("sole face", plate, cast.sole, need),
        Face("low frog pad", b.low_pad.z - plate, cast.pad, need),
        Face("high frog pad", b.high_pad.z - plate, cast.pad, need),
        Face("front of the high pad", -b.high_pad.x0, cast.pad, need),
        Face("frog key, height", b.high_pad.z + b.key_height - plate, cast.pad, need),
        Face("frog key, half width", b.key_half, cast.pad, need),
        # the low pad's metal begins a little ahead of the bed wall, and nothing is left on it but that
        Face("bed wall at the plate", -(b.wall_foot_x + plate / tan(radians(b.bed_angle))), 0.5, 0.0),
        Face("bed wall at the sole", -b.wall_foot_x, 0.5, 0.0),
    ]
    bosses = (("knob boss", b.knob_boss), ("tote boss", b.tote_boss), ("toe-screw boss", b.toe_boss))
    for name, boss in bosses:
        if boss is not None:
            found += [
                Face(f"top of the {name}", boss.z_top - plate, cast.boss, need),
                Face(f"side of the {name}", boss.diameter / 2, need, need),
            ]
    return tuple(found)
