"""Every resolved size of a lever cap, in the blade frame (see parts.blade.size)."""

from __future__ import annotations

from math import cos, radians, sin

from parts.lever_cap import spring
from shared.record import Record

PAST_CENTER = 10.0  # deg the lever goes beyond the cam's highest lift before it meets its stop
SWING = 100.0  # deg from open to shut
SIDE_PLAY = 0.3  # lever to ear, each side
RUNNING_PLAY = 0.1  # lever on its pivot, on the diameter
# upper and lower deviation of the lever's bore and of its pivot rivet [mm]; common practice, no source
PIVOT_BORE_TOL = (0.05, 0.0)
PIVOT_RIVET_TOL = (0.0, -0.03)
RIVET_HEAD = 1.0  # thickness of the spring rivet's head
RIVET_PLAY = 0.15  # under that head, so that the leaf can flatten


class LeverCapSize(Record):
    """Resolved lever cap [mm]; s and q in the blade frame, in the shut position."""

    width: float  # at the nose
    tail_width: float  # over the ears
    nose_at: float  # s of the line the nose presses on
    nose_q: float  # q of that line
    underside_q: float  # q of the cap's underside over the chipbreaker's plate; also its parting plane
    plate: float  # thickness of the cap's plate under the screw's head
    screw_at: float
    screw_shank: float
    screw_head: float
    head_q: float  # q of the screw head's underside when shut
    tail: float  # s of the cap's upper end
    pivot_at: float
    pivot_q: float
    pivot_diameter: float
    press_at: float  # s where cam, spring and chipbreaker meet
    press_q: float  # q of the chipbreaker's top, where the spring presses
    cam_radius: float
    eccentricity: float  # of the cam's centre from the pivot
    throw: float
    lever_width: float
    lever_length: float  # pivot to tip, along s
    hub_radius: float  # of the lever's top about the pivot
    ear_radius: float  # of the ears' top about the pivot
    stop_q: float  # q of the bridge behind the cam, on which the shut lever rests
    window: tuple[float, float]  # opening for the cam, from s to s
    spring_thickness: float
    spring_width: float
    spring_half: float  # from the cam to each foot of the leaf
    spring_bow: float  # height of the free leaf's middle over its feet
    spring_rivet_at: float
    rivet_diameter: float
    wall: float  # least cast wall
    outside_draft: float  # [deg]
    inside_draft: float  # [deg]
    nose_stock: float  # machining allowance on every machined face of both castings
    hole_minimum: float  # smaller openings are cast solid

    @property
    def cam_center(self) -> tuple[float, float]:
        """(s, q) of the cam's centre in the shut position [mm]; straight above the place where it presses."""
        return self.press_at, self.press_q + self.spring_thickness + self.cam_radius

    @property
    def slot_half(self) -> float:
        """Half width of the slot between the ears [mm]."""
        return self.lever_width / 2 + SIDE_PLAY

    @property
    def shank_slot(self) -> float:
        """Width of the keyhole's narrow part [mm]."""
        return self.screw_shank + 0.5

    @property
    def head_pass(self) -> float:
        """Diameter of the keyhole's round part, which passes the screw's head [mm]."""
        return self.screw_head + 0.8

    @property
    def slide(self) -> float:
        """How far the cap slides down the bed from the round part to its seat [mm]."""
        return self.head_pass / 2 + 0.75 * self.screw_head / 2

    @property
    def land(self) -> tuple[float, float]:
        """Milled land of the nose, from s to s [mm]: begins just ahead of the line, so that no shaving gets under."""
        return self.nose_at - 0.6, self.nose_at + 3.0

    @property
    def spring_end(self) -> float:
        """s of the leaf's free end, beyond its aft foot [mm]."""
        return self.press_at + self.spring_half + 2.2

    @property
    def strap_q(self) -> float:
        """q of the leaf's underside where it hangs on its rivet [mm]; its top touches the cap."""
        return self.underside_q - self.spring_thickness


