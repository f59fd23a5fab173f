"""The models against independent geometry.

Sources: volume and centre of mass of a closed mesh by the divergence theorem, as trimesh computes it (an independent
library); areas by shapely (an independent library); the definitions of the spec's own sizes.
"""

from pathlib import Path

import numpy as np
import pytest
import shapely
import trimesh

from shared.cad.mesh import tessellate
from shared.cad.solids import mass_properties
from tests.cut_measures import extents
from tests.planes import made

pytestmark = pytest.mark.kernel
SPECS = Path(__file__).parents[2] / "specs"


@pytest.fixture(scope="module")
def models():
    return made("heron")


def mesh_of(solid):
    mesh = tessellate(solid, 0.02, 0.15)
    return trimesh.Trimesh(np.asarray(mesh.vertices), np.asarray(mesh.triangles), process=True)


@pytest.mark.parametrize("name", ["body", "body_casting", "frog", "blade", "chipbreaker", "tote", "knob"])
def test_volume_and_centre_agree_with_a_mesh(models, name):
    solid = getattr(models, name)
    mesh = mesh_of(solid)
    assert mesh.is_watertight
    volume, _, centre = mass_properties(solid, 1000.0)
    assert volume == pytest.approx(mesh.volume, rel=1e-3)
    assert np.allclose(centre, mesh.center_mass, atol=0.05)


def test_whole_plane_s_mass_and_balance_agree_with_meshes(models):
    mass, moment = 0.0, np.zeros(3)
    for p in models.pieces:
        mesh = mesh_of(p.solid)
        mass += mesh.volume * p.density * 1e-9
        moment += mesh.volume * p.density * 1e-9 * mesh.center_mass
    total, centre = models.mass_and_centre()
    assert total == pytest.approx(mass, rel=1e-3)
    assert np.allclose(centre, moment / mass, atol=0.1)


def test_sizes_are_the_spec_s(models):
    low, high = mesh_of(models.body).bounds
    spec = models.design.spec.body
    # the spec's lengths are the definition; the ends are flat, so a mesh meets them exactly
    assert high[0] - low[0] == pytest.approx(spec.length, abs=1e-4)
    assert high[1] - low[1] == pytest.approx(spec.width, abs=1e-4)
    assert low[2] == pytest.approx(0.0, abs=1e-6)
    assert high[2] == pytest.approx(spec.cheek_height, abs=0.05)


def test_sole_face_area_is_outline_less_mouth(models):
    d = models.design
    r, (half_l, half_w) = d.body.corner_radius, (d.body.length / 2, d.body.width / 2)
    outline = shapely.box(-half_l + r, -half_w + r, half_l - r, half_w - r).buffer(r, quad_segs=256)
    wall = d.body.wall_foot_x + d.body.mouth_opening
    mouth = 2 * d.body.mouth_half_width * wall
    sole = [f for f in models.body.Faces() if abs(f.Center().z) < 1e-6 and f.normalAt().z < -0.999]
    # the mouth's four corners are rounded by the cutter: each leaves (1 - pi/4) r², under 0.4 mm2 together
    assert sum(f.Area() for f in sole) == pytest.approx(outline.area - mouth, abs=0.6)


def test_edge_sits_at_the_origin(models):
    assert extents(models.blade)[2][0] == pytest.approx(0.0, abs=1e-6)
    edge = [v for v in models.blade.Vertices() if abs(v.Z) < 1e-6]
    assert len(edge) == 2
    assert all(abs(v.X) < 1e-6 for v in edge)
    width = models.design.spec.blade.width
    arris = models.design.mechanism.blade.arris
    assert abs(edge[0].Y - edge[1].Y) == pytest.approx(width - 2 * arris, abs=1e-6)
