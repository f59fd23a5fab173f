"""What the sheets of every body share: side view with the cheek's outline, plan, heights, holes, tolerances, notes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from parts.body.arch import arch, rim_height
from parts.body.ribs import bosses_of, ribs_of
from parts.body.room import HAND_BREAK, MOUTH_CORNER, RING_DEPTH, ring_reach
from parts.body.size import TappedHole, Trough
from parts.body.views import side_outline
from parts.plane.sheets.common import FLAT
from parts.plane.sheets.metal import DRILLED, GROUND, MILLED, SMALL, full_thread, ra_text, size_text, thread_call
from shared.both_units import ordered
from shared.drawing.plan import SheetPlan
from shared.drawing.view import View
from shared.profile import Profile
from shared.segments import Line, Point, Segment

if TYPE_CHECKING:
    from parts.plane.run import Run

NOT_CAST = 4  # number of the body casting's note that names what is not on the casting


def past(size: Trough) -> float:
    """Return how far a cutting plane's ends stand outside of a body [mm]: more for one that is drawn at half size."""
    return 8.0 if size.length < SMALL else 16.0


def side(plan: SheetPlan, size: Trough) -> View:
    """Add the side view: length, heights and radii of the cheek's outline; datum C (toe)."""
    a, view = arch(size), plan.view("side", [side_outline(size)])
    toe, heel = (size.toe_x, 0.0), (size.heel_x, 0.0)
    rail, top = (a.start, a.rail), (a.peak, a.height)
    view.dim_h(toe, heel, size.length)
    for x, z in (rail, top, (a.end, a.rail)):
        view.dim_h(toe, (x, z), x - size.toe_x)
    view.dim_v((size.heel_x, 0.0), (size.heel_x, a.rail), size.rail_height, side="right")
    view.dim_v((size.heel_x, 0.0), top, size.cheek_height, side="right")
    for centre, radius, x0, x1 in (
        ((a.start, a.rail + a.toe_hollow), -a.toe_hollow, a.start, a.toe_turn[0]),
        ((a.peak, a.height - a.toe_crown), a.toe_crown, a.toe_turn[0], a.peak),
        ((a.peak, a.height - a.heel_crown), a.heel_crown, a.peak, a.heel_turn[0]),
        ((a.end, a.rail + a.heel_hollow), -a.heel_hollow, a.heel_turn[0], a.end),
    ):
        view.radius(centre, _on_arc(centre, radius, (x0 + x1) / 2), abs(radius))
    view.datum("C", (size.toe_x, 0.5 * a.rail), toward=180.0)
    view.surface((size.toe_x, 0.8 * a.rail), MILLED, note="toe, heel", toward=170.0)
    return view


def _on_arc(centre: Point, radius: float, x: float) -> Point:
    """Return the point of an arc above (radius > 0) or below its centre at x [mm]."""
    rise = (radius**2 - (x - centre[0]) ** 2) ** 0.5
    return x, centre[1] + (rise if radius > 0 else -rise)


def cheeks_beyond(size: Trough, x: float) -> list[Segment]:
    """Return both cheeks as seen behind a cross section at x [mm], from its rim up to the peak (y, z) [mm].

    Nothing where the peak stands less than its rounded edges above the cut: such a sliver says nothing.
    """
    low, high, half = rim_height(size, x), size.cheek_height, size.width / 2
    if high - low < 2 * HAND_BREAK:
        return []
    lines: list[Segment] = []
    for s in (-1.0, 1.0):
        foot, tip, under = size.inside_half_at(low), size.inside_half_at(high), high - HAND_BREAK
        corners = [(half, low), (half, under), (half - HAND_BREAK, high), (tip + HAND_BREAK, high), (tip, under),
                   (foot, low)]  # fmt: skip
        lines += [Line((s * p[0], p[1]), (s * q[0], q[1])) for p, q in pairwise(corners)]
    return lines


def cheeks(view: View, size: Trough) -> None:
    """Dimension width and cheeks in a cross section (y, z); datum B, squareness and flatness of the sides."""
    half, middle = size.width / 2, (size.sole + size.cheek_height) / 2
    inner = size.inside_half_at(middle)
    view.dim_h((-half, 0.0), (half, 0.0), size.width)
    view.dim_h((inner, middle), (half, middle), size.cheek, side="above", suffix=" half way up")
    view.angle((inner, middle), (inner, middle + 20.0), (size.inside_half_at(middle + 20.0), middle + 20.0),
               size.cast.draft_inside, reference=True)  # fmt: skip
    view.datum("B", (-half, 0.62 * size.cheek_height), toward=180.0)
    frames = [view.frame("flatness", FLAT, note="both sides"), view.frame("perpendicularity", FLAT, ["A"])]
    view.leader((half, 0.5 * size.cheek_height), frames, toward=10.0)
    view.surface((-half, 0.35 * size.cheek_height), GROUND, note="both sides", toward=180.0)


def rib_feet(size: Trough) -> list[Profile]:
    """Return the cross ribs' feet, without their roots (x, y) [mm]."""
    return [r.plan() for r in ribs_of(size)]


def plan_sizes(view: View, size: Trough, names: Mapping[float, str]) -> None:
    """Dimension in the plan (x, y): corners, mouth across, the bosses' diameters; centre marks on every boss."""
    r, half = size.corner_radius, size.width / 2
    centre = (size.heel_x - r, half - r)
    view.radius(centre, (centre[0] + r * 0.5**0.5, centre[1] + r * 0.5**0.5), r, prefix="4× ")
    view.centre_line((size.toe_x - 3.0, 0.0), (size.heel_x + 3.0, 0.0))
    for b in bosses_of(size):
        how = "turned" if b.turned else "spot-faced"
        view.diameter((b.x, 0.0), (b.x, b.diameter / 2), b.diameter, more=[f"{names[b.x]}, {how}"])
        view.centre_marks([((b.x, 0.0), b.diameter / 2)])


