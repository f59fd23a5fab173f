"""Benches of the cut plan; run by hand: python tests/bench/bench_cutplan.py. One line a result, seconds beside it."""

from __future__ import annotations

import math
import random
import sys
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from parts.handle.blanks import Blank, WoodPractice
from parts.handle.cutplan.model import Order
from parts.handle.cutplan.plan import plan_boards
from parts.handle.rack import Board, Defect

MM = 25.4


def outline(scale: float) -> tuple[tuple[float, float], ...]:
    """An invented tote-like outline in its blank, grain along x [mm]."""
    points = []
    for i in range(48):
        a = 2 * math.pi * i / 48
        r = 1 + 0.35 * math.cos(2 * a) - 0.18 * math.sin(3 * a)
        points.append((scale * (52 * r * math.cos(a) + 72), scale * (40 * r * math.sin(a) + 48)))
    return tuple(points)


def blank_of(name: str, scale: float) -> Blank:
    """The outline's blank with 1.5 mm around it."""
    points = outline(scale)
    left, low = min(x for x, _ in points) - 1.5, min(y for _, y in points) - 1.5
    moved = tuple((x - left, y - low) for x, y in points)
    return Blank(name, max(x for x, _ in moved) + 1.5, max(y for _, y in moved) + 1.5, 27.0, moved)


def orders(quantity: int) -> list[Order]:
    """Three planes, two blanks each: six kinds."""
    made = []
    for name, scale, side in (("Wren", 0.9, 40.0), ("Linnet", 1.0, 43.0), ("Heron", 1.06, 45.0)):
        made.append(
            Order(name, "black-cherry", quantity, (blank_of("tote", scale), Blank("knob", side + 8, side, side)))
        )
    return made


def boards(count: int) -> list[Board]:
    """A rack drawn from a fixed seed."""
    rng = random.Random(5)
    out = []
    for n in range(count):
        width, length = rng.choice([5, 5.5, 6, 7, 8, 9.5, 10]) * MM, rng.choice([48, 60, 72, 96, 120]) * MM
        defects = []
        for _ in range(rng.choice([0, 0, 1, 2, 3])):
            dx, dy = rng.uniform(20, 90), rng.uniform(15, 40)
            defects.append(Defect(rng.uniform(0, length - dx), rng.uniform(0, width - dy), dx, dy))
        out.append(
            Board(f"B{n:03d}", "black-cherry", rng.choice([1.25, 2, 2]) * MM, width, length, "FAS", 7.0, tuple(defects))
        )
    return out


# Falkenauer's triplets, ESICUP/datasets, commit 5fba5c4f, CC0-1.0: 20 bins of 100 by construction
T60 = """
36.6 26.8 36.6 43.0 26.3 30.7 41.4 28.7 29.9 49.5 25.1 25.4 47.4 25.2 27.4 37.0 26.9 36.1 47.3 25.2 27.5 47.2 25.9 26.9
44.4 25.8 29.8 43.9 27.3 28.8 44.5 27.2 28.3 41.9 26.1 32.0 36.3 27.1 36.6 35.5 27.3 37.2 46.6 26.2 27.2 35.7 29.2 35.1
39.5 25.5 35.0 35.0 30.3 34.7 45.0 25.2 29.8 41.0 27.5 31.5"""


def bars() -> None:
    """Cut the sixty bars of t60_00 from as few of 100 as can be; 22 is what a heuristic may take."""
    practice = WoodPractice(
        kerf_rip_mm=0, kerf_crosscut_mm=0, kerf_bandsaw_mm=0, end_trim_mm=0, edge_clearance_mm=0, defect_clearance_mm=0,
        keep_length_mm=1e6, keep_width_mm=1e6, cut_step_mm=1.0, match_sets=False,
    )  # fmt: skip
    sizes = Counter(round(10 * float(v)) for v in T60.split())
    wanted = [Order(f"L{s}", "black-cherry", n, (Blank("bar", float(s), 50.0, 20.0),)) for s, n in sizes.items()]
    stock = [Board(f"B{n:02d}", "black-cherry", MM, 50.0, 1000.0, "FAS", 7.0) for n in range(22)]
    began = time.process_time()
    plan = plan_boards(wanted, stock, practice, ("rip-first",))["rip-first"]
    short = sum(plan.short.values())
    print(
        f"t60_00: {len(plan.boards)} bars, {short} pieces short (optimum 20), {time.process_time() - began:.1f} s CPU"
    )


def main() -> None:
    """Plan 100 boards and 300 blanks of 6 kinds, twice; then bars to length."""
    texts = []
    for _ in range(2):
        began, cpu = time.perf_counter(), time.process_time()
        plans = plan_boards(orders(50), boards(100), WoodPractice())
        seconds, cpu = time.perf_counter() - began, time.process_time() - cpu
        texts.append(repr([p.as_json() for p in plans.values()]))
        for plan in plans.values():
            print(
                f"{plan.way}: {sum(plan.sets.values())} of 150 sets, {sum(plan.matched.values())} from one board, "
                f"{plan.used_bf:.1f} bf, could save {plan.gap_bf:.1f}, yield {100 * plan.yield_fraction:.1f} %, "
                f"saw {plan.saw_time_s / 3600:.1f} h"
            )
        print(f"100 boards, 300 blanks of 6 kinds, three ways: {seconds:.1f} s, {cpu:.1f} s CPU")
    print("same plan twice:", texts[0] == texts[1])
    bars()


if __name__ == "__main__":
    main()
