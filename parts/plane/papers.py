"""The files of one plane, written into the folder of a build. Each function writes what its name says."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import cadquery as cq

from parts.blade.outline import outline as blade_outline
from parts.handle.outline import knob_profile, tote_side
from parts.handle.wood import wood_label
from parts.plane.handle_blanks import HANDLE_SETS, best_way, plan_title, rack_plan_csv, rack_plan_text
from parts.plane.models import wood_colour
from parts.plane.pattern_list import pattern_csv, pattern_list, pattern_text
from shared.cad import palette
from shared.cad.render import render
from shared.cad.step import NamedSolid, write_step
from shared.drawing.dxf import write_outline

if TYPE_CHECKING:
    from parts.plane.run import Run

PICTURE_SIZE = (1200, 750)


def _ascii(text: str) -> str:
    return text.encode("ascii", "replace").decode()


def step_file(run: Run, file: str, name: str, solid: cq.Solid, colour: palette.Colour) -> None:
    """Write one solid with its name and colour into step/."""
    write_step(
        run.folder("step") / file, NamedSolid(name, solid, colour), run.stamp, author=_ascii(run.design.shop.works.name)
    )


def metal(is_iron: bool) -> palette.Colour:
    """Return the colour a cast metal is shown in."""
    return palette.IRON if is_iron else palette.BRONZE


def body_step(run: Run) -> None:
    """Write finished body, casting and pattern."""
    m, colour = run.models, metal(run.design.body_alloy.is_iron)
    step_file(run, "body.step", "body", m.body, colour)
    step_file(run, "body-casting.step", "body casting", m.body_casting, colour)
    step_file(run, "body-pattern.step", "body pattern", m.body_pattern, palette.WOOD)


def blade_step(run: Run) -> None:
    """Write the blade."""
    step_file(run, "blade.step", "blade", run.models.blade, palette.STEEL)


def tote_step(run: Run) -> None:
    """Write the tote, in its own frame."""
    step_file(run, "tote.step", "tote", run.models.tote_local, wood_colour(run.design))


def knob_step(run: Run) -> None:
    """Write the knob, in its own frame."""
    step_file(run, "knob.step", "knob", run.models.knob_local, wood_colour(run.design))


def lever_cap_step(run: Run) -> None:
    """Write the lever cap's five parts as an assembly."""
    write_step(
        run.folder("step") / "lever-cap.step",
        run.models.named(("lever_cap",)),
        run.stamp,
        product="lever cap assembly",
        author=_ascii(run.design.shop.works.name),
    )


def plane_step(run: Run) -> None:
    """Write the whole plane as a named, coloured assembly."""
    write_step(
        run.folder("step") / "plane.step",
        run.models.named(),
        run.stamp,
        product=f"{_ascii(run.design.spec.plane.name)} plane",
        author=_ascii(run.design.shop.works.name),
    )


def title(run: Run, what: str, material: str) -> list[str]:
    """Return the lines that stand below an outline."""
    plane = run.design.spec.plane
    return [
        f"{plane.name}  {what}",
        f"revision {plane.revision}   spec {run.design.loaded.source.sha256[:12]}",
        f"material: {material}",
        run.design.shop.works.name,
    ]


def blade_dxf(run: Run) -> None:
    """Write the blade's flat outline at 1:1."""
    d = run.design
    flat = blade_outline(d.blade, d.spec.bed.angle)
    write_outline(
        run.folder("dxf") / "blade.dxf",
        flat.all,
        title(run, "blade, seen square to the face", f"{d.spec.blade.steel}, {d.spec.blade.hardness:g} HRC"),
    )


def tote_dxf(run: Run) -> None:
    """Write the tote's side at 1:1."""
    assert run.design.tote is not None
    write_outline(
        run.folder("dxf") / "tote-side.dxf",
        [tote_side(run.design.tote)],
        title(run, "tote, side", wood_label(run.design.spec.handle.species)),
    )


def knob_dxf(run: Run) -> None:
    """Write the knob's profile at 1:1."""
    write_outline(
        run.folder("dxf") / "knob-profile.dxf",
        [knob_profile(run.design.knob)],
        title(run, "knob, profile", wood_label(run.design.spec.handle.species)),
    )


def lists(run: Run) -> None:
    """Write the pattern maker's list and the blade card."""
    from parts.plane.blade_card import blade_card_text, draw_blade_card

    parts = pattern_list(run.design)
    folder = run.folder("lists")
    (folder / "pattern.txt").write_text(pattern_text(run.design, parts), encoding="utf-8")
    (folder / "pattern.csv").write_text(pattern_csv(parts), encoding="utf-8")
    cards = run.folder("cards")
    (cards / "blade.txt").write_text(blade_card_text(run.design), encoding="utf-8")
    draw_blade_card(run.design, cards)


def cut_plan(run: Run) -> None:
    """Write the plan for handle blanks, when there is a rack beside the spec."""
    from parts.plane.sheets.cut_plan_card import plans_of

    plan = plans_of(run)
    if isinstance(plan, str):
        # a short rack must not keep the models from the other shops; the note says what is missing
        run.notes.append(f"no cut plan: {plan}")
        return
    from parts.plane.cut_plan_papers import draw_plan  # loads matplotlib

    folder = run.folder("cut-plan")
    (folder / "plan.txt").write_text(rack_plan_text(run.design, plan), encoding="utf-8")
    (folder / "plan.csv").write_text(rack_plan_csv(plan), encoding="utf-8")
    draw_plan(plan[best_way(plan)], plan_title(run.design, HANDLE_SETS), folder)


def weigh_and_mesh(*parts: str) -> Callable[[Run], None]:
    """Return a step that measures the solids of some parts, the body's casting and pattern, and makes their meshes.

    It asks for nothing of the second process, and so fills the time in which that one is still at its models.
    """

    def do(run: Run) -> None:
        run.models.look_at(parts)
        run.models.volume("body casting", run.models.body_casting)
        run.models.volume("body pattern", run.models.body_pattern)

    return do


def looks(*parts: str) -> Callable[[Run], None]:
    """Return a step of the second process that measures the solids it has made and makes their meshes, to be sent."""

    def do(run: Run) -> None:
        run.models.take("looks", run.models.look_at(parts))

    return do


def picture(run: Run) -> None:
    """Draw the assembled plane from ahead and the user's right."""
    scene = [run.models.shown(piece) for piece in run.models.pieces]
    note = render(run.folder("pictures") / "plane.png", scene, "three-quarter", PICTURE_SIZE)
    if note:
        run.notes.append(note)
