"""A pattern's counter-bow as the pattern maker reads it."""

from __future__ import annotations

from shared.casting.contraction import Contraction
from shared.casting.counter_bow import CounterBow
from shared.units import to_inch


def bow_text(bow: CounterBow, master: Contraction | None) -> list[str]:
    """Return the counter-bow as a table of ordinates for the piece that the pattern maker cuts.

    Args:
        bow: of the working pattern.
        master: contraction of the pattern metal when the working pattern is cast, else None.
    """
    cut = bow if master is None else bow.grown(1 + master.x, 1 + master.z)
    what = "pattern" if master is None else "master"
    way = "lowered" if cut.depth_mm > 0 else "raised"
    lines = [
        f"  counter-bow: the {what}'s middle is {way} by {abs(cut.depth_mm):.3f} mm "
        f"({abs(to_inch(cut.depth_mm)):.4f} in) against its ends, over its whole height alike, so that the castings "
        "come straight",
        "  The STEP models are straight; STL and 3MF have the bow in them. A piece cut from the STEP model or by hand "
        "is shifted up or down by these ordinates:",
        f"    {'from the toe end':>27}{'ordinate':>22}",
    ]
    for at, raw in cut.ordinates():
        up = round(raw, 4) + 0.0  # no "-0.000"
        lines.append(f"    {at:>10.1f} mm {to_inch(at):>9.3f} in {up:>12.3f} mm {to_inch(up):>9.4f} in")
    return lines


def bow_json(bow: CounterBow | None) -> dict[str, object] | None:
    """Return a working pattern's counter-bow for JSON; None where there is none."""
    if bow is None:
        return None
    rows = [{"from_toe_mm": at, "ordinate_mm": up} for at, up in bow.ordinates()]
    return {"depth_mm": bow.depth_mm, "length_mm": bow.length_mm, "ordinates": rows}
