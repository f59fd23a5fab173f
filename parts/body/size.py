"""Every resolved size of a body, in the plane's frame [mm, deg]: what all bodies have, and the bench-plane body."""

from __future__ import annotations

from abc import ABC, abstractmethod
from math import radians, tan

from shared.record import Record

KEY_CLASS = "h8"  # ISO 286, of the key's width in the frog's way; common practice, no source


class Pad(Record):
    """A milled pad on the plate, from x to x, half width along y, top at z."""

    x0: float
    x1: float
    half_width: float
    z: float


class TappedHole(Record):
    """A tapped hole from a top face down, bottomed flat; the axis leans toward the toe as it rises by `lean` [deg]."""

    x: float
    y: float
    z_top: float
    tap_drill: float
    thread: str
    depth: float  # of the drilled hole along the axis, to its flat bottom
    lean: float = 0.0


class Boss(Record):
    """A round cast boss with its tapped hole."""

    x: float
    diameter: float
    z_top: float
    hole: TappedHole
    turned: bool = True  # whether a hollow mill turns its side, so that a handle's counterbore registers on it


class CastAllowances(Record):
    """What the casting adds [mm, deg]."""

    required: float  # required machining allowance (RMA)
    sole: float
    side: float  # each cheek's outside where the casting is thinnest: its highest point, parting at the sole
    end: float  # toe and heel
    pad: float
    boss: float
    draft_outside: float
    draft_inside: float
    edge_radius: float
    parting_z: float
    turned: float | None = None  # each side of a boss that a hollow mill turns; None: the required allowance

    @property
    def boss_side(self) -> float:
        """Stock all round a boss that a hollow mill turns [mm]."""
        return self.required if self.turned is None else self.turned


class Trough(Record, ABC):
    """What every body is: a sole plate between two cheeks, with a mouth, ribs and bosses."""

    length: float
    width: float
    sole: float  # thickness of the plate
    cheek: float
    cheek_height: float
    rail_height: float
    root_radius: float
    corner_radius: float
    toe_x: float
    heel_x: float
    arch_from: float  # x where the cheek begins to rise from the toe rail
    arch_peak: float  # x of its highest point
    arch_to: float  # x where it has fallen to the heel rail
    bed_angle: float
    mouth_opening: float
    mouth_half_width: float
    mouth_front_angle: float
    ribs: tuple[tuple[float, float, float], ...]  # (x, thickness, height above the sole face) across the plate
    cast: CastAllowances

    @property
    @abstractmethod
    def bosses(self) -> tuple[Boss, ...]:
        """Every round boss, in any order."""

    def inside_half_at(self, z: float) -> float:
        """Half the clear width between the cheeks at height z above the sole face [mm], root radius left out.

        The finished cheek has its nominal thickness half way from the plate to its peak; as its inside leans by the
        draft it is thicker below and thinner above.
        """
        middle = (self.sole + self.cheek_height) / 2
        return self.width / 2 - self.cheek + (z - middle) * tan(radians(self.cast.draft_inside))

    @property
    def inside_half(self) -> float:
        """Half the clear width between the cheeks at the sole's top, where they are thickest [mm]."""
        return self.inside_half_at(self.sole)


class BodySize(Trough):
    """Resolved body of a bench plane."""

    wall_foot_x: float  # x where the aft wall of the mouth meets the sole face; the wall rises at the bed angle
    low_pad: Pad
    high_pad: Pad
    key_half: float  # half width of the raised key on the high pad
    key_height: float
    holddown: tuple[TappedHole, ...]
    knob_boss: Boss
    tote_boss: Boss
    toe_boss: Boss | None  # second screw at the tote's toe

    @property
    def bosses(self) -> tuple[Boss, ...]:
        """Knob boss, tote boss and, on long planes, the boss at the tote's toe."""
        toe = () if self.toe_boss is None else (self.toe_boss,)
        return (self.knob_boss, *toe, self.tote_boss)
