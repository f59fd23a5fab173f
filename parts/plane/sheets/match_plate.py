"""The sheets of the match plates: plan from the cope, with what stands on both sides, gating, pins and sizes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from parts.plane.match_plate_papers import file_of, solids_of
from parts.plane.moulding import cast_solid
from parts.plane.sheets.common import SheetEntry, new_sheet
from parts.plane.sheets.metal import kg_text, size_text
from shared.cad.plate_drawing import foot_outline, layer_of, sizes
from shared.cad.step import NamedSolid
from shared.casting.match_plate import Circle, MatchPlate, Rect
from shared.drawing.plan import SheetPlan
from shared.drawing.primitives import Primitive
from shared.drawing.view import View
from shared.errors import RequestError
from shared.profile import Profile

if TYPE_CHECKING:
    from parts.plane.run import Run

# which line of a drawing sheet each layer of the plate's 1:1 drawing becomes
LINES = {"OUTLINE": "OUTLINE", "COPE": "OUTLINE", "DRAG": "HIDDEN", "GATING": "OUTLINE", "RISER": "OUTLINE"}
Drawn = dict[str, list[Primitive]]


def _feet(solids: Sequence[NamedSolid], thickness: float) -> Drawn:
    """Return the outlines of what stands on a plate, by line; the plate's thickness in mm."""
    found: Drawn = {}
    for part in solids:
        found.setdefault(LINES[layer_of(part.name)], []).extend(foot_outline(part, thickness))
    return found


def match_plate_sheet(run: Run, entry: SheetEntry, name: str) -> SheetPlan:
    """Return the sheet of one cast part's match plate; where there is no flat plate, a sheet that says why.

    Args:
        run: the build.
        entry: which sheet.
        name: of the cast part.
    """
    mould, first = run.design.shop.mould, run.design.spec.units
    plan = new_sheet(run, entry, material="aluminium plate, steel bushes", kind="Tooling drawing",
                     tolerance="± 0.2 mm; pins ± 0.05 mm", texture="Ra 6.3 µm", scales=("1:2",))  # fmt: skip
    try:
        layout, solids = solids_of(run, name)
    except RequestError as err:
        plan.notes([f"No match plate of the {name}: {err}"])
        return plan
    view = plan.view("plan", label="FROM THE COPE; DRAG SIDE HIDDEN")
    for line, items in _feet(solids, mould.plate_thickness).items():
        view.draw(items, line)
    f = layout.flask
    view.draw([Profile.rectangle(-f.length / 2, -f.width / 2, f.length / 2, f.width / 2, name="flask")], "PHANTOM")
    _dimensions(view, layout)
    _names(view, layout)
    plan.table(["piece", "middle x", "middle y", "along", "across", "high", "side"], _rows(layout, first),
               title="Lay-out, from the plate's middle; sizes at half height")  # fmt: skip
    s, metal = layout.sections, cast_solid(run.models, name).alloy
    plan.notes([
        *sizes(layout, mould.plate_thickness, first),
        f"Metal: {metal.name}. Castings {layout.count} × {kg_text(layout.impression.mass_kg)}; poured "
        f"{kg_text(layout.poured_mass_kg)} a mould, yield {100 * layout.yield_share:.0f} %, in "
        f"{layout.pouring_time_s:.1f} s.",
        f"Choke at the {metal.choke_at}; runner area {s.runner_w * s.runner_h:.0f} mm². All sizes are pattern sizes: "
        "the contraction is in them.",
        "Fillets where patterns meet the plate: as on the pattern. No undercut along the draw; vents where the foundry "
        "asks for them.",
        "Caution: lift with two people or a hoist; keep fingers out from between flask and plate.",
    ])  # fmt: skip
    return plan


def _dimensions(view: View, layout: MatchPlate) -> None:
    p, f, (one, two) = layout.plate, layout.flask, layout.pins
    (x0, y0, x1, y1), flask = p.bounds, (f.length / 2, f.width / 2)
    view.dim_h((x0, y0), (x1, y0), p.dx)
    view.dim_v((x0, y0), (x0, y1), p.dy, side="left")
    view.dim_h((one.x, one.y), (two.x, two.y), two.x - one.x, 0.05, side="above", suffix=" pins")
    view.dim_h((-flask[0], -flask[1]), (flask[0], -flask[1]), f.length, suffix=" flask")
    view.dim_v((flask[0], -flask[1]), (flask[0], flask[1]), f.width, side="right", suffix=" flask")
    view.diameter((two.x, two.y), (two.x + two.diameter / 2, two.y), two.diameter, "H7", prefix="2× ",
                  more=["steel bush"])  # fmt: skip
    view.centre_marks([((c.x, c.y), c.diameter / 2) for c in (*layout.pins, layout.sprue, *layout.risers)], past=5.0)


def _names(view: View, layout: MatchPlate) -> None:
    view.leader((layout.sprue.x, layout.sprue.y), "sprue", end="dot")
    pieces: list[Rect | Circle] = [*layout.impressions, *layout.runners, *layout.ingates, *layout.necks]
    for c in (*pieces, *layout.risers):
        view.leader((c.x, c.y), c.name, end="dot")


def _rows(layout: MatchPlate, first: str) -> Sequence[Sequence[str]]:
    def t(v: float) -> str:
        return size_text(v, first)

    rows = []
    for r in (*layout.impressions, *layout.runners, *layout.ingates, *layout.necks):
        high = r.cope_mm + r.drag_mm
        side = "both" if r.cope_mm and r.drag_mm else ("cope" if r.cope_mm else "drag")
        rows.append([r.name, t(r.x), t(r.y), t(r.dx), t(r.dy), t(high), side])
    for c in (layout.base, layout.well, *layout.risers):
        rows.append([c.name, t(c.x), t(c.y), f"Ø {t(c.diameter)}", "", t(c.height_mm), c.side])
    return rows


def _sheet(name: str, part: str) -> SheetEntry:
    def make(run: Run, entry: SheetEntry) -> SheetPlan:
        return match_plate_sheet(run, entry, name)

    return SheetEntry(file_of(name), f"Match plate, {name}", part, ("pattern", "foundry"), make)


MATCH_PLATE_SHEETS = [_sheet(name, "plane") for name in ("body", "frog", "lever cap", "cam lever")]
LOW_MATCH_PLATE_SHEETS = [_sheet(name, "plane") for name in ("body", "lever cap")]
