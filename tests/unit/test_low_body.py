"""The low-angle body's floor, limits, toe way, numbers and outlines, by arithmetic alone."""

from __future__ import annotations

import math
import subprocess
import sys
from itertools import pairwise
from math import cos, radians, sin, tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from parts.body.low_angle.block import block_reach, ends, piece_toe, throat
from parts.body.low_angle.floor import floor, raw_bed_z, sides
from parts.body.low_angle.layout import stud_in_boss, stud_in_land
from parts.body.low_angle.limits import check_limits, holes, lacks
from parts.body.low_angle.machined_faces import from_solid, machined_faces
from parts.body.low_angle.numbers import bed_cutter, low_body_numbers
from parts.body.low_angle.outline import bed_chain, lands, mouth_outline, plan_view, side_view
from parts.body.low_angle.pattern import scaled_size
from parts.body.low_angle.size import BedBore, BedGroove, Bridge, GripHollow, LowBodySize, WheelWell
from parts.body.mass_estimate import height_of
from parts.body.room import hole_floor
from shared.casting.alloy import alloy
from shared.casting.contraction import Contraction
from shared.errors import GeometryError
from shared.record import replace
from shared.threads import METRIC
from tests.low_body_samples import IRON, block, block_spec, jack, jack_spec, random_low_body

seeds = st.integers(0, 100_000)
SOLID_MODULES = "cadquery", "OCP", "vtk", "matplotlib"


@settings(max_examples=60)
@given(seeds)
def test_every_body_is_either_free_of_lacks_or_told_why(seed: int) -> None:
    size = random_low_body(seed)
    found = lacks(size)
    assert all(lack.step and lack.reason for lack in found)
    if found:
        with pytest.raises(GeometryError, match="could not be built"):
            check_limits(size)
        return
    chain = floor(size, 3.0)
    for a, b in pairwise(chain):
        assert math.dist(a.end, b.start) < 1e-6
    # under its stock the cast bed lies above the bed plane all along both lands but for the rounding of their ends
    land, _, _ = sides(size)
    for x0, x1 in ((size.bed_from, size.ramp_to), (size.bridge.x0, size.bridge.x1)):
        for share in (0.0, 0.2, 0.5, 0.8, 1.0):
            x = x0 + share * (x1 - x0)
            assert height_of(chain, x) > size.bed_z(x) - 1e-9
        middle = (x0 + x1) / 2
        assert height_of(chain, middle) >= raw_bed_z(size, middle) - 1e-6
    # between the lands the blade has air below it
    gap = (land.at(size.sole) + size.bridge.x0) / 2
    assert height_of(chain, gap) < size.bed_z(gap)
    assert min(hole_floor(h) for h in holes(size)) > 0.5


@settings(max_examples=40)
@given(seeds)
def test_sides_draw_and_pass_through_the_ends_of_the_finished_lands(seed: int) -> None:
    size = random_low_body(seed)
    for side, x in zip(sides(size), (size.ramp_to, size.bridge.x0, size.bridge.x1), strict=True):
        assert side.angle <= 90.0 - size.cast.draft_inside + 1e-9
        assert side.at(size.bed_z(x)) == pytest.approx(x)
        assert raw_bed_z(size, side.at(side.top_z)) == pytest.approx(side.top_z)


def test_feather_is_an_upright_land_where_the_bed_begins() -> None:
    size = block()
    assert size.feather == 0.8
    # 0.8 mm at 12 deg: hand-worked, 0.8 / 0.21256
    assert size.bed_from == pytest.approx(3.7637, abs=1e-4)
    assert size.bed_z(size.bed_from) == pytest.approx(size.feather)
    with pytest.raises(ValidationError, match=r"0\.8 mm"):
        block_spec(feather=0.7)
    assert next(x.change for x in lacks(replace(size, feather=0.5))) == "raise body.feather by 0.30 mm"


def test_lands_are_measured_along_the_bed() -> None:
    size = jack()
    assert size.aft_land == pytest.approx(28.0)
    assert size.front_land == pytest.approx(math.hypot(size.ramp_to - size.bed_from,
                                                       size.bed_z(size.ramp_to) - size.feather))  # fmt: skip
    front, aft = lands(size)
    assert front.area == pytest.approx(2 * size.mouth_half_width * size.front_land * cos(radians(12.0)))
    assert aft.bounds[0] == size.bridge.x0


def test_largest_cutter_at_a_steep_bed_is_stopped_by_the_mouths_front() -> None:
    # at 12 deg the mill meets the sole first: twice 0.8 / sin 12
    assert bed_cutter(block()) == pytest.approx(2 * 0.8 / sin(radians(12.0)))
    # at 22.5 deg its side leans farther forward than the front wall and meets it at the plate's top
    size = replace(block(), bed_angle=22.5)
    b, high = radians(22.5), 6.2 / cos(radians(22.5))
    foremost = (-0.3 - 6.2 * tan(radians(15.0)) + high * sin(b)) / cos(b)
    assert foremost > 0
    assert bed_cutter(size) == pytest.approx(2 * (0.8 / sin(b) - foremost))


