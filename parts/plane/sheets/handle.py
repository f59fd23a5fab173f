"""The tote's sheet: side, sections of the grip, bores, grain. Lengths mm, in the tote's own frame."""

from __future__ import annotations

import itertools
from math import atan2, dist, radians, tan
from typing import TYPE_CHECKING

from parts.handle.blank_view import BlankView, tote_blank_view
from parts.handle.form import CROTCH, Station, ToteForm, point_on_rod, solve
from parts.handle.measure import greatest_width, narrowest_section, tote_extent
from parts.handle.outline import tote_side
from parts.handle.size import HEIGHT_TOL, ToteSize
from parts.plane.sheets.blanks import BLANKS_SHEET
from parts.plane.sheets.common import SheetEntry, new_sheet
from parts.plane.sheets.knob import KNOB_SHEET
from parts.plane.sheets.metal import size_text, weighed
from parts.plane.sheets.wood_notes import wood_name, wood_notes, wood_tolerance
from parts.plane.wood import grain, handle_blanks, shop_density
from shared.both_units import stress
from shared.drawing.plan import SheetPlan
from shared.drawing.primitives import Ellipse, Line, Primitive
from shared.drawing.view import View
from shared.profile import Profile
from shared.segments import Point

if TYPE_CHECKING:
    from parts.plane.run import Run

PAST = 6.0  # axes run on past the wood [mm]
BORE_TOL = (0.3, 0.0)  # a bore may come out wider, never tighter on the rod
CLEAR_OF_SEAT = 4.0  # mm: of the head's section from the nut's seat
SEAT_TOL = HEIGHT_TOL  # depths of seats in wood
SHAPE_TOL = 0.5  # mm: carved shape; what the hand cannot feel
Rows = list[list[str]]


def tote_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the tote's sheet."""
    d = run.design
    size, first = d.tote, d.spec.units
    assert size is not None
    form = size.form
    mass = weighed(run, "tote", run.models.tote_local, shop_density(d))
    plan = new_sheet(run, entry, material=wood_name(d), mass_kg=mass, tolerance=wood_tolerance(d.spec.units),
                     texture="sanded to 180", finish="oil, see notes", scales=("1:1",))  # fmt: skip
    found = grain(d)
    assert found is not None
    side = plan.view("side", [tote_side(size)])
    blank = tote_blank_view(size, handle_blanks(d)[0], found.direction_deg)
    side.draw(blank.fibres, "SMOOTH")
    _bores_drawn(side, size)
    _side_sizes(side, size)
    _bore_calls(side, size)
    _grain(side, blank, stress(found.short_grain_mpa, first))
    below: View | None = None
    for letter, v in sections_of(size).items():
        _section_mark(side, form, v, letter)
        below = _section(plan, size, v, letter, below)
    plan.table(["station", "front x", "front z", "back x", "back z", "width", "half-length of ellipse, front",
                "half-length of ellipse, back"],
               form_rows(size, first),
               title="Sections: ovals with elliptical ends, square to the mid-plane")  # fmt: skip
    plan.notes(_notes(run, size))
    return plan


def sections_of(size: ToteSize) -> dict[str, float]:
    """Return letter -> station of the sections drawn: top of the foot, narrowest of the grip, its middle, head."""
    form = size.form
    low, mid = size.hand_bottom + 0.16 * size.grip, size.hand_bottom + size.grip / 2
    # the section leans to the rod, and should still cut its bore below the nut's seat
    below_nut = size.rod_height - size.nut_counterbore_depth - CLEAR_OF_SEAT
    rise = 1.0 / abs(point_on_rod(size.lean_deg, 1.0, 0.0)[1])
    narrow = narrowest_section(size).z * rise
    heights = {"A": low, "B": mid, "C": narrow, "D": min(size.hand_bottom + 0.94 * size.grip, below_nut)}
    if abs(narrow - mid) < 0.06 * size.grip or abs(narrow - low) < 0.06 * size.grip:
        del heights["C"]
    ordered = sorted(heights.values())
    return {letter: _station_at(form, h) for letter, h in zip("ABCD", ordered, strict=False)}


