"""The blade's sheet: outline on the flat, thickness, bevels at 5:1 and 20:1, steel and heat treatment."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin, tan
from typing import TYPE_CHECKING

from parts.blade.bedding import BACK_BEVEL_WIDTH_MM
from parts.blade.bedding_numbers import THICKNESS_TOL_MM
from parts.blade.bevel import bevel_shape
from parts.blade.heat_treat import heat_treat_plan
from parts.blade.limits import ANGLE_TOL_DEG as ANGLE_TOL
from parts.blade.limits import BACK_PARALLEL_MM as BACK_PARALLEL
from parts.blade.limits import BACK_RA, BEVEL_RA, CAMBER_TOL_MM, EDGE_RA, FACE_RA, LENGTH_TOL_MM, SIDE_RA, WIDTH_CLASS
from parts.blade.limits import FACE_FIRST_MM as FACE_FIRST
from parts.blade.limits import FACE_FLAT_MM as FACE_FLAT
from parts.blade.limits import SQUARE_MM as SQUARE
from parts.blade.outline import CROSS_CORNER, EYE_BLEND, TOP_RISE, edge_camber, edge_points, outline
from parts.blade.size import BladeSize
from parts.plane.sheets.blade_route import route_rows
from parts.plane.sheets.common import FINE, SheetEntry, new_sheet
from parts.plane.sheets.metal import ra_text, size_text
from parts.plane.sheets.shapes import closed, limits_mm, mass, swapped, texture_text
from shared.drawing.content import Row, Texture
from shared.drawing.plan import SheetPlan
from shared.drawing.primitives import Line, Primitive
from shared.drawing.view import View
from shared.profile import Pen, Profile

if TYPE_CHECKING:
    from parts.plane.run import Run

MICRO_TOL = 0.2  # mm: width of a honed facet; common practice, no source
DETAIL = 0.8  # mm: radius of what detail B shows
STUB = 2e-3  # mm: a leg of an angle that is not drawn: the engine carries it on as an extension line
Point = tuple[float, float]


@dataclass(frozen=True)
class Nose:
    """The section of the steel at the edge, square to it, in (s, q) [mm]: corners from the flat round to the back."""

    edge: Point
    back_end: Point  # where the back bevel meets the flat; the edge itself without one
    micro_end: Point  # where the micro-bevel ends; the edge itself without one
    heel: Point
    flat_q: float
    other_q: float

    def outline(self, reach: float) -> Profile:
        """Return the section from the edge as far as `reach` up the blade [mm]."""
        corners = [self.edge, self.micro_end, self.heel, (reach, self.other_q), (reach, self.flat_q), self.back_end]
        return closed([p for i, p in enumerate(corners) if p != corners[i - 1]], "blade section")


def nose(size: BladeSize) -> Nose:
    """Return the section at the edge; bevel down the steel lies under the flat, bevel up above it."""
    side = -1.0 if size.orientation == "bevel-down" else 1.0
    b = radians(size.back_bevel)
    drop = BACK_BEVEL_WIDTH_MM * sin(b)
    shape = bevel_shape(size.thickness - drop, size.bevel, size.micro_bevel, size.micro_width)
    run = 0.0 if size.micro_bevel is None else size.micro_width * cos(radians(size.micro_bevel))
    edge = (0.0, side * drop)
    return Nose(
        edge=edge,
        back_end=(BACK_BEVEL_WIDTH_MM * cos(b), 0.0) if size.back_bevel else edge,
        micro_end=(run, side * (drop + shape.micro_depth)) if run else edge,
        heel=(shape.heel_from_edge, side * size.thickness),
        flat_q=0.0,
        other_q=side * size.thickness,
    )


def blade_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the blade's sheet; of either kind of plane."""
    d, size = run.design, run.design.blade
    spec = d.spec.blade
    plan = new_sheet(
        run,
        entry,
        material=f"{spec.steel} tool steel",
        mass_kg=mass(run, "blade", "blade"),
        tolerance=FINE,
        texture=texture_text(SIDE_RA, d.spec.units),
        finish=f"Hardened and tempered, {spec.hardness:g} HRC; ground",
        scales=("1:1",),
    )
    flat = _flat(plan, run, size)
    side = plan.view("thickness", _side_lines(size), of=flat, place="below")
    far = size.length
    low, high = sorted((0.0, nose(size).other_q))
    side.dim_v((far, low), (far, high), size.thickness, THICKNESS_TOL_MM, side="right")
    _finishes(side, size)
    side.detail_mark((nose(size).heel[0] / 2, (low + high) / 2), 0.75 * nose(size).heel[0], "A")
    _bevel(plan, size)
    if size.micro_bevel is not None or size.back_bevel:
        _honed(plan, size)
    plan.notes(_notes(run, size))
    treat = heat_treat_plan(spec.steel, spec.hardness, size.thickness, cold_c=spec.cold_treatment)
    plan.table(("Step", "Temperature", "Time", "Remark"), route_rows(treat, d.spec.units),
               title="Heat treatment (before finish grinding)")  # fmt: skip
    return plan


