"""Rules of body and casting: can it be cast and machined, and does it hold?"""

from __future__ import annotations

from math import cos, radians

from parts.body.limits import check_limits
from parts.plane.bench.design import BenchDesign
from parts.plane.bench.stations import FLOOR_LEFT
from parts.plane.rules.said import in_both
from shared.errors import GeometryError
from shared.findings import Finding, judge
from shared.numbers import COMMON_PRACTICE, GEOMETRY


def body(d: BenchDesign) -> list[Finding]:
    """Judge plate, threads and the place of the mouth."""
    b = d.body
    share = -b.toe_x / b.length
    holes = [*b.holddown, b.knob_boss.hole, b.tote_boss.hole, *([b.toe_boss.hole] if b.toe_boss else [])]
    floor = min(h.z_top - h.depth * cos(radians(h.lean)) for h in holes)
    major = d.mechanism.stations.threads["medium"].major
    pitch = d.mechanism.stations.threads["medium"].pitch
    engaged = min((h.depth - pitch) / major for h in (b.knob_boss.hole, b.tote_boss.hole, *b.holddown))
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
            "thicken body.sole_thickness",
        ),
        Finding(
            "B02",
            "body",
            "thread engaged, in diameters",
            judge(engaged >= 1.0, engaged >= 0.8),
            f"{engaged:.2f} d",
            "1 to 1.5 d in iron",
            "a shorter thread strips",
            COMMON_PRACTICE,
            "thicken body.sole_thickness",
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
            "change body.mouth_from_toe",
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
            "widen body.width or narrow blade.width",
        ),
        Finding(
            "B05",
            "body",
            "low rails under the cheeks",
            judge(b.rail_height >= b.sole + 3.0),
            in_both(d, b.rail_height),
            f"sole + 3 mm ({in_both(d, b.sole + 3.0)})",
            "the rails stiffen toe and heel",
            COMMON_PRACTICE,
            "raise body.rail_height",
        ),
    ]


def casting(d: BenchDesign) -> list[Finding]:
    """Judge walls, sand and contraction."""
    b, least = d.body, d.body_alloy.minimum_wall_mm
    easy = d.body_alloy.comfortable_wall_mm
    cheek_raw = b.cheek + b.cast.side
    height = b.cheek_height - b.sole
    gap = 2 * b.inside_half
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
            "thicken body.cheek_thickness",
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
            "thicken body.sole_thickness",
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
            "lower body.root_radius",
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
            "widen body.width or lower body.cheek_height",
        ),
        Finding(
            "C05",
            "body",
            "spread of contraction within the stock",
            judge(0.5 * (d.body_alloy.contraction_high - d.body_alloy.contraction_low) * b.length / 2 <= b.cast.end),
            in_both(d, 0.5 * (d.body_alloy.contraction_high - d.body_alloy.contraction_low) * b.length / 2),
            f"stock at each end ({in_both(d, b.cast.end)})",
            "a casting that shrinks more than reckoned must still clean up",
            d.body_alloy.source_of("contraction"),
            "measure a first article and set the shop's own contraction",
        ),
    ]


def buildable(d: BenchDesign) -> Finding:
    """Judge whether every wall and radius leaves the model its room."""
    reason = ""
    try:
        check_limits(d.body)
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
        "widen body.width, thicken body.cheek_thickness, or lower body.root_radius and body.corner_radius",
    )
