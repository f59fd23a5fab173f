"""Rules of body and casting: can it be cast and machined, and does it hold?"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from parts.body.room import FLOOR_LEFT, hole_floor
from parts.body.size import TappedHole
from parts.plane.design import Design
from parts.plane.rules.room import what_to_change
from parts.plane.rules.said import amount, in_both, move
from shared.errors import GeometryError
from shared.findings import Finding, judge
from shared.numbers import COMMON_PRACTICE, GEOMETRY
from shared.threads import Thread

RAIL_OVER_SOLE = 3.0  # mm that a low rail stands over the plate, at least; common practice, no source


def body(d: Design, holes: Sequence[tuple[TappedHole, Thread]]) -> list[Finding]:
    """Judge plate, threads and the place of the mouth.

    Args:
        d: the plane.
        holes: every tapped hole in the body, with its thread.
    """
    b = d.body
    share = -b.toe_x / b.length
    floor = min(hole_floor(h) for h, _ in holes)
    engaged = min((h.depth - t.pitch) / t.major for h, t in holes)
    short = max(t.major - (h.depth - t.pitch) for h, t in holes)
    slot_wall = b.inside_half - b.mouth_half_width
    return [
        Finding(
            "B01",
            "body",
            "metal under tapped holes",
            judge(floor >= FLOOR_LEFT - 1e-6),
            in_both(d, floor),
            in_both(d, FLOOR_LEFT),
            "nothing but the mouth may break the sole",
            COMMON_PRACTICE,
            f"thicken body.sole_thickness by about {amount(d, FLOOR_LEFT - floor)}",
        ),
        Finding(
            "B02",
            "body",
            "thread engaged, in diameters",
            judge(engaged >= 1.0 - 1e-6, engaged >= 0.8),
            f"{engaged:.2f} d",
            "1 to 1.5 d in iron",
            "a shorter thread strips",
            COMMON_PRACTICE,
            f"thicken body.sole_thickness by about {amount(d, short)}",
        ),
        Finding(
            "B03",
            "body",
            "mouth ahead of the middle",
            judge(0.22 <= share <= 0.42, 0.18 <= share <= 0.5),
            f"{100 * share:.0f} % of the length from the toe",
            "22 to 42 %",
            "too little toe tips over edges, too much starves the heel",
            COMMON_PRACTICE,
            move(d, "body.mouth_from_toe", -b.toe_x, 0.22 * b.length, 0.42 * b.length),
        ),
        Finding(
            "B04",
            "body",
            "mouth clear of the cheeks",
            judge(slot_wall >= 0.2),
            in_both(d, slot_wall),
            "0.2 mm or more",
            "the slot may not cut into the cheek",
            GEOMETRY,
            f"widen body.width or narrow blade.width by about {amount(d, 2 * (0.2 - slot_wall))}",
        ),
        Finding(
            "B05",
            "body",
            "low rails under the cheeks",
            judge(b.rail_height >= b.sole + RAIL_OVER_SOLE),
            in_both(d, b.rail_height),
            f"{in_both(d, b.sole + RAIL_OVER_SOLE)}: {in_both(d, RAIL_OVER_SOLE)} over the plate",
            "the rails stiffen toe and heel",
            COMMON_PRACTICE,
            f"raise body.rail_height by about {amount(d, b.sole + RAIL_OVER_SOLE - b.rail_height)}, or leave it out",
        ),
        Finding(
            "B07",
            "body",
            "sole ahead of the edge, against the blade's width",
            judge(-b.toe_x >= d.blade.width, -b.toe_x >= 0.8 * d.blade.width),
            in_both(d, -b.toe_x),
            f"one blade width ({in_both(d, d.blade.width)}); 0.8 of it at the very least",
            "the toe must lie on the work, and lie true, before the edge enters it",
            COMMON_PRACTICE,
            f"raise body.mouth_from_toe by about {amount(d, d.blade.width + b.toe_x)}",
        ),
    ]


def casting(d: Design) -> list[Finding]:
    """Judge walls, sand and contraction."""
    b, least = d.body, d.body_alloy.minimum_wall_mm
    easy = d.body_alloy.comfortable_wall_mm
    cheek_raw = b.cheek + b.cast.side
    height = b.cheek_height - b.sole
    gap = 2 * b.inside_half
    spread = 0.5 * (d.body_alloy.contraction_high - d.body_alloy.contraction_low) * b.length / 2
    return [
        Finding(
            "C01",
            "body",
            "cheek as cast",
            judge(cheek_raw >= easy, cheek_raw >= least),
            in_both(d, cheek_raw),
            f"{easy:g} mm runs easily, {least:g} mm at least",
            "thinner walls do not fill, or chill hard",
            d.body_alloy.source_of("minimum_wall_mm"),
            f"thicken body.cheek_thickness by about {amount(d, easy - cheek_raw)}",
        ),
        Finding(
            "C02",
            "body",
            "sole as cast",
            judge(b.sole + b.cast.sole >= easy, b.sole + b.cast.sole >= least),
            in_both(d, b.sole + b.cast.sole),
            f"{easy:g} mm runs easily, {least:g} mm at least",
            "thinner walls do not fill, or chill hard",
            d.body_alloy.source_of("minimum_wall_mm"),
            f"thicken body.sole_thickness by about {amount(d, easy - b.sole - b.cast.sole)}",
        ),
        Finding(
            "C03",
            "body",
            "inside radii fit between the cheeks",
            judge(2 * b.root_radius < gap - 0.2),
            in_both(d, b.root_radius),
            f"less than {in_both(d, gap / 2 - 0.1)}",
            "two radii may never meet exactly",
            GEOMETRY,
            f"lower body.root_radius by about {amount(d, b.root_radius - gap / 2 + 0.1)}",
        ),
        Finding(
            "C04",
            "body",
            "sand between the cheeks",
            judge(gap >= 0.6 * height, gap >= 0.4 * height),
            in_both(d, gap),
            f"0.6 of the depth ({in_both(d, 0.6 * height)})",
            "a deep narrow pocket of green sand tears when drawn",
            COMMON_PRACTICE,
            f"widen body.width by about {amount(d, 0.6 * height - gap)}, "
            f"or lower body.cheek_height by {amount(d, height - gap / 0.6)}",
        ),
        Finding(
            "C05",
            "body",
            "spread of contraction within the stock",
            judge(spread <= b.cast.end),
            in_both(d, spread),
            f"stock at each end ({in_both(d, b.cast.end)})",
            "a casting that shrinks more than reckoned must still clean up",
            d.body_alloy.source_of("contraction"),
            "measure a first article and write [contraction] of the shop's practice, which has no spread; until then "
            "a coarser casting.tolerance_grade there gives more stock",
        ),
    ]


def buildable(check: Callable[[], None]) -> Finding:
    """Judge whether every wall and radius leaves its room; `check` raises GeometryError where one does not."""
    reason = ""
    try:
        check()
    except GeometryError as err:
        reason = str(err)
    return Finding(
        "B06",
        "body",
        "walls and radii leave room for the model",
        judge(not reason),
        reason or "all do",
        "every radius, wall and boss has its room",
        "a casting with radii that run into each other can be neither modelled nor moulded",
        GEOMETRY,
        what_to_change(reason),
    )
