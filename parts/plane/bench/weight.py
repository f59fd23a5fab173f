"""Weight and balance of a bench plane by arithmetic."""

from __future__ import annotations

from math import cos, pi, radians, sin, tan

from parts.plane.bench.design import BenchDesign
from parts.plane.weight import Lump, Weight, block, handles, outline_area, trough
from shared.tables import table

# shares and means measured on the models of the demo planes
FROG_LEFT = 0.735  # of the frog's outline times its width
BREAKER_LEFT = 0.985
CAP_PLATE = 5.0  # mean thickness of the cap over its plan [mm]
CAP_SMALL = 0.044  # its lever, rivets and spring [kg]
SMALL_PARTS = 0.068  # depth adjuster, lateral lever, screws and nuts [kg]


def weight(d: BenchDesign) -> Weight:
    """Return the weight of a bench plane.

    Raises:
        GeometryError: a body whose cheek cannot be drawn.
    """
    m, b = d.mechanism, d.body
    metal = d.body_alloy.density_kg_m3
    steel = float(table("steel")["physical"][d.spec.blade.steel]["density_kg_m3"])
    cap, frog, breaker = m.lever_cap, m.frog, m.chipbreaker
    area, frog_x = outline_area(frog.outline())
    plan = (cap.width + cap.tail_width) / 2 * (cap.tail - cap.nose_at)
    cap_at = cap.nose_at + 0.42 * (cap.tail - cap.nose_at)
    return Weight((
        *trough(b, metal),
        *_seat(d, metal),
        block("frog", area * 2 * frog.half_width * FROG_LEFT, d.frog_alloy.density_kg_m3, frog_x, metal=True),
        _blade(d, steel),
        block("chipbreaker", breaker.width * breaker.thickness * (breaker.end - breaker.setback) * BREAKER_LEFT, steel,
              _x(d, (breaker.setback + breaker.end) / 2, breaker.thickness / 2)),
        block("lever cap", plan * CAP_PLATE, d.cap_alloy.density_kg_m3, _x(d, cap_at, cap.underside_q + 3.0)),
        Lump("cap's small parts", CAP_SMALL, _x(d, cap.pivot_at, cap.pivot_q)),
        Lump("small parts", SMALL_PARTS, _x(d, m.stations.yoke_at, -10.0)),
        *handles(d, d.tote, d.tote_at.x, d.knob, d.knob_x),
    ))  # fmt: skip


def _x(d: BenchDesign, s: float, q: float) -> float:
    """Return x [mm] of a point s up the blade's face and q above it."""
    b = radians(d.spec.bed.angle)
    return s * cos(b) - q * sin(b)


def _blade(d: BenchDesign, density: float) -> Lump:
    blade = d.mechanism.blade
    slot = blade.slot_width * (blade.slot_high - blade.slot_low) * blade.thickness
    bevel = blade.thickness**2 / tan(radians(blade.bevel)) / 2 * blade.width
    volume = blade.width * blade.thickness * blade.length - slot - bevel
    return block("blade", volume, density, _x(d, blade.length / 2, -blade.thickness / 2))


def _seat(d: BenchDesign, density: float) -> list[Lump]:
    """Return the frog pads' metal, less the mouth and the tapped holes."""
    b = d.body
    found = []
    for pad in (b.low_pad, b.high_pad):
        volume = (pad.x1 - pad.x0) * 2 * b.inside_half * (pad.z - b.sole)
        found.append(block("pad", volume, density, (pad.x0 + pad.x1) / 2, metal=True))
    long = b.mouth_opening + b.wall_foot_x + b.sole / 2 * (1 / tan(radians(b.mouth_front_angle))) + b.sole / 2
    found.append(block("mouth", -2 * b.mouth_half_width * long * b.sole, density, 2.0, metal=True))
    found += [block("hole", -pi / 4 * h.tap_drill**2 * h.depth, density, h.x, metal=True) for h in b.holddown]
    return found
