"""Cross ribs and bosses on the plate, as cast: sizes and the room they need [mm]."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, radians, tan

from parts.body.size import Boss, Trough
from parts.body.walls import inside_half
from shared.profile import Profile
from shared.record import Record

GAP = 1.0  # flat plate left between a rib's root and a cheek's root [mm]


class Rib(Record):
    """A cross rib with round ends, drafted all round, that stops short of the cheeks [mm]."""

    x: float
    half_thick: float  # at its foot
    half_long: float  # along y, at its foot
    z: float  # top
    root: float  # radius at the foot
    edge: float  # radius at the top

    def plan(self, more: float = 0.0) -> Profile:
        """Return the outline (x, y) of its foot, larger by `more` [mm] all round."""
        reach = self.half_long - self.half_thick
        return Profile.slot((self.x, -reach), (self.x, reach), 2 * (self.half_thick + more), "cross rib")


class Ridge(Record):
    """Something with drafted sides, rounded top and rounded foot that stands on a level floor."""

    plan: Callable[[float], Profile]  # outline of its foot, larger by the argument [mm]
    foot_z: float  # level that it stands on [mm]
    top_z: float  # its top as cast [mm]
    edge: float  # radius of its top edge [mm]
    root: float  # radius at its foot [mm]
    name: str  # for messages


def ribs_of(size: Trough) -> tuple[Rib, ...]:
    """Return the ribs, toe to heel. A rib's given thickness is at its top."""
    slope = tan(radians(size.cast.draft_inside))
    root = size.root_radius
    out = []
    for x, thickness, height in sorted(size.ribs):
        tall = height - size.sole
        half_long = inside_half(size, size.sole) - size.root_radius - root - GAP
        edge = min(size.cast.edge_radius, 0.4 * thickness, 0.3 * tall)
        out.append(Rib(x, thickness / 2 + tall * slope, half_long, height, min(root, 0.6 * tall), edge))
    return tuple(out)


def bosses_of(size: Trough) -> tuple[Boss, ...]:
    """Return every boss, toe to heel."""
    return tuple(sorted(size.bosses, key=lambda b: b.x))


def boss_roundings(size: Trough, boss: Boss) -> tuple[float, float]:
    """Return a boss's root radius and edge radius as cast [mm]; a low boss has a smaller root."""
    draft = radians(size.cast.draft_inside)
    side = (boss.z_top + size.cast.boss - size.sole) / cos(draft) - 0.05
    most = side / tan((radians(90.0) - draft) / 2) - size.cast.edge_radius
    return min(size.root_radius, most), size.cast.edge_radius


def boss_side(size: Trough, boss: Boss, z: float) -> float:
    """Return the radius of a boss's drafted side as cast at height z [mm]; its stock is whole at its finished top."""
    stock = size.cast.boss_side if boss.turned else 0.0
    return boss.diameter / 2 + stock + (boss.z_top - z) * tan(radians(size.cast.draft_inside))


def boss_foot(size: Trough, boss: Boss) -> float:
    """Return the radius where a boss's root meets the plate [mm]."""
    root = boss_roundings(size, boss)[0]
    return boss_side(size, boss, size.sole) + root * tan(radians(90.0 - size.cast.draft_inside) / 2)
