"""Pictures of the blade card: section, camber, temper curve, mouth stack. Loads matplotlib."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from matplotlib import rc_context
from matplotlib.figure import Figure

from parts.blade.angles import Orientation
from parts.blade.camber import camber_profile
from parts.blade.card_section_picture import Point, section_picture
from parts.blade.card_style import BAND, INK, MARK, STEEL, STYLE
from parts.blade.card_words import length
from parts.blade.temper import TemperChoice, c_to_f, f_to_c
from shared.both_units import temperature
from shared.mouth_stack import Stack
from shared.wording import UNCHECKED


def save_picture(figure: Figure, path: str | Path) -> None:
    """Write a picture as PNG, SVG or PDF by its ending; the same picture gives the same bytes."""
    with rc_context(STYLE):
        stamp = {".svg": {"Date": None}, ".pdf": {"CreationDate": None}}.get(Path(path).suffix, {"Software": None})
        figure.savefig(path, dpi=150, metadata=stamp)


def camber_picture(width: float, camber_on_blade: float, depth_at_work: float, units: str = "inch") -> Figure:
    """Return the cambered edge with its exaggeration written on it.

    Args:
        width: blade width [mm].
        camber_on_blade: camber on the blade [mm], more than 0.
        depth_at_work: what it gives at the work [mm].
        units: "inch" or "mm", which stands first.
    """
    exaggeration = max(1.0, round(0.12 * width / camber_on_blade))
    with rc_context(STYLE):
        figure = Figure(figsize=(6.4, 2.4))
        axes = figure.add_axes((0.03, 0.05, 0.94, 0.68))
        points = camber_profile(width, camber_on_blade)
        ys, back = zip(*points, strict=True)
        edge = [v * exaggeration for v in back]
        top = max(edge) + 0.12 * width
        axes.fill([ys[0], *ys, ys[-1]], [top, *edge, top], facecolor=STEEL, edgecolor=INK, linewidth=1.0)
        axes.plot([ys[0], ys[-1]], [0, 0], color=MARK, linewidth=0.8, linestyle=(0, (6, 3)))
        side = ys[-1] + 0.02 * width
        axes.annotate("", (side, 0), (side, edge[-1]), arrowprops={"arrowstyle": "<->", "color": MARK})
        label = length(camber_on_blade, units).replace(" [", "\n[")
        axes.text(side + 0.01 * width, edge[-1] / 2, label, color=MARK, va="center")
        head = (
            f"Camber on the blade, seen square to the face: depth exaggerated {exaggeration:g} times\n"
            f"gives {length(depth_at_work, units)} at the work over {length(width, units)}"
        )
        figure.text(0.03, 0.97, head, va="top")
        axes.set_xlim(-0.53 * width, 0.68 * width)
        axes.set_ylim(-0.03 * width, top + 0.01 * width)
        axes.set_axis_off()
    return figure


def temper_picture(choice: TemperChoice, units: str = "inch") -> Figure:
    """Return the temper curve with the target and the band to expect; `units` "inch" puts °F below, "mm" °C."""
    curve, inch = choice.curve, units == "inch"
    with rc_context(STYLE):
        figure = Figure(figsize=(6.4, 4.3))
        axes = figure.add_axes((0.1, 0.12, 0.86, 0.64))
        at = [f if inch else f_to_c(f) for f in curve.temper_f]
        low = [h - b for h, b in zip(curve.hrc, curve.half_band, strict=True)]
        high = [h + b for h, b in zip(curve.hrc, curve.half_band, strict=True)]
        axes.fill_between(at, low, high, color=BAND, label="band to expect")
        axes.plot(at, curve.hrc, color=INK, marker="o", markersize=4, label="curve")
        chosen = c_to_f(choice.temperature_c) if inch else choice.temperature_c
        on_curve = curve.hardness(choice.temperature_c)
        axes.axhline(choice.target, color=MARK, linewidth=0.8, linestyle=(0, (6, 3)))
        diamond: Any = {"marker": "D", "markersize": 8, "linestyle": "none"}
        axes.plot([chosen], [on_curve], color=MARK, label="temper chosen", zorder=5, **diamond)
        right = chosen < (at[0] + at[-1]) / 2
        axes.annotate(
            f"{choice.target:g} HRC: {temperature(choice.temperature_c, units)}, {choice.tempers} × {choice.hours:g} h",
            (chosen, choice.target),
            (10 if right else -10, 14),
            textcoords="offset points",
            ha="left" if right else "right",
            color=MARK,
        )
        axes.set_xlabel(f"temper, {'°F' if inch else '°C'}")
        over: Any = (f_to_c, c_to_f) if inch else (c_to_f, f_to_c)
        axes.secondary_xaxis("top", functions=over).set_xlabel("°C" if inch else "°F")
        axes.set_ylabel("hardness, HRC")
        axes.set_ylim(min(low) - 1, max(*high, choice.target) + 2.5)
        axes.legend(loc="lower left", frameon=False)
        axes.grid(color="#dddddd", linewidth=0.5)
        axes.spines["right"].set_visible(False)
        hard = temperature(curve.hardening_c, units)
        lines = [f"{curve.steel}: hardness after tempering, hardened at {hard}, {curve.quench}"]
        if curve.known != "seen":
            lines.append(f"curve: {UNCHECKED}")
        if not choice.unique:
            lines.append("several tempers give it: the coolest is taken")
        figure.text(0.02, 0.97, "\n".join(lines), va="top")
    return figure


def mouth_picture(opening: float, stack: Stack, units: str = "inch") -> Figure:
    """Return the tolerance stack of the mouth as a bar chart; opening [mm], `units` says which unit stands first."""
    rows = [*stack.contributions]
    names = [c.name for c in rows] + ["likely (root sum square)", "worst case"]
    values = [c.effect for c in rows] + [stack.rss, stack.worst]
    most = stack.largest.effect * (1 - 1e-9)
    colors = [MARK if c.effect >= most else STEEL for c in rows] + [INK, INK]
    with rc_context(STYLE):
        figure = Figure(figsize=(6.4, 0.75 + 0.36 * len(names)))
        axes = figure.add_axes((0.33, 0.06, 0.62, 0.72))
        axes.barh(range(len(names)), values, color=colors, edgecolor=INK, linewidth=0.6)
        for i, v in enumerate(values):
            axes.text(v + 0.01 * max(values), i, f"± {length(v, units)}", va="center")
        axes.set_yticks(range(len(names)), names)
        axes.invert_yaxis()
        axes.set_xlim(0, 1.65 * max(values))
        axes.set_xticks([])
        for side in ("top", "right", "bottom"):
            axes.spines[side].set_visible(False)
        head = f"Mouth opening {length(opening, units)}: where its tolerance comes from\nlargest in red"
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
    metal: Sequence[Sequence[Point]],
    temper: TemperChoice,
    stack: Stack,
    units: str,
) -> dict[str, Figure]:
    """Return every picture of the card by file stem; lengths [mm], angles [deg]. See the single functions.

    A straight edge has no picture of its camber.
    """
    made = {
        "blade-section": section_picture(
            orientation=orientation,
            bed=bed,
            thickness=thickness,
            bevel=bevel,
            micro_bevel=micro_bevel,
            micro_width=micro_width,
            back_bevel=back_bevel,
            metal=metal,
            units=units,
        ),
        "blade-temper": temper_picture(temper, units),
        "mouth-stack": mouth_picture(mouth_opening, stack, units),
    }
    if camber_on_blade:
        made["blade-camber"] = camber_picture(width, camber_on_blade, camber_at_work, units)
    return made
