"""In which order a blade is made, to which finish, and why. The finishes and limits are `parts.blade.limits`'."""

from __future__ import annotations

from parts.blade import limits
from parts.blade.angles import Orientation
from parts.blade.card_words import length, rough
from shared.drawing.content import ra_text
from shared.numbers import COMMON_PRACTICE

SOURCE = COMMON_PRACTICE


def order_of_work(orientation: Orientation, units: str) -> tuple[tuple[str, str, str], ...]:
    """Return the order of work, as (what, finish, why).

    Args:
        orientation: "bevel-down" or "bevel-up"; bevel up the flat lies on the bed, and the bevel meets the chip.
        units: "inch" or "mm", which stands first.
    """
    down = orientation == "bevel-down"
    flat, other = ("face", "back") if down else ("flat", "upper side")
    first = f"flat within {length(limits.FACE_FLAT_MM, units)} over the first {length(limits.FACE_FIRST_MM, units)}"
    parallel = f"parallel to the {flat} within {length(limits.BACK_PARALLEL_MM[orientation], units)}"
    soft = "a surface hotter than the temper is soft"
    return (
        ("saw and mill", "all round",
         f"to the blank's size; slot and holes soft, inside corners of {rough(1.0, units)} radius or more"),
        ("ease", f"every edge but the cutting edge, {rough(0.2, units)} to {rough(0.5, units)}",
         "sharp arrises crack in the quench and cut hands later"),
        ("rough the bevel", f"leave a flat {rough(0.8, units)} to {rough(1.0, units)} thick at the edge",
         "a thin edge burns, warps and cracks in hardening"),
        ("harden and temper", "as the heat treatment card says", "before any finish grinding"),
        (f"grind the {flat}", f"{ra_text(limits.FACE_RA, units)}, {first}",
         "the datum of everything after it" + ("" if down else "; it lies on the bed")),
        (f"grind the {other}", f"{ra_text(limits.BACK_RA, units)}, {parallel}",
         "it lies on the bed; its thickness sets the mouth" if down
         else "lever cap and clamp press on it; its thickness does not move the edge"),
        ("grind the edges", f"square to the {flat}, parallel", "lateral adjustment needs a straight side"),
        ("grind the bevel", f"{ra_text(limits.BEVEL_RA[orientation], units)}, light cuts, flood or frequent dips",
         soft if down else f"the chip slides on it; {soft}"),
        ("hone", f"{ra_text(limits.EDGE_RA, units)} or finer at the edge",
         f"{flat} first, then bevel or micro-bevel"),
        ("ease again", "every edge but the cutting edge, by hand", "grinding has made them sharp"),
    )  # fmt: skip
