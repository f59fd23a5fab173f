"""The sheet of a low-angle plane's toe piece."""

from __future__ import annotations

from math import radians, tan
from typing import TYPE_CHECKING, cast

from parts.body.low_angle.block import piece_toe
from parts.body.low_angle.size import PIECE_LENGTH_TOL, PIECE_TOL, PLATE_TOL, LowBodySize, ToeWay
from parts.body.low_angle.toe_way import CORNER_MORE
from parts.plane.sheets.common import FLAT, SheetEntry, letters, new_sheet, seen
from parts.plane.sheets.metal import (
    GROUND,
    HAND,
    MILLED,
    full_thread,
    ra_text,
    section,
    size_text,
    sliced,
    thread_call,
    weighed,
)
from shared.drawing.plan import SheetPlan
from shared.drawing.view import View

if TYPE_CHECKING:
    import cadquery as cq

    from parts.plane.low_angle.design import LowAngleDesign
    from parts.plane.low_angle.models import Models
    from parts.plane.run import Run


ALONG = letters("AB")[0]


def toe_piece_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the toe piece's sheet.

    Raises:
        ValueError: a plane with a fixed mouth has none.
    """
    d = cast("LowAngleDesign", run.design)
    size, metal, way = d.body, d.body_alloy, d.body.toe_way
    solid = cast("Models", run.models).toe_piece
    if way is None or solid is None:
        raise ValueError("a fixed mouth has no toe piece")
    mass = weighed(run, "toe piece", solid, metal.density_kg_m3)
    plan = new_sheet(run, entry, material=f"{metal.name}, bar or a casting's plate", mass_kg=mass, tolerance=HAND,
                     texture=ra_text(MILLED, d.spec.units), scales=("2:1",))  # fmt: skip
    _views(run, plan, solid, size, way)
    first, hole = d.spec.units, way.stud
    plan.notes([
        "Machined all over from the body's alloy, so that it wears and grinds with the sole. Datum A: sole face. B: "
        "left side.",
        f"Fit the plate to its pocket: free to slide, {size_text(way.side_clearance, first, (4, 3))} clear each side; "
        "its plate is thicker than the ledges are high: drawn up and locked it stands proud of the sole. Lap its sole "
        "side until it is flush, or grind it with the sole.",
        "Grind the sole with the piece in place and locked.",
        f"Stud's hole: drill Ø {size_text(hole.tap_drill, first)}, {size_text(hole.depth, first)} deep, flat bottom; "
        f"tap {thread_call(hole.thread)}, full thread {size_text(full_thread(hole), first)}. Do not break through the "
        "sole.",
        f"Mouth from {size_text(way.opening_least, first)} to {size_text(way.opening_most, first)}; drawn as set to "
        f"{size_text(size.mouth_opening, first)}.",
        "The aft edge at the sole stays sharp and straight, burr off; break all others "
        f"{size_text(0.2, first)}.",
        "Caution: a small piece is thrown by the cutter: hold it in soft jaws against a stop, not by hand.",
    ])  # fmt: skip
    return plan


def _views(run: Run, plan: SheetPlan, solid: cq.Shape, size: LowBodySize, way: ToeWay) -> None:
    side = section(plan, f"{ALONG}-{ALONG}", sliced(run, "toe piece", solid, "front", (0.0, 0.0, 0.0)))
    aft, toe, top = -size.mouth_opening, piece_toe(size, way, size.mouth_opening), way.ledge_z
    lean, boss = top / tan(radians(size.mouth_front_angle)), way.boss_radius - way.boss_clearance
    high = way.boss_z - way.boss_clearance
    side.dim_h((toe, 0.0), (aft, 0.0), aft - toe, PIECE_LENGTH_TOL)
    side.dim_v((toe, 0.0), (toe, top), top, PLATE_TOL, side="left")
    side.dim_v((toe, 0.0), (way.boss_x - boss, high), high, (0.0, -0.1), side="left")
    side.angle((aft - lean, top), (aft, top), (aft, 0.0), size.mouth_front_angle, 0.5)
    side.datum("A", ((toe + aft) / 2, 0.0), toward=270.0)
    side.leader((toe + 4.0, 0.0), [side.frame("flatness", FLAT)], toward=240.0)
    side.surface((aft - 4.0, 0.0), GROUND, note="sole", toward=300.0)
    side.tolerance_frame(((toe + way.boss_x - boss) / 2, top), "parallelism", 0.02, ["A"], toward=110.0)
    _plan_view(plan.view("plan", seen(run, "toe piece", solid, "top"), of=side, place="above"), size, way, boss)


def _plan_view(view: View, size: LowBodySize, way: ToeWay, boss: float) -> None:
    aft, toe = -size.mouth_opening, piece_toe(size, way, size.mouth_opening)
    half, r = size.mouth_half_width - way.side_clearance, way.corner + CORNER_MORE
    view.dim_v((toe, -half), (toe, half), 2 * half, PIECE_TOL, side="left")
    view.dim_h((aft, half), (way.boss_x, 0.0), aft - way.boss_x, 0.1, side="above")
    view.radius((toe + r, half - r), (toe + r - r * 0.5**0.5, half - r + r * 0.5**0.5), r, prefix="2× ")
    view.diameter((way.boss_x, 0.0), (way.boss_x, boss), 2 * boss, (0.0, -0.1))
    view.leader((way.boss_x, -way.stud.tap_drill / 2), f"{thread_call(way.stud.thread)}, see note", toward=300.0)
    view.centre_marks([((way.boss_x, 0.0), boss)])
    view.section_marks((toe - 8.0, 0.0), (aft + 8.0, 0.0), ALONG, 90.0)
    view.datum("B", ((toe + way.boss_x) / 2, -half), toward=270.0)
    # the edge is a line in the sole's plane: it can be straight, and square to a side
    rows = [view.frame("straightness", FLAT, note="aft edge at the sole"), view.frame("perpendicularity", FLAT, ["B"])]
    view.leader((aft, 0.6 * half), rows, toward=30.0)


def toe_piece_sheets(run: Run) -> list[SheetEntry]:
    """Return the toe piece's sheet; none for a plane with a fixed mouth."""
    if cast("LowAngleDesign", run.design).body.toe_way is None:
        return []
    return [SheetEntry("toe-piece", "Toe piece", "toe-piece", ("machine", "assembly"), toe_piece_sheet)]
