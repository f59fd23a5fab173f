"""Every number of how the blade lies in the plane: bed, mouth, adjusters, fits."""

from __future__ import annotations

from collections.abc import Sequence

from parts.blade import bedding as g
from parts.blade.angles import Orientation
from parts.blade.bevel import MICRO_WIDTH_MM
from parts.blade.limits import THICKNESS_TOL_MM as THICKNESS_TOL_MM
from parts.blade.limits import WIDTH_CLASS
from parts.blade.mouth_numbers import fit_numbers, mouth_numbers
from shared.mouth_stack import mouth_stack
from shared.numbers import Numbers
from shared.pairs import Pair, of_class

#: Tolerances a small machine shop holds without trouble; common practice, no source.
BED_POSITION_TOL_MM = 0.1
BED_ANGLE_TOL_DEG = 0.1
FRONT_TOL_MM = 0.1
MOUTH_CLASS = "H11"  # ISO 286, of the width of a mouth that is cut to the blade alone
#: A mouth that is set (by frog or toe piece) is set by a feeler gauge, whose leaves step by 0.05 mm.
MOUTH_SET_TOL_MM = 0.05


def mouth_deviations(width: float) -> tuple[float, float]:
    """Return the deviations (upper, lower) [mm] of the width [mm] of a mouth that is cut to the blade alone."""
    mouth = of_class("mouth", width, MOUTH_CLASS)
    return mouth.upper, mouth.lower


def set_deviations(opening: float) -> tuple[float, float]:
    """Return the deviations (upper, lower) [mm] of a mouth as set, of an opening [mm]: it loses half at the most."""
    return MOUTH_SET_TOL_MM, -min(MOUTH_SET_TOL_MM, opening / 2)


def bedding_numbers(
    *,
    orientation: Orientation,
    bed: float,
    steel: str,
    thickness: float,
    width: float,
    bevel: float,
    micro_bevel: float | None = None,
    micro_width: float = MICRO_WIDTH_MM,
    back_bevel: float = 0.0,
    bed_low_height: float,
    bed_top_height: float,
    mouth_opening: float,
    mouth_low: float | None = None,
    mouth_high: float | None = None,
    bed_position_tol: float = BED_POSITION_TOL_MM,
    bed_angle_tol: float = BED_ANGLE_TOL_DEG,
    thickness_tol: float = THICKNESS_TOL_MM,
    front_tol: float = FRONT_TOL_MM,
    datum_height: float = 0.0,
    side_clearance: float,
    pivot_from_edge: float,
    adjuster_lead: float,
    adjuster_ratio: float = 1.0,
    depth_of_cut: float = 0.1,
    slot: tuple[float, float] | None = None,
    pins: Sequence[Pair] = (),
    relief: float = 0.0,
) -> Numbers:
    """Return every number of the bedding.

    Args:
        orientation: "bevel-down" or "bevel-up".
        bed: bed angle [deg].
        steel: a row of the steel table, for the modulus.
        thickness: blade thickness [mm].
        width: blade width [mm].
        bevel: ground bevel [deg].
        micro_bevel: micro-bevel [deg], or None.
        micro_width: its width along itself [mm].
        back_bevel: back bevel [deg].
        bed_low_height: height above the sole of the lower end of the bed [mm].
        bed_top_height: height of the upper end of the bed [mm].
        mouth_opening: edge to the mouth's front wall along the sole [mm].
        mouth_low: least opening the adjustment must reach [mm], or None.
        mouth_high: greatest opening [mm], or None.
        bed_position_tol: of the bed along the sole [plus/minus mm].
        bed_angle_tol: of the bed angle [plus/minus deg].
        thickness_tol: of the blade's thickness [plus/minus mm].
        front_tol: of the mouth's front wall [plus/minus mm].
        datum_height: height at which the bed's place is dimensioned [mm].
        side_clearance: nominal clearance on each side of the blade at the mouth [mm].
        pivot_from_edge: edge to the point about which the blade is turned [mm].
        adjuster_lead: lead of the depth adjuster's thread [mm].
        adjuster_ratio: blade movement per nut movement [-].
        depth_of_cut: shaving for which the projection is stated [mm].
        slot: deviations (upper, lower) of the mouth's width [mm]; default: of class `MOUTH_CLASS`.
        pins: further fits.
        relief: length of the bed between its ends that does not touch the blade, along the blade [mm].

    Raises:
        InputError: impossible sizes or an unknown tolerance class.
    """
    out = Numbers("bedding")
    under = g.steel_under_edge(orientation, thickness, back_bevel)
    _support(
        out,
        orientation=orientation,
        bed=bed,
        steel=steel,
        under=under,
        thickness=thickness,
        width=width,
        bevel=bevel,
        micro_bevel=micro_bevel,
        micro_width=micro_width,
        bed_low=bed_low_height,
        bed_top=bed_top_height,
        relief=relief,
    )
    _adjust(out, bed, adjuster_lead, adjuster_ratio, depth_of_cut, width, side_clearance, pivot_from_edge)
    stack = mouth_stack(
        bed,
        steel_under_edge=under,
        thickness_matters=orientation == "bevel-down",
        bed_position_tol=bed_position_tol,
        bed_angle_tol=bed_angle_tol,
        thickness_tol=thickness_tol,
        front_tol=front_tol,
        datum_height=datum_height,
    )
    mouth_numbers(out, orientation, bed, mouth_opening, mouth_low, mouth_high, stack)
    across = width + 2 * side_clearance
    fit_numbers(out, of_class("blade", width, WIDTH_CLASS), across, slot or mouth_deviations(across), pins)
    return out


