"""What the stages of a plane's castings cost beyond the kernel's own work.

Run: pytest tests/bench/bench_kernel.py -s
"""

import cProfile
import pstats
import time
from pathlib import Path

from parts.plane.bench.models import Models
from parts.plane.design import design
from parts.plane.shop import load_shop
from parts.plane.spec import load_spec

SPECS = Path(__file__).parents[2] / "specs"
STAGES = ("body_casting", "body", "body_pattern", "frog_casting", "frog", "frog_pattern", "cap_castings", "lever_cap")


def models():
    return Models(design(load_spec(SPECS / "heron.toml"), load_shop(SPECS / "shop.toml")))


def test_all_stages_within_1_5_times_the_bare_kernel():
    def build(m):
        for name in STAGES:
            getattr(m, name)

    build(models())  # what the kernel loads once is not counted
    profile = cProfile.Profile(time.process_time)
    made = models()
    profile.enable()
    build(made)
    profile.disable()
    stats = pstats.Stats(profile).stats
    # calls of the kernel's binding have no file; what its constructors do is counted in the library that calls them
    took = sum(row[2] for row in stats.values())
    kernel = sum(row[2] for (file, _, name), row in stats.items() if "OCP." in name or "cadquery" in file)
    print(f"\nall stages: {took:.2f} s; in the kernel: {kernel:.2f} s; {took / kernel:.2f} times")
    assert took <= 1.5 * kernel
