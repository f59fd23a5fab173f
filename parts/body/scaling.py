"""Sizes of any body grown by a factor an axis, for patterns of metals that contract unevenly."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan, degrees, radians, tan
from typing import TypeVar

from parts.body.size import Boss, CastAllowances, TappedHole, Trough
from shared.record import replace

AnyBody = TypeVar("AnyBody", bound=Trough)


@dataclass(frozen=True)
class Growth:
    """Factors along x, y, z [-]. What lies in two axes takes their mean."""

    x: float
    y: float
    z: float

    @property
    def side(self) -> float:
        """Factor of a radius seen from the side."""
        return (self.x + self.z) / 2

    @property
    def plan(self) -> float:
        """Factor of a radius seen from above."""
        return (self.x + self.y) / 2

    @staticmethod
    def lean(angle: float, grown: float) -> float:
        """Return an angle [deg] whose tangent has grown by a factor."""
        return degrees(atan(tan(radians(angle)) * grown))

    def hole(self, h: TappedHole) -> TappedHole:
        """Return a tapped hole grown."""
        return replace(
            h, x=h.x * self.x, y=h.y * self.y, z_top=h.z_top * self.z, tap_drill=h.tap_drill * self.plan,
            depth=h.depth * self.z,
        )  # fmt: skip

    def boss(self, b: Boss) -> Boss:
        """Return a boss grown, with its hole."""
        return replace(
            b, x=b.x * self.x, diameter=b.diameter * self.plan, z_top=b.z_top * self.z, hole=self.hole(b.hole)
        )  # fmt: skip

    def trough(self, size: AnyBody) -> AnyBody:
        """Return a body with plate, cheeks, mouth, ribs and casting allowances grown; the rest as it was."""
        x, y, z, c = self.x, self.y, self.z, size.cast
        return replace(
            size,
            length=size.length * x, width=size.width * y, sole=size.sole * z, cheek=size.cheek * y,
            cheek_height=size.cheek_height * z, rail_height=size.rail_height * z,
            root_radius=size.root_radius * (y + z) / 2, corner_radius=size.corner_radius * self.plan,
            toe_x=size.toe_x * x, heel_x=size.heel_x * x, arch_from=size.arch_from * x,
            arch_peak=size.arch_peak * x, arch_to=size.arch_to * x,
            bed_angle=self.lean(size.bed_angle, z / x), mouth_front_angle=self.lean(size.mouth_front_angle, z / x),
            mouth_opening=size.mouth_opening * x, mouth_half_width=size.mouth_half_width * y,
            ribs=tuple((at * x, thick * x, tall * z) for at, thick, tall in size.ribs),
            cast=CastAllowances(
                c.required * self.plan, c.sole * z, c.side * y, c.end * x, c.pad * z, c.boss * z,
                self.lean(c.draft_outside, y / z), self.lean(c.draft_inside, y / z), c.edge_radius * self.side,
                c.parting_z * z, None if c.turned is None else c.turned * self.plan,
            ),
        )  # fmt: skip