def _station_at(form: ToteForm, h: float) -> float:
    """Return the station whose section's middle stands at a height along the rod [mm]."""

    def middle(v: float) -> float:
        return (form.along_rod(form.front_at(v))[0] + form.along_rod(form.back_at(v))[0]) / 2

    return solve(middle, h, CROTCH - 1.0, float(form.spans))


def _bores_drawn(view: View, size: ToteSize) -> None:
    """Draw rod bore, counterbores and the toe screw's bore as hidden lines with their axes."""
    lean, top = size.lean_deg, size.rod_height
    seat = top - size.nut_counterbore_depth
    r, nut, boss = size.bore_diameter / 2, size.nut_counterbore_diameter / 2, size.boss_counterbore_diameter / 2

    def on(h: float, q: float) -> Point:
        return point_on_rod(lean, h, q)

    deep = size.boss_counterbore_depth
    # the bore is cut by the level ceiling of the boss's seat
    walls = [Line(_at_level(lean, q, deep), on(seat, q)) for q in (-r, r)]
    hidden = [*walls, *_pocket([on(top, -nut), on(seat, -nut), on(seat, nut), on(top, nut)]),
              *_pocket([(-boss, 0.0), (-boss, deep), (boss, deep), (boss, 0.0)])]  # fmt: skip
    view.centre_line(on(-PAST, 0.0), on(top + PAST, 0.0))
    view.centre_line((0.0, -PAST), (0.0, 0.45 * top))
    if size.toe is not None:
        t = size.toe
        high = size.foot_height + PAST
        hidden += _pocket([(t.x - t.boss_diameter / 2, 0.0), (t.x - t.boss_diameter / 2, t.boss_depth),
                           (t.x + t.boss_diameter / 2, t.boss_depth), (t.x + t.boss_diameter / 2, 0.0)])  # fmt: skip
        for half, low in ((t.bore_diameter / 2, t.boss_depth), (t.head_diameter / 2, t.head_seat_z)):
            up = t.head_seat_z if low == t.boss_depth else _top_at(size, t.x)
            hidden += [Line((t.x + s * half, low), (t.x + s * half, up)) for s in (-1, 1)]
        hidden.append(Line((t.x - t.head_diameter / 2, t.head_seat_z), (t.x + t.head_diameter / 2, t.head_seat_z)))
        view.centre_line((t.x, -PAST), (t.x, high))
    view.draw(hidden, "HIDDEN")


def _pocket(corners: list[Point]) -> list[Primitive]:
    return [Line(p, q) for p, q in itertools.pairwise(corners)]


def _at_level(lean_deg: float, q: float, z: float) -> Point:
    """Return the point of a line along the rod, q aft of its axis [mm], at a height over the foot plane [mm]."""
    x, foot = point_on_rod(lean_deg, 0.0, q)
    return x - (z - foot) * tan(radians(lean_deg)), z


def _top_at(size: ToteSize, x: float) -> float:
    """Return the height of the outline's top at an x of the toe [mm]."""
    return max(z for z in tote_side(size).crossings(0, x) if z < 2 * size.foot_height)


def _side_sizes(view: View, size: ToteSize) -> None:
    lean = size.lean_deg
    front, rear = (size.foot_front_x, 0.0), (size.foot_rear_x, 0.0)
    view.dim_h(front, rear, size.foot_length, SHAPE_TOL)
    view.dim_h(front, (0.0, 0.0), -size.foot_front_x, SEAT_TOL)
    if size.toe is not None:
        view.dim_h((size.toe.x, 0.0), (0.0, 0.0), -size.toe.x, SEAT_TOL)
    _, _, top = tote_extent(size)
    at = max((p for s in tote_side(size).segments for p in (s.start, s.end)), key=lambda p: p[1])
    view.dim_v(rear, (at[0], top), top, SHAPE_TOL, side="right")
    view.angle((0.0, 0.0), (0.0, 1.0), point_on_rod(lean, 1.0, 0.0), lean, basic=True)
    view.datum("A", (size.foot_rear_x - 12.0, 0.0), toward=-90.0)
    view.tolerance_frame((size.foot_front_x + 14.0, 0.0), "flatness", 0.1, toward=-100.0)


