"""The plane put together: section on its middle, plan, the mouth at larger scale, parts list, order of assembly."""

from __future__ import annotations

from math import cos, radians, sin
from typing import TYPE_CHECKING

from shapely.geometry import Point as Spot
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from parts.body.arch import rim
from parts.plane.sheets.assembly_list import Item, items, list_rows
from parts.plane.sheets.assembly_notes import notes
from parts.plane.sheets.common import SheetEntry, new_sheet
from parts.plane.sheets.metal import size_text, sliced
from parts.plane.sheets.silhouettes import area_of, inner_point, lines_of, seen_outlines, silhouette
from shared.cad.project import SectionFace
from shared.drawing.plan import SheetPlan
from shared.drawing.primitives import Line
from shared.drawing.view import View
from shared.profile import Profile

if TYPE_CHECKING:
    from parts.plane.models import Piece
    from parts.plane.run import Run

MIDDLE = (0.0, 0.0, 0.0)
ROUND_MOUTH = 11.0  # mm: radius of what the mouth's detail shows
LEAST_SEEN = 4.0  # mm2 of a part that a balloon can point at
HATCH = {"body": 45.0, "toe piece": 135.0, "frog": 135.0, "blade": 60.0, "chipbreaker": 120.0, "lever cap cap": 30.0,
         "lever cap": 30.0, "lever cap lever": 150.0, "lever cap leaf spring": 75.0, "tote": 105.0, "knob": 105.0}  # fmt: skip
AHEAD = ("lever cap", "lever cap cap", "lever cap lever", "clamp screw", "tote", "knob")


def _cut(run: Run, p: Piece) -> tuple[SectionFace, ...]:
    return sliced(run, p.name, p.solid, "front", MIDDLE)


def assembly_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the assembly's sheet, of either kind of plane."""
    d = run.design
    mass, _ = run.models.mass_and_centre()
    plan = new_sheet(run, entry, material="see the list", mass_kg=mass, kind="Assembly drawing",
                     scales=("1:1", "1:2"))  # fmt: skip
    found = items(run)
    numbers = {name: item.number for item in found for name in item.pieces}
    plan_view = plan.view("plan")
    section = plan.view("A-A", of=plan_view, place="below", label="SECTION A-A")
    left = dict(numbers)
    _section(section, run, left)
    _plan(plan_view, run, left)
    _overall(section, plan_view, run)
    _mouth(plan, run)
    plan.table(("No", "Part", "Qty", "Material", "Mass each", "Sheet, or bought"), list_rows(run, found), title="Parts")
    plan.notes(notes(run, [i for i in found if any(n in left for n in i.pieces) and not _shown(i, left)]))
    return plan


def _shown(item: Item, left: dict[str, int]) -> bool:
    return not all(n in left for n in item.pieces)


def _balloons(view: View, areas: list[tuple[str, BaseGeometry]], left: dict[str, int]) -> None:
    """Point a balloon at each part that has none yet and is seen; `left` loses it."""
    for name, area in areas:
        if name in left and area.area >= LEAST_SEEN:
            number = left[name]
            view.balloon(number, inner_point(area))
            for other in [n for n, k in left.items() if k == number]:
                del left[other]


def _section(view: View, run: Run, left: dict[str, int]) -> None:
    """Draw the cut parts hatched, small turned parts whole before them, and the far cheek behind."""
    areas: list[tuple[str, BaseGeometry]] = []
    whole: list[tuple[str, BaseGeometry]] = []
    for p in run.models.pieces:
        if p.name in HATCH:
            faces = _cut(run, p)
            for f in faces:
                view.draw([f.outer, *f.holes])
                view.hatch(f.outer, f.holes, HATCH[p.name])
            cut = Polygon()
            for f in faces:
                cut = cut.union(area_of(f.outer, f.holes))
            areas.append((p.name, cut))
        elif _on_middle(p):
            whole.append((p.name, silhouette(p.solid, "front")))
    drawn = seen_outlines([a for _, a in whole])
    for lines, _ in drawn:
        view.draw(lines)
    over: BaseGeometry = Polygon()
    for _, a in [*areas, *whole]:
        over = over.union(a)
    body = run.design.body
    pieces = [s for s in rim(body)]
    for s in pieces:
        pts = [*s.points(0.02), s.end]
        from shapely.geometry import LineString

        view.draw(lines_of(LineString(pts).difference(over)), "SMOOTH")
    view.draw([Line((body.toe_x - 6.0, 0.0), (body.heel_x + 6.0, 0.0))], "PHANTOM")
    shown = [(n, a) for (n, _), (_, a) in zip(whole, drawn, strict=True)]
    hidden: BaseGeometry = Polygon()
    for _, a in whole:
        hidden = hidden.union(a)
    _balloons(view, [*((n, a.difference(hidden)) for n, a in areas), *shown], left)


def _on_middle(p: Piece) -> bool:
    box = p.solid.BoundingBox()
    return box.ymin < -0.2 and box.ymax > 0.2


