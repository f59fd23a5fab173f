"""The plane put together: section on its middle, plan, mechanism and mouth at larger scale, parts list, notes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from OCP.Bnd import Bnd_Box
from OCP.BRepBndLib import BRepBndLib
from shapely.geometry import LineString

from parts.body.views import plan_outline
from parts.plane.sheets.assembly_details import MOUTH_MIDDLE, MOUTH_REACH, balloons, draw_section, mechanism, mouth
from parts.plane.sheets.assembly_list import items, list_rows
from parts.plane.sheets.assembly_notes import notes
from parts.plane.sheets.assembly_views import from_above, on_middle
from parts.plane.sheets.common import SheetEntry, new_sheet
from parts.plane.sheets.silhouettes import lines_of, surface_of
from shared.drawing.plan import SheetPlan
from shared.drawing.primitives import Line
from shared.drawing.view import View
from shared.profile import Profile

if TYPE_CHECKING:
    from parts.plane.models import Piece
    from parts.plane.run import Run

TALL = ("tote", "blade", "clamp screw", "lever cap lever", "knob")  # what may reach highest


def assembly_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the assembly's sheet, of either kind of plane."""
    mass, _ = run.models.mass_and_centre()
    plan = new_sheet(run, entry, material="see the list", mass_kg=mass, kind="Assembly drawing",
                     scales=("1:1",))  # fmt: skip
    found = items(run)
    left = {name: item.number for item in found for name in item.pieces}
    every = dict(left)
    plan_view = plan.view("plan")
    section = plan.view("A-A", of=plan_view, place="below", label="SECTION A-A")
    # a bench plane's mechanism is too crowded for its numbers at full size
    large = mechanism(plan, section, run, left) if run.design.orientation == "bevel-down" else None
    _section(section, run, left, large is not None)
    _plan(plan_view, run, left)
    _overall(section, plan_view, run)
    mouth(plan, run)
    plan.table(("No", "Part", "Qty", "Material", "Mass each", "Sheet, or bought"), list_rows(run, found), title="Parts")
    unseen = [i for i in found if i.number not in {every[n] for n in every if n not in left}]
    plan.notes(notes(run, unseen))
    return plan


def _section(view: View, run: Run, left: dict[str, int], larger: bool) -> None:
    """Draw the section on the middle; `larger` where the mechanism has a view of its own."""
    drawn = on_middle(run)
    draw_section(view, drawn)
    body = run.design.body
    view.draw([Line((body.toe_x - 6.0, 0.0), (body.toe_x, 0.0)), Line((body.heel_x, 0.0), (body.heel_x + 6.0, 0.0))],
              "PHANTOM")  # fmt: skip
    # pointed at in the section itself: what is cut, and what stands whole before it
    near = {n: s for n, s in drawn.spots.items() if n not in drawn.beyond or n in drawn.faces}
    balloons(view, near, left)
    if not larger:
        balloons(view, drawn.spots, left)


def _plan(view: View, run: Run, left: dict[str, int]) -> None:
    """Draw what is seen from above."""
    body, drawn = run.design.body, from_above(run)
    for lines in drawn.lines.values():
        view.draw(lines)
    inner = body.inside_half_at(body.cheek_height)
    outline = plan_outline(body)
    for y in (-inner, inner):
        rim = LineString([(body.toe_x, y), (body.heel_x, y)])
        view.draw(lines_of(rim.intersection(_free(run, y))), "SMOOTH")
    view.draw([outline])
    view.centre_line((body.toe_x - 8.0, 0.0), (body.heel_x + 8.0, 0.0))
    view.section_marks((body.toe_x - 22.0, 0.0), (body.heel_x + 22.0, 0.0), "A", 90.0)
    balloons(view, drawn.spots, left)


def _free(run: Run, y: float) -> LineString:
    """Return the stretch along the plane at y [mm] over which no part but the body stands."""
    body = run.design.body
    whole = LineString([(body.toe_x, y), (body.heel_x, y)])
    for p in run.models.pieces:
        v = surface_of(run, p).vertices
        if p.name != "body" and v[:, 1].min() < y < v[:, 1].max():
            whole = whole.difference(LineString([(v[:, 0].min(), y), (v[:, 0].max(), y)]))
    return whole


def _top(p: Piece) -> float:
    """Return the height of a solid's highest point over the sole [mm], by the kernel's exact box."""
    box = Bnd_Box()
    BRepBndLib.AddOptimal_s(p.solid.wrapped, box, False, False)
    return float(box.Get()[5])


def _overall(section: View, plan_view: View, run: Run) -> None:
    d = run.design
    body, end, toe = d.body, (d.body.heel_x, 0.0), (d.body.toe_x, 0.0)
    section.dim_h(toe, end, body.length, side="below", reference=True)
    section.dim_h(toe, (0.0, 0.0), -body.toe_x, side="below", reference=True, suffix=" to the edge")
    tops = {p.name: (_top(p), _highest_x(run, p)) for p in run.models.pieces if p.name in TALL}
    first = max(tops, key=lambda n: tops[n][0])
    if "tote" in tops and first != "tote":
        z, x = tops["tote"]
        section.dim_v(end, (x, z), z, side="right", reference=True, suffix=" tote")
    z, x = tops[first]
    section.dim_v(end, (x, z), z, side="right", reference=True, suffix=" overall height")
    z = d.knob.foot_plane_z + d.knob.height
    section.dim_v(toe, (d.knob_x, z), z, side="left", reference=True, suffix=" knob")
    plan_view.dim_v((body.heel_x, -body.width / 2), (body.heel_x, body.width / 2), body.width, side="right",
                    reference=True)  # fmt: skip
    section.draw([Profile.circle(MOUTH_MIDDLE, MOUTH_REACH, "detail B")], "SMOOTH")
    at = (MOUTH_MIDDLE[0] + 0.6 * MOUTH_REACH, MOUTH_MIDDLE[1] - 0.8 * MOUTH_REACH)
    section.leader(at, "DETAIL B", end="none", toward=-30.0)


def _highest_x(run: Run, p: Piece) -> float:
    v = surface_of(run, p).vertices
    return float(v[v[:, 2].argmax(), 0])


ASSEMBLY_SHEETS = [SheetEntry("assembly", "Plane, assembly", "plane", ("assembly",), assembly_sheet)]
