"""Every design rule of a bench plane that arithmetic can judge, all collected.

Coded by subject: E edge, M mouth, F frog and bedding, B body, C casting, A adjusters, H hands and handles.
"""

from __future__ import annotations

from parts.plane.bench.design import BenchDesign
from parts.plane.rules import cutting, hand, metal, seat
from parts.plane.wood import wood_findings
from shared.findings import Finding


def check_design(d: BenchDesign) -> list[Finding]:
    """Return every finding about a plane."""
    return [
        *cutting.edge(d),
        *cutting.mouth(d),
        *seat.bedding(d),
        *metal.body(d),
        metal.buildable(d),
        *metal.casting(d),
        *seat.adjusters(d),
        *hand.hands(d),
        *wood_findings(d),
    ]
