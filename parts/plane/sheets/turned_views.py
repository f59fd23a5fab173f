"""Views of bought and turned parts from their sizes: screws, rods, nuts, pins, rings. Axis along u, lengths mm."""

from __future__ import annotations

from parts.hardware.size import ROD_LENGTH_TOL, Rod, Screw
from parts.hardware.turned import NUT_ROUND
from parts.plane.sheets.edge_text import drill_text
from parts.plane.sheets.shapes import root_lines, thread_call, turned, turned_section
from shared.cad.turned import SLOT, SLOT_DEEP, TIP
from shared.drawing.plan import SheetPlan
from shared.drawing.primitives import Line
from shared.drawing.view import View
from shared.profile import Pen, Profile
from shared.threads import Thread

LENGTH_TOL = 0.2
BREAK = 2.0  # pitches of thread beyond what must engage


def _end(view: View, name: str, plan: SheetPlan, radius: float, slot: float, deep: float, place: str) -> None:
    """Draw the slotted end of a head beside its view."""
    half = slot / 2
    reach = (radius**2 - half**2) ** 0.5
    lines = [Line((-reach, v), (reach, v)) for v in (-half, half)]
    end = plan.view(f"{name} end", [Profile.circle((0.0, 0.0), radius), *lines], of=view, place=place,
                    label=f"{name.upper()}, SLOT")  # fmt: skip
    end.centre_marks([((0.0, 0.0), radius)])
    out = -1.0 if place == "left" else 1.0  # the text stands away from the part, so that the two views keep together
    end.leader((out * reach * 0.7, half), [end.length_row(slot, (0.2, 0.0), prefix="slot "),
               end.length_row(deep, prefix="deep ")], toward=90.0 - out * 60.0)  # fmt: skip


def screw_view(plan: SheetPlan, part: Screw, label: str) -> View:
    """Draw a slotted screw, head at the left, with its slotted end beside it."""
    r, core, long = part.head_diameter / 2, part.thread.major / 2, part.length
    soft = min(1.0, 0.3 * part.head_height)
    half = (
        Pen.at(0.0, -part.head_height, part.name).line_to(r, -part.head_height, corner=soft).line_to(r, 0.0)
        .line_to(core, 0.0).line_to(core, long - TIP).line_to(core - TIP, long).line_to(0.0, long).close()
    )  # fmt: skip
    view = plan.view(part.name, turned(half), label=label)
    view.draw(root_lines(part.thread, 0.0, long), "SMOOTH")
    view.centre_line((-part.head_height - 2.0, 0.0), (long + 2.0, 0.0))
    view.dim_h((0.0, -core), (long, -core), long, LENGTH_TOL, side="below")
    view.dim_h((-part.head_height, r), (0.0, r), part.head_height, side="above")
    view.dim_v((0.0, -r), (0.0, r), part.head_diameter, side="right", prefix="Ø")
    view.leader((0.8 * long, core), [thread_call(part.thread, inside=False)], toward=60.0)
    _end(view, part.name, plan, r, SLOT * part.head_diameter, SLOT_DEEP * part.head_height, "left")
    return view


def rod_view(plan: SheetPlan, part: Rod, engaged: float, label: str) -> View:
    """Draw a rod, its lower end (screwed in by `engaged` [mm]) at the left."""
    core, long = part.thread.major / 2, part.length
    half = (
        Pen.at(0.0, 0.0, part.name).line_to(core - TIP, 0.0).line_to(core, TIP).line_to(core, long - TIP)
        .line_to(core - TIP, long).line_to(0.0, long).close()
    )  # fmt: skip
    view = plan.view(part.name, turned(half), label=label)
    low = engaged + BREAK * part.thread.pitch
    high = long - part.nut_height
    view.draw([*root_lines(part.thread, 0.0, low), *root_lines(part.thread, high, long)], "SMOOTH")
    view.draw([Line((s, -core), (s, core)) for s in (low, high)], "SMOOTH")
    view.centre_line((-3.0, 0.0), (long + 3.0, 0.0))
    view.dim_h((0.0, -core), (long, -core), long, ROD_LENGTH_TOL, side="below")
    view.dim_h((0.0, core), (low, core), low, (1.0, 0.0), side="above", suffix=" of thread")
    view.dim_h((high, core), (long, core), part.nut_height, (1.0, 0.0), side="above", suffix=" of thread")
    view.dim_h((0.0, -core), (engaged, -core), engaged, side="below", reference=True, suffix=" screwed in")
    view.leader((0.5 * low, -core), ["both ends", thread_call(part.thread, inside=False)], toward=-120.0)
    return view


