"""The plane put together: section on its middle, plan, the mouth at larger scale, parts list, order of assembly."""

from __future__ import annotations

from math import cos, radians, sin
from typing import TYPE_CHECKING

from shapely import union_all
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Spot
from shapely.geometry.base import BaseGeometry

from parts.body.arch import rim
from parts.body.views import plan_outline
from parts.plane.sheets.assembly_list import Item, items, list_rows
from parts.plane.sheets.assembly_notes import notes
from parts.plane.sheets.common import SheetEntry, new_sheet
from parts.plane.sheets.metal import size_text, sliced
from parts.plane.sheets.silhouettes import area_of, inner_point, lines_of, seen_outlines, silhouette, surface_of
from shared.cad.project import SectionFace
from shared.drawing.plan import SheetPlan
from shared.drawing.primitives import Line
from shared.drawing.view import View
from shared.profile import Profile
from shared.surface import Surface

if TYPE_CHECKING:
    from parts.plane.models import Piece
    from parts.plane.run import Run

MIDDLE = (0.0, 0.0, 0.0)
LOOK_AT = (1.0, 2.0)  # x, z [mm]: middle of the mouth's detail
ROUND_MOUTH = 11.0  # mm: radius of what the mouth's detail shows
LEAST_SEEN = 4.0  # mm2 of a part that a balloon can point at
HATCH = {"body": 45.0, "toe piece": 135.0, "frog": 135.0, "blade": 60.0, "chipbreaker": 120.0,
         "lever cap cap": 30.0, "lever cap": 30.0, "lever cap lever": 150.0, "lever cap leaf spring": 75.0,
         "tote": 105.0, "knob": 105.0}  # fmt: skip
AHEAD = ("lever cap", "lever cap cap", "lever cap lever", "clamp screw", "tote", "knob")


def _cut(run: Run, p: Piece) -> tuple[SectionFace, ...]:
    return sliced(run, p.name, p.solid, "front", MIDDLE)


def assembly_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the assembly's sheet, of either kind of plane."""
    mass, _ = run.models.mass_and_centre()
    plan = new_sheet(run, entry, material="see the list", mass_kg=mass, kind="Assembly drawing",
                     scales=("1:1",))  # fmt: skip
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
            areas.append((p.name, union_all([area_of(f.outer, f.holes) for f in faces])))
        elif _on_middle(surface_of(run, p)):
            whole.append((p.name, silhouette(surface_of(run, p), "front")))
    drawn = seen_outlines([a for _, a in whole])
    for lines, _ in drawn:
        view.draw(lines)
    over = union_all([a for _, a in [*areas, *whole]])
    body = run.design.body
    for s in rim(body):
        view.draw(lines_of(LineString([*s.points(0.02), s.end]).difference(over)), "SMOOTH")
    view.draw([Line((body.toe_x - 6.0, 0.0), (body.heel_x + 6.0, 0.0))], "PHANTOM")
    before = union_all([a for _, a in whole])
    shown = [(n, a) for (n, _), (_, a) in zip(whole, drawn, strict=True)]
    _balloons(view, [*((n, a.difference(before)) for n, a in areas), *shown], left)


def _on_middle(surface: Surface) -> bool:
    y = surface.vertices[:, 1]
    return bool(y.min() < -0.2 and y.max() > 0.2)


def _plan(view: View, run: Run, left: dict[str, int]) -> None:
    """Draw what is seen from above, the highest part last; all stands in the body's trough."""
    body = run.design.body
    pieces = sorted((p for p in run.models.pieces if p.name != "body"), key=lambda p: _height(run, p))
    areas = [silhouette(surface_of(run, p), "top") for p in pieces]
    over = union_all(areas)
    for lines, _ in (drawn := seen_outlines(areas)):
        view.draw(lines)
    view.draw([plan_outline(body)])
    inner = body.inside_half_at(body.cheek_height)
    for y in (-inner, inner):
        view.draw(lines_of(LineString([(body.toe_x, y), (body.heel_x, y)]).difference(over)), "SMOOTH")
    view.centre_line((body.toe_x - 8.0, 0.0), (body.heel_x + 8.0, 0.0))
    view.section_marks((body.toe_x - 22.0, 0.0), (body.heel_x + 22.0, 0.0), "A", 90.0)
    _balloons(view, [(p.name, a) for p, (_, a) in zip(pieces, drawn, strict=True)], left)


def _height(run: Run, p: Piece) -> tuple[float, float]:
    """Return what sorts parts from below upward: what the hand holds last, else by their highest point."""
    return 1.0 if p.name in AHEAD else 0.0, float(surface_of(run, p).vertices[:, 2].max())


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
    section.draw([Profile.circle(LOOK_AT, ROUND_MOUTH, "detail B")], "SMOOTH")
    at = (LOOK_AT[0] + 0.6 * ROUND_MOUTH, LOOK_AT[1] - 0.8 * ROUND_MOUTH)
    section.leader(at, "DETAIL B", end="none", toward=-30.0)


def _mouth(plan: SheetPlan, run: Run) -> None:
    """Draw detail B: the edge in the mouth, with the angles that make it cut."""
    d = run.design
    view = plan.view("B", label="DETAIL B, MOUTH", scale="5:1")
    window = Spot(*LOOK_AT).buffer(ROUND_MOUTH, quad_segs=32)
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
