"""What to change where a body's walls and radii leave no room, by what the model's limits say is too small."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import partial
from typing import Any

from parts.plane.design import Design
from parts.plane.rules.trial import GROWS, either, least_offer

# what is tried where no change that the lack names does it alone
ELSE = (("lower", "body.mouth_from_toe"), ("raise", "body.mouth_from_toe"), ("lengthen", "body.length"),
        ("widen", "body.width"), ("lower", "body.root_radius"))  # fmt: skip
LENGTHWISE = "by place"
AHEAD, BEHIND = "raise body.mouth_from_toe by twice the difference", "lengthen body.length by twice the difference"
UNDER_TOTE = "raise handle.toe_reach by the difference, which parts the tote's two bosses"
# words of the reason -> keys that give the room; the first that fits counts
GIVES_ROOM = (
    ("parting plane", "set body.parting_height between the lowest and highest said, or leave it out: the raw sole"),
    ("corner radius makes", "lower body.corner_radius to the most said, or leave it out"),
    ("corner radius at the top", "lower shop.toml's casting.draft_outside, or body.cheek_height"),
    ("the rail above the plate", "raise body.rail_height by the difference, or lower body.root_radius as much"),
    ("cheek at its peak", "thicken body.cheek_thickness by the difference"),
    ("cheek left beside the mouth", "widen body.width by twice the difference, or narrow blade.width"),
    ("the stock on", "ask for a coarser casting.tolerance_grade or machining_grade in shop.toml"),
    ("between pad and cheek", "widen body.width by twice the difference, or raise frog.bed_margin"),
    ("between boss and cheek", "widen body.width by twice the difference"),
    ("the plate between", LENGTHWISE),
    ("the boss above the plate", "raise handle.grip by seven times the difference: a taller foot takes a higher boss"),
    ("metal under the hole", "thicken body.sole_thickness by the difference"),
    ("above the rib", "raise body.rail_height by the difference"),
    ("rib", "widen body.width, or raise body.rail_height by the difference"),
    ("cheek above the pads", "raise body.cheek_height by the difference, or lower body.root_radius as much"),
    ("width between the cheeks", "widen body.width by the difference, or lower body.root_radius"),
    ("flank is steeper", "lower body.cheek_height by the difference of rise and flank, or lengthen body.length"),
    ("peak must lie", "raise body.cheek_height over body.rail_height, or lengthen body.length behind the mouth"),
    ("too small for it", "widen blade.width, or lower body.root_radius: the frog's pad must carry its key"),
)  # fmt: skip


def what_to_change(reason: str) -> str:
    """Return which keys give the room that is lacking, and by how much; "" where nothing is.

    Args:
        reason: what the body's limits said, with the value and what it needs; "" when all have their room.
    """
    if not reason:
        return ""
    fits = (change for words, change in GIVES_ROOM if words in reason)
    change = next(fits, "widen body.width and thicken body.cheek_thickness, or lower body.root_radius")
    if change is LENGTHWISE:
        places = [float(x) for x in re.findall(r"x = (-?[0-9.]+)", reason)]
        between = AHEAD if any(x < 0 for x in places) else BEHIND
        if reason.count("boss at") == 2 and between is BEHIND:
            between = UNDER_TOTE
        change = between + "; a smaller body.root_radius gives room too"
    for name, words in (("lowest", "the lowest"), ("highest", "highest said"), ("most_mm", "the most said")):
        if found := re.search(rf"{name} = (-?[0-9.]+)", reason):
            change = change.replace(words, f"{found[1]} mm")
    lack = re.search(r"is (-?[0-9.e+-]+) mm, needs (-?[0-9.e+-]+) mm", reason)
    return change.replace("the difference", f"{float(lack[2]) - float(lack[1]):.2f} mm") if lack else change


def what_helps(d: Design, words: str, lacking: Callable[[Any], int]) -> str:
    """Return of the changes that `what_to_change` names those that help, each by the least amount that does.

    Args:
        d: the plane.
        words: what may be changed, with the amounts that the first lack alone asks for; "" for nothing.
        lacking: how much of its room a plane still lacks, as a count.
    """
    asked = list(dict.fromkeys(re.findall(rf"({'|'.join(GROWS)}) ((?:body|handle|frog|blade)\.[a-z_.]+)", words)))
    if not asked:
        return words
    amount = re.search(r"([0-9.]+) mm", words)
    first = float(amount[1]) if amount else 1.0
    now = lacking(d)
    for enough in dict.fromkeys((0, now - 1)):
        has_room = partial(_lacks_at_most, lacking, enough)
        for ways in (asked, ELSE):
            helps = either(*(least_offer(d, verb, key, first, has_room, _resolved(d, key)) for verb, key in ways))
            if helps:
                left_open = ", or leave it out" if "leave it out" in words and len(asked) == 1 and ways is asked else ""
                return helps + left_open + ("" if enough == 0 else ", then check again: more lacks room")
    named = either(*(f"{verb} {key}" for verb, key in asked))
    return f"{named}: no amount of one of these alone does it, so change what stands beside it too"


def _lacks_at_most(lacking: Callable[[Any], int], enough: int, plane: Any) -> bool:
    return lacking(plane) <= enough


def _resolved(d: Design, key: str) -> float | None:
    """Return the resolved size of a key that the spec leaves out [mm]; None where the plane has none by its name."""
    part, _, name = key.partition(".")
    found = getattr({"body": d.body, "blade": d.blade, "handle": d.tote}.get(part), name, None)
    return float(found) if isinstance(found, float | int) else None
