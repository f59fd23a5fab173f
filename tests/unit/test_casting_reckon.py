"""The foundry's questions on the command line."""

import json
import subprocess
import sys
from pathlib import Path

import pytest
import typer
from typer.testing import CliRunner

from parts.commands import reckon_foundry
from shared.errors import InputError, RequestError

app = typer.Typer()
reckon_foundry.register(app)
runner = CliRunner()


def _ask(*args: str) -> dict[str, float]:
    result = runner.invoke(app, [*args, "--json"], catch_exceptions=False)
    assert result.exit_code == 0
    return json.loads(result.stdout)


def test_contraction_by_alloy_and_by_allowance() -> None:
    by_alloy = _ask("contraction", "--length", "14 in", "--alloy", "ductile-iron-65-45-12")
    assert by_alloy == {"contraction": 0.01, "pattern_length_mm": pytest.approx(355.6 * 1.01)}
    both = _ask("contraction", "--length", "250mm", "--allowance", "1/8 in/ft", "--pattern-allowance", "5/32 in/ft")
    assert both["master_length_mm"] == pytest.approx(255.893, abs=0.002)
    assert set(both) == {"contraction", "pattern_length_mm", "master_length_mm"}
    mixed = _ask("contraction", "--length", "250mm", "--allowance", "1 %", "--pattern-alloy", "aluminium-pattern-metal")
    assert mixed["master_length_mm"] == pytest.approx(250 * 1.01 * 1.013)


def test_allowance() -> None:
    found = _ask("allowance", "--dimension", "240mm", "--tolerance-grade", "11", "--machining-grade", "F")
    assert found == {
        "tolerance_mm": 5.6,
        "machining_allowance_mm": 2.0,
        "raw_outside_one_side_mm": pytest.approx(244.8),
        "raw_outside_two_sides_mm": pytest.approx(246.8),
        "raw_inside_two_sides_mm": pytest.approx(233.2),
    }
    sole = _ask(
        "allowance",
        "--dimension",
        "5mm",
        "--largest",
        "245mm",
        "--tolerance-grade",
        "DCTG 11",
        "--machining-grade",
        "F",
    )
    assert sole["raw_outside_one_side_mm"] == pytest.approx(8.4)
    assert "raw_inside_two_sides_mm" not in sole  # closed by its stock; said on stderr


def test_choke_solidification_castings() -> None:
    choke = _ask(
        "choke", "--mass", "3.2kg", "--density", "7700 kg/m3", "--head", "110mm", "--time", "5s", "--coefficient", "0.7"
    )
    assert choke == {"area_mm2": pytest.approx(80.82, abs=0.05)}
    plate = _ask("solidification", "--volume", "900cm3", "--area", "1080 cm2", "--mould-constant", "4 min/cm2")
    assert plate == {"modulus_mm": pytest.approx(8.3333, abs=1e-3), "time_s": pytest.approx(60 * 2.78, abs=0.6)}
    n = _ask("castings", "--good", "100", "--scrap", "0%", "--confidence", "95%", "--impressions", "2")
    assert n == {"castings": 100, "moulds": 50}


def test_without_json_it_says_what_it_means() -> None:
    text = runner.invoke(
        app, ["castings", "--good", "100", "--scrap", "4%", "--confidence", "95%", "--impressions", "2"]
    ).stdout
    assert "castings to pour" in text and "97.05%" in text and "moulds to make" in text


@pytest.mark.parametrize(
    ("args", "said"),
    [
        (["contraction", "--length", "14 in"], "--alloy"),
        (["contraction", "--length", "14", "--allowance", "1 %"], "--length"),
        (["contraction", "--length", "14 in", "--allowance", "1"], "--allowance"),
        (["contraction", "--length", "14 in", "--alloy", "ductile"], "did you mean"),
        (["contraction", "--length", "14 in", "--alloy", "grey-iron-class-30", "--allowance", "1 %"], "not both"),
        (["allowance", "--dimension", "2 m", "--tolerance-grade", "9", "--machining-grade", "E"], "at most 1600 mm"),
        (["allowance", "--dimension", "2 mm", "--tolerance-grade", "CT0", "--machining-grade", "E"], "1 to 16"),
        (["choke", "--mass", "0kg", "--density", "7000 kg/m3", "--head", "1m", "--time", "5s"], "--mass"),
        (["choke", "--mass", "1kg", "--density", "7", "--head", "1m", "--time", "5s"], "--density"),
        (["solidification", "--volume", "1 cm3", "--area", "1 cm3", "--mould-constant", "4 min/cm2"], "--area"),
        (["castings", "--good", "0", "--scrap", "0%", "--confidence", "95%", "--impressions", "2"], "--good"),
        (["castings", "--good", "9", "--scrap", "100%", "--confidence", "95%", "--impressions", "2"], "--scrap"),
        (["castings", "--good", "9", "--scrap", "1%", "--confidence", "100%", "--impressions", "2"], "--confidence"),
        (["castings", "--good", "9", "--scrap", "0.04", "--confidence", "95%", "--impressions", "2"], "--scrap"),
    ],
)
def test_bad_input_names_the_option(args: list[str], said: str) -> None:
    with pytest.raises(InputError) as err:
        runner.invoke(app, args, catch_exceptions=False)
    assert said in str(err.value)


def test_an_undefined_cell_is_a_request_that_fails() -> None:
    with pytest.raises(RequestError, match="defines no tolerance"):
        runner.invoke(
            app,
            ["allowance", "--dimension", "8mm", "--tolerance-grade", "13", "--machining-grade", "F"],
            catch_exceptions=False,
        )


def test_no_cad_kernel_on_the_numbers_path() -> None:
    """Neither the shop, the pour plan nor the reckoner load the kernel, VTK or matplotlib."""
    modules = "parts.plane.pour, parts.commands.reckon_foundry, shared.casting.first_article"
    heavy = "('cadquery', 'OCP', 'vtk', 'vtkmodules', 'matplotlib')"
    code = f"import sys, {modules}; print([m for m in {heavy} if m in sys.modules])"
    root = Path(__file__).parents[2]
    done = subprocess.run([sys.executable, "-c", code], cwd=root, check=True, capture_output=True, text=True)
    assert done.stdout.strip() == "[]"
