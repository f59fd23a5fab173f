"""Every command, black box: what it prints, its exit code, and wrong input."""

import json
import shutil
from pathlib import Path

import pytest

SPECS = Path(__file__).parents[2] / "specs"
HERON = "specs/heron.toml"

ASKED = {
    "blade": """
        cutting_angle_deg clearance_angle_deg wedge_angle_deg cutting_angle_section_deg cutting_angle_velocity_deg
        cutting_angle_chip_flow_deg bevel_length_mm hollow_depth_mm camber_on_blade_mm camber_radius_mm
        temper_temperature_c usable_length_mm""",
    "bedding": """
        bed_foot_from_edge_mm bevel_heel_height_mm support_height_mm unsupported_length_mm
        edge_deflection_um_per_100n depth_per_projection mouth_opening_mm mouth_opening_worst_mm
        mouth_opening_rss_mm lateral_adjust_deg""",
    "body": """
        pattern_length_mm pattern_width_mm contraction thermal_bow_um_per_k required_machining_allowance_mm""",
    "handle": """
        tote_blank_length_mm tote_blank_width_mm tote_blank_thickness_mm knob_blank_side_mm knob_blank_length_mm
        tote_short_grain_strength_mpa""",
}


def json_of(done):
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


@pytest.mark.parametrize("spec", ["linnet", "heron", "crane", "heron-metric"])
def test_numbers_have_every_asked_key(run, spec):
    data = json_of(run("numbers", f"specs/{spec}.toml", "--json"))
    for part, keys in ASKED.items():
        assert set(keys.split()) <= set(data[part]), part
    assert "mass_kg" not in data["body"]
    assert "mass_kg" not in data["plane"]


@pytest.mark.parametrize("spec", ["linnet", "heron", "crane", "heron-metric"])
def test_demo_planes_pass_their_checks(run, spec):
    data = json_of(run("check", f"specs/{spec}.toml", "--json"))
    assert data["counts"]["failed"] == 0
    assert data["counts"]["warning"] == 0
    codes = [f["code"] for f in data["findings"]]
    assert len(set(codes)) == len(codes)


def test_numbers_side_by_side(run):
    done = run("numbers", HERON, "specs/crane.toml", "--part", "bedding")
    assert done.returncode == 0
    assert "Heron" in done.stdout
    assert "Crane" in done.stdout
    both = json_of(run("numbers", HERON, "specs/crane.toml", "--json"))
    assert set(both) == {"Heron", "Crane"}


def test_explain_reads_what_numbers_says(run):
    data = json_of(run("explain", HERON, "bedding.unsupported_length_mm", "--json"))
    numbers = json_of(run("numbers", HERON, "--json"))
    assert data["value"] == numbers["bedding"]["unsupported_length_mm"]
    assert data["unit"] == "mm"
    assert data["formula"]
    assert data["source"]
    text = run("explain", HERON, "blade.cutting_angle_deg").stdout
    for word in ("meaning", "formula", "source", "45"):
        assert word in text


def test_explain_names_the_nearest(run):
    done = run("explain", HERON, "blade.cuting_angle_deg")
    assert done.returncode == 2
    assert "blade.cutting_angle_deg" in done.stderr


def test_pattern_list(run):
    data = json_of(run("pattern", HERON, "--json"))
    body = {r["feature"]: r for r in data["body"]["rows"]}
    length = body["length over all"]
    assert length["pattern_mm"] == pytest.approx(length["casting_mm"] * (1 + data["body"]["contraction"]))
    numbers = json_of(run("numbers", HERON, "--json"))
    assert length["pattern_mm"] == pytest.approx(numbers["body"]["pattern_length_mm"])
    assert "shrink rule" in run("pattern", HERON).stdout


def test_blanks_from_the_rack(run, tmp_path):
    left = tmp_path / "left.csv"
    data = json_of(run("blanks", HERON, "--quantity", 4, "--rack", "specs/rack.csv", "--leftovers", left, "--json"))
    best = data["plans"][data["best"]]
    assert sum(best["sets"].values()) == 4
    assert 0 < best["yield_percent"] <= 100
    again = run("blanks", HERON, "--quantity", 1, "--rack", left)
    assert again.returncode == 0, again.stderr


def test_blanks_without_a_rack_gives_footage(run):
    data = json_of(run("blanks", HERON, "--quantity", 12, "--json"))
    assert {r["blank"] for r in data["footage"]} == {"tote", "knob"}


def test_edge_card(run):
    text = run("edge", HERON).stdout
    for word in ("A2", "62", "temper", "grind", "Life"):
        assert word.lower() in text.lower()
    assert json_of(run("edge", HERON, "--json"))["blade"]["wedge_angle_deg"] == 30.0


def test_schema_is_json(run):
    assert json_of(run("schema"))["type"] == "object"


@pytest.mark.parametrize(
    "words", [(), ("--help",), ("build", "--help"), ("reckon", "--help"), ("reckon", "edge", "--help")]
)
def test_help(run, words):
    done = run(*words)
    assert done.returncode == 0, done.stderr
    assert "Usage" in done.stdout


