"""Body castings and finished bodies from the kernel, measured and compared with arithmetic done without it."""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, tan

import cadquery as cq
import pytest

from parts.body.casting import casting
from parts.body.finished import finished
from parts.body.mass_estimate import casting_volume, finished_volume
from parts.body.outline import mouth_at, plan_outline
from parts.body.pattern import pattern
from parts.body.proof import BodyProof, measure_drafts, measure_stock, prove, volume_ratio_error
from parts.body.size import BodySize
from parts.body.walls import envelope
from shared.record import replace
from tests.body_samples import jack, random_body

pytestmark = pytest.mark.kernel


@dataclass(frozen=True)
class Made:
    size: BodySize
    casting: cq.Solid
    finished: cq.Solid


def make(size: BodySize) -> Made:
    raw = casting(size)
    return Made(size, raw, finished(size, raw))


@pytest.fixture(scope="module")
def made() -> Made:
    return make(jack())


@pytest.fixture(scope="module")
def proof(made: Made) -> BodyProof:
    return prove(made.size, made.casting, made.finished)


def test_everything_that_must_hold_holds(made: Made, proof: BodyProof) -> None:
    assert made.casting.isValid() and made.finished.isValid()
    assert proof.holds(made.size.cast.required)
    assert proof.undercuts == ()
    assert proof.uncovered_mm3 == pytest.approx(0.0, abs=1e-6)
    assert proof.least_stock.least >= made.size.cast.required - 1e-6
    assert proof.least_draft_outside == pytest.approx(1.5, abs=1e-6)
    assert proof.least_draft_inside == pytest.approx(2.0, abs=1e-6)
    sole = next(s for s in proof.stock if s.name == "sole")
    assert (sole.least, sole.most) == pytest.approx((made.size.cast.sole, made.size.cast.sole))


def test_volumes_agree_with_slices_computed_without_the_kernel(made: Made, proof: BodyProof) -> None:
    assert proof.casting_mm3 == pytest.approx(casting_volume(made.size), rel=1.5e-3)
    assert proof.finished_mm3 == pytest.approx(finished_volume(made.size), rel=4e-3)


# long and wide, short and narrow, parting in the plate, square corners: seeds picked to differ
@pytest.mark.parametrize("seed", [4, 10])
def test_other_sizes_hold_too(seed: int) -> None:
    m = make(random_body(seed))
    found = prove(m.size, m.casting, m.finished)
    assert found.holds(m.size.cast.required)
    assert found.casting_mm3 == pytest.approx(casting_volume(m.size), rel=2e-3)
    assert found.finished_mm3 == pytest.approx(finished_volume(m.size), rel=6e-3)


def test_parting_above_the_plate_draws_both_ways() -> None:
    size = jack()
    size = replace(size, cast=replace(size.cast, parting_z=size.sole + 2.0))
    raw = casting(size)
    drafts, undercuts = measure_drafts(size, raw)
    assert undercuts == () and all(d.enough for d in drafts)
    box, env = raw.BoundingBox(), envelope(size)
    assert box.xlen == pytest.approx(env.x1 - env.x0, abs=1e-5)
    # at its raw sole the casting has drawn in again
    low = raw.intersect(cq.Solid.makeBox(800, 200, 1, cq.Vector(-400, -100, -size.cast.sole - 0.999)))
    slope = tan(radians(size.cast.draft_outside))
    assert low.BoundingBox().ylen == pytest.approx(2 * (env.half - (size.sole + 2 + size.cast.sole) * slope), abs=1e-3)


def test_finished_body_has_its_outside_sizes(made: Made) -> None:
    box, size = made.finished.BoundingBox(), made.size
    assert (box.xmin, box.xmax, box.ylen) == pytest.approx((size.toe_x, size.heel_x, size.width), abs=1e-4)
    assert (box.zmin, box.zmax) == pytest.approx((0.0, size.cheek_height), abs=1e-4)


def test_only_the_mouth_breaks_the_sole(made: Made) -> None:
    size = made.size
    sole = [f for f in made.finished.Faces() if f.Center().z == pytest.approx(0.0, abs=1e-9)]
    assert len(sole) == 1 and len(sole[0].innerWires()) == 1
    front, aft = mouth_at(size, 0.0)
    opening = (aft - front) * 2 * size.mouth_half_width
    # the mouth's corners are rounded by less than a square millimetre in all
    assert plan_outline(size).area - sole[0].Area() == pytest.approx(opening, abs=1.0)
    mouth = cq.Face.makeFromWires(sole[0].innerWires()[0]).BoundingBox()
    assert (mouth.xmin, mouth.xmax) == pytest.approx((-size.mouth_opening, size.wall_foot_x), abs=1e-6)


def test_walls_of_the_mouth_stand_at_their_angles(made: Made) -> None:
    def wall(angle: float, side: float) -> list[cq.Face]:
        want = cq.Vector(side * tan(radians(angle)), 0, 1).normalized()
        return [f for f in made.finished.Faces() if f.geomType() == "PLANE" and (f.normalAt() - want).Length < 1e-6]

    size = made.size
    aft = wall(size.bed_angle, -1.0)
    assert max(f.BoundingBox().zmax for f in aft) >= size.low_pad.z - 1e-6
    assert min(f.BoundingBox().zmin for f in aft) == pytest.approx(0.0, abs=1e-6)
    front = wall(size.mouth_front_angle, 1.0)
    assert front and min(f.BoundingBox().zmin for f in front) == pytest.approx(0.0, abs=1e-6)


def test_casting_has_neither_mouth_nor_holes(made: Made) -> None:
    for solid, wires in ((made.casting, 0), (made.finished, 1)):
        sole = min(solid.Faces(), key=lambda f: f.Center().z)
        assert len(sole.innerWires()) == wires


def test_pattern_grows_by_its_factors(made: Made) -> None:
    even = (1.0104, 1.0104, 1.0104)
    grown = pattern(made.size, made.casting, even)
    assert volume_ratio_error(made.casting, grown, even) == pytest.approx(0.0, abs=1e-9)
    by_axis = (1.009, 1.0112, 1.0104)
    uneven = pattern(made.size, made.casting, by_axis)
    assert volume_ratio_error(made.casting, uneven, by_axis) == pytest.approx(0.0, abs=2e-4)
    a, b = made.casting.BoundingBox(), uneven.BoundingBox()
    assert b.zlen / a.zlen == pytest.approx(1.0104, abs=1e-6)
    assert b.xlen / a.xlen == pytest.approx(1.009, abs=2e-5)
    assert b.ylen / a.ylen == pytest.approx(1.0112, abs=2e-5)


def test_proof_finds_metal_that_the_sand_would_hold(made: Made) -> None:
    size = made.size
    lump = cq.Solid.makeSphere(4.0, cq.Vector(0, -size.width / 2 - 3.0, 25.0), cq.Vector(0, 0, 1), -90, 90, 360)
    _, undercuts = measure_drafts(size, cq.Workplane(made.casting).union(cq.Workplane(lump)).val())
    assert undercuts and all(abs(u.at[2] - 25.0) < 4.1 and u.at[1] < -size.width / 2 for u in undercuts)


def test_proof_finds_missing_stock(made: Made) -> None:
    thin = cq.Workplane(made.casting).cut(cq.Workplane("XY").box(900, 200, 2.0).translate((60, 0, -3.0))).val()
    sole = next(s for s in measure_stock(made.size, thin, made.finished) if s.name == "sole")
    assert sole.least == pytest.approx(made.size.cast.sole - 1.0, abs=1e-6)
