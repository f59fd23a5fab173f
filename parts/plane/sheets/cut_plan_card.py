"""The woodshop's cut plan as a sheet of tables: ways compared, boards to take, cuts in order."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.handle.cutplan.model import BoardPlan, Plan
from parts.handle.wood import wood_cautions
from parts.plane.handle_blanks import HANDLE_SETS, best_way, rack_plan
from parts.plane.sheets.cards import card_sheet
from parts.plane.sheets.common import SheetEntry
from parts.plane.sheets.metal import size_text
from parts.plane.sheets.wood_notes import wood_name
from parts.plane.wood import handle_blanks
from shared.drawing.plan import SheetPlan
from shared.errors import PlanewrightError

if TYPE_CHECKING:
    from parts.plane.run import Run

KEY = "rack plan"  # among the models, which a second process hands over


def plans_of(run: Run) -> dict[str, Plan] | str:
    """Return the cut plans of the standard number of sets, made once a build; the reason where there are none."""
    made = run.models.__dict__
    if KEY not in made:
        if run.rack is None:
            found: dict[str, Plan] | str = "no rack.csv beside the spec"
        else:
            try:
                found = rack_plan(run.design, HANDLE_SETS, run.rack)
            except PlanewrightError as err:
                # a short rack must not keep the other shops' papers back; the card says what is missing
                found = str(err)
        run.models.take(KEY, found)
    plans: dict[str, Plan] | str = made[KEY]
    return plans


def cut_plan_card(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the summary of the cut plan; drawings and full-size outlines of the boards are in cut-plan/."""
    d, first = run.design, run.design.spec.units
    sheet = card_sheet(run, entry, wood_name(d))
    plans = plans_of(run)
    if isinstance(plans, str):
        each = sum(b.board_feet for b in handle_blanks(d))
        sheet.notes([f"No cut plan: {plans}.",
                     f"{HANDLE_SETS} sets of blanks hold {HANDLE_SETS * each:.2f} board feet, no "
                     "waste counted; `planewright blanks` says what to buy by grade."])  # fmt: skip
    else:
        best = best_way(plans)
        rows = [[way + (" (take)" if way == best else ""), f"{sum(p.sets.values())} of {sum(p.wanted.values())}",
                 f"{100 * p.yield_fraction:.1f} %", f"{p.used_bf:.2f}", str(len(p.boards)),
                 f"{p.saw_time_s / 60:.0f} min", _proven(p)] for way, p in plans.items()]  # fmt: skip
        sheet.table(["way", "sets", "yield", "board feet", "boards", "saw time", "proven"], rows,
                    title=f"Ways of sawing {HANDLE_SETS} sets")  # fmt: skip
        sheet.table(["board", "species, grade", "length", "width", "thickness", "pieces", "board feet"],
                    [_board(b, first) for b in plans[best].boards], title=f"Boards to take, {best}")  # fmt: skip
        more = [*(f"To buy: {x}." for x in plans[best].to_buy), *(f"Set aside: {x}." for x in plans[best].set_aside)]
        sheet.notes([*more,
                     "Cuts in their order, and every piece's place: cut-plan/plan.pdf, a page a board; board-*.dxf at "
                     "full size. Outlines of curved pieces are sawn from the strips at the bandsaw."])  # fmt: skip
    sheet.notes([c.text for c in wood_cautions(d.spec.handle.species) if c.topic != "turning"], title="Cautions",
                numbered=False)  # fmt: skip
    return sheet


def _proven(p: Plan) -> str:
    if p.proven:
        return "optimal"
    return "no" if p.gap_bf is None else f"within {p.gap_bf:.2f} bf"


def _board(b: BoardPlan, first: str) -> list[str]:
    names = list(dict.fromkeys(p.piece for p in b.placements))
    pieces = ", ".join(f"{sum(p.piece == name for p in b.placements)} {name}" for name in names)
    sizes = [size_text(x, first, (2, 1)) for x in (b.board.length_mm, b.board.width_mm, b.board.thickness_mm)]
    kind = f"{b.board.species}, {b.board.grade.replace('_', ' ')}"
    return [b.board.name, kind, *sizes, pieces, f"{b.used_bf:.2f}"]


CUT_PLAN_CARD = SheetEntry("card-cut-plan", "Cut plan", "lists", ("wood",), cut_plan_card)
