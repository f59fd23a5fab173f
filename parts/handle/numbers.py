"""The handle's numbers: sizes of tote and knob, the hands they take, and the wood left round the bores."""

from __future__ import annotations

import math

from parts.handle import hand
from parts.handle.measure import greatest_width
from parts.handle.outline import tote_side
from parts.handle.size import (
    CREST_GAP,
    KnobSize,
    ToteSize,
    grip_of,
    least_wood,
    narrowest_section,
    rod_length,
    tote_extent,
)
from parts.handle.spec import HandleSpec
from shared.numbers import GEOMETRY, PROPORTION, Numbers, unit_of
from shared.profile import Arc

SPEC = "as set in the spec"
UPRIGHT_DEG = 12.0  # lean of a tote that is not of a short body [deg]


def oval_girth(depth: float, width: float) -> float:
    """Return the girth [mm] of an oval of this depth and width [mm]. Source: Ramanujan's formula for an ellipse."""
    a, b = depth / 2, width / 2
    ratio = 3 * ((a - b) / (a + b)) ** 2
    return math.pi * (a + b) * (1 + ratio / (10 + math.sqrt(4 - ratio)))


def least_side_radius(size: ToteSize) -> float:
    """Return the least convex radius [mm] of the tote's side outline above its foot, where the hand goes."""
    arcs = [s for s in tote_side(size) if isinstance(s, Arc) and s.sweep > 0]
    return min(a.radius for a in arcs if min(a.start[1], a.end[1]) > size.foot_height)


def handle_numbers(tote: ToteSize | None, knob: KnobSize, spec: HandleSpec, form: str = "") -> Numbers:
    """Return the numbers of tote (where there is one) and knob [mm, deg, percent].

    Blanks and grain are added by their own modules.

    Args:
        tote: the tote, or None.
        knob: the knob.
        spec: what the spec says of the handle.
        form: which form of the tote was taken, and why; it decides the sizes that leave their proportions.
    """
    out = Numbers("handle")
    if tote is not None:
        _hand(out, tote, spec)
        _tote_sizes(out, tote, spec, form)
        _tote_wood(out, tote)
    _knob_sizes(out, knob, spec, tote is None)
    return out


def _hand(out: Numbers, tote: ToteSize, spec: HandleSpec) -> None:
    row, source = hand.hand_table()["grip_length"], hand.hand_table()["hand_breadth"]["source"]
    breadth = hand.hand_breadth(spec.hand_percentile, spec.hand)
    put_in = {"share": spec.hand_percentile, "group": spec.hand}
    out.add("hand_breadth_mm", breadth, "breadth of the hand that the grip is made for",
            "mean + standard deviation * normal quantile of the share", put_in, source)  # fmt: skip
    out.add("grip_mm", tote.grip, "clear height for the hand on the tote, along the rod from the top of the foot",
            "7/8 * hand breadth + 5 mm, to the nearest 1/8 in, within 75 to 105 mm",
            {"hand_breadth_mm": breadth}, SPEC if spec.grip is not None else PROPORTION)  # fmt: skip
    for fingers, word in ((3, "three"), (4, "four")):
        largest = hand.largest_hand(tote.grip, 3 if fingers == 3 else 4)
        put = {"grip_mm": tote.grip, "clearance_mm": row["clearance"]}
        share = "3/4" if fingers == 3 else "1"
        out.add(f"largest_hand_{word}_fingers_mm", largest, f"broadest hand whose {word} fingers the grip takes",
                f"(grip - clearance) / ({share})", put, "own estimate on ANSUR II breadths")  # fmt: skip
        for group in ("men", "women"):
            reached = 100 * hand.share_of_hands(largest, "men" if group == "men" else "women")
            out.add(f"{group}_reached_{word}_fingers_percent", reached,
                    f"percentile of hand breadth among {group} that {word} fingers reach on this grip",
                    "100 * normal share of (largest hand - mean) / standard deviation",
                    {"largest_hand_mm": largest}, source)  # fmt: skip
    girth = oval_girth(tote.grip_depth, tote.grip_width)
    grips = hand.hand_table()["power_grip"]
    out.add("grip_girth_mm", girth, "girth of the grip at its middle", "Ramanujan's formula for an ellipse",
            {"grip_depth_mm": tote.grip_depth, "grip_width_mm": tote.grip_width})  # fmt: skip
    out.add("grip_equivalent_diameter_mm", girth / math.pi,
            f"diameter of the round handle of the same girth; a power grip wants {grips['low']} to {grips['high']} mm",
            "girth / pi", {"grip_girth_mm": girth}, f"{GEOMETRY}; range by {grips['source']}")  # fmt: skip


