"""What must hold of any body by arithmetic before the kernel is asked for it, and what is wrong when it does not."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from itertools import pairwise
from math import ceil, cos, floor, radians, sin

from parts.body.arch import rim_height
from parts.body.ribs import boss_foot, boss_roundings, ribs_of
from parts.body.size import Boss, TappedHole, Trough
from parts.body.walls import ABOVE, cheek_thickness, envelope, inside_half
from shared.errors import GeometryError

HAND_BREAK = 0.8  # radius of every edge of the finished rim that a hand meets; common practice, no source [mm]
MOUTH_CORNER = 0.6  # radius of the cutter that finishes the mouth's ends; common practice, no source [mm]
RING_DEPTH = 0.2  # the hollow mill sinks this far into the plate round a boss [mm]
RING_BEYOND = 0.3  # and cuts this far past the boss's cast root [mm]
LAND = 0.3  # least flat left between two roundings of one rim [mm]
TIP_ANGLE = 73.0  # least angle of the metal where a plan corner meets the inside of a rail, in plan [deg]
UNDER_HOLE = 0.5  # below this a hole counts as broken through the sole [mm]
FLOOR_LEFT = 2.5  # metal left above the sole face under a tapped hole; common practice, no source [mm]

Foot = tuple[float, float, str]  # what stands on the plate: x from, x to [mm], name


@dataclass(frozen=True)
class Lack:
    """One reason why a body cannot be built."""

    step: str
    reason: str
    values: dict[str, float] = field(default_factory=dict)
    change: str = ""  # which key of the spec to change, and which way

    def error(self) -> GeometryError:
        """Return the reason as the error that refuses the body."""
        return GeometryError("body", self.step, self.reason, **self.values)


def refuse(lacks: Iterable[Lack]) -> None:
    """Refuse a body for the first reason found.

    Raises:
        GeometryError: names the step, what is too small, and by how much.
    """
    for lack in lacks:
        raise lack.error()


def short(step: str, what: str, value: float, least: float, change: str = "") -> Iterator[Lack]:
    """Give a reason when a length [mm] is less than its least [mm].

    `change` may say `{by}` for what is lacking, and `{twice}` for double that, each with its unit.
    """
    if value < least - 1e-9:
        # rounded up, so that a change by what is said is enough
        by, twice = (f"{ceil(100 * k * (least - value) - 1e-6) / 100:.2f} mm" for k in (1, 2))
        reason = f"{what} is {value:.3g} mm, needs {least:.3g} mm or more"
        yield Lack(step, reason, change=change.format(by=by, twice=twice))


def ring_reach(size: Trough, boss: Boss) -> float:
    """Return the outer radius of what stands or is cut round a boss [mm]: its root, or what the hollow mill cuts."""
    return boss_foot(size, boss) + (RING_BEYOND if boss.turned else 0.0)


def hole_floor(hole: TappedHole) -> float:
    """Return the height of a flat-bottomed hole's lowest place above the sole face [mm]."""
    lean = radians(hole.lean)
    return hole.z_top - hole.depth * cos(lean) - hole.tap_drill / 2 * abs(sin(lean))


def hole_depth(z_top: float, tap_drill: float, lean: float = 0.0) -> float:
    """Return the drilled depth of a flat-bottomed hole along its axis [mm] that leaves `FLOOR_LEFT` under it.

    Args:
        z_top: height of the hole's mouth above the sole face [mm].
        tap_drill: its diameter [mm]; of a leaning hole the low side of the flat bottom decides.
        lean: of its axis from upright [deg].
    """
    a = radians(lean)
    return (z_top - FLOOR_LEFT - tap_drill / 2 * abs(sin(a))) / cos(a)


def largest_corner_radius(size: Trough) -> float:
    """Return the largest plan radius of the corners [mm]: more would make the rails' ends too sharp for a hand."""
    return cheek_thickness(size, size.rail_height) / (1 - cos(radians(TIP_ANGLE)))


