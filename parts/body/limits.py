"""What must hold by arithmetic before the kernel is asked for a body, so that it never meets what it cannot build."""

from __future__ import annotations

from itertools import pairwise
from math import cos, radians, sin

from parts.body.arch import rim_height
from parts.body.floor import high_pad_raw, hollow_radius, low_pad_raw, raised_from_to, steps, top_edge_loss
from parts.body.ribs import boss_foot, boss_roundings, bosses_of, ribs_of
from parts.body.size import BodySize, Boss, TappedHole
from parts.body.walls import ABOVE, cheek_thickness, envelope, inside_half
from shared.errors import GeometryError

HAND_BREAK = 0.8  # radius of every edge of the finished rim that a hand meets; common practice, no source [mm]
MOUTH_CORNER = 0.6  # radius of the cutter that finishes the mouth's ends; common practice, no source [mm]
RING_DEPTH = 0.2  # the hollow mill sinks this far into the plate round a boss [mm]
RING_BEYOND = 0.3  # and cuts this far past the boss's cast root [mm]
LAND = 0.3  # least flat left between two roundings of one rim [mm]
TIP_ANGLE = 73.0  # least angle of the metal where a plan corner meets the inside of a rail, in plan [deg]
UNDER_HOLE = 0.5  # below this a hole counts as broken through the sole [mm]


def holes(size: BodySize) -> tuple[TappedHole, ...]:
    """Return every tapped hole of the body."""
    bosses = tuple(b.hole for b in bosses_of(size))
    return (*size.holddown, *bosses)


def ring_reach(size: BodySize, boss: Boss) -> float:
    """Return the outer radius of what the hollow mill cuts round a boss [mm]."""
    return boss_foot(size, boss) + RING_BEYOND


def hole_floor(hole: TappedHole) -> float:
    """Return the height of a flat-bottomed hole's lowest place above the sole face [mm]."""
    lean = radians(hole.lean)
    return hole.z_top - hole.depth * cos(lean) - hole.tap_drill / 2 * abs(sin(lean))


def largest_corner_radius(size: BodySize) -> float:
    """Return the largest plan radius of the corners [mm]: more would make the rails' ends too sharp for a hand."""
    return cheek_thickness(size, size.rail_height) / (1 - cos(radians(TIP_ANGLE)))


def _least(step: str, what: str, value: float, least: float) -> None:
    if value < least - 1e-9:
        raise GeometryError("body", step, f"{what} is {value:.3g} mm, needs {least:.3g} mm or more")


def check_limits(size: BodySize) -> None:
    """Refuse a body that cannot be built.

    Raises:
        GeometryError: names the step, what is too small, and by how much.
    """
    cast = size.cast
    edge, root = cast.edge_radius, size.root_radius
    if not -cast.sole <= cast.parting_z <= size.rail_height - edge - LAND:
        raise GeometryError("body", "parting", "the parting plane must lie between the raw sole and the rails' tops",
                            parting_z=cast.parting_z, lowest=-cast.sole,
                            highest=round(size.rail_height - edge - LAND, 3))  # fmt: skip
    _least("rim", "the cheek at its peak", cheek_thickness(size, size.cheek_height), edge + HAND_BREAK + LAND)
    _least("rim", "the rail above the plate", size.rail_height - size.sole, root + edge + LAND)
    _least("rim", "the stock on the cheeks", cast.side, edge)
    _least("rim", "the stock on toe and heel", cast.end, edge)
    _least("pads", "the stock on the pads", cast.pad, max(top_edge_loss(size, s) for s in steps(size)))
    _least("bosses", "the stock on the bosses", cast.boss, edge)
    most = largest_corner_radius(size)
    if size.corner_radius > most:
        raise GeometryError("body", "outside", "the corner radius makes the rails' ends too sharp",
                            corner_radius_mm=size.corner_radius, most_mm=round(most, 3))  # fmt: skip
    env = envelope(size)
    _least("outside", "the corner radius at the top", env.corner - env.inset(size.cheek_height + ABOVE), 0.2)
    _least("pads", "the room between pad and cheek",
           inside_half(size, size.low_pad.z) - max(size.low_pad.half_width, size.high_pad.half_width), 0.0)  # fmt: skip
    _least("mouth", "the cheek left beside the mouth", size.width / 2 - size.mouth_half_width, 2.0)
    _check_plate(size)
    for hole in holes(size):
        _least("holes", f"the metal under the hole at x = {hole.x:.1f}", hole_floor(hole), UNDER_HOLE)
    _least("floor", "the width between the cheeks", 2 * inside_half(size, size.sole), 2 * hollow_radius(size) + 10.0)


def _check_plate(size: BodySize) -> None:
    """Refuse what stands on the plate without room for its roundings."""
    edge, root = size.cast.edge_radius, size.root_radius
    room = inside_half(size, size.sole) - root
    feet = [(*raised_from_to(size), "frog pads")]
    for boss in bosses_of(size):
        foot = ring_reach(size, boss)
        _least("bosses", "the plate between boss and cheek", room - foot, LAND)
        _least("bosses", "the boss above the plate", boss.z_top - size.sole, 0.3)
        _least("bosses", "the root radius that fits the boss's height", boss_roundings(size, boss)[0], 0.5)
        feet.append((boss.x - foot, boss.x + foot, f"boss at x = {boss.x:.1f}"))
    for rib in ribs_of(size):
        _least("ribs", "the rib above the plate", rib.z - size.sole, 1.5)
        _least("ribs", "the rib's length", 2 * rib.half_long, 4 * rib.half_thick)
        foot = rib.half_thick + rib.root
        lowest = min(rim_height(size, rib.x - foot), rim_height(size, rib.x + foot))
        _least("ribs", f"the rim above the rib at x = {rib.x:.1f}", lowest - rib.z, 0.0)
        feet.append((rib.x - foot, rib.x + foot, f"rib at x = {rib.x:.1f}"))
    feet.sort()
    for (_, a_to, a), (b_from, _, b) in pairwise(feet):
        _least("floor", f"the plate between {a} and {b}", b_from - a_to, 0.0)
    for x in (raised_from_to(size)[0], size.high_pad.x0, size.high_pad.x1):
        tall = low_pad_raw(size) if x < size.high_pad.x0 else high_pad_raw(size)
        _least("pads", f"the cheek above the pads at x = {x:.1f}", rim_height(size, x) - tall, root + edge + LAND)