@given(st.floats(50.0, 90.0), st.floats(10.0, 25.0))
def test_stud_stands_square_to_the_bed_and_off_the_blade(s: float, bed: float) -> None:
    thread = METRIC["medium"]
    hole, boss = stud_in_boss(s, bed, thread)
    b = radians(bed)
    # the axis passes through its place on the bed plane
    assert hole.x * cos(b) + hole.z_top * sin(b) == pytest.approx(s)
    assert boss.z_top < tan(b) * (boss.x - boss.diameter / 2)
    assert hole_floor(hole) == pytest.approx(2.5)
    plain = stud_in_land(s, bed, thread)
    assert plain.z_top == pytest.approx(tan(b) * plain.x) and plain.lean == bed
    assert hole_floor(plain) == pytest.approx(2.5)


# ---- toe piece ----------------------------------------------------------------------------------------------------


@settings(max_examples=40)
@given(seeds)
def test_toe_piece_keeps_inside_its_pocket_at_both_ends(seed: int) -> None:
    size = random_low_body(seed)
    way = size.toe_way
    if way is None or lacks(size):
        return
    assert piece_toe(size, way, way.opening_most) == pytest.approx(way.toe_end + way.end_clearance)
    length = [-o - piece_toe(size, way, o) for o in (way.opening_least, way.opening_most)]
    assert length[0] == pytest.approx(length[1])
    ahead, aft = ends(size, way)
    assert aft[0] - ahead[0] == pytest.approx(way.travel)
    # the body's throat stands ahead of the piece's own front wherever the piece is
    assert throat(size, way.ledge_z) < -way.opening_most - way.ledge_z / tan(radians(size.mouth_front_angle))
    assert block_reach(size, way)[1] < throat(size, size.sole)


def test_toe_piece_opens_the_sole_and_the_mouth_does_alone_without() -> None:
    size, way = block(True), block(True).toe_way
    assert way is not None
    half = size.mouth_half_width
    assert mouth_outline(size).bounds == pytest.approx((way.toe_end, -half, size.bed_from, half))
    fixed = block()
    assert mouth_outline(fixed).bounds == pytest.approx((-0.3, -half, fixed.bed_from, half))


# ---- refusals -----------------------------------------------------------------------------------------------------


def _with_grip(**said: float) -> LowBodySize:
    grip = GripHollow(**{"x": 25.0, "z": 16.0, "length": 36.0, "height": 14.0, "depth": 1.0, **said})
    return replace(block(), grip=grip)


