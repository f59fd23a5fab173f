"""Pictures of the blade card: section at true scale, camber, temper curve, mouth stack. Loads matplotlib."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

from matplotlib import rc_context
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Arc

from parts.blade.angles import Orientation, edge_angles
from parts.blade.bedding import bed_foot, steel_under_edge
from parts.blade.bevel import MICRO_WIDTH_MM, bevel_shape
from parts.blade.camber import camber_profile
from parts.blade.temper import TemperChoice, c_to_f
from shared.mouth_stack import Stack

INK, STEEL, METAL, MARK, BAND = "#222222", "#c9d1d8", "#e6e0d4", "#8c3b2e", "#e9d9a8"
_STYLE: Any = {"font.size": 9, "svg.hashsalt": "planewright", "svg.fonttype": "none", "font.family": "DejaVu Sans"}


def save_picture(figure: Figure, path: str | Path) -> None:
    """Write a picture as PNG, SVG or PDF by its ending; the same picture gives the same bytes."""
    with rc_context(_STYLE):
        stamp = {".svg": {"Date": None}, ".pdf": {"CreationDate": None}}.get(Path(path).suffix, {"Software": None})
        figure.savefig(path, dpi=150, metadata=stamp)


def _scaled_axes(width_mm: float, height_mm: float, scale: float, head_in: float = 0.45) -> tuple[Figure, Axes]:
    """Return a figure whose axes hold width x height [mm] at `scale`:1 on paper."""
    w, h = width_mm * scale / 25.4, height_mm * scale / 25.4
    figure = Figure(figsize=(w + 0.2, h + head_in + 0.1))
    axes = figure.add_axes((0.1 / (w + 0.2), 0.1 / (h + head_in + 0.1), w / (w + 0.2), h / (h + head_in + 0.1)))
    axes.set_axis_off()
    return figure, axes


def _blade_outline(
    orientation: Orientation, bed: float, t: float, bevel: float, micro: float | None, micro_width: float, reach: float
) -> list[tuple[float, float]]:
    """Return the blade's section (x, z) [mm], edge first, along its flat up to `reach`, back along the other side."""
    b = math.radians(bed)
    shape = bevel_shape(t, bevel, micro, micro_width)
    side = 1.0 if orientation == "bevel-down" else -1.0

    def at(along: float, depth: float) -> tuple[float, float]:
        return along * math.cos(b) + side * depth * math.sin(b), along * math.sin(b) - side * depth * math.cos(b)

    points = [at(0, 0), at(reach, 0), at(reach, t), at(shape.heel_from_edge, t)]
    if micro is not None and shape.micro_length:
        points.append(at(shape.micro_length * math.cos(math.radians(micro)), shape.micro_depth))
    return points


def section_picture(
    *,
    orientation: Orientation,
    bed: float,
    thickness: float,
    bevel: float,
    micro_bevel: float | None = None,
    micro_width: float = MICRO_WIDTH_MM,
    back_bevel: float = 0.0,
    mouth_opening: float = 0.4,
    support_height: float = 6.0,
    scale: float = 5.0,
) -> Figure:
    """Return the section of bevel and bed at true scale with the angles marked.

    Args:
        orientation: "bevel-down" or "bevel-up".
        bed: bed angle [deg].
        thickness: blade thickness [mm].
        bevel: ground bevel [deg].
        micro_bevel: micro-bevel [deg], or None.
        micro_width: its width [mm].
        back_bevel: back bevel [deg], named in the head only.
        mouth_opening: edge to the mouth's front wall [mm].
        support_height: height at which the bed begins to carry the blade [mm].
        scale: millimetres on paper for one of the blade [-].

    Raises:
        InputError: impossible angles.
    """
    honed = bevel if micro_bevel is None else micro_bevel
    e = edge_angles(orientation, bed, honed, back_bevel)
    left, right, low, high = -8.0, 22.0, -3.0, 16.0
    with rc_context(_STYLE):
        figure, axes = _scaled_axes(right - left, high - low, scale)
        reach = (high + 4) / math.sin(math.radians(bed)) if bed > 30 else (right + 4) / math.cos(math.radians(bed))
        outline = _blade_outline(orientation, bed, thickness, bevel, micro_bevel, micro_width, reach)
        axes.fill(*zip(*outline, strict=True), facecolor=STEEL, edgecolor=INK, linewidth=1.0, zorder=3)
        _bed_and_sole(axes, orientation, bed, thickness, back_bevel, mouth_opening, support_height, (left, right, high))
        _mark_angles(axes, e.cutting, e.clearance)
        head = f"{orientation}, bed {bed:g}°, ground {bevel:g}°, honed {honed:g}°"
        if back_bevel:
            head += f", back bevel {back_bevel:g}° (not drawn)"
        figure.text(0.02, 0.985, f"Bevel and bed, section {scale:g}:1\n{head}", va="top")
        axes.set_xlim(left, right)
        axes.set_ylim(low, high)
    return figure


