"""The reckoner's wood questions as a script meets them: keys, units, refusals."""

import json

import pytest
import typer
from typer.testing import CliRunner

from parts.commands.reckon_wood import register
from shared.errors import InputError

app = typer.Typer()
register(app)


def ask(*words):
    result = CliRunner().invoke(app, list(words))
    if result.exception and not isinstance(result.exception, SystemExit):
        raise result.exception
    assert result.exit_code == 0, result.output
    return result.output


def keys(*words):
    return json.loads(ask(*words, "--json"))


def test_emc():
    assert keys("emc", "--temperature", "70 F", "--humidity", "50%") == {"emc_percent": pytest.approx(9.24, abs=0.01)}


def test_movement_switches_method_and_says_so():
    words = ("movement", "--species", "black-cherry", "--grain", "flat", "--dimension", "100mm", "--to", "8%", "--from")
    assert keys(*words, "12%")["change_mm"] == pytest.approx(-0.992)
    outside = keys(*words, "30%")
    assert outside["method"] == "green-basis" and outside["warnings"]


def test_board_feet():
    words = ("board-feet", "--thickness", "5/4 in", "--width", "8 in", "--length", "12 ft")
    assert keys(*words) == {"surface_measure": 8, "board_feet": 10.0}
    assert keys(*words, "--count", "3")["board_feet"] == 30.0


def test_grade():
    found = keys("grade", "--grade", "FAS", "--width", "8 in", "--length", "12 ft")
    assert (found["surface_measure"], found["clear_units_required"], found["cuttings_allowed"]) == (8, 80, 2)
    assert keys("grade", "--grade", "3A", "--width", "8 in", "--length", "12 ft")["cuttings_allowed"] == "unlimited"


def test_grain():
    words = ("grain", "--species", "black-cherry", "--property", "compression", "--angle", "45 deg")
    assert keys(*words)["strength_mpa"] == pytest.approx(8.7435, abs=0.002)


@pytest.mark.parametrize("board", ["70x40 mm", "70 mm x 40 mm", "7cm x 40mm"])
def test_layout(tmp_path, board):
    file = tmp_path / "pieces.csv"
    file.write_text("name,length_mm,width_mm,count,value\na,30,20,2,0\nb,35,40,1,5000\n")
    found = keys("layout", "--board", board, "--pieces", str(file))
    assert found["optimal"] is True and found["value"] == 6200
    assert found["used_fraction"] == pytest.approx((1400 + 1200) / 2800)
    assert {p["name"] for p in found["placements"]} == {"a", "b"}
    assert "proven" in ask("layout", "--board", board, "--pieces", str(file))


OAK = ("movement", "--species", "white-oak", "--dimension", "1 in", "--to", "9%")


@pytest.mark.parametrize(
    ("words", "match"),
    [
        (("emc", "--temperature", "70", "--humidity", "50%"), "no unit"),
        (("emc", "--temperature", "70 F", "--humidity", "150%"), "100%"),
        (("grain", "--species", "oak", "--property", "bending", "--angle", "5 deg"), "white-oak"),
        ((*OAK, "--grain", "rift", "--from", "8%"), "quarter"),
        ((*OAK, "--grain", "flat", "--from", "40%"), "30%"),
        (("grain", "--species", "white-oak", "--property", "bending", "--angle", "95 deg"), "0 to 90"),
        (("grade", "--grade", "prime", "--width", "8 in", "--length", "8 ft"), "FAS"),
        (("layout", "--board", "70x40", "--pieces", "p.csv"), "--board"),
        (("layout", "--board", "1/0 mm x 1/0", "--pieces", "p.csv"), "--board"),
        (("layout", "--board", "70x40 mm", "--pieces", "no-such.csv"), "readable"),
    ],
)  # fmt: skip
def test_bad_questions_are_refused(words, match):
    with pytest.raises(InputError, match=match):
        ask(*words)
