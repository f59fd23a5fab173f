"""The sheets of the match plates: plan from the cope, with what stands on both sides, gating, pins and sizes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from parts.plane.casting_proof import casting_proof
from parts.plane.match_plate_papers import file_of, solids_of
from parts.plane.moulding import cast_solid
from parts.plane.sheets.common import SheetEntry, new_sheet
from parts.plane.sheets.metal import DRILLED, plus_minus, ra_text, size_text
from shared.both_units import area
from shared.cad.plate_drawing import foot_outline, layer_of, sizes
from shared.cad.step import NamedSolid
from shared.casting.match_plate import Circle, MatchPlate, Rect
from shared.drawing.plan import SheetPlan
from shared.drawing.primitives import Primitive
from shared.drawing.title import mass_text
from shared.drawing.view import View
from shared.errors import RequestError
from shared.profile import Profile

if TYPE_CHECKING:
    from parts.plane.run import Run

# which line of a drawing sheet each layer of the plate's 1:1 drawing becomes
LINES = {"OUTLINE": "OUTLINE", "COPE": "OUTLINE", "DRAG": "HIDDEN", "GATING": "OUTLINE", "RISER": "OUTLINE"}
# the end of each cast part that lies at the lower x of its own frame
LOW_ENDS = {"body": "toe", "frog": "bed's foot", "lever cap": "nose", "cam lever": "cam"}
PLATE_TOL, PIN_TOL = 0.2, 0.05  # mm; common practice, no source
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
                     tolerance=f"{plus_minus(PLATE_TOL, first)}; pins {plus_minus(PIN_TOL, first)}",
                     texture=ra_text(DRILLED, first), scales=("1:2",))  # fmt: skip
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
    _names(view, layout, LOW_ENDS[name])
    plan.table(["piece", "middle x", "middle y", "along", "across", "high in the cope", "deep in the drag"],
               _rows(layout, first), title="Lay-out, from the plate's middle; sizes at half height")  # fmt: skip
    s, metal = layout.sections, cast_solid(run.models, name).alloy
    plan.notes([
        *sizes(layout, mould.plate_thickness, first),
        f"Metal: {metal.name}. Castings {layout.count} × {mass_text(layout.impression.mass_kg, first)}; poured "
        f"{mass_text(layout.poured_mass_kg, first)} a mould, without the cup on the sprue, in "
        f"{layout.pouring_time_s:.1f} s.",
        f"Choke at the {metal.choke_at}; runner area {area(s.runner_w * s.runner_h, first)}. All sizes are pattern "
        "sizes: the contraction is in them.",
        *_feeding(run, layout, name),
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


def _feeding(run: Run, layout: MatchPlate, name: str) -> list[str]:
    """Say where the casting freezes last, and why the risers stand where they do."""
    if not layout.risers:
        return []
    proof = casting_proof(run.models, name)
    return [
        f"The {name} freezes last {proof.near(proof.spots[0].at, run.design.spec.units)}. The risers stand beside the "
        "runner, at the casting's edge, since there they get the hottest metal and draw with the plate; saw their "
        "necks off, never knock. They feed that place only while the way to it is open: saw the first castings through "
        "there; the castings' proof says what to do where one is open. Risers are blind: a sand point rammed into each "
        "top keeps its skin open to the air; vent it through the cope."
    ]


def _names(view: View, layout: MatchPlate, low_end: str) -> None:
    """Name every piece, and on each impression the end that lies toward the plane's toe."""
    for i in layout.impressions:
        side = 1.0 if i.turned_deg else -1.0
        # what lies on its side has its low end toward the runner; the bed's foot is the very corner
        up = 0.5 * i.dy - 3.0 if low_end == LOW_ENDS["frog"] else 0.3 * i.dy
        view.leader((i.x + side * (0.5 * i.dx - 3.0), i.y + side * up), low_end, end="dot")
    view.leader((layout.sprue.x, layout.sprue.y), "sprue", end="dot")
    pieces: list[Rect | Circle] = [*layout.impressions, *layout.runners, *layout.ingates, *layout.necks]
    for c in (*pieces, *layout.risers):
        view.leader((c.x, c.y), c.name, end="dot")


def _rows(layout: MatchPlate, first: str) -> Sequence[Sequence[str]]:
    def t(v: float) -> str:
        return size_text(v, first)

    rows = []
    for r in (*layout.impressions, *layout.runners, *layout.ingates, *layout.necks):
        rows.append([r.name, t(r.x), t(r.y), t(r.dx), t(r.dy), *(t(v) if v else "–" for v in (r.cope_mm, r.drag_mm))])
    for c in (layout.base, layout.well, *layout.risers):
        rows.append([c.name, t(c.x), t(c.y), f"Ø {t(c.diameter)}", "",
                     *(t(c.height_mm) if c.side == side else "–" for side in ("cope", "drag"))])  # fmt: skip
    return rows


def _sheet(name: str, part: str) -> SheetEntry:
    def make(run: Run, entry: SheetEntry) -> SheetPlan:
        return match_plate_sheet(run, entry, name)

    return SheetEntry(file_of(name), f"Match plate, {name}", part, ("pattern", "foundry"), make)


MATCH_PLATE_SHEETS = [_sheet(name, "plane") for name in ("body", "frog", "lever cap", "cam lever")]
LOW_MATCH_PLATE_SHEETS = [_sheet(name, "plane") for name in ("body", "lever cap")]
