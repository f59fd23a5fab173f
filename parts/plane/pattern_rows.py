"""Rows of a pattern maker's list: what one cast part's rows share, and the rows that every body has.

A casting's size comes from the same functions that its solid is built with, so that list, sheets and model agree.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import radians, tan

from parts.body.ribs import boss_roundings, boss_side, bosses_of, ribs_of
from parts.body.size import Boss
from parts.body.walls import envelope
from parts.plane.design import Design
from parts.plane.pattern_list import CastPart
from parts.plane.practice import wall_grade
from shared.casting.contraction import Contraction
from shared.casting.counter_bow import bow_of
from shared.casting.pattern_row import PatternRow, pattern_row

SHARP = "where two faces meet in a radius, sizes are to the corner that the faces would have without it"


class Rows:
    """The rows of one cast part, in order."""

    def __init__(self, d: Design, contraction: Contraction, required: float) -> None:
        """Begin a list.

        Args:
            d: the plane.
            contraction: of the part's alloy.
            required: required machining allowance [mm].
        """
        self._d, self._contraction, self._required = d, contraction, required
        self.found: list[PatternRow] = []

    def add(self, feature: str, axis: str, finished: float, casting: float | None = None, draft: float = 0.0,
            inside: bool = False, faces: int = 1, wall: bool = False) -> None:  # fmt: skip
        """Add a row.

        Args:
            feature: name of the size.
            axis: "x", "y", "z" or "n".
            finished: size on the finished part [mm]; of what stays as cast, at the far end of its draft.
            casting: size on the casting at the parting end of its draft [mm]; default: as finished.
            draft: what the draft adds between its two ends [mm].
            inside: whether sand stands inside it; draft then widens it toward the opening, where it is given.
            faces: how many of its two ends are machined [-], where it has stock.
            wall: whether it is a wall's thickness, whose tolerance is coarser.
        """
        raw = finished + draft * (not inside) if casting is None else casting
        stock = finished - raw if inside else raw - draft - finished
        kind = ("inside " if inside else "") + "as cast"
        if abs(stock) > 1e-9:
            kind = f"{'inside' if inside else 'outside'} {'two sides' if faces == 2 else 'one side'}"
        shop = self._d.shop
        self.found.append(
            pattern_row(
                feature,
                axis,
                kind,
                finished,
                allowance_mm=self._required,
                grade=wall_grade(shop) if wall else shop.casting.tolerance_grade,
                contraction=self._contraction,
                master=self._d.master,
                # a draft of 45 deg adds as much as its height
                draw_height_mm=draft,
                draft_deg=45.0,
                drafted_sides=1 if draft else 0,
                denominator=shop.pattern.shrink_rule_denominator,
                stock_mm=stock / faces,
                rapping_mm=shop.pattern.rapping,
            )
        )


class BodyRows(Rows):
    """The rows of a body; its places along count from the toe end, as on its sheets."""

    def __init__(self, d: Design) -> None:
        """Begin the list of a plane's body."""
        super().__init__(d, d.contraction, d.body.cast.required)
        self._size, self._walls = d.body, envelope(d.body)

    def place(self, feature: str, finished: float, casting: float | None = None) -> None:
        """Add a place along the body, from the toe end.

        Args:
            feature: name of what stands there.
            finished: x on the finished body [mm].
            casting: x on the casting [mm]; default: the same.
        """
        b, w = self._size, self._walls
        raw = finished if casting is None else casting
        self.add(f"toe end to {feature}", "x", finished - b.toe_x, raw - w.x0, b.toe_x - w.x0 - b.cast.end)

    def height(self, feature: str, finished: float, stock: float = 0.0) -> None:
        """Add a height above the sole's face: finished height and the stock at its top [mm]."""
        self.add(f"{feature} above the sole face", "z", finished, finished + stock + self._size.cast.sole,
                 faces=2 if stock else 1)  # fmt: skip


