"""Rays, cells, walls, sections, draw and stock on meshes whose answers are known by hand."""

import math

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from shared.casting.draw_check import check_draw
from shared.casting.raycast import areas, cast, enclosed
from shared.casting.sections import measure_sections, stations
from shared.casting.stock import Machined, measure_stock, outside
from shared.casting.voxels import spacing_for, voxelise
from shared.casting.walls import measure_walls
from tests.meshes import Mesh, blocks, box, frustum, hull, of

LENGTH = st.floats(3.0, 40.0)


def turned(mesh: Mesh, deg: float) -> Mesh:
    c, s = math.cos(math.radians(deg)), math.sin(math.radians(deg))
    return Mesh(mesh.vertices @ np.array([[c, s, 0], [-s, c, 0], [0, 0, 1.0]]), mesh.triangles)


@settings(max_examples=25, deadline=None)
@given(LENGTH, LENGTH, LENGTH, st.floats(0.0, 90.0), st.sampled_from([0, 1, 2]))
def test_every_ray_that_enters_leaves(a, b, c, deg, axis):
    mesh = turned(box((0, 0, 0), (a, b, c)), deg)
    grid = np.arange(-60.0, 60.0, 1.3)
    hits = cast(mesh, axis, grid, grid)
    assert hits.entering[::2].all() and not hits.entering[1::2].any()
    assert (hits.row[::2] == hits.row[1::2]).all() and (hits.column[::2] == hits.column[1::2]).all()
    assert (hits.depth[1::2] >= hits.depth[::2]).all()


def test_rays_through_corners_and_edges_are_met_once():
    # every ray of this grid runs through an edge or a corner of the cubes
    mesh = blocks(np.ones((4, 4, 4)), 1.0)
    hits = cast(mesh, 2, np.arange(0.0, 4.0), np.arange(0.0, 4.0))
    assert len(hits.depth) == 2 * 16
    assert np.allclose(hits.depth[1::2] - hits.depth[::2], 4.0)


@settings(max_examples=20, deadline=None)
@given(LENGTH, LENGTH, LENGTH, st.floats(0.0, 45.0))
def test_cells_keep_the_volume(a, b, c, deg):
    mesh = turned(box((0, 0, 0), (a, b, c)), deg)
    cells = voxelise(mesh, 2.0, 4.0)
    # rays stand 0.5 mm apart: a side that runs along them may be off by half of that
    assert abs(cells.volume - a * b * c) < max(0.01 * a * b * c, 0.25 * areas(mesh).sum())
    assert cells.fill.min() >= 0.0 and cells.fill.max() <= 1.0


def test_a_ball_fills_its_cells_and_is_its_own_mirror():
    ball = of(trimesh.creation.icosphere(subdivisions=4, radius=10.0))
    cells = voxelise(ball, 1.5, 5.0)
    assert cells.volume == pytest.approx(enclosed(ball), rel=0.01)
    assert cells.mirrored_axis() == 1
    assert cells.distance_outside().max() > 5.0


def test_a_lopsided_casting_has_no_mirror():
    full = np.zeros((6, 6, 6))
    full[0:3, 0:2, 0:4] = full[0:5, 0:4, 0:1] = 1
    assert voxelise(blocks(full, 3.0), 1.5).mirrored_axis() is None


def test_spacing_meets_its_bounds():
    assert spacing_for(1e5, 1e4, 20.0, 1000, 1.0, 3.0) == 3.0
    assert spacing_for(1e2, 1e2, 1.0, 100000, 1.0, 3.0) == 1.0
    assert spacing_for(1e5, 1e4, 20.0, 100_000, 0.5, 3.0) == pytest.approx(3.0 ** (1 / 3))
    with pytest.raises(ValueError, match="spacing"):
        voxelise(box((0, 0, 0), (1, 1, 1)), 0.0)


