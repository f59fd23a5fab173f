"""The pattern maker's rows of lever cap and cam lever, for every kind of plane that has them.

Both are drawn in the blade frame: x along the blade, y across, z square to it.
"""

from __future__ import annotations

from math import radians, tan

from parts.lever_cap import outline
from parts.lever_cap.size import LeverCapSize
from parts.plane.design import Design
from parts.plane.pattern_list import CAST_LARGEST, CastPart, one_factor_note
from parts.plane.pattern_rows import SHARP, Rows
from shared.casting.allowance import machining_allowance
from shared.casting.contraction import Contraction


def _begin(d: Design) -> tuple[Rows, Contraction]:
    """Return the rows and the contraction of a casting in the cap's alloy."""
    contraction = d.shop.contraction_of(d.cap_alloy.id, CAST_LARGEST)
    return Rows(d, contraction, machining_allowance(CAST_LARGEST, d.shop.casting.machining_grade)), contraction


def cap_rows(d: Design, size: LeverCapSize) -> CastPart:
    """Return the list of the lever cap.

    Args:
        d: the plane.
        size: the cap's resolved sizes [mm, deg].
    """
    rows, contraction = _begin(d)
    u, stock = size.underside_q, size.nose_stock
    outside, inside = tan(radians(size.outside_draft)), tan(radians(size.inside_draft))
    deep = u - size.nose_q
    # the front is square to the blade below the parting, so its stock along the blade is what the milled slope leaves
    front = outline.front_at(size, size.nose_q, stock)
    back = (deep + stock) * outside
    ears, floor = size.pivot_q + size.ear_radius, size.stop_q + stock
    rows.add("length, nose front to tail", "x", size.tail - size.land[0], size.tail - front, back)
    rows.add("width at the nose", "y", size.width, draft=2 * deep * outside)
    rows.add("width over the ears, at the parting", "y", size.tail_width)
    rows.add("tail to the middle of the ears' round", "x", size.tail - size.pivot_at)
    rows.add("radius of the ears' round", "n", size.ear_radius)
    rows.add("plate under the screw's head", "z", size.plate, outline.top_at(size, size.screw_at) - u,
             wall=True)  # fmt: skip
    rows.add("nose land below the underside", "z", deep, deep + stock)
    rows.add("land's length at its raw face", "x", size.land[1] - size.land[0], outline.raw_land(size) - front - back)
    rows.add("top of the ears above the underside", "z", ears - u)
    rows.add("lever slot between the ears, at their top", "y", 2 * size.slot_half, 2 * (size.slot_half - stock),
             2 * (ears - floor) * inside, inside=True, faces=2)  # fmt: skip
    rows.add("floor of the slot (stop) above the underside", "z", size.stop_q - u, floor - u)
    if outline.window_cast_open(size):
        along = size.window[1] - size.window[0]
        rows.add("cam window along, at the ears' top", "x", along, along - 2 * stock, 2 * (ears - u) * inside,
                 inside=True, faces=2)  # fmt: skip
        solid = "head's seat, screw's keyhole, rivet and pivot holes"
    else:
        solid = (f"cam window (would be cast under {size.hole_minimum:g} mm), head's seat, screw's keyhole, rivet and "
                 "pivot holes")  # fmt: skip
    rows.add("radius of the rim", "n", outline.CAP_RIM)
    rows.add("radius in the nose's root", "n", outline.NOSE_ROOT, inside=True)
    return cap_part(d, contraction, rows, "body", solid)


def cap_part(d: Design, contraction: Contraction, rows: Rows, upper: str, solid: str) -> CastPart:
    """Return a lever cap's list with its notes.

    Args:
        d: the plane.
        contraction: of its castings.
        rows: sizes of the cap.
        upper: what of it lies in the cope.
        solid: what is cast solid, in words.
    """
    notes = (
        f"along the blade, across it, up from it; parting in the plane of the underside: {upper} in the cope, nose in "
        "the drag",
        SHARP,
        f"cast solid, drilled and milled later: {solid}",
    )
    return CastPart("lever cap", d.cap_alloy.id, contraction, rows.found, (*notes, *one_factor_note(contraction)))


def lever_rows(d: Design, size: LeverCapSize) -> CastPart:
    """Return the list of the cam lever. Arguments as `cap_rows`."""
    rows, contraction = _begin(d)
    stock, half = size.nose_stock, size.lever_width / 2
    # at the parting plane the draft adds to the milled width's stock, on each side of a section
    whole = outline.lever_stock(size)
    crown = whole - stock
    cam_at, _ = size.cam_center
    long = size.pivot_at + size.lever_length - cam_at + size.cam_radius
    under, over = outline.lever_tip(size)
    rows.add("length, cam to tip, shut", "x", long, long + whole, crown)
    rows.add("width of hub and cam", "y", size.lever_width, size.lever_width + 2 * stock, faces=2)
    rows.add("width of the paddle", "y", 2 * (half - outline.PLAIN_UNDER))
    for name, radius in (("cam diameter", size.cam_radius), ("hub diameter over the top", size.hub_radius)):
        rows.add(name, "n", 2 * radius, 2 * (radius + whole), 2 * crown, faces=2)
    rows.add("cam's centre from the pivot's", "n", size.eccentricity)
    tall = size.pivot_q + size.hub_radius - size.stop_q
    rows.add("stop face to hub's top", "z", tall, tall + 2 * whole, 2 * crown, faces=2)
    rows.add("tip thickness, at the parting", "z", over - under, wall=True)
    rows.add("tip's underside above the stop face", "z", under - size.stop_q, under - size.stop_q + whole, crown)
    rows.add("radius of the paddle's rim", "n", outline.LEVER_RIM)
    notes = (
        "along the blade, across it, up from it, lever shut; parting in the middle plane, both halves alike",
        SHARP,
        "cast solid, drilled later: pivot hole",
    )
    return CastPart("cam lever", d.cap_alloy.id, contraction, rows.found, (*notes, *one_factor_note(contraction)))
