"""The files that only a bench plane has. Each function writes what its name says."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from parts.body.outline import plan_view, side_view
from parts.plane.bench.design import BenchDesign
from parts.plane.bench.models import Models
from parts.plane.papers import metal, step_file, title
from shared.cad import palette
from shared.drawing.dxf import write_outline

if TYPE_CHECKING:
    from parts.plane.run import Run


def frog_step(run: Run) -> None:
    """Write finished frog, casting and pattern."""
    m, colour = cast(Models, run.models), metal(cast(BenchDesign, run.design).frog_alloy.is_iron)
    step_file(run, "frog.step", "frog", m.frog, colour)
    step_file(run, "frog-casting.step", "frog casting", m.frog_casting, colour)
    step_file(run, "frog-pattern.step", "frog pattern", m.frog_pattern, palette.WOOD)


def chipbreaker_step(run: Run) -> None:
    """Write the chipbreaker."""
    step_file(run, "chipbreaker.step", "chipbreaker", cast(Models, run.models).chipbreaker, palette.MACHINED)


def body_dxf(run: Run) -> None:
    """Write the body's side and plan at 1:1."""
    d = run.design
    folder, alloy = run.folder("dxf"), d.body_alloy.name
    side, plan = side_view(d.body), plan_view(d.body)
    write_outline(folder / "body-side.dxf", side.outlines, title(run, "body side", alloy), more=side.more)
    write_outline(folder / "body-plan.dxf", plan.outlines, title(run, "body plan", alloy), more=plan.more)
