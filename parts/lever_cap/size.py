"""Every resolved size of a lever cap, in the blade frame (see parts.blade.size)."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class LeverCapSize:
    """Resolved lever cap [mm]; s and q in the blade frame, in the shut position."""

    width: float  # at the nose
    tail_width: float  # over the ears
    nose_at: float  # s of the line the nose presses on
    nose_q: float  # q of that line
    underside_q: float  # q of the cap's underside over the chipbreaker's plate
    plate: float  # thickness of the cap's plate
    screw_at: float
    screw_shank: float
    screw_head: float
    head_q: float  # q of the screw head's underside when shut
    tail: float  # s of the cap's upper end
    pivot_at: float
    pivot_q: float
    pivot_diameter: float
    press_q: float  # q of the chipbreaker's top, where the spring presses
    cam_radius: float
    throw: float
    lever_width: float
    lever_length: float
    spring_thickness: float
    spring_width: float
    spring_rivet_at: float
    rivet_diameter: float
    wall: float  # least cast wall
    outside_draft: float  # [deg]
    nose_stock: float  # machining allowance on nose line and head seat, of the casting


def lever_cap_size(
    *,
    blade_width: float,
    nose_at: float,
    nose_q: float,
    plate_top: float,
    screw_at: float,
    screw_shank: float,
    screw_head: float,
    press_at: float,
    throw: float,
    spring_thickness: float,
    stock: float,
    draft: float,
) -> LeverCapSize:
    """Resolve the lever cap from the stations along the blade [mm], stock [mm] and draft [deg]."""
    underside = plate_top + 1.6
    plate = 5.0
    cam_radius = 6.0
    press_q = plate_top
    return LeverCapSize(
        width=blade_width - 3.0,
        tail_width=30.0,
        nose_at=nose_at,
        nose_q=nose_q,
        underside_q=underside,
        plate=plate,
        screw_at=screw_at,
        screw_shank=screw_shank,
        screw_head=screw_head,
        head_q=underside + plate,
        tail=press_at + 6.0,
        pivot_at=press_at,
        pivot_q=press_q + spring_thickness + cam_radius,
        pivot_diameter=4.0,
        press_q=press_q,
        cam_radius=cam_radius,
        throw=throw,
        lever_width=18.0,
        lever_length=34.0,
        spring_thickness=spring_thickness,
        spring_width=14.0,
        spring_rivet_at=press_at - 17.0,
        rivet_diameter=4.0,
        wall=4.0,
        outside_draft=draft,
        nose_stock=stock,
    )
