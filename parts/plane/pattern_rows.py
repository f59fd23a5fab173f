"""Rows of a pattern maker's list: what one cast part's rows share, and the rows that every body has."""

from __future__ import annotations

from collections.abc import Sequence

from parts.body.size import Boss
from parts.body.walls import envelope
from parts.plane.design import Design
from parts.plane.pattern_list import CastPart
from shared.casting.contraction import Contraction
from shared.casting.counter_bow import bow_of
from shared.casting.pattern_row import PatternRow, pattern_row


class Rows:
    """The rows of one cast part, in order."""

    def __init__(self, d: Design, contraction: Contraction, required: float, height: float = 0.0,
                 draft: float = 0.0) -> None:  # fmt: skip
        """Begin a list.

        Args:
            d: the plane.
            contraction: of the part's alloy.
            required: required machining allowance [mm].
            height: drawn height of a wall where a row does not say [mm].
            draft: its draft [deg].
        """
        self._d, self._contraction, self._required = d, contraction, required
        self._height, self._draft = height, draft
        self.found: list[PatternRow] = []

    def add(self, feature: str, axis: str, kind: str, size: float, stock: float | None = None,
            height: float | None = None, draft: float | None = None, sides: int = 0) -> None:  # fmt: skip
        """Add a row; arguments as `shared.casting.pattern_row.pattern_row`, lengths [mm], draft [deg]."""
        shop = self._d.shop
        self.found.append(
            pattern_row(
                feature,
                axis,
                kind,
                size,
                allowance_mm=self._required,
                grade=shop.casting.tolerance_grade,
                contraction=self._contraction,
                master=self._d.master,
                draw_height_mm=self._height if height is None else height,
                draft_deg=self._draft if draft is None else draft,
                drafted_sides=sides,
                denominator=shop.pattern.shrink_rule_denominator,
                stock_mm=stock,
                rapping_mm=shop.pattern.rapping,
            )
        )


def trough_rows(d: Design, rows: Rows) -> None:
    """Add what every body has: length, width, cheeks, rails, sole."""
    b, c = d.body, d.body.cast
    end_h = max(b.rail_height - c.parting_z, c.parting_z)
    side_h = max(b.cheek_height - c.parting_z, c.parting_z)
    top = b.inside_half_at(b.cheek_height)
    rows.add("length over all", "x", "outside two sides", b.length, c.end, end_h, c.draft_outside, 2)
    rows.add("width over the cheeks", "y", "outside two sides", b.width, c.side, side_h, c.draft_outside, 2)
    rows.add("width inside, between the cheeks' tops", "y", "inside as cast", 2 * top, None, b.cheek_height - b.sole,
             c.draft_inside, 2)  # fmt: skip
    rows.add("cheek height above the sole face", "z", "outside one side", b.cheek_height, c.sole)
    rows.add("rail height above the sole face", "z", "outside one side", b.rail_height, c.sole)
    rows.add("sole thickness", "z", "outside one side", b.sole, c.sole)
    rows.add("cheek thickness at its top", "y", "outside one side", b.width / 2 - top, c.side)


def body_list(d: Design, rows: Rows) -> CastPart:
    """Return the body's list from its rows, with the counter-bow that the shop asks for."""
    walls, c = envelope(d.body), d.contraction
    start, length = walls.x0 * (1 + c.x), (walls.x1 - walls.x0) * (1 + c.x)
    bow = bow_of(start, length, d.shop.pattern.distortion_per_metre)
    return CastPart("body", d.body_alloy.id, c, rows.found, (), bow)


def boss_rows(d: Design, rows: Rows, bosses: Sequence[tuple[str, Boss | None]]) -> None:
    """Add diameter and height of each named boss that there is."""
    b, c = d.body, d.body.cast
    for name, boss in bosses:
        if boss is not None:
            rows.add(f"{name}, diameter at its top", "n", "as cast", boss.diameter, None, boss.z_top - b.sole,
                     c.draft_inside, 2)  # fmt: skip
            rows.add(f"{name}, top above the sole face", "z", "outside two sides", boss.z_top, (c.sole + c.boss) / 2)
