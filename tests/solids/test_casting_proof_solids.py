"""The proof of castings on real models: against the kernel's own measures, and as the papers of a build."""

import json
from pathlib import Path

import cadquery as cq
import numpy as np
import pytest

from parts.lever_cap.proof import stock_points
from parts.plane.casting_findings import casting_findings
from parts.plane.casting_proof import casting_proof, casting_proofs, hot_spot_modulus
from parts.plane.casting_proof_papers import casting_proof_papers
from parts.plane.run import Run
from shared.cad.cast_proof import least_draft, least_stock
from shared.cad.proof_mesh import proof_mesh
from shared.casting.raycast import areas, enclosed
from shared.casting.sections import measure_sections
from tests.planes import made

pytestmark = pytest.mark.kernel
SPECS = Path(__file__).parents[2] / "specs"


@pytest.fixture(scope="module")
def heron():
    return made("heron")


def rounded_block() -> cq.Solid:
    made = cq.Workplane("XY").box(60, 30, 14).edges("|Z").fillet(6).edges(">Z").fillet(3)
    return made.faces(">Z").workplane().hole(9).val()


def test_mesh_and_sections_against_the_kernel():
    solid = rounded_block()
    mesh = proof_mesh(solid)
    assert enclosed(mesh) == pytest.approx(solid.Volume(), rel=2e-3)
    assert areas(mesh).sum() == pytest.approx(solid.Area(), rel=5e-3)
    assert np.allclose(np.linalg.norm(mesh.outward, axis=1), 1.0)
    at = np.array([-26.0, -3.0, 11.0])
    s = measure_sections(mesh, 0, 2, at)
    thin = 1e-3
    for i, x in enumerate(at):
        slab = solid.intersect(cq.Solid.makeBox(thin, 90, 90, cq.Vector(x - thin / 2, -45, -45)))
        # second moment about y through the slab's own centre, from the kernel's inertia of a slab as thin as a leaf
        inertia = cq.Shape.matrixOfInertia(slab)
        assert s.area[i] == pytest.approx(slab.Volume() / thin, rel=5e-3)
        assert s.centre[i] == pytest.approx(slab.Center().z, abs=0.02)
        assert s.second_moment[i] == pytest.approx(inertia[1][1] / thin, rel=1e-2)


def test_castings_of_a_plane_hold(heron):
    proofs = casting_proofs(heron)
    assert [p.case.name for p in proofs] == ["body", "frog", "lever cap", "cam lever"]
    for p in proofs:
        solid = enclosed(p.case.casting)
        assert p.draws and p.covered and not p.lacking, p.case.name
        assert len(p.stock) == len(p.case.machined), p.case.name
        assert p.cells.volume == pytest.approx(solid, rel=0.01)
        assert p.walls.least[0] >= p.case.alloy.minimum_wall_mm
        assert p.spots[0].is_last and not any(s.is_last for s in p.spots[1:])
    body, frog, _, lever = proofs
    assert body.near(body.spots[0].at) == "at the frog's high pad"
    assert lever.near(lever.spots[0].at) == "at the hub"
    assert frog.hot_modulus_mm == hot_spot_modulus(heron, "frog") > lever.hot_modulus_mm
    findings = casting_findings(proofs)
    assert not [f for f in findings if f.verdict == "failed"]
    # each rule says which casting it is about
    assert len({f.rule for f in findings}) == len(findings)
    assert all(any(p.case.name in f.rule for p in proofs) for f in findings)
    assert casting_proof(heron, "body") is body


def test_draft_and_stock_agree_with_the_kernel(heron):
    p = casting_proof(heron, "lever cap")
    size = heron.design.mechanism.lever_cap
    from parts.plane.moulding import cast_solid

    casting = cast_solid(heron, "lever cap").casting
    assert p.draw.least_deg == pytest.approx(least_draft(casting, "z", size.underside_q), abs=0.02)
    for name, (at, out) in stock_points(size).items():
        face = next(s for s in p.stock if s.name == name.partition(",")[0])
        measured = least_stock(casting, at, out)
        assert face.least - 0.05 <= measured <= face.most + 0.05, name


def test_papers(heron, tmp_path, monkeypatch):
    small = [casting_proof(heron, name) for name in ("frog", "cam lever")]
    monkeypatch.setattr("parts.plane.casting_proof_papers.casting_proofs", lambda models: small)
    run = Run(heron.design, heron, tmp_path, "", None, [], {})
    casting_proof_papers(run)
    folder = tmp_path / "castings"
    text = (folder / "proof.txt").read_text(encoding="utf-8")
    assert all(word in text for word in ("FROG", "CAM LEVER", "least draft", "hot spot 1", "Not computed"))
    data = json.loads((folder / "proof.json").read_text(encoding="utf-8"))
    assert data["frog"]["hot_spots"][0]["modulus_mm"] == pytest.approx(hot_spot_modulus(heron, "frog"), abs=1e-3)
    assert data["frog"]["sections"]["casting"]["sag_um_per_100n"] is None
    pictures = {name: (folder / name).read_bytes() for name in ("frog.png", "cam-lever.png")}
    assert all(len(b) > 20_000 for b in pictures.values())
    from parts.plane.casting_pictures import draw_proof

    draw_proof(small[0], "Heron, revision A", tmp_path / "again.png")
    assert (tmp_path / "again.png").read_bytes() == pictures["frog.png"]
