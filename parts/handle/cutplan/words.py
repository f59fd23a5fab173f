"""How the woodshop's papers write sizes, places, footage and counts: the spec's unit first, the other in brackets."""

from __future__ import annotations

from collections.abc import Sequence

from parts.handle.cutplan.model import Plan
from shared.both_units import lengths, ordered
from shared.units import MM_PER_IN
from shared.wording import counted

DM3_PER_BF = 144 * MM_PER_IN**3 / 1e6  # a board foot is 144 cubic inches
PLACES = (2, 1)  # decimals of inch and of mm: no saw sets finer


def length(mm: float, first: str, decimals: tuple[int, int] = PLACES) -> str:
    """Return a length [mm] in both units: "1.18 in [30.0 mm]"; `first` is "inch" or "mm"."""
    return lengths((mm,), first, decimals)


def sizes(mm: Sequence[float], first: str) -> str:
    """Return sizes [mm] in both units: "4.96 × 3.43 in [126.0 × 87.1 mm]"; `first` as for `length`."""
    return lengths(mm, first, PLACES)


def span(low_mm: float, high_mm: float, first: str) -> str:
    """Return a stretch of the board [mm] in both units: "1.00 to 2.04 in [25.4 to 51.8 mm]"; `first` as `length`."""
    inch = f"{low_mm / MM_PER_IN:.2f} to {high_mm / MM_PER_IN:.2f} in"
    return ordered(inch, f"{low_mm:.1f} to {high_mm:.1f} mm", first)


def places(mm: Sequence[float], first: str) -> str:
    """Return places along a board [mm] as a list: "(in [mm]) 0.94 [23.8], 2.11 [53.5]"; `first` as for `length`."""
    each = (ordered(f"{v / MM_PER_IN:.2f}", f"{v:.1f}", first) for v in mm)
    return f"({ordered('in', 'mm', first)}) {', '.join(each)}"


def footage(bf: float, first: str, decimals: int = 2) -> str:
    """Return a footage [board feet]: "2.65 board feet", on a metric plane "6.25 dm³ [2.65 board feet]"."""
    feet = f"{bf:.{decimals}f} board feet"
    return feet if first == "inch" else f"{bf * DM3_PER_BF:.{decimals}f} dm³ [{feet}]"


def footage_column(first: str) -> str:
    """Return the head of a column of `bare_footage`."""
    return "board feet" if first == "inch" else "dm³ [board feet]"


def bare_footage(bf: float, first: str, decimals: int = 2) -> str:
    """Return a footage [board feet] without its units, for a column whose head names them."""
    return footage(bf, first, decimals).replace(" board feet", "").replace(" dm³", "")


def matched_text(plan: Plan) -> str:
    """Return how many sets come from one board each; "" where a set is a single piece."""
    pieces = max((len(o.blanks) for o in plan.orders), default=1)
    return f"tote and knob from one board in {sum(plan.matched.values())} of them" if pieces > 1 else ""


def spares_text(plan: Plan) -> str:
    """Return what is cut beyond the sets: "spare pieces, for stock: 1 Wren knob"; "" where nothing is."""
    spares = ", ".join(counted(n, name) for name, n in plan.spares.items())
    return f"spare pieces, for stock: {spares}" if spares else ""


def proof_text(plan: Plan, first: str) -> str:
    """Return in plain words how near the plan is to the best of its kind; `first` as for `length`."""
    if plan.proven:
        return "no plan of this way takes less wood"
    if plan.gap_bf is None:
        return f"no plan of this way gives more than {counted(plan.bound_sets, 'set')}"
    return f"no plan of this way saves more than {footage(plan.gap_bf, first)}"
