"""The lever cap's smaller parts: cam lever with its casting sizes, leaf spring, both rivets."""

from __future__ import annotations

from math import pi
from typing import TYPE_CHECKING

from parts.lever_cap import leaf, outline
from parts.lever_cap.cap import SINK, ear_face, spring_rivet_top
from parts.lever_cap.size import (
    PIVOT_BORE_TOL,
    PIVOT_RIVET_TOL,
    RIVET_HEAD,
    RIVET_PLAY,
    RUNNING_PLAY,
    LeverCapSize,
)
from parts.lever_cap.solid import RIVET_HEAD_DIAMETER, SPRING_HOLE_PLAY
from parts.plane.finish import finish_of
from parts.plane.practice import as_cast_tolerance
from parts.plane.sheets.body_casting import cast_sizes
from parts.plane.sheets.common import MEDIUM, SheetEntry, new_sheet
from parts.plane.sheets.edge_text import as_cast_note
from parts.plane.sheets.metal import MILLED, size_text
from parts.plane.sheets.shapes import mass, on_bed_seen, piece, texture_text, turned
from shared.both_units import force
from shared.drawing.plan import SheetPlan
from shared.drawing.primitives import Line
from shared.drawing.title import mass_text
from shared.profile import Profile

if TYPE_CHECKING:
    from parts.plane.run import Run

STRIP_HRC = "46 to 50 HRC"  # about 48 as the spring's yield is reckoned with (parts.lever_cap.spring)


def _size(run: Run) -> LeverCapSize:
    found: LeverCapSize = run.design.mechanism.lever_cap  # type: ignore[attr-defined]
    return found


