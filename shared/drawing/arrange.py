"""A view at one scale with every annotation in its place. Paper mm about the view's own origin."""

from __future__ import annotations

from dataclasses import dataclass

from shared.drawing import marks as m
from shared.drawing import rows
from shared.drawing.annotations import Angular, Balloon, Datum, DetailMark, Leader, Linear, Round, SectionMark
from shared.drawing.canvas import Canvas
from shared.drawing.floats import balloon, datum, leader
from shared.drawing.grid import Grid
from shared.drawing.measures import aligned, angular, round_one
from shared.drawing.primitives import Arc, Line, Note
from shared.drawing.view import View
from shared.errors import GeometryError
from shared.segments import polar

ROOM = 160.0  # mm round a view in which annotations may be placed
LABEL = 3.5
TIP = 0.8  # mm kept free round the point of a leader
Rect = tuple[float, float, float, float]


@dataclass(frozen=True)
class Arranged:
    """A view ready to be put on a sheet: scale [-], marks and their extent [mm] about the view's origin."""

    view: View
    k: float
    marks: tuple[m.Mark, ...]
    rect: Rect
    core: Rect  # the view alone


def arrange(view: View, k: float) -> Arranged:
    """Place every annotation of a view at a scale k [-].

    Raises:
        GeometryError: the view is empty, or an annotation has no place.
    """
    u0, v0, u1, v1 = (k * x for x in view.bounds)
    base = (u0, v0, u1, v1)
    grid = Grid((u0 - ROOM, v0 - ROOM, u1 + ROOM, v1 + ROOM))
    for _, items in view.layers:
        grid.draw(items, k)
    canvas = Canvas(k, view.unit, grid, base)
    for t in (i for _, items in view.layers for i in items if isinstance(i, Note)):
        canvas.own(Note(t.text, (k * t.at[0], k * t.at[1]), t.height, t.angle, t.align))
    for n in view.notes:
        if isinstance(n, SectionMark):
            canvas.add(section_mark(n, k))
        elif isinstance(n, DetailMark):
            canvas.add(detail_mark(n, k))
        elif isinstance(n, Leader | Balloon):
            # no text may cover what another points at
            u, v = k * n.point[0], k * n.point[1]
            grid.box(m.Box((u - TIP, v - TIP), 2 * TIP, 2 * TIP), text=False)
    outer = canvas.rect
    for n in view.notes:
        if isinstance(n, Datum):
            canvas.frame(datum(n, canvas, base))
    _near(view, canvas)
    _sides(view, canvas, outer)
    for n in view.notes:
        if isinstance(n, Round):
            canvas.add(round_one(n, canvas, canvas.rect))
        elif isinstance(n, Leader):
            canvas.add(leader(n, canvas, canvas.rect))
    for n in view.notes:
        if isinstance(n, Balloon):
            canvas.add(balloon(n, canvas, canvas.rect))
    rect = canvas.rect
    if view.label:
        text = f"{view.label} ({view.scale})" if view.scale else view.label
        note = Note(text, ((u0 + u1) / 2, rect[1] - 3.0 - LABEL), LABEL, 0.0, "centre")
        canvas.add([m.Stroke("TEXT", note)])
        rect = canvas.rect
    return Arranged(view, k, tuple(canvas.marks), rect, base)


def _near(view: View, canvas: Canvas) -> None:
    """Place what belongs close to the lines it measures, before the rows outside."""
    for n in view.notes:
        if isinstance(n, Linear) and n.at is not None and n.way != "aligned":
            at = canvas.k * n.at
            axes = rows.Axes("above", at) if n.way == "h" else rows.Axes("left", at)
            p = rows.place_inside(n, axes, 0.0, canvas)
            if p is None:
                raise GeometryError("sheet", f"dimension inside view {view.name}", "there is no free place near it",
                                    value=n.value)  # fmt: skip
            canvas.add([rows.drawn(p, axes, canvas)])
    for n in view.notes:
        if isinstance(n, Angular):
            canvas.add([angular(n, canvas)])
    for n in view.notes:
        if isinstance(n, Linear) and n.way == "aligned":
            canvas.add([aligned(n, canvas)])


def _sides(view: View, canvas: Canvas, outer: Rect) -> None:
    edges = {"above": outer[3], "below": outer[1], "left": outer[0], "right": outer[2]}
    placed = []
    for name, edge in edges.items():
        axes = rows.Axes(name, edge)
        dims = [n for n in view.notes if isinstance(n, Linear) and n.side == name and n.at is None]
        placed += [(p, axes) for p in rows.place_side(dims, axes, canvas)]
    for p, axes in placed:
        canvas.add([rows.drawn(p, axes, canvas)])


def section_mark(n: SectionMark, k: float) -> list[m.Mark]:
    """Return a cutting plane: thin chain line, thick ends, arrows and letters."""
    a, b = (k * n.a[0], k * n.a[1]), (k * n.b[0], k * n.b[1])
    way = m.heading(a, b)
    out: list[m.Mark] = [m.Stroke("CENTRE", Line(a, b))]
    for end, along in ((a, way), (b, way + 180.0)):
        out.append(m.Stroke("SECTION", Line(end, polar(end, 5.0, along))))
        tail = polar(end, 0.0, way)
        tip = polar(tail, 7.0, n.look)
        out += [m.Stroke("DIM", Line(tail, tip)), m.arrow(tip, n.look, "SECTION", 3.5)]
        letter = polar(polar(end, 4.8, along + 180.0), 3.5, n.look)
        out.append(m.Stroke("SECTION", Note(n.letter, (letter[0], letter[1] - 2.5), 5.0, 0.0, "centre")))
    return out


def detail_mark(n: DetailMark, k: float) -> list[m.Mark]:
    """Return the thin circle about a detail with its letter outside."""
    centre, r = (k * n.centre[0], k * n.centre[1]), k * n.radius
    at = polar(centre, r + 1.5, n.toward)
    align = "right" if 90.0 < n.toward < 270.0 else "left"
    return [m.Stroke("DIM", Arc(centre, r, 0.0, 360.0)), m.Stroke("TEXT", Note(n.letter, at, 5.0, align=align))]
