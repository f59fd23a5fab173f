"""Design rules that only the models can judge: validity, stock, draft, interference at every setting."""

from __future__ import annotations

from parts.plane import kinds
from parts.plane.casting_findings import casting_findings
from parts.plane.casting_proof import casting_proofs
from parts.plane.design import Design
from parts.plane.models import PlaneModels
from shared.findings import Finding, judge

MEETING = 0.01  # mm3: what two parts that touch may share by rounding
REPORT = "no key moves it: the model is at fault, report it with the spec"
DESIGN = "DESIGN: what must hold by computation for every plane"


def check_solids(d: Design, models: PlaneModels) -> list[Finding]:
    """Return what the models show.

    Args:
        d: the plane.
        models: its solids.
    """
    found: list[Finding] = kinds.of(d.spec.plane.kind, "solid_checks").check_solids(d, models)
    return [*found, *casting_findings(casting_proofs(models))]


def valid_solids(models: PlaneModels) -> Finding:
    """Return whether every solid of the assembly is one valid closed solid."""
    bad = [p.name for p in models.pieces if not p.solid.isValid() or p.solid.Volume() <= 0]
    return Finding(
        "S01",
        "plane",
        "every solid valid and closed",
        judge(not bad),
        f"{len(models.pieces) - len(bad)} of {len(models.pieces)}" + (f"; not: {', '.join(bad)}" if bad else ""),
        "all",
        "a solid that is not closed cannot be cut or printed",
        DESIGN,
        REPORT,
    )
