"""From marks to DXF entities: dimensions with their own blocks, symbols as blocks, filled arrowheads."""

from __future__ import annotations

from collections.abc import Iterable

from ezdxf.entities import Dimension as DxfDimension
from ezdxf.layouts import BlockLayout

from shared.drawing import marks as m
from shared.drawing.sheet import Sheet, rounded
from shared.drawing.symbols import SYMBOLS
from shared.segments import Point
from shared.units import MM_PER_IN


def put(sheet: Sheet, marks: Iterable[m.Mark], at: Point = (0.0, 0.0)) -> None:
    """Write marks on a sheet, moved by an offset [mm]."""
    for x in marks:
        if isinstance(x, m.Stroke):
            sheet.draw([x.what], x.layer, at)
        elif isinstance(x, m.Sign):
            name = _sign(sheet, x.name)
            where = rounded(x.at[0] + at[0], x.at[1] + at[1])
            size = round(x.size, 6)
            sheet.space.add_blockref(name, where, {"xscale": size, "yscale": size, "layer": "GDT"})
        else:
            _dimension(sheet, x, at)


def _sign(sheet: Sheet, name: str) -> str:
    block = "SIGN_" + name.upper().replace(" ", "_")
    if block not in sheet.doc.blocks:
        sheet.draw(SYMBOLS[name], "GDT", into=sheet.doc.blocks.new(block))
    return block


def _style(sheet: Sheet, d: m.Dimension) -> str:
    """Return the dimension style of a scale, a unit and a number of decimals; made on first use."""
    name = f"{d.unit}-{d.scale:.6g}-{d.places}".replace(".", "_").upper()
    if name not in sheet.doc.dimstyles:
        style = sheet.doc.dimstyles.duplicate_entry("SHEET", name)
        per_mm = 1 / MM_PER_IN if d.unit == "inch" else 1.0
        style.dxf.dimlfac = per_mm / d.scale
        style.dxf.dimdec = d.places
        style.dxf.dimzin = 0
        style.dxf.dimadec = d.places
    return name


def _dimension(sheet: Sheet, d: m.Dimension, at: Point) -> None:
    space, style = sheet.space, _style(sheet, d)
    pts = [rounded(p[0] + at[0], p[1] + at[1]) for p in d.points]
    layer = {"layer": "DIM"}
    if d.kind == "linear":
        made = space.add_linear_dim(pts[2], pts[0], pts[1], angle=round(d.angle, 9), text=d.text, dimstyle=style,
                                    dxfattribs=layer)  # fmt: skip
    elif d.kind == "radius":
        made = space.add_radius_dim(pts[0], mpoint=pts[1], text=d.text, dimstyle=style, dxfattribs=layer)
    elif d.kind == "diameter":
        centre = (pts[0][0] + pts[1][0]) / 2, (pts[0][1] + pts[1][1]) / 2
        made = space.add_diameter_dim(centre, mpoint=pts[1], text=d.text, dimstyle=style, dxfattribs=layer)
    else:
        made = space.add_angular_dim_3p(pts[3], pts[0], pts[1], pts[2], text=d.text, dimstyle=style, dxfattribs=layer)
    entity = made.dimension
    assert isinstance(entity, DxfDimension)
    block: BlockLayout = sheet.doc.blocks.new_anonymous_block(type_char="D")
    for s in d.strokes:
        sheet.draw([s.what], s.layer, at, into=block)
    entity.dxf.geometry = block.name
    entity.dxf.text_midpoint = (*rounded(d.text_at[0] + at[0], d.text_at[1] + at[1]), 0.0)
    entity.dxf.actual_measurement = _measured(d)


def _measured(d: m.Dimension) -> float:
    """Return the measurement in the unit that is shown: inches or mm; radians for an angle, as DXF wants it."""
    if d.kind == "angle":
        return round(d.value * 3.141592653589793 / 180.0, 12)
    return round(d.value / MM_PER_IN if d.unit == "inch" else d.value, 9)
