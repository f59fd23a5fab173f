"""Speed, as ratios in one run; not collected by default. Run: pytest tests/bench/bench_start.py -s"""

import statistics
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]


def seconds(words, repeat=5):
    took = []
    for _ in range(repeat):
        start = time.perf_counter()
        subprocess.run([sys.executable, *words], cwd=ROOT, check=True, capture_output=True)
        took.append(time.perf_counter() - start)
    return statistics.median(took)


MAIN = ["-c", "from parts.commands import main; main()"]


def test_answers_at_once():
    base = seconds(["-c", "import pydantic, typer"])
    print(f"\nimport pydantic, typer: {base:.3f} s")
    ratios = {}
    for words in (["--help"], ["check", "specs/heron.toml"], ["numbers", "specs/heron.toml"]):
        took = seconds([*MAIN, *words])
        ratios[words[0]] = took / base
        print(f"{words[0]}: {took:.3f} s, {took / base:.2f} times")
    assert max(ratios.values()) <= 2.5


def test_cold_build(tmp_path):
    base = seconds(["-c", "import cadquery"], 3)
    took = seconds([*MAIN, "build", "specs/heron.toml", "--quick", "--out", str(tmp_path)], 3)
    print(f"\nimport cadquery: {base:.2f} s; cold build of one plane's models: {took:.2f} s, {took / base:.2f} times")
    whole = seconds([*MAIN, "build", "specs/heron.toml", "--out", str(tmp_path)], 1)
    print(f"with all papers: {whole:.2f} s; the papers alone {(whole - took) / took:.2f} times the models")
    assert whole - took <= 3 * took
    assert took <= 4 * base
