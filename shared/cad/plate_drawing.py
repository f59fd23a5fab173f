"""A match plate's 1:1 drawing, seen from the cope: what stands on the plate by the outline of its foot, layer by layer.

The outlines are those of the solids, so drawing and model cannot differ.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import cadquery as cq
import numpy as np

from shared.both_units import length
from shared.cad.cast_solid import NEAR, Points, outlines
from shared.cad.match_plate import BUSH_WALL, DRAFT, RISER_DRAFT
from shared.cad.step import NamedSolid
from shared.casting.match_plate import MatchPlate
from shared.drawing.dxf import scale_bars
from shared.drawing.primitives import Line, Note, Primitive, sort_key
from shared.drawing.refit import fit
from shared.drawing.sheet import Layer, Sheet
from shared.segments import Arc

LAYERS = {
    "COPE": Layer(7, "CONTINUOUS", 50, "foot of the cope's impressions"),
    "DRAG": Layer(5, "HIDDEN", 35, "foot of the drag's impressions, seen through the plate"),
    "GATING": Layer(3, "CONTINUOUS", 35, "runner, ingates, necks, sprue base; what hangs in the drag is named so"),
    "RISER": Layer(1, "CONTINUOUS", 35, "feet of the risers"),
    "FLASK": Layer(8, "HIDDEN", 25, "inside of the flask"),
}
SMALL, TEXT, LARGE = 2.5, 3.5, 5.0  # capital heights [mm]
ROW = 6.0  # mm from one line of text to the next
CROSS = 6.0  # mm that a centre line stands out of its circle


def layer_of(name: str) -> str:
    """Return the layer on which a solid of the plate is drawn."""
    if name in ("match plate", "pin bush"):
        return "OUTLINE"
    for word, layer in (("cope impression", "COPE"), ("drag impression", "DRAG"), ("riser pad", "RISER")):
        if word in name:
            return layer
    return "GATING"


def feet(solid: cq.Solid, thickness: float) -> list[cq.Face]:
    """Return the plane faces with which a solid stands on the plate (z = 0) or hangs from it (z = −thickness) [mm]."""
    flat = [f for f in solid.Faces() if f.geomType() == "PLANE" and abs(f.normalAt().z) > 1 - 1e-9]
    return [f for f in flat if min(abs(f.Center().z), abs(f.Center().z + thickness)) < NEAR]


def foot_outline(part: NamedSolid, thickness: float) -> list[Primitive]:
    """Return the outline of a solid's foot in each of its places, as lines, arcs and (rarely) curves [mm]."""
    loops = outlines([f for f in feet(part.solid, thickness) if part.name != "match plate" or f.Center().z > -NEAR])
    found: list[Primitive] = []
    for place in part.placements:
        for loop in loops:
            made = (fit(_placed(samples, place)) for samples in loop)
            found += [p for p in made if p is not None]
    return sorted(found, key=sort_key)


def _placed(samples: Points, place: cq.Location) -> Points:
    t = place.wrapped.Transformation()
    turn = np.array([[t.Value(r, c) for c in (1, 2)] for r in (1, 2)])
    return samples @ turn.T + np.array([t.Value(1, 4), t.Value(2, 4)])


def write_plate(path: Path, layout: MatchPlate, solids: Sequence[NamedSolid], thickness: float,
                title: Sequence[str], first: str = "mm", verify: bool = False) -> None:  # fmt: skip
    """Write the drawing (DXF, mm, 1:1) with scale bars and a table of what stands on the plate.

    Args:
        path: file to write.
        layout: the plate.
        solids: of the plate, by `plate_solids`.
        thickness: of the plate [mm].
        title: lines of text below it, the first larger.
        first: unit that stands first, "mm" or "inch".
        verify: read the file back and audit it.

    Raises:
        GeometryError: `verify` found the file not clean.
    """
    sheet = Sheet()
    for name, layer in LAYERS.items():
        made = sheet.doc.layers.add(name, color=layer.colour, linetype=layer.linetype, lineweight=layer.weight)
        made.description = layer.meaning
    for part in solids:
        sheet.draw(foot_outline(part, thickness), layer_of(part.name))
    sprue = layout.sprue
    sheet.draw([Arc((sprue.x, sprue.y), d / 2, 0.0, 360.0) for d in _sprue_diameters(layout)], "GATING")
    sheet.draw(_flask(layout), "FLASK")
    sheet.draw(_centres(layout), "CENTRE")
    sheet.draw(_labels(layout), "TEXT")
    left, low = layout.plate.bounds[0], layout.plate.bounds[1]
    sheet.draw(scale_bars((left, low - 12.0)), "SCALE")
    v = low - 35.0
    notes = []
    for i, text in enumerate([*title, *sizes(layout, thickness, first)]):
        notes.append(Note(text, (left, v), LARGE if i == 0 else TEXT))
        v -= 1.3 * ROW if i == 0 else ROW
    notes.append(Note("Scale 1:1, mm. Measure a bar before the print is used.", (left, v), SMALL))
    sheet.draw(notes, "TEXT")
    sheet.save(path, verify)


