"""Meshes and pictures: closed, converging, written the same twice; a line drawing where there are no graphics."""

from __future__ import annotations

import dataclasses
import io
import math
import zipfile
from pathlib import Path

import cadquery as cq
import numpy as np
import pytest
import trimesh
from matplotlib.image import imread

from shared.cad.lineart import dark_edges
from shared.cad.mesh import tessellate, write_3mf, write_stl
from shared.cad.mirrored import mirror_y
from shared.cad.render import NO_GRAPHICS, has_graphics, render
from shared.cad.scene import CAMERAS, aim, mesh_scene
from shared.cad.solids import extrude, revolve
from shared.cad.step import NamedSolid
from shared.profile import Profile

pytestmark = pytest.mark.kernel


@pytest.fixture(scope="module")
def ring() -> cq.Solid:
    return revolve(Profile.circle((20.0, 0.0), 6.0))


def test_mesh_is_closed_and_converges_to_the_torus(ring: cq.Solid) -> None:
    exact = 2 * math.pi * 20 * math.pi * 36
    errors = []
    for turn in (0.8, 0.4, 0.2):  # halved, with a quarter of the deflection: the error falls fourfold
        mesh = tessellate(ring.copy(), 0.625 * turn**2, turn)
        assert mesh.closed
        errors.append(abs(mesh.volume - exact) / exact)
    assert errors[0] > 2 * errors[1] > 4 * errors[2], errors
    assert errors[2] < 3e-3
    image = tessellate(mirror_y(extrude(Profile.rectangle(0, 1, 9, 5), "z", 0, 2)))
    assert image.closed and image.volume == pytest.approx(72.0)


def test_moved_mesh_and_shape_moved_first_agree(ring: cq.Solid) -> None:
    place = cq.Location((10, 20, 30), (1, 2, 3), 40)
    first, after = tessellate(ring.moved(place)), tessellate(ring).moved(place)
    assert first.vertices.mean(axis=0) == pytest.approx(after.vertices.mean(axis=0), abs=1e-9)
    assert first.volume == pytest.approx(after.volume)


def test_stl_and_3mf_are_read_by_another_library(tmp_path: Path, ring: cq.Solid) -> None:
    mesh = tessellate(ring)
    for name in ("a.stl", "b.stl"):
        write_stl(tmp_path / name, mesh, "ring")
    for name in ("a.3mf", "b.3mf"):
        write_3mf(tmp_path / name, mesh, "ring <1>")
    assert (tmp_path / "a.stl").read_bytes() == (tmp_path / "b.stl").read_bytes()
    assert (tmp_path / "a.3mf").read_bytes() == (tmp_path / "b.3mf").read_bytes()
    other = trimesh.load(tmp_path / "a.stl")
    assert other.is_watertight
    assert other.volume == pytest.approx(mesh.volume, rel=1e-5)
    with zipfile.ZipFile(io.BytesIO((tmp_path / "a.3mf").read_bytes())) as box:
        text = box.read("3D/3dmodel.model").decode()
    assert 'unit="millimeter"' in text and text.count("<triangle ") == len(mesh.triangles)


def test_dark_edges_of_a_cube_are_its_twelve_edges_and_a_ball_has_its_rim() -> None:
    cube = tessellate(cq.Solid.makeBox(1, 1, 1))
    assert len(dark_edges(cube, np.array([3.0, 2.0, 4.0]), True)) == 12
    ball = tessellate(cq.Solid.makeSphere(10, cq.Vector(0, 0, 0), cq.Vector(0, 0, 1), -90, 90, 360))
    rim = ball.vertices[dark_edges(ball, np.array([0.0, 0.0, 1.0]), True)]
    assert len(rim) and np.abs(np.hypot(rim[..., 0], rim[..., 1]) - 10).max() < 1.0


@pytest.mark.parametrize("name", CAMERAS)
def test_camera_just_holds_the_scene(name: str, ring: cq.Solid) -> None:
    scene = mesh_scene([NamedSolid("ring", ring, placements=(cq.Location((100, 0, 0)), cq.Location((0, 0, 30))))])
    view = aim(scene, CAMERAS[name], 1.6)
    points = np.concatenate([s.mesh.vertices for s in scene])
    back = (view.position - view.focus) / np.linalg.norm(view.position - view.focus)
    depth = 1.0 if CAMERAS[name].angle == 0 else (view.distance - (points - view.focus) @ back) / view.distance
    high = np.abs((points - view.focus) @ view.up / depth).max() / view.half_height
    wide = np.abs((points - view.focus) @ np.cross(view.up, back) / depth).max() / view.half_height / 1.6
    assert max(high, wide) == pytest.approx(0.88, abs=0.01)


def picture(path: Path, ring: cq.Solid) -> str | None:
    return render(path, [NamedSolid("ring", ring, (0.7, 0.5, 0.3))], size=(320, 200))


def test_shaded_picture_is_the_same_twice_and_not_blank(tmp_path: Path, ring: cq.Solid) -> None:
    if not has_graphics():
        pytest.skip("no libEGL here")
    assert picture(tmp_path / "a.png", ring) is None
    assert picture(tmp_path / "b.png", ring) is None
    assert (tmp_path / "a.png").read_bytes() == (tmp_path / "b.png").read_bytes()
    seen = imread(tmp_path / "a.png")
    assert seen.shape == (200, 320, 3)
    brown = (seen[..., 0] > seen[..., 2] + 0.1).mean()
    assert 0.1 < brown < 0.8
    assert seen[0, 0].min() > 0.95


def test_line_drawing_stands_in_without_graphics(
    tmp_path: Path, ring: cq.Solid, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PLANEWRIGHT_NO_GL", "1")
    assert picture(tmp_path / "a.png", ring) == NO_GRAPHICS
    assert picture(tmp_path / "b.png", ring) == NO_GRAPHICS
    assert (tmp_path / "a.png").read_bytes() == (tmp_path / "b.png").read_bytes()
    seen = imread(tmp_path / "a.png")
    assert seen.shape[:2] == (200, 320)
    assert 0.005 < (seen[..., 0] < 0.6).mean() < 0.1


def test_a_rounding_whose_slim_triangles_stand_askew_gets_no_lines() -> None:
    ball = tessellate(cq.Workplane().sphere(10.0).val(), 0.2, 0.3)
    nowhere = np.zeros(3)  # seen from nowhere nothing has a rim, only creases are left
    assert len(dark_edges(ball, nowhere, True)) == 0
    # corners of the ball's one face moved off it, as a mesher may leave them
    away = np.random.default_rng(1).uniform(-1.5, 1.5, ball.vertices.shape)
    rough = dataclasses.replace(ball, vertices=ball.vertices + away)
    assert len(dark_edges(dataclasses.replace(rough, faces=None), nowhere, True)) > 100
    assert len(dark_edges(rough, nowhere, True)) == 0


def test_each_triangle_knows_its_face() -> None:
    shape = cq.Workplane().box(10, 20, 30).val()
    mesh = tessellate(shape)
    assert mesh.faces is not None and len(mesh.faces) == len(mesh.triangles)
    for number, face in enumerate(shape.Faces()):
        middles = mesh.vertices[mesh.triangles[mesh.faces == number]].mean(axis=1)
        assert len(middles)
        for x, y, z in middles:
            assert face.distance(cq.Vertex.makeVertex(x, y, z)) < 1e-9
