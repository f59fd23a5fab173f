"""What every part's sheet says of its edges and of drills, in both units. Lengths mm."""

from __future__ import annotations

from parts.plane.sheets.metal import size_text
from shared.drills import drill_name

N_PER_LBF = 4.4482216152605
BREAK = (0.2, 0.5)  # mm: an edge is broken by so much; common practice, no source


def edges(first: str) -> str:
    """Return by how much an edge is broken, "inch" or "mm" first: "0.008 [0.20] to 0.020 [0.50]"."""
    low, high = (size_text(b, first) for b in BREAK)
    return f"{low} to {high}"


def force(newton: float, first: str) -> str:
    """Return a force [N] in both units, "inch" (pounds) or "mm" (newtons) first: "7.4 lbf [33 N]"."""
    pounds = newton / N_PER_LBF
    texts = f"{pounds:.1f} lbf" if pounds < 10.0 else f"{pounds:.0f} lbf", f"{newton:.0f} N"
    one, other = texts if first == "inch" else texts[::-1]
    return f"{one} [{other}]"


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
