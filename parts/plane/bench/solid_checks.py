"""Design rules that only the models can judge: validity, stock, draft, interference at every setting."""

from __future__ import annotations

import itertools

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
from parts.plane.solid_checks import DESIGN, MEETING, valid_solids
from shared.cad.solids import common_volume
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
    return [valid_solids(models), *_body(d, models), *_frog(d, models), _pattern(d, models), *_interference(d, models)]


def _body(d: BenchDesign, models: Models) -> list[Finding]:
    proof = prove_body(d.body, models.body_casting, models.body)
    least = proof.least_stock
    weak = [w for w in proof.drafts if not w.enough]
    return [
        Finding(
            "S02",
            "body",
            "finished body inside its casting",
            judge(proof.uncovered_mm3 <= 1e-6 * proof.finished_mm3),
            f"{proof.uncovered_mm3:.4f} mm³ outside",
            "0",
            "metal cannot be machined on",
            DESIGN,
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
        ),
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


def _pattern(d: BenchDesign, models: Models) -> Finding:
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
    )


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
    found = []
    for i, (name, setting) in enumerate(settings(d).items()):
        solids = _at(d, models, setting)
        clashes = []
        for (a, sa), (b, sb) in itertools.combinations(solids.items(), 2):
            pair = {a, b}
            if setting != Setting() and pair & FIXED == pair:
                continue  # neither has moved since the first setting
            if setting != Setting() and pair & RIDES and any(x.startswith("lever cap") for x in pair):
                continue
            volume = common_volume(sa, sb)
            if volume > MEETING:
                clashes.append(f"{a} and {b} share {volume:.2f} mm³")
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
            )
        )
    return found
