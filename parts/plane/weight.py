"""Weight and balance of a plane by arithmetic, before any model is built: a sum of lumps.

What arithmetic leaves out (openings, drillings, roundings) is put back as a share measured on the models of the demo
planes; the whole comes within 3 % of them in mass and 3 mm in balance.
"""

from __future__ import annotations

from math import pi

from parts.body.arch import rim_height
from parts.body.size import Trough
from parts.handle.outline import tote_side
from parts.handle.size import KnobSize, ToteSize
from parts.plane import kinds
from parts.plane.design import Design
from parts.plane.wood import shop_density
from shared.errors import GeometryError
from shared.record import Record

IRON = 7100.0  # kg/m3, ductile iron of the alloy table: what weights are compared at
STEEL = 7850.0  # kg/m3, carbon steel; value from memory
BRASS = 8500.0  # kg/m3; value from memory
SLICES = 80  # of the cheeks
TOTE_LEFT, KNOB_LEFT = 0.735, 0.59  # share of the plain block left after rounding and boring; measured on the models


class Lump(Record):
    """A part of the mass: what it is, how much [kg], where along the sole [mm], and whether body or frog metal."""

    name: str
    mass: float
    x: float
    metal: float = 0.0  # density of the body's metal where it is cast of that [kg/m3]


class Weight(Record):
    """The sum of the lumps."""

    lumps: tuple[Lump, ...]

    @property
    def mass(self) -> float:
        """Mass of the whole plane [kg]."""
        return sum(lump.mass for lump in self.lumps)

    @property
    def balance(self) -> float:
        """Where it balances, aft of the edge [mm]."""
        return sum(lump.mass * lump.x for lump in self.lumps) / self.mass

    @property
    def as_iron(self) -> float:
        """Mass if body and frog were of iron [kg]."""
        return sum(lump.mass * (IRON / lump.metal if lump.metal else 1.0) for lump in self.lumps)


def weight(d: Design) -> Weight:
    """Return the weight of a plane by arithmetic.

    Raises:
        GeometryError: a body whose cheek cannot be drawn.
    """
    found: Weight = kinds.of(d.spec.plane.kind, "weight").weight(d)
    return found


def weight_or_none(d: Design) -> Weight | None:
    """Return the weight; None for a body that cannot be built, which another check says."""
    try:
        return weight(d)
    except GeometryError:
        return None


def trough(size: Trough, density: float) -> list[Lump]:
    """Return plate, cheeks, roots, bosses and ribs of a body.

    Args:
        size: the body.
        density: of its metal [kg/m3].
    """
    per_mm3 = density * 1e-9
    middle = (size.toe_x + size.heel_x) / 2
    found = [Lump("plate", size.length * size.width * size.sole * per_mm3, middle, density)]
    step = size.length / SLICES
    for i in range(SLICES):
        x = size.toe_x + (i + 0.5) * step
        tall = rim_height(size, x) - size.sole
        thick = size.width / 2 - size.inside_half_at(size.sole + tall / 2)
        area = 2 * (tall * thick + (1 - pi / 4) * size.root_radius**2)
        found.append(Lump("cheeks", area * step * per_mm3, x, density))
    for boss in size.bosses:
        drilled = pi / 4 * boss.hole.tap_drill**2 * boss.hole.depth
        volume = pi / 4 * boss.diameter**2 * (boss.z_top - size.sole) - drilled
        found.append(Lump("boss", volume * per_mm3, boss.x, density))
    for x, thick, height in size.ribs:
        found.append(Lump("rib", 2 * size.inside_half * thick * (height - size.sole) * per_mm3, x, density))
    return found


def block(name: str, volume: float, density: float, x: float, metal: bool = False) -> Lump:
    """Return a lump from a volume [mm3] and a density [kg/m3]."""
    return Lump(name, volume * density * 1e-9, x, density if metal else 0.0)


def outline_area(points: list[tuple[float, float]]) -> tuple[float, float]:
    """Return area [mm2] and x of the centroid [mm] of a polygon [mm]."""
    area = moment = 0.0
    for (xa, za), (xb, zb) in zip(points, [*points[1:], points[0]], strict=True):
        cross = xa * zb - xb * za
        area += cross / 2
        moment += cross * (xa + xb) / 6
    return abs(area), moment / area


def handles(d: Design, tote: ToteSize | None, tote_x: float, knob: KnobSize, knob_x: float) -> list[Lump]:
    """Return tote and knob with their rods; `tote_x` and `knob_x` are their places [mm]."""
    wood, found = shop_density(d), []
    if tote is not None:
        area, x = outline_area(tote_side(tote, 0.5).polyline(0.5))
        found.append(block("tote", area * tote.grip_width * TOTE_LEFT, wood, tote_x + x))
        rod = pi / 4 * (tote.bore_diameter - 0.8) ** 2 * tote.rod_height
        found.append(block("tote rod", rod, STEEL, tote_x + x))
    found.append(block("knob", pi / 4 * knob.diameter**2 * knob.height * KNOB_LEFT, wood, knob_x))
    rod = pi / 4 * (knob.bore_diameter - 0.8) ** 2 * knob.height
    found.append(block("knob rod", rod, STEEL, knob_x))
    return found
