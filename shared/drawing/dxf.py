"""Full-size outlines as DXF: templates and tool paths at 1:1, with bars that prove the scale of a print."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from shared.drawing.primitives import Line, Note, Primitive, bounds
from shared.drawing.sheet import Sheet
from shared.profile import Profile
from shared.segments import Point
from shared.units import MM_PER_IN

BAR_MM = 100.0
BAR_IN = 4.0
_GAP = 12.0  # mm between the outline and what stands below it
_TICK = 3.0
_ROW = 5.5  # mm from one line of text to the next


def scale_bars(at: Point) -> list[Primitive]:
    """Return a bar of 100 mm with ticks each 10 mm and one of 4 in with ticks each inch, from a corner [mm] down."""
    u, v = at
    out: list[Primitive] = []
    for row, (length, steps, label) in enumerate(((BAR_MM, 10, "100 mm"), (BAR_IN * MM_PER_IN, 4, "4 in"))):
        y = v - row * 2.5 * _TICK
        out.append(Line((u, y), (u + length, y)))
        out += [Line((u + i * length / steps, y), (u + i * length / steps, y + _TICK)) for i in range(steps + 1)]
        out.append(Note(label, (u + length + 2.0, y), 2.5))
    return out


def outline_sheet(outlines: Sequence[Profile | Primitive], title: Sequence[str], *,
                  more: Mapping[str, Sequence[Profile | Primitive]] | None = None,
                  layer: str = "OUTLINE") -> Sheet:  # fmt: skip
    """Return outlines at full size, in their own coordinates, with scale bars and a block of text below them.

    Args:
        outlines: profiles or primitives [mm].
        title: lines of text, the first larger (name, revision, spec hash, material).
        more: further things by layer name (centre lines, hidden edges, notes).
        layer: layer of the outlines; "CUT" for tool paths.
    """
    sheet = Sheet()
    sheet.draw(outlines, layer)
    loose: list[Primitive] = []
    for name, items in (("", outlines), *sorted((more or {}).items())):
        if name:
            sheet.draw(items, name)
        for item in items:
            loose += item.segments if isinstance(item, Profile) else [item]
    left, low, _, _ = bounds(loose)
    bars = scale_bars((left, low - _GAP))
    sheet.draw(bars, "SCALE")
    v = low - _GAP - 2.5 * _TICK - 2 * _ROW
    notes = []
    for i, text in enumerate(title):
        notes.append(Note(text, (left, v), 5.0 if i == 0 else 3.5))
        v -= _ROW if i else 1.3 * _ROW
    notes.append(Note("Scale 1:1, mm. Measure a bar before the print is used.", (left, v), 2.5))
    sheet.draw(notes, "TEXT")
    return sheet


def write_outline(
    path: Path,
    outlines: Sequence[Profile | Primitive],
    title: Sequence[str],
    *,
    more: Mapping[str, Sequence[Profile | Primitive]] | None = None,
    layer: str = "OUTLINE",
    verify: bool = False,
) -> None:
    """Write the DXF of an `outline_sheet`; `verify` reads the file back and audits it.

    Raises:
        GeometryError: `verify` found the file not clean.
    """
    outline_sheet(outlines, title, more=more, layer=layer).save(path, verify)
