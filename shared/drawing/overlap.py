"""What stands on what: every text, frame and view of a laid-out sheet against every other, and against its frame.

Read from the DXF entities as they will be seen, not from what the layout meant to do. Paper mm.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from shared.drawing.compose import Layout
from shared.drawing.ink import Area, Path, Words, ink
from shared.drawing.marks import Box, note_box
from shared.drawing.primitives import Note
from shared.drawing.sheet import Sheet
from shared.errors import GeometryError

if TYPE_CHECKING:
    from shared.drawing.plan import SheetPlan

SHRINK = 0.12  # mm: boxes may touch by the width of a pen
OUTSIDE = {"FRAME", "TITLE"}  # layers that stand outside the drawing space, too


def text_box(x: Words) -> Box:
    """Return the rectangle of a text [mm]."""
    return note_box(Note(x.text, x.at, x.height, x.angle, {0.0: "left", 0.5: "centre", 1.0: "right"}[x.share]))


def faults(layout: Layout) -> list[str]:
    """Return every overlap, and everything that runs off the drawing space, in words; an empty list when clean."""
    out: list[str] = []
    for n, (page, sheet) in enumerate(zip(layout.pages, layout.sheets, strict=True), 1):
        where = f"sheet {n}: "
        named = [(f"view {v.arranged.view.name}", v.rect) for v in page.views]
        named += [(b.name, b.rect) for b in page.blocks]
        for i, (name, a) in enumerate(named):
            out += [f"{where}{name} overlaps {other}" for other, b in named[i + 1 :] if _meet(a, b)]
            if not _within(a, layout.paper.frame):
                out.append(f"{where}{name} runs off the frame")
        out += [where + f for f in ink_faults(sheet)]
    return out


def ink_faults(sheet: Sheet) -> list[str]:
    """Return texts of a drawing that stand on another text, on a line or off the frame."""
    import shapely

    things = ink(sheet)
    texts = [x for x in things if isinstance(x, Words) and x.text.strip()]
    boxes = [text_box(x) for x in texts]
    shapes = np.array([shapely.Polygon(b.corners()).buffer(-SHRINK) for b in boxes])
    out: list[str] = []
    tree = shapely.STRtree(shapes)
    for i, j in tree.query(shapes, "intersects").T:
        if i < j:
            out.append(f"text {texts[i].text!r} overlaps text {texts[j].text!r}")
    lines, layers = [], []
    for x in things:
        if isinstance(x, Path):
            lines.append(shapely.LineString(x.points()))
            layers.append(x.layer)
        elif isinstance(x, Area):
            lines.append(shapely.Polygon(x.corners))
            layers.append(x.layer)
    for i, j in tree.query(np.array(lines, dtype=object), "intersects").T:
        out.append(f"text {texts[j].text!r} is crossed by a line of layer {layers[i]}")
    if sheet.paper is not None:
        u0, v0, u1, v1 = sheet.paper.frame
        room: Any = shapely.box(u0 - 0.01, v0 - 0.01, u1 + 0.01, v1 + 0.01)
        for shape, layer in [*zip(shapes, (t.layer for t in texts), strict=True), *zip(lines, layers, strict=True)]:
            if layer not in OUTSIDE and not room.contains(shape):
                out.append(f"something of layer {layer} runs off the frame")
    return sorted(set(out))


def _meet(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    return a[0] < b[2] - SHRINK and a[2] > b[0] + SHRINK and a[1] < b[3] - SHRINK and a[3] > b[1] + SHRINK


def _within(a: tuple[float, float, float, float], frame: tuple[float, float, float, float]) -> bool:
    return a[0] >= frame[0] - 0.01 and a[1] >= frame[1] - 0.01 and a[2] <= frame[2] + 0.01 and a[3] <= frame[3] + 0.01


def assert_clean(plan: SheetPlan) -> None:
    """Lay a sheet out and make sure that nothing overlaps and nothing runs off.

    Raises:
        GeometryError: something does; the first few faults are in the message.
    """
    found = faults(plan.layout())
    if found:
        raise GeometryError("sheet", f"layout of {plan.title.title}", "; ".join(found[:8]), faults=len(found))
