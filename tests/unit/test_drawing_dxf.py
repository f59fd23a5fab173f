"""DXF files: true entities, layers, clean audit, the same bytes from different processes."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import ezdxf
import pytest

from shared.drawing.dxf import write_outline
from shared.drawing.primitives import Hatch, Line, Note, Projection
from shared.drawing.sheet import DIMSTYLE, LAYERS, Sheet, audit
from shared.errors import GeometryError
from shared.profile import Profile

SCRIPT = """
import sys
from pathlib import Path
from shared.drawing.dxf import write_outline
from shared.drawing.primitives import Curve, Ellipse, Hatch, Line
from shared.profile import Profile
plate, hole = Profile.rectangle(0, 0, 60, 20, 4.0), Profile.circle((15, 10), 3)
more = {"CENTRE": [Line((-3, 10), (63, 10))], "HATCH": [Hatch(plate, (hole,))]}
curve = Curve(((20, 5), (30, 12), (40, 5), (50, 9)))
write_outline(Path(sys.argv[1]), [plate, hole, Ellipse((40, 10), (6, 2), 0.5, 10, 200), curve],
              ["Test plate", "Rev A"], more=more)
"""


@pytest.fixture
def plate(tmp_path: Path) -> Path:
    path = tmp_path / "plate.dxf"
    subprocess.run([sys.executable, "-c", SCRIPT, str(path)], check=True, cwd=Path(__file__).parents[2])
    return path


def test_same_bytes_in_another_process_and_clean_on_re_read(plate: Path, tmp_path: Path) -> None:
    other = tmp_path / "plate2.dxf"
    subprocess.run([sys.executable, "-c", SCRIPT, str(other)], check=True, cwd=Path(__file__).parents[2],
                   env={"PYTHONHASHSEED": "7", "PATH": ""})  # fmt: skip
    assert other.read_bytes() == plate.read_bytes()
    audit(plate)
    doc = ezdxf.readfile(plate)
    assert doc.units == ezdxf.units.MM
    space = doc.modelspace()
    outline = [e.dxftype() for e in space.query('*[layer=="OUTLINE"]')]
    assert sorted(outline) == ["ARC"] * 4 + ["CIRCLE", "ELLIPSE"] + ["LINE"] * 4 + ["SPLINE"]
    circle = space.query("CIRCLE").first
    assert circle is not None and (circle.dxf.center.x, circle.dxf.center.y, circle.dxf.radius) == (15, 10, 3)
    hatch = space.query("HATCH").first
    assert hatch is not None and len(hatch.paths) == 2
    assert {t.dxf.text for t in space.query("TEXT")} >= {"Test plate", "Rev A", "100 mm", "4 in"}


def test_scale_bars_are_true(plate: Path) -> None:
    lines = ezdxf.readfile(plate).modelspace().query('LINE[layer=="SCALE"]')
    lengths = sorted({round(s.dxf.start.distance(s.dxf.end), 6) for s in lines})
    assert lengths[-2:] == [100.0, 101.6]


def test_clockwise_loops_of_a_hatch_keep_their_arcs(tmp_path: Path) -> None:
    sheet = Sheet()
    sheet.draw([Hatch(Profile.rectangle(0, 0, 20, 10, 2.0))], "HATCH", at=(5.0, 5.0), scale=2.0)
    sheet.save(tmp_path / "h.dxf", verify=True)
    hatch = ezdxf.readfile(tmp_path / "h.dxf").modelspace().query("HATCH").first
    assert hatch is not None
    arcs = [e for e in hatch.paths[0].edges if type(e).__name__ == "ArcEdge"]
    assert [a.radius for a in arcs] == [4.0] * 4
    corners = {(round(e.start.x), round(e.start.y)) for e in hatch.paths[0].edges if type(e).__name__ == "LineEdge"}
    assert corners == {(9, 5), (45, 9), (41, 25), (5, 21)}


def test_a_dimension_can_be_added_and_audits_clean(tmp_path: Path) -> None:
    sheet = Sheet()
    sheet.place(Projection((Line((0, 0), (40, 0)),), (Line((0, 5), (40, 5)),)), at=(10, 10), scale=0.5)
    dim = sheet.space.add_linear_dim((20, 2), (10, 10), (30, 10), dimstyle=DIMSTYLE, dxfattribs={"layer": "DIM"})
    dim.render()
    sheet.draw([Note("note", (0, 0), align="centre")], "TEXT")
    sheet.save(tmp_path / "d.dxf", verify=True)
    doc = ezdxf.readfile(tmp_path / "d.dxf")
    found = doc.modelspace().query("DIMENSION").first
    assert found is not None and found.get_measurement() == pytest.approx(20.0)
    assert {layer.dxf.name for layer in doc.layers} >= set(LAYERS)
    seen = doc.modelspace().query('LINE[layer=="OUTLINE"]').first
    assert seen is not None and (seen.dxf.start.x, seen.dxf.end.x) == (10, 30)


def test_audit_notices_a_missing_entity(tmp_path: Path) -> None:
    path = tmp_path / "x.dxf"
    write_outline(path, [Profile.circle((0, 0), 4)], ["x"])
    with pytest.raises(GeometryError, match="another number of entities"):
        audit(path, 3)
