"""Full-size templates and shrink rules of one plane as PDF, each with a bar that proves the print."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
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
from parts.handle.wood import wood_label
from parts.plane.pattern_list import CastPart, pattern_list
from parts.plane.printer import printer_paper
from parts.plane.wood import grain, handle_blanks
from shared.casting.alloy import alloy
from shared.drawing.dxf import outline_sheet
from shared.drawing.plot import write_pdf
from shared.drawing.primitives import Note, Primitive
from shared.drawing.sheet import Sheet
from shared.drawing.shrink_rule import shrink_rule
from shared.drawing.svg import svg_text
from shared.drawing.templates import extent, write_template
from shared.profile import Line, Profile
from shared.segments import Segment
from shared.units import MM_PER_IN

if TYPE_CHECKING:
    from parts.plane.design import Design
    from parts.plane.run import Run

More = dict[str, tuple[Profile | Segment, ...]]
RIM = 4.0  # mm about a template in its picture
WORD, SMALL_WORD = 3.5, 2.2  # heights of the words on a template [mm]
END_GAP = 6.0  # from an end's outline to its word [mm]
RULE_IN, RULE_MM = (12.0, 18.0, 24.0, 30.0), (300.0, 450.0, 600.0, 750.0)  # lengths a rule comes in


@dataclass(frozen=True)
class Template:
    """One full-size template: its file without ending, what it shows, what that is made of, and its outlines."""

    stem: str
    what: str
    material: str
    view: View
    more: tuple[str, ...] = ()
    labels: tuple[Note, ...] = ()  # words at the outline

    @property
    def layers(self) -> dict[str, list[Profile | Primitive]]:
        """Everything besides the outlines, by layer."""
        found: dict[str, list[Profile | Primitive]] = {layer: list(items) for layer, items in self.view.more.items()}
        if self.labels:
            found.setdefault("TEXT", []).extend(self.labels)
        return found


def templates(run: Run) -> None:
    """Write every template and shrink rule into templates/."""
    d = run.design
    folder = run.folder("templates")
    for t in template_list(d):
        said = f"{belongs_to(d)} · {t.stem}"
        write_template(folder / f"{t.stem}.pdf", t.view.outlines, _lines(d, t), more=t.layers,
                       size=printer_paper(d), footer=said)  # fmt: skip
    shrink_rules(d, folder)


def template_pictures(d: Design) -> list[tuple[str, str, str]]:
    """Return every template as a picture: file without ending, what it shows, SVG text."""
    found = []
    for t in template_list(d):
        drawing = outline_sheet(t.view.outlines, _lines(d, t), more=t.layers)
        u0, v0, u1, v1 = extent(drawing)
        found.append((t.stem, t.what, svg_text(drawing, (u0 - RIM, v0 - RIM, u1 + RIM, v1 + RIM))))
    return found


def template_list(d: Design) -> list[Template]:
    """Return the templates of a plane, in the order they are written."""
    steel, wood = f"{d.spec.blade.steel}, {d.spec.blade.hardness:g} HRC", wood_label(d.spec.handle.species)
    side = View((side_outline(d.body),), {"CENTRE": (Line((0.0, -4.0), (0.0, d.body.cheek_height + 4.0)),)})
    axis = Line((0.0, -4.0), (0.0, d.knob.height + 4.0))
    face = View(tuple(blade_outline(d.blade, d.spec.bed.angle).all), {})
    found = [
        Template(
            "cheek",
            "cheek outline, finished",
            d.body_alloy.name,
            side,
            labels=_ends(d.body.toe_x, d.body.heel_x, d.body.rail_height / 2, 0.0),
        ),
        Template("blade", "blade, seen square to the face", steel, face),
        Template("knob-profile", "knob, profile", wood, View((knob_profile(d.knob),), {"CENTRE": (axis,)})),
    ]
    if d.tote is not None:
        axes = "dash-dot the axes of its screws" if d.tote.toe else "dash-dot the axis of its rod"
        found.append(Template("tote-side", f"tote, side, in its blank; thin lines run with the grain, {axes}", wood,
                              View((tote_side(d.tote),), _tote_lines(d, d.tote))))  # fmt: skip
    metal = alloy(d.shop.pattern.metal).name
    for name, what, view, labels in pattern_views(d.body, d.contraction.factors):
        found.append(Template(name, f"{what}, at pattern size", metal, view, _master_line(d), labels))
    return found


def _ends(toe: float, heel: float, height: float, low: float) -> tuple[Note, ...]:
    """Return the words at toe and heel, and along the line of the cutting edge, which stands at x = 0.

    Args:
        toe: x of the toe's end [mm].
        heel: x of the heel's end [mm].
        height: of the middle of the words at the ends [mm].
        low: where the line of the edge begins [mm].
    """
    foot = height - WORD / 2
    # the turned words stand just aft of the line
    along = Note("CUTTING EDGE", (1.5 + SMALL_WORD, low + 3.0), SMALL_WORD, 90.0)
    return Note("TOE", (toe + END_GAP, foot), WORD), Note("HEEL", (heel - END_GAP, foot), WORD, 0.0, "right"), along


def _master_line(d: Design) -> tuple[str, ...]:
    """Return the warning that a master is larger than what is drawn, where the pattern is cast from one."""
    if d.master is None:
        return ()
    return (
        f"working pattern; a master that it is cast from is {100 * d.master.x:.2f} % larger: use the rule for masters",
    )


def _lines(d: Design, t: Template) -> list[str]:
    """Return the lines of text on a template."""
    plane = d.spec.plane
    return [f"{plane.name}: {t.what}", f"revision {plane.revision}   spec {d.loaded.source.sha256[:12]}",
            f"material: {t.material}", *t.more, d.shop.works.name]  # fmt: skip


def _tote_lines(d: Design, size: ToteSize) -> More:
    """Return the axes of rod and toe screw, the blank and the grain, in the tote's own frame [mm]."""
    found = grain(d)
    assert found is not None
    shown = tote_blank_view(size, handle_blanks(d)[0], found.direction_deg)
    axes = [Line(*(point_on_rod(size.lean_deg, h, 0.0) for h in (-6.0, size.rod_height + 6.0)))]
    if size.toe is not None:
        axes.append(Line((size.toe.x, -6.0), (size.toe.x, size.foot_height + 6.0)))
    return {"CENTRE": tuple(axes), "PHANTOM": shown.blank, "SMOOTH": shown.fibres, "TEXT": shown.arrow}


