"""Every number of a low-angle plane that needs no model, part by part."""

from __future__ import annotations

from math import cos, radians, sin

from parts.blade.numbers import bedding_numbers, blade_numbers
from parts.body.low_angle.numbers import low_body_numbers
from parts.handle.numbers import handle_numbers
from parts.low_angle.numbers import adjuster_numbers, cap_numbers, parts_list
from parts.plane.hand_numbers import add_tote_place
from parts.plane.low_angle.design import LowAngleDesign
from parts.plane.low_angle.fits import mouth_across, pairs
from parts.plane.wood import wood_numbers_of
from shared.numbers import COMMON_PRACTICE, GEOMETRY, PROPORTION, Numbers

LOCK = "knob on its stud; the nut is glued into the knob, so that the two turn together"
THREAD_SOURCE = "thread tables ISO 261, ASME B1.1 (memory); tap drill = major - pitch, common practice, no source"


def plane_numbers(d: LowAngleDesign) -> dict[str, Numbers]:
    """Return the numbers of every part, without what only the models tell (masses, centre of mass).

    Raises:
        InputError: a hardness out of the steel's reach, or another impossible request.
    """
    return {
        "plane": _plane(d),
        "blade": _blade(d),
        "bedding": _bedding(d),
        "lever_cap": cap_numbers(d.lever_cap, d.cap_alloy),
        "adjuster": adjuster_numbers(d.adjuster, d.lever_cap, d.lateral, d.spec.bed.angle),
        **_toe_piece(d),
        "body": low_body_numbers(d.spec.body, d.body, d.body_alloy, d.contraction, d.master),
        "handle": _handle(d),
        "hardware": _hardware(d),
    }


def _toe_piece(d: LowAngleDesign) -> dict[str, Numbers]:
    """Return the toe piece's numbers, where there is one."""
    way = d.body.toe_way
    if way is None:
        return {}
    n = Numbers("toe_piece")
    n.add(
        "opening_range_mm",
        [way.opening_least, way.opening_most],
        "mouth with the piece right aft, and right ahead",
        "ends of its way; its sizes stand with the body's numbers",
        {"travel": way.travel},
        "the spec",
    )
    n.add("lock", LOCK, "what locks the piece", "a knob that turned on its nut would not draw the stud up",
          source=COMMON_PRACTICE)  # fmt: skip
    return {"toe_piece": n}


def _blade(d: LowAngleDesign) -> Numbers:
    blade, spec = d.blade, d.spec
    return blade_numbers(
        orientation="bevel-up",
        bed=spec.bed.angle,
        steel=spec.blade.steel,
        width=blade.width,
        length=blade.length,
        thickness=blade.thickness,
        bevel=blade.bevel,
        micro_bevel=blade.micro_bevel,
        micro_width=blade.micro_width,
        back_bevel=blade.back_bevel,
        camber_at_work=blade.camber_at_work,
        wheel_diameter=spec.blade.wheel_diameter,
        hardness=spec.blade.hardness,
        slot_from_edge=blade.slot_low,
        cold_c=spec.blade.cold_treatment,
        adjuster_life=d.adjuster.life,
    )


def _bedding(d: LowAngleDesign) -> Numbers:
    spec, blade, body = d.spec, d.blade, d.body
    way, half, turn = body.toe_way, blade.width / 2, radians(d.lateral.degrees)
    side = body.mouth_half_width - half
    n = bedding_numbers(
        orientation="bevel-up",
        bed=spec.bed.angle,
        steel=spec.blade.steel,
        thickness=blade.thickness,
        width=blade.width,
        bevel=blade.bevel,
        micro_bevel=blade.micro_bevel,
        micro_width=blade.micro_width,
        back_bevel=blade.back_bevel,
        bed_low_height=body.feather,
        bed_top_height=body.bed_z(body.bridge.x1),
        mouth_opening=spec.body.mouth_opening,
        mouth_low=None if way is None else way.opening_least,
        mouth_high=None if way is None else way.opening_most,
        datum_height=d.datum_height,
        side_clearance=side,
        # the place about which the blade would turn if the mouth alone stopped it at the same angle
        pivot_from_edge=(half + side - half * cos(turn)) / sin(turn),
        adjuster_lead=d.adjuster.lead,
        slot=mouth_across(body),
        pins=pairs(d.lever_cap, body),
        relief=(body.bridge.x0 - body.ramp_to) / cos(radians(spec.bed.angle)),
    )
    n.add(
        "nose_over_bed_mm",
        d.lever_cap.land[0] - body.feather / sin(radians(spec.bed.angle)),
        "lever cap's nose behind the bed's lower end, along the blade",
        "nose land - feather / sin(bed)",
        {"nose_land": d.lever_cap.land[0], "feather": body.feather, "bed": spec.bed.angle},
    )
    return n


