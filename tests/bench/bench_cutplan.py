"""Benches of the cut plan; run by hand: python tests/bench/bench_cutplan.py. One line a result, seconds beside it."""

from __future__ import annotations

import math
import random
import sys
import time
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


def main() -> None:
    """Plan 100 boards and 300 blanks of 6 kinds, twice."""
    texts = []
    for _ in range(2):
        began = time.perf_counter()
        plans = plan_boards(orders(50), boards(100), WoodPractice())
        seconds = time.perf_counter() - began
        texts.append(repr([p.as_json() for p in plans.values()]))
        for plan in plans.values():
            print(
                f"{plan.way}: {sum(plan.sets.values())} of 150 sets, {sum(plan.matched.values())} from one board, "
                f"{plan.used_bf:.1f} bf, could save {plan.gap_bf}, yield {100 * plan.yield_fraction:.1f} %, "
                f"saw {plan.saw_time_s / 3600:.1f} h"
            )
        print(f"100 boards, 300 blanks of 6 kinds, three ways: {seconds:.1f} s")
    print("same plan twice:", texts[0] == texts[1])


if __name__ == "__main__":
    main()
