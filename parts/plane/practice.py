"""What the shop's practice adds to a casting, put on the sizes of one plane."""

from __future__ import annotations

from parts.body import layout as body_rules
from parts.body.layout import TroughSpec
from parts.body.size import CastAllowances
from parts.plane.shop import ShopSpec
from shared.casting.allowance import machining_allowance, stock_one_side, stock_per_side


def wall_grade(shop: ShopSpec) -> int:
    """Return the tolerance grade of what is a wall on the casting: coarser by the shop's offset, 16 at most."""
    return min(shop.casting.tolerance_grade + shop.casting.wall_grade_offset, 16)


def as_cast_tolerance(shop: ShopSpec) -> str:
    """Return the tolerances of a casting as its sheets say them."""
    grade, wall = shop.casting.tolerance_grade, wall_grade(shop)
    return f"ISO 8062-3 DCTG {grade}" + (f", walls DCTG {wall}" if wall != grade else "")


def cast_allowances(body: TroughSpec, parting: float | None, shop: ShopSpec, pad_z: float) -> CastAllowances:
    """Return what a body's casting adds.

    Args:
        body: the body section.
        parting: parting plane above the finished sole face [mm]; None: the raw sole face.
        shop: the works' practice.
        pad_z: height of the milled pads or of the bed above the sole face, the highest [mm].
    """
    grade, letter, largest = shop.casting.tolerance_grade, shop.casting.machining_grade, body.length
    sole = stock_one_side(body.sole_thickness, largest, wall_grade(shop), letter)
    return CastAllowances(
        required=machining_allowance(largest, letter),
        sole=sole,
        side=stock_per_side(body.width, largest, grade, letter),
        end=stock_per_side(body.length, largest, grade, letter),
        pad=stock_one_side(pad_z, largest, grade, letter),
        boss=stock_one_side(body.sole_thickness + body_rules.TOTE_BOSS_RISE, largest, grade, letter),
        draft_outside=shop.casting.draft_outside,
        draft_inside=shop.casting.draft_inside,
        edge_radius=shop.casting.radius_outside_minimum,
        parting_z=-sole if parting is None else parting,
        turned=stock_per_side(max(body_rules.KNOB_BOSS, body_rules.TOTE_BOSS), largest, grade, letter),
    )
