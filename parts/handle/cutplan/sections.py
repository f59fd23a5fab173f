"""Neighbouring sections of a board that are ripped alike: ripped in one piece, then cut to length strip by strip.

A section as short as a knob is no piece to push through a saw. Where its neighbours hold the same strips they stay
together, the rips run through all of them, and the strips, long as they are, are cut to length with a stop.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from parts.handle.blanks import WoodPractice
from parts.handle.cutplan.model import Placement, SawCut

Section = tuple[float, float]  # where it begins and ends along the board [mm]


def _key(x: float) -> float:
    return round(x, 3)


def _groups(rips: Sequence[SawCut], practice: WoodPractice) -> list[list[Section]]:
    """Return sections with the same rips that lie a kerf apart, left to right; groups of one too."""
    at: dict[Section, set[float]] = {}
    for c in rips:
        at.setdefault((_key(c.x0), _key(c.x1)), set()).add(_key(c.y0))
    near = practice.kerf_crosscut_mm + 2 * practice.cut_step_mm
    groups: list[list[Section]] = []
    for one in sorted(at):
        last = groups[-1][-1] if groups else None
        if last and at[last] == at[one] and 0 <= one[0] - last[1] <= near:
            groups[-1].append(one)
        else:
            groups.append([one])
    return groups


def ripped_together(cuts: Sequence[SawCut], pieces: Sequence[Placement], practice: WoodPractice) -> list[SawCut]:
    """Return a crosscut-first board's cuts with short sections ripped together where their strips are alike.

    Args:
        cuts: crosscuts of the board, rips of its sections, trims of strips [mm].
        pieces: what lies on the board [mm].
        practice: kerfs, and the least length that goes through the table saw.
    """
    rips = [c for c in cuts if c.kind == "rip"]
    out = list(cuts)
    for group in _groups(rips, practice):
        if len(group) == 1 or min(b - a for a, b in group) >= practice.least_machine_mm:
            continue
        first, last = group[0], group[-1]
        between = [(a[1], b[0]) for a, b in pairwise(group)]
        inner = [c for c in out if c.kind == "crosscut" and any(a <= c.x0 <= b for a, b in between)]
        mine = [c for c in out if c.kind == "rip" and (_key(c.x0), _key(c.x1)) in group]
        out = [c for c in out if c not in inner and c not in mine]
        out += [SawCut("rip", first[0], y, last[1], y) for y in dict.fromkeys(c.y0 for c in mine)]
        strips = dict.fromkeys(
            (p.y, p.y + p.dy) for p in pieces if first[0] - 1e-3 <= p.x and p.x + p.dx <= last[1] + 1e-3
        )
        out += [SawCut("trim", c.x0, low, c.x0, high) for low, high in strips for c in inner]
    return out


def without_jointed_edge(cuts: Sequence[SawCut], practice: WoodPractice) -> list[SawCut]:
    """Return cuts without rips whose kerf only follows the lower edge: the jointer makes that edge, not the saw."""
    return [c for c in cuts if c.kind != "rip" or c.y0 + practice.kerf_rip_mm / 2 > practice.edge_clearance_mm + 1e-6]