def _support(
    out: Numbers,
    *,
    orientation: Orientation,
    bed: float,
    steel: str,
    under: float,
    thickness: float,
    width: float,
    bevel: float,
    micro_bevel: float | None,
    micro_width: float,
    bed_low: float,
    bed_top: float,
    relief: float,
) -> None:
    down = orientation == "bevel-down"
    foot = g.bed_foot(under, bed)
    put = {"t": under, "bed": bed}
    out.add(
        "bed_foot_from_edge_mm", foot, "where the bed plane meets the sole plane, aft of the edge", "t/sin(bed)", put
    )
    heel_x, heel_z = g.bevel_heel(
        under if down else thickness - under, bed, bevel, micro_bevel, micro_width, orientation
    )
    put = {"t": thickness, "bed": bed, "bevel": bevel, "micro_width": micro_width if micro_bevel is not None else 0.0}
    formula = (
        "t*sin(bed - bevel)/sin(bevel)"
        if micro_bevel is None and down
        else "a*sin(bed) -+ t*cos(bed), a: heel along flat"
    )
    out.add("bevel_heel_height_mm", heel_z, "heel of the ground bevel above the sole", formula, put)
    out.add(
        "bevel_heel_from_edge_mm", heel_x, "heel of the ground bevel aft of the edge", "a*cos(bed) +- t*sin(bed)", put
    )
    support, decided = (heel_z, "heel of the bevel") if down and heel_z > bed_low else (bed_low, "lower end of the bed")
    out.add(
        "support_height_mm",
        support,
        "height above the sole at which the bed begins to carry the blade",
        "higher of bevel heel and lower end of the bed" if down else "lower end of the bed",
        {"bevel_heel": heel_z, "bed_low": bed_low},
        decided_by=decided,
    )
    u = g.unsupported_length(under, bed, support)
    out.add(
        "unsupported_length_mm",
        u,
        "edge to support along the blade",
        "(z + t*cos(bed))/sin(bed)",
        {"z": support, "t": under, "bed": bed},
    )
    modulus, source = g.modulus(steel)
    # bevel up the bed often begins under the bevel, where the steel is still thin
    carried = thickness if down else g.steel_at(u, thickness, bevel)
    out.add(
        "edge_deflection_um_per_100n",
        1e5 * g.edge_deflection(u, modulus, width, carried),
        "how far the edge bends under 100 N spread over its width, square to the blade",
        "100*4*u^3/(E*w*t^3)" if down else "100*4*u^3/(E*w*t^3), t: steel where the bed begins, t or u*tan(bevel)",
        {"u": u, "E_mpa": modulus, "w": width, "t": carried},
        f"cantilever of {'full thickness' if down else 'even thickness'}; modulus: {source}",
    )
    less = ", less the relief" if relief else ""
    out.add(
        "contact_length_mm",
        g.contact_length(under, bed, support, bed_top) - relief,
        "length of bed under the blade, from its support to the bed's upper end" + less,
        "(z_top - z_support)/sin(bed)" + (" - relief" if relief else ""),
        {"z_top": bed_top, "z_support": support, "bed": bed} | ({"relief": relief} if relief else {}),
    )


def _adjust(
    out: Numbers, bed: float, lead: float, ratio: float, depth: float, width: float, side: float, pivot: float
) -> None:
    out.add(
        "depth_per_projection", g.depth_per_projection(bed), "depth of cut per projection", "sin(bed)", {"bed": bed}
    )
    out.add(
        "projection_for_depth_mm",
        g.projection_for_depth(depth, bed),
        f"how far the blade moves along its bed for a cut of {depth:g} mm",
        "depth/sin(bed)",
        {"depth": depth, "bed": bed},
    )
    out.add(
        "depth_per_turn_mm",
        g.depth_per_turn(lead, ratio, bed),
        "depth of cut per turn of the adjuster",
        "lead*ratio*sin(bed)",
        {"lead": lead, "ratio": ratio, "bed": bed},
    )
    out.add(
        "lateral_adjust_deg",
        g.lateral_adjust(width, side, pivot),
        "how far the blade can be turned each way before a corner of its edge meets the mouth's side",
        "asin((w/2 + c)/r) - atan((w/2)/p), r = sqrt(p^2 + (w/2)^2)",
        {"w": width, "c": side, "p": pivot},
    )
