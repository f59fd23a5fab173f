"""What the proof of the castings says as findings of `check --solids`."""

from __future__ import annotations

from collections.abc import Sequence

from shared.casting.feeding_advice import advice, needs_feeding, summary
from shared.casting.proof import TRAPPED_GRAIN, Proof
from shared.findings import Finding, judge

COMFORT_SLACK = 0.95  # of the comfortable wall, itself no sharp limit, before a warning
BY_MODEL = "measured on the mesh of the casting"
BY_HEAT = (
    "heat conduction computed on the casting; Chvorinov, Flemings (1974), Wlodawer's 1.2 for feeders, not checked in "
    "print"
)


# name of a cast part -> what thickens its walls
THICKER = {
    "body": "thicken body.cheek_thickness or body.sole_thickness, whichever wall that is, or raise body.rail_height",
    "frog": "widen blade.width, or choose another frog.alloy: the frog's own walls follow no key",
    "lever cap": "widen blade.width, or choose another lever_cap.alloy: the cap's own walls follow no key",
}


def casting_findings(proofs: Sequence[Proof]) -> list[Finding]:
    """Return four findings a cast part: wall, hot spots, draw, stock.

    Args:
        proofs: one a cast part.
    """
    return [f for p in proofs for f in (_wall(p), _hot(p), _draw(p), *_stock(p))]


def _wall(p: Proof) -> Finding:
    metal, (least, at) = p.case.alloy, p.walls.least
    thin = least < COMFORT_SLACK * metal.comfortable_wall_mm
    return Finding(
        "S21",
        p.case.name,
        f"thinnest wall of the {p.case.name}'s casting runs",
        judge(least >= metal.minimum_wall_mm and not thin, warning=least >= metal.minimum_wall_mm),
        f"{least:.2f} mm {p.near(at)}".rstrip(),
        f"{metal.minimum_wall_mm:g} mm at least, {metal.comfortable_wall_mm:g} mm to be comfortable",
        "a thinner wall may not fill" + (", or freezes white and hard" if metal.is_iron else ""),
        metal.source_of("minimum_wall_mm"),
        THICKER.get(p.case.name, "choose an alloy that runs in a thinner wall") if thin else "",
    )


def _hot(p: Proof) -> Finding:
    metal = p.case.alloy
    bad = [s for s in p.spots if needs_feeding(s, metal)]
    return Finding(
        "S22",
        p.case.name,
        f"every place of the {p.case.name}'s casting that freezes last can be fed",
        judge(not bad, warning=True),
        f"last {p.near(p.spots[0].at)}, {p.freezing.total_s:.0f} s, modulus {p.hot_modulus_mm:.1f} mm; "
        + summary(p.spots, metal),
        "one pool to the end, or little left in the others",
        "metal that shrinks where nothing can flow in leaves a hole",
        BY_HEAT,
        "; ".join(f"{p.near(s.at)}: {advice(s, metal, p.feed)}" for s in bad),
    )


def _draw(p: Proof) -> Finding:
    trapped = p.draw.trapped_mm3 if p.draw.trapped_mm3 > TRAPPED_GRAIN else 0.0
    where = "" if not trapped or p.draw.trapped_at is None else f" {p.near(p.draw.trapped_at)}"
    return Finding(
        "S23",
        p.case.name,
        f"the {p.case.name}'s pattern leaves the sand",
        judge(p.draws),
        f"least draft {p.draw.least_deg:.2f} deg {p.near(p.draw.at)}; {trapped:.0f} mm³ of sand held{where}",
        f"{p.case.draft_asked:g} deg, none held",
        "a pattern without draft tears the mould",
        BY_MODEL,
        "" if p.draws else "more draft there, or another parting plane",
    )


def _stock(p: Proof) -> list[Finding]:
    if p.case.finished is None or not p.stock:
        return []
    lacking = p.lacking
    least = min(p.stock, key=lambda s: s.least - s.asked)
    outside = f"; {p.bare_mm3:.1f} mm³ of the finished part outside" if not p.covered else ""
    return [
        Finding(
            "S24",
            p.case.name,
            f"stock on every machined plane of the {p.case.name}, finished part inside its casting",
            judge(not lacking and p.covered and not p.unmeasured, warning=not lacking and p.covered),
            f"least {least.least:.2f} mm on {least.name}; "
            + ", ".join(f"{s.name} {s.least:.2f} to {s.most:.2f}" for s in p.stock)
            + outside
            + "".join(f"; not found: {name}" for name in p.unmeasured),
            f"{least.asked:g} mm",
            "a face without stock does not clean up",
            BY_MODEL,
            "" if not lacking else "more stock on " + ", ".join(s.name for s in lacking),
        )
    ]
