"""What gives two parts of a plane room where their models share space: which keys of the spec, and which way."""

from __future__ import annotations

_TOTE = ("tote", "move the tote aft: lengthen body.length, or lower body.mouth_from_toe")
_KNOB = ("knob", "give the knob room: raise body.mouth_from_toe, or lower handle.knob_diameter")
_BLADE = ("blade", "narrow blade.width, or raise body.mouth_side_clearance")

# kind -> beginning of a part's name and what gives that part room; of two parts the one that stands first here is
# moved. By the rules that place the parts; not tried, since each try would build the plane
ROOM = {
    "bench": (
        _TOTE,
        _KNOB,
        ("lateral", "give the lateral lever room: widen body.width, or raise bed.angle, which shortens the frog"),
        ("lever cap", "lower lever_cap.throw or lever_cap.spring_thickness"),
        ("depth", "give the depth wheel room: thicken chipbreaker.thickness, which lets it travel less"),
        ("yoke", "give the yoke room: thicken chipbreaker.thickness, which lets it travel less"),
        ("frog", "lower frog.travel, or raise frog.bed_margin"),
        ("chipbreaker", "thin chipbreaker.thickness"),
        _BLADE,
    ),
    "low-angle": (
        _TOTE,
        _KNOB,
        ("toe piece", "lower body.toe_piece.opening_most"),
        ("clamp", "lower lever_cap.knob_diameter"),
        ("depth", "give the depth wheel room: thin body.sole_thickness, or lengthen blade.length"),
        ("lever", "thin blade.thickness, or lengthen blade.length"),
        _BLADE,
    ),
}
ELSE = "give the two parts room along the plane: lengthen body.length"


def room_for(kind: str, pairs: list[tuple[str, str]]) -> str:
    """Return what to change so that pairs of parts no longer share space; "" for none.

    Args:
        kind: of the plane.
        pairs: names of parts that do.
    """

    def change(pair: tuple[str, str]) -> str:
        return next((c for part, c in ROOM[kind] if any(name.startswith(part) for name in pair)), ELSE)

    return "; ".join(dict.fromkeys(change(pair) for pair in pairs))
