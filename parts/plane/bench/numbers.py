"""Every number of a plane that needs no model, part by part."""

from __future__ import annotations

from parts.blade.numbers import bedding_numbers, blade_numbers
from parts.body.numbers import body_numbers
from parts.chipbreaker.numbers import shape_numbers
from parts.chipbreaker.spring import chipbreaker_numbers
from parts.frog.numbers import frog_numbers
from parts.handle.numbers import handle_numbers
from parts.hardware.numbers import hardware_numbers
from parts.lever_cap.numbers import nose_force
from parts.lever_cap.numbers import numbers as lever_cap_numbers
from parts.plane.bench.design import BenchDesign
from parts.plane.bench.fits import pairs
from parts.plane.bench.seats import seating
from parts.plane.hand_numbers import add_tote_place
from parts.plane.wood import wood_numbers_of
from shared.numbers import GEOMETRY, PROPORTION, Numbers


def plane_numbers(d: BenchDesign) -> dict[str, Numbers]:
    """Return the numbers of every part, without what only the models tell (masses, centre of mass).

    Raises:
        InputError: a hardness out of the steel's reach, or another impossible request.
    """
    found = {
        "plane": _plane(d),
        "blade": _blade(d),
        "bedding": _bedding(d),
        "chipbreaker": chipbreaker_of(d),
        "lever_cap": lever_cap_numbers(d.mechanism.lever_cap, d.cap_alloy),
        "frog": frog_numbers(d.mechanism.frog),
        "body": body_numbers(d.spec.body, d.body, d.body_alloy, d.contraction, d.master),
        "handle": _handle(d),
        "hardware": hardware_numbers(d.hardware, seating(d)),
    }
    return found


def _blade(d: BenchDesign) -> Numbers:
    blade, spec = d.mechanism.blade, d.spec
    return blade_numbers(
        orientation="bevel-down",
        bed=spec.bed.angle,
        steel=spec.blade.steel,
        width=blade.width,
        length=blade.length,
        thickness=blade.thickness,
        bevel=blade.bevel,
        micro_bevel=blade.micro_bevel,
        micro_width=blade.micro_width,
        back_bevel=blade.back_bevel,
        skew=blade.skew,
        camber_at_work=blade.camber_at_work,
        wheel_diameter=spec.blade.wheel_diameter,
        hardness=spec.blade.hardness,
        slot_from_edge=blade.slot_low,
        cold_c=spec.blade.cold_treatment,
    )


def _bedding(d: BenchDesign) -> Numbers:
    m, spec = d.mechanism, d.spec
    blade, frog = m.blade, m.frog
    opening = spec.body.mouth_opening
    return bedding_numbers(
        orientation="bevel-down",
        bed=spec.bed.angle,
        steel=spec.blade.steel,
        thickness=blade.thickness,
        width=blade.width,
        bevel=blade.bevel,
        micro_bevel=blade.micro_bevel,
        micro_width=blade.micro_width,
        back_bevel=blade.back_bevel,
        bed_low_height=frog.low_z,
        bed_top_height=frog.bed_point(frog.bed_top)[1],
        mouth_opening=opening,
        mouth_low=0.0,
        mouth_high=opening + 0.1,
        datum_height=frog.high_z,
        side_clearance=d.body.mouth_half_width - blade.width / 2,
        pivot_from_edge=m.stations.cap_screw_at,
        adjuster_lead=m.depth.thread.pitch,
        adjuster_ratio=m.depth.ratio,
        pins=pairs(m, d.body.key_half),
    )


def _plane(d: BenchDesign) -> Numbers:
    n = Numbers("plane")
    add_tote_place(n, d)
    n.add(
        "tote_form",
        d.tote_form_decided_by,
        "which form of the tote was taken",
        "sizes by the hand; on a short body the foot moves ahead, then the spine stands more upright",
        source=PROPORTION,
    )
    n.add(
        "knob_from_edge_mm",
        d.knob_x,
        "where the knob stands; negative is ahead of the edge",
        "0.56 of the toe length, kept off both ends",
        {"toe_mm": -d.body.toe_x},
        PROPORTION,
        d.knob_decided_by,
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


def chipbreaker_of(d: BenchDesign) -> Numbers:
    """Return the numbers of the chipbreaker: how it presses, and its shape."""
    c, cap, blade = d.mechanism.chipbreaker, d.mechanism.lever_cap, d.mechanism.blade
    n = Numbers("chipbreaker")
    n.update(
        chipbreaker_numbers(
            face_angle=d.spec.bed.angle + blade.back_bevel,
            edge_angle=c.edge_angle,
            setback=c.setback,
            width=c.width,
            thickness=c.thickness,
            reach=c.seat_from - c.setback,
            deflection=c.gap,
            cap_force=nose_force(cap),
            cap_from_seat=c.seat_from - c.hump_at,
        )
    )
    n.update(shape_numbers(c))
    return n


def _handle(d: BenchDesign) -> Numbers:
    n = Numbers("handle")
    n.update(handle_numbers(d.tote, d.knob, d.spec.handle, d.tote_form_decided_by))
    n.update(wood_numbers_of(d))
    return n
