"""Cutting bars to length against the literature's optima: the master plan with kerf and trims left out.

chvatal_100: a textbook instance of the cutting-stock problem (data on an optimisation vendor's gallery page); least
stock 453. t60_00: Falkenauer triplets, ESICUP/datasets, commit 5fba5c4f, CC0-1.0; 20 bins by construction. Heuristics
may take 2 more.
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
T60 = """
36.6 26.8 36.6 43.0 26.3 30.7 41.4 28.7 29.9 49.5 25.1 25.4 47.4 25.2 27.4 37.0 26.9 36.1 47.3 25.2 27.5 47.2 25.9 26.9
44.4 25.8 29.8 43.9 27.3 28.8 44.5 27.2 28.3 41.9 26.1 32.0 36.3 27.1 36.6 35.5 27.3 37.2 46.6 26.2 27.2 35.7 29.2 35.1
39.5 25.5 35.0 35.0 30.3 34.7 45.0 25.2 29.8 41.0 27.5 31.5"""


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
    assert len(plan_of({45: 97, 36: 610, 31: 395, 14: 211}, 100, 470, way).boards) == 453


def test_falkenauer_t60_00():
    sizes = Counter(round(10 * float(v)) for v in T60.split())
    assert sum(s * n for s, n in sizes.items()) == 20 * 1000
    assert 20 <= len(plan_of(sizes, 1000, 22, "rip-first").boards) <= 22
