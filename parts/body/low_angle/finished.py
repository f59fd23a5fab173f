"""The low-angle body as it leaves the grinder: the casting less what the machine shop takes off, and nothing else.

The bed is milled with the body held at the bed angle: an end mill, its axis square to the bed, comes from above
between the cheeks, runs up and down the bed, and runs out ahead through the mouth and aft behind the bridge. Mouth
and bed have one width, so that no wall stops the cutter.
"""

from __future__ import annotations

from math import cos, radians, sin

import cadquery as cq

from parts.body.low_angle.block import throat
from parts.body.low_angle.limits import MOUTH_LOW, check_limits, holes
from parts.body.low_angle.seats_room import WELL_CORNER
from parts.body.low_angle.size import BedBore, BedGroove, GripHollow, LowBodySize, WheelWell
from parts.body.low_angle.toe_way import way_cuts
from parts.body.machining import AIR, NEAR, PART, boss_cuts, break_hand_edges, drilled, skimmed
from parts.body.room import MOUTH_CORNER
from shared.cad.edges import fillet_named
from shared.cad.solids import Frame, cut_away, extrude, extrude_both, extrude_in, pick_edges, revolve
from shared.profile import Pen, Point, Profile

DISC_PART = 40.0  # of the disc that makes a grip hollow [deg]


def finished(size: LowBodySize, casting: cq.Solid) -> cq.Solid:
    """Return the finished body in the plane's frame [mm], without its toe piece.

    Args:
        size: the body's sizes, the same that made the casting.
        casting: what `parts.body.low_angle.casting.casting` gave.

    Raises:
        GeometryError: a size that cannot be built, or a kernel step that failed; names the step.
    """
    check_limits(size)
    body = break_hand_edges(size, skimmed(size, casting))
    tools = [bed_cut(size), *boss_cuts(size), *(drilled(h) for h in holes(size))]
    tools += [_bore(size, bore) for bore in size.bores] + [_groove(size, groove) for groove in size.grooves]
    if size.wheel_well is not None:
        tools.append(_well(size, size.wheel_well))
    if size.grip is not None:
        tools += [_hollow(size, size.grip, side) for side in (1.0, -1.0)]
    if size.toe_way is not None:
        tools += way_cuts(size, size.toe_way)
    return cut_away(body, tools, PART, "machining")


def bed_outline(size: LowBodySize) -> Profile:
    """Return what one width of cutter takes off in the side view (x, z) [mm]: mouth, bed and the toe piece's pocket."""
    low, high, over = -MOUTH_LOW, size.cheek_height + AIR, size.sole + AIR
    way = size.toe_way
    end = size.bridge.x1 + size.root_radius + 2 * AIR
    foot = size.bed_from
    path = Pen.at(*_front(size, low)) if way is None else Pen.at(way.toe_end, low)
    path = path.line_to(foot, low).line_to(foot, size.feather).line_to(end, size.bed_z(end)).line_to(end, high)
    path = path.line_to(throat(size, over), high).line_to(*_front(size, over))
    if way is not None:
        path = path.line_to(*_front(size, way.ledge_z)).line_to(way.toe_end, way.ledge_z)
    return path.close()


def _front(size: LowBodySize, z: float) -> Point:
    return throat(size, z), z


def bed_cut(size: LowBodySize) -> cq.Solid:
    """Return the mouth, the bed above it and, where there is one, the pocket of the toe piece, as one tool."""
    half, way, over = size.mouth_half_width, size.toe_way, size.sole + AIR
    tool = extrude_both(bed_outline(size), "y", 2 * half, part=PART)
    front_low = -MOUTH_LOW if way is None else way.ledge_z

    def ends_of(low: float, high: float, wall: float | None) -> list[cq.Edge]:
        """Return the two edges at the tool's sides along a wall (at x = wall, or the throat) between two heights."""

        def along(e: cq.Edge) -> bool:
            a, b = e.startPoint(), e.endPoint()
            on = all(abs(p.x - (throat(size, p.z) if wall is None else wall)) < NEAR for p in (a, b))
            return on and abs(min(a.z, b.z) - low) < NEAR and abs(max(a.z, b.z) - high) < NEAR

        return pick_edges(tool, along, 2, PART, "mouth")

    # the aft corners are filed square: a round there would leave the feather thinner than it is said to be
    tool = fillet_named(tool, PART, "mouth ends", ends_of(front_low, over, None), MOUTH_CORNER, gaps=[2 * half])
    if way is None:
        return tool
    pocket = ends_of(-MOUTH_LOW, way.ledge_z, way.toe_end)
    return fillet_named(tool, PART, "toe piece's pocket", pocket, way.corner, gaps=[2 * half])


def _bore(size: LowBodySize, bore: BedBore) -> cq.Solid:
    b = radians(size.bed_angle)
    x, z = size.on_bed(bore.s_from, bore.below)
    outline = Profile.rectangle(0.0, 0.0, bore.diameter / 2, bore.s_to - bore.s_from, name="bore")
    return revolve(outline, (x, 0.0, z), (cos(b), 0.0, sin(b)), part=PART)


def _groove(size: LowBodySize, groove: BedGroove) -> cq.Solid:
    b = radians(size.bed_angle)
    x, z = size.on_bed(0.0, groove.depth)
    frame = Frame((x, 0.0, z), (cos(b), 0.0, sin(b)), (0.0, 1.0, 0.0))
    r = groove.half_width
    outline = Profile.slot((groove.s_from + r, 0.0), (groove.s_to - r, 0.0), 2 * r, "groove")
    return extrude_in(outline, frame, frame.normal, groove.depth + AIR, part=PART)


def _well(size: LowBodySize, well: WheelWell) -> cq.Solid:
    plan = Profile.rectangle(well.x0, -well.half_width, well.x1, well.half_width, WELL_CORNER, "wheel well")
    return extrude(plan, "z", well.z, size.cheek_height, part=PART)


def grip_radii(grip: GripHollow) -> tuple[float, float]:
    """Return the hollow's radii along the body and up the cheek [mm]: chord and depth of two circles."""

    def radius(chord: float) -> float:
        return (chord**2 / 4 + grip.depth**2) / (2 * grip.depth)

    return radius(grip.length), radius(grip.height)


def _hollow(size: LowBodySize, grip: GripHollow, side: float) -> cq.Solid:
    """Return a disc with a crowned rim that dips into one cheek."""
    wide, crown = grip_radii(grip)
    half, flat = 0.75 * grip.height, size.width / 2 - grip.depth + wide
    # the rim's arc, carried on past the cheek's face
    in_by = crown - (crown**2 - half**2) ** 0.5
    rim = wide - in_by
    path = Pen.at(0.0, -half, "grip hollow").line_to(rim, -half)
    outline = path.radius_arc_to(rim, half, crown, left=True).line_to(0.0, half).close()
    foot = cq.Vector(grip.x, side * flat, grip.z)
    # only the part that meets the cheek: the kernel cuts with a small piece of a torus far sooner than with a whole one
    piece = revolve(outline, foot.toTuple(), angle=DISC_PART, part=PART)
    toward = -side * 90.0 - DISC_PART / 2
    return piece.rotate(foot, foot + cq.Vector(0, 0, 1), toward)
