"""Every design rule that arithmetic can judge, all collected."""

from __future__ import annotations

from parts.plane import kinds
from parts.plane.design import Design
from shared.findings import Finding
from shared.record import replace


def check_design(d: Design) -> list[Finding]:
    """Return every finding about a plane."""
    found: list[Finding] = kinds.of(d.spec.plane.kind, "checks").check_design(d)
    # what to change is said only where something must be
    return [replace(f, change="") if f.verdict == "passed" else f for f in found]