def boss_heights(view: View, size: Trough) -> None:
    """Dimension in the lengthwise section (x, z): the plate, each boss's machined top; datum A and the sole's form."""
    view.datum("A", (0.5 * size.toe_x, 0.0), toward=270.0)
    view.leader((0.5 * size.heel_x, 0.0), [view.frame("flatness", FLAT)], toward=280.0)
    view.surface((0.8 * size.heel_x, 0.0), GROUND, note="sole", toward=280.0)
    view.dim_v((size.toe_x, 0.0), (size.toe_x, size.sole), size.sole, side="left")
    for b in bosses_of(size):
        corner = (b.x + b.diameter / 2, b.z_top)
        view.dim_v((corner[0], 0.0), corner, b.z_top, at=b.x + b.diameter / 2 + 9.0)
        view.surface((b.x - b.diameter / 2 + 1.0, b.z_top), MILLED, toward=120.0)


def hole_table(plan: SheetPlan, holes: Sequence[tuple[str, str, TappedHole]], toe_x: float, first: str) -> None:
    """Add the table of tapped holes.

    Args:
        plan: the sheet.
        holes: letter, what it takes, and the hole.
        toe_x: x of datum C [mm].
        first: unit that stands first.
    """
    rows = []
    for letter, what, h in holes:
        axis = "square to A" if not h.lean else f"leans {h.lean:.1f}° toward the toe"
        rows.append([letter, what, size_text(h.x - toe_x, first), size_text(h.y, first), size_text(h.z_top, first),
                     size_text(h.tap_drill, first), thread_call(h.thread), size_text(full_thread(h), first),
                     size_text(h.depth, first), axis])  # fmt: skip
    columns = ["hole", "takes", "from C", "from middle", "starts above A", "drill Ø", "thread", "full thread", "depth",
               "axis"]  # fmt: skip
    plan.table(columns, rows, title="Tapped holes: flat bottoms, bottoming tap; depths along the axis")


def boss_table(plan: SheetPlan, size: Trough, names: Mapping[float, str], first: str) -> None:
    """Add the table of bosses: where each stands, how large it is, and the ring that the hollow mill cuts round it.

    Args:
        plan: the sheet.
        size: the body.
        names: what each boss is called, by its x [mm].
        first: unit that stands first.
    """
    rows = []
    for b in bosses_of(size):
        ring = ["–", "–"]
        if b.turned:
            ring = [size_text(2 * ring_reach(size, b), first), size_text(RING_DEPTH, first)]
        rows.append([names[b.x], "turned" if b.turned else "spot-faced", size_text(b.x - size.toe_x, first),
                     size_text(b.diameter, first), size_text(b.z_top, first), *ring])  # fmt: skip
    if rows:
        columns = ["boss", "side", "from C", "Ø", "top above A", "ring Ø", "ring deep"]
        plan.table(columns, rows, title="Bosses: in the middle; a turned one stands square to A")


def name_holes(view: View, holes: Sequence[tuple[str, str, TappedHole]]) -> None:
    """Write each hole's letter beside it in the plan (x, y)."""
    for letter, _, h in holes:
        view.centre_marks([((h.x, h.y), h.tap_drill / 2)], past=1.0)
        view.leader((h.x, h.y + (h.tap_drill / 2 if h.y >= 0 else -h.tap_drill / 2)), letter,
                    toward=70.0 if h.y >= 0 else 290.0)  # fmt: skip


def body_notes(run: Run, size: Trough, more: Sequence[str] = ()) -> list[str]:
    """Return the notes of a finished body: finish, order of work, cautions."""
    first = run.design.spec.units
    bow = size_text(float(run.numbers["body"].value("thermal_bow_um_per_k")) / 1000, first, (5, 4))
    step = ordered("1.8 °F", "1 K", first)
    metal = "Iron" if run.design.body_alloy.is_iron else "Bronze"
    turned = any(b.turned for b in size.bosses)
    sides = [f"Sides of turned bosses: {ra_text(DRILLED, first)} or better; the hollow mill sinks "
             f"{size_text(RING_DEPTH, first)} into the plate round them."] if turned else []  # fmt: skip
    return [
        "Datum A: sole. B: left side. C: toe end. Sole and sides flat and square within "
        f"{size_text(FLAT, first, (3, 3))} over their whole area, whatever the size.",
        f"Surfaces without a texture sign stay as cast, except those that note {NOT_CAST} of the body casting names: "
        f"machined, {ra_text(MILLED, first)}. Cast radii, draft and ribs: see the body casting.",
        *more,
        f"Break every edge above the sole R {size_text(HAND_BREAK, first)}. Edges of sole and mouth: sharp, burr off.",
        f"Mouth's ends: cutter of R {size_text(MOUTH_CORNER, first)} or less; file the corners.",
        *sides,
        "Stress-relieve before milling. Grind sole and sides last; let the body cool "
        f"before measuring: {step} between sole and cheek tops bows the sole by {bow}.",
        f"Caution: milled edges cut; wear gloves only with the spindle stopped. {metal} dust: dry grinding needs "
        "extraction and a mask. A drill through the floor spoils the sole: set the depth stop.",
    ]
