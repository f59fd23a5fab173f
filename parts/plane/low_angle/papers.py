"""The files that only a low-angle plane has, and steps that ask whether it has a tote. Each does what its name says."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from parts.body.low_angle.outline import plan_view, side_view
from parts.low_angle import outline
from parts.plane import papers
from parts.plane.low_angle.models import Models
from parts.plane.papers import step_file, title
from shared.cad import palette
from shared.drawing.dxf import write_outline
from shared.profile import Profile

if TYPE_CHECKING:
    from parts.plane.run import Run


def toe_piece_step(run: Run) -> None:
    """Write the toe piece, where there is one."""
    solid = cast(Models, run.models).toe_piece
    if solid is not None:
        step_file(run, "toe-piece.step", "toe piece", solid, palette.MACHINED)


def body_dxf(run: Run) -> None:
    """Write the body's side and plan at 1:1."""
    body, alloy = cast(Models, run.models).design.body, run.design.body_alloy.name
    folder, side, plan = run.folder("dxf"), side_view(body), plan_view(body)
    write_outline(folder / "body-side.dxf", side.outlines, title(run, "body side", alloy), more=side.more)
    write_outline(folder / "body-plan.dxf", plan.outlines, title(run, "body plan", alloy), more=plan.more)


def cap_dxf(run: Run) -> None:
    """Write the lever cap's plan, milled and drilled, at 1:1."""
    d = cast(Models, run.models).design
    cap = d.lever_cap
    clamp = Profile.circle((cap.clamp.at, 0.0), cap.clamp.thread.tap_drill / 2, "clamp's thread")
    plan = outline.cap_plan(cap, outline.front_at(cap, cap.underside_q))
    shapes = [plan, outline.head_pocket(cap), *outline.keyhole(cap), clamp]
    said = title(run, "lever cap, seen square to the blade, at the parting plane", d.cap_alloy.name)
    write_outline(run.folder("dxf") / "lever-cap-plan.dxf", shapes, said)


def tote(run: Run) -> None:
    """Build the tote, where there is one."""
    if run.design.tote is not None:
        _ = run.models.tote


def tote_step(run: Run) -> None:
    """Write the tote, where there is one."""
    if run.design.tote is not None:
        papers.tote_step(run)


def tote_dxf(run: Run) -> None:
    """Write the tote's side, where there is one."""
    if run.design.tote is not None:
        papers.tote_dxf(run)
