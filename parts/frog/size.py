"""Every resolved size of a frog.

Positions are in the plane's frame with the frog at its nominal place: x, z [mm]. Along the bed the blade frame's
s is used, and h is the depth below the bed face (h = 0), along the inward normal.
"""

from __future__ import annotations

from math import cos, radians, sin

from shared.record import Record

# classes of ISO 286; common practice, no source
PIN_HOLE_CLASS = "H7"  # reamed holes for the pressed pins
WAY_CLASS = "H8"  # the way over the body's key
SLOT_CLASS = "H11"  # width of the hold-down slots, milled in one pass: room for the screw


class FrogSize(Record):
    """Resolved frog [mm, deg]."""

    bed_angle: float
    blade_thickness: float
    half_width: float  # of the bed face
    low_z: float  # low seat
    high_z: float  # high seat
    high_from: float  # x where the high seat begins
    bed_top: float  # s of the bed's upper end
    bed_plate: float  # thickness h of the bed plate behind the rear face, at the parting plane
    bed_wall: float  # thickness h of the wall between bed and side pockets
    rear_at: float  # s of the rear face that carries the depth post
    rear_depth: float  # h of the rear face's lower end
    floor: float  # thickness of the foot over the high seat
    rear_wall: float  # thickness of the wall at the aft end
    front_wall: float  # thickness of the wall over the low seat and riser
    web_half: float  # half thickness of the middle web
    relief: tuple[float, float]  # bed relief between the two lands, from s to s
    relief_depth: float
    holddown_at: float  # x of both hold-down screws
    holddown_y: float
    holddown_slot: tuple[float, float]  # slot length along x, width
    access: tuple[float, float]  # opening through the bed plate above each screw: length along x, width
    key_half: float  # half width of the way
    key_depth: float  # depth of the way from the high seat up
    cap_screw_at: float  # s
    cap_screw_tap_drill: float
    cap_screw_depth: float  # h
    yoke_at: float  # s
    yoke_slot: tuple[float, float, float]  # from s, to s, half width
    yoke_pivot_h: float
    yoke_pin: float
    yoke_pin_to: float  # the pin hole runs from the right side to y = -yoke_pin_to
    post_h: float  # depth of the depth post's axis
    post_tap_drill: float
    post_tap_depth: float
    lateral_at: float  # s of the lateral lever's pivot
    lateral_pin: float
    lateral_recess: tuple[float, float, float]  # from s to the top, half width, depth
    travel: float  # along the sole, each way
    draft: float
    stock: float  # on each machined face of the casting
    required: float  # least of that stock anywhere: the required machining allowance
    root_radius: float

    def bed_point(self, s: float, h: float = 0.0) -> tuple[float, float]:
        """Return (x, z) of a point s up the bed and h below it [mm]."""
        b, t = radians(self.bed_angle), self.blade_thickness
        return (t + h) * sin(b) + s * cos(b), -(t + h) * cos(b) + s * sin(b)

    @property
    def bed_foot(self) -> float:
        """s where the bed begins, at the low seat's height."""
        b = radians(self.bed_angle)
        return (self.low_z + self.blade_thickness * cos(b)) / sin(b)

    @property
    def aft(self) -> float:
        """x of the frog's aft end."""
        return self.bed_point(self.rear_at, self.rear_depth)[0]

    def outline(self) -> list[tuple[float, float]]:
        """Return the finished side outline's corners (x, z) [mm], counter-clockwise seen with x to the right, z up.

        Foot of the bed, low seat, riser, high seat, aft wall, rear face, underside of the bed plate, bed top.
        """
        rear = self.bed_point(self.rear_at, self.rear_depth)
        return [
            self.bed_point(self.bed_foot),
            (self.high_from, self.low_z),
            (self.high_from, self.high_z),
            (rear[0], self.high_z),
            rear,
            self.bed_point(self.rear_at, self.bed_plate),
            self.bed_point(self.bed_top, self.bed_plate),
            self.bed_point(self.bed_top),
        ]
