"""Proportion rules of the body: what a spec leaves out, from what it says. Common practice, no source."""

from __future__ import annotations

from math import pi, radians, tan
from typing import Protocol

MOUTH_SIDE = 0.75
MOUTH_FRONT_ANGLE = 75.0
ARCH_PEAK = 0.32  # of the cheek height, aft of the edge
KNOB_BOSS = 14.0  # the hollow mill cuts a ring round it, and the knob's foot must bear outside that
BOSS_RISE = 4.0
TOTE_BOSS_RISE = 5.0
TOTE_BOSS = 15.0
RIB = 5.0  # thickness of a cross rib at its top: what iron runs without trouble
RIB_FOOT = 4.0  # beyond it: draft and root radius
BOSS_FOOT = 8.0  # beyond a boss: stock, draft, root radius, hollow mill
TOE_SCREW_FROM = 300.0  # body length from which the tote has a second screw


class TroughSpec(Protocol):
    """What the section of every body says; lengths [mm], angles [deg]."""

    @property
    def length(self) -> float:
        """Toe to heel."""

    @property
    def width(self) -> float:
        """Over both cheeks."""

    @property
    def sole_thickness(self) -> float:
        """Of the plate."""

    @property
    def cheek_thickness(self) -> float:
        """Half way up."""

    @property
    def cheek_height(self) -> float:
        """Sole face to the highest point."""

    @property
    def rail_height(self) -> float | None:
        """Of the low rails, where said."""

    @property
    def root_radius(self) -> float | None:
        """Inside, cheek to sole, where said."""

    @property
    def corner_radius(self) -> float | None:
        """In plan, where said."""

    @property
    def mouth_side_clearance(self) -> float | None:
        """Each side of the blade, where said."""

    @property
    def mouth_front_angle(self) -> float | None:
        """Front wall to the sole, where said."""


def rail_height(spec: TroughSpec) -> float:
    """Return the height of the low rails above the sole face [mm]: sole + 1.6 cheek thicknesses."""
    return spec.sole_thickness + 1.6 * spec.cheek_thickness if spec.rail_height is None else spec.rail_height


def root_radius(spec: TroughSpec) -> float:
    """Return the inside radius cheek to sole [mm]: 0.7 of the cheek."""
    return 0.7 * spec.cheek_thickness if spec.root_radius is None else spec.root_radius


def corner_radius(spec: TroughSpec) -> float:
    """Return the plan radius of the corners [mm]: a tenth of the width, at most 1.4 cheek thicknesses.

    A larger one would make the rails' ends too sharp for a hand.
    """
    return min(spec.width / 10, 1.4 * spec.cheek_thickness) if spec.corner_radius is None else spec.corner_radius


def mouth_side_clearance(spec: TroughSpec) -> float:
    """Return how much wider than the blade the mouth is on each side [mm]."""
    return MOUTH_SIDE if spec.mouth_side_clearance is None else spec.mouth_side_clearance


def mouth_front_angle(spec: TroughSpec) -> float:
    """Return the angle of the mouth's front wall to the sole [deg]."""
    return MOUTH_FRONT_ANGLE if spec.mouth_front_angle is None else spec.mouth_front_angle


CLEAR_OF_CHEEK = 0.2  # of the mouth from a cheek's foot, each side [mm]
WIDEST_BLADE = (
    "body.width less both cheeks at their feet, where the draft makes them thickest, "
    f"{2 * CLEAR_OF_CHEEK:g} mm and the mouth's side clearance"
)


def widest_blade(spec: TroughSpec, draft_inside: float) -> float:
    """Return the widest blade whose mouth keeps off the cheeks [mm].

    Args:
        spec: the body section.
        draft_inside: of the cheeks' insides [deg]; it thickens their feet, half of what it takes from foot to peak.
    """
    foot = spec.cheek_thickness + (spec.cheek_height - spec.sole_thickness) / 2 * tan(radians(draft_inside))
    return spec.width - 2 * foot - 2 * mouth_side_clearance(spec) - 2 * CLEAR_OF_CHEEK


def iron_in_plate(spec: TroughSpec) -> float:
    """Return a rough volume of plate and cheeks [mm3], for an estimate before the models are built."""
    plate = spec.length * spec.width * spec.sole_thickness
    cheek_area = 0.58 * spec.length * (spec.cheek_height - spec.sole_thickness) * pi / 4
    return plate + 2 * cheek_area * spec.cheek_thickness
