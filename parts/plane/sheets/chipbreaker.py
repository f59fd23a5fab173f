"""The chipbreaker's sheet: plan with its openings, section with bends and hump, the leading edge at 10:1."""

from __future__ import annotations

from math import cos, radians, sin
from typing import TYPE_CHECKING

from parts.chipbreaker import outline
from parts.chipbreaker.outline import ARRIS, FALL_RUN, HUMP_RUN, RELIEF_SHARE, WINDOW_RADIUS
from parts.chipbreaker.size import THREAD_BREAK, ChipbreakerSize
from parts.chipbreaker.spring import EDGE_ERROR_MM
from parts.plane.sheets.common import MEDIUM, SheetEntry, new_sheet
from parts.plane.sheets.edge_text import drill_text, edges
from parts.plane.sheets.metal import size_text
from parts.plane.sheets.shapes import mass, on_bed_cut, texture_text, thread_call
from shared.both_units import force
from shared.drawing.plan import SheetPlan
from shared.drawing.primitives import Line
from shared.drawing.view import View
from shared.profile import Profile
from shared.threads import thread

if TYPE_CHECKING:
    from parts.plane.run import Run

# Limits and finishes: common practice, no source.
WIDTH_TOL = (0.0, -0.1)
HOLE_TOL = 0.1
GAP_TOL = 0.1
ANGLE_TOL = 1.0
TOP_RA, EDGE_RA, PLAIN_RA = 1.6, 0.4, 3.2


def chipbreaker_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the chipbreaker's sheet."""
    size: ChipbreakerSize = run.design.mechanism.chipbreaker  # type: ignore[attr-defined]
    plan = new_sheet(
        run,
        entry,
        material="Cold rolled steel, 0.2 % carbon or less",
        mass_kg=mass(run, "chipbreaker", "chipbreaker"),
        tolerance=MEDIUM,
        texture=texture_text(PLAIN_RA, run.design.spec.units),
        finish="Leading edge polished; lightly oiled",
        scales=("2:1",),
    )
    flat = _plan(plan, size)
    _section(plan, run, size, flat)
    _edge(plan, size)
    plan.notes(_notes(run, size))
    return plan


def _plan(plan: SheetPlan, size: ChipbreakerSize) -> View:
    """Draw it from above; every place along it counts from the leading edge."""
    holes = outline.openings(size)
    view = plan.view("plan", [outline.plan(size), *holes.values()])
    start, half = size.setback, size.width / 2
    major = size.screw_thread_major / 2
    view.draw([Profile.circle((size.screw_at, 0.0), size.screw_mouth / 2, "mouth")])
    view.centre_line((start - 6.0, 0.0), (size.end + 6.0, 0.0))
    view.draw([Line((s, -reach), (s, reach)) for s, reach in (
        (size.cap_screw_at, size.cap_screw_opening[1] / 2 + 2.0), (size.screw_at, major + 2.0),
        (size.yoke_at, size.yoke_window[1] / 2 + 2.0))], "CENTRE")  # fmt: skip
    edge = (start, 0.0)
    view.dim_h(edge, (size.end, 0.0), size.end - start, side="below")
    for s, tol in ((size.cap_screw_at, HOLE_TOL), (size.yoke_at, 0.05), (size.screw_at, HOLE_TOL)):
        view.dim_h(edge, (s, 0.0), s - start, tol, side="above")
    view.dim_v((size.end - 2.2 * size.corner_radius, -half), (size.end - 2.2 * size.corner_radius, half), size.width,
               WIDTH_TOL, side="right")  # fmt: skip
    long, wide = size.cap_screw_opening
    view.leader((size.cap_screw_at - 0.2 * long, -wide / 2), ["opening over the lever-cap screw",
                view.length_row(long, suffix=" long"), view.length_row(wide, suffix=" wide, round ends")],
                toward=-110.0)  # fmt: skip
    long, wide = size.yoke_window
    view.leader((size.yoke_at + long * 0.3, -wide / 2), ["yoke window",
                view.length_row(long, (0.05, 0.0), suffix=" along"), view.length_row(wide, 0.1, suffix=" across"),
                view.length_row(WINDOW_RADIUS, prefix="corners R ")],
                toward=-70.0)  # fmt: skip
    c = size.corner_radius
    view.leader((size.end - c * 0.3, half - c * 0.3), [view.length_row(c, prefix="2× R")], toward=45.0)
    view.datum("B", (size.end - 2.6 * c, half), toward=90.0)
    view.leader((start, 0.3 * size.width), ["leading edge", view.frame("straightness", EDGE_ERROR_MM),
                view.frame("perpendicularity", 0.1, ["B"])], toward=180.0)  # fmt: skip
    view.section_marks((start - 9.0, 0.0), (size.end + 9.0, 0.0), "A", 90.0)
    return view


