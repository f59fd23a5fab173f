"""Blank and grain drawn on the handle's side views: the rectangle to saw out, the fibres, and an arrow along them.

Everything lies in the part's own frame, the same as its outline's, so a sheet lays it over the view as it is.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from parts.handle.blanks import Blank, rotated
from parts.handle.outline import knob_profile, tote_side
from parts.handle.size import KnobSize, ToteSize
from shared.drawing.primitives import Line, Note, Primitive
from shared.profile import Profile
from shared.segments import Point

FIBRE_SPACING_MM = 5.0
FIBRE_GAP_MM = 1.0  # left free between a fibre and the outline
SHORTEST_FIBRE_MM = 4.0
ARROW_SHARE = 0.35  # of the blank's length
HEAD_MM, HEAD_HALF_MM = 3.0, 1.0
NOTE_HEIGHT_MM = 2.5
NOTE_GAP_MM = 2.0


@dataclass(frozen=True)
class BlankView:
    """A view's blank and grain, in the part's own side frame [mm]."""

    outline: Profile  # the finished part, as its 1:1 profile has it
    blank: tuple[Line, ...]  # four sides of the rectangle to saw out, allowances in it
    fibres: tuple[Line, ...]  # thin lines along the grain, inside the outline
    arrow: tuple[Line, ...]  # a shaft with a head at each end, outside the blank, along its length
    notes: tuple[Note, ...]  # size of the blank, and the word for the arrow
    grain_deg: float  # direction of the fibres in this frame [deg]

    @property
    def primitives(self) -> tuple[Primitive, ...]:
        """Return everything but the outline, thin lines all."""
        return (*self.blank, *self.fibres, *self.arrow, *self.notes)


def tote_blank_view(size: ToteSize, blank: Blank, grain_deg: float) -> BlankView:
    """Return the tote's side view with its blank and grain.

    Args:
        size: the tote.
        blank: its blank, as `tote_blank` gives it.
        grain_deg: direction of the fibres [deg from the sole, x toward z], the same the blank was made for.
    """
    return _view(tote_side(size), blank, grain_deg)


def knob_blank_view(size: KnobSize, blank: Blank) -> BlankView:
    """Return the knob's side view with its blank; the grain runs along the turning axis.

    Args:
        size: the knob.
        blank: its blank, as `knob_blank` gives it.
    """
    return _view(knob_profile(size), blank, 90.0)


def _view(outline: Profile, blank: Blank, grain_deg: float) -> BlankView:
    # Work along the grain: the outline turned so that the fibres lie level, then everything turned back.
    level = outline.rotated(-grain_deg)
    x0, y0, x1, y1 = level.bounds
    cx, cy = (x0 + x1) / 2, (y0 + y1) / 2
    left, right = cx - blank.length_mm / 2, cx + blank.length_mm / 2
    low, high = cy - blank.width_mm / 2, cy + blank.width_mm / 2

    def back(points: Sequence[Point]) -> list[Point]:
        return rotated(points, grain_deg)

    def lines(pairs: Sequence[tuple[Point, Point]]) -> tuple[Line, ...]:
        return tuple(Line(*back(pair)) for pair in pairs)

    corners = [(left, low), (right, low), (right, high), (left, high), (left, low)]
    half, level_of_arrow = ARROW_SHARE * blank.length_mm / 2, low - NOTE_GAP_MM - NOTE_HEIGHT_MM / 2
    tips = (cx - half, level_of_arrow), (cx + half, level_of_arrow)
    barbs = [
        (tip, (tip[0] + side * HEAD_MM, level_of_arrow + up * HEAD_HALF_MM))
        for tip, side in zip(tips, (1, -1), strict=True)
        for up in (1, -1)
    ]
    # text reads from below or from the right, never upside down
    upright = 90.0 - (90.0 - grain_deg) % 180.0
    flip = abs((grain_deg - upright) % 360.0) > 1.0
    word, sized = back([(cx + half + NOTE_GAP_MM, low - NOTE_GAP_MM - (0 if flip else NOTE_HEIGHT_MM)),
                        (cx, high + NOTE_GAP_MM + (NOTE_HEIGHT_MM if flip else 0))])  # fmt: skip
    said = f"blank {blank.length_mm:.1f} x {blank.width_mm:.1f} x {blank.thickness_mm:.1f}"
    notes = (
        Note("grain", word, NOTE_HEIGHT_MM, upright, "right" if flip else "left"),
        Note(said, sized, NOTE_HEIGHT_MM, upright, "centre"),
    )
    return BlankView(
        outline, lines(list(pairwise(corners))), lines(_fibres(level)), lines([tips, *barbs]), notes, grain_deg
    )


def _fibres(level: Profile) -> list[tuple[Point, Point]]:
    """Return chords along x through an outline, evenly apart, a little short of it at both ends."""
    _, low, _, high = level.bounds
    count = max(1, round((high - low) / FIBRE_SPACING_MM))
    found = []
    for i in range(count):
        y = low + (i + 0.5) * (high - low) / count
        ends = sorted(level.crossings(1, y))
        for a, b in zip(ends[::2], ends[1::2], strict=False):
            if b - a - 2 * FIBRE_GAP_MM >= SHORTEST_FIBRE_MM:
                found.append(((a + FIBRE_GAP_MM, y), (b - FIBRE_GAP_MM, y)))
    return found