def trough_lacks(size: Trough) -> Iterator[Lack]:
    """Give every reason why plate and cheeks cannot be built."""
    cast = size.cast
    edge, root = cast.edge_radius, size.root_radius
    # said in whole thousandths within the range, so that the limit as said is itself accepted
    lowest, highest = ceil(-1e3 * cast.sole - 1e-6) / 1e3, floor(1e3 * (size.rail_height - edge - LAND) + 1e-6) / 1e3
    if not min(-cast.sole, lowest) - 1e-9 <= cast.parting_z <= max(size.rail_height - edge - LAND, highest) + 1e-9:
        yield Lack(
            "parting",
            "the parting plane must lie between the raw sole and the rails' tops",
            {"parting_z": cast.parting_z, "lowest": lowest, "highest": highest},
            f"set body.parting_height between {lowest:g} mm and {highest:g} mm, or leave it out: the raw sole face",
        )
    thicker = "thicken body.cheek_thickness by {by}"
    coarser = "ask for a coarser casting.tolerance_grade or machining_grade in shop.toml"
    yield from short("rim", "the cheek at its peak", cheek_thickness(size, size.cheek_height), edge + HAND_BREAK + LAND,
                     thicker)  # fmt: skip
    yield from short("rim", "the rail above the plate", size.rail_height - size.sole, root + edge + LAND,
                     "raise body.rail_height by {by}, or lower body.root_radius as much")  # fmt: skip
    yield from short("rim", "the stock on the cheeks", cast.side, edge, coarser)
    yield from short("rim", "the stock on toe and heel", cast.end, edge, coarser)
    yield from short("bosses", "the stock on the bosses", cast.boss, edge, coarser)
    most = largest_corner_radius(size)
    if size.corner_radius > most:
        yield Lack(
            "outside",
            "the corner radius makes the rails' ends too sharp",
            {"corner_radius_mm": size.corner_radius, "most_mm": round(most, 3)},
            f"lower body.corner_radius to {most:.2f} mm, or leave it out",
        )
    env = envelope(size)
    yield from short("outside", "the corner radius at the top",
                     env.corner - env.inset(size.cheek_height + ABOVE), 0.2, thicker)  # fmt: skip
    yield from short("mouth", "the cheek left beside the mouth", size.width / 2 - size.mouth_half_width, 2.0,
                     "widen body.width by {twice}, or narrow blade.width as much")  # fmt: skip


def holes_lacks(holes: Iterable[TappedHole]) -> Iterator[Lack]:
    """Give a reason for every hole that would break through the sole."""
    for hole in holes:
        yield from short("holes", f"the metal under the hole at x = {hole.x:.1f}", hole_floor(hole), UNDER_HOLE,
                         "thicken body.sole_thickness by {by}")  # fmt: skip


def plate_lacks(size: Trough, feet: Iterable[Foot]) -> Iterator[Lack]:
    """Give a reason for everything that stands on the plate without room for its roundings.

    Args:
        size: the body.
        feet: what stands on the plate besides ribs and bosses.
    """
    room = inside_half(size, size.sole) - size.root_radius
    standing = list(feet)
    for boss in size.bosses:
        foot = ring_reach(size, boss)
        yield from short("bosses", "the plate between boss and cheek", room - foot, LAND, "widen body.width by {twice}")
        yield from short("bosses", "the boss above the plate", boss.z_top - size.sole, 0.3)
        yield from short("bosses", "the root radius that fits the boss's height", boss_roundings(size, boss)[0], 0.5)
        standing.append((boss.x - foot, boss.x + foot, f"boss at x = {boss.x:.1f}"))
    for rib in ribs_of(size):
        yield from short("ribs", "the rib above the plate", rib.z - size.sole, 1.5)
        yield from short("ribs", "the rib's length", 2 * rib.half_long, 4 * rib.half_thick)
        foot = rib.half_thick + rib.root
        lowest = min(rim_height(size, rib.x - foot), rim_height(size, rib.x + foot))
        yield from short("ribs", f"the rim above the rib at x = {rib.x:.1f}", lowest - rib.z, 0.0)
        standing.append((rib.x - foot, rib.x + foot, f"rib at x = {rib.x:.1f}"))
    standing.sort()
    for (_, a_to, a), (b_from, _, b) in pairwise(standing):
        yield from short("floor", f"the plate between {a} and {b}", b_from - a_to, 0.0)
