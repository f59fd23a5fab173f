"""The depth adjuster's yoke, from its end and its side, square to the bed. Lengths mm."""

from __future__ import annotations

from math import cos, radians, sin
from typing import TYPE_CHECKING

from parts.hardware.adjusters import TIP_NECK, YOKE_CORNER, bridge_drop
from parts.hardware.size import PIN_HOLE, PIN_HOLE_TOL, DepthAdjuster
from parts.plane.sheets.shapes import on_bed_seen, piece
from shared.drawing.plan import SheetPlan

if TYPE_CHECKING:
    from parts.plane.run import Run


def yoke_view(plan: SheetPlan, run: Run, d: DepthAdjuster) -> None:
    """Draw the yoke from its end and its side."""
    pivot = -(run.design.blade.thickness + d.pivot_h)
    solid = piece(run, "hardware", "yoke").solid
    view = plan.view("yoke", on_bed_seen(run, "yoke", solid, "end"), label="YOKE, 1 OFF")
    side = plan.view("yoke side", on_bed_seen(run, "yoke", solid, "side"), of=view, place="right")
    tip, low, s = pivot + d.upper_arm, pivot - d.lower_arm, d.wheel_at
    side.centre_line((s - 5.0, pivot), (s + 5.0, pivot))
    side.centre_marks([((s, tip), d.tip_diameter / 2 - 1.0), ((s, low), d.yoke_thickness / 2)])
    side.dim_v((s, pivot), (s, tip), d.upper_arm, 0.05, side="right")
    side.dim_v((s, pivot), (s, low), d.lower_arm, 0.05, side="right")
    hole = (d.pivot_pin + PIN_HOLE) / 2
    side.diameter((s, pivot), (s + hole, pivot), 2 * hole, PIN_HOLE_TOL, suffix=" THRU")
    a = radians(160.0)
    eye = d.eye_diameter / 2
    side.leader(
        (s + eye * cos(a), pivot + eye * sin(a)), [side.length_row(d.eye_diameter, prefix="eye Ø")], toward=160.0
    )
    end = d.yoke_thickness / 2
    ends = side.length_row(d.yoke_thickness, (0.0, -0.05), prefix="2 fork ends Ø")
    side.leader((s - end * 0.6, low - end * 0.8), [ends], toward=-120.0)
    r = d.tip_diameter / 2
    side.leader(
        (s - r * 0.94, tip + r * 0.34), [side.length_row(d.tip_diameter, (0.0, -0.05), prefix="tip Ø")], toward=150.0
    )
    arm = d.arm_thickness / 2
    arms = side.length_row(d.arm_thickness, prefix="arms ", suffix=" thick")
    side.leader((s + arm, low + 0.45 * d.lower_arm), [arms], toward=-20.0)
    w = d.yoke_half_width
    top = d.tip_q
    t = d.tip_half_width
    view.dim_h((-t, top), (t, top), 2 * t, 0.1, side="above")
    view.dim_h((-w, pivot), (w, pivot), 2 * w, (0.0, -0.1), side="above")
    view.dim_h((-d.fork_inside, low), (d.fork_inside, low), 2 * d.fork_inside, 0.1, side="below")
    view.dim_h((-d.fork_outside, low), (d.fork_outside, low), 2 * d.fork_outside, side="below")
    shoulder, foot = pivot - bridge_drop(d), low - d.yoke_thickness / 2
    view.dim_v((0.0, pivot), (t, top), top - pivot, (0.0, -0.1), side="left")
    view.dim_v((-w, pivot), (-d.fork_outside, shoulder), bridge_drop(d), 0.1, side="left")
    view.dim_v((t, top), (d.fork_outside, foot), top - foot, reference=True, side="right")
    c = YOKE_CORNER * (1.0 - 0.5**0.5)
    view.leader((d.fork_outside - c, shoulder - c), [view.length_row(YOKE_CORNER, prefix="2× R")], toward=40.0)
    arch = d.fork_inside
    view.leader((arch * 0.5, low + arch * 0.75**0.5), [view.length_row(arch, prefix="R ", suffix=", full,"),
                "centre level with the fork ends"], toward=-60.0)  # fmt: skip
    shank = d.tip_diameter / 2 - TIP_NECK
    side.leader((s - shank, (pivot + eye + tip - r) / 2), [side.length_row(2 * shank, prefix="shank ",
                suffix=" thick")], toward=180.0)  # fmt: skip
