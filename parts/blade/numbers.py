"""Every number of the blade, with its meaning, formula and source."""

from __future__ import annotations

import math

from parts.blade import angles as a
from parts.blade.angles import Orientation
from parts.blade.bedding import honed_steel
from parts.blade.bedding_numbers import bedding_numbers
from parts.blade.bevel import (
    MICRO_WIDTH_MM,
    bevel_along_blade,
    bevel_length,
    bevel_shape,
    hollow_depth,
    hollow_edge_angle,
)
from parts.blade.camber import camber_on_blade, camber_radius
from parts.blade.life import LOSS_PER_SHARPENING_MM
from parts.blade.making_numbers import blank_numbers, heat_numbers, life_numbers
from parts.blade.stock import STOCK_PER_SIDE_MM
from shared.numbers import COMMON_PRACTICE, Numbers

__all__ = ["angle_numbers", "bedding_numbers", "blade_numbers", "shape_numbers"]


def angle_numbers(out: Numbers, orientation: Orientation, bed: float, honed: float, back: float, skew: float) -> None:
    """Add the angles to a list of numbers.

    Args:
        out: the list.
        orientation: "bevel-down" or "bevel-up".
        bed: bed angle [deg].
        honed: honed bevel [deg].
        back: back bevel [deg].
        skew: skew [deg].

    Raises:
        InputError: impossible angles.
    """
    e = a.edge_angles(orientation, bed, honed, back, skew)
    down = orientation == "bevel-down"
    put = {"bed": bed, "bevel": honed, "back_bevel": back}
    cutting = "bed + back bevel" if down else "bed + honed bevel"
    clearance = "bed - honed bevel" if down else "bed - back bevel"
    out.add("cutting_angle_deg", e.cutting, "face that meets the chip to the sole, square to the edge", cutting, put)
    out.add(
        "clearance_angle_deg",
        e.clearance,
        "underside of the edge to the sole, square to the edge; 10 deg or more is the guide",
        clearance,
        put,
        f"plane geometry; {a.CLEARANCE_SOURCE}",
    )
    out.add(
        "wedge_angle_deg", e.wedge, "steel between the faces that meet at the edge", "honed bevel + back bevel", put
    )
    rules = (
        ("section", "tan e = tan n * cos s", a.SECTION_RULE, e.cutting_section, e.clearance_section),
        ("velocity", "sin e = sin n * cos s", a.VELOCITY_RULE, e.cutting_velocity, e.clearance_velocity),
        (
            "chip_flow",
            "cos e = sin^2 s + cos^2 s * cos n",
            a.CHIP_FLOW_RULE,
            e.cutting_chip_flow,
            e.clearance_chip_flow,
        ),
    )
    for what, value in (("cutting", e.cutting), ("clearance", e.clearance)):
        for name, formula, source, cut, clear in rules:
            out.add(
                f"{what}_angle_{name}_deg",
                cut if what == "cutting" else clear,
                f"{what} angle along the travel by the {name.replace('_', ' ')} rule, one of three",
                formula,
                {"n": value, "s": skew},
                source,
            )


