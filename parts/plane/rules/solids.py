"""Rules of the models that are the same for every kind of plane: body in its casting, pattern."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable

import cadquery as cq

from parts.body.proof import BodyProof
from parts.plane.design import Design
from parts.plane.models import PlaneModels
from parts.plane.rules.apart import room_for
from parts.plane.solid_checks import DESIGN, MEETING, REPORT
from shared.cad.solids import Room
from shared.findings import Finding, judge

MORE_STOCK = "ask for a coarser casting.tolerance_grade or machining_grade in shop.toml: more stock stands round it"
LESS_DRAFT = "ask for less casting.draft_outside or draft_inside in shop.toml, or set body.parting_height"


def body(d: Design, proof: BodyProof) -> list[Finding]:
    """Judge the body against its casting: inside it, stock on every machined face, draft."""
    least = proof.least_stock
    weak = [w for w in proof.drafts if not w.enough]
    return [
        Finding(
            "S02",
            "body",
            "finished body inside its casting",
            judge(proof.uncovered_mm3 <= 1e-6 * proof.finished_mm3),
            f"{proof.uncovered_mm3:.4f} mm³ outside"
            + (", by rays, since the kernel's cut of the two failed" if proof.uncovered_by_rays else ""),
            "0",
            "metal cannot be machined on",
            DESIGN,
            MORE_STOCK,
        ),
        Finding(
            "S03",
            "body",
            "stock on every machined face",
            judge(least.least >= d.body.cast.required - 1e-3),
            f"least {least.least:.2f} mm, on {least.name}; "
            + ", ".join(f"{s.name} {s.least:.2f} to {s.most:.2f}" for s in proof.stock),
            f"{d.body.cast.required:g} mm",
            "a face without stock does not clean up",
            DESIGN,
            MORE_STOCK,
        ),
        Finding(
            "S04",
            "body",
            "draft on every wall, no undercut",
            judge(not weak and not proof.undercuts),
            f"outside {proof.least_draft_outside:.2f} deg, inside {proof.least_draft_inside:.2f} deg, "
            f"{len(proof.undercuts)} undercuts" + "".join(f"; {u.why} at {u.at}" for u in proof.undercuts),
            f"{d.body.cast.draft_outside:g} deg outside, {d.body.cast.draft_inside:g} deg inside",
            "a pattern without draft tears the mould",
            DESIGN,
            LESS_DRAFT,
        ),
    ]


def pattern(d: Design, models: PlaneModels) -> Finding:
    """Judge the contraction put on the body's pattern."""
    c = d.contraction
    asked = (1 + c.x) * (1 + c.y) * (1 + c.z)
    ratio = models.body_pattern.Volume() / models.body_casting.Volume()
    uniform = c.is_uniform
    # unequal factors are put on the sizes, where radii take the mean of two factors
    slack = 1e-6 if uniform else 2e-4
    return Finding(
        "S07",
        "body",
        "pattern volume is casting volume times the axis factors",
        judge(abs(ratio / asked - 1) <= slack),
        f"{ratio:.7f}",
        f"{asked:.7f}",
        "the contraction is in the pattern once and on every axis",
        DESIGN,
        REPORT,
    )


def interference(
    kind: str,
    placed: Iterable[tuple[str, dict[str, cq.Solid]]],
    looked_at: Callable[[int, frozenset[str]], bool],
) -> list[Finding]:
    """Judge that no two parts share space, a finding a setting of the adjusters.

    Args:
        kind: of the plane.
        placed: name of a setting, and every solid of the assembly by name as it stands then.
        looked_at: whether a pair of names must be looked at in the setting of that number.
    """
    found = []
    for i, (name, solids) in enumerate(placed):
        room, clashes, pairs = Room(solids), [], []
        for a, b in itertools.combinations(solids, 2):
            if looked_at(i, frozenset((a, b))) and (volume := room.common_volume(a, b)) > MEETING:
                clashes.append(f"{a} and {b} share {volume:.2f} mm³")
                pairs.append((a, b))
        found.append(
            Finding(
                f"S1{i}",
                "plane",
                f"no two parts interfere, {name}",
                judge(not clashes),
                "; ".join(clashes) or "none meet",
                f"{MEETING:g} mm³",
                "parts that share space cannot be put together",
                DESIGN,
                room_for(kind, pairs),
            )
        )
    return found
