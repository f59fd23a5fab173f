"""A picture of a family of planes to one scale, edge under edge, drawn from their full-size outlines."""

from __future__ import annotations

from pathlib import Path

from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from parts.plane.design import Design
from parts.plane.side import shapes
from shared.cad import palette
from shared.human import said

GAP = 26.0  # between one plane's sole and the top of the next [mm]
SIDE = 14.0  # left free beside the longest plane [mm]
PER_MM = 0.0165  # inches on the sheet a millimetre of plane
NAMES = 92.0  # width of the column of names [mm]
# endings that can be written, and what keeps clock and library out of the file
NO_CLOCK: dict[str, dict[str, None]] = {
    ".png": {"Software": None},
    ".svg": {"Date": None},
    ".pdf": {"CreationDate": None},
}
SCALE_BARS = ((100.0, "100 mm"), (101.6, "4 in"))  # [mm]


def _colour(d: Design, stuff: str) -> palette.Colour:
    metals = {"metal": d.body_alloy, "cap": d.cap_alloy}
    if stuff in metals:
        return palette.IRON if metals[stuff].is_iron else palette.BRONZE
    return {"steel": palette.STEEL, "brass": palette.BRASS, "wood": palette.WOOD}[stuff]


def draw_family(designs: list[Design], file: Path) -> None:
    """Draw planes under each other, the shortest on top, all to one scale with their edges in one line.

    Args:
        designs: the planes.
        file: PNG, SVG or PDF to write, by its ending.
    """
    planes = [(d, shapes(d)) for d in sorted(designs, key=lambda d: float(d.body.length))]
    points = [p for _, found in planes for s in found for p in s.corners]
    left, right = min(x for x, _ in points) - SIDE, max(x for x, _ in points) + SIDE
    heights = [max(z for s in found for _, z in s.corners) for _, found in planes]
    tall = sum(heights) + GAP * (len(planes) + 1.6)
    wide = right - left + NAMES
    figure = Figure(figsize=(wide * PER_MM, tall * PER_MM), facecolor=palette.PAPER)
    axes = figure.add_axes((0.0, 0.0, 1.0, 1.0))
    axes.set_axis_off()
    axes.set_xlim(left - NAMES, right)
    axes.set_ylim(-GAP * 1.6, tall - GAP * 1.6)
    z = tall - GAP * 1.6
    for (d, found), height in zip(planes, heights, strict=True):
        z -= GAP + height
        for shape in found:
            xs, zs = [p[0] for p in shape.corners], [p[1] + z for p in shape.corners]
            axes.fill(xs, zs, facecolor=_colour(d, shape.stuff), edgecolor=palette.INK, linewidth=0.6)
        axes.plot((left + 4, right - 4), (z, z), color=palette.INK, linewidth=0.3)
        _name(axes, d, left, z)
    line = (0, (12, 4, 2, 4))
    axes.plot((0.0, 0.0), (-GAP * 0.5, tall - GAP * 2.2), color=palette.INK, linewidth=0.3, linestyle=line)
    axes.text(4.0, -GAP * 0.5, "cutting edge", fontsize=8, color=palette.INK)
    _scale(axes, left)
    FigureCanvasAgg(figure)
    figure.savefig(file, dpi=110, metadata=NO_CLOCK[file.suffix.lower()])


def _name(axes: Axes, d: Design, left: float, z: float) -> None:
    spec, units = d.spec, d.spec.units
    axes.text(left - NAMES + 12, z + 27, spec.plane.name, fontsize=12, color=palette.INK)
    told = f"{said(d.body.length, units)}, blade {said(d.blade.width, units)}"
    axes.text(left - NAMES + 12, z + 14, told, fontsize=8, color=palette.INK)
    axes.text(left - NAMES + 12, z + 4, f"{spec.plane.kind}, bed {spec.bed.angle:g} deg", fontsize=8, color=palette.INK)


def _scale(axes: Axes, left: float) -> None:
    x0 = left - NAMES + 12
    for i, (long, label) in enumerate(SCALE_BARS):
        z = -GAP * 0.7 - 9.0 * i
        axes.plot((x0, x0 + long), (z, z), color=palette.INK, linewidth=1.0)
        for x in (x0, x0 + long / 2, x0 + long):
            axes.plot((x, x), (z - 1.5, z + 1.5), color=palette.INK, linewidth=0.8)
        axes.text(x0 + long + 4, z - 2.5, label, fontsize=8, color=palette.INK)
