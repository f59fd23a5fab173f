"""A DXF drawing under way: layers by meaning, line types in paper mm, true entities, and the same bytes every time.

`Sheet.space` is the model space in mm; a dimension is added there with the dimension style `DIMSTYLE` on layer "DIM".
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import ezdxf
from ezdxf import options, units
from ezdxf.document import Drawing
from ezdxf.entities.boundary_paths import EdgePath
from ezdxf.enums import TextEntityAlignment
from ezdxf.layouts import BlockLayout, Modelspace
from ezdxf.math import global_bspline_interpolation

from shared.drawing import lettering
from shared.drawing.marks import Fill
from shared.drawing.paper import Paper
from shared.drawing.primitives import Arc, Curve, Ellipse, Hatch, Line, Primitive, Projection
from shared.errors import GeometryError
from shared.profile import Profile
from shared.segments import Point

TEXTSTYLE = "SHEET"
DIMSTYLE = "SHEET"
DECIMALS = 6  # of a mm: far below any tolerance, far above the kernel's last digits


@dataclass(frozen=True)
class Layer:
    """A layer: colour number of the DXF index, line type, pen width [1/100 mm], what stands on it."""

    colour: int
    linetype: str
    weight: int
    meaning: str


# Pen widths and dash lengths follow ISO 128-2 with line group 0.5 (thick 0.5, thin 0.25); colours are our own.
LAYERS = {
    "OUTLINE": Layer(7, "CONTINUOUS", 50, "edges seen"),
    "HIDDEN": Layer(8, "HIDDEN", 25, "edges not seen"),
    "SMOOTH": Layer(9, "CONTINUOUS", 18, "where two faces meet smoothly"),
    "CENTRE": Layer(12, "CENTRE", 25, "axes and planes of symmetry"),
    "HATCH": Layer(8, "CONTINUOUS", 25, "cut faces"),
    "DIM": Layer(5, "CONTINUOUS", 25, "dimensions"),
    "TEXT": Layer(7, "CONTINUOUS", 25, "notes"),
    "FRAME": Layer(7, "CONTINUOUS", 70, "border and title block"),
    "SECTION": Layer(7, "CONTINUOUS", 50, "ends, arrows and letters of cutting planes"),
    "PHANTOM": Layer(8, "PHANTOM", 25, "neighbouring parts and other positions"),
    "GDT": Layer(5, "CONTINUOUS", 25, "geometric tolerances, datums, surface texture"),
    "TABLE": Layer(7, "CONTINUOUS", 18, "tables"),
    "TITLE": Layer(7, "CONTINUOUS", 18, "title block and zones"),
    "SCALE": Layer(8, "CONTINUOUS", 25, "bars to check the scale of a print"),
    "CUT": Layer(1, "CONTINUOUS", 25, "tool paths at full size"),
}
_LINETYPES = {
    "HIDDEN": ("Hidden __ __ __", [3.75, 3.0, -0.75]),
    "CENTRE": ("Centre ____ . ____", [7.625, 6.0, -0.75, 0.125, -0.75]),
    "PHANTOM": ("Phantom ____ . . ____", [8.5, 6.0, -0.75, 0.125, -0.75, 0.125, -0.75]),
}
_ALIGN = {
    "left": TextEntityAlignment.LEFT,
    "centre": TextEntityAlignment.CENTER,
    "right": TextEntityAlignment.RIGHT,
}


@contextmanager
def _fixed() -> Iterator[None]:
    """Keep clock and random identifiers out of the file while ezdxf makes or writes it."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def rounded(u: float, v: float) -> tuple[float, float]:
    """Return a point [mm] rounded to what a file holds."""
    return round(u, DECIMALS) + 0.0, round(v, DECIMALS) + 0.0


def _coded(text: str) -> str:
    """Return a line of text as a DXF file writes it: no control characters, "^" and "%%" kept from being codes."""
    return lettering.clean(text).replace("^", "^ ").replace("%%", "% %")