def lever_cap_size(
    *,
    blade_width: float,
    nose_at: float,
    nose_q: float,
    plate_top: float,
    screw_at: float,
    screw_shank: float,
    screw_head: float,
    press_at: float,
    throw: float,
    spring_thickness: float,
    stock: float,
    draft: float,
    inside_draft: float = 2.0,
    hole_minimum: float = 12.0,
) -> LeverCapSize:
    """Resolve the lever cap from the stations along the blade [mm], stock [mm] and draft [deg].

    The numbers in it are proportions of this works (common practice, no source) or follow from what must clear:

    - underside: 1.4 mm over the chipbreaker's hump, and room under the spring rivet's head;
    - eccentricity: the throw over the swing from open to shut, past the centre;
    - pivot: above the pressing line by leaf, cam and eccentricity, aft of it by the past-centre lean;
    - window: clears the cam all through its swing; the bridge behind it is the lever's stop and is a full wall thick;
    - spring: its rivet clears the screw's head, its bend clears the rivet; what is left is the span, 11 mm at most.

    Args:
        blade_width: of the blade.
        nose_at: s of the chipbreaker's hump.
        nose_q: q of the hump's top.
        plate_top: q of the chipbreaker's plate.
        screw_at: s of the lever-cap screw.
        screw_shank: its diameter.
        screw_head: diameter of its head.
        press_at: s where the spring presses the chipbreaker.
        throw: rise of the cam from open to shut.
        spring_thickness: of the leaf.
        stock: machining allowance on a face.
        draft: of outside walls [deg].
        inside_draft: of the walls of openings [deg].
        hole_minimum: openings that would be cast smaller are cast solid.
    """
    wall, plate, cam_radius, rivet = 4.0, 4.5, 5.5, 4.0
    past, opened = radians(PAST_CENTER), radians(SWING - PAST_CENTER)
    underside = plate_top + max(nose_q - plate_top + 1.4, spring_thickness + RIVET_PLAY + RIVET_HEAD + 0.8)
    eccentricity = throw / (cos(past) - cos(opened))
    pivot_at = press_at + eccentricity * sin(past)
    pivot_q = plate_top + spring_thickness + cam_radius + eccentricity * cos(past)
    hub = cam_radius - eccentricity / 2
    window_to = pivot_at + cam_radius + eccentricity + 1.4
    rivet_at = screw_at + screw_head / 2 + 0.5 + 1.0 + rivet / 2 + 1.5
    half = min(11.0, press_at - (rivet_at + 3.5 + 6.0))
    width = 16.0
    return LeverCapSize(
        width=blade_width - 3.0,
        tail_width=31.0,
        nose_at=nose_at,
        nose_q=nose_q,
        underside_q=underside,
        plate=plate,
        screw_at=screw_at,
        screw_shank=screw_shank,
        screw_head=screw_head,
        head_q=underside + plate,
        tail=window_to + 5.5,
        pivot_at=pivot_at,
        pivot_q=pivot_q,
        pivot_diameter=rivet,
        press_at=press_at,
        press_q=plate_top,
        cam_radius=cam_radius,
        eccentricity=eccentricity,
        throw=throw,
        lever_width=18.0,
        lever_length=34.0,
        hub_radius=hub,
        ear_radius=max(hub + 0.8, rivet / 2 + wall),
        stop_q=underside + wall + 0.2,
        window=(pivot_at - cam_radius - 3.5, window_to),
        spring_thickness=spring_thickness,
        spring_width=width,
        spring_half=half,
        spring_bow=spring.bow_for(width, spring_thickness, half),
        spring_rivet_at=rivet_at,
        rivet_diameter=rivet,
        wall=wall,
        outside_draft=draft,
        inside_draft=inside_draft,
        nose_stock=stock,
        hole_minimum=hole_minimum,
    )