def _bed_and_sole(
    axes: Axes,
    orientation: Orientation,
    bed: float,
    t: float,
    back: float,
    mouth: float,
    support: float,
    box: tuple[float, float, float],
) -> None:
    left, right, high = box
    tan = math.tan(math.radians(bed))
    foot = bed_foot(steel_under_edge(orientation, t, back), bed)
    start, end = foot + support / tan, min(right, foot + high / tan)
    metal = [(start, support), (end, (end - foot) * tan), (right, (end - foot) * tan), (right, 0), (start, 0)]
    axes.fill(*zip(*metal, strict=True), facecolor=METAL, edgecolor=INK, linewidth=0.8, zorder=1)
    lean = math.tan(math.radians(15))
    front = [(-mouth, 0), (-mouth - 6 * lean, 6), (left, 6), (left, 0)]
    axes.fill(*zip(*front, strict=True), facecolor=METAL, edgecolor=INK, linewidth=0.8, zorder=1)
    axes.plot([left, right], [0, 0], color=INK, linewidth=0.6, linestyle=(0, (6, 3)), zorder=4)
    axes.text(left + 0.2, -0.3, "sole", va="top")
    axes.annotate("", (left + 5.5, -1.9), (left + 1.5, -1.9), arrowprops={"arrowstyle": "<-", "color": INK})
    axes.text(left + 6.0, -1.9, "travel", va="center")


def _mark_angles(axes: Axes, cutting: float, clearance: float) -> None:
    marks = [(0.0, clearance, 15.0, f"clearance {clearance:g}°"), (0.0, cutting, 11.5, f"cutting {cutting:g}°")]
    marks.append((clearance, cutting, 7.0, f"wedge {cutting - clearance:g}°"))
    for from_deg, to_deg, radius, text in marks:
        arc = Arc((0, 0), 2 * radius, 2 * radius, theta1=from_deg, theta2=to_deg, color=MARK, linewidth=1.2, zorder=5)
        axes.add_patch(arc)
        # the cutting angle is written outside the blade, so that no two texts meet
        a = math.radians(to_deg if text.startswith("cutting") else (from_deg + to_deg) / 2)
        x, z = radius * math.cos(a), radius * math.sin(a)
        if text.startswith("cutting"):
            axes.text(x - 0.3, z + 0.3, text, color=MARK, ha="right", va="bottom", zorder=6)
        else:
            axes.text(x + 0.3, z, text, color=MARK, ha="left", va="center", zorder=6, backgroundcolor="#ffffffb0")
    for angle in (clearance, cutting):
        a = math.radians(angle)
        axes.plot([0, 16 * math.cos(a)], [0, 16 * math.sin(a)], color=MARK, linewidth=0.6, zorder=5)


def camber_picture(width: float, camber_on_blade: float, depth_at_work: float) -> Figure:
    """Return the cambered edge with its exaggeration written on it.

    Args:
        width: blade width [mm].
        camber_on_blade: camber on the blade [mm].
        depth_at_work: what it gives at the work [mm].
    """
    exaggeration = 1.0 if camber_on_blade == 0 else max(1.0, round(0.12 * width / camber_on_blade))
    with rc_context(_STYLE):
        figure = Figure(figsize=(6.4, 2.4))
        axes = figure.add_axes((0.03, 0.05, 0.94, 0.68))
        points = camber_profile(width, camber_on_blade)
        ys, back = zip(*points, strict=True)
        edge = [v * exaggeration for v in back]
        top = max(edge) + 0.12 * width
        axes.fill([ys[0], *ys, ys[-1]], [top, *edge, top], facecolor=STEEL, edgecolor=INK, linewidth=1.0)
        axes.plot([ys[0], ys[-1]], [0, 0], color=MARK, linewidth=0.8, linestyle=(0, (6, 3)))
        side = ys[-1] + 0.02 * width
        if camber_on_blade:
            axes.annotate("", (side, 0), (side, edge[-1]), arrowprops={"arrowstyle": "<->", "color": MARK})
            label = f"{camber_on_blade:.3f} mm\n{camber_on_blade / 25.4:.4f} in"
            axes.text(side + 0.01 * width, edge[-1] / 2, label, color=MARK, va="center")
        head = (
            f"Camber on the blade, seen square to the face: depth exaggerated {exaggeration:g} times\n"
            f"gives {depth_at_work:.3f} mm ({depth_at_work / 25.4:.4f} in) at the work over {width:.1f} mm"
        )
        figure.text(0.03, 0.97, head if camber_on_blade else "No camber: straight edge, at true proportion", va="top")
        axes.set_xlim(-0.53 * width, 0.68 * width)
        axes.set_ylim(-0.03 * width, top + 0.01 * width)
        axes.set_axis_off()
    return figure


