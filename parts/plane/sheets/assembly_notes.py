"""What the assembly's sheet says of putting together and setting: order, hand force, mouth, cautions."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.plane.sheets.metal import size_text

if TYPE_CHECKING:
    from parts.plane.run import Run
    from parts.plane.sheets.assembly_list import Item


def notes(run: Run, unseen: list[Item]) -> list[str]:
    """Return the notes.

    Args:
        run: the build.
        unseen: lines of the list that no balloon points at.
    """
    own = _bench(run) if run.design.orientation == "bevel-down" else _low(run)
    glued = getattr(run.design.body, "toe_way", None) is not None
    end = [
        "Tighten every screw and rod by hand with a driver that fills its slot: firm, never forced. Rods only until "
        "the wood is firm on its seat; look after them when the seasons change."
        + (" The knob is tightened by hand alone: its nut is glued into it." if glued else ""),
        "Caution: the blade cuts. Keep it drawn back or sheathed until the last step; work with it pointing away.",
        "Section: rods, screws, pins and turned parts are drawn whole; thin lines: what stands beyond the cut.",
    ]
    if unseen:
        named = ", ".join(f"{i.number} {i.name}" for i in unseen)
        end.append(f"Without a number in the views, hidden or too small: {named}.")
    return [*own, *end]


def _bench(run: Run) -> list[str]:
    d, n = run.design, run.numbers
    units = d.spec.units
    worst = float(n["bedding"].value("mouth_opening_worst_mm"))
    breaker = d.mechanism.chipbreaker  # type: ignore[attr-defined]
    turn = float(n["hardware"].value("depth_per_turn_mm"))
    return [
        "Order: yoke, its pin, depth post and wheel, lateral lever into the frog; frog on the body, hold-down screws "
        f"just nipped; lever-cap screw into the frog; tote and knob with rods and nuts{_toe_screw(run)}; chipbreaker "
        "on the blade; blade on the frog, yoke's tip in the chipbreaker's window, roller in the blade's slot; lever "
        "cap last.",
        f"Mouth: slide the frog until the gap ahead of the edge is {size_text(d.body.mouth_opening, units)} as drawn "
        f"(by parts alone ±{size_text(worst, units)}), its front square to the edge; then tighten the hold-down screws "
        "in turn and look again.",
        f"Chipbreaker: set its edge {size_text(breaker.setback, units)} behind the cutting edge along the face, "
        "parallel to it, and tighten its screw; no light may show under it.",
        "Lever-cap screw: so that the lever shuts by one finger and thumb and the leaf just lies flat; never force the "
        "lever. Draw the blade back before the lever is opened or shut.",
        f"Depth: one turn of the wheel moves the cut by {size_text(turn, units, (4, 3))}; last movement always "
        "pushing the blade out.",
    ]


def _toe_screw(run: Run) -> str:
    """Return what follows the tote's rod and nut in the order: its toe screw, where it has one."""
    tote = run.design.tote
    return "" if tote is None or tote.toe is None else " and its toe screw"


def _low(run: Run) -> list[str]:
    d, n = run.design, run.numbers
    units = d.spec.units
    turn = float(n["adjuster"].value("depth_per_turn_mm"))
    way = d.body.toe_way
    front = "knob with its rod and nut"
    if way is not None:
        front = "rod into the toe piece with thread locker; toe piece in its way, the knob run down on the rod by hand"
    handles = front if d.tote is None else f"{front}; tote with its rod and nut{_toe_screw(run)}"
    found = [
        "Order: depth post into the bridge, lever-cap stud into the bed, both with thread locker; wheel on the post to "
        f"the middle of its travel; {handles}; blade bevel up on the bed, the wheel's flange in a cross slot; "
        "lever cap over the stud's head, slid down on its seat; clamp screw last.",
        "Clamp screw: two fingers, until the blade no longer shifts by hand; slacken it half a turn before the depth "
        "wheel is turned, and tighten it again.",
        f"Depth: one turn of the wheel moves the cut by {size_text(turn, units, (4, 3))}; last movement always "
        "pushing the blade out. The blade is squared by hand at its upper end.",
    ]
    if way is not None:
        set_to = size_text(d.body.mouth_opening, units)
        least, most = size_text(way.opening_least, units), size_text(way.opening_most, units)
        found.insert(
            1,
            f"Mouth: slacken the knob, slide the toe piece to a gap of {set_to} as drawn "
            f"({least} to {most}), tighten the knob by hand. Draw the blade back first. "
            f"Lock: {n['toe_piece'].value('lock')}.",
        )
    else:
        found.insert(1, f"Mouth: {size_text(d.body.mouth_opening, units)} as drawn, fixed by the body.")
    return found
