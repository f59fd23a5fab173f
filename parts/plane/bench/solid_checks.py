"""Design rules that only the models can judge: validity, stock, draft, interference at every setting."""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, degrees, radians, sin

import cadquery as cq

from parts.blade.bedding import lateral_adjust
from parts.body.proof import prove as prove_body
from parts.frog.proof import prove as prove_frog
from parts.frog.solid import FrogSolids
from parts.hardware.seating import NOMINAL, Setting
from parts.hardware.solid import hardware_solids, moved_with_blade
from parts.plane.bench.design import BenchDesign
from parts.plane.bench.models import Models
from parts.plane.bench.seats import seating
from parts.plane.bench.stations import BLADE_TRAVEL
from parts.plane.rules import solids
from parts.plane.rules.seat import LATERAL_SWING
from parts.plane.solid_checks import DESIGN, MEETING, valid_solids
from shared.findings import Finding, judge

NEARLY = 0.9  # of the way until a corner of the edge meets the mouth's side, or the edge the mouth's front


@dataclass(frozen=True)
class Place:
    """How the adjusters stand: those on the blade, and the frog aft along the sole from where it is drawn [mm]."""

    blade: Setting = NOMINAL
    frog: float = 0.0


def lever_end(d: BenchDesign) -> float:
    """Return how far the lateral lever can turn, each way, before a corner of the edge meets the mouth's side [deg]."""
    places, lever = seating(d), d.hardware.lateral
    beside = d.body.mouth_half_width - d.blade.width / 2
    turn = radians(lateral_adjust(d.blade.width, beside, places.cap_screw_at))
    sideways = (lever.roller_at - places.cap_screw_at) * sin(turn) / (lever.roller_at - lever.pivot_at)
    return min(degrees(asin(sideways)), LATERAL_SWING)


def settings(d: BenchDesign) -> dict[str, Place]:
    """Return the settings looked at: as set, and each adjuster at its ends.

    The blade goes out only as far as the chipbreaker stays above the sole: farther it could not cut. The frog goes
    ahead until the edge all but meets the mouth's front; aft of where it is drawn the blade lies on the mouth's aft
    wall and not on the frog, so there is no end to look at there.
    """
    out = min(BLADE_TRAVEL, 0.9 * d.mechanism.chipbreaker.setback)
    lever, frog = NEARLY * lever_end(d), d.mechanism.frog.travel
    return {
        "as set": Place(),
        "blade drawn back": Place(Setting(blade_travel=BLADE_TRAVEL)),
        "blade pushed out": Place(Setting(blade_travel=-out)),
        "lever to the right": Place(Setting(lateral=lever)),
        "lever to the left": Place(Setting(lateral=-lever)),
        "frog ahead, mouth shut": Place(frog=-min(frog, NEARLY * d.spec.body.mouth_opening)),
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
            solids.MORE_STOCK,
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
            solids.LESS_DRAFT,
        ),
    ]


def _at(d: BenchDesign, models: Models, place: Place) -> dict[str, cq.Solid]:
    """Return every solid of the assembly with the adjusters at a setting."""
    as_set = {p.name: p.solid for p in models.pieces}
    if place == Place():
        return as_set
    if place.frog:
        along = cq.Vector(place.frog, 0, 0)
        # washers and screws stay over the body's holes: the frog slides under them in its slots
        return {n: s if stays(n) else s.translate(along) for n, s in as_set.items()}
    setting = place.blade
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


def stays(name: str) -> bool:
    """Return whether a piece stays where it is when the frog is slid."""
    return name in FIXED - {"frog"} or name.startswith("frog hold-down")


def _interference(d: BenchDesign, models: Models) -> list[Finding]:
    def looked_at(setting: int, pair: frozenset[str]) -> bool:
        if setting == 0:
            return True
        rides = pair & RIDES and any(name.startswith("lever cap") for name in pair)
        return not (pair <= FIXED or rides)  # what has not moved was looked at in the first setting

    placed = ((name, _at(d, models, s)) for name, s in settings(d).items())
    return solids.interference(d.spec.plane.kind, placed, looked_at)
