"""`planewright check`: every design rule with its verdict."""

from __future__ import annotations

from pathlib import Path

import typer

from parts.commands.load import load_design, shop_path
from parts.commands.show import print_json
from parts.plane.checks import check_design
from shared.errors import EXIT_CHECK_FAILED
from shared.findings import Finding

MARK = {"passed": "  ok ", "warning": " WARN", "failed": " FAIL"}


def run_check(spec: Path, solids: bool, as_json: bool, shop: Path | None) -> None:
    """Check one plane; leaves with 1 when a rule failed.

    Args:
        spec: the plane.
        solids: build the models too and check them.
        as_json: print one JSON object.
        shop: the works' practice, or None.
    """
    design = load_design(spec, shop)
    findings = check_design(design)
    if solids and all(f.verdict != "failed" for f in findings):
        from parts.plane.solid_run import solid_findings

        findings += solid_findings(spec, shop_path(spec, shop))
    counts = {v: sum(f.verdict == v for f in findings) for v in ("passed", "warning", "failed")}
    if as_json:
        print_json({"plane": design.spec.plane.name, "counts": counts, "findings": [f.as_json() for f in findings]})
    else:
        _print(design.spec.plane.name, findings, counts)
    if counts["failed"]:
        raise typer.Exit(EXIT_CHECK_FAILED)


def _print(name: str, findings: list[Finding], counts: dict[str, int]) -> None:
    typer.echo(f"{name}: {counts['passed']} passed, {counts['warning']} warnings, {counts['failed']} failed")
    for f in findings:
        typer.echo(f"{MARK[f.verdict]} {f.code} {f.rule}: {f.value} (limit {f.limit})")
        if f.verdict != "passed":
            typer.echo(f"        why: {f.why} [{f.source}]")
            if f.change:
                typer.echo(f"        change: {f.change}")
