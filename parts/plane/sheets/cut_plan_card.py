"""The woodshop's cut plan as a sheet of tables: ways compared, boards to take, cuts in order."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.handle.cutplan.model import BoardPlan, Plan
from parts.handle.cutplan.words import bare_footage, footage, footage_column, proof_text
from parts.handle.grading import grade_name
from parts.handle.wood import wood_cautions, wood_label
from parts.plane.handle_blanks import HANDLE_SETS, best_way, moisture_lines, plan_title, rack_plan
from parts.plane.sheets.cards import card_sheet
from parts.plane.sheets.common import SheetEntry
from parts.plane.sheets.metal import size_text
from parts.plane.sheets.wood_notes import wood_name
from parts.plane.wood import handle_blanks
from shared.drawing.plan import SheetPlan
from shared.errors import PlanewrightError
from shared.wording import counted

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
                     f"{counted(HANDLE_SETS, 'set')} of blanks hold {footage(HANDLE_SETS * each, first)}, "
                     "no waste counted; `planewright blanks` says what to buy by grade."])  # fmt: skip
    else:
        best = best_way(plans)
        volume = footage_column(first)
        rows = [[way + (" (take)" if way == best else ""), f"{sum(p.sets.values())} of {sum(p.wanted.values())}",
                 f"{100 * p.yield_fraction:.1f} %", bare_footage(p.used_bf, first), str(len(p.boards)),
                 f"{p.saw_time_s / 60:.0f} min", proof_text(p, first)] for way, p in plans.items()]  # fmt: skip
        sheet.table(["way", "sets", "yield", volume, "boards", "saw time", "proof"], rows,
                    title=f"Ways of sawing {counted(HANDLE_SETS, 'set')}")  # fmt: skip
        sheet.table(["board", "species, grade", "length", "width", "thickness", "pieces", volume],
                    [_board(b, first) for b in plans[best].boards], title=f"Boards to take, {best}")  # fmt: skip
        more = [*(f"To buy: {x}." for x in plans[best].to_buy), *(f"Set aside: {x}." for x in plans[best].set_aside)]
        more += [f"{line[0].upper()}{line[1:]}." for line in
                 moisture_lines(plans[best], plan_title(d, HANDLE_SETS).shop_moisture_percent)]  # fmt: skip
        sheet.notes([*more,
                     "Cuts in their order, and every piece's place: cut-plan/plan.pdf, a page a board; board-*.dxf at "
                     "full size. The steps say when the wood comes to thickness: before outlines are sawn, wherever "
                     "it can."])  # fmt: skip
    sheet.notes([c.text for c in wood_cautions(d.spec.handle.species, first) if c.topic != "turning"], title="Cautions",
                numbered=False)  # fmt: skip
    return sheet


def _board(b: BoardPlan, first: str) -> list[str]:
    names = list(dict.fromkeys(p.piece for p in b.placements))
    pieces = ", ".join(counted(sum(p.piece == name for p in b.placements), name) for name in names)
    sizes = [size_text(x, first, (2, 1)) for x in (b.board.length_mm, b.board.width_mm, b.board.thickness_mm)]
    kind = f"{wood_label(b.board.species)}, {grade_name(b.board.grade)}"
    return [b.board.name, kind, *sizes, pieces, bare_footage(b.used_bf, first)]


CUT_PLAN_CARD = SheetEntry("card-cut-plan", "Cut plan", "lists", ("wood",), cut_plan_card)
