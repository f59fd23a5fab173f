"""The reckoner's questions of blade and steel, through the command line."""

import json

import pytest
import typer

from parts.commands import reckon_steel
from shared.errors import InputError


def ask(*words: str) -> None:
    app = typer.Typer(rich_markup_mode=None)
    reckon_steel.register(app)
    typer.main.get_command(app).main(args=list(words), standalone_mode=False)


EDGE = "edge --orientation bevel-down --bed 45deg --bevel 25deg"
QUESTIONS = {
    EDGE
    + " --micro-bevel 30deg --skew 20deg --thickness 3mm --width 2in"
    + " --wheel-diameter 200mm --camber-depth 2thou": {
        "cutting_angle_deg": 45,
        "clearance_angle_deg": 15,
        "wedge_angle_deg": 30,
        "cutting_angle_section_deg": 43.219,
        "cutting_angle_velocity_deg": 41.641,
        "cutting_angle_chip_flow_deg": 42.152,
        "bevel_length_mm": 7.0986,
        "hollow_depth_mm": 0.063008,
        "hollow_edge_angle_deg": 22.966,
        "camber_on_blade_mm": 0.071842,
        "camber_radius_mm": 4490.2,
    },
    "edge --orientation bevel-up --bed 12deg --bevel 25deg --width 2in --camber-depth 2thou": {
        "cutting_angle_deg": 37,
        "camber_on_blade_mm": 0.24434,
    },
    "temper --steel O1 --hardness 62HRC": {"temperature_c": 204.444, "hardness_hrc": 62, "tempers": 2},
    "temper --steel A2 --temperature 450F": {"temperature_c": 232.222, "hardness_hrc": 60.5, "tempers": 2},
    "temper-time --temperature 400F --time 2h --new-temperature 350F": {"new_time_h": 35.867, "parameter": 9.69566},
    "temper-time --temperature 400F --time 2h --new-time 120min": {"new_temperature_c": 204.444, "new_time_h": 2},
    "temper-time --temperature 400F --time 2h --new-temperature 350F --constant 13.3": {"new_time_h": 13.834},
    "hardness --value 62HRC --to HV": {"value": 746},
    "nitrogen --steel-mass 2kg --from 20C --to -320F": {"nitrogen_kg": 0.7506, "nitrogen_l": 0.9307},
    "oxygen --room-volume 36m3 --nitrogen-volume 10l": {"oxygen_percent": 16.9167},
    "fit --diameter 25mm --fit H7/g6": {
        "hole_upper_um": 21,
        "hole_lower_um": 0,
        "shaft_upper_um": -7,
        "shaft_lower_um": -20,
        "clearance_max_um": 41,
        "clearance_min_um": 7,
    },
    "bow --length 200mm --height 4mm --gradient 5K --alloy A2": {"bow_um": 66.875},
    "bow --length 14in --height 1/2in --gradient 5F": {"bow_um": 39.758},
}


@pytest.mark.parametrize("words", QUESTIONS)
def test_answers(words, capsys) -> None:
    ask(*words.split(), "--json")
    out = json.loads(capsys.readouterr().out)
    for key, value in QUESTIONS[words].items():
        assert out[key] == pytest.approx(value, rel=2e-4, abs=1e-9), key
    assert isinstance(out["warnings"], list)
    ask(*words.split())
    told = capsys.readouterr().out
    assert all(key in told for key in QUESTIONS[words])