REFUSED = {
    "feather": (lambda: replace(block(), feather=0.79), "the feather behind the mouth"),
    "blade as wide as the channel": (lambda: replace(block(), mouth_half_width=22.5), "between bed and cheek"),
    "low cheeks": (lambda: replace(block(), cheek_height=25.0), "the cheek above the bridge"),
    "bridge at the land": (lambda: replace(block(), bridge=Bridge(36.0, 60.0)), "between front land and bridge"),
    "short bridge": (lambda: replace(block(), bridge=Bridge(50.0, 57.0)), "the aft land"),
    "bridge at the heel": (lambda: replace(jack(), bridge=Bridge(200.0, 245.0)), "the plate at the heel"),
    "land inside the plate": (lambda: replace(block(), ramp_to=29.0), "the bed above the plate"),
    "thin stock on the bed": (lambda: replace(block(), cast=replace(block().cast, pad=0.5)), "the stock on the bed"),
    "root larger than its room": (lambda: replace(block(), root_radius=12.0), "the rail above the plate"),
    "stud too near the mouth": (lambda: replace(block(), stud=stud_in_land(26.0, 12.0, METRIC["small"])), "depth of"),
    "stud in the air": (lambda: replace(block(), stud=stud_in_land(41.0, 12.0, METRIC["small"])), "in its land"),
    "stud askew": (lambda: replace(block(), stud=replace(block().stud, lean=0.0)), "square to the bed"),
    "bore through the stud": (lambda: replace(block(), bores=(BedBore(7.0, 5.0, 50.0, 80.0),)), "bore and stud"),
    "bore through the sole": (lambda: replace(block(), bores=(BedBore(12.0, 5.0, 62.0, 80.0),)), "under the bore"),
    "bore in the bed": (lambda: replace(block(), bores=(BedBore(3.0, 5.0, 62.0, 80.0),)), "between bore and bed"),
    "deep groove": (lambda: replace(block(), grooves=(BedGroove(50.0, 70.0, 3.0, 9.5),)), "under the groove"),
    "deep well": (lambda: replace(block(), wheel_well=WheelWell(76.0, 93.0, 8.0, 2.0)), "under the well"),
    "well in the bridge": (lambda: replace(block(), wheel_well=WheelWell(60.0, 80.0, 8.0, 4.0)), "bridge's top"),
    "deep hollow": (lambda: _with_grip(depth=2.4), "the cheek behind it"),
    "hollow at the rim": (lambda: _with_grip(z=22.0), "the cheek above it"),
    "hollow at the sole": (lambda: _with_grip(z=8.0), "the cheek under it"),
    "peak aft of the arch": (lambda: replace(block(), arch_peak=150.0), "the peak must lie"),
}  # fmt: skip
TOE_REFUSED = {
    "thick plate": ({"ledge_z": 5.0}, "the roof over its ledges"),
    "thin plate": ({"ledge_z": 1.5}, "its plate"),
    "pocket at the toe": ({"toe_end": -43.0}, "the sole ahead of it"),
    "fat boss": ({"boss_radius": 16.0}, "each ledge"),
    "low block": ({"block_z": 9.5}, "the bridge block's roof"),
    "mouth beyond the travel": ({"opening_least": 0.5}, "within its travel"),
    "boss at the piece's end": ({"boss_x": -29.0}, "its plate ahead of its boss"),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_cannot_be_built_is_refused_with_a_reason(case: str) -> None:
    make, said = REFUSED[case]
    assert any(said in lack.reason for lack in lacks(make())), [lack.reason for lack in lacks(make())]


@pytest.mark.parametrize("case", TOE_REFUSED)
def test_a_toe_piece_without_room_is_refused_with_a_reason(case: str) -> None:
    change, said = TOE_REFUSED[case]
    size = block(True)
    assert size.toe_way is not None and lacks(size) == []
    found = lacks(replace(size, toe_way=replace(size.toe_way, **change)))
    assert any(said in lack.reason for lack in found), [lack.reason for lack in found]


# ---- numbers, faces, outlines, pattern ----------------------------------------------------------------------------


@pytest.mark.parametrize("toe", [False, True])
def test_numbers_say_feather_lands_and_way(toe: bool) -> None:
    size = jack(toe)
    n = low_body_numbers(jack_spec(toe), size, alloy(IRON), Contraction(0.0104, 0.0104, 0.0104, "test"), None)
    assert n.value("feather_mm") == size.feather >= n.value("feather_least_mm")
    assert n.value("front_land_mm") + n.value("relief_mm") + n.value("aft_land_mm") == pytest.approx(
        math.hypot(size.bridge.x1 - size.bed_from, size.bed_z(size.bridge.x1) - size.feather)
    )
    assert n.value("pattern_length_mm") == pytest.approx(n.value("casting_length_mm") * 1.0104)
    shared = {"required_machining_allowance_mm", "thermal_bow_um_per_k", "mass_estimate_kg", "mouth_width_mm"}
    assert all(key in n for key in shared)
    assert ("ledge_width_mm" in n) == toe
    if toe:
        assert n.value("ledge_height_mm") + n.value("ledge_roof_mm") == pytest.approx(size.sole)
        assert n.value("toe_piece_travel_mm") == 3.0


@pytest.mark.parametrize("size", [block(), block(True), jack(), jack(True)])
def test_faces_and_outlines_cover_the_body(size: LowBodySize) -> None:
    faces = machined_faces(size)
    assert len({f.name for f in faces}) == len(faces)
    bed = [f for f in faces if f.name.startswith("bed, ")]
    for face in bed:
        assert math.dist(face.normal, (-sin(radians(12.0)), 0.0, cos(radians(12.0)))) < 1e-12
        assert face.clear_x is not None and face.clear_x[1] - face.clear_x[0] > 10.0
    assert any("toe piece" in f.name for f in from_solid(size)) == (size.toe_way is not None)
    side, plan = side_view(size), plan_view(size)
    assert side.outlines[0].bounds == pytest.approx((size.toe_x, 0.0, size.heel_x, size.cheek_height))
    assert plan.outlines[0].bounds[2] - plan.outlines[0].bounds[0] == pytest.approx(size.length)
    on_bed = [p for s in bed_chain(size) for p in (s.start, s.end) if abs(p[1] - size.bed_z(p[0])) < 1e-9 and p[0] > 0]
    assert {round(p[0], 6) for p in on_bed} >= {round(x, 6) for x in (size.bed_from, size.ramp_to, size.bridge.x1)}


@given(st.floats(1.0, 1.03), st.floats(1.0, 1.03), st.floats(1.0, 1.03))
def test_pattern_sizes_grow_by_axis_and_stay_buildable(x: float, y: float, z: float) -> None:
    size = block(True)
    grown = scaled_size(size, x, y, z)
    assert grown.bed_z(grown.bridge.x1) == pytest.approx(size.bed_z(size.bridge.x1) * z)
    assert grown.bridge.x0 == pytest.approx(size.bridge.x0 * x)
    assert grown.inside_half_at(20.0 * z) == pytest.approx(size.inside_half_at(20.0) * y)
    if max(x, y, z) - min(x, y, z) < 0.004:
        assert lacks(grown) == []


def test_arithmetic_loads_no_kernel() -> None:
    code = (
        "import sys, parts.body.low_angle.layout, parts.body.low_angle.limits, parts.body.low_angle.numbers, "
        "parts.body.low_angle.outline, parts.body.low_angle.machined_faces, parts.body.low_angle.mass_estimate\n"
        f"print([m for m in {SOLID_MODULES} if m in sys.modules])"
    )
    found = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert found.stdout.strip() == "[]"
