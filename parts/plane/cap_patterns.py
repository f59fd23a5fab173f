"""The pattern maker's rows of lever cap and cam lever, for every kind of plane that has them.

Both are drawn in the blade frame: x along the blade, y across, z square to it.
"""

from __future__ import annotations

from collections.abc import Callable
from math import radians, sin, tan

from parts.lever_cap import outline
from parts.lever_cap.size import LeverCapSize
from parts.plane.design import Design
from parts.plane.pattern_list import CAST_LARGEST, CastPart, one_factor_note
from parts.plane.pattern_rows import Rows
from shared.casting.allowance import machining_allowance
from shared.casting.contraction import Contraction

Add = Callable[..., None]


def _begin(d: Design) -> tuple[Add, Rows, Contraction]:
    """Return how to add a row, the rows, and the contraction.

    A row is added by feature, axis, kind, finished size, stock and what the draft adds on all sides [mm].
    """
    contraction = d.shop.contraction_of(d.cap_alloy.id, CAST_LARGEST)
    rows = Rows(d, contraction, machining_allowance(CAST_LARGEST, d.shop.casting.machining_grade))

    def add(feature: str, axis: str, kind: str, size: float, stock: float | None = None, draft: float = 0.0) -> None:
        # a draft of 45 deg adds as much as its height
        rows.add(feature, axis, kind, size, stock, draft, 45.0, sides=1 if draft else 0)

    return add, rows, contraction


def cap_rows(d: Design, size: LeverCapSize) -> CastPart:
    """Return the list of the lever cap.

    Args:
        d: the plane.
        size: the cap's resolved sizes [mm, deg].
    """
    add, rows, contraction = _begin(d)
    u, stock = size.underside_q, size.nose_stock

    outside, inside = tan(radians(size.outside_draft)), tan(radians(size.inside_draft))
    deep = u - size.nose_q
    # the front is square to the blade below the parting, so its stock along the blade is what the milled slope leaves
    front = stock / sin(radians(outline.FRONT))
    ears = size.pivot_q + size.ear_radius
    add("length, nose front to tail", "x", "outside one side", size.tail - size.land[0], front - deep * outside,
        deep * outside)  # fmt: skip
    add("width at the nose", "y", "as cast", size.width, None, 2 * deep * outside)
    add("width over the ears, at the parting", "y", "as cast", size.tail_width)
    add("tail to pivot", "x", "as cast", size.tail - size.pivot_at)
    add("plate under the screw's head", "z", "outside one side", size.plate,
        outline.top_at(size, size.screw_at) - size.head_q)  # fmt: skip
    add("nose land below the underside", "z", "outside one side", deep, stock)
    add("top of the ears above the underside", "z", "as cast", ears - u)
    floor = size.stop_q + stock
    add("lever slot between the ears", "y", "inside two sides", 2 * size.slot_half, stock, 2 * (ears - floor) * inside)
    add("floor of the slot (stop) above the underside", "z", "outside one side", size.stop_q - u, stock)
    if outline.window_cast_open(size):
        along = size.window[1] - size.window[0]
        add("cam window along", "x", "inside two sides", along, stock, 2 * (ears - u) * inside)
        solid = "screw's keyhole, rivet and pivot holes"
    else:
        solid = f"cam window (would be cast under {size.hole_minimum:g} mm), screw's keyhole, rivet and pivot holes"
    add("radius of the rim", "n", "as cast", outline.CAP_RIM)
    add("radius in the nose's root", "n", "inside as cast", outline.NOSE_ROOT)
    notes = (
        "x along the blade, y across, z square to it; parting in the plane of the underside: body in the cope, nose in "
        "the drag",
        f"cast solid, drilled and milled later: {solid}",
    )
    return CastPart("lever cap", d.cap_alloy.id, contraction, rows.found, (*notes, *one_factor_note(contraction)))


def lever_rows(d: Design, size: LeverCapSize) -> CastPart:
    """Return the list of the cam lever. Arguments as `cap_rows`."""
    add, rows, contraction = _begin(d)
    stock, half = size.nose_stock, size.lever_width / 2
    # what the draft adds at the parting plane over the milled width, on each side of a section
    crown = outline.lever_stock(size) - stock
    cam_at, _ = size.cam_center
    long = size.pivot_at + size.lever_length - cam_at + size.cam_radius
    add("length, cam to tip, shut", "x", "outside one side", long, stock, crown)
    add("width of hub and cam", "y", "outside two sides", size.lever_width, stock)
    add("width of the paddle", "y", "as cast", 2 * (half - outline.PLAIN_UNDER))
    add("cam diameter", "n", "outside two sides", 2 * size.cam_radius, stock, 2 * crown)
    add("hub diameter over the top", "n", "outside two sides", 2 * size.hub_radius, stock, 2 * crown)
    add("cam's centre from the pivot's", "n", "as cast", size.eccentricity)
    tall = size.pivot_q + size.hub_radius - size.stop_q
    add("stop face to hub's top", "z", "outside two sides", tall, stock, 2 * crown)
    add("tip thickness, at the parting", "z", "as cast", outline.TIP_THICK)
    add("tip's underside above the stop face", "z", "outside one side", outline.TIP_RISE, stock, crown)
    add("radius of the paddle's rim", "n", "as cast", outline.LEVER_RIM)
    notes = (
        "x along the blade, y across, z square to it, lever shut; parting in the middle plane, both halves alike",
        "cast solid, drilled later: pivot hole",
    )
    return CastPart("cam lever", d.cap_alloy.id, contraction, rows.found, (*notes, *one_factor_note(contraction)))
