"""A family of planes side by side: the few sizes by which its members are told apart."""

from __future__ import annotations

from typing import Any

from parts.handle.hand import hand_breadth
from parts.plane.design import Design
from parts.plane.weight import weight_or_none
from shared.human import said
from shared.numbers import Numbers
from shared.record import Record


class Member(Record):
    """One plane of the family: label -> what is said of it, and the same as plain numbers by key."""

    name: str
    said: dict[str, str]
    values: dict[str, Any]


def member(d: Design, numbers: dict[str, Numbers]) -> Member:
    """Return what a family table says of one plane.

    Args:
        d: the plane.
        numbers: its numbers; masses of the models are taken where they are among them.
    """
    spec, units = d.spec, d.spec.units
    toe = -d.body.toe_x
    mass, balance, how = _weight(d, numbers)
    breadth = hand_breadth(spec.handle.hand_percentile, spec.handle.hand)
    tote = "none" if d.tote is None else said(round(d.tote.grip, 3), units)
    text = {
        "kind": spec.plane.kind,
        "length": said(d.body.length, units),
        "width": said(d.body.width, units),
        "blade": f"{said(d.blade.width, units)} x {said(d.blade.thickness, units)}",
        "bed": f"{spec.bed.angle:g} deg",
        "cutting angle": f"{numbers['blade'].value('cutting_angle_deg'):g} deg",
        "mouth from toe": f"{said(toe, units)}, {100 * toe / d.body.length:.0f} %",
        "mouth opening": said(spec.body.mouth_opening, units),
        "sole": said(d.body.sole, units),
        "cheek height": said(d.body.cheek_height, units),
        "body metal": d.body_alloy.id,
        f"mass{how}": "-" if mass is None else f"{mass:.2f} kg ({mass / 0.45359237:.2f} lb)",
        f"balance aft of edge{how}": "-" if balance is None else f"{balance:.0f} mm ({balance / 25.4:.2f} in)",
        "grip on the tote": tote,
        "hand": f"{breadth:.0f} mm, {100 * spec.handle.hand_percentile:.0f} % of {spec.handle.hand}",
        "wood": spec.handle.species,
    }
    values = {
        "kind": spec.plane.kind,
        "length_mm": d.body.length,
        "width_mm": d.body.width,
        "blade_width_mm": d.blade.width,
        "blade_thickness_mm": d.blade.thickness,
        "bed_deg": spec.bed.angle,
        "cutting_angle_deg": numbers["blade"].value("cutting_angle_deg"),
        "mouth_from_toe_mm": toe,
        "mouth_share_percent": 100 * toe / d.body.length,
        "mouth_opening_mm": spec.body.mouth_opening,
        "sole_mm": d.body.sole,
        "cheek_height_mm": d.body.cheek_height,
        "alloy": d.body_alloy.id,
        ("mass_estimate_kg" if how else "mass_kg"): mass,
        ("balance_estimate_mm" if how else "balance_mm"): balance,
        "grip_mm": None if d.tote is None else d.tote.grip,
        "hand_breadth_mm": breadth,
        "species": spec.handle.species,
    }
    return Member(spec.plane.name, text, values)


def _weight(d: Design, numbers: dict[str, Numbers]) -> tuple[float | None, float | None, str]:
    """Return mass [kg], balance aft of the edge [mm], and ", estimated" where the models were not asked."""
    plane = numbers["plane"]
    if "mass_kg" in plane:
        return plane.value("mass_kg"), plane.value("center_of_mass_mm")[0], ""
    w = weight_or_none(d)
    return (None, None, ", estimated") if w is None else (w.mass, w.balance, ", estimated")
