"""The title block, with the fields of ISO 7200. Paper mm.

The block is 180 mm wide, as ISO 7200 asks, and stands in the lower right corner of the drawing space.
"""

from __future__ import annotations

from dataclasses import dataclass

from shared.drawing import lettering
from shared.drawing.marks import Mark, Piece, Sign, Stroke, rectangle
from shared.drawing.merge import tidy
from shared.drawing.primitives import Line, Note
from shared.units import G_PER_LB

WIDTH = 180.0
CAPTION = 1.8


@dataclass(frozen=True)
class Title:
    """What the title block says. An empty field stays free to be filled in by hand.

    ISO 7200: owner, title, number, revision, date, sheet/sheets, kind (document type), creator, approver. Besides:
    material, mass [kg], finish (class), tolerance (general tolerances), spec_hash, texture (general surface texture).
    """

    owner: str
    title: str
    number: str
    revision: str
    kind: str = "Part drawing"
    date: str = ""
    sheet: int = 1
    sheets: int = 1
    creator: str = ""
    approver: str = ""
    material: str = ""
    mass_kg: float | None = None
    finish: str = ""
    tolerance: str = ""
    texture: str = ""
    spec_hash: str = ""
    subtitle: str = ""
    page: int = 0  # of the sheet's own pages, where a sheet of a set has more than one


def mass_text(mass_kg: float | None, unit: str) -> str:
    """Return a mass [kg] in both units, the spec's own first."""
    if mass_kg is None:
        return ""
    lb = mass_kg * 1000.0 / G_PER_LB
    metric = f"{mass_kg:.3f} kg" if mass_kg >= 0.1 else f"{mass_kg * 1000:.1f} g"
    inch = f"{lb:.3f} lb" if lb >= 0.1 else f"{lb * 16:.2f} oz"
    return f"{inch} [{metric}]" if unit == "inch" else f"{metric} [{inch}]"


def _fit(text: str, room: float, heights: tuple[float, ...], lines: int) -> tuple[list[str], float]:
    """Return a text wrapped at the largest height at which it takes no more than some lines."""
    for h in heights:
        rows = lettering.wrap(text, h, room)
        if len(rows) <= lines:
            return rows, h
    h = heights[-1]
    return lettering.wrap(text, h, room), h


def _sheet_text(t: Title) -> str:
    """Return "7/20", or "7.2/20" for the second page of sheet 7."""
    return f"{t.sheet}.{t.page}/{t.sheets}" if t.page else f"{t.sheet}/{t.sheets}"


def overlong(title: Title) -> list[str]:
    """Return the fields that do not fit their cells: they are written out in a note as well."""
    out = []
    for name, text, room, heights, lines in _cells(title, "", "inch"):
        if len(_fit(text, room, heights, lines)[0]) > lines:
            out.append(f"{name} in full: {lettering.clean(text)}")
    return out


_SMALL = (2.5, 2.0, 1.8)


def _cells(t: Title, scale: str, unit: str) -> list[tuple[str, str, float, tuple[float, ...], int]]:
    """Return name, text, width [mm], heights to try [mm] and lines of each field that may run long."""
    return [
        ("Owner", t.owner, 56.0, (3.5, 3.0, 2.5, 2.0), 2),
        ("Title", t.title, 76.0, (5.0, 4.2, 3.5, 2.8), 2),
        ("Subtitle", t.subtitle, 76.0, (2.5, 2.0), 1),
        ("Material", t.material, 68.0, _SMALL, 2),
        ("Finish", t.finish, 48.0, _SMALL, 2),
        ("General tolerances", t.tolerance, 86.0, _SMALL, 2),
        ("Surface texture unless stated", t.texture, 56.0, _SMALL, 2),
        ("Document number", t.number, 40.0, (3.5, 3.0, 2.5, 2.0, 1.8), 1),
        ("Document type", t.kind, 56.0, _SMALL, 1),
        ("Created by", t.creator, 27.0, _SMALL, 2),
        ("Approved by", t.approver, 26.0, _SMALL, 2),
    ]


