"""Low-angle castings and finished bodies from the kernel, measured and compared with arithmetic done without it."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin

import cadquery as cq
import pytest

from parts.body.low_angle.casting import casting
from parts.body.low_angle.finished import finished
from parts.body.low_angle.mass_estimate import casting_volume, finished_volume
from parts.body.low_angle.outline import mouth_outline
from parts.body.low_angle.pattern import pattern
from parts.body.low_angle.proof import prove, prove_toe_piece
from parts.body.low_angle.size import LowBodySize
from parts.body.low_angle.toe_way import toe_piece
from parts.body.proof import BodyProof, measure_drafts, volume_ratio_error
from parts.body.views import plan_outline
from shared.errors import GeometryError
from tests.low_body_samples import block, jack, random_low_body

pytestmark = pytest.mark.kernel
IRON_KG_MM3 = 7.1e-6


@dataclass(frozen=True)
class Made:
    size: LowBodySize
    casting: cq.Solid
    finished: cq.Solid
    proof: BodyProof


def make(size: LowBodySize) -> Made:
    raw = casting(size)
    cut = finished(size, raw)
    return Made(size, raw, cut, prove(size, raw, cut))


@pytest.fixture(scope="module")
def small() -> Made:
    """Block size, with a toe piece."""
    return make(block(toe=True))


@pytest.fixture(scope="module")
def long() -> Made:
    """Jack length, fixed mouth, with a tote."""
    return make(jack())


@pytest.fixture(params=["small", "long"])
def made(request: pytest.FixtureRequest) -> Made:
    found: Made = request.getfixturevalue(request.param)
    return found


def test_everything_that_must_hold_holds(made: Made) -> None:
    proof, cast = made.proof, made.size.cast
    assert made.casting.isValid() and made.finished.isValid()
    assert proof.holds(cast.required)
    assert proof.undercuts == ()
    assert proof.uncovered_mm3 == pytest.approx(0.0, abs=1e-6)
    assert proof.least_draft_outside == pytest.approx(cast.draft_outside, abs=1e-6)
    assert proof.least_draft_inside == pytest.approx(cast.draft_inside, abs=1e-6)
    for row in proof.stock:
        # the bed's stock is laid on square to it; nearer the mouth the plate itself stands higher
        if row.name.startswith("bed, "):
            assert row.least == pytest.approx(cast.pad, abs=2e-3), row


def test_volumes_agree_with_slices_computed_without_the_kernel(made: Made) -> None:
    assert made.proof.casting_mm3 == pytest.approx(casting_volume(made.size), rel=1.5e-3)
    assert made.proof.finished_mm3 == pytest.approx(finished_volume(made.size), rel=5e-3)


def test_bodies_weigh_what_such_bodies_weigh(small: Made, long: Made) -> None:
    # common practice, no source: about half a kilogram in block size, three times that at jack length
    assert 0.4 < small.proof.finished_mm3 * IRON_KG_MM3 < 0.8
    assert 1.4 < long.proof.finished_mm3 * IRON_KG_MM3 < 2.0


def test_outside_sizes(made: Made) -> None:
    box, size = made.finished.BoundingBox(), made.size
    assert (box.xmin, box.xmax, box.ylen) == pytest.approx((size.toe_x, size.heel_x, size.width), abs=1e-4)
    assert (box.zmin, box.zmax) == pytest.approx((0.0, size.cheek_height), abs=1e-4)


def test_nothing_breaks_the_sole_but_the_mouth_and_the_toe_pieces_way(made: Made) -> None:
    size = made.size
    sole = [f for f in made.finished.Faces() if f.Center().z == pytest.approx(0.0, abs=1e-9)]
    assert len(sole) == 1 and len(sole[0].innerWires()) == 1
    assert plan_outline(size).area - sole[0].Area() == pytest.approx(mouth_outline(size).area, abs=0.02)
    raw = min(made.casting.Faces(), key=lambda f: f.Center().z)
    assert raw.innerWires() == []


def test_bed_lies_on_its_plane_and_ends_in_an_upright_land(made: Made) -> None:
    size, b = made.size, radians(made.size.bed_angle)
    up = cq.Vector(-sin(b), 0, cos(b))
    bed = [f for f in made.finished.Faces() if f.geomType() == "PLANE" and (f.normalAt() - up).Length < 1e-9]
    on_plane = [f for f in bed if abs(f.Center().dot(up)) < 1e-6]
    assert len(on_plane) == 2
    front, aft = sorted((f.BoundingBox() for f in on_plane), key=lambda box: box.xmin)
    assert (front.xmin, front.zmin) == pytest.approx((size.bed_from, size.feather), abs=1e-5)
    assert aft.xmin < size.bridge.x0 + 1e-5 and aft.xmax > size.bridge.x1 - 1e-5
    assert front.ylen == pytest.approx(2 * size.mouth_half_width, abs=1e-5)
    upright = [f for f in made.finished.Faces()
               if f.geomType() == "PLANE" and (f.normalAt() - cq.Vector(-1, 0, 0)).Length < 1e-9
               and abs(f.Center().x - size.bed_from) < 1e-6]  # fmt: skip
    assert len(upright) == 1
    assert (upright[0].BoundingBox().zmin, upright[0].BoundingBox().zmax) == pytest.approx((0.0, 0.8), abs=1e-5)


def test_a_blade_slides_down_the_bed_through_the_mouth(made: Made) -> None:
    size, b = made.size, radians(made.size.bed_angle)
    half, long, thick = size.mouth_half_width - 0.3, size.bridge.x1 + 40.0, 3.0
    blade = cq.Solid.makeBox(long, 2 * half, thick, cq.Vector(0, -half, 0))
    blade = blade.rotate(cq.Vector(0, 0, 0), cq.Vector(0, 1, 0), -size.bed_angle)
    # the bevel on top, honed to 25 deg, with a hair of air under the back
    bevel = cq.Solid.makeBox(60, 2 * half + 2, 60, cq.Vector(-60, -half - 1, 0))
    bevel = bevel.rotate(cq.Vector(0, 0, 0), cq.Vector(0, 1, 0), -size.bed_angle - 25.0)
    shaped = blade.cut(bevel).translate(cq.Vector(-sin(b), 0, cos(b)) * 1e-3)
    assert made.finished.intersect(shaped).Volume() == pytest.approx(0.0, abs=1e-6)
    seated = made.finished.intersect(shaped.translate(cq.Vector(sin(b), 0, -cos(b)) * 0.101)).Volume()
    # lowered by a tenth it cuts into both lands
    area = 2 * half * (size.front_land + size.aft_land)
    assert seated == pytest.approx(0.1 * area, rel=0.25)


def test_toe_piece_clears_the_body_wherever_it_stands_and_makes_the_mouth(small: Made) -> None:
    places = prove_toe_piece(small.size, small.finished)
    assert [p.opening for p in places] == [0.0, 0.3, 1.5, 3.0]
    for place in places:
        assert place.shared_mm3 < 1e-6
        assert place.edge_x == pytest.approx(-place.opening, abs=1e-6)
    # pushed up past its ledges it does not
    piece = toe_piece(small.size).translate(cq.Vector(0, 0, 0.1))
    assert small.finished.intersect(piece).Volume() > 10.0
    with pytest.raises(GeometryError, match="outside its travel"):
        toe_piece(small.size, 3.2)
    with pytest.raises(GeometryError, match="has none"):
        toe_piece(block())


def test_toe_piece_is_flush_and_opens_nothing_but_its_threads_end(small: Made) -> None:
    size, way = small.size, small.size.toe_way
    assert way is not None
    piece = toe_piece(size)
    box = piece.BoundingBox()
    assert (box.zmin, box.zmax) == pytest.approx((0.0, way.boss_z - way.boss_clearance), abs=1e-5)
    sole = [f for f in piece.Faces() if f.Center().z == pytest.approx(0.0, abs=1e-9)]
    assert len(sole) == 1 and sole[0].innerWires() == []
    lean = cq.Vector(sin(radians(75.0)), 0, cos(radians(75.0)))
    assert any((f.normalAt() - lean).Length < 1e-6 for f in piece.Faces() if f.geomType() == "PLANE")


def test_pattern_grows_by_its_factors(small: Made) -> None:
    even = (1.0104, 1.0104, 1.0104)
    grown_evenly = pattern(small.size, small.casting, even)
    assert volume_ratio_error(small.casting, grown_evenly, even) == pytest.approx(0.0, abs=1e-9)
    by_axis = (1.009, 1.0112, 1.0104)
    uneven = pattern(small.size, small.casting, by_axis)
    assert volume_ratio_error(small.casting, uneven, by_axis) == pytest.approx(0.0, abs=3e-4)
    a, b = small.casting.BoundingBox(), uneven.BoundingBox()
    grown = (b.xlen / a.xlen, b.ylen / a.ylen, b.zlen / a.zlen)
    assert grown == pytest.approx(by_axis, abs=2e-5)


# a bed of 20 deg, parting in the plate, a boss of its own for the stud, a toe piece, a rib: a seed picked to differ
def test_another_size_draws_from_its_mould() -> None:
    size = random_low_body(5)
    raw = casting(size)
    drafts, undercuts = measure_drafts(size, raw)
    assert undercuts == () and all(d.enough for d in drafts)
    assert raw.Volume() == pytest.approx(casting_volume(size), rel=3e-3)
