"""Other programs' readers open the files of a build and find in them what the build says.

Sources: gmsh (its own build of an open CAD kernel) for STEP; GDAL's DXF driver through pyogrio for drawings. Both are
independent of the libraries that wrote the files.
"""

import json

import ezdxf
import numpy as np
import pyogrio
import pytest
import shapely

from shared.casting.alloy import alloy
from shared.tables import table

pytestmark = pytest.mark.kernel


@pytest.fixture(scope="module")
def volumes():
    """Read a STEP file, return the volume of each solid [mm3] and the box around all [mm]."""
    try:
        import gmsh
    except (ImportError, OSError) as err:  # it needs system libraries of a screen, which not every machine has
        pytest.skip(f"gmsh cannot be loaded here: {err}")
    gmsh.initialize()
    gmsh.option.setNumber("General.Terminal", 0)
    gmsh.option.setString("Geometry.OCCTargetUnit", "MM")

    def read(path):
        gmsh.clear()
        solids = gmsh.model.occ.importShapes(str(path), highestDimOnly=True)
        gmsh.model.occ.synchronize()
        assert {dim for dim, _ in solids} == {3}
        return [gmsh.model.occ.getMass(*s) for s in solids]

    yield read
    gmsh.finalize()


@pytest.mark.parametrize(
    ("file", "part", "key"),
    [("body", "body", "mass_kg"), ("body-casting", "body", "casting_mass_kg"), ("frog", "frog", "mass_kg"),
     ("frog-casting", "frog", "casting_mass_kg"), ("blade", "blade", "mass_kg"),
     ("chipbreaker", "chipbreaker", "mass_kg")],
)  # fmt: skip
def test_gmsh_finds_the_volume_that_the_mass_rests_on(built, volumes, file, part, key):
    folder, _ = built
    numbers = json.loads((folder / "numbers.json").read_text())
    iron = alloy("ductile-iron-65-45-12").density_kg_m3
    steel = table("steel")["physical"]["A2"]["density_kg_m3"]
    density = steel if part in ("blade", "chipbreaker") else iron
    (volume,) = volumes(folder / "step" / f"{file}.step")
    assert volume == pytest.approx(numbers[part][key] / density * 1e9, rel=1e-5)


def test_gmsh_finds_the_contraction_in_the_pattern(built, volumes):
    folder, _ = built
    ratio = json.loads((folder / "numbers.json").read_text())["body"]["pattern_volume_ratio"]
    (casting,) = volumes(folder / "step" / "body-casting.step")
    (pattern,) = volumes(folder / "step" / "body-pattern.step")
    assert pattern / casting == pytest.approx(ratio, rel=1e-5)


def test_gmsh_finds_every_solid_of_the_assembly(built, volumes):
    folder, _ = built
    found = volumes(folder / "step" / "plane.step")
    parts = ("body", "frog", "blade", "chipbreaker", "tote", "knob")
    single = sum(sum(volumes(folder / "step" / f"{n}.step")) for n in parts)
    assert len(found) > 20
    assert sum(found) > single


def test_gdal_reads_every_drawing(built):
    folder, _ = built
    drawings = sorted((folder / "dxf").glob("*.dxf"))
    assert len(drawings) > 15
    for path in drawings:
        _, _, geometry, _ = pyogrio.raw.read(path)
        space = ezdxf.readfile(path).modelspace()
        known = [e for e in space if e.dxftype() in ("LINE", "CIRCLE", "ARC", "ELLIPSE", "SPLINE", "TEXT")]
        assert len(geometry) >= len(known), path.name
        assert all(g is not None for g in geometry), path.name


def test_a_profile_has_the_spec_s_length_for_gdal(built):
    folder, _ = built
    bounds = pyogrio.read_info(folder / "dxf" / "body-plan.dxf", force_total_bounds=True)["total_bounds"]
    _, _, geometry, (layer,) = pyogrio.raw.read(folder / "dxf" / "body-plan.dxf", columns=["Layer"])
    lines = [shapely.from_wkb(g) for g, name in zip(geometry, layer, strict=True) if name == "OUTLINE"]
    low_x, _, high_x, _ = shapely.total_bounds(np.array(lines))
    assert high_x - low_x == pytest.approx(14 * 25.4, abs=1e-3)
    assert np.isfinite(bounds).all()
