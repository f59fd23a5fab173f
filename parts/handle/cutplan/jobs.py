"""What a sawyer does to one board, step by step in words: saw cuts, planing to thickness, outlines at the bandsaw.

Nothing shorter than the least length of the practice is ripped at the table saw or fed through the planer; where a plan
needs that, the step names the bandsaw, the carrier or the hand plane.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from parts.handle.blanks import Blank, WoodPractice
from parts.handle.cutplan.model import BoardPlan, Placement
from parts.handle.cutplan.sawsteps import Step, steps
from parts.handle.cutplan.thickness import held_by, interlocked_jobs, strip_job
from parts.handle.cutplan.words import length, places, span

Blanks = Mapping[tuple[str, str], Blank]


@dataclass(frozen=True)
class Job:
    """One step in words; `cuts` are the numbers of the saw cuts that it makes, "" where it makes none."""

    cuts: str
    text: str


def piece_names(placements: tuple[Placement, ...]) -> dict[int, str]:
    """Return a short name of each placement of a board, from left to right: T1, T2, K1."""
    count: Counter[str] = Counter()
    names = {}
    for n in sorted(range(len(placements)), key=lambda n: (placements[n].x, placements[n].y)):
        letter = placements[n].piece[0].upper()
        count[letter] += 1
        names[n] = f"{letter}{count[letter]}"
    return names


def jobs(plan: BoardPlan, blanks: Blanks, practice: WoodPractice, first: str) -> list[Job]:
    """Return what is done to a board, in its order.

    Args:
        plan: what becomes of the board.
        blanks: the blanks by order and piece.
        practice: allowances and least length.
        first: unit that stands first, "inch" or "mm".
    """
    if plan.way == "interlocked":
        worked = [Job("", t) for t in interlocked_jobs(plan, piece_names(plan.placements), blanks, practice, first)]
        return _with_its_cuts(plan, worked, practice, first)
    cuts = [Job(_numbers(s), _saw(s, practice, first)) for s in steps(plan)]
    lower = Job("", _lower_edge(plan, practice, first))
    planing = strip_job(plan, blanks, practice, first)
    ready = _strips_ready(plan)
    return [lower, *cuts[:ready], *([Job("", planing)] if planing else []), *cuts[ready:]]


def _with_its_cuts(plan: BoardPlan, worked: list[Job], practice: WoodPractice, first: str) -> list[Job]:
    """Return the work on an interlocked section between the crosscuts of its board, as the section is held."""
    at = [c.x0 for c in plan.cuts]
    every = f"1 to {len(at)}"
    holding = held_by(plan, practice)
    if holding == "itself":
        return [Job(every, f"crosscut the board, {_at('the left end', at, first)}"), *worked]
    if holding == "carrier":
        least = length(practice.least_machine_mm, first, (0, 0))
        carried = (
            f"too little board is left beyond the section to hold it by: screw (in the waste, clear of every line) or "
            f"glue the section to a carrier board at least {least} long, or clamp it in a carrier sled, until its "
            "pieces are sawn"
        )
        cut = f"crosscut the board, clamped on the crosscut sled, {_at('the left end', at, first)}; {carried}"
        return [Job(every, cut), *worked]
    # the board holds a short section while its pieces are sawn: cut off last
    held = "the section stays on the board, which is the handle while its pieces are sawn"
    return [
        Job("1", f"crosscut the left end off, {_at('the left end', at[:1], first)}; {held}"),
        *worked,
        Job(f"{len(at)}", f"crosscut the board clean behind the pieces, {_at('the left end', at[1:], first)}"),
    ]


def _strips_ready(plan: BoardPlan) -> int:
    """Return after how many steps the board lies in strips that are not yet cut to length."""
    told = steps(plan)
    if plan.way == "rip-first":
        return 1
    return max((n for n, s in enumerate(told, 1) if s.kind == "rip"), default=len(told))


def _at(from_where: str, at_mm: Sequence[float], first: str) -> str:
    return f"middle of the kerf from {from_where} at {places(at_mm, first)}"


def _numbers(s: Step) -> str:
    return f"{s.first}" if s.first == s.last else f"{s.first} to {s.last}"


def _lower_edge(plan: BoardPlan, practice: WoodPractice, first: str) -> str:
    off = length(practice.edge_clearance_mm, first)
    how, done = "joint the lower edge", "jointing"
    if plan.board.length_mm < practice.least_machine_mm:
        least = length(practice.least_machine_mm, first, (0, 0))
        how, done = f"plane the lower edge straight by hand, not at the jointer: under {least} long", "planing"
    return f"{how}, {off} off; places from the lower edge count from the edge before {done}"


def _saw(s: Step, practice: WoodPractice, first: str) -> str:
    """Return a saw step in words: tool where it matters, what is cut, and where."""
    at = _at(s.from_where, s.at_mm, first)
    where = "; ".join(span(a, b, first) for a, b in s.parts)
    each = ", each alike" if len(s.parts) > 1 else ""
    many = "s" if len(s.parts) > 1 else ""
    if s.kind != "rip":
        sled = ", clamped on the crosscut sled"
        if s.parts:
            return f"cut to length the strip{many} {where} up{each}{sled}, {at}"
        return f"crosscut the board{sled if s.shortest < practice.least_machine_mm else ''}, {at}"
    what = f"section{many} {where} along{each}" if s.parts else "board"
    if s.shortest < practice.least_machine_mm:
        least = length(practice.least_machine_mm, first, (0, 0))
        return (
            f"rip at the bandsaw, not at the table saw: under {least} long; low fence, push blocks or clamped in a "
            f"carrier. {what.capitalize()}, {at}"
        )
    return f"rip the {what}, {at}"