def lever_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the cam lever: hub, cam and stop are machined, the rest stays as cast."""
    size, d = _size(run), run.design
    plan = new_sheet(run, entry, material=d.cap_alloy.name, mass_kg=mass(run, "lever_cap", "lever cap lever"),
                     tolerance=f"machined: {MEDIUM}; as cast: {as_cast_tolerance(d.shop)}",
                     texture=texture_text(MILLED, d.spec.units),
                     finish=finish_of("cam lever", d.cap_alloy, d.shop.heat).box,
                     scales=("2:1",))  # fmt: skip
    solid = piece(run, "lever_cap", "lever cap lever").solid
    view = plan.view("side", on_bed_seen(run, "lever cap lever", solid, "side"))
    top = plan.view("top", on_bed_seen(run, "lever cap lever", solid, "face"), of=view, place="above")
    pivot, cam = (size.pivot_at, size.pivot_q), size.cam_center
    hole = size.pivot_diameter + RUNNING_PLAY
    view.centre_marks([(pivot, hole / 2), (cam, 1.0)])
    view.diameter(pivot, (pivot[0] + hole / 2, pivot[1]), hole, PIVOT_BORE_TOL, suffix=" THRU")
    view.datum("A", (pivot[0] - hole / 2, pivot[1]), toward=150.0)
    view.leader((cam[0] - size.cam_radius * 0.8, cam[1] - size.cam_radius * 0.6), [
        view.length_row(size.cam_radius, 0.05, prefix="cam R"), view.frame("parallelism", 0.02, ["A"])],
        toward=-150.0)  # fmt: skip
    view.leader((pivot[0] - size.hub_radius * 0.5, pivot[1] + size.hub_radius * 0.866),
                [view.length_row(size.hub_radius, 0.1, prefix="hub R")], toward=120.0)  # fmt: skip
    view.dim_h(cam, pivot, pivot[0] - cam[0], 0.05, side="below")
    view.dim_v(cam, pivot, pivot[1] - cam[1], 0.05, side="left")
    tip = size.pivot_at + size.lever_length
    stop = (size.tail + 1.0, size.stop_q)
    view.dim_v(stop, pivot, pivot[1] - size.stop_q, 0.1, side="right")
    view.dim_h(pivot, stop, stop[0] - pivot[0], side="below", suffix=" least, stop")
    view.dim_h(pivot, (tip, size.stop_q + outline.TIP_RISE), size.lever_length, reference=True, side="below",
               suffix=" as cast")  # fmt: skip
    view.surface((size.pivot_at + 9.0, size.stop_q), MILLED / 2, note="stop", toward=-70.0)
    view.surface((cam[0], cam[1] - size.cam_radius), MILLED / 4, note="cam, polished", toward=-100.0)
    half = size.lever_width / 2
    top.dim_v((pivot[0], -half), (pivot[0], half), size.lever_width, (0.0, -0.1), side="left")
    plain = half - outline.PLAIN_UNDER
    at = tip - plain - 1.0
    top.dim_v((at, -plain), (at, plain), 2 * plain, reference=True, side="right", suffix=" as cast")
    top.centre_line((cam[0] - size.cam_radius - 4.0, 0.0), (tip + 4.0, 0.0))
    units = d.spec.units
    cast_sizes(plan, run, "cam lever")
    plan.notes([
        "Drawn shut. Bore the pivot first; turn or mill hub and cam from it. The cam's centre from the pivot's sets "
        "the throw: no other size matters as much.",
        f"Eccentricity {size_text(size.eccentricity, units)}; throw {size_text(size.throw, units)}.",
        "The cam rubs on the leaf: polish it along its sliding. Break its side arrises "
        f"{size_text(0.3, units)}.",
        "Round the paddle where the thumb lifts it; no fin may be left from the parting.",
        as_cast_note("cam lever", size.outside_draft, "the lever's middle plane"),
    ])  # fmt: skip
    return plan


def spring_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return leaf spring, spring rivet and pivot rivet."""
    size, d = _size(run), run.design
    units, n = d.spec.units, run.numbers["lever_cap"]
    plan = new_sheet(run, entry, material="see the list", kind="Part drawings", tolerance=MEDIUM,
                     texture=texture_text(3.2, units), scales=("2:1",))  # fmt: skip
    _leaf(plan, run, size)
    _rivets(plan, size)
    rows = [(n, "1", m, mass_text(mass(run, "lever_cap", f"lever cap {n}"), units)) for n, m in (
        ("leaf spring", f"spring steel strip, {STRIP_HRC}"), ("spring rivet", "soft steel"),
        ("pivot rivet", "soft steel"))]  # fmt: skip
    plan.table(("Part", "Quantity", "Material", "Mass"), rows, title="List")
    plan.notes([
        f"Leaf: spring steel strip, hardened and tempered to {STRIP_HRC}; bend, punch and round the corners soft. "
        f"Cut {size_text(float(n.value('spring_strip_length_mm')), units)} of strip.",
        f"Leaf free: the middle between its feet is bowed up by {size_text(size.spring_bow, units)}, tolerance ±10 %; "
        f"pressed flat it gives {force(float(n.value('cam_force_n')), units)}. Drawn as the shut cam holds it, flat.",
        "Blue or oil the leaf; no scratch across it, no burr at the hole: a scratch begins a crack.",
        "Rivets: soft steel. Drawn as peened and dressed flush; leave the length given beyond the countersink's foot "
        "before peening.",
        "Caution: eye protection when peening and when pressing the leaf; a hard strip that breaks flies off.",
    ])  # fmt: skip
    return plan


