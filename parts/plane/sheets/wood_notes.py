"""What the woodshop's sheets say alike: tolerances, moisture, finish, cautions."""

from __future__ import annotations

from parts.handle.wood import wood_cautions, wood_label
from parts.plane.design import Design
from shared.drawing.dimtext import plus_minus
from shared.numbers import Numbers

WOOD_TOL = 0.5  # mm: shaped wood where nothing else is stated; common practice, no source
# common practice, no source
FINISH = (
    "Finish: sand with the grain to 180, wet once to raise it and sand again; then two thin coats of drying oil, "
    "wiped dry after 15 min, a day between coats; bores and end grain of the foot too. Oily rags catch fire by "
    "themselves: dry them spread flat outdoors or under water in a closed can."
)


def wood_tolerance(first: str) -> str:
    """Return the general tolerance of shaped wood as the title block has it; `first` is "inch" or "mm"."""
    return f"wood {plus_minus(WOOD_TOL, first)} unless stated, bores as stated"


def wood_name(d: Design) -> str:
    """Return the species as a sheet writes it."""
    return wood_label(d.spec.handle.species)


def wood_notes(d: Design, n: Numbers, what: str) -> list[str]:
    """Return notes on stock, moisture, finish and cautions.

    Args:
        d: the plane.
        n: numbers of the handle.
        what: "tote", "knob" or "blanks": which cautions belong there.
    """
    wood = f"{wood_name(d)}, clear, straight-grained, kiln-dried"
    shop, customer = float(n.value("shop_emc_percent")), float(n.value("customer_emc_percent"))
    lines = [
        f"Stock: {wood}; bring it to {shop:.1f} % ± 2 % moisture in the shop before it is sawn. At the customer's it "
        f"may dry to {customer:.1f} %: the bores' clearance is for that, do not tighten them.",
    ]
    if what != "blanks":
        lines.append(FINISH)
    topics = {"tote": ("dust", "small pieces"), "knob": ("dust", "turning"), "blanks": ("dust", "small pieces")}[what]
    return [*lines, *(c.text for c in wood_cautions(d.spec.handle.species, d.spec.units) if c.topic in topics)]