def _bore_calls(view: View, size: ToteSize) -> None:
    lean, top = size.lean_deg, size.rod_height
    seat = top - size.nut_counterbore_depth
    view.leader(point_on_rod(lean, seat, size.nut_counterbore_diameter / 2), [
        view.length_row(size.nut_counterbore_diameter, BORE_TOL, prefix="Ø "),
        view.length_row(size.nut_counterbore_depth, SEAT_TOL, suffix=" deep from the crest"),
        view.length_row(size.rod_height, SEAT_TOL, prefix="crest ", suffix=" up the axis from the foot"),
        view.length_row(size.rim_radius, prefix="rim R "), "flat seat square to the bore"], toward=150.0)  # fmt: skip
    view.leader(point_on_rod(lean, 0.68 * top, -size.bore_diameter / 2), [
        view.length_row(size.bore_diameter, BORE_TOL, prefix="Ø ", suffix=" through, for the rod"),
        view.frame("angularity", 0.5, ["A"], diameter=True)], toward=180.0)  # fmt: skip
    view.leader((size.boss_counterbore_diameter / 2, 0.6 * size.boss_counterbore_depth), [
        view.length_row(size.boss_counterbore_diameter, BORE_TOL, prefix="Ø "),
        view.length_row(size.boss_counterbore_depth, (0.3, 0.0), suffix=" deep, over the boss"),
        "square to the foot"], toward=-60.0)  # fmt: skip
    if size.toe is None:
        return
    t = size.toe
    view.leader((t.x - t.head_diameter / 2, (t.head_seat_z + size.foot_height) / 2), [
        view.length_row(t.head_diameter, BORE_TOL, prefix="Ø ", suffix=" for the screw's head"),
        view.length_row(t.head_seat_z, SEAT_TOL, prefix="seat ", suffix=" above the foot"),
        view.length_row(t.bore_diameter, BORE_TOL, prefix="Ø ", suffix=" through"),
        view.length_row(t.boss_diameter, BORE_TOL, prefix="Ø ", suffix=" below, over the boss,"),
        view.length_row(t.boss_depth, (0.3, 0.0), suffix=" deep")], toward=160.0)  # fmt: skip


def _grain(view: View, blank: BlankView, strength: str) -> None:
    """Say which way the fibres run and what they bear."""
    longest = max(blank.fibres, key=lambda f: dist(f.start, f.end))
    share = 0.8
    at = (longest.start[0] + share * (longest.end[0] - longest.start[0]),
          longest.start[1] + share * (longest.end[1] - longest.start[1]))  # fmt: skip
    deg = blank.grain_deg % 180.0
    view.leader(at, [f"grain along these lines: {deg:.1f}° to the foot,", "counted counter-clockwise from aft; ± 3°",
                     f"short grain bears {strength} at the narrowest"], end="dot", toward=30.0)  # fmt: skip


def _section_mark(view: View, form: ToteForm, v: float, letter: str) -> None:
    front, back = form.front_at(v), form.back_at(v)
    depth = dist(front, back)
    out = (9.0 / depth * (back[0] - front[0]), 9.0 / depth * (back[1] - front[1]))
    a, b = (front[0] - out[0], front[1] - out[1]), (back[0] + out[0], back[1] + out[1])
    view.section_marks(a, b, letter, -90.0)


def oval(s: Station) -> list[Primitive]:
    """Return a section in its own plane, (u aft from the front point, y) [mm]: two half ellipses and their tangents."""
    depth, w = dist(s.front, s.back), s.half_width
    flat = depth - s.front_end - s.back_end
    ends = [((s.front_end, 0.0), s.front_end, 90.0), ((depth - s.back_end, 0.0), s.back_end, -90.0)]
    out: list[Primitive] = []
    for centre, reach, start in ends:
        # the parameter counts from the longer half-axis
        if reach >= w:
            out.append(Ellipse(centre, (reach, 0.0), w / reach, start, start + 180.0))
        else:
            out.append(Ellipse(centre, (0.0, w), reach / w, start - 90.0, start + 90.0))
    if flat > 1e-6:
        out += [Line((s.front_end, y), (depth - s.back_end, y)) for y in (-w, w)]
    return out