@settings(max_examples=8, deadline=None)
@given(st.floats(2.0, 9.0), st.floats(0.0, 90.0), st.floats(0.9, 1.8))
def test_a_plate_has_its_thickness_whatever_the_points(t, deg, spacing):
    walls = measure_walls(turned(box((0, 0, 0), (40, 30, t)), deg), spacing)
    assert walls.least[0] == pytest.approx(t, abs=1e-6)
    assert walls.heaviest[0] == pytest.approx(t, abs=1e-6)
    assert np.allclose(walls.thickness, t)


def test_walls_of_a_step_and_of_a_wedge():
    full = np.zeros((20, 10, 6))
    full[:, :, 0:2] = full[0:10, :, :] = 1
    walls = measure_walls(blocks(full, 2.0), 0.7)  # plate 4 mm, step 12 mm high and 20 mm long
    assert walls.least[0] == pytest.approx(4.0, abs=1e-6)
    assert walls.most[0] == pytest.approx(12.0, abs=0.2)
    assert walls.least[1][0] > 18.0 and walls.least[1][2] == pytest.approx(2.0)
    # 60 deg apart is no wall: its ends run out to nothing, and nothing thin is reported there
    blunt = measure_walls(hull([(0, 0, 0), (20, 0, 0), (10, 0, 17.32), (0, 30, 0), (20, 30, 0), (10, 30, 17.32)]), 0.7)
    assert not blunt.is_wall.any() or blunt.least[0] > 5.0


def test_wall_of_a_pipe():
    pipe = of(trimesh.creation.annulus(r_min=8.0, r_max=12.0, height=30.0, sections=256))
    walls = measure_walls(pipe, 0.8)
    assert walls.least[0] == pytest.approx(4.0, abs=0.02)
    assert walls.most[0] == pytest.approx(4.0, abs=0.05)


def test_section_of_a_block_is_exact():
    mesh = box((0, -6, 2), (100, 6, 10))
    s = measure_sections(mesh, 0, 2, stations(mesh, 0, 5.0))
    assert np.allclose(s.area, 96.0)
    assert np.allclose(s.centre, 6.0)
    assert np.allclose(s.second_moment, 12 * 8**3 / 12)
    assert np.allclose(s.modulus, 12 * 8**2 / 6)
    aside = measure_sections(mesh, 0, 1, np.array([50.0]))
    assert aside.second_moment[0] == pytest.approx(8 * 12**3 / 12)
    with pytest.raises(ValueError, match="square"):
        measure_sections(mesh, 0, 0, np.array([1.0]))


def test_section_of_a_channel_by_hand():
    # 40 wide, 20 high, walls and web 4: A = 40·4 + 2·16·4, centre and I by parallel axes
    full = np.zeros((3, 10, 5))
    full[:, :, 0] = full[:, 0, :] = full[:, 9, :] = 1
    s = measure_sections(blocks(full, 4.0), 0, 2, np.array([6.0]))
    area = 40 * 4 + 2 * 16 * 4
    centre = (40 * 4 * 2 + 2 * 16 * 4 * 12) / area
    inertia = 40 * 4**3 / 12 + 160 * (centre - 2) ** 2 + 2 * (4 * 16**3 / 12 + 64 * (12 - centre) ** 2)
    assert s.area[0] == pytest.approx(area)
    assert s.centre[0] == pytest.approx(centre)
    assert s.second_moment[0] == pytest.approx(inertia)
    assert s.modulus[0] == pytest.approx(inertia / (20 - centre))


def test_sag_of_a_beam_and_its_weakest_place():
    mesh = box((0, -5, 0), (200, 5, 10))
    s = measure_sections(mesh, 0, 2, stations(mesh, 0, 1.0))
    load, e, i = 100.0, 100.0, 10 * 10**3 / 12
    assert s.sag(e, load) == pytest.approx(5 * load * 200**3 / (384 * e * 1e3 * i), rel=0.01)  # 5·q·L⁴/(384·E·I)
    assert s.at[s.weakest()] == pytest.approx(100.0, abs=1.0)
    full = np.ones((20, 2, 4))
    full[15:17, :, 2:] = 0  # half as high, away from the middle
    weak = measure_sections(blocks(full, 10.0), 0, 2, np.arange(5.0, 200.0, 10.0))
    assert 150.0 < weak.at[weak.weakest()] < 170.0