def block(t: Title, scale: str, unit: str, paper: str) -> Piece:
    """Return the title block with its lower left corner at the origin.

    Args:
        t: what it says.
        scale: main scale, such as "1:2".
        unit: the unit that stands first, "inch" or "mm".
        paper: size of the sheet.
    """
    fields = {name: (text, room, heights, lines) for name, text, room, heights, lines in _cells(t, scale, unit)}
    marks: list[Mark] = []

    def cell(u: float, v: float, w: float, h: float, caption: str, text: str | None = None,
             heights: tuple[float, ...] = _SMALL, lines: int = 1) -> None:  # fmt: skip
        marks.extend(rectangle(u, v, u + w, v + h, "TITLE"))
        marks.append(Stroke("TITLE", Note(caption, (u + 1.2, v + h - CAPTION - 0.9), CAPTION)))
        if caption in fields and text is None:
            text, _, heights, lines = fields[caption]
        if not text:
            return
        rows, size = _fit(text, w - 3.0, heights, lines)
        if len(rows) > lines:
            rows = [*rows[:lines]]
            while rows[-1] and lettering.width(rows[-1] + " …", size) > w - 3.0:
                rows[-1] = rows[-1][:-1]
            rows[-1] += " …"
        step = size * 1.4
        room = h - CAPTION - 1.6
        low = v + (room - (len(rows) - 1) * step - size) / 2 + 0.2
        for i, row in enumerate(reversed(rows)):
            marks.append(Stroke("TITLE", Note(row, (u + 1.5, low + i * step), size)))

    tall = 53.0
    # left column: what the part is made of and to what limits
    cell(0, 42, 71, 11, "Material")
    cell(71, 42, 51, 11, "Finish")
    cell(122, 42, 58, 11, "Mass", mass_text(t.mass_kg, unit), (2.5, 2.0))
    cell(0, 31, 122, 11, "General tolerances")
    cell(122, 31, 58, 11, "Surface texture unless stated")
    # who answers for it
    cell(0, 20.5, 59, 10.5, "Owner")
    cell(0, 10, 30, 10.5, "Created by")
    cell(30, 10, 29, 10.5, "Approved by")
    cell(0, 0, 30, 10, "Date of issue", t.date)
    cell(30, 0, 29, 10, "Spec", t.spec_hash, (2.5, 2.2, 1.8, 1.4))
    # what it is
    marks += rectangle(59, 10, 138, 31, "TITLE")
    marks.append(Stroke("TITLE", Note("Title", (60.2, 31 - CAPTION - 0.9), CAPTION)))
    rows, size = _fit(t.title, 76.0, (5.0, 4.2, 3.5, 2.8), 2)
    if len(rows) > 2:
        rows = [rows[0], rows[1][:-2] + " …"]
    foot = 15.0 if t.subtitle else 11.0
    v = (31 - CAPTION - 1.0 + foot + (len(rows) - 1) * 1.35 * size - size) / 2
    for row in rows:
        marks.append(Stroke("TITLE", Note(row, (60.5, v), size)))
        v -= 1.35 * size
    if t.subtitle:
        more, h = _fit(t.subtitle, 76.0, (2.5, 2.0), 1)
        text = more[0] if len(more) == 1 else more[0][:-2] + " …"
        marks.append(Stroke("TITLE", Note(text, (60.5, 11.6), h)))
    cell(59, 0, 36, 10, "Document type")
    cell(95, 0, 21, 10, "Scale", scale, (3.5, 2.5))
    first = "inch [mm]" if unit == "inch" else "mm [inch]"
    cell(116, 0, 22, 10, "Units", first)
    cell(138, 20.5, 42, 10.5, "Document number")
    cell(138, 10, 14, 10.5, "Revision", t.revision, (3.5, 2.5, 1.8))
    cell(152, 10, 14, 10.5, "Sheet", _sheet_text(t), (3.5, 2.5, 1.8))
    cell(166, 10, 14, 10.5, "Size", paper, (3.5, 2.5))
    marks += rectangle(138, 0, 180, 10, "TITLE")
    marks.append(Stroke("TITLE", Note("Third-angle projection", (139.2, 10 - CAPTION - 0.9), CAPTION)))
    marks.append(Sign("third angle", (153.5, 1.2), 4.8))
    ruled = [x.what for x in marks if isinstance(x, Stroke) and isinstance(x.what, Line)]
    rest = [x for x in marks if not (isinstance(x, Stroke) and isinstance(x.what, Line))]
    # cells share their borders, which are drawn once
    marks = [*(Stroke("TITLE", line) for line in tidy(ruled) if isinstance(line, Line)), *rest]
    marks += rectangle(0, 0, WIDTH, tall, "FRAME")
    return Piece(marks, (0.0, 0.0, WIDTH, tall))