def test_no_command_says_what_to_do_next(run):
    assert "What to do next" in run().stdout


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("biuld",), "biuld"),
        (("check",), "SPEC"),
        (("check", "specs/nowhere.toml"), "specs/nowhere.toml"),
        (("check", "specs"), "a folder"),
        (("build", HERON, "--only", "bdy"), "did you mean body"),
        (("numbers", HERON, "--part", "bladder"), "did you mean blade"),
        (("blanks", HERON, "--quantity", "0"), "1 or more"),
        (("blanks", HERON, "--quantity", "many"), "many"),
        (("pour", HERON, "--quantity", "0"), "1 or more"),
        (("pour", HERON, "--quantity", "100001"), "at most 100000"),
        (("edge", HERON, "--quantity", "9" * 30), "at most 100000"),
        (("blanks", HERON, "--quantity", "9" * 5000), "at most 100000"),
        (("first-article", HERON, "x.csv", "--confidence", "0%"), "more than 0 %"),
        (("reckon", "temper", "--hardness", "62HRC"), "--steel"),
        (("reckon", "contraction", "--length", "14", "--allowance", "1/8 in/ft"), "--length"),
    ],
)
def test_wrong_command_lines(run, words, says):
    done = run(*words)
    assert done.returncode == 2
    assert says in done.stderr
    assert "Traceback" not in done.stderr
    assert done.stdout == ""


def test_bad_spec_writes_nothing_and_leaves_the_old_output(run, tmp_path):
    from pathlib import Path

    bad = tmp_path / "heron.toml"
    bad.write_text((Path(__file__).parents[2] / HERON).read_text().replace("width = 2\n", "width = 3\n"))
    out = tmp_path / "out"
    (out / "heron").mkdir(parents=True)
    (out / "heron" / "old.txt").write_text("old")
    done = run("build", bad, "--out", out)
    assert done.returncode == 2
    assert "blade.width" in done.stderr
    assert [p.name for p in (out / "heron").iterdir()] == ["old.txt"]
    assert [p.name for p in out.iterdir()] == ["heron"]


def test_a_plane_that_would_not_work_is_refused_with_1(run, tmp_path):
    from pathlib import Path

    poor = tmp_path / "heron.toml"
    text = (Path(__file__).parents[2] / HERON).read_text()
    poor.write_text(text.replace("micro_bevel = 30", "micro_bevel = 42"))
    done = run("check", poor, "--json")
    assert done.returncode == 1
    failed = [f for f in json.loads(done.stdout)["findings"] if f["verdict"] == "failed"]
    assert [f["code"] for f in failed] == ["E01"]
    assert failed[0]["change"]
    out = tmp_path / "out"
    done = run("build", poor, "--out", out)
    assert done.returncode == 1
    assert "E01" in done.stderr
    assert not out.exists()


def test_a_rack_row_with_a_bad_cell(run, tmp_path):
    rack = tmp_path / "rack.csv"
    shutil.copy("specs/rack.csv", rack)
    lines = rack.read_text().splitlines()
    row = next(i for i, text in enumerate(lines) if not text.startswith(("#", "board"))) + 1
    cells = lines[row - 1].split(",")
    cells[2] = "thick"
    lines[row - 1] = ",".join(cells)
    rack.write_text("\n".join(lines) + "\n")
    done = run("blanks", HERON, "--quantity", 2, "--rack", rack)
    assert done.returncode == 2
    assert "thick" in done.stderr
    assert str(row) in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1


def test_edge_card_for_a_batch_names_the_bars_to_buy(run):
    text = run("edge", HERON, "--quantity", 25).stdout
    assert "bar" in text
    assert json_of(run("edge", HERON, "--quantity", 25, "--json"))["card"]["sections"]
    # pins and screws by ISO 286 stand on the card
    assert "H7 0.1575 to 0.1579 [4.000 to 4.012]" in " ".join(text.split())


def test_a_set_point_below_freezing_nitrogen_is_refused_at_its_line(run, tmp_path):
    from pathlib import Path

    spec = tmp_path / "cold.toml"
    text = (Path(__file__).parents[2] / HERON).read_text()
    # nitrogen's triple point is 63.15 K, -346.0 F: NIST (seen in the steel table)
    spec.write_text(text.replace('cold_treatment = "-109 F"', 'cold_treatment = "-356 F"'))
    done = run("edge", spec)
    assert done.returncode == 2
    assert "blade.cold_treatment" in done.stderr
    assert "-346" in done.stderr


def test_drawn_cut_plan(run, tmp_path):
    papers, rack = tmp_path / "cuts", tmp_path / "few.csv"
    lines = (SPECS / "rack.csv").read_text(encoding="utf-8").splitlines()
    cherry = [n for n, line in enumerate(lines) if ",black-cherry," in line]
    rack.write_text("\n".join(lines[: cherry[0]] + [lines[n] for n in cherry[6:9]]) + "\n", encoding="utf-8")
    done = run("blanks", HERON, "--quantity", 2, "--rack", rack, "--papers", papers)
    assert done.returncode == 0, done.stderr
    kinds = sorted({p.suffix for p in papers.iterdir()})
    assert kinds == [".dxf", ".pdf", ".png", ".txt"]
    alone = run("blanks", HERON, "--quantity", 2, "--papers", papers)
    assert alone.returncode == 2
    assert "--rack" in alone.stderr


def test_an_editor_can_say_what_every_key_of_a_spec_is(run):
    schema = json_of(run("schema"))
    keys = [(name, key, field) for name, d in schema["$defs"].items() for key, field in d.get("properties", {}).items()]
    assert len(keys) > 90
    # a whole section is described where it is defined
    bare = [f"{name}.{key}" for name, key, f in keys if not f.get("description") and "$ref" not in f]
    assert bare == []