def _tote_sizes(out: Numbers, tote: ToteSize, spec: HandleSpec, form: str) -> None:
    grip, depth, width = {"grip_mm": tote.grip}, {"grip_depth_mm": tote.grip_depth}, {"grip_width_mm": tote.grip_width}

    def add(
        name: str, key: str, value: float, meaning: str, formula: str, put_in: dict[str, float],
        usual: float | None = None,
    ) -> None:  # fmt: skip
        if getattr(spec, name, None) is not None:
            out.add(key, value, meaning, SPEC, {}, SPEC)
        elif usual is None or abs(value - usual) < 1e-9:
            out.add(key, value, meaning, formula, put_in, PROPORTION)
        else:
            out.add(key, value, meaning, f"{value:g} {unit_of(key)}, of the form taken; else {formula}", put_in,
                    PROPORTION, form)  # fmt: skip

    add("grip_depth", "grip_depth_mm", tote.grip_depth, "grip fore and aft at its middle, square to the rod",
        "0.40 * grip, within 32 to 40 mm", dict(grip))  # fmt: skip
    add("grip_width", "grip_width_mm", tote.grip_width, "grip across, at its middle",
        "0.72 * grip depth, within 24 to 28 mm", dict(depth))  # fmt: skip
    add("lean", "lean_deg", tote.lean_deg, "lean of the tote's rod and spine, forward as they rise", "12 deg", {},
        UPRIGHT_DEG)  # fmt: skip
    add("horn_length", "horn_length_mm", tote.horn_length, "reach of the horn aft of the waist below it",
        "0.45 * grip depth, within 8 to 20 mm", dict(depth))  # fmt: skip
    add("foot_length", "foot_length_mm", tote.foot_length, "length of the tote's foot",
        "2.45 * grip depth, within 85 to 100 mm", dict(depth), min(max(2.45 * tote.grip_depth, 85), 100))  # fmt: skip
    add("foot_width", "foot_width_mm", tote.foot_width, "thickness of the tote's foot",
        "0.93 * grip width, within 22 to 25 mm", dict(width))  # fmt: skip
    add("toe_reach", "toe_reach_mm", tote.toe_reach, "foot ahead of the grip's front",
        "0.62 * grip depth, within 15 to 30 mm", dict(depth), min(max(0.62 * tote.grip_depth, 15), 30))  # fmt: skip
    add("", "foot_height_mm", tote.foot_height, "height of the tote's foot", "0.15 * grip", dict(grip))
    add("", "head_width_mm", greatest_width(tote), "greatest width, at the head round the nut",
        "the curve through the grip's width, or the crest's circle and 1.55 palm radii each side",
        {**width, "crest_radius_mm": tote.crest_radius})  # fmt: skip
    least, greatest, top = tote_extent(tote)
    out.add("tote_height_mm", top, "height of the tote above its foot plane", "highest point of the form's curves")
    out.add("tote_length_mm", greatest - least, "length of the tote along the sole", "extent of the form's curves")


def _tote_wood(out: Numbers, tote: ToteSize) -> None:
    narrow = narrowest_section(tote)
    out.add("narrowest_depth_mm", narrow.depth, "depth of the grip's narrowest section, square to the rod",
            "least distance of the front and back curves between the lowest finger and the horn",
            {"lean_deg": tote.lean_deg})  # fmt: skip
    out.add("narrowest_height_mm", narrow.z, "height of the narrowest section above the foot plane, on the rod",
            "where that distance is least")  # fmt: skip
    wood, _ = least_wood(tote)
    out.add("wood_round_bore_mm", wood, "least wood round the rod's bore in the grip",
            "least of front, back and half width, less half the bore",
            {"bore_diameter_mm": tote.bore_diameter})  # fmt: skip
    out.add("palm_radius_mm", hand.palm_radius(), "least edge radius allowed where the palm wraps", "design value",
            source=hand.hand_table()["edge_radius"]["source"])  # fmt: skip
    out.add("least_side_radius_mm", least_side_radius(tote),
            "least convex radius of the tote's side outline above the foot",
            "least of the outline's convex arcs")  # fmt: skip
    out.add("bore_diameter_mm", tote.bore_diameter, "bore for the rod, with clearance for the wood's movement",
            "rod + clearance", source="common practice, no source")  # fmt: skip
    out.add("tote_rod_in_wood_mm", rod_length(tote), "rod from the foot plane to the nut's seat, along the rod",
            "foot height / cos(lean) + grip + crest gap - counterbore depth",
            {"foot_height_mm": tote.foot_height, "grip_mm": tote.grip, "crest_gap_mm": CREST_GAP,
             "counterbore_depth_mm": tote.nut_counterbore_depth})  # fmt: skip


def _knob_sizes(out: Numbers, knob: KnobSize, spec: HandleSpec, rest: bool) -> None:
    grip = grip_of(spec)
    for name, value, meaning, formula, put_in in (
        ("knob_height", knob.height, "height of the knob", "0.47 * grip, within 38 to 45 mm", {"grip_mm": grip}),
        ("knob_diameter", knob.diameter, "greatest diameter of the knob", "0.43 * grip, within 34 to 42 mm",
         {"grip_mm": grip}),
        ("knob_waist", knob.waist, "diameter of the knob's waist", "0.66 * knob diameter, within 20 to 32 mm",
         {"knob_diameter_mm": knob.diameter}),
    ):  # fmt: skip
        if rest:
            formula, put_in = "as usual for a finger rest on a plane held in one hand", {}
        out.add(f"{name}_mm", value, meaning, formula, put_in, SPEC if getattr(spec, name) is not None else PROPORTION)
    out.add("knob_foot_diameter_mm", knob.foot_diameter, "diameter of the knob's foot",
            "the greater of 0.80 * knob diameter and waist + 4 mm",
            {"knob_diameter_mm": knob.diameter, "knob_waist_mm": knob.waist}, PROPORTION)  # fmt: skip
    out.add("wood_at_knob_waist_mm", (knob.waist - knob.bore_diameter) / 2, "wood round the bore at the knob's waist",
            "(waist - bore) / 2", {"knob_waist_mm": knob.waist, "bore_diameter_mm": knob.bore_diameter})  # fmt: skip
