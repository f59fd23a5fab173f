"""The frog in the kernel: casting covers the finished part with its stock, draws everywhere, and lets screws in."""

from __future__ import annotations

from functools import lru_cache
from math import pi
from pathlib import Path

import cadquery as cq
import pytest

from parts.frog.casting import casting
from parts.frog.finished import access_outline, slope
from parts.frog.outline import casting_outline, crown, pocket_outline
from parts.frog.proof import least_draft, prove
from parts.frog.size import FrogSize
from parts.frog.solid import FrogSolids, solids
from parts.plane.bench.mechanism import FrogStock, mechanism
from parts.plane.spec import load_spec
from shared.cad.proof_mesh import proof_mesh
from shared.cad.slope import cylinder
from shared.cad.solids import common_volume, extrude, one_valid_solid
from shared.casting.walls import measure_walls
from shared.errors import GeometryError
from shared.profile import Profile
from shared.record import replace

pytestmark = pytest.mark.kernel
HERON = Path(__file__).parents[2] / "specs" / "heron.toml"


@lru_cache
def frog(width: float, bed: float, thickness: float, sole: float, draft: float = 1.5) -> FrogSize:
    spec = load_spec(HERON).spec
    changed = spec.model_copy(
        update={
            "bed": spec.bed.model_copy(update={"angle": bed}),
            "blade": spec.blade.model_copy(update={"width": width, "thickness": thickness}),
            "body": spec.body.model_copy(update={"sole_thickness": sole}),
        }
    )
    stock = FrogStock(1.7, 0.7, 1.5, draft, 3.0, 2.0, 12.0)
    return mechanism(changed, stock).frog


@lru_cache
def made(size: FrogSize) -> FrogSolids:
    return solids(size)


USUAL = (50.8, 45.0, 3.175, 6.35)
CASES = [USUAL, (44.0, 40.0, 4.8, 9.0, 2.5), (66.0, 58.0, 2.5, 5.5, 1.0)]


@pytest.mark.parametrize("case", CASES)
def test_covered_stocked_and_drafted(case: tuple[float, ...]) -> None:
    size = frog(*case)
    proof = prove(size, made(size))
    assert proof.uncovered_mm3 < 1e-6
    assert proof.least_draft_deg == pytest.approx(size.draft, abs=1e-6)
    assert proof.stock_missing_mm3 == pytest.approx(dict.fromkeys(proof.stock_missing_mm3, 0.0), abs=1e-6)
    assert made(size).finished.Volume() < made(size).casting.Volume()


@pytest.mark.parametrize("case", CASES)
def test_washer_head_and_driver_go_straight_down(case: tuple[float, ...]) -> None:
    size = frog(*case)
    seat = size.high_z + size.floor
    washer = size.access[1] - 0.6
    for y in (size.holddown_y, -size.holddown_y):
        for shift in (-size.travel, 0.0, size.travel):
            down = cylinder((size.holddown_at + shift, y, seat), (0.0, 0.0, 1.0), washer, 150.0)
            assert common_volume(made(size).finished, down) < 1e-6
        below = extrude(access_outline(size, y), "z", seat - 0.5, seat)
        length, width = size.holddown_slot
        slot = (length - width) * width + pi * width**2 / 4
        floor = common_volume(made(size).finished, below)
        assert floor == pytest.approx(below.Volume() - 0.5 * slot, rel=1e-6), "the washer has a floor to lie on"


@pytest.mark.parametrize("case", CASES)
def test_no_wall_is_thin(case: tuple[float, ...]) -> None:
    """Openings and pin holes keep clear of each other and of the cast faces behind them, measured on the mesh.

    Not looked at: ahead of the screws, where bed and opening meet in an edge as sharp as the bed is steep.
    """
    size = frog(*case)
    walls = measure_walls(proof_mesh(made(size).finished), 1.0)
    behind = walls.at[:, 0] > size.holddown_at
    assert walls.diameter[walls.is_wall & behind].min() >= 1.45


def test_section_on_the_parting_plane_is_the_outline() -> None:
    size = frog(*USUAL)
    thin = cq.Workplane("XZ").rect(400, 400).extrude(-0.01).val()
    assert isinstance(thin, cq.Solid)
    slice_ = made(size).casting.intersect(thin).Volume() / 0.01
    assert slice_ == pytest.approx(casting_outline(size).area, rel=2e-4)


def test_pocket_reaches_the_web_and_no_farther() -> None:
    size = frog(*USUAL)
    pocket = pocket_outline(size)
    assert pocket is not None
    x, z = pocket.centroid
    cast = made(size).casting
    for side in (1.0, -1.0):
        assert not cast.isInside(cq.Vector(x, side * (size.web_half + 0.1), z))
        assert cast.isInside(cq.Vector(x, side * (size.web_half - 0.1), z))


def test_holes_are_where_the_sizes_say() -> None:
    size, at = frog(*USUAL), slope(frog(*USUAL))
    solid = made(size).finished
    empty = [
        at.point(size.cap_screw_at, size.cap_screw_depth - 0.1),
        at.point(size.yoke_at, size.bed_plate / 2),
        at.point(size.yoke_at, size.yoke_pivot_h, size.half_width - 0.5),
        at.point(size.yoke_at, size.yoke_pivot_h, -size.yoke_pin_to + 0.2),
        at.point(size.rear_at - size.post_tap_depth + 0.2, size.post_h),
        at.point(size.lateral_at, size.bed_plate - 0.2),
        at.point(size.bed_top - 1.0, size.lateral_recess[2] - 0.1),
        (size.aft - 1.0, 0.0, size.high_z + size.key_depth - 0.1),
    ]
    metal = [
        at.point(size.cap_screw_at, size.cap_screw_depth + size.cap_screw_tap_drill),
        at.point(size.yoke_at, size.yoke_pivot_h, -size.yoke_pin_to - 0.3),
        at.point(size.rear_at - 2.0, size.post_h, size.post_tap_drill / 2 + 0.5),
        at.point(size.bed_top - 1.0, size.lateral_recess[2] + 0.2),
        (size.aft - 1.0, 0.0, size.high_z + size.key_depth + 0.2),
    ]
    assert [solid.isInside(cq.Vector(*p)) for p in empty] == [False] * len(empty)
    assert [solid.isInside(cq.Vector(*p)) for p in metal] == [True] * len(metal)


def test_proof_sees_what_is_wrong() -> None:
    size = frog(*USUAL)
    good = made(size)
    shifted = prove(size, FrogSolids(good.finished, good.finished.translate(cq.Vector(0.0, 1.0, 0.0))))
    assert shifted.uncovered_mm3 > 100
    assert min(shifted.stock_missing_mm3.values()) > 10
    block = extrude(Profile.rectangle(0, 0, 10, 10), "y", -5, 5)
    assert least_draft(block) == pytest.approx(0.0, abs=1e-9)
    waisted = one_valid_solid(block.cut(cylinder((5.0, -3.0, 10.0), (1.0, 0.0, 0.0), 2.0, 20.0)), "block", "notch")
    assert least_draft(waisted) < -30


def test_crown_is_half_width_times_tangent() -> None:
    # 23.9 mm at 1.5 deg: 23.9 x 0.026186 (table of tangents) = 0.6258 mm
    assert crown(replace(frog(*USUAL), half_width=23.9)) == pytest.approx(0.6258, abs=1e-4)


def test_no_room_for_radii_is_said() -> None:
    size = frog(*USUAL)
    with pytest.raises(GeometryError, match="no room for radii at the foot's step"):
        casting(replace(size, high_z=size.low_z + 2.0))
