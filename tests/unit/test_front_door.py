"""The numbers' path answers at once: no CAD kernel, no VTK, no matplotlib, no solver behind it."""

import subprocess
import sys
from pathlib import Path

import pytest

import shared

ROOT = Path(__file__).parents[2]
HEAVY = ("cadquery", "OCP", "vtk", "vtkmodules", "matplotlib", "ezdxf", "ortools", "scipy", "rich")

SNIPPET = """
import sys
from parts.commands.app import run
code = run({argv!r})
heavy = sorted(m for m in {heavy!r} if m in sys.modules)
print("HEAVY", heavy, "CODE", code, file=sys.stderr)
"""


def in_fresh_interpreter(argv):
    code = SNIPPET.format(argv=argv, heavy=HEAVY)
    return subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, timeout=120)


def test_shared_is_this_project_s_own():
    assert Path(shared.__file__).resolve().is_relative_to(ROOT)


def test_importing_the_front_door_loads_nothing_heavy():
    code = f"import sys, parts.commands; print(sorted(m for m in {HEAVY!r} if m in sys.modules))"
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, timeout=60)
    assert done.stdout.strip() == "[]"


@pytest.mark.parametrize(
    "argv",
    [
        ["--help"],
        ["check", "specs/heron.toml"],
        ["numbers", "specs/heron.toml", "--json"],
        ["explain", "specs/heron.toml", "blade.cutting_angle_deg"],
        ["pattern", "specs/crane.toml", "--json"],
        ["diff", "specs/heron.toml", "specs/crane.toml", "--json"],
        ["numbers", "specs/heron.toml", "specs/crane.toml", "--family"],
        ["schema"],
        ["reckon", "edge", "--orientation", "bevel-down", "--bed", "45 deg", "--bevel", "25 deg", "--json"],
        ["reckon", "contraction", "--length", "14 in", "--allowance", "1/8 in/ft", "--json"],
        ["reckon", "board-feet", "--thickness", "2 in", "--width", "6.25 in", "--length", "8 ft", "--json"],
    ],
    ids=lambda a: " ".join(a[:2]),
)
def test_numbers_path_loads_nothing_heavy(argv):
    done = in_fresh_interpreter(argv)
    assert "HEAVY [] CODE 0" in done.stderr, done.stderr
