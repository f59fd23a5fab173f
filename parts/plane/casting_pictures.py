"""Pictures of the castings' proof, one a cast part: freezing, walls, section modulus along the length."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
from matplotlib import rc_context
from matplotlib.axes import Axes
from matplotlib.colorbar import Colorbar
from matplotlib.figure import Figure

from shared.casting.proof import Proof
from shared.casting.slices import Picture, freezing_section, section_normal, wall_view

STYLE: Any = {"font.family": "DejaVu Sans", "font.size": 8}
INK, CAST, CUT = "#222222", "#3b6ea5", "#b5651d"
TIME_MAP, WALL_MAP = "cividis", "viridis"  # both read alike by colour-blind eyes and in grey
LABEL: Any = {"boxstyle": "square,pad=0.15", "fc": "white", "ec": "none", "alpha": 0.75}
DPI = 110
PIXELS = 420  # along a casting
LONG = 2.2  # length over height from which the views stand one above the other
PAPER, TOP, GAP, GRAPH = 10.5, 0.8, 0.85, 2.0  # in: width, room above, between views, height of the graph
ROOM = 0.30  # of the section's height, above it for labels
NARROW = 5.0  # in: a narrower graph has its legend in two lines
LEGEND_BELOW = 0.42  # in from the graph's foot to its legend, below the axis's name
AXES = "xyz"


def draw_proof(p: Proof, title: str, path: Path) -> None:
    """Draw the proof of one cast part (PNG).

    Args:
        p: the proof.
        title: first line of the picture.
        path: file to write.
    """
    spans = np.ptp(p.case.casting.vertices, axis=0)
    normal = section_normal(p)
    pixel = float(spans.max()) / PIXELS
    views = [freezing_section(p, pixel), wall_view(p, 2, pixel), wall_view(p, 1, pixel)]
    with rc_context(STYLE):
        figure, axes, bars = _sheet([_height_over_width(v, ROOM if i == 0 else 0.0) for i, v in enumerate(views)])
        figure.text(0.02, 1 - 0.3 / figure.get_figheight(), f"{title}: {p.case.name}, {p.case.alloy.name}", fontsize=12)
        _freezing(axes[0], bars[0], p, views[0], normal)
        least, most = _range(views[1:])
        for i, view, label in ((1, views[1], "above (z)"), (2, views[2], "the right (y)")):
            _walls(axes[i], bars[i], p, view, label, (least, most))
        _modulus(axes[3], p)
        figure.savefig(path, dpi=DPI, metadata={"Software": None})


def _height_over_width(view: Picture, room: float) -> float:
    left, right, bottom, top = view.extent
    return (top - bottom) * (1.0 + room) / (right - left)


def _sheet(shapes: list[float]) -> tuple[Figure, list[Axes], list[Axes]]:
    """Return a figure with a place for each of three views of given height over width, its colour bar, and a graph.

    Placed by hand: the library's own layout takes longer than all the drawing.
    """
    is_long = min(shapes) < 1.0 / LONG
    width = 8.5 if is_long else 3.8
    heights = [width * shape for shape in shapes]
    if is_long:
        total = TOP + sum(h + GAP for h in heights) + GRAPH + GAP
        lefts, tops = [0.7] * 4, [TOP]
        for h in heights:
            tops.append(tops[-1] + h + GAP)
        graph = (8.5, GRAPH)
    else:
        row = max(heights)
        total = TOP + 2 * (row + GAP)
        lefts, tops = [0.7, 5.95, 0.7, 5.95], [TOP, TOP, TOP + row + GAP, TOP + row + GAP]
        graph = (width, row)
    figure = Figure(figsize=(PAPER, total))
    axes: list[Axes] = []
    bars: list[Axes] = []
    for left, top, (w, h) in zip(lefts, tops, [*((width, h) for h in heights), graph], strict=True):
        axes.append(figure.add_axes((left / PAPER, 1 - (top + h) / total, w / PAPER, h / total)))
        if len(bars) < len(heights):
            bars.append(figure.add_axes(((left + w + 0.12) / PAPER, 1 - (top + h) / total, 0.13 / PAPER, h / total)))
    return figure, axes, bars


def _frame(ax: Axes, view: Picture, title: str) -> None:
    ax.set_title(title, fontsize=9, loc="left")
    ax.set_xlabel(f"{AXES[view.across_axis]} [mm]")
    ax.set_ylabel(f"{AXES[view.up_axis]} [mm]")
    ax.set_aspect("equal")
    ax.set_facecolor("#f6f3ec")
    for side in ("top", "right"):
        ax.spines[side].set_visible(False)


def _freezing(ax: Axes, bar: Axes, p: Proof, view: Picture, normal: int) -> None:
    at = p.spots[0].at[normal]
    shown = ax.imshow(view.values, origin="lower", extent=view.extent, cmap=TIME_MAP, interpolation="nearest")
    Colorbar(bar, shown, label="frozen after [s]")
    lines = np.arange(1, 10) * p.freezing.total_s / 10
    ax.contour(view.across, view.up, view.values, levels=lines, colors="white", linewidths=0.4)
    _frame(ax, view, f"Time to freeze at {AXES[normal]} = {at:.0f} mm; a line every tenth of the whole")
    for i, s in enumerate(p.spots, 1):
        x, y = s.at[view.across_axis], s.at[view.up_axis]
        ax.plot(x, y, marker="o", ms=5, mfc="white", mec=INK, mew=0.8)
        ax.annotate(
            f"{i}: {s.seconds:.0f} s, modulus {s.modulus_mm:.1f} mm", (x, y), (0, 26), textcoords="offset points",
            ha="center", color=INK, fontsize=7.5, arrowprops={"arrowstyle": "-", "lw": 0.5, "color": INK},
            bbox=LABEL,
        )  # fmt: skip
    ax.set_ylim(view.extent[2], view.extent[3] + ROOM * (view.extent[3] - view.extent[2]))


def _range(views: list[Picture]) -> tuple[float, float]:
    values = np.concatenate([v.values[np.isfinite(v.values)] for v in views])
    return float(values.min()), float(np.quantile(values, 0.995))


def _walls(ax: Axes, bar: Axes, p: Proof, view: Picture, seen_from: str, between: tuple[float, float]) -> None:
    shown = ax.imshow(
        view.values, origin="lower", extent=view.extent, cmap=WALL_MAP, interpolation="nearest",
        vmin=between[0], vmax=between[1],
    )  # fmt: skip
    Colorbar(bar, shown, extend="max", label="wall [mm]")
    (thin, at), asked = p.walls.least, p.case.alloy.minimum_wall_mm
    # said in the heading, where no wall and no axis can lie under it
    least = f"▽ least {thin:.1f} mm; the alloy wants at least {asked:g} mm"
    _frame(ax, view, f"Wall seen from {seen_from}; at roundings the nearest\n{least}")
    ax.plot(at[view.across_axis], at[view.up_axis], marker="v", ms=6, mfc="white", mec=INK, mew=0.8)


def _modulus(ax: Axes, p: Proof) -> None:
    for s, label, colour, style in ((p.raw, "casting", CAST, "-"), (p.cut, "finished", CUT, "--")):
        if s is None:
            continue
        i = s.weakest()
        weakest = f"weakest {s.modulus[i] / 1000:.2f} cm³ at {AXES[p.length_axis]} = {s.at[i]:.0f} mm"
        # one line of the legend: the curve with the ring that marks its weakest place
        ax.plot(s.at, s.modulus / 1000, style, color=colour, lw=1.4, marker="o", ms=5, mfc="white", markevery=[i],
                label=f"{label}, {weakest}")  # fmt: skip
    ax.set_title(
        f"Section modulus along {AXES[p.length_axis]}, bending toward {AXES[p.bends_axis]}\n"
        "(weakest: under a load spread along it, held at its ends)", fontsize=9, loc="left",
    )  # fmt: skip
    ax.set_xlabel(f"{AXES[p.length_axis]} [mm]")
    ax.set_ylabel("section modulus [cm³]")
    ax.set_ylim(bottom=0)
    width, height = ax.bbox.width / ax.figure.dpi, ax.bbox.height / ax.figure.dpi
    ax.legend(frameon=False, loc="upper left", bbox_to_anchor=(0.0, -LEGEND_BELOW / height), borderaxespad=0.0,
              borderpad=0.0, ncols=2 if width > NARROW else 1)  # fmt: skip
    for side in ("top", "right"):
        ax.spines[side].set_visible(False)
