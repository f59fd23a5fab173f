"""The rods and screws of a low-angle plane's handles, and where they stand. Arithmetic only; mm and deg."""

from __future__ import annotations

from math import cos, radians, sin

from parts.body import layout as body_rules
from parts.body.low_angle.size import LowBodySize
from parts.handle.size import KnobSize, ToteSize
from parts.handle.spec import HandleSpec
from parts.hardware.seating import Axis
from parts.hardware.size import ROD_IN_NUT, Rod, Screw
from parts.plane.placing import TotePlace
from parts.plane.totes import NUT_DIAMETER, NUT_HEIGHT, toe_boss_rise
from shared.record import Record
from shared.threads import Thread

SMALL_NUT = (9.5, 9.0)  # diameter and height of the nut in a finger rest [mm]
UP = (0.0, 0.0, 1.0)


class HandleRods(Record):
    """Rods with their nuts, and the tote's second screw, each with its place in the plane's frame."""

    knob: tuple[Rod, Axis]
    tote: tuple[Rod, Axis] | None
    toe_screw: tuple[Screw, Axis] | None

    @property
    def rods(self) -> list[tuple[Rod, Axis]]:
        """Every rod."""
        return [self.knob] if self.tote is None else [self.tote, self.knob]


def nut_of(with_tote: bool) -> tuple[float, float]:
    """Return diameter and height of the knob's nut [mm]."""
    return (NUT_DIAMETER, NUT_HEIGHT) if with_tote else SMALL_NUT


def _knob(body: LowBodySize, knob: KnobSize, x: float, thread: Thread, nut: tuple[float, float]) -> tuple[Rod, Axis]:
    """Return the knob's rod: in the toe piece's boss where there is one, else in the body's."""
    hole = body.toe_way.stud if body.toe_way is not None else (body.knob_boss.hole if body.knob_boss else None)
    if hole is None:
        raise ValueError("a body without toe way has a knob boss")
    engaged = min(1.25 * thread.major, hole.depth - thread.pitch)
    foot = hole.z_top - engaged
    top = knob.foot_plane_z + knob.height - knob.nut_counterbore_depth + ROD_IN_NUT * nut[1]
    return Rod("knob rod", thread, top - foot, nut[0], nut[1]), Axis((x, 0.0, foot), UP, engaged)


def handle_rods(
    handle: HandleSpec,
    body: LowBodySize,
    knob: KnobSize,
    knob_x: float,
    tote: ToteSize | None,
    place: TotePlace | None,
    threads: dict[str, Thread],
    rod_thread: Thread,
) -> HandleRods:
    """Return rods and screws.

    Args:
        handle: the handle section.
        body: its bosses and toe way.
        knob: the knob.
        knob_x: where it stands [mm].
        tote: the tote, or None.
        place: where it stands.
        threads: the plane's threads by use.
        rod_thread: of the rods.
    """
    knob_rod = _knob(body, knob, knob_x, rod_thread, nut_of(tote is not None))
    if tote is None or place is None or body.tote_boss is None:
        return HandleRods(knob_rod, None, None)
    lean = radians(tote.lean_deg)
    up = (-sin(lean), 0.0, cos(lean))
    engaged = min(1.25 * rod_thread.major, body.tote_boss.hole.depth - rod_thread.pitch)
    boss = body_rules.TOTE_BOSS_RISE / cos(lean)
    foot = boss - engaged
    top = tote.rod_height - tote.nut_counterbore_depth + ROD_IN_NUT * NUT_HEIGHT
    rod = Rod("tote rod", rod_thread, top - foot, NUT_DIAMETER, NUT_HEIGHT)
    tote_rod = (rod, Axis((place.x + foot * up[0], 0.0, body.sole + foot * up[2]), up, engaged))
    if tote.toe is None or body.toe_boss is None:
        return HandleRods(knob_rod, tote_rod, None)
    small, hole = threads["small"], body.toe_boss.hole
    below = min(1.25 * small.major, hole.depth - small.pitch)
    seat = tote.toe.head_seat_z - toe_boss_rise(handle)
    screw = Screw("tote toe screw", small, below + seat, 9.0, 3.2)
    axis = Axis((place.x + tote.toe.x, 0.0, body.sole + tote.toe.head_seat_z), (0.0, 0.0, -1.0), below)
    return HandleRods(knob_rod, tote_rod, (screw, axis))
