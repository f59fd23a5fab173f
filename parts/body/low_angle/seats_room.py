"""Room for what is cut in a low-angle body from solid: stud, bores, grooves, wheel well, grip hollows."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, hypot, radians, sin

from parts.body.arch import rim_height
from parts.body.low_angle.layout import HOLLOW_LEFT
from parts.body.low_angle.size import BedBore, GripHollow, LowBodySize
from parts.body.room import HAND_BREAK, Lack, short
from parts.body.walls import cheek_thickness, inside_half

WALL = 1.5  # metal between two holes, and between a hole and the sole face; common practice, no source [mm]
ROUND_STUD = 2.0  # metal round the stud's hole where it leaves a land [mm]
STUD_DEPTH = 3.0  # of its hole [mm]
WELL_FLOOR = 2.5  # metal under a wheel well [mm]
DEEPER = "raise bed.angle, which puts more metal under stud and post"
WELL_CORNER = 3.0  # radius of its corners: the cutter's [mm]
SOLE_SIDE = 2.0  # from the sole face up to a grip hollow [mm]
RIM_SIDE = 1.0  # from a grip hollow up to the rim's rounding [mm]


def seat_lacks(size: LowBodySize) -> Iterator[Lack]:
    """Give every reason why what is cut from solid has no room."""
    yield from _stud(size)
    for bore in size.bores:
        yield from _bore(size, bore)
    for groove in size.grooves:
        x, z = size.on_bed(groove.s_from, groove.depth)
        yield from short("groove", f"the metal under the groove at x = {x:.1f}", z, WALL, "a shallower groove")
        yield from short("groove", "the land beside the groove", size.mouth_half_width - groove.half_width, 3.0)
        yield from short("groove", "the groove's length", groove.s_to - groove.s_from, 2 * groove.half_width + 0.5)
    well = size.wheel_well
    if well is not None:
        yield from short("wheel well", "the metal under the well", well.z, WELL_FLOOR,
                         "thicken body.sole_thickness by {by}")  # fmt: skip
        yield from short("wheel well", "the well from the bridge's top", well.x0 - size.bridge.x1, 0.0)
        yield from short("wheel well", "the well's length", well.x1 - well.x0, 2 * WELL_CORNER + 0.5)
        yield from short("wheel well", "the well's width", 2 * well.half_width, 2 * WELL_CORNER + 0.5)
        yield from short("wheel well", "the plate aft of the well", size.heel_x - well.x1, 3.0,
                         "lengthen body.length by {by}")  # fmt: skip
        room = inside_half(size, size.sole) - well.half_width
        yield from short("wheel well", "the plate beside the well", room, 0.02, "widen body.width by {twice}")
    if size.grip is not None:
        yield from _grip(size, size.grip)


def _stud_span(size: LowBodySize) -> tuple[float, float]:
    """Return the stud axis's place up the bed, and how far below the bed plane its hole reaches [mm]."""
    b, h = radians(size.bed_angle), size.stud
    s = h.x * cos(b) + h.z_top * sin(b)
    below = h.x * sin(b) - h.z_top * cos(b)
    return s, below + h.depth


def _stud(size: LowBodySize) -> Iterator[Lack]:
    h = size.stud
    yield from short("stud", "the depth of its hole", h.depth, STUD_DEPTH, DEEPER)
    if abs(h.lean - size.bed_angle) > 1e-6:
        yield Lack("stud", "it must stand square to the bed", {"lean_deg": h.lean, "bed_deg": size.bed_angle})
    b, r = radians(size.bed_angle), h.tap_drill / 2
    if size.stud_boss is None:
        lands = ((size.bed_from, size.ramp_to), (size.bridge.x0, size.bridge.x1))
        inside = max(min(h.x - x0, x1 - h.x) for x0, x1 in lands)
        yield from short("stud", "the metal round it in its land", inside - r * cos(b), ROUND_STUD)
        if abs(size.bed_z(h.x) - h.z_top) > 1e-6:
            yield Lack("stud", "its hole must start on the bed plane", {"z": h.z_top, "bed_z": size.bed_z(h.x)})
    else:
        boss = size.stud_boss
        below = size.bed_z(boss.x - boss.diameter / 2) - boss.z_top
        yield from short("stud", "the bed plane above the stud's boss", below, 0.1, DEEPER)


def _bore(size: LowBodySize, bore: BedBore) -> Iterator[Lack]:
    b, r = radians(size.bed_angle), bore.diameter / 2
    x, z = size.on_bed(bore.s_from, bore.below)
    low = z - r * cos(b)
    yield from short("bore", f"the metal under the bore at x = {x:.1f}", low, WALL, DEEPER)
    yield from short("bore", "the metal between bore and bed", bore.below - r, 1.0)
    yield from short("bore", "its length", bore.s_to - bore.s_from, 0.5)
    s, deep = _stud_span(size)
    stud_r = size.stud.tap_drill / 2
    along = max(bore.s_from - s, s - bore.s_to) - stud_r
    across = bore.below - r - deep
    apart = hypot(max(along, 0.0), max(across, 0.0)) if max(along, across) > 0 else 0.0
    yield from short("bore", "the metal between bore and stud", apart, WALL,
                     "raise bed.angle: the stud, finding its depth, comes nearer the edge")  # fmt: skip


def _grip(size: LowBodySize, grip: GripHollow) -> Iterator[Lack]:
    top = grip.z + grip.height / 2
    lower = "raise body.cheek_height by {by}, or set body.grip_hollows = false"
    left = cheek_thickness(size, grip.z) - grip.depth
    yield from short("grip hollow", "the cheek behind it", left, HOLLOW_LEFT - 0.05,
                     "thicken body.cheek_thickness by {by}")  # fmt: skip
    yield from short("grip hollow", "its depth", grip.depth, 0.3, lower)
    yield from short("grip hollow", "the cheek under it", grip.z - grip.height / 2, SOLE_SIDE, lower)
    for share in (-0.5, -0.25, 0.0, 0.25, 0.5):
        # its outline is near an ellipse
        reach = grip.z + grip.height / 2 * (1 - (2 * share) ** 2) ** 0.5
        x = grip.x + share * grip.length
        yield from short("grip hollow", f"the cheek above it at x = {x:.1f}",
                         rim_height(size, x) - reach, RIM_SIDE + HAND_BREAK, lower)  # fmt: skip
    if min(grip.length, grip.height) < 4 * grip.depth or top <= 0:
        yield Lack("grip hollow", "it is too steep at its edge", {"depth": grip.depth, "height": grip.height})