def _leaf(plan: SheetPlan, run: Run, size: LeverCapSize) -> None:
    section = leaf.leaf_section(size)
    view = plan.view("leaf", [section], label="LEAF SPRING, 1 OFF")
    view.hatch(section)
    hole = (size.rivet_diameter + SPRING_HOLE_PLAY) / 2
    top = plan.view("leaf plan", [leaf.leaf_plan(size), Profile.circle((size.spring_rivet_at, 0.0), hole)], of=view,
                    place="above")  # fmt: skip
    begin, end, t = size.spring_rivet_at - leaf.OVER, size.spring_end, size.spring_thickness
    half = size.spring_width / 2
    top.centre_line((begin - 4.0, 0.0), (end + 4.0, 0.0))
    top.centre_marks([((size.spring_rivet_at, 0.0), hole)])
    top.diameter((size.spring_rivet_at, 0.0), (size.spring_rivet_at + hole, 0.0), 2 * hole, (0.1, 0.0))
    top.dim_v((end, -half), (end, half), size.spring_width, 0.1, side="right")
    top.dim_h((begin, 0.0), (size.spring_rivet_at, 0.0), leaf.OVER, side="above")
    top.leader((begin + 0.9, half - 0.9), ["corners", top.length_row(3.0, prefix="2× R"),
               top.length_row(2.0, prefix="2× R", suffix=" at the free end")], toward=150.0)  # fmt: skip
    rivet = size.spring_rivet_at
    foot, aft = size.press_at - size.spring_half, size.press_at + size.spring_half
    low, high = size.press_q, size.strap_q
    view.dim_h((rivet, high), (foot, low), foot - rivet, 0.2, side="below")
    view.dim_h((foot, low), (aft, low), aft - foot, 0.2, side="below")
    view.dim_h((rivet, high), (end, low), end - rivet, side="below")
    view.dim_v((begin, high), (foot, low), high - low, 0.1, side="left")
    view.dim_v((begin, high), (begin, high + t), t, 0.02, side="left")
    view.draw([Line((rivet, high - 2.0), (rivet, high + t + 2.0))], "CENTRE")
    view.draw([Line((size.press_at, low - 2.0), (size.press_at, low + t + 2.0))], "CENTRE")
    view.leader((foot, low + t), [view.length_row(leaf.BEND_RADIUS, prefix="inside bends R"),
                f"free end turned up {leaf.TURN_UP:g}°"], toward=60.0)  # fmt: skip


def _rivets(plan: SheetPlan, size: LeverCapSize) -> None:
    d, r = size.rivet_diameter, size.rivet_diameter / 2
    long = spring_rivet_top(size) - (size.strap_q - RIVET_PLAY - RIVET_HEAD)
    half = leaf.rivet_section(d, long, RIVET_HEAD_DIAMETER, SINK)
    view = plan.view("spring rivet", turned(half), label="SPRING RIVET, 1 OFF, SOFT STEEL")
    view.centre_line((-3.0, 0.0), (long + 3.0, 0.0))
    head = RIVET_HEAD_DIAMETER / 2
    view.dim_h((0.0, head), (long, SINK), long, side="above")
    view.dim_h((0.0, -head), (RIVET_HEAD, -r), RIVET_HEAD, 0.05, side="below")
    view.dim_v((0.0, -head), (0.0, head), 2 * head, side="left", prefix="Ø")
    view.dim_v((long / 2, -r), (long / 2, r), d, (0.0, -0.05), at=long / 2, prefix="Ø")
    view.dim_v((long, -SINK), (long, SINK), 2 * SINK, side="right", prefix="Ø", reference=True)
    spare = _peening(r)
    view.leader((long, -SINK * 0.5), [view.length_row(spare, prefix="before peening: Ø shank carried on by "),
                                      "beyond the countersink's foot"], toward=-40.0)  # fmt: skip
    p, y = size.pivot_diameter / 2, ear_face(size)
    neck = y - (SINK - p)
    half = Profile.polygon([(0, -y), (SINK, -y), (p, -neck), (p, neck), (SINK, y), (0, y)], name="pivot rivet")
    view = plan.view("pivot rivet", turned(half), label="PIVOT RIVET, 1 OFF, SOFT STEEL")
    view.centre_line((-y - 3.0, 0.0), (y + 3.0, 0.0))
    view.dim_h((-y, SINK), (y, SINK), 2 * y, side="above")
    view.dim_h((-neck, -p), (neck, -p), 2 * neck, side="below")
    view.dim_v((0.0, -p), (0.0, p), 2 * p, PIVOT_RIVET_TOL, at=0.0, prefix="Ø")
    view.dim_v((y, -SINK), (y, SINK), 2 * SINK, side="right", prefix="Ø", reference=True)
    view.leader((y, -SINK * 0.5), [view.length_row(2 * neck + 2 * _peening(p), prefix="pin before peening: ",
                suffix=" long")], toward=-40.0)  # fmt: skip


def _peening(r: float) -> float:
    """Return the length of shank [mm] that fills a countersink from its foot, for a shank radius [mm]: equal volume."""
    deep = SINK - r
    return pi / 3 * deep * (SINK**2 + SINK * r + r**2) / (pi * r**2)
