"""The blade's flat outline at 1:1, drawn as (y, s): y across, s up the face from the edge. Arithmetic only."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, hypot, radians, sin, tan

from parts.blade.camber import camber_on_blade
from parts.blade.size import BladeSize
from shared.profile import Pen, Point, Profile

CAMBER_DRAWN = 0.05  # a shallower curve of the edge is drawn straight [mm]
TOP_RISE = 0.05  # rise of the top's arch over the width [-]; own outline
CROSS_CORNER = 1.0  # of a cross slot: a 2 mm mill; a lesser corner may crack in the quench
EYE_BLEND = 1.5  # round where the slot runs into its eye, so that no crack starts there


@dataclass(frozen=True)
class BladeOutline:
    """Outside, slot and cross slots of a blade, each as (y, s) [mm]."""

    outside: Profile
    slot: Profile
    cross: tuple[Profile, ...] = ()

    @property
    def all(self) -> list[Profile]:
        """The outside first, then every opening."""
        return [self.outside, self.slot, *self.cross]


def edge_camber(size: BladeSize, bed_angle: float) -> float:
    """Return the camber of the edge in the blade's face [mm] for a bed [deg]; 0 where it is drawn straight."""
    camber = camber_on_blade(size.camber_at_work, bed_angle) if size.camber_at_work else 0.0
    return camber if camber > CAMBER_DRAWN else 0.0


def edge_points(size: BladeSize, camber: float) -> tuple[Point, Point, Point]:
    """Return left end, middle and right end of the cutting edge as (y, s) [mm], for a camber in the face [mm].

    The skewed edge runs through the origin; its ends stand back by the camber, square to it.
    """
    turn, half = radians(size.skew), size.width / 2
    back = camber / cos(turn)
    return (
        (-half, -half * tan(turn) + back),
        (camber * sin(turn), camber * sin(turn) * tan(turn)),
        (half, half * tan(turn) + back),
    )


def slot_outline(size: BladeSize) -> Profile:
    """Return the slot with its round eye at the lower end, (y, s) [mm]; a plain slot where the eye is no wider."""
    half, r = size.slot_width / 2, size.slot_eye / 2
    if r <= half:
        return Profile.slot((0.0, size.slot_low + half), (0.0, size.slot_high - half), size.slot_width, "blade slot")
    neck = size.slot_eye_center + (r * r - half * half) ** 0.5
    top = size.slot_high - half
    pen = Pen.at(half, neck, "blade slot").line_to(half, top).arc_to((0.0, size.slot_high), (-half, top))
    pen = pen.line_to(-half, neck, corner=EYE_BLEND).arc_to((0.0, size.slot_low), (half, neck))
    return pen.close(start_corner=EYE_BLEND)


def cross_outlines(size: BladeSize) -> tuple[Profile, ...]:
    """Return the cross slots, their corners as round as a small mill leaves them, (y, s) [mm]."""
    made = []
    for c in size.cross_slots:
        y, half = c.length / 2, c.width / 2
        made.append(Profile.rectangle(-y, c.at - half, y, c.at + half, CROSS_CORNER, "blade cross slot"))
    return tuple(made)


def with_lower_end(size: BladeSize, pen: Pen) -> Profile:
    """Return the outside from a pen that has drawn the lower end from left to right: sides, corners, arched top."""
    half, shoulder, r = size.width / 2, size.length - TOP_RISE * size.width, size.corner_radius
    pen = pen.line_to(half, shoulder, corner=r).arc_to((0.0, size.length), (-half, shoulder), corner=r)
    return pen.close()


def outline(size: BladeSize, bed_angle: float) -> BladeOutline:
    """Return the finished outline, seen square to the face, for templates and cutting files.

    Args:
        size: the blade.
        bed_angle: bed to sole [deg]; it turns the camber at the work into camber on the blade.
    """
    left, middle, right = edge_points(size, edge_camber(size, bed_angle))
    pen = Pen.at(*left, "blade outline").arc_to(middle, right)
    return BladeOutline(with_lower_end(size, pen), slot_outline(size), cross_outlines(size))


def edge_length(size: BladeSize) -> float:
    """Return the length of the cutting edge between the sides [mm]."""
    left, _, right = edge_points(size, 0.0)
    return hypot(right[0] - left[0], right[1] - left[1])
