"""Rules of how the handles stand: how far their rods reach into the nuts, and whether their feet reach the plate."""

from __future__ import annotations

from collections.abc import Sequence

from parts.handle.size import HEIGHT_TOL
from parts.hardware.size import Rod
from parts.plane.design import Design
from parts.plane.practice import wall_grade
from parts.plane.rules.said import in_both
from shared.casting.allowance import dimension_tolerance
from shared.findings import Finding, judge
from shared.numbers import COMMON_PRACTICE

HELD = 0.5  # of a rod's diameter, in its nut at the least; common practice, no source
UNDER_FOOT = 0.1  # room over a boss at the least, so that a foot never rides on it [mm]
FINER = "ask for a finer casting.tolerance_grade, or less casting.wall_grade_offset, in shop.toml"


def plate_off(d: Design) -> float:
    """Return how far the plate under a handle may lie from where it is drawn [mm]: it stays as cast."""
    return dimension_tolerance(d.body.sole + d.body.cast.sole, wall_grade(d.shop)) / 2


def standing(d: Design, rods: Sequence[Rod]) -> list[Finding]:
    """Judge rods and feet at the worst of what castings and wood may be.

    Args:
        d: the plane.
        rods: its handles' rods.
    """
    return [_rods(d, rods), *_feet(d)]


def _rods(d: Design, rods: Sequence[Rod]) -> Finding:
    on_plate = {"tote rod": d.body.tote_boss, "knob rod": d.body.knob_boss}

    def least(rod: Rod) -> float:
        plate = plate_off(d) if on_plate.get(rod.name) is not None else 0.0
        return rod.least_in_nut - HEIGHT_TOL - plate

    rod = min(rods, key=lambda r: least(r) / r.thread.major)
    held = least(rod) / rod.thread.major
    return Finding(
        "H09",
        "handle",
        "rods hold in their nuts, handle high and plate thick",
        judge(held >= HELD, held >= 0.7 * HELD),
        f"{in_both(d, least(rod))} of the {rod.name} at least, {held:.2f} of its diameter",
        f"{HELD:g} of the rod's diameter or more",
        "the nut's blind hole ends under its slot; a rod that only just enters it strips the brass",
        COMMON_PRACTICE,
        FINER,
    )


def _feet(d: Design) -> list[Finding]:
    b, tote, off = d.body, d.tote, plate_off(d)
    feet = [("knob", b.knob_boss, d.knob.boss_counterbore_depth)]
    if tote is not None:
        feet.append(("tote", b.tote_boss, tote.boss_counterbore_depth))
        if tote.toe is not None:
            feet.append(("tote's toe", b.toe_boss, tote.toe.boss_depth))
    rooms = [(deep - (boss.z_top - b.sole) - off, name) for name, boss, deep in feet if boss is not None]
    if not rooms:
        return []
    room, name = min(rooms)
    return [
        Finding(
            "H10",
            "handle",
            "feet bear on the plate, not on their bosses, the plate thin",
            judge(room >= UNDER_FOOT - 1e-6, room >= 0.0),
            f"{in_both(d, room)} over the {name}'s boss",
            in_both(d, UNDER_FOOT),
            "bosses are milled from the sole, the plate stays as cast; a handle that rides on its boss rocks",
            COMMON_PRACTICE,
            FINER,
        )
    ]