def _plan(view: View, run: Run, left: dict[str, int]) -> None:
    """Draw what is seen from above, the highest part last."""
    pieces = sorted(run.models.pieces, key=_height)
    areas = [silhouette(p.solid, "top") for p in pieces]
    body = run.design.body
    drawn = seen_outlines(areas)
    over: BaseGeometry = Polygon()
    for p, a in zip(pieces, areas, strict=True):
        if p.name != "body":
            over = over.union(a)
    for (lines, _), p in zip(drawn, pieces, strict=True):
        view.draw(lines)
        if p.name == "body":
            inner = body.inside_half_at(body.cheek_height)
            for y in (-inner, inner):
                from shapely.geometry import LineString

                view.draw(lines_of(LineString([(body.toe_x, y), (body.heel_x, y)]).difference(over)), "SMOOTH")
    view.centre_line((body.toe_x - 8.0, 0.0), (body.heel_x + 8.0, 0.0))
    view.section_marks((body.toe_x - 22.0, 0.0), (body.heel_x + 22.0, 0.0), "A", 90.0)
    _balloons(view, [(p.name, a) for p, (_, a) in zip(pieces, drawn, strict=True)], left)


def _height(p: Piece) -> tuple[float, float]:
    """Return what sorts parts from below upward: body first, what the hand holds last, else by their highest point."""
    box = p.solid.BoundingBox()
    layer = 0.0 if p.name == "body" else 2.0 if p.name in AHEAD else 1.0
    return layer, box.zmax


def _overall(section: View, plan_view: View, run: Run) -> None:
    d = run.design
    body, blade = d.body, d.blade
    section.dim_h((body.toe_x, 0.0), (body.heel_x, 0.0), body.length, side="below", reference=True)
    section.dim_h((body.toe_x, 0.0), (0.0, 0.0), -body.toe_x, side="below", reference=True, suffix=" to the edge")
    b = radians(d.spec.bed.angle)
    end = (blade.length * cos(b), blade.length * sin(b))
    section.dim_v((body.heel_x, 0.0), end, end[1], side="right", reference=True)
    top = d.knob.foot_plane_z + d.knob.height
    section.dim_v((body.toe_x, 0.0), (d.knob_x, top), top, side="left", reference=True)
    plan_view.dim_v((body.heel_x, -body.width / 2), (body.heel_x, body.width / 2), body.width, side="right",
                    reference=True)  # fmt: skip
    section.detail_mark((1.0, 2.0), ROUND_MOUTH, "B")


def _mouth(plan: SheetPlan, run: Run) -> None:
    """Draw detail B: the edge in the mouth, with the angles that make it cut."""
    d = run.design
    view = plan.view("B", label="DETAIL B, MOUTH", scale="5:1")
    window = Spot(1.0, 2.0).buffer(ROUND_MOUTH, quad_segs=32)
    for p in run.models.pieces:
        if p.name not in HATCH or p.name in ("tote", "knob"):
            continue
        for f in _cut(run, p):
            kept = area_of(f.outer, f.holes).intersection(window)
            for g in getattr(kept, "geoms", [kept]):
                if isinstance(g, Polygon) and g.area > 0.5:
                    shape = Profile.polygon([(x, y) for x, y in g.exterior.coords[:-1]], name=p.name)
                    view.hatch(shape, (), HATCH[p.name])
                    view.draw(lines_of(g.boundary.intersection(window.buffer(-0.01))))
    bed, edge = d.spec.bed.angle, (0.0, 0.0)
    down = d.orientation == "bevel-down"
    honed, back = d.blade.honed_bevel, d.blade.back_bevel
    cutting = float(run.numbers["blade"].value("cutting_angle_deg"))
    clearance = float(run.numbers["blade"].value("clearance_angle_deg"))
    view.draw([Line((-6.0, 0.0), (9.0, 0.0))], "PHANTOM")

    def along(angle: float, reach: float) -> tuple[float, float]:
        return reach * cos(radians(angle)), reach * sin(radians(angle))

    view.angle(edge, (9.0, 0.0), along(cutting, 9.0), cutting, reference=True, suffix=" cutting")
    view.angle(edge, (5.0, 0.0), along(clearance, 5.0), clearance, reference=True, suffix=" clearance")
    opening = d.body.mouth_opening
    view.dim_h((-opening, 0.0), edge, opening, side="below", suffix=" mouth")
    units = d.spec.units
    rows = [f"bed {bed:g}°, honed bevel {honed:g}°" + (f", back bevel {back:g}°" if back else "")]
    if down:
        setback = d.mechanism.chipbreaker.setback  # type: ignore[attr-defined]
        at = along(bed, setback)
        view.leader(at, [f"chipbreaker set back {size_text(setback, units)} along the face"], toward=150.0)
    view.leader(along(bed, 6.0), rows, toward=120.0, end="none")


ASSEMBLY_SHEETS = [SheetEntry("assembly", "Plane, assembly", "plane", ("assembly",), assembly_sheet)]