def _plane(d: LowAngleDesign) -> Numbers:
    n = Numbers("plane")
    add_tote_place(n, d)
    n.add(
        "tote_form",
        d.tote_form_decided_by,
        "which form of the tote was taken",
        "none on a short body; else sizes by the hand, then the foot moves ahead, then the spine stands more upright",
        source=PROPORTION,
    )
    n.add(
        "knob_from_edge_mm",
        d.knob_x,
        "where the knob stands; negative is ahead of the edge",
        "on the toe piece's stud, else 0.56 of the toe length, kept off both ends",
        {"toe_mm": -d.body.toe_x},
        PROPORTION,
        d.knob_decided_by,
    )
    top = d.lever_cap
    n.add(
        "palm_height_mm",
        d.palm_height,
        "height of the clamp's knob above the sole: what the palm lies on",
        "s·sin(bed) + q·cos(bed) of its top",
        {"s_mm": top.clamp.at, "q_mm": top.knob_top_q, "bed_deg": d.spec.bed.angle},
    )
    n.add(
        "mouth_share_percent",
        -100 * d.body.toe_x / d.body.length,
        "mouth's place along the sole, from the toe",
        "100·mouth_from_toe/length",
        {"mouth_from_toe_mm": -d.body.toe_x, "length_mm": d.body.length},
        GEOMETRY,
    )
    return n


def _handle(d: LowAngleDesign) -> Numbers:
    n = Numbers("handle")
    n.update(handle_numbers(d.tote, d.knob, d.spec.handle, d.tote_form_decided_by))
    n.update(wood_numbers_of(d))
    return n


def _hardware(d: LowAngleDesign) -> Numbers:
    n = Numbers("hardware")
    rows = parts_list(d.lever_cap, d.adjuster)
    into = "toe piece" if d.body.toe_way is not None else "body"
    for rod, axis in d.rods.rods:
        rows.append(
            {
                "name": rod.name,
                "count": 1,
                "thread": rod.thread.name,
                "length_mm": round(rod.length, 3),
                "into": into if rod.name == "knob rod" else "body",
                "engagement_mm": round(axis.engaged, 3),
                "engagement_diameters": round(axis.engaged / rod.thread.major, 2),
                "tap_drill_mm": round(rod.thread.tap_drill, 3),
                "nut_diameter_mm": rod.nut_diameter,
                "nut_height_mm": rod.nut_height,
                **({"fixing": LOCK} if rod.name == "knob rod" and d.body.toe_way is not None else {}),
            }
        )
    if d.rods.toe_screw is not None:
        screw, axis = d.rods.toe_screw
        rows.append(
            {
                "name": screw.name,
                "count": 1,
                "thread": screw.thread.name,
                "length_mm": round(screw.length, 3),
                "into": "body",
                "engagement_mm": round(axis.engaged, 3),
                "engagement_diameters": round(axis.engaged / screw.thread.major, 2),
                "tap_drill_mm": round(screw.thread.tap_drill, 3),
                "head_diameter_mm": screw.head_diameter,
            }
        )
    n.add(
        "parts",
        rows,
        "every bought or turned part: thread, length, engagement, tap drill",
        "lengths from the stations they join; engagement = thread in metal",
        source=THREAD_SOURCE,
    )
    for rod, _ in d.rods.rods:
        n.add(
            f"{rod.name.replace(' ', '_')}_length_mm",
            rod.length,
            f"{rod.name} over all",
            "thread in the metal - boss + wood along the rod - nut's counterbore + what stands in the nut",
        )
    n.add(
        "least_engagement_diameters",
        min(r["engagement_diameters"] for r in rows if "engagement_diameters" in r),
        "shortest thread in a casting over its diameter",
        "engagement / major diameter, the least of all",
    )
    return n
