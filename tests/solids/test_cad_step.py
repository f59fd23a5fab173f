"""STEP files: names, colours, places; the same bytes twice in a process and from another one; re-read and compared."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import cadquery as cq
import pytest

from shared.cad.solids import extrude
from shared.cad.step import NamedSolid, check_step, read_step, write_step
from shared.errors import GeometryError
from shared.profile import Profile

pytestmark = pytest.mark.kernel

ROOT = Path(__file__).parents[2]
SCRIPT = """
import sys
from pathlib import Path
sys.path.insert(0, "tests/solids")
from test_cad_step import model
from shared.cad.step import write_step
write_step(Path(sys.argv[1]), model(), product="Larch plane")
"""


def model() -> list[NamedSolid]:
    plate = extrude(Profile.rectangle(0, 0, 80, 40, 5.0), "z", 0, 6, holes=[Profile.circle((20, 20), 4)])
    pin = extrude(Profile.circle((0, 0), 4), "z", 0, 30)
    top = max(plate.Faces(), key=lambda f: f.Center().z)
    spare = pin.moved(cq.Location((0, 60, 0)))  # the same shape of the kernel, under another name
    places = (cq.Location((20, 20, 6)), cq.Location((60, 20, 6), (1, 0, 0), 90))
    return [
        NamedSolid("plate", plate, (0.4, 0.45, 0.5), painted=((top, (0.75, 0.75, 0.7)),)),
        NamedSolid("pin", pin, (0.8, 0.7, 0.4), places),
        NamedSolid("spare pin", spare, (0.8, 0.7, 0.4), painted=((spare.Faces()[0], (0.1, 0.1, 0.9)),)),
    ]


def test_assembly_has_same_bytes_here_and_in_another_process(tmp_path: Path) -> None:
    names = [tmp_path / d / "a.step" for d in ("one", "two", "three")]
    for path in names:
        path.parent.mkdir()
    for path in names[:2]:
        write_step(path, model(), product="Larch plane", verify=True)
    subprocess.run([sys.executable, "-c", SCRIPT, str(names[2])], check=True, cwd=ROOT)
    assert names[0].read_bytes() == names[1].read_bytes() == names[2].read_bytes()


def test_assembly_comes_back_with_names_colours_and_places(tmp_path: Path) -> None:
    path = tmp_path / "a.step"
    write_step(path, model(), "2024-05-06T07:08:09", product="Larch plane")
    text = path.read_text()
    assert "'2024-05-06T07:08:09'" in text
    assert "MILLI" in text
    back = cq.Assembly.importStep(str(path))
    assert back.name == "Larch plane"
    assert set(back.objects) == {"Larch plane", "plate", "pin 1", "pin 2", "spare pin"}
    colour = back.objects["pin 2"].color
    assert colour is not None and colour.toTuple()[:3] == pytest.approx((0.8, 0.7, 0.4), abs=1e-6)
    shape, names = read_step(path)
    assert names == ["Larch plane", "plate", "pin", "spare pin"]
    assert len(shape.Solids()) == 4
    assert shape.BoundingBox().ymax == pytest.approx(64.0, abs=1e-3)  # the spare pin stands in its place
    assert shape.BoundingBox().ymin == pytest.approx(-10.0, abs=1e-3)  # the pin that lies down
    assert text.count("OVER_RIDING_STYLED_ITEM") == 2  # the painted faces


@pytest.mark.parametrize("schema", ["AP214", "AP242"])
def test_single_part_has_its_own_name_and_one_solid(tmp_path: Path, schema: str) -> None:
    path = tmp_path / "plate.step"
    plate = model()[0]
    write_step(path, plate, schema=schema, verify=True)
    shape, names = read_step(path)
    assert names == ["plate"]
    assert len(shape.Faces()) == len(plate.solid.Faces())
    assert shape.Volume() == pytest.approx(plate.solid.Volume(), rel=1e-7)


def test_check_notices_another_volume_name_or_count(tmp_path: Path) -> None:
    path = tmp_path / "plate.step"
    plate, pin, _ = model()
    write_step(path, plate)
    thicker = extrude(Profile.rectangle(0, 0, 80, 40, 5.0), "z", 0, 6.001, holes=[Profile.circle((20, 20), 4)])
    with pytest.raises(GeometryError, match="volume came back changed"):
        check_step(path, NamedSolid("plate", thicker))
    with pytest.raises(GeometryError, match="names are missing"):
        check_step(path, NamedSolid("bed", plate.solid))
    with pytest.raises(GeometryError, match="another number of solids"):
        check_step(path, [plate, pin])


def test_bad_names_faces_and_files_are_refused_quietly(tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    plate, pin, _ = model()
    with pytest.raises(GeometryError, match="must differ"):
        write_step(tmp_path / "a.step", [plate, NamedSolid("plate", pin.solid)])
    with pytest.raises(GeometryError, match="must differ"):
        write_step(tmp_path / "a.step", [plate], product="plate")
    with pytest.raises(GeometryError, match="ASCII"):
        write_step(tmp_path / "a.step", NamedSolid("Größe", pin.solid))
    with pytest.raises(GeometryError, match="not a face of the solid"):
        write_step(tmp_path / "a.step", NamedSolid("pin", pin.solid, painted=plate.painted))
    assert not (tmp_path / "a.step").exists()
    write_step(tmp_path / "b.step", plate)
    whole = (tmp_path / "b.step").read_text()
    (tmp_path / "b.step").write_text(whole[: len(whole) // 2])
    with pytest.raises(GeometryError, match="cannot be read"):
        read_step(tmp_path / "b.step")
    assert capfd.readouterr() == ("", "")
