"""Bodies to try: one of jack size written out, and random ones across the sizes that the works would make."""

from __future__ import annotations

import random
from math import radians, sin, tan

from parts.body.size import BodySize, Boss, CastAllowances, Pad, TappedHole
from parts.body.walls import cheek_thickness
from shared.record import replace

MAJOR, DRILL, FLOOR = 6.35, 5.08, 2.5


def _hole(x: float, y: float, z: float, lean: float = 0.0) -> TappedHole:
    return TappedHole(x, y, z, DRILL, "1/4-20 UNC", z - FLOOR - 0.6, lean)


def jack(**changes: object) -> BodySize:
    """Return a body of 14 in by 2-1/2 in with a 2 in blade at 45 deg [mm]."""
    size = body(length=355.6, width=63.5, sole=6.35, cheek=3.97, cheek_height=52.4, bed=45.0, toe=114.3,
                thickness=3.175)  # fmt: skip
    return replace(size, **changes)  # type: ignore[arg-type]


def body(*, length: float, width: float, sole: float, cheek: float, cheek_height: float, bed: float, toe: float,
         thickness: float = 3.2, parting: float | None = None) -> BodySize:  # fmt: skip
    """Return a body with the mechanism's seats where the plane puts them [mm, deg]."""
    low_z, high_z = sole + 1.5, max(sole + 6.0, 13.0)
    half_blade = (width - 2 * cheek) / 2 - 2.4
    foot = (thickness + 0.1) / sin(radians(bed))
    low_from = foot + low_z / tan(radians(bed))
    step = low_from + 20.5
    frog_aft = step + 38.0
    screws = step + 2 * MAJOR
    heel = length - toe
    tote = max(frog_aft + (72.0 if length >= 300 else 36.0), 0.5 * heel)
    long = length >= 300
    knob_z, tote_z = sole + 4.0, sole + 5.0
    knob = -0.58 * toe - 8.0
    # as the works' own rule: a rib behind the knob only where both roots have room
    ribs = [(-22.0, 4.5, sole + 5.0)] if knob < -44.0 else []
    if long and tote - 42.0 - frog_aft > 42.0:
        ribs.append(((frog_aft + tote - 42.0) / 2, 4.5, sole + 5.0))
    if heel - tote > 70:
        ribs.append((tote + 0.6 * (heel - tote), 5.0, sole + 5.0))
    raw = 3.0
    return BodySize(
        length=length, width=width, sole=sole, cheek=cheek, cheek_height=cheek_height,
        rail_height=sole + 1.6 * cheek, root_radius=0.7 * cheek, corner_radius=min(width / 10, 1.3 * cheek),
        toe_x=-toe, heel_x=heel,
        arch_from=-toe + max(12.0, 0.16 * toe), arch_peak=0.32 * cheek_height,
        arch_to=min(heel - 12.0, tote + 0.35 * (heel - tote)), bed_angle=bed, mouth_opening=0.38,
        mouth_half_width=half_blade + 0.75, mouth_front_angle=75.0, wall_foot_x=foot,
        low_pad=Pad(low_from, step, half_blade - 1.0, low_z),
        high_pad=Pad(step, frog_aft + 1.0, half_blade - 1.0, high_z), key_half=5.0, key_height=3.0,
        holddown=(_hole(screws, 14.0, high_z), _hole(screws, -14.0, high_z)),
        knob_boss=Boss(knob, 20.0, knob_z, _hole(knob, 0.0, knob_z)),
        tote_boss=Boss(tote, 16.0, tote_z, _hole(tote - 1.0, 0.0, tote_z, 12.0)),
        toe_boss=Boss(tote - 42.0, 10.5, tote_z, _hole(tote - 42.0, 0.0, tote_z)) if long else None,
        ribs=tuple(ribs),
        cast=CastAllowances(1.8, raw, 2.4, 2.6, 2.3, 1.8, 1.5, 2.0, 1.0, -raw if parting is None else parting),
    )  # fmt: skip


def random_body(seed: int) -> BodySize:
    """Return a random body: 200 to 650 mm long, 55 to 85 mm wide, beds of 40 to 55 deg."""
    r = random.Random(seed)
    length = r.uniform(200.0, 650.0)
    size = body(
        length=length, width=r.uniform(55.0, 85.0), sole=r.uniform(5.0, 10.0), cheek=r.uniform(3.5, 6.0),
        cheek_height=r.uniform(45.0, 60.0), bed=r.uniform(40.0, 55.0), toe=length * r.uniform(0.29, 0.36),
        thickness=r.uniform(3.0, 4.5),
    )  # fmt: skip
    cast = replace(size.cast, draft_inside=r.uniform(1.0, 2.5))
    size = replace(size, cast=cast)
    parting = r.choice([-cast.sole, -cast.sole, 0.0, size.sole / 2])
    size = replace(size, corner_radius=r.choice([0.0, 1.5, 1.41 * cheek_thickness(size, size.rail_height)]))
    return replace(size, cast=replace(
        cast, required=1.4, sole=-min(-cast.sole, parting), side=r.uniform(1.8, 3.5), end=r.uniform(2.0, 4.0),
        pad=r.uniform(1.6, 3.0), boss=r.uniform(1.4, 2.6), draft_outside=r.uniform(1.0, 2.5),
        edge_radius=r.uniform(0.8, 1.3), parting_z=parting,
    ))  # fmt: skip
