"""What a book holds, as plain data: whoever makes one fills this in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from shared.book.wording import Wording
from shared.findings import Finding
from shared.numbers import Numbers
from shared.surface import Surface

Vector = tuple[float, float, float]
FINISHED = "finished"  # the stage that every solid has


@dataclass(frozen=True)
class Fact:
    """One of the few numbers that stand at the front; `key` is PART.NUMBER of its full entry, "" for none."""

    label: str
    value: str
    key: str = ""


@dataclass(frozen=True)
class Picture:
    """A picture file's bytes; `path` is relative to the book."""

    title: str
    data: bytes
    path: str
    media: str = "image/png"


@dataclass(frozen=True)
class SheetFile:
    """One drawing sheet: its picture as SVG text, and its files relative to the book ("" where there is none)."""

    title: str
    svg_text: str | None
    dxf: str = ""
    pdf: str = ""


@dataclass(frozen=True)
class Shape:
    """One solid of the 3-D view; it has a surface for each stage it goes through."""

    name: str
    group: str
    colour: Vector  # sRGB, 0 to 1
    away: Vector  # where it goes when taken apart [mm]
    stages: dict[str, Surface]
    size: Vector = (0.0, 0.0, 0.0)  # length, width and thickness, longest first [mm]
    mass_kg: float | None = None
    stage_colours: dict[str, Vector] = field(default_factory=dict)  # of stages that look otherwise
    number: str = ""  # in the parts list


@dataclass(frozen=True)
class PartLine:
    """One line of the parts list; `sheet` is the path of the drawing that `where` names, "" for none."""

    number: str
    name: str
    quantity: str
    material: str
    mass: str  # of one, both units
    where: str = ""
    sheet: str = ""
    size: Vector | None = None  # length, width and thickness, longest first [mm]
    stages: tuple[str, ...] = ()
    colour: Vector | None = None  # sRGB, 0 to 1
    inner: bool = False  # a part of the line above


@dataclass(frozen=True)
class Entry:
    """One line of a card."""

    label: str
    value: str
    how: str = ""
    source: str = ""


@dataclass(frozen=True)
class Group:
    """Some lines of a card under one heading."""

    name: str
    entries: tuple[Entry, ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Paper:
    """A card or list: groups of lines, a table, plain text, or several of them; its files relative to the book."""

    title: str
    groups: tuple[Group, ...] = ()
    header: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    plain: str = ""
    warnings: tuple[str, ...] = ()
    pictures: tuple[Picture, ...] = ()
    files: tuple[str, ...] = ()


@dataclass(frozen=True)
class FileEntry:
    """One file of the output, its path relative to the book."""

    path: str
    size: int  # bytes


@dataclass(frozen=True)
class Book:
    """Everything about one plane."""

    name: str
    revision: str
    kind: str
    spec_sha256: str
    works: str
    version: str
    units: str  # "inch" or "mm": which stands first
    description: str = ""
    facts: tuple[Fact, ...] = ()
    pictures: tuple[Picture, ...] = ()
    shapes: tuple[Shape, ...] = ()
    parts: tuple[PartLine, ...] = ()
    parts_note: str = ""  # whose numbers the parts list has
    mass: str = ""  # of the whole, both units
    findings: tuple[Finding, ...] = ()
    numbers: dict[str, Numbers] = field(default_factory=dict)
    sheets: tuple[SheetFile, ...] = ()
    templates: tuple[SheetFile, ...] = ()
    papers: tuple[Paper, ...] = ()
    files: tuple[FileEntry, ...] = ()
    cautions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    names: Mapping[str, str] = field(default_factory=dict)  # id in a table -> what it is called

    @property
    def wording(self) -> Wording:
        """How this book words sizes and names."""
        return Wording(self.units, self.names)