def _flat(plan: SheetPlan, run: Run, size: BladeSize) -> View:
    """Draw the blade seen on its upper face, edge at the left, with all that lies in that plane."""
    bed = run.design.spec.bed.angle
    shape = outline(size, bed)
    camber = edge_camber(size, bed)
    view = plan.view("flat", [swapped(p) for p in shape.all])
    heel = nose(size).heel[0] / cos(radians(size.skew))
    left, middle, right = ((s + heel, y) for y, s in edge_points(size, camber))
    pen = Pen.at(*left, "heel").line_to(*right) if not camber else Pen.at(*left, "heel").arc_to(middle, right)
    view.draw(list(pen.segments), "HIDDEN" if size.orientation == "bevel-down" else "OUTLINE")
    half = size.width / 2
    view.centre_line((-6.0, 0.0), (size.length + 6.0, 0.0))
    view.dim_h((0.0, 0.0), (size.length, 0.0), size.length, LENGTH_TOL_MM, side="below")
    shoulder = size.length - TOP_RISE * size.width
    at_side = shoulder - 2 * size.corner_radius
    wide = limits_mm(size.width, WIDTH_CLASS)
    view.dim_v((at_side, -half), (at_side, half), size.width, wide, side="left" if size.cross_slots else "right")
    view.datum("B", (0.66 * size.length, half), toward=90.0)
    view.tolerance_frame((0.8 * size.length, -half), "parallelism", 0.05, ["B"], toward=-60.0)
    _slot(view, size, run.design.spec.units)
    _cross_slots(view, size, run.design.spec.units)
    top = TOP_RISE * size.width
    r = (half**2 + top**2) / (2 * top)
    y = -0.4 * half  # clear of the axis
    view.leader(
        (size.length - r + (r * r - y * y) ** 0.5, y), [view.length_row(r, prefix="R", places=(2, 1))], toward=-30.0
    )
    c = size.corner_radius
    view.leader((shoulder - 0.15 * c, half - 0.3 * c), [view.length_row(c, prefix="2× R")], toward=45.0)
    _edge(view, run, size, camber)
    return view


def _edge(view: View, run: Run, size: BladeSize, camber: float) -> None:
    """Say how the cutting edge runs."""
    at = (edge_points(size, camber)[0][1] * 0.5, -size.width * 0.25)
    rows: list[object] = []
    if camber:
        radius = run.numbers["blade"].value("camber_radius_mm")
        limits = (CAMBER_TOL_MM, -min(camber, CAMBER_TOL_MM))
        rows = [view.length_row(camber, limits, prefix="Camber "),
                view.length_row(float(radius), prefix="R ", places=(1, 0))]  # fmt: skip
    else:
        rows = ["Edge straight"]
    if size.skew:
        ends = edge_points(size, 0.0)
        view.angle((ends[0][1], ends[0][0]), (ends[2][1], ends[2][0]), (ends[0][1], size.width), size.skew, ANGLE_TOL)
    elif camber:
        # a bowed edge has no straightness or squareness of its own: its ends have
        within = size_text(SQUARE, run.design.spec.units, (3, 2))
        rows += ["ends of the edge level", f"to B within {within}"]
    else:
        rows.append(view.frame("perpendicularity", SQUARE, ["B"]))
    view.leader(at, rows, toward=180.0)  # type: ignore[arg-type]


