"""When and how a board comes down to the blanks' thickness, and how interlocked outlines are sawn, in words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Literal

from parts.handle.blanks import Blank, WoodPractice
from parts.handle.cutplan.model import BoardPlan, Placement
from parts.handle.cutplan.sawing_order import Ground, sawing_order
from parts.handle.cutplan.words import length

Blanks = Mapping[tuple[str, str], Blank]
ENOUGH_MM = 0.5  # a board this little thicker than its blank is left as it is
# where a piece is too short for the planer
BY_HAND = "resaw it screwed or taped to a square carrier at the bandsaw, then plane it by hand against a bench stop"

Holding = Literal["itself", "board", "carrier"]
FROM_END: Mapping[Holding, str] = {
    "itself": "free end inward while the rest holds together",
    "board": "left end inward while they hang on the board",
    "carrier": "left end inward while the carrier holds the rest",
}


def _blank(p: Placement, blanks: Blanks) -> Blank:
    return blanks[p.order, p.piece]


def _named(pieces: Iterable[str]) -> str:
    return " and ".join(f"{n}s" for n in dict.fromkeys(pieces))


def section_mm(plan: BoardPlan) -> float:
    """Return the length between the first and the last crosscut of an interlocked board [mm]."""
    at = [c.x0 for c in plan.cuts if c.kind == "crosscut"]
    return max(at) - min(at) if len(at) > 1 else plan.board.length_mm


def strip_job(plan: BoardPlan, blanks: Blanks, practice: WoodPractice, first: str) -> str:
    """Return how the strips of a straight plan come to thickness before they are cut to length; "" when they are there.

    Args:
        plan: the board; crosscut first or rip first.
        blanks: the blanks by order and piece.
        practice: the least length for the planer.
        first: unit that stands first.
    """
    rips = [c for c in plan.cuts if c.kind == "rip"]
    strips: dict[tuple[float, float], list[Placement]] = {}  # thickness and length of a strip, and its pieces
    for low in dict.fromkeys((p.y, _section(p, plan)) for p in plan.placements):
        mine = [p for p in plan.placements if (p.y, _section(p, plan)) == low]
        thick = max(_blank(p, blanks).thickness_mm for p in mine)
        long = low[1][1] - low[1][0]
        strips.setdefault((thick, long), []).extend(mine)
    said = []
    for (thick, long), mine in sorted(strips.items(), reverse=True):
        if plan.board.thickness_mm - thick < ENOUGH_MM:
            continue
        of = f"strips of {_named(p.piece for p in mine)} to {length(thick, first)}"
        if long < practice.least_machine_mm:
            of += " (too short for the planer: by hand against a bench stop; what is turned may stay thicker)"
        thin = [p for p in mine if _blank(p, blanks).thickness_mm < thick - ENOUGH_MM]
        if thin:
            t = min(_blank(p, blanks).thickness_mm for p in thin)
            of += f", later each of their {_named(p.piece for p in thin)} to {length(t, first)}: {BY_HAND}"
        if of not in said:
            said.append(of)
    if not said or not rips:
        return ""
    return (f"plane to thickness, before the strips are cut to length: {'; '.join(said)}. Planing takes the marks off: "
            "carry each over to the strip's edge before, and square it across again after")  # fmt: skip


def _section(p: Placement, plan: BoardPlan) -> tuple[float, float]:
    """Return the stretch of the board that a piece is ripped in, end to end [mm]."""
    if plan.way == "rip-first":
        return 0.0, plan.board.length_mm
    around = [(c.x0, c.x1) for c in plan.cuts if c.kind == "rip" and c.x0 - 1e-3 <= p.x and p.x + p.dx <= c.x1 + 1e-3]
    return max(around, key=lambda s: s[1] - s[0], default=(p.x, p.x + p.dx))


def held_by(plan: BoardPlan, practice: WoodPractice) -> Holding:
    """Return what holds the section of an interlocked board while it is sawn.

    A section that is long enough holds itself; a shorter one stays on its board where enough of that is left to hold
    on to, else it goes on a carrier (common practice, no source).
    """
    if section_mm(plan) >= practice.least_machine_mm:
        return "itself"
    end = max((c.x0 for c in plan.cuts if c.kind == "crosscut"), default=plan.board.length_mm)
    left = plan.board.length_mm - end - practice.kerf_crosscut_mm / 2
    return "board" if left >= practice.least_machine_mm else "carrier"


def interlocked_jobs(
    plan: BoardPlan, names: Mapping[int, str], blanks: Blanks, practice: WoodPractice, first: str
) -> list[str]:
    """Return the work on the section of an interlocked board in words: thickness, marking and sawing in turn.

    Pieces of the greatest thickness are sawn first; what still holds the thinner ones is then planed in one piece where
    it is long enough. What cannot be planed so comes down by hand after it is sawn, each piece to its own thickness.

    Args:
        plan: the board.
        names: short name of each placement.
        blanks: the blanks by order and piece.
        practice: allowances and the least length for the planer.
        first: unit that stands first.
    """
    thick_of = {n: _blank(plan.placements[n], blanks).thickness_mm for n in names}
    holding = held_by(plan, practice)
    end = max((c.x0 for c in plan.cuts if c.kind == "crosscut"), default=plan.board.length_mm)
    wall = end if holding == "board" else None
    ground = Ground(plan.placements, practice, wall, plan.board.width_mm)
    standing = sorted(names, key=lambda n: plan.placements[n].x, reverse=holding == "itself")
    have = plan.board.thickness_mm
    steps: list[str] = []
    while standing:
        most = max(thick_of[n] for n in standing)
        if holding == "itself" and have - most >= ENOUGH_MM:
            steps.append(_plane(plan, standing, not steps, most, first))
            have = most
        wanted = [n for n in standing if thick_of[n] == most or have - thick_of[n] < ENOUGH_MM]
        now = sawing_order(ground, standing, wanted)
        left = [plan.placements[n] for n in standing if n not in now]
        if holding != "itself" or not left or _stretch(left) < practice.least_machine_mm:
            now, left = sawing_order(ground, standing, standing), []  # nothing is planed in between
        again = " again" if any(t.startswith("lay ") for t in steps) else ""
        steps.append(
            f"lay the full-size print (the DXF of this board, scale checked) on it{again}: lower edges together, its "
            f"cut line 1 half a kerf, {length(practice.kerf_crosscut_mm / 2, first)}, outside the sawn left end, grain "
            f"arrows along the board. Prick the outlines of the {_named(plan.placements[n].piece for n in now)} "
            "through"
        )
        early = [names[n] for n in now if left and n not in wanted]
        steps.append(_outlines(plan, [plan.placements[n] for n in now], [names[n] for n in now], holding, blanks,
                               practice, first) + _early(early))  # fmt: skip
        for thick in sorted({thick_of[n] for n in now}, reverse=True):
            if have - thick >= ENOUGH_MM:
                mine = [n for n in now if thick_of[n] == thick]
                steps.append(_by_hand(plan, mine, names, blanks, thick, first))
        standing = [n for n in standing if n not in now]
    return steps


def _stretch(held: Sequence[Placement]) -> float:
    """Return how long the wood is that holds some pieces, from the first to the last [mm]."""
    return max(p.x + p.dx for p in held) - min(p.x for p in held)


def _by_hand(
    plan: BoardPlan, mine: Sequence[int], names: Mapping[int, str], blanks: Blanks, thick: float, first: str
) -> str:
    """Return how pieces that are already sawn out come down to a thickness [mm]."""
    held = [plan.placements[n] for n in mine]
    marks = sorted((names[n] for n in mine), key=lambda m: (m[0], int(m[1:])))
    of = _named(p.piece for p in held) if len(held) > 1 else held[0].piece
    flat = "" if all(_blank(p, blanks).outline for p in held) else "what is turned may stay thicker; a flat piece: "
    return (f"bring {of} {', '.join(marks)}, sawn out and too short for the planer, to {length(thick, first)}: "
            f"{flat}{BY_HAND}")  # fmt: skip


def _early(early: Sequence[str]) -> str:
    """Return what is said of pieces that come out before the wood is planed to their thickness."""
    if not early:
        return ""
    return f"; {', '.join(early)} already now, since a piece behind could not be reached, and to thickness by hand"


def _plane(plan: BoardPlan, rest: Sequence[int], whole: bool, thick: float, first: str) -> str:
    """Return how what holds the given pieces comes down to a thickness [mm] in one piece."""
    to = f"to {length(thick, first)}"
    if not whole:
        of = _named(plan.placements[n].piece for n in rest)
        return f"plane what still holds the {of} {to}, both faces, while it is one piece"
    return (f"plane the section {to}, both faces, before any outline is sawn: no loose curved piece goes through the "
            "planer. Where the bandsaw is high enough, resaw the surplus off first")  # fmt: skip


def _outlines(plan: BoardPlan, mine: Sequence[Placement], names: Sequence[str], holding: Holding, blanks: Blanks,
              practice: WoodPractice, first: str) -> str:  # fmt: skip
    out = f"bandsaw, from the {FROM_END[holding]}, in the order {', '.join(names)}"
    curved = list(dict.fromkeys(p.piece for p in mine if _blank(p, blanks).outline))
    square = list(dict.fromkeys(p.piece for p in mine if not _blank(p, blanks).outline))
    if curved:
        out += (f"; {_named(curved)}: {length(practice.bandsaw_allowance_mm, first, (3, 2))} outside the line, which "
                "is the finished outline")  # fmt: skip
    if square:
        out += (f"; {_named(square)}: down the middle of the gap between the lines (a kerf of "
                f"{length(practice.kerf_bandsaw_mm, first)}), which show the blank with its allowance")  # fmt: skip
    return out