def shape_numbers(
    out: Numbers,
    *,
    orientation: Orientation,
    bed: float,
    thickness: float | None,
    width: float | None,
    bevel: float,
    micro_bevel: float | None = None,
    micro_width: float = MICRO_WIDTH_MM,
    back_bevel: float = 0.0,
    wheel_diameter: float | None = None,
    camber_at_work: float | None = 0.0,
) -> None:
    """Add bevel, hollow and camber to a list of numbers; what is not given (None) is left out.

    Args:
        out: the list.
        orientation: "bevel-down" or "bevel-up".
        bed: bed angle [deg].
        thickness: blade thickness [mm], or None.
        width: blade width [mm], or None.
        bevel: ground bevel [deg].
        micro_bevel: micro-bevel [deg], or None.
        micro_width: its width along itself [mm].
        back_bevel: back bevel [deg].
        wheel_diameter: grinding wheel [mm], or None for a flat grind.
        camber_at_work: depth at the work across the width [mm], or None.

    Raises:
        InputError: impossible sizes.
    """
    if thickness is not None:
        put = {"t": thickness, "bevel": bevel}
        steel = honed_steel(thickness, back_bevel)
        shape = bevel_shape(steel, bevel, micro_bevel, micro_width)
        out.add(
            "bevel_length_mm",
            bevel_length(thickness, bevel),
            "bevel along itself, ground, before honing",
            "t/sin(bevel)",
            put,
        )
        out.add(
            "bevel_along_blade_mm",
            bevel_along_blade(thickness, bevel),
            "edge to the bevel's heel along the blade's flat, ground, before honing",
            "t/tan(bevel)",
            put,
        )
        if micro_bevel is not None or back_bevel:
            honed = {**put, "w": shape.micro_length, "m": bevel if micro_bevel is None else micro_bevel, "h": steel}
            out.add(
                "honed_heel_from_edge_mm",
                shape.heel_from_edge,
                "edge to the bevel's heel along the blade's flat, after honing: measured on the finished blade",
                "w*cos(m) + (h - w*sin(m))/tan(bevel), h: thickness less the back bevel",
                honed,
            )
            out.add(
                "ground_facet_length_mm",
                shape.ground_length,
                "what honing leaves of the ground bevel, along itself: measured on the finished blade",
                "(h - w*sin(m))/sin(bevel)",
                honed,
            )
        out.add(
            "honed_bevel_length_mm",
            shape.micro_length or shape.ground_length,
            "honed facet along itself: the micro-bevel, or else the whole bevel",
            "micro-bevel width, or t/sin(bevel)",
            {**put, "micro_width": micro_width if micro_bevel is not None else 0.0},
            COMMON_PRACTICE if micro_bevel is not None else "plane geometry",
        )
        if wheel_diameter is not None:
            put = {**put, "D": wheel_diameter, "L": bevel_length(thickness, bevel)}
        deep = 0.0 if wheel_diameter is None else hollow_depth(thickness, bevel, wheel_diameter)
        true = bevel if wheel_diameter is None else hollow_edge_angle(thickness, bevel, wheel_diameter)
        out.add(
            "hollow_depth_mm", deep, "hollow below the chord; 0 for a flat grind", "D/2 - sqrt((D/2)^2 - (L/2)^2)", put
        )
        out.add(
            "hollow_edge_angle_deg",
            true,
            "angle of the ground steel at the very edge, before a micro-bevel is honed on it",
            "bevel - asin(L/D)",
            put,
        )
    if camber_at_work is None:
        return
    plane = a.edge_plane_angle(orientation, bed, back_bevel)
    on_blade = camber_on_blade(camber_at_work, plane)
    out.add(
        "camber_on_blade_mm",
        on_blade,
        "camber to grind on the blade: only its vertical part reaches the work",
        "depth at the work/sin(angle of the plane in which the edge curves)",
        {"depth": camber_at_work, "plane_angle": plane},
    )
    if width is not None:
        radius = camber_radius(width, on_blade)
        out.add(
            "camber_radius_mm",
            "straight" if math.isinf(radius) else radius,
            "radius of the cambered edge on the blade",
            "w^2/(8c) + c/2",
            {"w": width, "c": on_blade},
        )


def blade_numbers(
    *,
    orientation: Orientation,
    bed: float,
    steel: str,
    width: float,
    length: float,
    thickness: float,
    bevel: float,
    micro_bevel: float | None = None,
    micro_width: float = MICRO_WIDTH_MM,
    back_bevel: float = 0.0,
    skew: float = 0.0,
    camber_at_work: float = 0.0,
    wheel_diameter: float | None = None,
    hardness: float,
    slot_from_edge: float,
    cold_c: float | None = None,
    loss_per_sharpening: float = LOSS_PER_SHARPENING_MM,
    stock_per_side: float = STOCK_PER_SIDE_MM,
    adjuster_life: float | None = None,
) -> Numbers:
    """Return every number of a blade but its mass.

    Args:
        orientation: "bevel-down" or "bevel-up".
        bed: bed angle [deg].
        steel: a row of the steel table.
        width: blade width [mm].
        length: blade length [mm].
        thickness: blade thickness [mm].
        bevel: ground bevel [deg].
        micro_bevel: micro-bevel [deg], or None.
        micro_width: its width along itself [mm].
        back_bevel: back bevel [deg].
        skew: skew [deg].
        camber_at_work: depth at the work across the width [mm].
        wheel_diameter: grinding wheel [mm], or None for a flat grind.
        hardness: wanted hardness [HRC].
        slot_from_edge: new edge to the lower end of the slot [mm].
        cold_c: set point of a cold treatment [degC], or None.
        loss_per_sharpening: length lost by each sharpening [mm].
        stock_per_side: grinding stock a side after hardening [mm].
        adjuster_life: length after which a depth adjuster no longer reaches the blade [mm], or None.

    Raises:
        InputError: impossible angles or sizes, an unknown steel, a hardness out of its reach.
    """
    out = Numbers("blade")
    angle_numbers(out, orientation, bed, bevel if micro_bevel is None else micro_bevel, back_bevel, skew)
    shape_numbers(
        out,
        orientation=orientation,
        bed=bed,
        thickness=thickness,
        width=width,
        bevel=bevel,
        micro_bevel=micro_bevel,
        micro_width=micro_width,
        back_bevel=back_bevel,
        wheel_diameter=wheel_diameter,
        camber_at_work=camber_at_work,
    )
    heat_numbers(out, steel, hardness, thickness, cold_c)
    life_numbers(out, slot_from_edge, thickness, bevel, loss_per_sharpening, adjuster_life)
    blank_numbers(out, steel, width, length, thickness, stock_per_side)
    return out
