"""The program as a user runs it: one build shared by the tests that look at its files."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


def planewright(*words, cwd=ROOT, timeout=1200):
    """Run one command line in a fresh interpreter."""
    code = f"import sys; sys.path.insert(0, {str(ROOT)!r}); from parts.commands import main; main()"
    return subprocess.run(
        [sys.executable, "-c", code, *map(str, words)], cwd=cwd, capture_output=True, text=True, timeout=timeout
    )


@pytest.fixture(scope="session")
def run():
    return planewright


@pytest.fixture(scope="session")
def built(tmp_path_factory):
    """A whole build of Heron, made once."""
    out = tmp_path_factory.mktemp("built")
    done = planewright("build", "specs/heron.toml", "--out", out)
    assert done.returncode == 0, done.stderr
    return out / "heron", done