class Sheet:
    """One DXF drawing in mm.

    Args:
        line_scale: size of dashes [-]; 1 for a sheet plotted at 1:1.
    """

    doc: Drawing
    space: Modelspace
    paper: Paper | None = None  # of a drawing sheet; none for a full-size outline
    seen: tuple[int, Any] | None = None  # how many entities there were when it was last taken apart, and the outcome

    def __init__(self, line_scale: float = 1.0) -> None:
        with _fixed():
            self.doc = ezdxf.new("R2010", units=units.MM)
        self.space = self.doc.modelspace()
        self.doc.header["$LTSCALE"] = line_scale
        self.doc.header["$MEASUREMENT"] = 1
        self.doc.header["$LWDISPLAY"] = 1
        for name, (text, pattern) in _LINETYPES.items():
            self.doc.linetypes.add(name, pattern, description=text)
        for name, layer in LAYERS.items():
            made = self.doc.layers.add(name, color=layer.colour, linetype=layer.linetype, lineweight=layer.weight)
            made.description = layer.meaning
        self.doc.styles.add(TEXTSTYLE, font=lettering.DXF_FONT).dxf.width = lettering.NARROW
        self._dimstyle()

    def _dimstyle(self) -> None:
        style = self.doc.dimstyles.new(DIMSTYLE)
        # text 3.5, arrows 3, gap 1, extension lines 1 off and 1.5 past (ISO 129-1 in spirit; common practice)
        values = {"dimtxt": 3.5, "dimasz": 3.0, "dimgap": 1.0, "dimexo": 1.0, "dimexe": 1.5, "dimtad": 1, "dimdec": 2,
                  "dimzin": 8, "dimdsep": ord("."), "dimlfac": 1.0, "dimscale": 1.0, "dimtih": 0, "dimtoh": 0,
                  "dimtxsty": TEXTSTYLE, "dimadec": 1, "dimazin": 2}  # fmt: skip
        for key, value in values.items():
            style.dxf.set(key, value)

    def draw(self, items: Iterable[Primitive | Fill | Profile], layer: str, at: Point = (0.0, 0.0), scale: float = 1.0,
             into: BlockLayout | None = None) -> None:  # fmt: skip
        """Draw primitives or whole outlines on a layer.

        Args:
            items: what to draw, in model mm.
            layer: a name of `LAYERS`.
            at: where the items' origin goes on the sheet [mm].
            scale: sheet mm per model mm [-]; notes keep their height.
            into: a block to draw in, instead of the model space.
        """
        for item in items:
            if isinstance(item, Profile):
                self.draw(item.segments, layer, at, scale, into)
            else:
                self._one(item, {"layer": layer}, at, scale, self.space if into is None else into)

    def place(self, view: Projection, at: Point = (0.0, 0.0), scale: float = 1.0) -> None:
        """Draw a projection, its kinds of line on their layers: origin on the sheet [mm], scale [-]."""
        self.draw(view.smooth, "SMOOTH", at, scale)
        self.draw(view.hidden, "HIDDEN", at, scale)
        self.draw(view.visible, "OUTLINE", at, scale)

    def _one(self, p: Primitive | Fill, attribs: dict[str, str], at: Point, k: float,
             space: Modelspace | BlockLayout) -> None:  # fmt: skip
        def put(q: Point) -> Point:
            return rounded(at[0] + k * q[0], at[1] + k * q[1])

        if isinstance(p, Line):
            space.add_line(put(p.start), put(p.end), dxfattribs=attribs)
        elif isinstance(p, Arc):
            centre, radius = put(p.centre), round(k * p.radius, DECIMALS)
            if p.full:
                space.add_circle(centre, radius, dxfattribs=attribs)
            else:
                a, b = (p.start_angle, p.end_angle) if p.sweep > 0 else (p.end_angle, p.start_angle)
                first, last = rounded(a % 360.0, b % 360.0)
                space.add_arc(centre, radius, first, last, dxfattribs=attribs)
        elif isinstance(p, Ellipse):
            major = (*rounded(k * p.major[0], k * p.major[1]), 0.0)
            # angles in radians: nine digits hold a micron on a metre
            a, b = round(math.radians(p.start_param), 9), round(math.radians(p.end_param), 9)
            space.add_ellipse(put(p.centre), major, round(p.ratio, 9), a, b, dxfattribs=attribs)
        elif isinstance(p, Curve):
            # control points, since not every reader draws a spline that has fit points only
            spline = global_bspline_interpolation([put(q) for q in p.through])
            space.add_spline(dxfattribs=attribs).apply_construction_tool(spline)
        elif isinstance(p, Hatch):
            self._hatch(p, attribs, at, k, space)
        elif isinstance(p, Fill):
            # DXF wants the third and fourth corner crossed over
            order = (*p.corners[:2], *reversed(p.corners[2:]))
            space.add_solid([put(q) for q in order], dxfattribs=attribs)
        else:
            text = space.add_text(_coded(p.text), height=round(p.height, DECIMALS), rotation=round(p.angle, DECIMALS),
                                  dxfattribs={**attribs, "style": TEXTSTYLE, "width": lettering.NARROW})  # fmt: skip
            text.set_placement(put(p.at), align=_ALIGN[p.align])

    def _hatch(self, p: Hatch, attribs: dict[str, str], at: Point, k: float,
               space: Modelspace | BlockLayout) -> None:  # fmt: skip
        hatch = space.add_hatch(dxfattribs=attribs)
        turn = math.radians(p.angle)
        step = rounded(-p.spacing * math.sin(turn), p.spacing * math.cos(turn))
        hatch.set_pattern_fill("SECTION", definition=[[p.angle, (0.0, 0.0), step, []]])
        for i, loop in enumerate((p.outer, *p.holes)):
            path = hatch.paths.add_edge_path(flags=1 if i == 0 else 16)
            assert isinstance(path, EdgePath)
            for s in loop.scaled(k).moved(*at):
                if isinstance(s, Line):
                    path.add_line(rounded(*s.start), rounded(*s.end))
                else:
                    a, b = (s.start_angle, s.end_angle) if s.sweep > 0 else (s.end_angle, s.start_angle)
                    a, b = rounded(a, b)
                    path.add_arc(rounded(*s.centre), round(s.radius, DECIMALS), a, b, ccw=s.sweep > 0)

    def save(self, path: Path, verify: bool = False) -> None:
        """Write the DXF file.

        Args:
            path: file to write.
            verify: read it back, audit it and count its entities.

        Raises:
            GeometryError: the file read back is not clean.
        """
        with _fixed():
            # the class table otherwise follows a set, whose order changes from run to run
            for name in sorted(self.doc.entitydb.dxf_types_in_use()):
                self.doc.classes.add_class(name)
            self.doc.saveas(path)
        if verify:
            audit(path, len(self.space))


def audit(path: Path, entities: int | None = None) -> None:
    """Read a DXF file back and check it.

    Args:
        path: the file.
        entities: how many entities its model space must have [-]; None does not count.

    Raises:
        GeometryError: an error or a repair in the audit, or another number of entities.
    """
    doc = ezdxf.readfile(path)
    report = doc.audit()
    faults = [*report.errors, *report.fixes]
    if faults:
        raise GeometryError(path.stem, "check DXF", faults[0].message, faults=len(faults))
    found = len(doc.modelspace())
    if entities is not None and found != entities:
        raise GeometryError(path.stem, "check DXF", "another number of entities came back", wrote=entities, read=found)
