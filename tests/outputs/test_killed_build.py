"""A build that is killed, or meets a crash of the kernel, leaves the old output whole and no half file."""

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

pytestmark = pytest.mark.kernel
ROOT = Path(__file__).parents[2]


def start(out, prelude=""):
    code = f"import sys; sys.path.insert(0, {str(ROOT)!r})\n{prelude}\nfrom parts.commands import main; main()"
    words = ["build", "specs/heron.toml", "--out", str(out)]
    return subprocess.Popen(
        [sys.executable, "-c", code, *words], cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )


def wait_for(what, seconds=90):
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if what():
            return True
        time.sleep(0.05)
    return False


def test_terminated_build_leaves_the_old_output(tmp_path):
    out = tmp_path / "out"
    (out / "heron").mkdir(parents=True)
    (out / "heron" / "old.txt").write_text("old")
    (out / "heron" / "manifest.json").write_text('{"planewright": "0", "files": {"old.txt": ""}}')
    process = start(out)
    assert wait_for(lambda: any(p.name.startswith(".partial-heron.") for p in out.iterdir()))
    process.terminate()
    process.communicate(timeout=60)
    assert process.returncode != 0
    assert wait_for(lambda: [p.name for p in out.iterdir()] == ["heron"], 20), list(out.iterdir())
    assert sorted(p.name for p in (out / "heron").iterdir()) == ["manifest.json", "old.txt"]


def test_killed_build_leaves_nothing_that_counts_and_the_next_one_sweeps(tmp_path, run):
    out = tmp_path / "out"
    process = start(out)
    assert wait_for(lambda: out.exists() and any(p.name.startswith(".partial-heron.") for p in out.iterdir()))
    os.kill(process.pid, signal.SIGKILL)
    process.communicate(timeout=60)
    # its worker notices that nobody listens and cleans up, or the next build does
    assert not (out / "heron").exists() or (out / "heron" / "manifest.json").exists()
    done = run("build", "specs/heron.toml", "--out", out, "--only", "knob")
    assert done.returncode == 0, done.stderr
    wait_for(lambda: [p.name for p in out.iterdir()] == ["heron"], 30)
    assert [p.name for p in out.iterdir()] == ["heron"]
    files = json.loads((out / "heron" / "manifest.json").read_text())["files"]
    assert "step/knob.step" in files
