"""Cutting bars to length against the literature's optimum: the master plan with kerf and trims left out.

chvatal_100: a textbook instance of the cutting-stock problem (data on an optimisation vendor's gallery page); least
stock 453. The harder t60_00 stands in tests/bench/bench_cutplan.py, for its time.
"""

from collections import Counter

import pytest

from parts.handle.blanks import Blank, WoodPractice
from parts.handle.cutplan.model import Order
from parts.handle.cutplan.plan import plan_boards
from parts.handle.rack import Board

BARS = WoodPractice(
    kerf_rip_mm=0, kerf_crosscut_mm=0, kerf_bandsaw_mm=0, end_trim_mm=0, edge_clearance_mm=0, defect_clearance_mm=0,
    keep_length_mm=1e6, keep_width_mm=1e6, cut_step_mm=1.0, match_sets=False,
)  # fmt: skip


def plan_of(sizes, stock, count, way):
    boards = [Board(f"B{n:03d}", "black-cherry", 25.4, 50.0, float(stock), "FAS", 7.0) for n in range(count)]
    orders = [
        Order(f"L{s}", "black-cherry", n, (Blank("bar", float(s), 50.0, 20.0),)) for s, n in sorted(sizes.items())
    ]
    plan = plan_boards(orders, boards, BARS, (way,))[way]
    for b in plan.boards:
        assert sum(p.dx for p in b.placements) <= stock
    laid = Counter(p.order for b in plan.boards for p in b.placements)
    assert all(laid[f"L{s}"] >= n for s, n in sizes.items())
    return plan


@pytest.mark.parametrize("way", ["crosscut-first", "rip-first"])
def test_chvatal_100(way):
    plan = plan_of({45: 97, 36: 610, 31: 395, 14: 211}, 100, 470, way)
    assert len(plan.boards) == 453 and sum(plan.short.values()) == 0