def _sprue_diameters(layout: MatchPlate) -> tuple[float, float]:
    return layout.sprue.diameter, layout.sprue.end_diameter or layout.sprue.diameter


def _flask(layout: MatchPlate) -> list[Primitive]:
    x, y = layout.flask.length / 2, layout.flask.width / 2
    corners = [(-x, -y), (x, -y), (x, y), (-x, y)]
    return [Line(a, b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)]


def _centres(layout: MatchPlate) -> list[Primitive]:
    found: list[Primitive] = []
    for c in (*layout.pins, layout.sprue, *layout.risers):
        reach = max(c.diameter, c.end_diameter or 0.0) / 2 + CROSS
        found += [Line((c.x - reach, c.y), (c.x + reach, c.y)), Line((c.x, c.y - reach), (c.x, c.y + reach))]
    return found


def _labels(layout: MatchPlate) -> list[Primitive]:
    """Return the name of each piece at its place; gating pieces beside theirs, since they are narrow."""
    found: list[Primitive] = [Note(i.name, (i.x, i.y), TEXT, align="centre") for i in layout.impressions]
    found += [Note(c.name, (c.x, c.y + SMALL), SMALL, align="centre") for c in layout.risers]
    beside = layout.runners[0].dy / 2 + 2 * SMALL
    for i in layout.ingates:
        side = 1.0 if i.y > layout.sprue.y else -1.0
        found.append(Note(i.name, (i.bounds[2] + 3.0, layout.sprue.y + side * beside), SMALL))
    found += [Note(n.name, (n.bounds[2] + 2.0, n.y), SMALL) for n in layout.necks]
    found += [Note(r.name, (r.x, r.bounds[3] + 2.0), SMALL, align="centre") for r in layout.runners]
    found.append(Note("sprue", (layout.sprue.x, layout.base.y - layout.base.diameter / 2 - 6.0), SMALL, align="centre"))
    found += [Note(p.name, (p.x, p.y - p.diameter / 2 - 14.0), SMALL, align="centre") for p in layout.pins]
    return found


def sizes(layout: MatchPlate, thickness: float, first: str) -> list[str]:
    """Return what stands on the plate, a line a kind of piece, with its sizes in both units.

    Args:
        layout: the plate.
        thickness: of the plate [mm].
        first: unit that stands first, "mm" or "inch".
    """

    def both(v: float) -> str:
        return length(v, first, (3, 2))

    s, f, p = layout.sections, layout.flask, layout.plate
    base, top = _sprue_diameters(layout)
    pin = layout.pins[0].diameter
    side = "drag" if layout.ingates[0].drag_mm else "cope"
    lines = [
        f"Plate {both(p.dx)} by {both(p.dy)}, {both(thickness)} thick; flask {f.name}, inside "
        f"{both(f.length)} by {both(f.width)}, cope {both(f.cope)}, drag {both(f.drag)}.",
        f"Pins Ø {both(pin)}, {both(layout.pins[1].x - layout.pins[0].x)} apart, in steel bushes: bore Ø {both(pin)} "
        f"H7, outside Ø {both(pin + 2 * BUSH_WALL)} p6, pressed into holes of that size, H7, flush on both faces.",
        f"Runner (cope) {both(s.runner_w)} wide at half its height, {both(s.runner_h)} high; "
        f"ingates ({side}) {both(s.ingate_w)} wide, {both(s.ingate_h)} high.",
        f"Sprue pin, loose, drawn upward: {both(base)} at the base, {both(top)} at the cope's top; "
        f"base and well {both(layout.well.diameter)} across, {both(layout.base.height_mm)} in the cope, "
        f"{both(layout.well.height_mm)} in the drag.",
    ]
    if layout.risers:
        r = layout.risers[0]
        lines.append(
            f"Risers (cope) {both(r.diameter)} across at half their height, {both(r.height_mm)} high; "
            f"necks ({side}) {both(s.neck_w)} wide, {both(s.neck_h)} high."
        )
    feeders = f", risers {RISER_DRAFT:g}°" if layout.risers else ""
    lines.append(
        f"Draft a side: runner, ingates, necks, base and well {DRAFT:g}°{feeders}; the sprue pin by its two diameters. "
        "Widths and diameters are those at half height; feet are drawn, wider by the draft."
    )
    return lines