def temper_picture(choice: TemperChoice) -> Figure:
    """Return the temper curve with the target and the band to expect."""
    curve = choice.curve
    with rc_context(_STYLE):
        figure = Figure(figsize=(6.4, 4.0))
        axes = figure.add_axes((0.1, 0.14, 0.86, 0.66))
        low = [h - b for h, b in zip(curve.hrc, curve.half_band, strict=True)]
        high = [h + b for h, b in zip(curve.hrc, curve.half_band, strict=True)]
        axes.fill_between(curve.temper_f, low, high, color=BAND, label="band to expect")
        axes.plot(curve.temper_f, curve.hrc, color=INK, marker="o", markersize=4, label="curve")
        f = c_to_f(choice.temperature_c)
        on_curve = curve.hardness(choice.temperature_c)
        axes.axhline(choice.target, color=MARK, linewidth=0.8, linestyle=(0, (6, 3)))
        axes.plot(
            [f], [on_curve], color=MARK, marker="D", markersize=8, linestyle="none", label="temper chosen", zorder=5
        )
        right = f < (curve.temper_f[0] + curve.temper_f[-1]) / 2
        axes.annotate(
            f"{choice.target:g} HRC: {f:.0f} °F ({choice.temperature_c:.0f} °C), {choice.tempers} x {choice.hours:g} h",
            (f, choice.target),
            (10 if right else -10, 14),
            textcoords="offset points",
            ha="left" if right else "right",
            color=MARK,
        )
        axes.set_xlabel("temper, °F")
        axes.set_ylabel("hardness, HRC")
        axes.set_ylim(min(low) - 1, max(*high, choice.target) + 2.5)
        axes.legend(loc="lower left", frameon=False)
        axes.grid(color="#dddddd", linewidth=0.5)
        for side in ("top", "right"):
            axes.spines[side].set_visible(False)
        head = f"{curve.steel}: hardness after tempering, hardened at {curve.hardening_f:g} °F, {curve.quench}"
        known = "read in a copy of the source" if curve.known == "seen" else "from memory"
        more = f"curve {known}" + ("" if choice.unique else "; several tempers give it: the coolest is taken")
        figure.text(0.02, 0.97, f"{head}\n{more}", va="top")
    return figure


def mouth_picture(opening: float, stack: Stack) -> Figure:
    """Return the tolerance stack of the mouth as a bar chart; opening [mm]."""
    rows = [*stack.contributions]
    names = [c.name for c in rows] + ["root sum square", "worst case"]
    values = [c.effect for c in rows] + [stack.rss, stack.worst]
    most = stack.largest.effect * (1 - 1e-9)
    colors = [MARK if c.effect >= most else STEEL for c in rows] + [INK, INK]
    with rc_context(_STYLE):
        figure = Figure(figsize=(6.4, 0.75 + 0.36 * len(names)))
        axes = figure.add_axes((0.33, 0.06, 0.62, 0.72))
        axes.barh(range(len(names)), values, color=colors, edgecolor=INK, linewidth=0.6)
        for i, v in enumerate(values):
            axes.text(v + 0.01 * max(values), i, f"± {v:.3f} mm ({v / 25.4:.4f} in)", va="center")
        axes.set_yticks(range(len(names)), names)
        axes.invert_yaxis()
        axes.set_xlim(0, 1.65 * max(values))
        axes.set_xticks([])
        for side in ("top", "right", "bottom"):
            axes.spines[side].set_visible(False)
        head = (
            f"Mouth opening {opening:.3f} mm ({opening / 25.4:.4f} in): where its tolerance comes from\nlargest in red"
        )
        figure.text(0.02, 0.98, head, va="top")
    return figure


def card_figures(
    *,
    orientation: Orientation,
    bed: float,
    thickness: float,
    width: float,
    bevel: float,
    micro_bevel: float | None,
    micro_width: float,
    back_bevel: float,
    camber_on_blade: float,
    camber_at_work: float,
    mouth_opening: float,
    support_height: float,
    temper: TemperChoice,
    stack: Stack,
) -> dict[str, Figure]:
    """Return every picture of the card by file stem; lengths [mm], angles [deg]. See the single functions."""
    return {
        "blade-section": section_picture(
            orientation=orientation,
            bed=bed,
            thickness=thickness,
            bevel=bevel,
            micro_bevel=micro_bevel,
            micro_width=micro_width,
            back_bevel=back_bevel,
            mouth_opening=mouth_opening,
            support_height=support_height,
        ),
        "blade-camber": camber_picture(width, camber_on_blade, camber_at_work),
        "blade-temper": temper_picture(temper),
        "mouth-stack": mouth_picture(mouth_opening, stack),
    }
