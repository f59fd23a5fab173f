"""Every resolved size of a low-angle body, in the plane's frame [mm, deg].

The blade's flat back lies on the bed plane z = x·tan(bed angle), its edge at the origin. Places on the bed are given
as s, the distance [mm] from the edge up the bed, and as a depth below the bed plane, square to it.
"""

from __future__ import annotations

from math import cos, radians, sin, tan

from parts.body.size import Boss, TappedHole, Trough
from shared.record import Record

THROAT = 0.3  # the body's throat stands this far ahead of the toe piece at its widest mouth [mm]


class Bridge(Record):
    """The cross bar from cheek to cheek that carries the blade's upper part; its top is cut on the bed plane."""

    x0: float  # where its finished top begins, on the bed plane
    x1: float  # where it ends


class BedBore(Record):
    """A round hole along the bed direction, in the middle plane, for the depth adjuster."""

    below: float  # depth of its axis below the bed plane
    diameter: float
    s_from: float  # distance up the bed of its lower end
    s_to: float  # and of its upper end
    thread: str = ""  # name of a thread tapped in it; empty: a plain hole


class BedGroove(Record):
    """A straight groove cut in the bed along the bed direction, in the middle plane, with square ends of the cutter."""

    s_from: float
    s_to: float
    half_width: float
    depth: float  # below the bed plane


class WheelWell(Record):
    """A round-cornered pocket milled in the plate's top where the adjuster's wheel or the fingers need room."""

    x0: float
    x1: float
    half_width: float
    z: float  # its floor above the sole face


class GripHollow(Record):
    """A shallow hollow milled in each cheek's outside for thumb and finger."""

    x: float  # its middle
    z: float
    length: float  # along x, where it runs out in the cheek
    height: float  # along z, where it runs out
    depth: float  # at its middle


# upper and lower deviation [mm] across: pocket (which is the mouth there) and piece; common practice, no source
POCKET_TOL = (0.02, 0.0)
PIECE_TOL = (0.0, -0.02)
# the same along [mm]: the pocket is never shorter nor the piece longer, so that the full travel always fits
POCKET_LENGTH_TOL = (0.3, 0.0)
PIECE_LENGTH_TOL = (0.0, -0.3)
# of the ledges' height and the plate's thickness [mm]: the plate is never thinner, and is lapped or ground flush
LEDGE_TOL = (0.03, 0.0)
PLATE_TOL = (0.06, 0.03)


class ToeWay(Record):
    """The machined way in the sole ahead of the mouth, and the toe piece that slides in it.

    The toe piece is a flat plate as wide as the mouth, flush with the sole, with a round boss on top. The plate is
    drawn up against a ledge each side; the boss stands in an oblong pocket of the bridge block above; a stud in the
    boss goes up through a slot in the block, and the knob on it locks the piece. Its aft end is the mouth's front.
    """

    opening_least: float  # mouth opening with the piece right aft; may be 0
    opening_most: float  # with the piece right ahead
    toe_end: float  # x of the pocket's toe end in the sole
    corner: float  # radius of the pocket's corners at its toe end: the cutter's
    ledge_z: float  # height of the ledges above the sole face = thickness of the piece's plate
    boss_x: float  # x of boss and stud when the mouth stands at the body's `mouth_opening`
    boss_radius: float  # of the oblong pocket; the piece's boss is smaller by `boss_clearance`
    boss_z: float  # height of the oblong pocket's roof above the sole face
    block_z: float  # finished top of the bridge block: the knob's foot stands on it
    block_wall: float  # finished metal round the oblong pocket
    stud: TappedHole  # in the boss, seen with the mouth at the body's `mouth_opening`; blind, ends above the sole
    stud_slot: float  # width of the slot for the stud in the block
    side_clearance: float = 0.03  # between plate and pocket, each side
    boss_clearance: float = 0.25  # between boss and pocket, sides and roof
    end_clearance: float = 0.4  # left at each end of the travel

    @property
    def travel(self) -> float:
        """How far the piece slides [mm]."""
        return self.opening_most - self.opening_least


class LowBodySize(Trough):
    """Resolved body of a low-angle plane. See `Trough` for plate, cheeks, mouth, ribs and casting allowances.

    `mouth_half_width` is also half the width that the bed is milled to, in one cut with the mouth.
    `cast.pad` is the stock on bed and bridge block, square to the face.
    """

    feather: float  # height of the upright land behind the mouth = metal left at the bed's lower end
    ramp_to: float  # x where the front land's finished top ends, on the bed plane
    bridge: Bridge
    stud: TappedHole  # lever-cap stud: x and z_top where its axis leaves the metal; lean = bed angle
    stud_boss: Boss | None  # round boss of its own (not turned); None: the stud stands in ramp or bridge
    bores: tuple[BedBore, ...]
    grooves: tuple[BedGroove, ...]
    wheel_well: WheelWell | None
    knob_boss: Boss | None  # or the front finger rest's; None with a toe way, whose block takes its place
    tote_boss: Boss | None  # None in block size
    toe_boss: Boss | None  # second screw at the tote's toe
    grip: GripHollow | None
    toe_way: ToeWay | None

    @property
    def bosses(self) -> tuple[Boss, ...]:
        """Every round boss there is."""
        return tuple(b for b in (self.knob_boss, self.stud_boss, self.toe_boss, self.tote_boss) if b is not None)

    def bed_z(self, x: float) -> float:
        """Return the height of the bed plane above the sole face [mm] at x [mm]."""
        return x * tan(radians(self.bed_angle))

    def on_bed(self, s: float, below: float = 0.0) -> tuple[float, float]:
        """Return (x, z) [mm] of a place s [mm] up the bed and a depth [mm] below the bed plane."""
        b = radians(self.bed_angle)
        return s * cos(b) + below * sin(b), s * sin(b) - below * cos(b)

    @property
    def bed_from(self) -> float:
        """X where the bed begins, at the top of the upright land behind the mouth [mm]."""
        return self.feather / tan(radians(self.bed_angle))

    @property
    def front_land(self) -> float:
        """Length of the front land along the bed [mm]."""
        return (self.ramp_to - self.bed_from) / cos(radians(self.bed_angle))

    @property
    def aft_land(self) -> float:
        """Length of the aft land along the bed [mm]."""
        return (self.bridge.x1 - self.bridge.x0) / cos(radians(self.bed_angle))
