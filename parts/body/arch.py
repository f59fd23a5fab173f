"""The cheek's outline seen from the side: rail, one long calm arch, rail, of lines and true arcs that flow together.

Each flank is two arcs, a hollow one that leaves the rail and a crown that is level at the peak. For a flank of
length L and rise h the two radii must sum to (L² + h²) / (2 h), or the arcs would not touch smoothly; how the sum
is shared is free. Each flank keeps its own two radii, so the longer fall toward the heel is the calmer one.
"""

from __future__ import annotations

from math import sqrt

from parts.body.size import Trough
from shared.errors import GeometryError
from shared.record import Record
from shared.segments import Line, Point, Segment, arc_between

CROWN_SHARE = 0.62  # of a flank's radius sum: a broad calm crown that runs out in a shorter hollow; our own outline


class Arch(Record):
    """Radii [mm] of the outline's arcs."""

    rail: float  # height of the rails
    start: float  # x where the toe rail ends
    peak: float  # x of the peak
    end: float  # x where the heel rail begins
    height: float  # of the peak
    toe_crown: float  # radius of the crown ahead of the peak
    heel_crown: float
    toe_hollow: float  # radius of the hollow between toe rail and crown
    heel_hollow: float

    @property
    def toe_turn(self) -> Point:
        """Where hollow and crown meet on the toe side (x, z) [mm]."""
        crown = (self.peak, self.height - self.toe_crown)
        return _turn((self.start, self.rail + self.toe_hollow), self.toe_hollow, crown, self.toe_crown)

    @property
    def heel_turn(self) -> Point:
        """Where crown and hollow meet on the heel side (x, z) [mm]."""
        crown = (self.peak, self.height - self.heel_crown)
        return _turn((self.end, self.rail + self.heel_hollow), self.heel_hollow, crown, self.heel_crown)

    def height_at(self, x: float) -> float:
        """Return the outline's height [mm] at x [mm]."""
        if x <= self.start or x >= self.end:
            return self.rail
        if self.toe_turn[0] <= x <= self.heel_turn[0]:
            crown = self.toe_crown if x < self.peak else self.heel_crown
            return self.height - crown + sqrt(crown**2 - (x - self.peak) ** 2)
        foot, radius = (self.start, self.toe_hollow) if x < self.peak else (self.end, self.heel_hollow)
        return self.rail + radius - sqrt(radius**2 - (x - foot) ** 2)


def _turn(a: Point, ra: float, b: Point, rb: float) -> Point:
    share = ra / (ra + rb)
    return a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])


def arch(size: Trough) -> Arch:
    """Return the cheek's outline.

    Raises:
        GeometryError: the peak does not lie between the ends of the rails, or not above them, or a rail runs past
            the end of the body.
    """
    rise = size.cheek_height - size.rail_height
    toe, heel = size.arch_peak - size.arch_from, size.arch_to - size.arch_peak
    if not (size.toe_x < size.arch_from < size.arch_peak < size.arch_to < size.heel_x) or rise <= 0:
        raise GeometryError("body", "cheek outline", "the peak must lie above and between the two rails",
                            arch_from=size.arch_from, arch_peak=size.arch_peak, arch_to=size.arch_to,
                            rise_mm=rise)  # fmt: skip
    if min(toe, heel) < rise:
        raise GeometryError("body", "cheek outline", "a flank is steeper than half a right angle all the way",
                            flank_mm=min(toe, heel), rise_mm=rise)  # fmt: skip
    sums = [(run * run + rise * rise) / (2 * rise) for run in (toe, heel)]
    return Arch(
        rail=size.rail_height, start=size.arch_from, peak=size.arch_peak, end=size.arch_to, height=size.cheek_height,
        toe_crown=CROWN_SHARE * sums[0], heel_crown=CROWN_SHARE * sums[1],
        toe_hollow=(1 - CROWN_SHARE) * sums[0], heel_hollow=(1 - CROWN_SHARE) * sums[1],
    )  # fmt: skip


def rim(size: Trough, beyond: float = 0.0) -> tuple[Segment, ...]:
    """Return the rim as an open chain of lines and arcs (x, z) [mm] from toe to heel.

    Args:
        size: the body.
        beyond: how far the rails go on past toe and heel [mm].
    """
    a = arch(size)
    left, top, right = a.toe_turn, (a.peak, a.height), a.heel_turn
    first, last = (a.start, a.rail), (a.end, a.rail)
    return (
        Line((size.toe_x - beyond, a.rail), first),
        arc_between(first, left, (a.start, a.rail + a.toe_hollow), left=True),
        arc_between(left, top, (a.peak, a.height - a.toe_crown), left=False),
        arc_between(top, right, (a.peak, a.height - a.heel_crown), left=False),
        arc_between(right, last, (a.end, a.rail + a.heel_hollow), left=True),
        Line(last, (size.heel_x + beyond, a.rail)),
    )


def rim_height(size: Trough, x: float) -> float:
    """Return the rim's height above the sole face [mm] at x [mm]."""
    return arch(size).height_at(x)
