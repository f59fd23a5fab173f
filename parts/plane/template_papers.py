"""Full-size templates and shrink rules of one plane as PDF, each with a bar that proves the print."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from parts.blade.outline import outline as blade_outline
from parts.body.arch import rim
from parts.body.size import Trough
from parts.body.views import View, side_outline
from parts.body.walls import envelope
from parts.handle.blank_view import tote_blank_view
from parts.handle.form import point_on_rod
from parts.handle.outline import knob_profile, tote_side
from parts.handle.size import ToteSize
from parts.plane.pattern_list import CastPart, pattern_list
from parts.plane.wood import grain, handle_blanks
from shared.drawing.plot import write_pdf
from shared.drawing.sheet import Sheet
from shared.drawing.shrink_rule import shrink_rule
from shared.drawing.templates import write_template
from shared.profile import Line, Profile
from shared.segments import Segment
from shared.units import MM_PER_IN

if TYPE_CHECKING:
    from parts.plane.design import Design
    from parts.plane.run import Run

More = dict[str, tuple[Profile | Segment, ...]]
RULE_IN, RULE_MM = (12.0, 18.0, 24.0, 30.0), (300.0, 450.0, 600.0, 750.0)  # lengths a rule comes in


def printer_paper(d: Design) -> str:
    """Return the paper of the shop's own printer: letter where the works is on inch sheets, else A4."""
    size = d.shop.paper.size
    ansi = d.spec.units == "inch" if size == "auto" else size.startswith("ANSI")
    return "A" if ansi else "A4"


def templates(run: Run) -> None:
    """Write every template and shrink rule into templates/."""
    d = run.design
    folder = run.folder("templates")
    steel, wood = f"{d.spec.blade.steel}, {d.spec.blade.hardness:g} HRC", d.spec.handle.species
    side = View((side_outline(d.body),), {"CENTRE": (Line((0.0, -4.0), (0.0, d.body.cheek_height + 4.0)),)})
    _template(run, "cheek", "cheek outline, finished, with the edge's line", d.body_alloy.name, side)
    _template(
        run,
        "blade",
        "blade, seen square to the face",
        steel,
        View(tuple(blade_outline(d.blade, d.spec.bed.angle).all), {}),
    )
    axis = Line((0.0, -4.0), (0.0, d.knob.height + 4.0))
    _template(run, "knob-profile", "knob, profile", wood, View((knob_profile(d.knob),), {"CENTRE": (axis,)}))
    if d.tote is not None:
        _template(run, "tote-side", "tote, side, in its blank; thin lines run with the grain", wood,
                  View((tote_side(d.tote),), _tote_lines(d, d.tote)))  # fmt: skip
    for name, what, view in pattern_views(d.body, d.contraction.factors):
        _template(run, name, f"{what}, at pattern size", d.shop.pattern.metal, view, _master_line(d))
    shrink_rules(d, folder)


def _master_line(d: Design) -> tuple[str, ...]:
    """Return the warning that a master is larger than what is drawn, where the pattern is cast from one."""
    if d.master is None:
        return ()
    return (
        f"working pattern; a master that it is cast from is {100 * d.master.x:.2f} % larger: use the rule for masters",
    )


def _template(run: Run, stem: str, what: str, material: str, view: View, more: Sequence[str] = ()) -> None:
    plane, d = run.design.spec.plane, run.design
    lines = [f"{plane.name}  {what}", f"revision {plane.revision}   spec {d.loaded.source.sha256[:12]}",
             f"material: {material}", *more, d.shop.works.name]  # fmt: skip
    said = f"{plane.name} revision {plane.revision} · {stem}"
    write_template(run.folder("templates") / f"{stem}.pdf", view.outlines, lines, more=view.more,
                   size=printer_paper(d), footer=said)  # fmt: skip


def _tote_lines(d: Design, size: ToteSize) -> More:
    """Return the rod's axis, the blank and the grain, in the tote's own frame [mm]."""
    found = grain(d)
    assert found is not None
    shown = tote_blank_view(size, handle_blanks(d)[0], found.direction_deg)
    axis = Line(*(point_on_rod(size.lean_deg, h, 0.0) for h in (-6.0, size.rod_height + 6.0)))
    return {"CENTRE": (axis,), "PHANTOM": shown.blank, "SMOOTH": shown.fibres, "TEXT": shown.arrow}