def _slot(view: View, size: BladeSize, unit: str) -> None:
    half = size.slot_width / 2
    has_eye = size.slot_eye > size.slot_width
    view.dim_h((0.0, 0.0), (size.slot_low, 0.0), size.slot_low, 0.2, side="above")
    view.dim_h((0.0, 0.0), (size.slot_high, 0.0), size.slot_high, 0.2, side="above")
    middle = (0.35 * size.slot_low + 0.65 * size.slot_high, -half)
    # on a short blade the text has its room left of the cross slots
    way, middle = (-150.0, (0.8 * size.slot_low + 0.2 * size.slot_high, -half)) if size.cross_slots else (-60.0, middle)
    view.leader(middle, ["slot", view.length_row(size.slot_width, (0.2, 0.0), suffix=" wide")], toward=way)
    if has_eye:
        c, r = (size.slot_eye_center, 0.0), size.slot_eye / 2
        at = (c[0] - r * 0.5, r * 0.75**0.5)
        view.diameter(c, at, size.slot_eye, (0.2, 0.0), fixed=True, more=[f"run-out R {size_text(EYE_BLEND, unit)}"])
        view.centre_line((c[0], -r - 2.0), (c[0], r + 2.0))


def _cross_slots(view: View, size: BladeSize, unit: str) -> None:
    cross = size.cross_slots
    if not cross:
        return
    first, last = cross[0], cross[-1]
    y = first.length / 2
    view.dim_h((0.0, 0.0), (first.at, 0.0), first.at, 0.05, side="below")
    if len(cross) > 1:
        pitch = cross[1].at - first.at
        pitches = len(cross) - 1
        # the pitch is what the depth adjuster's flange is moved by: each slot counts from the first
        each = size_text(pitch, unit)
        view.dim_h((first.at, y), (last.at, y), pitches * pitch, 0.1, side="above", prefix=f"{pitches} × {each} = ")
        view.leader((cross[-1].at, -y), [f"{len(cross)} cross slots", view.length_row(first.width, (0.05, 0.0)),
                    view.length_row(first.length, 0.1, prefix="by "),
                    view.length_row(CROSS_CORNER, prefix="corners R")], toward=-60.0)  # fmt: skip
    view.draw([Line((c.at, -y - 1.5), (c.at, y + 1.5)) for c in cross], "CENTRE")


def _side_lines(size: BladeSize) -> list[Primitive | Profile]:
    """Return the blade from its right side; a skewed edge shows its far end, too."""
    n = nose(size)
    k = 1 / cos(radians(size.skew))
    far = size.length - TOP_RISE * size.width  # the arched top's ends
    near = -size.width / 2 * tan(radians(size.skew))
    corners = [n.edge, n.micro_end, n.heel, (far, n.other_q), (far, n.flat_q), n.back_end]
    put = [(near + s * k if i not in (3, 4) else s, q) for i, (s, q) in enumerate(corners)]
    lines: list[Primitive | Profile] = [closed([p for i, p in enumerate(put) if p != put[i - 1]], "blade side")]
    low, high = sorted((n.flat_q, n.other_q))
    return [*lines, Profile.rectangle(far, low, size.length, high, name="top")]


def _finishes(side: View, size: BladeSize) -> None:
    n = nose(size)
    up = size.orientation == "bevel-down"
    out = 90.0 if up else -90.0
    side.datum("A", (0.42 * size.length, n.flat_q), toward=out)
    name = "face" if up else "flat, on the bed"
    rows: list[str | Row] = [name, side.frame("flatness", FACE_FLAT)]
    rows.append(side.length_row(FACE_FIRST, prefix="over the first "))
    side.leader((0.2 * size.length, n.flat_q), rows, toward=out + (30.0 if up else -30.0))
    side.surface((0.55 * size.length, n.flat_q), FACE_RA, toward=out)
    side.surface((0.7 * size.length, n.other_q), BACK_RA, toward=-out)
    side.tolerance_frame((0.85 * size.length, n.other_q), "parallelism", BACK_PARALLEL[size.orientation], ["A"],
                         toward=-out)  # fmt: skip


def _bevel(plan: SheetPlan, size: BladeSize) -> View:
    """Draw detail A: the ground bevel, square to the edge."""
    n = nose(size)
    reach = n.heel[0] + 2.5
    section = n.outline(reach)
    view = plan.view("A", [section], label="DETAIL A, SQUARE TO THE EDGE", scale="5:1")
    view.hatch(section)
    side = "below" if n.other_q > 0 else "above"
    honed = " honed" if size.micro_bevel is not None else ""
    view.dim_h((0.0, n.edge[1]), n.heel, n.heel[0], reference=True, side=side, suffix=honed)
    # outside of the steel: between the bevel and the back carried on ahead of the heel
    view.angle(n.heel, n.micro_end, (n.heel[0] - STUB, n.other_q), size.bevel, ANGLE_TOL)
    middle = ((n.micro_end[0] + n.heel[0]) / 2, (n.micro_end[1] + n.heel[1]) / 2)
    out = 90.0 + size.bevel
    view.surface(middle, BEVEL_RA[size.orientation], note="bevel", toward=-out if n.other_q < 0 else out)
    if size.micro_bevel is not None or size.back_bevel:
        # the steel runs off to the right and, with the bevel up, rises there
        view.detail_mark((0.25, n.edge[1]), DETAIL, "B", 225.0 if n.other_q < 0 else 135.0)
    return view


