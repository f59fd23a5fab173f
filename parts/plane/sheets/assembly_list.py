"""The assembly's parts list: number, name, quantity, material, mass, and the sheet of each part or how it is bought."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from parts.handle.wood import wood_label
from parts.plane.sheets.metal import size_text
from shared.drawing.title import mass_text

if TYPE_CHECKING:
    from parts.plane.models import Piece
    from parts.plane.run import Run

SHEETS = {
    "body": "body", "toe piece": "toe-piece", "frog": "frog", "blade": "blade", "chipbreaker": "chipbreaker",
    "tote": "tote", "knob": "knob", "lever cap": "lever-cap", "clamp screw": "clamp-stud", "clamp foot": "clamp-stud",
    "lever-cap stud": "clamp-stud", "depth post": "depth-adjuster", "depth wheel": "depth-adjuster",
    "yoke": "depth-adjuster", "yoke pin": "depth-adjuster", "lateral lever": "lateral-adjuster",
    "lateral lever pin": "lateral-adjuster", "lateral roller": "lateral-adjuster",
    "lateral roller pin": "lateral-adjuster",
}  # fmt: skip
TURNED = "screws-rods"


@dataclass(frozen=True)
class Item:
    """One line of the list: number, name, the solids it stands for, how many of them are alike."""

    number: int
    name: str
    pieces: tuple[str, ...]
    quantity: int
    piece: Piece


def _family(p: Piece) -> str:
    """Return the name under which a solid is listed."""
    if p.part == "lever_cap" and p.name.startswith("lever cap "):
        return "lever cap"  # has a list of its own
    return p.name.removesuffix(" right").removesuffix(" left")


def items(run: Run) -> list[Item]:
    """Return the lines of the list, in the order of the parts."""
    groups: dict[str, list[Piece]] = {}
    for p in run.models.pieces:
        groups.setdefault(_family(p), []).append(p)
    out = []
    for n, (name, pieces) in enumerate(groups.items(), 1):
        alike = 1 if name == "lever cap" else len(pieces)
        out.append(Item(n, name, tuple(p.name for p in pieces), alike, pieces[0]))
    return out


def _threads(run: Run) -> dict[str, dict[str, Any]]:
    found: dict[str, dict[str, Any]] = {}
    for part in ("hardware", "adjuster", "lever_cap"):
        if part in run.numbers:
            rows = next((n.value for n in run.numbers[part] if n.key == "parts"), [])
            found |= {r["name"]: r for r in rows if isinstance(r, dict)} if isinstance(rows, list) else {}
    return found


def _material(run: Run, item: Item) -> str:
    d, p = run.design, item.piece
    if p.part in ("body", "toe_piece"):
        return d.body_alloy.name
    if p.name == "frog":
        return str(d.frog_alloy.name)  # type: ignore[attr-defined]
    if item.name == "lever cap":
        return d.cap_alloy.name
    if p.name == "blade":
        return f"{d.spec.blade.steel} tool steel, {d.spec.blade.hardness:g} HRC"
    if p.part == "handle":
        return wood_label(d.spec.handle.species)
    brass = "wheel" in p.name or p.name.endswith(" nut") or p.name == "clamp screw"
    return "brass" if brass else "steel"


def list_rows(run: Run, found: list[Item]) -> list[tuple[str, ...]]:
    """Return the rows of the table."""
    units, threads = run.design.spec.units, _threads(run)
    rows: list[tuple[str, ...]] = []
    for item in found:
        if item.name == "lever cap":
            kg = sum(run.models.measured(p)[1] for p in run.models.pieces if p.name in item.pieces)
        else:
            kg = run.models.measured(item.piece)[1]
        where = SHEETS.get(item.name, TURNED)
        row = threads.get(item.name)
        if item.name.endswith("washer"):
            where = f"bought: {TURNED}"
        elif row is not None and "thread" in row and where == TURNED:
            where = f"{row['thread']} × {size_text(float(row['length_mm']), units)}: {TURNED}"
        rows.append(
            (str(item.number), item.name, str(item.quantity), _material(run, item), mass_text(kg, units), where)
        )
    return rows