def pattern_views(size: Trough, factors: tuple[float, float, float]) -> list[tuple[str, str, View]]:
    """Return the body's pattern in plan at the parting plane, and its side: file name, words, view at pattern size.

    Args:
        size: the body.
        factors: growth of the pattern over the casting along x, y, z [-].
    """
    w, low = envelope(size), -size.cast.sole
    plan = Profile.rectangle(w.x0, -w.half, w.x1, w.half, w.corner, "pattern plan")
    rail = size.rail_height
    # the rim as cast runs on past the finished ends to the drafted ends of the casting
    chain = [*rim(size)]
    k, foot = w.inset(rail), w.inset(low)
    ends = [
        (w.x1 - k, rail),
        (w.x1, w.parting_z),
        (w.x1 - foot, low),
        (w.x0 + foot, low),
        (w.x0, w.parting_z),
        (w.x0 + k, rail),
    ]
    walls = [Line(chain[-1].end, ends[0]), *(Line(p, q) for p, q in itertools.pairwise(ends) if p != q)]
    side = Profile((*chain, *walls, Line(ends[-1], chain[0].start)), "pattern side")
    x, y, z = factors
    edge = Line((0.0, (low - 4.0) * z), (0.0, (size.cheek_height + 4.0) * z))
    across = Line((0.0, -(w.half + 4.0) * y), (0.0, (w.half + 4.0) * y))
    return [
        (
            "body-pattern-plan",
            "body pattern, plan at the parting plane",
            View((_grown(plan, x, y),), {"CENTRE": (across,)}),
        ),
        ("body-pattern-side", "body pattern, side", View((_grown(side, x, z),), {"CENTRE": (edge,)})),
    ]


def _grown(shape: Profile, along: float, up: float) -> Profile:
    """Return an outline grown by a factor an axis [-]; arcs stay arcs where both are alike."""
    if abs(along - up) < 1e-9:
        return shape.scaled(along)
    return Profile.polygon([(along * u, up * v) for u, v in shape.polyline(0.005)], name=shape.name)


def shrink_rules(d: Design, folder: Path) -> None:
    """Write a shrink rule for each contraction that the plane's castings have, and for masters where they are cast.

    Args:
        d: the plane.
        folder: where to write.
    """
    for stem, name, contraction in rules_of(d):
        write_pdf(folder / f"shrink-rule-{stem}.pdf", _rule(d, name, contraction), title=f"Shrink rule, {name}")


def write_rules(d: Design, path: Path) -> None:
    """Write all of a plane's shrink rules into one PDF; arguments as `shrink_rules`."""
    pages = [page for _, name, contraction in rules_of(d) for page in _rule(d, name, contraction)]
    write_pdf(path, pages, title=f"{d.spec.plane.name}: shrink rules")


def _rule(d: Design, name: str, contraction: float) -> list[Sheet]:
    """Return the pages of a rule that is as long as the body, in the spec's unit."""
    inch = d.spec.units == "inch"
    longest = d.body.heel_x - d.body.toe_x
    lengths = RULE_IN if inch else RULE_MM
    length = next((n for n in lengths if n * (MM_PER_IN if inch else 1.0) >= longest), lengths[-1])
    return shrink_rule(contraction, length, "inch" if inch else "mm", name=name, size=printer_paper(d), finest=32)


def rules_of(d: Design) -> list[tuple[str, str, float]]:
    """Return the rules that a plane's pattern shop needs: file name, words, contraction [-]."""
    found: list[tuple[str, str, float]] = []
    for part in pattern_list(d):
        for axis in ("x",) if part.contraction.is_uniform else ("x", "y", "z"):
            c = part.contraction.along(axis)
            stem, word = _rule_name(part, axis)
            if (stem, c) not in {(s, k) for s, _, k in found}:
                if stem in {s for s, _, _ in found}:
                    stem = f"{stem}-{part.part.replace(' ', '-').replace('_', '-')}"
                found.append((stem, word, c))
    if d.master is not None:
        metal = d.shop.pattern.metal
        found += [(f"{s}-master", f"{w}, master of a pattern cast in {metal}", (1 + c) * (1 + d.master.x) - 1)
                  for s, w, c in list(found)]  # fmt: skip
    return found


def _rule_name(part: CastPart, axis: str) -> tuple[str, str]:
    if part.contraction.is_uniform:
        return part.alloy, part.alloy
    return f"{part.alloy}-{axis}", f"{part.alloy}, along {axis}"