def test_flatness_of_a_file(tmp_path, capsys) -> None:
    file = tmp_path / "sole.csv"
    file.write_text("x,y,z\n0,0,0\n100,0,0\n0,100,0\n20,30,0.05\n")
    ask("flatness", str(file), "--json")
    out = json.loads(capsys.readouterr().out)
    assert out["minimum_zone_mm"] == pytest.approx(0.05)
    assert out["least_squares_mm"] == pytest.approx(0.0543478)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("edge --orientation bevel-down --bed 37deg --bevel 38deg", "clearance -1 deg"),
        ("edge --orientation bevel-up --bed 12deg --bevel 25deg --back-bevel 12deg", "clearance 0 deg"),
        ("edge --orientation down --bed 45deg --bevel 25deg", "bevel-down or bevel-up"),
        (EDGE + " --micro-bevel 20deg", "at least the ground bevel"),
        (EDGE + " --wheel-diameter 200mm", "together with --thickness"),
        ("edge --orientation bevel-down --bed 45 --bevel 25deg", "a bare number has no unit"),
        ("temper --steel A3 --hardness 62HRC", "did you mean A2"),
        ("temper --steel A2 --hardness 62HRB", "did you mean 62 HRC"),
        ("temper --steel A2 --hardness 66HRC", "51 to 62 HRC"),
        ("temper --steel A2", "either --hardness or --temperature"),
        ("temper --steel A2 --temperature 1500F", "nothing is extrapolated"),
        ("temper-time --temperature 400F --time 0h --new-time 2h", "more than 0"),
        ("hardness --value 62 --to HV", "62 HRC"),
        ("hardness --value 70HRC --to HV", "20 to 68 HRC"),
        ("nitrogen --steel-mass 1kg --from 20C --to -356F", "freezes at -346"),
        ("nitrogen --steel-mass 0kg --from 20C --to -300F", "more than 0 kg"),
        ("oxygen --room-volume 0m3 --nitrogen-volume 1l", "more than 0"),
        ("fit --diameter 25mm --fit g6/H7", "did you mean H7/g6"),
        ("fit --diameter 25mm --fit H7/q6", "a letter of"),
        ("fit --diameter 600mm --fit H7/g6", "at most 500"),
        ("fit --diameter 25mm --fit H7/g3", "IT5 to IT14"),
        ("bow --length 200mm --height 4mm --gradient 5K --alloy tin", "one of A2"),
        ("flatness no-such-file.csv", "nothing there"),
    ],
)
def test_bad_input_names_what_is_allowed(words, said) -> None:
    with pytest.raises(InputError, match="allowed") as err:
        ask(*words.split())
    assert said in str(err.value)
    assert err.value.exit_code == 2


@pytest.mark.parametrize("rows", ["0,0,0\n1,0,0\n", "0,0,0\n1,1,1\n2,2,2\n", "0,0,0\n50,0,1\n100,0,0\n"])
def test_too_few_points_or_a_line(rows, tmp_path) -> None:
    file = tmp_path / "p.csv"
    file.write_text(rows)
    with pytest.raises(InputError, match=r"3 points or more|in a line"):
        ask("flatness", str(file))


def test_set_point_below_boiling_is_warned_about(capsys) -> None:
    ask("nitrogen", "--steel-mass", "1kg", "--from", "20C", "--to", "-330F", "--json")
    assert "below the boiling point" in " ".join(json.loads(capsys.readouterr().out)["warnings"])
    ask("nitrogen", "--steel-mass", "1kg", "--from", "20C", "--to", "-300F", "--json")
    assert json.loads(capsys.readouterr().out)["warnings"] == []


def test_small_clearance_and_flat_curve_are_warned_about(capsys) -> None:
    ask(*["edge", "--orientation", "bevel-down", "--bed", "37deg", "--bevel", "35deg", "--json"])
    assert "below the guide" in json.loads(capsys.readouterr().out)["warnings"][0]
    ask(*["temper", "--steel", "A2", "--hardness", "58HRC", "--json"])
    out = json.loads(capsys.readouterr().out)
    assert out["unique"] is False
    assert out["temperature_high_c"] == pytest.approx((900 - 32) / 1.8)
    assert any("not unique" in w for w in out["warnings"])


QUESTION_NAMES = ["edge", "temper", "temper-time", "hardness", "nitrogen", "oxygen", "fit", "flatness", "bow"]


@pytest.mark.parametrize("what", QUESTION_NAMES)
def test_help_has_an_example(what, capsys) -> None:
    ask(what, "--help")
    assert f"planewright reckon {what}" in capsys.readouterr().out


def test_missing_option_is_a_usage_error() -> None:
    # the command line's own error class differs by release, its name does not
    with pytest.raises(Exception, match="steel") as err:
        ask("temper", "--hardness", "62HRC")
    assert type(err.value).__name__ == "MissingParameter"