def nut_view(plan: SheetPlan, part: Rod, name: str, count: int) -> View:
    """Draw a rod's round nut in section, its slotted top at the right; `name` and how many are made of it."""
    r, high = part.nut_diameter / 2, part.nut_height
    tap, deep = part.thread.tap_drill / 2, part.nut_thread
    slot, floor = SLOT * part.nut_diameter / 2, high - part.nut_slot
    half = (
        Pen.at(tap, 0.0, "nut").line_to(r, 0.0).line_to(r, high, corner=NUT_ROUND).line_to(slot, high)
        .line_to(slot, floor).line_to(0.0, floor).line_to(0.0, deep).line_to(tap, deep).close()
    )  # fmt: skip
    lines, faces = turned_section(half)
    view = plan.view(f"{part.name} nut", lines, label=f"{name.upper()}, {count} OFF, SECTION")
    for f in faces:
        view.hatch(f)
    major = part.thread.major / 2
    view.draw([Line((0.0, v), (deep, v)) for v in (-major, major)], "SMOOTH")
    view.centre_line((-2.0, 0.0), (high + 2.0, 0.0))
    view.dim_h((0.0, -r), (high, -r + NUT_ROUND), high, side="below")
    view.dim_v((0.0, -r), (0.0, r), part.nut_diameter, (0.0, -0.1), side="left", prefix="Ø")
    view.leader((0.0, major), [thread_call(part.thread, inside=True), f"tap drill Ø{drill_text(2 * tap, plan.unit)}",
                view.length_row(deep, prefix="deep ", suffix=", flat bottom"),
                view.length_row(part.nut_full_thread, prefix="full thread at least ", suffix=" deep"),
                view.length_row(NUT_ROUND, prefix="top edge R", suffix=", smooth")], toward=200.0)  # fmt: skip
    _end(view, name, plan, r, SLOT * part.nut_diameter, part.nut_slot, "right")
    return view


def pin_view(plan: SheetPlan, name: str, diameter: float, length: float, fit: tuple[float, float], label: str) -> View:
    """Draw a plain pin with eased ends; `fit` are the limits of its diameter [mm]."""
    r, ease = diameter / 2, 0.3
    half = (
        Pen.at(0.0, 0.0, name).line_to(r - ease, 0.0).line_to(r, ease).line_to(r, length - ease)
        .line_to(r - ease, length).line_to(0.0, length).close()
    )  # fmt: skip
    view = plan.view(name, turned(half), label=label)
    view.centre_line((-2.0, 0.0), (length + 2.0, 0.0))
    view.dim_h((0.0, -r), (length, -r), length, LENGTH_TOL, side="below")
    view.dim_v((length, -r), (length, r), diameter, fit, side="right", prefix="Ø")
    view.leader((ease / 2, r - ease / 2), [view.length_row(ease, prefix="both ends ", suffix=" by 45°")], toward=120.0)
    return view


def post_view(plan: SheetPlan, name: str, thread: Thread, length: float, engaged: float, label: str) -> View:
    """Draw a post threaded along its whole length [mm], its screwed-in end at the left."""
    core = thread.major / 2
    half = (
        Pen.at(0.0, 0.0, name).line_to(core - TIP, 0.0).line_to(core, TIP).line_to(core, length - TIP)
        .line_to(core - TIP, length).line_to(0.0, length).close()
    )  # fmt: skip
    view = plan.view(name, turned(half), label=label)
    view.draw(root_lines(thread, 0.0, length), "SMOOTH")
    view.centre_line((-3.0, 0.0), (length + 3.0, 0.0))
    view.dim_h((0.0, -core), (length, -core), length, LENGTH_TOL, side="below")
    view.dim_h((0.0, core), (engaged, core), engaged, side="above", reference=True, suffix=" screwed in")
    view.leader((0.8 * length, core), [thread_call(thread, inside=False), "whole length"], toward=60.0)
    return view
