"""What every part's sheet says of its edges and of drills, in both units. Lengths mm."""

from __future__ import annotations

from parts.plane.sheets.metal import size_text
from shared.drills import drill_name

BREAK = (0.2, 0.5)  # mm: an edge is broken by so much; common practice, no source


def edges(first: str) -> str:
    """Return by how much an edge is broken, "inch" or "mm" first: "0.008 [0.20] to 0.020 [0.50]"."""
    low, high = (size_text(b, first) for b in BREAK)
    return f"{low} to {high}"


def as_cast_note(part: str, draft: float, parting: str) -> str:
    """Return where the shape that a sheet does not dimension is found: the casting's model and the pattern's list.

    Args:
        part: cast part as its files are named.
        draft: of its outside [deg].
        parting: where the mould parts.
    """
    return (
        f"Curves and corners without a size are as cast, to the model step/{part.replace(' ', '-')}-casting.step "
        f"and the pattern's list. Mould parts at {parting}; draft {draft:g}° both ways from it."
    )


def drill_text(diameter: float, first: str) -> str:
    """Return a drill's diameter [mm] in both units, and its name where there is a drill of that size."""
    named = drill_name(diameter, first)
    return size_text(diameter, first) + (f" ({named})" if named else "")