def _thread_rows(run: Run, size: ChipbreakerSize, view: View) -> list[object]:
    units = run.design.spec.units
    return [f"{thread_call(thread('large', units), inside=True)} THRU",
            f"tap drill Ø{drill_text(size.screw_tap_drill, units)}",
            view.length_row(THREAD_BREAK, prefix="both mouths broken ", suffix=" by 45°, no more")]  # fmt: skip


def _section(plan: SheetPlan, run: Run, size: ChipbreakerSize, flat: View) -> None:
    cut = on_bed_cut(run, "chipbreaker", run.models.chipbreaker)  # type: ignore[attr-defined]
    view = plan.view("A-A", cut.projection, faces=cut.faces, of=flat, place="below", label="SECTION A-A")
    start, t = size.setback, size.thickness
    edge = (start, 0.0)
    # the blade's face, on which it is drawn set
    view.draw([Line((start - 4.0, 0.0), (size.end + 4.0, 0.0))], "PHANTOM")
    view.datum("A", (size.end - 2.0, 0.0), toward=-90.0)
    view.dim_h(edge, (size.hump_at, size.hump_top), size.hump_at - start, 0.2, side="above")
    view.dim_h(edge, (size.hump_at + HUMP_RUN, size.plate_top), size.hump_at + HUMP_RUN - start, side="above",
               reference=True)  # fmt: skip
    fall = size.seat_from - FALL_RUN
    view.dim_h(edge, (fall, size.gap), fall - start, side="below")
    view.dim_h(edge, (size.seat_from, 0.0), size.seat_from - start, side="below")
    view.dim_v((size.hump_at, 0.0), (size.hump_at, size.hump_top), size.hump_top, 0.2, side="left")
    view.dim_v((size.end, 0.0), (size.end, t), t, 0.1, side="right")
    at = size.hump_at + HUMP_RUN + 6.0
    view.leader((at, size.gap), [view.length_row(size.gap, GAP_TOL, prefix="gap to the blade ")], toward=-60.0)
    view.leader((size.hump_at * 0.75, _top(size, size.hump_at * 0.75)), [view.length_row(outline.front_radius(size),
                prefix="R ", places=(2, 1), suffix=", front of the hump, level on its top")], toward=75.0)  # fmt: skip
    rise = size.hump_rise
    hump = (HUMP_RUN**2 + rise**2) / (4 * rise)
    view.leader((size.hump_at + HUMP_RUN / 3, _top(size, size.hump_at + HUMP_RUN / 3)),
                [view.length_row(hump, prefix="2× R ", places=(2, 1), suffix=", tangent")], toward=60.0)  # fmt: skip
    at = size.hump_at + 0.8 * HUMP_RUN
    view.surface((at, _top(size, at)), TOP_RA, note="hump and front", toward=40.0)
    both = (FALL_RUN**2 + size.gap**2) / (2 * size.gap)
    inside = (both - t) / 2
    view.leader((fall + FALL_RUN / 2, _top(size, fall + FALL_RUN / 2)),
                [view.length_row(inside, prefix="2 bends, inside R ", places=(2, 1)), "equal angles, tangent"],
                toward=75.0)  # fmt: skip
    view.leader((size.screw_at + size.screw_tap_drill / 2, t * 0.6), _thread_rows(run, size, view), toward=40.0)  # type: ignore[arg-type]
    view.leader(edge, "DETAIL B", end="dot", toward=180.0)