def pattern_views(size: Trough, factors: tuple[float, float, float]) -> list[tuple[str, str, View, tuple[Note, ...]]]:
    """Return the body's pattern in plan at the parting plane, and its side: file name, words, view, labels.

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
    toe, heel = w.x0 * x, w.x1 * x
    return [
        ("body-pattern-plan", "body pattern, plan at the parting plane",
         View((_grown(plan, x, y),), {"CENTRE": (across,)}), _ends(toe, heel, 0.0, -w.half * y)),
        ("body-pattern-side", "body pattern, side", View((_grown(side, x, z),), {"CENTRE": (edge,)}),
         _ends(toe, heel, rail / 2 * z, low * z)),
    ]  # fmt: skip


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


def belongs_to(d: Design) -> str:
    """Return what every page of a template or a rule says of the plane it was made for."""
    plane = d.spec.plane
    return f"{plane.name} revision {plane.revision} · spec {d.loaded.source.sha256[:12]} · {d.shop.works.name}"


def _rule(d: Design, name: str, contraction: float) -> list[Sheet]:
    """Return the pages of a rule that is as long as the body, in the spec's unit."""
    inch = d.spec.units == "inch"
    longest = d.body.heel_x - d.body.toe_x
    lengths = RULE_IN if inch else RULE_MM
    length = next((n for n in lengths if n * (MM_PER_IN if inch else 1.0) >= longest), lengths[-1])
    return shrink_rule(contraction, length, "inch" if inch else "mm", name=name, size=printer_paper(d), finest=32,
                       belongs=belongs_to(d))  # fmt: skip


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
        metal = alloy(d.shop.pattern.metal).name.partition(" (")[0].lower()
        found += [(f"{s}-master", f"{w}, master of a pattern cast in {metal}", (1 + c) * (1 + d.master.x) - 1)
                  for s, w, c in list(found)]  # fmt: skip
    return found


def _rule_name(part: CastPart, axis: str) -> tuple[str, str]:
    """Return the file's name of a rule and what it is for, in words."""
    metal = alloy(part.alloy).name
    if part.contraction.is_uniform:
        return part.alloy, metal
    return f"{part.alloy}-{axis}", f"{metal}, along {axis}"
