"""The lever cap's forces, cam and spring as numbers. Lengths mm, angles deg, forces N, stresses MPa."""

from __future__ import annotations

from math import acos, cos, degrees, radians, sin

from parts.lever_cap import leaf, outline, spring
from parts.lever_cap.size import PAST_CENTER, SWING, LeverCapSize
from shared.casting.alloy import Alloy
from shared.numbers import COMMON_PRACTICE, GEOMETRY, PROPORTION, Numbers
from shared.record import Record

FRICTION = 0.15  # bronze or iron on steel, hardly oiled; value from memory
BEAM = "beam theory: beam on two supports, loaded in the middle; modulus of spring steel 205 GPa from memory"
STATICS = "statics: moments about the lever-cap screw"


class Forces(Record):
    """Forces on the shut cap [N]."""

    cam: float
    nose: float
    screw: float


def forces(size: LeverCapSize) -> Forces:
    """Return what the shut lever cap presses with: the leaf's force at the cam, balanced about the screw."""
    k = spring.stiffness(size.spring_width, size.spring_thickness, size.spring_half)
    cam = k * size.spring_bow
    nose = cam * (size.press_at - size.screw_at) / (size.screw_at - size.nose_at)
    return Forces(cam, nose, cam + nose)


def nose_force(size: LeverCapSize) -> float:
    """Return the force of the nose on the chipbreaker's hump, shut [N]."""
    return forces(size).nose


def rise_left(size: LeverCapSize, opened: float) -> float:
    """Return how far the cam stands back from its shut place [mm], at an angle from shut [deg]; negative past centre.

    Args:
        size: the lever cap.
        opened: 0 is shut, `SWING` is open.
    """
    return size.eccentricity * (cos(radians(PAST_CENTER)) - cos(radians(opened - PAST_CENTER)))


def touch_angle(size: LeverCapSize) -> float:
    """Return the angle from shut [deg] at which the cam first touches the free leaf: loaded from there on."""
    lift = cos(radians(PAST_CENTER)) - size.spring_bow / size.eccentricity
    return PAST_CENTER + degrees(acos(max(-1.0, lift)))


def holding_friction(size: LeverCapSize) -> float:
    """Return the least coefficient of friction with which the lever stays wherever it is let go under load.

    At an angle a from the highest lift the load acts e sin a beside the pivot, friction R + e cos a under it at the
    cam and r at the pin. Most is asked where the leaf is first touched.
    """
    a = radians(touch_angle(size) - PAST_CENTER)
    e = size.eccentricity
    return e * sin(a) / (size.cam_radius + e * cos(a) + size.pivot_diameter / 2)


def hand_force(size: LeverCapSize) -> float:
    """Return the greatest force at the lever's tip while it is being shut [N], friction at cam and pin counted."""
    k = spring.stiffness(size.spring_width, size.spring_thickness, size.spring_half)
    greatest = 0.0
    for tenth in range(10 * round(SWING) + 1):
        a = radians(tenth / 10 - PAST_CENTER)
        load = k * max(0.0, size.spring_bow - max(0.0, rise_left(size, tenth / 10)))
        arm = size.eccentricity * sin(a)
        drag = FRICTION * (size.cam_radius + size.eccentricity * cos(a) + size.pivot_diameter / 2)
        greatest = max(greatest, load * (arm + drag) / (size.lever_length - 2.0))
    return greatest


def numbers(size: LeverCapSize, alloy: Alloy) -> Numbers:
    """Return every number of the lever cap.

    Args:
        size: resolved sizes.
        alloy: of cap and lever, for the stress in the cap.
    """
    n = Numbers("lever_cap")
    _add_forces(n, size)
    _add_spring(n, size)
    _add_cam(n, size)
    _add_cap(n, size, alloy)
    return n


def _add_forces(n: Numbers, size: LeverCapSize) -> None:
    f = forces(size)
    k = spring.stiffness(size.spring_width, size.spring_thickness, size.spring_half)
    a, b = size.screw_at - size.nose_at, size.press_at - size.screw_at
    n.add("cam_force_n", f.cam, "force of cam and leaf on the chipbreaker, shut", "stiffness × bow",
          {"stiffness_n_per_mm": k, "bow_mm": size.spring_bow}, BEAM)  # fmt: skip
    n.add("nose_force_n", f.nose, "force of the nose on the chipbreaker's hump, shut", "cam force × b / a",
          {"cam_force_n": f.cam, "a_mm": a, "b_mm": b}, STATICS)  # fmt: skip
    n.add("nose_line_n_per_mm", f.nose / size.width, "the same per width of the nose", "nose force / width",
          {"nose_force_n": f.nose, "width_mm": size.width}, STATICS)  # fmt: skip
    n.add("screw_tension_n", f.screw, "tension of the lever-cap screw, shut", "cam force + nose force",
          {"cam_force_n": f.cam, "nose_force_n": f.nose}, STATICS)  # fmt: skip
    n.add("screw_from_edge_mm", size.screw_at, "lever-cap screw along the face", "nose + 0.53 × (press - nose)",
          {"nose_mm": size.nose_at, "press_mm": size.press_at}, PROPORTION)  # fmt: skip


