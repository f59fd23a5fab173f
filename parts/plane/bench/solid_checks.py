"""Design rules that only the models can judge: validity, stock, draft, interference at every setting."""

from __future__ import annotations

import cadquery as cq

from parts.body.proof import prove as prove_body
from parts.frog.proof import prove as prove_frog
from parts.frog.solid import FrogSolids
from parts.hardware.seating import Setting
from parts.hardware.solid import hardware_solids, moved_with_blade
from parts.plane.bench.design import BenchDesign
from parts.plane.bench.models import Models
from parts.plane.bench.seats import seating
from parts.plane.bench.stations import BLADE_TRAVEL
from parts.plane.rules import solids
from parts.plane.solid_checks import DESIGN, MEETING, valid_solids
from shared.findings import Finding, judge

LATERAL = 2.0  # deg of the lateral lever, each way, looked at


def settings(d: BenchDesign) -> dict[str, Setting]:
    """Return the settings looked at: as set, and each adjuster at its ends.

    The blade goes out only as far as the chipbreaker stays above the sole: farther it could not cut.
    """
    out = min(BLADE_TRAVEL, 0.9 * d.mechanism.chipbreaker.setback)
    return {
        "as set": Setting(),
        "blade drawn back": Setting(blade_travel=BLADE_TRAVEL),
        "blade pushed out": Setting(blade_travel=-out),
        "lever to the right": Setting(lateral=LATERAL),
        "lever to the left": Setting(lateral=-LATERAL),
    }


def check_solids(d: BenchDesign, models: Models) -> list[Finding]:
    """Return what the models show.

    Args:
        d: the plane.
        models: its solids.
    """
    proof = prove_body(d.body, models.body_casting, models.body)
    return [
        valid_solids(models),
        *solids.body(d, proof),
        *_frog(d, models),
        solids.pattern(d, models),
        *_interference(d, models),
    ]


def _frog(d: BenchDesign, models: Models) -> list[Finding]:
    size = d.mechanism.frog
    proof = prove_frog(size, FrogSolids(models.frog_casting, models.frog))
    lacking = {k: v for k, v in proof.stock_missing_mm3.items() if v > MEETING}
    return [
        Finding(
            "S05",
            "frog",
            "finished frog inside its casting, stock on every machined face",
            judge(proof.uncovered_mm3 <= 1e-3 and not lacking),
            f"{proof.uncovered_mm3:.4f} mm³ outside; stock lacking on: {', '.join(lacking) or 'none'}",
            "0, none",
            "metal cannot be machined on",
            DESIGN,
        ),
        Finding(
            "S06",
            "frog",
            "draft on every wall of the frog",
            judge(proof.least_draft_deg >= size.draft - 0.01),
            f"{proof.least_draft_deg:.2f} deg",
            f"{size.draft:g} deg",
            "a pattern without draft tears the mould",
            DESIGN,
        ),
    ]


def _at(d: BenchDesign, models: Models, setting: Setting) -> dict[str, cq.Solid]:
    """Return every solid of the assembly with the adjusters at a setting."""
    if setting == Setting():
        return {p.name: p.solid for p in models.pieces}
    places = seating(d)
    fixed = {p.name: p.solid for p in models.pieces if p.part not in ("hardware", "blade", "chipbreaker")}
    # blade and chipbreaker ride together; the lever cap is loosened to adjust and stays where it is
    for name, solid in (("blade", models.blade), ("chipbreaker", models.chipbreaker)):
        fixed[name] = moved_with_blade(solid, d.hardware, places, setting)
    return fixed | dict(hardware_solids(d.hardware, places, setting))


# when the blade moves the lever cap rides on it by its spring: their contact is judged as set
RIDES = {"chipbreaker"}
# what no adjuster moves
FIXED = {"body", "frog", "tote", "knob", "tote rod", "knob rod", "tote rod nut", "knob rod nut", "tote toe screw"}


def _interference(d: BenchDesign, models: Models) -> list[Finding]:
    def looked_at(setting: int, pair: frozenset[str]) -> bool:
        if setting == 0:
            return True
        rides = pair & RIDES and any(name.startswith("lever cap") for name in pair)
        return not (pair <= FIXED or rides)  # what has not moved was looked at in the first setting

    return solids.interference(((name, _at(d, models, s)) for name, s in settings(d).items()), looked_at)