def trough_rows(d: Design, rows: BodyRows) -> None:
    """Add what every body has: length, width, cheeks, rails, sole, their radii."""
    b, w = d.body, envelope(d.body)
    c, top = b.cast, b.inside_half_at(b.cheek_height)
    rows.add("length over all", "x", b.length, w.x1 - w.x0, 2 * (w.x1 - b.heel_x - c.end), faces=2)
    rows.add("width over the cheeks", "y", b.width, 2 * w.half, 2 * (w.half - b.width / 2 - c.side),
             faces=2)  # fmt: skip
    # at the top, the wide end of its draft, which adds nothing there
    rows.add("width inside, between the cheeks' tops", "y", 2 * top, inside=True)
    rows.height("cheek height", b.cheek_height)
    rows.height("rail height", b.rail_height)
    rows.add("sole thickness", "z", b.sole, b.sole + c.sole, wall=True)
    rows.add("cheek thickness at its top", "y", b.width / 2 - top, w.half - w.inset(b.cheek_height) - top,
             wall=True)  # fmt: skip
    rows.add("corners in plan, radius at the parting", "n", w.corner)
    rows.add("inside radius, cheek to sole", "n", b.root_radius, inside=True)
    rows.add("radius of the other edges", "n", c.edge_radius)


def rib_rows(d: Design, rows: BodyRows) -> None:
    """Add place, length, thickness, height and root of each cross rib, numbered from the toe."""
    b = d.body
    ribs = ribs_of(b)
    for i, rib in enumerate(ribs):
        name = "rib" if len(ribs) == 1 else f"rib {i + 1}"
        narrower = 2 * (rib.z - b.sole) * tan(radians(b.cast.draft_inside))
        rows.place(name, rib.x)
        rows.add(f"{name}, thickness", "x", 2 * rib.half_thick - narrower, draft=narrower, wall=True)
        rows.add(f"{name}, length", "y", 2 * rib.half_long - narrower, draft=narrower)
        rows.height(f"{name}, top", rib.z)
        if abs(rib.root - b.root_radius) > 1e-6:
            rows.add(f"{name}, radius at its foot", "n", rib.root, inside=True)


def boss_rows(d: Design, rows: BodyRows, names: Mapping[float, str]) -> None:
    """Add place, diameter and height of each boss.

    Args:
        d: the plane.
        rows: its list.
        names: what each boss is called, by its x [mm].
    """
    for boss in bosses_of(d.body):
        _boss(d, rows, names[boss.x], boss)


def _boss(d: Design, rows: BodyRows, name: str, boss: Boss) -> None:
    b = d.body
    draft = 2 * (boss.z_top - b.sole) * tan(radians(b.cast.draft_inside))
    rows.place(name, boss.x)
    rows.add(f"{name}, diameter at the plate", "n", boss.diameter, 2 * boss_side(b, boss, b.sole), draft,
             faces=2)  # fmt: skip
    rows.add(f"{name}, diameter at its raw top", "n", boss.diameter, 2 * boss_side(b, boss, boss.z_top + b.cast.boss),
             faces=2)  # fmt: skip
    rows.height(f"{name}, top", boss.z_top, b.cast.boss)
    root = boss_roundings(b, boss)[0]
    if abs(root - b.root_radius) > 1e-6:
        rows.add(f"{name}, radius at its foot", "n", root, inside=True)


def body_list(d: Design, rows: BodyRows, *notes: str) -> CastPart:
    """Return the body's list from its rows and notes, with the counter-bow that the shop asks for."""
    walls, c = envelope(d.body), d.contraction
    start, length = walls.x0 * (1 + c.x), (walls.x1 - walls.x0) * (1 + c.x)
    bow = bow_of(start, length, d.shop.pattern.distortion_per_metre)
    shape = "the cheek's arch: template body-pattern-side, 1:1 at pattern size; plan at the parting: body-pattern-plan"
    return CastPart("body", d.body_alloy.id, c, rows.found, (SHARP, *notes, shape), bow)
