"""What must hold by arithmetic before the kernel is asked for a bench body, so that it never meets what it cannot."""

from __future__ import annotations

from collections.abc import Iterator

from parts.body.arch import rim_height
from parts.body.floor import high_pad_raw, hollow_radius, low_pad_raw, raised_from_to, steps, top_edge_loss
from parts.body.ribs import bosses_of
from parts.body.room import LAND, Lack, holes_lacks, plate_lacks, refuse, short, trough_lacks
from parts.body.size import BodySize, TappedHole
from parts.body.walls import inside_half


def holes(size: BodySize) -> tuple[TappedHole, ...]:
    """Return every tapped hole of the body."""
    bosses = tuple(b.hole for b in bosses_of(size))
    return (*size.holddown, *bosses)


def lacks(size: BodySize) -> Iterator[Lack]:
    """Give every reason why a body cannot be built."""
    edge, root = size.cast.edge_radius, size.root_radius
    yield from trough_lacks(size)
    yield from short("pads", "the stock on the pads", size.cast.pad, max(top_edge_loss(size, s) for s in steps(size)))
    widest = max(size.low_pad.half_width, size.high_pad.half_width)
    yield from short("pads", "the room between pad and cheek", inside_half(size, size.low_pad.z) - widest, 0.0)
    yield from plate_lacks(size, [(*raised_from_to(size), "frog pads")])
    for x in (raised_from_to(size)[0], size.high_pad.x0, size.high_pad.x1):
        tall = low_pad_raw(size) if x < size.high_pad.x0 else high_pad_raw(size)
        yield from short("pads", f"the cheek above the pads at x = {x:.1f}", rim_height(size, x) - tall,
                         root + edge + LAND)  # fmt: skip
    yield from holes_lacks(holes(size))
    yield from short("floor", "the width between the cheeks", 2 * inside_half(size, size.sole),
                     2 * hollow_radius(size) + 10.0)  # fmt: skip


def check_limits(size: BodySize) -> None:
    """Refuse a body that cannot be built.

    Raises:
        GeometryError: names the step, what is too small, and by how much.
    """
    refuse(lacks(size))
