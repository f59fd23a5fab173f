"""What must hold by arithmetic before the kernel is asked for a low-angle body, each reason with what to change."""

from __future__ import annotations

from collections.abc import Iterator

from parts.body.low_angle.block import block_reach, throat
from parts.body.low_angle.floor import (
    floor,
    foot_reach,
    hollow_radius,
    land_from,
    rim_need,
    rim_room,
    sides,
    top_edge_loss,
)
from parts.body.low_angle.seats_room import seat_lacks
from parts.body.low_angle.size import LowBodySize
from parts.body.low_angle.spec import FEATHER_LEAST
from parts.body.low_angle.toe_room import toe_way_lacks
from parts.body.room import (
    Foot,
    Lack,
    holes_lacks,
    plate_lacks,
    refuse,
    ring_reach,
    short,
    trough_lacks,
)
from parts.body.size import TappedHole
from parts.body.walls import inside_half
from shared.errors import GeometryError

LAND_LEAST = 8.0  # length of a land along the bed; shorter ones rock the blade; common practice, no source [mm]
SAND_RIDGE = 4.0  # flat plate between land and bridge: a thinner ridge of green sand breaks; common practice [mm]
ABOVE_PLATE = 0.3  # least height of the bed over the plate where the front land ends [mm]
MOUTH_LOW = 0.5  # the mouth's cutter runs this far through the sole [mm]
MOUTH_NARROW = 1.4  # width of the narrowest slot mill that goes through the plate; common practice, no source [mm]
# what shifts the bridge: no key sets its place or length, they follow from the front land
BRIDGE_LAND = "raise bed.angle; no key sets the bridge's length, it follows from the clamp's foot"
RIDGE = "lower body.root_radius, which draws in both feet, or raise bed.angle, which shortens them, until {by} are won"
AT_END = 1.0  # plate left between the last foot and toe or heel [mm]


def holes(size: LowBodySize) -> tuple[TappedHole, ...]:
    """Return every tapped hole of the body, not the toe piece's."""
    return (size.stud, *(b.hole for b in size.bosses if b is not size.stud_boss))


def feet(size: LowBodySize) -> list[Foot]:
    """Return what stands on the plate or is cut in it besides ribs and round bosses."""
    land, front, aft = sides(size)
    # the mouth's cutter goes on a little above the plate
    out = [
        (min(throat(size, size.sole + 1.0), land_from(size) - hollow_radius(size)), foot_reach(size, land),
         "mouth and front land"),
        (foot_reach(size, front), foot_reach(size, aft), "bridge"),
    ]  # fmt: skip
    if size.wheel_well is not None:
        out.append((max(size.wheel_well.x0, foot_reach(size, aft)), size.wheel_well.x1, "wheel well"))
    if size.toe_way is not None:
        x0, x1, _ = block_reach(size, size.toe_way)
        out.append((x0, x1, "bridge block"))
    return out


def lacks(size: LowBodySize) -> list[Lack]:
    """Return every reason why a body cannot be built; empty when there is none."""
    found: list[Lack] = []
    try:
        found.extend(_lacks(size))
        floor(size, 5.0)
    except GeometryError as err:
        # an outline that cannot even be drawn: of use only where nothing before tells why
        values = {k: v for k, v in err.values.items() if isinstance(v, float | int)}
        found = found or [Lack(err.step, err.reason, values)]
    return found


def check_limits(size: LowBodySize) -> None:
    """Refuse a body that cannot be built.

    Raises:
        GeometryError: names the step, what is too small, and by how much.
    """
    refuse(lacks(size))


def _lacks(size: LowBodySize) -> Iterator[Lack]:
    yield from trough_lacks(size)
    yield from _bed(size)
    yield from plate_lacks(size, feet(size))
    yield from _cheeks_above(size)
    yield from holes_lacks(holes(size))
    yield from seat_lacks(size)
    if size.toe_way is not None:
        yield from toe_way_lacks(size, size.toe_way)


def _bed(size: LowBodySize) -> Iterator[Lack]:
    half = inside_half(size, size.sole)
    yield from short("bed", "the feather behind the mouth", size.feather, FEATHER_LEAST, "raise body.feather by {by}")
    yield from short("bed", "the plate above the feather", size.sole - size.feather, 1.0,
                     "lower body.feather by {by}, or thicken body.sole_thickness as much")  # fmt: skip
    yield from short("bed", "the front land", size.front_land, LAND_LEAST)
    yield from short("bed", "the bed above the plate where the front land ends", size.bed_z(size.ramp_to) - size.sole,
                     ABOVE_PLATE, "thin body.sole_thickness by {by}, or raise bed.angle")  # fmt: skip
    yield from short("bridge", "the aft land", size.aft_land, LAND_LEAST, BRIDGE_LAND)
    wide = "widen body.width by {twice}, thin body.cheek_thickness by {by}, or narrow blade.width by {twice}"
    yield from short("bed", "the room between bed and cheek", half - size.mouth_half_width, 0.02, wide)
    wide = "widen body.width by {by}, or lower body.root_radius"
    yield from short("floor", "the width between the cheeks", 2 * half, 2 * hollow_radius(size) + 10.0, wide)
    most = max(top_edge_loss(size, side) for side in sides(size))
    yield from short("bed", "the stock on the bed", size.cast.pad, most,
                     "ask for a coarser casting.tolerance_grade or machining_grade in shop.toml")  # fmt: skip
    narrow = size.bed_from - throat(size, -MOUTH_LOW)
    yield from short("mouth", "the slot at its narrowest", narrow, MOUTH_NARROW,
                     "raise body.mouth_opening by {by}, or raise body.feather")  # fmt: skip
    land, front, aft = sides(size)
    gap = foot_reach(size, front) - foot_reach(size, land)
    yield from short("floor", "the plate between front land and bridge", gap, SAND_RIDGE, RIDGE)
    ahead = min([*(x for x, _, _ in feet(size)), *(b.x - ring_reach(size, b) for b in size.bosses)])
    yield from short("floor", "the plate at the toe", ahead - size.toe_x, AT_END, "raise body.mouth_from_toe by {by}")
    yield from short("floor", "the plate at the heel", size.heel_x - foot_reach(size, aft), AT_END,
                     "lengthen body.length by {by}, or lower body.mouth_from_toe as much")  # fmt: skip


def _cheeks_above(size: LowBodySize) -> Iterator[Lack]:
    """Give a reason wherever the rim runs too near to land or bridge for root and rim to be rounded."""
    for name, x, room in rim_room(size):
        yield from short("rim", f"the cheek above the {name} at x = {x:.1f}", room, rim_need(size),
                         "raise body.cheek_height by {by}, or thin body.sole_thickness")  # fmt: skip