def _add_spring(n: Numbers, size: LeverCapSize) -> None:
    w, t, half = size.spring_width, size.spring_thickness, size.spring_half
    f = forces(size)
    k, stress = spring.stiffness(w, t, half), spring.stress(f.cam, w, t, half)
    strip = {"w_mm": w, "t_mm": t, "L_mm": 2 * half}
    limited = spring.allowed_force(w, t, half) < spring.FORCE_AIM_N
    steel = f"{BEAM}; yield {spring.YIELD_MPA:g} MPa of hardened and tempered strip: {COMMON_PRACTICE} (memory)"
    n.add("spring_stiffness_n_per_mm", k, "leaf between its feet", "48 E I / L³, I = w t³ / 12", strip, BEAM)
    n.add("spring_bow_mm", size.spring_bow, "height of the free leaf's middle over its feet; flat when shut",
          "least of aimed force and allowed force, / stiffness",
          {"aim_n": spring.FORCE_AIM_N, "allowed_n": spring.allowed_force(w, t, half), "stiffness_n_per_mm": k},
          COMMON_PRACTICE, "spring's stress" if limited else "aimed force")  # fmt: skip
    n.add("spring_stress_mpa", stress, "greatest bending stress in the leaf, flat", "3 F L / (2 w t²)",
          {"F_n": f.cam, **strip}, BEAM)  # fmt: skip
    n.add("spring_stress_share", stress / spring.YIELD_MPA, "the same as a share of the yield", "stress / yield",
          {"stress_mpa": stress, "yield_mpa": spring.YIELD_MPA}, steel)  # fmt: skip
    n.add("spring_strip_length_mm", leaf.leaf_length(size), "strip the leaf is cut from",
          "length along the middle of the section", {"t_mm": t}, GEOMETRY)  # fmt: skip


def _add_cam(n: Numbers, size: LeverCapSize) -> None:
    e, throw = size.eccentricity, size.throw
    over = -rise_left(size, PAST_CENTER)
    holding = holding_friction(size)
    n.add("throw_mm", throw, "rise of the cam from open to shut", "as set", {}, PROPORTION)
    n.add("eccentricity_mm", e, "cam's centre from the pivot", "throw / (cos past - cos (swing - past))",
          {"throw_mm": throw, "past_deg": PAST_CENTER, "swing_deg": SWING})  # fmt: skip
    n.add("past_center_deg", PAST_CENTER, "lever beyond the cam's highest lift, against its stop", "as set", {},
          PROPORTION)  # fmt: skip
    n.add("over_center_mm", over, "extra lift at the centre, given by cap and chipbreaker", "e × (1 - cos past)",
          {"e_mm": e, "past_deg": PAST_CENTER})  # fmt: skip
    n.add("slack_open_mm", throw - size.spring_bow, "room under the leaf's bow when open: the cap slides freely",
          "throw - bow", {"throw_mm": throw, "bow_mm": size.spring_bow})  # fmt: skip
    n.add("touch_angle_deg", touch_angle(size), "lever from shut when the cam first touches the leaf",
          "past + acos(cos past - bow / e)",
          {"past_deg": PAST_CENTER, "bow_mm": size.spring_bow, "e_mm": e})  # fmt: skip
    n.add("holding_friction", holding, "least friction with which the loaded lever stays wherever it is let go",
          "e sin a / (R + e cos a + r), a = touch angle - past",
          {"e_mm": e, "R_mm": size.cam_radius, "r_mm": size.pivot_diameter / 2}, "statics of an eccentric")  # fmt: skip
    n.add("self_locking", holding <= FRICTION, "whether it stays there; shut it is past its centre, against its stop, "
          "and stays whatever the friction", "holding friction ≤ friction",
          {"holding": holding, "friction": FRICTION}, "friction 0.15 of bronze on steel from memory")  # fmt: skip
    n.add("lever_hand_force_n", hand_force(size), "greatest force at the lever's tip while shutting",
          "load × (e sin a + µ (R + e cos a + r)) / arm, greatest over the swing",
          {"e_mm": e, "R_mm": size.cam_radius, "r_mm": size.pivot_diameter / 2, "friction": FRICTION,
           "arm_mm": size.lever_length - 2.0}, "statics; friction 0.15 from memory")  # fmt: skip


def _add_cap(n: Numbers, size: LeverCapSize, alloy: Alloy) -> None:
    a = size.screw_at - size.nose_at
    moment = forces(size).nose * a
    half = outline.half_width_at(size, size.screw_at)
    b = 2 * half - (size.screw_head + 1.4)  # the head's seat and the keyhole carry nothing
    h = outline.top_at(size, size.screw_at) - size.underside_q
    stress = 6 * moment / (b * h**2)
    n.add("cap_stress_mpa", stress, "bending stress of the cap beside the screw", "6 F a / (b h²)",
          {"F_n": forces(size).nose, "a_mm": a, "b_mm": b, "h_mm": h}, "beam theory")  # fmt: skip
    which, limit = alloy.holds
    n.add("cap_stress_share", stress / limit, f"the same as a share of the alloy's {which} strength",
          f"stress / {which}", {"stress_mpa": stress, f"{which}_mpa": limit},
          alloy.source_of(f"{which}_mpa"))  # fmt: skip
    n.add("parting_q_mm", size.underside_q, "cap's parting plane: its underside, over the blade's face",
          "plate's top + larger of hump + 1.4 mm, and leaf + rivet head + 0.95 mm",
          {"plate_top_mm": size.press_q, "hump_q_mm": size.nose_q, "leaf_mm": size.spring_thickness})  # fmt: skip
    n.add("top_slope_deg", outline.top_slope(size), "rise of the cap's top, to the blade's face",
          "least of: wall behind the nose, stock over the head's seat", {"wall_mm": size.wall,
          "stock_mm": size.nose_stock}, GEOMETRY)  # fmt: skip
    n.add("slide_mm", size.slide, "way of the cap from the keyhole's round part to its seat, down the bed",
          "round part / 2 + 3/8 head",
          {"round_mm": size.head_pass, "head_mm": size.screw_head}, PROPORTION)  # fmt: skip
    n.add("window_cast_open", outline.window_cast_open(size), "cam window cast; otherwise milled from the solid",
          "cast opening ≥ least cast opening", {"least_mm": size.hole_minimum})  # fmt: skip
