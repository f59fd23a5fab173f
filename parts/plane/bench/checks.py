"""Every design rule of a bench plane that arithmetic can judge, all collected.

Coded by subject: E edge, M mouth, F frog and bedding, P chipbreaker's pressing, B body, C casting, A adjusters,
H hands and handles, W weight.
"""

from __future__ import annotations

from parts.body.limits import check_limits, lacks
from parts.body.size import TappedHole
from parts.plane.bench.design import BenchDesign
from parts.plane.rules import cutting, hand, metal, seat, weighing
from parts.plane.rules.pressing import pressing
from parts.plane.rules.room import what_helps
from parts.plane.rules.standing import standing
from parts.plane.weight import weight_or_none
from parts.plane.wood import wood_findings
from shared.findings import Finding
from shared.record import replace
from shared.threads import Thread


def _holes(d: BenchDesign) -> list[tuple[TappedHole, Thread]]:
    b, threads = d.body, d.mechanism.stations.threads
    medium = [(h, threads["medium"]) for h in (*b.holddown, b.knob_boss.hole, b.tote_boss.hole)]
    return medium if b.toe_boss is None else [*medium, (b.toe_boss.hole, threads["small"])]


def _frog(d: BenchDesign) -> float:
    """Return where the frog ends at its farthest [mm]."""
    return d.mechanism.stations.frog_aft + d.mechanism.frog.travel


def _room(d: BenchDesign) -> Finding:
    """Judge whether every wall and radius leaves the model its room; what to change has been tried."""
    found = metal.buildable(lambda: check_limits(d.body))
    return replace(found, change=what_helps(d, found.change, lambda x: len(list(lacks(x.body)))))


def check_design(d: BenchDesign) -> list[Finding]:
    """Return every finding about a plane."""
    return [
        *cutting.edge(d),
        *cutting.mouth(d),
        *seat.bedding(d),
        *pressing(d),
        *metal.body(d, _holes(d)),
        _room(d),
        *metal.casting(d),
        *seat.adjusters(d),
        *hand.hands(d, _frog, "frog", "the frog must slide and lift out with the tote in place"),
        *standing(d, (d.hardware.tote_rod, d.hardware.knob_rod)),
        *weighing.weighed(d, weight_or_none(d)),
        *wood_findings(d),
    ]
