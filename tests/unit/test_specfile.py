"""A wrong spec gets one message a fault: file, line, key, value read, values allowed."""

import re
from pathlib import Path

import pytest

from parts.plane.bench.spec import BenchSpec
from parts.plane.design import design
from parts.plane.shop import load_shop
from parts.plane.spec import load_spec, slug
from shared.errors import InputError

SPECS = Path(__file__).parents[2] / "specs"
HERON = (SPECS / "heron.toml").read_text()


def faults_of(tmp_path, text):
    path = tmp_path / "odd.toml"
    path.write_text(text)
    with pytest.raises(InputError) as err:
        design(load_spec(path), load_shop(None))
    return err.value.faults


def swap(old, new):
    assert old in HERON
    return HERON.replace(old, new)


@pytest.mark.parametrize(
    ("text", "key", "says"),
    [
        (swap("cheek_height =", "cheek_hight ="), "body.cheek_hight", "did you mean cheek_height"),
        (swap("width = 2.5\n", ""), "body.width", "needed"),
        (swap('"5/32 in"', '"5/32 kg"'), "body.cheek_thickness", "length"),
        (swap("width = 2.5\n", 'width = "wide"\n'), "body.width", "50 mm"),
        (swap("width = 2.5\n", "width = -2.5\n"), "body.width", "50 mm"),
        (swap("width = 2.5\n", "width = 0\n"), "body.width", "50 mm"),
        (swap("width = 2\n", "width = 2.4\n"), "blade.width", "at most"),
        (swap('steel = "A2"', 'steel = "A3"'), "blade.steel", "did you mean A2"),
        (swap("ductile-iron-65-45-12", "ductile-iron-65-45-13"), "body.alloy", "did you mean"),
        (swap('"black-cherry"', '"blackcherry"'), "handle.species", "did you mean black-cherry"),
        (swap('"62 HRC"', '"62 HRB"'), "blade.hardness", "HRC"),
        (swap('kind = "bench"', 'kind = "trench"'), "plane.kind", "bench"),
        (swap("angle = 45", "angle = 25"), "bed.angle", "38"),
        (swap("micro_bevel = 30", "micro_bevel = 20"), "blade.micro_bevel", "more than blade.bevel"),
        (swap("micro_bevel = 30", "micro_bevel = 46"), "blade.micro_bevel", "less than bed.angle"),
        (swap('units = "inch"', 'units = "feet"'), "units", "inch"),
        (swap('name = "Heron"', 'name = ""'), "plane.name", "allowed: at least 1 character"),
        (swap('revision = "A"', 'revision = "ABCDEFGHI"'), "plane.revision", "at most 8 characters"),
        (swap("mouth_from_toe = 4.5", "mouth_from_toe = 11"), "body.mouth_from_toe", "aft of the edge"),
    ],
)
def test_one_message_a_fault(tmp_path, text, key, says):
    faults = faults_of(tmp_path, text)
    mine = [f for f in faults if f.key == key]
    assert len(mine) == 1, [str(f) for f in faults]
    assert says in str(mine[0])
    assert re.match(r".*odd\.toml(:\d+)?$", mine[0].where)


def test_the_line_is_the_key_s_own(tmp_path):
    text = swap("micro_bevel = 30", 'micro_bevel = "very"')
    line = text.splitlines().index('micro_bevel = "very"') + 1
    (fault,) = faults_of(tmp_path, text)
    assert fault.where.endswith(f"odd.toml:{line}")
    assert fault.read == "'very'"


def test_all_faults_come_at_once(tmp_path):
    text = (
        swap("width = 2.5\n", "width = -1\n")
        .replace('"62 HRC"', '"soft"')
        .replace("[bed]\nangle = 45", '[bed]\nangle = "45 in"')
    )
    assert {f.key for f in faults_of(tmp_path, text)} == {"body.width", "blade.hardness", "bed.angle"}


def test_not_toml(tmp_path):
    (fault,) = faults_of(tmp_path, "units = inch\n")
    assert "TOML" in fault.allowed
    assert fault.where.endswith(":1")


def test_missing_file_names_the_nearest():
    with pytest.raises(InputError, match=r"did you mean .*heron\.toml"):
        load_spec(SPECS / "herron.toml")


def test_text_that_is_not_utf_8_is_said_in_plain_words(tmp_path):
    (tmp_path / "odd.toml").write_bytes(b'units = "\xff"\n')
    with pytest.raises(InputError, match=r"read text that is not UTF-8 \(byte 10 is 0xff\)"):
        load_spec(tmp_path / "odd.toml")


def test_a_folder_is_not_a_spec():
    with pytest.raises(InputError, match="a folder"):
        load_spec(SPECS)


@pytest.mark.parametrize("path", sorted(p for p in SPECS.glob("*.toml") if p.name != "shop.toml"), ids=lambda p: p.stem)
def test_every_demo_spec_reads_and_resolves(path):
    d = design(load_spec(path), load_shop(SPECS / "shop.toml"))
    assert d.body.heel_x - d.body.toe_x == pytest.approx(d.spec.body.length)


def test_inch_and_metric_give_the_same_plane(tmp_path):
    metric = HERON.replace('units = "inch"', 'units = "mm"')
    for old, new in (
        ("length = 14\n", "length = 355.6\n"),
        ("width = 2.5\n", "width = 63.5\n"),
        ("mouth_from_toe = 4.5", "mouth_from_toe = 114.3"),
        ("mouth_opening = 0.015", "mouth_opening = 0.381"),
        ("width = 2\n", "width = 50.8\n"),
        ("length = 7.5\n", "length = 190.5\n"),
        ("thickness = 0.125", "thickness = 3.175"),
        ("setback = 0.015", "setback = 0.381"),
    ):
        metric = metric.replace(old, new)
    path = tmp_path / "m.toml"
    path.write_text(metric)
    a, b = load_spec(path).spec, load_spec(SPECS / "heron.toml").spec
    for section in ("body", "blade", "chipbreaker"):
        for key, value in getattr(b, section).model_dump().items():
            mine = getattr(getattr(a, section), key)
            assert mine == (pytest.approx(value) if isinstance(value, float) else value), key


@pytest.mark.parametrize(
    ("name", "folder"), [("Heron", "heron"), ("Heron M", "heron-m"), ("a/b\\c:d", "a-b-c-d"), ("../up", "up")]
)
def test_names_become_folders(name, folder):
    assert slug(name) == folder


def test_a_name_without_letters_is_refused(tmp_path):
    (fault,) = faults_of(tmp_path, swap('name = "Heron"', 'name = "///"'))
    assert fault.key == "plane.name"


def test_schema_lists_every_section():
    schema = BenchSpec.model_json_schema()
    assert {"units", "plane", "body", "bed", "blade", "chipbreaker", "handle"} <= set(schema["properties"])
    assert schema["additionalProperties"] is False