@pytest.mark.parametrize("deg", [0.0, 1.5, 3.0, 10.0])
def test_draft_is_measured(deg):
    mesh = frustum(20.0, 15.0, deg)
    found = check_draw(mesh, mesh.points, mesh.outward, 2, 0.0, 1.0)
    assert found.least_deg == pytest.approx(deg, abs=1e-6)
    assert found.trapped_mm3 == 0.0 and found.trapped_at is None


def test_parting_on_the_wrong_side_is_an_undercut():
    mesh = frustum(20.0, 15.0, 2.0)
    assert check_draw(mesh, mesh.points, mesh.outward, 2, 15.0, 1.0).least_deg == pytest.approx(2.0, abs=1e-6)
    upside = Mesh(mesh.vertices * np.array([1, -1, -1]), mesh.triangles)
    found = check_draw(upside, upside.points, upside.outward, 2, -15.0, 1.0)
    assert found.least_deg == pytest.approx(-2.0)


def test_sand_under_metal_is_found():
    full = np.ones((8, 8, 6))
    full[2:8, :, 2:4] = 0  # a slot open to one side
    found = check_draw(m := blocks(full, 2.0), m.points, m.outward, 2, 0.0, 0.5)
    assert found.trapped_mm3 == pytest.approx(12 * 16 * 4, rel=0.02)
    assert found.trapped_at is not None and 4.0 < found.trapped_at[2] < 8.0 and found.trapped_at[0] > 4.0


def test_stock_is_measured_square_to_the_face():
    casting, finished = box((-2, -3, -1), (42, 23, 12)), box((0, 0, 0), (40, 20, 10))
    for normal, at, want in (((1, 0, 0), (40, 0, 0), 2), ((0, -1, 0), (0, 0, 0), 3), ((0, 0, 1), (0, 0, 10), 2)):
        found = measure_stock(finished, casting, Machined("face", at, normal, 1.0))
        assert found is not None and found.rays > 50
        assert (found.least, found.most) == pytest.approx((want, want))
    tilted = [turned(m, 33.0) for m in (finished, casting)]
    c, s = math.cos(math.radians(33)), math.sin(math.radians(33))
    slanted = measure_stock(*tilted, Machined("face", (40 * c, 40 * s, 0.0), (c, s, 0.0), 1.0))
    assert slanted is not None and (slanted.least, slanted.most) == pytest.approx((2.0, 2.0))
    assert measure_stock(finished, casting, Machined("none", (0, 0, 5), (0, 0, 1), 1.0)) is None


def test_a_bare_corner_and_its_rim():
    # the casting ends 1 mm inside the face's edge: no metal there, full stock elsewhere
    finished, casting = box((0, 0, 0), (40, 20, 10)), box((1, -1, -1), (41, 21, 13))
    face = ("top", (0.0, 0.0, 10.0), (0.0, 0.0, 1.0), 1.0)
    bare = measure_stock(finished, casting, Machined(*face))
    rim = measure_stock(finished, casting, Machined(*face, rim=2.0))
    part = measure_stock(finished, casting, Machined(*face, clear=lambda p: p[..., 0] > 20.0))
    assert bare is not None and rim is not None and part is not None
    assert (bare.least, bare.most) == pytest.approx((0.0, 3.0))
    assert rim.least == pytest.approx(3.0) and part.least == pytest.approx(3.0)
    assert part.rays < bare.rays
    assert outside(finished, casting, 0.25) == pytest.approx(1 * 20 * 10, rel=0.02)
    assert outside(box((2, 0, 0), (40, 20, 10)), casting, 0.25) == 0.0
