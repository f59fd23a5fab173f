"""The book's 3-D view and its list of parts."""

from __future__ import annotations

import base64
from urllib.parse import quote

from shared.book.content import FINISHED, Book, PartLine, Shape, Vector
from shared.book.html import Child, Markup, join, tag
from shared.units import to_inch

VIEWS = (("three-quarter", "Three-quarter"), ("side", "Side"), ("front", "Front"), ("top", "Top"), ("sole", "Sole"))
NO_VIEW = (
    "The 3-D view needs JavaScript and WebGL 2, which this browser does not offer; the pictures show the same plane."
)
KEYS = (
    ("drag, or arrow keys", "turn"),
    ("two fingers, right button, or Shift with arrow keys", "move"),
    ("pinch, wheel once the view is clicked, or + and −", "nearer and farther"),
    ("click or tap a part", "its name; Delete hides it"),
    ("1 to 5", "the five views"),
    ("0", "as at the start"),
)
# after number and name: what stands beside a cell where the table is narrow, and the column's heading where it is wide
PART_CELLS = {"quantity": "quantity", "material": "material", "size": "size over all, longest first",
              "mass each": "mass each", "models": "models", "sheet": "sheet, or bought"}  # fmt: skip
FIGURES = ("size", "mass each")
EMPTY = tag("td", class_="none")


def data_uri(data: bytes, media: str) -> str:
    """Return bytes as an address that needs no file."""
    return f"data:{media};base64,{base64.b64encode(data).decode('ascii')}"


def _swatch(colour: Vector) -> Markup:
    fill = "#" + "".join(f"{round(255 * c):02x}" for c in colour)
    dot = tag("circle", cx="7", cy="7", r="6", fill=fill)
    return tag("svg", dot, class_="swatch", width="14", height="14", viewBox="0 0 14 14", aria_hidden="true")


def _groups(book: Book) -> dict[str, list[tuple[int, Shape]]]:
    found: dict[str, list[tuple[int, Shape]]] = {}
    for i, s in enumerate(book.shapes):
        found.setdefault(s.group, []).append((i, s))
    return found


def stages_of(book: Book) -> list[str]:
    """Return the stages that any part goes through, finished first."""
    return list(dict.fromkeys([FINISHED, *(stage for s in book.shapes for stage in s.stages)]))


def _switches(book: Book) -> Markup:
    items = []
    for group, shapes in _groups(book).items():
        rows = []
        for i, s in shapes:
            box = tag("input", type="checkbox", checked=True, data_part=i)
            number = tag("small", s.number) if s.number else None
            rows.append(tag("li", tag("label", box, _swatch(s.colour), tag("span", s.name), number)))
        title = group.replace("_", " ")
        if len(rows) == 1 and shapes[0][1].name == title:
            items.append(join(rows))
            continue
        whole = tag("label", tag("input", type="checkbox", checked=True, data_group=group), tag("b", title))
        items.append(tag("li", whole, tag("ul", rows)))
    every = tag("button", "Show all", type="button", data_all="show")
    none = tag("button", "Hide all", type="button", data_all="hide")
    return tag(
        "fieldset",
        tag("legend", "Parts shown"),
        tag("div", every, none, class_="row"),
        tag("ul", items, class_="switches"),
    )


def _controls(book: Book) -> Markup:
    looks = [tag("button", label, type="button", data_view=name) for name, label in VIEWS]
    zoom = [
        tag("button", "+", type="button", data_zoom="in", aria_label="nearer"),
        tag("button", "−", type="button", data_zoom="out", aria_label="farther"),
        tag("button", "Reset", type="button", data_view="reset"),
    ]
    stages = [
        tag(
            "label",
            tag("input", type="radio", name="stage", value=s, checked=s == FINISHED),
            tag("span", s),
        )
        for s in stages_of(book)
    ]
    slider = tag("input", type="range", id="apart", min=0, max=100, step=1, value=0)
    staged = tag("fieldset", tag("legend", "Stage"), tag("div", stages, class_="row"), class_="stages")
    return tag(
        "div",
        tag("fieldset", tag("legend", "Look from"), tag("div", looks, class_="row")),
        tag("fieldset", tag("legend", "Distance"), tag("div", zoom, class_="row")),
        staged if len(stages) > 1 else None,
        tag("div", tag("label", "Taken apart", for_="apart"), slider, class_="slide"),
        class_="controls",
    )