def _honed(plan: SheetPlan, size: BladeSize) -> View:
    """Draw detail B: micro-bevel and back bevel."""
    n = nose(size)
    side = 1.0 if n.other_q > 0 else -1.0
    reach = 1.3
    deep = n.micro_end[1] + side * (reach - n.micro_end[0]) * tan(radians(size.bevel))
    corners = [n.edge, n.micro_end, (reach, deep), (reach, 0.0), n.back_end]
    section = closed([p for i, p in enumerate(corners) if p != corners[i - 1]], "edge")
    view = plan.view("B", [section], label="DETAIL B", scale="20:1")
    view.hatch(section)
    rows: list[Row] = [Texture(EDGE_RA, "machined", "honed", view.unit)]
    if size.micro_bevel is not None:
        # from the facet to a line along the flat, carried on ahead of the facet's end
        view.angle(n.micro_end, n.edge, (n.micro_end[0] - STUB, n.micro_end[1]), size.micro_bevel, ANGLE_TOL)
        rows.append(view.length_row(size.micro_width, MICRO_TOL, prefix="width "))
        at = ((n.edge[0] + n.micro_end[0]) / 2, (n.edge[1] + n.micro_end[1]) / 2)
        view.leader(at, rows, toward=side * (90.0 + size.micro_bevel))
    if size.back_bevel:
        view.angle(n.back_end, n.edge, (n.back_end[0] - STUB, 0.0), size.back_bevel, ANGLE_TOL)
        view.dim_aligned(n.edge, n.back_end, BACK_BEVEL_WIDTH_MM, 0.1)
        if size.micro_bevel is None:
            view.leader(((n.edge[0] + n.back_end[0]) / 2, (n.edge[1] + n.back_end[1]) / 2), rows, toward=-side * 60.0)
    return view


def _notes(run: Run, size: BladeSize) -> list[str]:
    d = run.design
    spec, units = d.spec.blade, d.spec.units
    down = size.orientation == "bevel-down"
    flat = "face" if down else "flat"
    first = size_text(FACE_FIRST, units)
    found = [
        f"Drawn with a new edge. The {flat} (datum A) is the datum of every thickness and angle; it is polished to the "
        f"edge over the first {first}. Out of flat farther up: hollow only, never round.",
        f"Ease every edge but the cutting edge, {size_text(size.arris, units)} by 45°, before hardening and again "
        "after grinding: sharp arrises crack in the quench and cut hands.",
        f"Slot and holes are cut soft. Hone the edge to {ra_text(EDGE_RA, units)} or finer, {flat} first.",
        "Grind cool: a surface hotter than the temper is soft. Check for burn after every grinding.",
    ]
    if size.micro_bevel is not None:
        ground = float(run.numbers["blade"].value("bevel_along_blade_mm"))
        found.append(f"Bevel along the blade: {size_text(ground, units)} ground, before honing; "
                     f"{size_text(nose(size).heel[0], units)} honed, as drawn.")  # fmt: skip
    if size.camber_at_work:
        found.append(
            f"Camber: {size_text(size.camber_at_work, units)} at the work, which is "
            f"{size_text(float(run.numbers['blade'].value('camber_on_blade_mm')), units)} on the blade over its width; "
            "every bevel keeps its angle across the width."
        )
    if spec.wheel_diameter is not None:
        deep = float(run.numbers["blade"].value("hollow_depth_mm"))
        found.append(f"Ground hollow on a wheel of {size_text(spec.wheel_diameter, units)}: the angle is that of the "
                     f"chord, the hollow {size_text(deep, units)} deep.")  # fmt: skip
    if size.cross_slots:
        found.append("Cross slots: the depth wheel's flange stands in one of them; take the next as the blade wears.")
    found.append("The finished edge cuts to the bone: sheath it as soon as it is ground; carry and pack it sheathed.")
    return found


BLADE_SHEETS = [SheetEntry("blade", "Blade", "blade", ("blade",), blade_sheet)]
