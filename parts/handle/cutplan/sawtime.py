"""Saw time of a pattern from the shop's own rates."""

from __future__ import annotations

import math
from collections.abc import Sequence

from parts.handle.blanks import Point, WoodPractice
from parts.handle.cutplan.model import SawCut


def perimeter_mm(points: Sequence[Point]) -> float:
    """Return the length of a closed outline [mm]."""
    return sum(math.dist(a, b) for a, b in zip(points, [*points[1:], *points[:1]], strict=True))


def straight_time_s(cuts: Sequence[SawCut], practice: WoodPractice) -> float:
    """Return the time of straight cuts [s]: each crosscut, each rip by its length, a fence setting a strip width.

    Rips of pieces too short for the table saw are made at the bandsaw's pace.
    """
    crosscuts = sum(1 for c in cuts if c.kind != "rip")
    lengths = [abs(c.x1 - c.x0) for c in cuts if c.kind == "rip"]
    pace = sum(
        v / 1000 * (practice.rip_s_per_m if v >= practice.least_machine_mm else practice.bandsaw_s_per_m)
        for v in lengths
    )
    return crosscuts * practice.crosscut_s + len(lengths) * practice.rip_setup_s / 3 + pace


def bandsaw_time_s(outlines: Sequence[Sequence[Point]], practice: WoodPractice) -> float:
    """Return the time of sawing outlines [s]: set-up a piece and the length of each line."""
    return sum(practice.bandsaw_setup_s + perimeter_mm(o) / 1000 * practice.bandsaw_s_per_m for o in outlines)
