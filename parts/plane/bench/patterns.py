"""The pattern maker's rows of a bench plane's cast parts."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import cos, dist, radians, sin, tan

from parts.body.floor import high_pad_raw, hollow_radius, low_pad_raw, steps
from parts.body.key import key
from parts.body.machined_faces import boss_names
from parts.frog.outline import cast_offset, casting_corners, crown, pocket_outline, raw_floor
from parts.frog.size import FrogSize
from parts.plane.bench.design import BenchDesign
from parts.plane.cap_patterns import cap_rows, lever_rows
from parts.plane.pattern_list import CAST_LARGEST, CastPart, one_factor_note
from parts.plane.pattern_rows import SHARP, BodyRows, Rows, body_list, boss_rows, rib_rows, trough_rows
from shared.casting.allowance import machining_allowance
from shared.profile import Line, Point, Profile
from shared.segments import angle_of


def pattern_list(d: BenchDesign) -> list[CastPart]:
    """Return the lists of body, frog, lever cap and cam lever."""
    cap = d.mechanism.lever_cap
    return [_body(d), _frog(d), cap_rows(d, cap), lever_rows(d, cap)]


def _body(d: BenchDesign) -> CastPart:
    b, rows = d.body, BodyRows(d)
    trough_rows(d, rows)
    low, high = b.low_pad, b.high_pad
    fore, step, aft = steps(b)
    rows.height("low frog pad", low.z, low_pad_raw(b) - low.z)
    rows.height("high frog pad", high.z, high_pad_raw(b) - high.z)
    rows.place("the low pad's fore side, at the plate", fore.x)
    rows.place("the step, at the finished high pad", high.x0, step.x)
    rows.add("high frog pad along, at its finished top", "x", high.x1 - high.x0, aft.x - step.x)
    rows.add("radius at the pads' feet", "n", hollow_radius(b), inside=True)
    _key(d, rows)
    boss_rows(d, rows, boss_names(b))
    rib_rows(d, rows)
    return body_list(d, rows, "the frog pads are cast from cheek to cheek; milling clears their middle")


def _key(d: BenchDesign, rows: BodyRows) -> None:
    """Add place, length, width and height of the key; along and across at the pad's raw top, where it is widest."""
    b, k = d.body, key(d.body)
    draft = k.grown - b.cast.pad
    rows.place("the key's fore end, at the raw pad", k.x0, k.x0 - k.grown)
    rows.add("key, length at the raw pad", "x", k.x1 - k.x0, k.x1 - k.x0 + 2 * k.grown, 2 * draft, faces=2)
    rows.add("key, width at the raw pad", "y", 2 * k.half, 2 * (k.half + k.grown), 2 * draft, faces=2)
    rows.add("key, raw top above the raw high pad", "z", b.key_height, k.raw_z - k.root_z)


def _frog(d: BenchDesign) -> CastPart:
    f, metal = d.mechanism.frog, d.frog_alloy
    contraction = d.shop.contraction_of(metal.id, CAST_LARGEST)
    rows = Rows(d, contraction, machining_allowance(CAST_LARGEST, d.shop.casting.machining_grade))
    finished, near, far = f.outline(), casting_corners(f, 0.0), casting_corners(f, f.half_width)

    def add(feature: str, axis: str, size: Callable[[Sequence[Point]], float], wall: bool = False) -> None:
        """Add a row by how its size is taken from the outline's corners."""
        rows.add(feature, axis, size(finished), size(near), size(near) - size(far), wall=wall)

    b = radians(f.bed_angle)

    def up(c: Sequence[Point], i: int) -> float:
        """Return how far a corner is up the slope from the bed's foot [mm]."""
        return (c[i][0] - c[0][0]) * cos(b) + (c[i][1] - c[0][1]) * sin(b)

    add("foot, bed's foot to aft wall", "x", lambda c: c[3][0] - c[0][0])
    add("height over the low seat, to the bed's top corner", "z", lambda c: c[7][1] - c[0][1])
    add("bed plate thickness", "n", lambda c: dist(c[6], c[7]), wall=True)
    add("bed length up the slope", "n", lambda c: dist(c[0], c[7]))
    add("low seat to high seat", "z", lambda c: c[2][1] - c[1][1])
    add("step, from the bed's foot", "x", lambda c: c[1][0] - c[0][0])
    add("rear face, up the slope from the bed's foot", "n", lambda c: up(c, 5))
    add("aft wall, high seat to rear face", "z", lambda c: c[4][1] - c[3][1])
    rows.add("hollow between rear face and bed plate, radius", "n", f.root_radius, inside=True)
    rows.add("width across", "y", 2 * f.half_width)
    pocket = pocket_outline(f)
    if pocket is not None:
        _pockets(f, pocket, rows)
    notes = (SHARP, "sizes along and up are at the parting, in the middle of the width; walls at the pockets are at "
                    "the web, where draft has made them thickest")  # fmt: skip
    return CastPart("frog", metal.id, contraction, rows.found, (*notes, *one_factor_note(contraction)))


def _pockets(f: FrogSize, pocket: Profile, rows: Rows) -> None:
    """Add the web and the walls beside the side pockets, from the frog's sides to the web."""
    rows.add("middle web", "y", 2 * f.web_half, wall=True)
    draft = 2 * (f.half_width - f.web_half) * tan(radians(f.draft))
    side = crown(f)
    # not every pocket has room for every wall: in most the corners' rounds meet
    ways = [angle_of(s.direction()) % 180.0 for s in pocket.segments if isinstance(s, Line)]
    for feature, axis, angle, finished, cast in (
        ("wall under the bed", "n", f.bed_angle, f.bed_wall, f.bed_wall + cast_offset(f, "bed") - side),
        ("floor over the high seat", "z", 0.0, f.floor, raw_floor(f) - f.high_z + cast_offset(f, "high seat") - side),
        ("wall to the rear face", "n", f.bed_angle + 90.0, f.rear_wall,
         f.rear_wall + cast_offset(f, "rear face") - side),
        ("wall to the aft wall", "x", 90.0, f.rear_wall, f.rear_wall),
    ):  # fmt: skip
        if any(abs((way - angle + 90.0) % 180.0 - 90.0) < 0.1 for way in ways):
            rows.add(f"pocket: {feature}", axis, finished, cast + draft, draft, wall=True)