def view_section(book: Book, packed: tuple[str, str]) -> Markup:
    """Return the 3-D view.

    Args:
        book: what it holds.
        packed: shapes and surfaces, from `pack_shapes`.
    """
    keys = [join(tag("dt", key), tag("dd", what)) for key, what in KEYS]
    help_ = tag("details", tag("summary", "Keys, mouse and touch"), tag("dl", keys, class_="keys"), class_="help")
    canvas = tag(
        "canvas",
        id="canvas",
        tabindex=0,
        role="application",
        aria_label=f"3-D view of {book.name}",
        aria_describedby="view-keys",
    )
    stage = tag("div", canvas, class_="stage")
    said = tag("p", id="said", class_="said", role="status")
    viewer = tag(
        "div",
        tag("div", stage, said, _controls(book), class_="left"),
        tag("div", _switches(book), class_="right"),
        id="viewer",
        class_="viewer",
        hidden=True,
    )
    shapes, surfaces = packed
    return join(
        tag("p", NO_VIEW, id="no-view"),
        viewer,
        tag("div", help_, id="view-keys", hidden=True),
        tag("p", "The 3-D view is in the file; on paper the picture at the front stands for it.", class_="on-paper"),
        tag("script", Markup(shapes.replace("<", "\\u003c")), type="application/json", id="shapes"),
        tag("script", Markup(surfaces), type="text/plain", id="surfaces"),
    )


def _size(size: Vector, units: str) -> Markup:
    mm = " × ".join(f"{v:.1f}" for v in size) + " mm"
    inch = " × ".join(f"{to_inch(v):.2f}" for v in size) + " in"
    first, other = (inch, mm) if units == "inch" else (mm, inch)
    return join(first, tag("small", other))


def _mass(text: str) -> Markup | None:
    """Return a mass in both units, the second, in square brackets, on a line of its own."""
    first, _, other = text.partition(" [")
    return join(first, tag("small", other.rstrip("]")) if other else None) if first else None


def _part_row(line: PartLine, units: str) -> Markup:
    name = tag("th", _swatch(line.colour) if line.colour else None, " ", line.name, scope="row")
    said: tuple[Child, ...] = (
        line.quantity,
        line.material,
        _size(line.size, units) if line.size else None,
        _mass(line.mass),
        ", ".join(line.stages),
        tag("a", line.where, href=quote(line.sheet)) if line.sheet else line.where,
    )
    cells = [
        tag("td", words, data_label=label, class_="figure" if label in FIGURES else None) if words else EMPTY
        for label, words in zip(PART_CELLS, said, strict=True)
    ]
    return tag("tr", tag("td", line.number, class_="count"), name, cells, class_="inner" if line.inner else None)


def parts_table(book: Book) -> Markup:
    """Return the parts list, numbered as the plane's drawings number it."""
    head = tag("tr", [tag("th", h, scope="col") for h in ("no.", "part", *PART_CELLS.values())])
    total = tag("td", _mass(book.mass), class_="figure", data_label="mass")
    foot = tag("tr", EMPTY, tag("th", "all", scope="row"), EMPTY, EMPTY, EMPTY, total, EMPTY, EMPTY)
    rows = [_part_row(line, book.units) for line in book.parts]
    table = tag("table", tag("thead", head), tag("tbody", rows), tag("tfoot", foot), class_="parts stacks")
    note = tag("p", book.parts_note) if book.parts_note else None
    return join(note, tag("div", table, class_="wide", tabindex=0, role="region", aria_label="parts list"))