def _section(plan: SheetPlan, size: ToteSize, v: float, letter: str, below: View | None) -> View:
    """Add a section, above the one below it on the grip."""
    s = size.form.station(v)
    depth, w = dist(s.front, s.back), s.half_width
    where = "free" if below is None else "above"
    view = plan.view(f"section {letter}", oval(s), of=below, place=where, label=f"SECTION {letter}-{letter}")
    bore = bore_in(size, s)
    view.draw([bore])
    view.hatch(_outline([p for e in oval(s) for p in _points(e)]), [_outline(bore.points())])
    view.centre_line((-3.0, 0.0), (depth + 3.0, 0.0))
    view.dim_h((0.0, 0.0), (depth, 0.0), depth, reference=True)
    return view.dim_v((s.front_end, -w), (s.front_end, w), 2 * w, reference=True, side="right")


def _points(piece: Primitive) -> list[Point]:
    return piece.points() if isinstance(piece, Ellipse) else []


def _outline(points: list[Point]) -> Profile:
    """Return an outline through points in order of their direction from the middle [mm]; for the hatch alone."""
    u, v = (sum(p[i] for p in points) / len(points) for i in (0, 1))
    around = sorted({(round(p[0], 6), round(p[1], 6)) for p in points}, key=lambda p: atan2(p[1] - v, p[0] - u))
    return Profile.polygon(around, name="section")


def bore_in(size: ToteSize, s: Station) -> Ellipse:
    """Return the rod's bore as a section cuts it (u, y) [mm]."""
    depth = dist(s.front, s.back)
    along = ((s.back[0] - s.front[0]) / depth, (s.back[1] - s.front[1]) / depth)
    up = point_on_rod(size.lean_deg, 1.0, 0.0)
    slant = abs(along[0] * up[1] - along[1] * up[0])  # sine of the angle between section and rod
    # where the rod's axis, through the origin, crosses the line from front to back
    u = (s.front[1] * up[0] - s.front[0] * up[1]) / (along[0] * up[1] - along[1] * up[0])
    r = size.bore_diameter / 2
    return Ellipse((u, 0.0), (r / slant, 0.0), slant)


def form_rows(size: ToteSize, first: str) -> Rows:
    """Return the form's sections as rows of text: a station a span [mm and inch].

    Args:
        size: the tote.
        first: unit that stands first.
    """
    rows, form = [], size.form
    named = {round(v, 3): letter for letter, v in sections_of(size).items()}
    stations = sorted({*(float(v) for v in range(form.spans + 1)), *named})
    for v in stations:
        s = form.station(v)
        values = (*s.front, *s.back, 2 * s.half_width, s.front_end, s.back_end)
        rows.append([named.get(v, f"{v:g}"), *(size_text(x, first, (2, 1)) for x in values)])
    return rows


def _notes(run: Run, size: ToteSize) -> list[str]:
    d, n, first = run.design, run.numbers["handle"], run.design.spec.units
    return [
        "Side outline: 1:1 template tote-side; x aft, z up from where the rod's axis meets the foot. Between the "
        f"sections carve fair; shape within {size_text(SHAPE_TOL, first)} of the ovals.",
        f"Clear height for the hand {size_text(size.grip, first)} along the rod, from "
        f"{size_text(size.hand_bottom, first)} above the foot; horn reaches {size_text(size.horn_length, first)} aft "
        f"of the waist below it; toe reaches {size_text(size.toe_reach, first)} ahead of the grip.",
        f"No convex edge that the hand meets is sharper than R {size_text(float(n.value('palm_radius_mm')), first)}; "
        f"the side outline's least is R {size_text(float(n.value('least_side_radius_mm')), first)}. "
        f"Arris of the foot R {size_text(size.arris_radius, first)}.",
        f"Greatest width {size_text(greatest_width(size), first)} at the head, foot "
        f"{size_text(size.foot_width, first)} wide. Bores before carving: bore, then counterbores, all in "
        "the mid-plane. From a square blank before its outline is sawn; where the cut plan saws the outline from "
        "the board, held in a cradle of the offcut and registered on the foot.",
        f"Least wood round the bore in the grip {size_text(float(n.value('wood_round_bore_mm')), first)}.",
        *wood_notes(d, n, "tote"),
    ]


def handle_sheets(run: Run) -> list[SheetEntry]:
    """Return the sheets of tote (where there is one), knob and blanks."""
    return [*([] if run.design.tote is None else [TOTE_SHEET]), KNOB_SHEET, BLANKS_SHEET]


TOTE_SHEET = SheetEntry("tote", "Tote", "tote", ("wood", "assembly"), tote_sheet)
