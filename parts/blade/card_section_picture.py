"""The blade card's picture of bevel and bed in section, with the angles marked. Loads matplotlib."""

from __future__ import annotations

import math
from collections.abc import Sequence

from matplotlib import rc_context
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Arc

from parts.blade.angles import Orientation, edge_angles
from parts.blade.bevel import MICRO_WIDTH_MM, bevel_shape
from parts.blade.card_style import INK, MARK, METAL, STEEL, STYLE

BOX = (-8.0, 22.0, -3.0, 16.0)  # mm: what is seen: from x to x, from z to z
ARCS = {"wedge": 6.0, "cutting": 13.0, "clearance": 16.0}  # mm: radius that each angle is marked at
NAME_AT = 9.8  # mm up the flat: the wedge's name, in the steel between two arcs
Point = tuple[float, float]


def _scaled_axes(width_mm: float, height_mm: float, scale: float, head_in: float = 0.45) -> tuple[Figure, Axes]:
    """Return a figure whose axes hold width x height [mm] at `scale`:1 on paper."""
    w, h = width_mm * scale / 25.4, height_mm * scale / 25.4
    figure = Figure(figsize=(w + 0.2, h + head_in + 0.1))
    axes = figure.add_axes((0.1 / (w + 0.2), 0.1 / (h + head_in + 0.1), w / (w + 0.2), h / (h + head_in + 0.1)))
    axes.set_axis_off()
    return figure, axes


def section_picture(
    *,
    orientation: Orientation,
    bed: float,
    thickness: float,
    bevel: float,
    micro_bevel: float | None = None,
    micro_width: float = MICRO_WIDTH_MM,
    back_bevel: float = 0.0,
    metal: Sequence[Sequence[Point]] = (),
    units: str = "inch",
    scale: float = 5.0,
) -> Figure:
    """Return the section of bevel and bed at one scale with the angles marked.

    Args:
        orientation: "bevel-down" or "bevel-up".
        bed: bed angle [deg].
        thickness: blade thickness [mm].
        bevel: ground bevel [deg].
        micro_bevel: micro-bevel [deg], or None.
        micro_width: its width [mm].
        back_bevel: back bevel [deg], named in the head only.
        metal: the plane's parts about the mouth, each the corners (x, z) of its section [mm].
        units: "inch" or "mm", the unit of the length that shows the scale.
        scale: millimetres on paper for one of the blade [-].

    Raises:
        InputError: impossible angles.
    """
    honed = bevel if micro_bevel is None else micro_bevel
    e = edge_angles(orientation, bed, honed, back_bevel)
    left, right, low, high = BOX
    b, side = math.radians(bed), 1.0 if orientation == "bevel-down" else -1.0

    def at(along: float, depth: float) -> Point:
        return along * math.cos(b) + side * depth * math.sin(b), along * math.sin(b) - side * depth * math.cos(b)

    shape = bevel_shape(thickness, bevel, micro_bevel, micro_width)
    reach = min((high + 4) / math.sin(b), (right + 4) / math.cos(b))
    corners = [at(0, 0), at(reach, 0), at(reach, thickness), at(shape.heel_from_edge, thickness)]
    if shape.micro_length:
        corners.append(at(shape.micro_length * math.cos(math.radians(honed)), shape.micro_depth))
    with rc_context(STYLE):
        figure, axes = _scaled_axes(right - left, high - low, scale)
        for part in metal:
            axes.fill(*zip(*part, strict=True), facecolor=METAL, edgecolor=INK, linewidth=0.8, zorder=1)
        axes.fill(*zip(*corners, strict=True), facecolor=STEEL, edgecolor=INK, linewidth=1.0, zorder=3)
        _sole(axes, units)
        _mark_angles(axes, e.cutting, e.clearance, at(NAME_AT, thickness / 2))
        head = f"{orientation.replace('-', ' ')}, bed {bed:g}°, ground {bevel:g}°, honed {honed:g}°"
        if back_bevel:
            head += f", back bevel {back_bevel:g}° (not drawn)"
        figure.text(0.02, 0.985, f"Bevel and bed in section\n{head}", va="top")
        axes.set_xlim(left, right)
        axes.set_ylim(low, high)
    return figure


def _sole(axes: Axes, units: str) -> None:
    """Draw the sole's line, the way of travel and a length by which the picture is measured."""
    left, right = BOX[0], BOX[1]
    axes.plot([left, right], [0, 0], color=INK, linewidth=0.6, linestyle=(0, (6, 3)), zorder=4)
    axes.text(left + 0.2, -0.3, "sole", va="top")
    axes.annotate("", (left + 5.5, -1.9), (left + 1.5, -1.9), arrowprops={"arrowstyle": "<-", "color": INK})
    axes.text(left + 6.0, -1.9, "travel", va="center")
    size, name = (6.35, "1/4 in") if units == "inch" else (5.0, "5 mm")
    ends = {"arrowstyle": "|-|,widthA=0.3,widthB=0.3", "color": INK, "shrinkA": 0, "shrinkB": 0}
    axes.annotate("", (13.0, -1.9), (13.0 + size, -1.9), arrowprops=ends)
    axes.text(12.6, -1.9, name, va="center", ha="right")


def _mark_angles(axes: Axes, cutting: float, clearance: float, wedge_at: Point) -> None:
    """Mark the three angles at the edge [deg]; the wedge's name stands in the steel, at a point (x, z) [mm]."""
    spans = {"clearance": (0.0, clearance), "cutting": (0.0, cutting), "wedge": (clearance, cutting)}
    for name, (from_deg, to_deg) in spans.items():
        r, text = ARCS[name], f"{name} {to_deg - from_deg:g}°"
        arc = Arc((0, 0), 2 * r, 2 * r, theta1=from_deg, theta2=to_deg, color=MARK, linewidth=1.2, zorder=5)
        axes.add_patch(arc)
        if name == "wedge":
            axes.text(*wedge_at, text, color=MARK, ha="center", va="center", zorder=6)
        elif name == "cutting":  # written outside the blade, so that no two texts meet
            a = math.radians(to_deg)
            axes.text(r * math.cos(a) - 0.3, r * math.sin(a) + 0.3, text, color=MARK, ha="right", va="bottom", zorder=6)
        else:
            a = math.radians((from_deg + to_deg) / 2)
            axes.text(r * math.cos(a) + 0.6, r * math.sin(a), text, color=MARK, ha="left", va="center", zorder=6,
                      backgroundcolor="#ffffffb0")  # fmt: skip
    for angle in (clearance, cutting):
        a = math.radians(angle)
        axes.plot([0, 17 * math.cos(a)], [0, 17 * math.sin(a)], color=MARK, linewidth=0.6, zorder=5)
