"""Patterns for a printer: closed meshes as large as the solids, bowed where the shop asks; the cap's STEP files."""

from __future__ import annotations

import zipfile
from functools import lru_cache
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
import trimesh

from parts.plane.design import design
from parts.plane.models import models_of
from parts.plane.moulding import cast_solid
from parts.plane.pattern_list import pattern_list
from parts.plane.pattern_papers import cap_steps, pattern_mesh, pattern_meshes
from parts.plane.run import Run
from parts.plane.shop import ShopSpec, load_shop
from parts.plane.spec import load_spec
from shared.cad.mesh import Mesh
from shared.cad.mesh_shape import divided, raised
from shared.cad.step import read_step

pytestmark = pytest.mark.kernel
SPECS = Path(__file__).parents[2] / "specs"


@lru_cache
def run(work: Path, per_metre: float = 0.0) -> Run:
    shop: ShopSpec = load_shop(SPECS / "shop.toml")
    shop = shop.model_copy(update={"pattern": shop.pattern.model_copy(update={"distortion_per_metre": per_metre})})
    d = design(load_spec(SPECS / "heron.toml"), shop)
    return Run(d, models_of(d), work, "2000-01-01T00:00:00", None, [], {})


@pytest.fixture(scope="module")
def work(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("patterns")


def read_3mf(path: Path) -> trimesh.Trimesh:
    core = "{http://schemas.microsoft.com/3dmanufacturing/core/2015/02}"
    with zipfile.ZipFile(path) as box:
        model = ElementTree.fromstring(box.read("3D/3dmodel.model"))
    assert model.get("unit") == "millimeter"
    points = [[float(v.get(k, "")) for k in "xyz"] for v in model.iter(f"{core}vertex")]
    cells = [[int(t.get(k, "")) for k in ("v1", "v2", "v3")] for t in model.iter(f"{core}triangle")]
    return trimesh.Trimesh(points, cells)


@pytest.mark.parametrize("name", ["body", "frog", "lever cap", "cam lever"])
def test_meshes_are_closed_and_as_large_as_the_pattern(work: Path, name: str) -> None:
    made = run(work)
    pattern_meshes(made, name)
    volume = cast_solid(made.models, name).pattern.Volume()
    assert made.design.master is not None
    for stage, factor in (("pattern", 1.0), ("master", made.design.master.volume_factor)):
        stem = work / "patterns" / f"{name.replace(' ', '-')}-{stage}"
        for mesh in (trimesh.load(stem.with_suffix(".stl"), force="mesh"), read_3mf(stem.with_suffix(".3mf"))):
            assert mesh.is_watertight and mesh.is_winding_consistent
            assert mesh.volume == pytest.approx(volume * factor, rel=1e-3)


def test_a_bowed_pattern_follows_the_list_and_keeps_its_volume(work: Path) -> None:
    straight = pattern_mesh(run(work), "body")["pattern"]
    bent = run(work, 2.0)
    bow = next(p.bow for p in pattern_list(bent.design) if p.part == "body")
    assert bow is not None
    # 2 mm on a metre is 2 × 0.36523² mm on this pattern, lowest at its middle
    assert bow.depth_mm == pytest.approx(2.0 * 0.36523**2, rel=1e-4)
    # the solid is the same one, so only the mesh is bowed here
    bent.models.take("cast solid body", cast_solid(run(work).models, "body"))
    mesh = pattern_mesh(bent, "body")["pattern"]
    assert mesh.closed
    # chords of the cheeks' arcs are bowed at their ends only
    assert mesh.volume == pytest.approx(straight.volume, rel=1e-4)
    x, z = mesh.vertices[:, 0], mesh.vertices[:, 2]
    sole = straight.vertices[:, 2].min()
    under = z < sole + 1e-6  # only the bowed sole can lie lower than the straight one
    assert z.min() == pytest.approx(sole - bow.depth_mm, abs=0.002)
    middle = bow.start_mm + bow.length_mm / 2
    lowest = x[under][np.argmin(z[under])]
    assert abs(lowest - middle) < 15.0
    for at, up in bow.ordinates():
        near = under & (np.abs(x - bow.start_mm - at) < 0.5)
        assert np.all(z[near] - sole >= up - 0.01)


def test_divided_mesh_stays_closed_on_its_surface() -> None:
    box = trimesh.creation.box((300.0, 40.0, 10.0))
    mesh = Mesh(np.array(box.vertices), np.array(box.faces, dtype=np.int64))
    fine = divided(mesh, 25.0)
    edges = np.concatenate([fine.triangles[:, [i, (i + 1) % 3]] for i in range(3)])
    spans = np.abs(fine.vertices[edges[:, 0], 0] - fine.vertices[edges[:, 1], 0])
    assert spans.max() <= 25.0
    assert fine.closed
    assert fine.volume == pytest.approx(300.0 * 40.0 * 10.0)
    assert raised(mesh, lambda x: -((x / 150.0) ** 2), 25.0).volume == pytest.approx(300.0 * 40.0 * 10.0, rel=1e-9)


def test_step_of_the_cap_s_castings_and_patterns(work: Path) -> None:
    made = run(work)
    cap_steps(made)
    for name in ("lever cap", "cam lever"):
        part, stem = cast_solid(made.models, name), name.replace(" ", "-")
        for stage, solid in (("casting", part.casting), ("pattern", part.pattern)):
            shape, names = read_step(work / "step" / f"{stem}-{stage}.step")
            assert f"{name} {stage}" in names
            assert shape.Volume() == pytest.approx(solid.Volume(), rel=2e-6)
        assert part.pattern.Volume() / part.casting.Volume() == pytest.approx(part.factors[0] ** 3, rel=1e-9)
