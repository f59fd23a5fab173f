"""Every design rule of a low-angle plane that arithmetic can judge, all collected.

Coded as for the bench plane where the rule is the same: E edge, M mouth, F bedding, B body, C casting, A adjusters,
H hands and handles, W weight.
"""

from __future__ import annotations

from parts.body.low_angle.limits import lacks
from parts.body.room import refuse
from parts.body.size import TappedHole
from parts.plane.low_angle.design import LowAngleDesign
from parts.plane.low_angle.hold_rules import hold
from parts.plane.low_angle.rules import adjusters, bedding, mouth
from parts.plane.rules import cutting, hand, metal, weighing
from parts.plane.rules.room import what_helps, what_to_change
from parts.plane.rules.standing import standing
from parts.plane.weight import weight_or_none
from parts.plane.wood import wood_findings
from shared.findings import Finding
from shared.record import replace
from shared.threads import Thread

# body length [mm] -> least and most mass of an iron plane [kg]: block plane to low-angle jack; general trade practice
MASSES = ((150.0, 0.5, 0.9), (250.0, 1.1, 1.8), (350.0, 1.6, 2.6))


def _holes(d: LowAngleDesign) -> list[tuple[TappedHole, Thread]]:
    """Return every tapped hole whose depth the sole limits, with its thread."""
    b, small, rod = d.body, d.stations.threads["small"], d.rods.knob[0].thread
    knob = b.toe_way.stud if b.toe_way is not None else (b.knob_boss.hole if b.knob_boss else None)
    found = [(b.stud, small)]
    if knob is not None:
        found.append((knob, rod))
    if b.tote_boss is not None:
        found.append((b.tote_boss.hole, rod))
    if b.toe_boss is not None:
        found.append((b.toe_boss.hole, small))
    return found


def _wheel(d: LowAngleDesign) -> float:
    """Return where the depth wheel's rim ends at its farthest [mm]."""
    return d.body.on_bed(d.adjuster.rim_to + d.adjuster.travel, d.adjuster.axis_h)[0]


def _room(d: LowAngleDesign) -> Finding:
    """Judge whether every wall and radius leaves the model its room; each lack says what to change."""
    reasons = lacks(d.body)
    found = metal.buildable(lambda: refuse(reasons))
    if not reasons:
        return found
    said = [str(lack.error()) for lack in reasons]
    changes = (lack.change or what_to_change(text) for lack, text in zip(reasons, said, strict=True))
    helps = (what_helps(d, change, lambda x: len(lacks(x.body))) for change in dict.fromkeys(changes))
    return replace(found, value="; ".join(said), change="; ".join(dict.fromkeys(helps)))


def check_design(d: LowAngleDesign) -> list[Finding]:
    """Return every finding about a plane."""
    return [
        *cutting.edge(d),
        *mouth(d),
        *bedding(d),
        *metal.body(d, _holes(d)),
        _room(d),
        *metal.casting(d),
        *adjusters(d),
        *hand.hands(d, _wheel, "depth wheel", "fingers must reach the wheel between blade and tote"),
        *standing(d, [rod for rod, _ in d.rods.rods]),
        *hold(d),
        *weighing.weighed(d, weight_or_none(d), MASSES),
        *wood_findings(d),
    ]
