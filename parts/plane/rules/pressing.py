"""Rules of the chipbreaker's spring: does its edge lie on the blade, and does its bend come back?"""

from __future__ import annotations

from parts.chipbreaker.spring import YIELD_MPA
from parts.plane.bench.design import BenchDesign
from parts.plane.bench.numbers import chipbreaker_of
from parts.plane.rules.trial import Holds, either, least_offer
from shared.findings import Finding, judge
from shared.numbers import GEOMETRY

MILD = f"{GEOMETRY}; beam theory, steel's modulus and yield from memory"


def pressing(d: BenchDesign) -> list[Finding]:
    """Judge the chipbreaker once its screw is tight: spring and lever cap together on the edge, and the bend."""
    n = chipbreaker_of(d)
    closes, sets = bool(n.value("closes")), bool(n.value("takes_a_set"))
    return [
        Finding(
            "P01",
            "chipbreaker",
            "spring and lever cap press the edge down along the whole width",
            judge(closes, True),
            f"{float(n.value('edge_force_n_per_mm')):.2f} N/mm",
            f"{float(n.value('closing_force_n_per_mm')):.2f} N/mm, which presses its edge straight",
            "a shaving finds the gap under an edge that is not pressed down, and wedges in it",
            MILD,
            "" if closes else _change(d, lambda x: bool(chipbreaker_of(x).value("closes")), "raise"),
        ),
        Finding(
            "P02",
            "chipbreaker",
            "bend springs back when the screw is taken out",
            judge(not sets, True),
            f"{float(n.value('spring_stress_mpa')):.0f} MPa",
            f"{YIELD_MPA:g} MPa, where the steel yields",
            "a bend that is closed for good no longer presses its edge on the blade",
            MILD,
            _change(d, lambda x: not chipbreaker_of(x).value("takes_a_set"), "lower") if sets else "",
        ),
    ]


def _change(d: BenchDesign, holds: Holds, gap: str) -> str:
    c = d.mechanism.chipbreaker
    return (
        either(
            least_offer(d, "thin", "chipbreaker.thickness", 0.2, holds),
            least_offer(d, gap, "chipbreaker.gap", 0.05, holds, c.gap),
        )
        or "widen blade.width: a wider edge yields more easily"
    )