def _top(size: ChipbreakerSize, s: float) -> float:
    return outline.top_at(size, s)


def _edge(plan: SheetPlan, size: ChipbreakerSize) -> None:
    """Draw the leading edge on the blade at 10:1."""
    shape = outline.section(size)
    top, start = outline.bevel_top(size), size.setback
    far = top[0] + 2.5
    relief = radians(outline.relief_angle(size))
    reach = 0.9 * outline.RELIEF_SHARE * (size.hump_at - start)
    far = min(far, start + reach)
    low, high = (far, (far - start) * sin(relief) / cos(relief)), (far, outline.top_at(size, far))
    # the outline's own pieces, as far as the detail reaches
    kept = [s for s in shape.segments if max(s.start[0], s.end[0]) <= far + 1e-9]
    view = plan.view("B", [*kept, Line((start, 0.0), low)], label="DETAIL B, SECTION", scale="10:1")
    over = [s for s in shape.segments if min(s.start[0], s.end[0]) < far < max(s.start[0], s.end[0])]
    upper = [s for s in over if max(s.start[1], s.end[1]) > high[1] - 1e-6]
    corner = min((min((s.start, s.end), key=lambda p: p[0]) for s in upper), default=top)
    last = [Line(corner, high)] if corner[0] < far - 1e-6 else []
    view.draw(last)
    back = [Line(s.end, s.start) for s in last]
    view.hatch(Profile((Line((start, 0.0), low), Line(low, high), *back, *kept), "leading edge"))
    view.draw([Line(low, high)], "SMOOTH")
    view.draw([Line((start - 1.5, 0.0), (far, 0.0))], "PHANTOM")
    edge = (start, 0.0)
    view.angle(edge, (start + 1.0, 0.0), top, size.edge_angle, ANGLE_TOL)
    view.leader((start + 0.75 * (far - start), 0.75 * low[1]),
                [f"{outline.relief_angle(size):.2f}° relief over half the way to the hump,",
                 view.length_row(relief_radius(size), prefix="then R ", places=(1, 0), suffix=", level at the hump"),
                 "touches at the edge only"], toward=-60.0)  # fmt: skip
    view.dim_v(edge, top, top[1], reference=True, side="left")
    view.surface(((start + top[0]) / 2, top[1] / 2), EDGE_RA, note="polished", toward=150.0)


def relief_radius(size: ChipbreakerSize) -> float:
    """Return the radius of the underside's arc from the straight relief to the hump, where it ends level [mm]."""
    run = (1.0 - RELIEF_SHARE) * (size.hump_at - size.setback)
    return run / sin(radians(outline.relief_angle(size)))


def _notes(run: Run, size: ChipbreakerSize) -> list[str]:
    units = run.design.spec.units
    n = run.numbers["chipbreaker"]
    return [
        "Drawn as set on the blade's face (phantom line, datum A): it touches at the leading edge and over the seat "
        f"about the screw. Leading edge to cutting edge: {size_text(size.setback, units)} as set; lengths count from "
        "the leading edge.",
        f"The bend is a spring: it presses the edge down with {force(float(n.value('spring_force_n')), units)} "
        "when the screw is tight. Held to the light on the blade, no light may show under the edge along "
        "its whole width; lap the underside of the edge until it is so.",
        "The strip is bent, the hump milled from thicker bar or left on it; plate and bends keep their thickness.",
        f"Break the top arris of the upper end {size_text(ARRIS, units)}; the leading edge stays sharp: handle it "
        f"like a blade. All other edges {edges(units)}.",
        f"Width {size_text(size.width, units)}: narrower than the blade, so that it never meets the mouth's sides.",
    ]


CHIPBREAKER_SHEETS = [SheetEntry("chipbreaker", "Chipbreaker", "chipbreaker", ("machine", "blade"), chipbreaker_sheet)]
