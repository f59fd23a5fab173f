"""Low-angle bodies to try: block size and jack length written out, and random ones across what the works would make."""

from __future__ import annotations

import random
from math import cos, radians, sin, tan

from parts.body.low_angle.layout import Seats, low_body, ramp_to, stud_in_boss, stud_in_land, toe_way
from parts.body.low_angle.size import BedBore, BedGroove, LowBodySize, WheelWell
from parts.body.low_angle.spec import LowBodySpec
from parts.body.size import Boss, CastAllowances, TappedHole
from shared.record import replace
from shared.threads import METRIC, Thread

SMALL, MEDIUM = METRIC["small"], METRIC["medium"]
CAST = CastAllowances(1.4, 2.6, 2.0, 2.2, 2.0, 1.7, 1.5, 2.0, 1.0, -2.6)
IRON = "ductile-iron-65-45-12"


def round_boss(x: float, diameter: float, z: float, thread: Thread = MEDIUM, lean: float = 0.0) -> Boss:
    """Return a boss with a hole that leaves 2.5 mm and a little."""
    depth = (z - 2.5) / cos(radians(lean)) - 0.2
    return Boss(x, diameter, z, TappedHole(x, 0.0, z, thread.tap_drill, thread.name, depth, lean))


def block_spec(toe: bool = False, **said: object) -> LowBodySpec:
    """Return the section of a 6 in body, with or without a toe piece; keys may be said otherwise."""
    keys: dict[str, object] = {
        "alloy": IRON, "length": 152.4, "width": 52.0, "sole_thickness": 6.2, "cheek_thickness": 4.4,
        "cheek_height": 30.0, "mouth_from_toe": 45.0, "mouth_opening": 0.3, "toe_piece": {} if toe else None,
    }  # fmt: skip
    return LowBodySpec(**{**keys, **said})


def block(toe: bool = False, **said: object) -> LowBodySize:
    """Return a body of 6 in with a 38 mm blade at 12 deg; the stud stands in the bridge [mm]."""
    spec = block_spec(toe, **said)
    return low_body(
        spec,
        Seats(
            bed_angle=12.0, blade_width=38.1, bridge=(48.0, 67.0), stud=stud_in_land(57.0, 12.0, SMALL),
            bores=(BedBore(7.0, 5.0, 62.0, 80.0),), wheel_well=WheelWell(76.0, 93.0, 8.0, 4.2),
            knob_boss=round_boss(-24.0, 16.0, spec.sole_thickness + 3.5, SMALL),
            toe_way=toe_way(spec, SMALL) if toe else None,
        ),
        CAST,
    )  # fmt: skip


def jack_spec(toe: bool = False, **said: object) -> LowBodySpec:
    """Return the section of a 14 in body, with or without a toe piece; keys may be said otherwise."""
    keys: dict[str, object] = {
        "alloy": IRON, "length": 355.6, "width": 64.0, "sole_thickness": 6.6, "cheek_thickness": 4.6,
        "cheek_height": 42.0, "mouth_from_toe": 108.0, "mouth_opening": 0.3, "toe_piece": {} if toe else None,
    }  # fmt: skip
    return LowBodySpec(**{**keys, **said})


def jack(toe: bool = False, **said: object) -> LowBodySize:
    """Return a body of 14 in with a 50.8 mm blade at 12 deg, a tote, and a boss of its own for the stud [mm]."""
    spec = jack_spec(toe, **said)
    s = spec.sole_thickness
    stud, stud_boss = stud_in_boss(60.0, 12.0, MEDIUM)
    ribs = ((225.0, 4.5, s + 4.5),) if toe else ((-25.0, 4.5, s + 4.5), (225.0, 4.5, s + 4.5))
    return low_body(
        spec,
        Seats(
            bed_angle=12.0, blade_width=50.8, bridge=(84.0, 112.0), stud=stud, stud_boss=stud_boss,
            bores=(BedBore(9.0, 6.0, 100.0, 130.0),), grooves=(BedGroove(100.0, 118.0, 3.0, 3.0),),
            knob_boss=round_boss(-62.0, 20.0, s + 4.0), tote_boss=round_boss(190.0, 16.0, s + 5.0, lean=12.0),
            toe_boss=round_boss(146.0, 10.5, s + 4.0), toe_way=toe_way(spec, MEDIUM) if toe else None, ribs=ribs,
        ),
        CAST,
    )  # fmt: skip


def random_low_body(seed: int) -> LowBodySize:
    """Return a random body: 125 to 420 mm long, 46 to 75 mm wide, beds of 10 to 25 deg; some cannot be built."""
    r = random.Random(seed)
    length = r.uniform(125.0, 420.0)
    handled = length > 240.0
    width = r.uniform(46.0, 60.0) if not handled else r.uniform(54.0, 75.0)
    sole, cheek = r.uniform(5.0, 8.0), r.uniform(3.6, 5.5)
    height = (36.0 if handled else 27.0) + r.uniform(0.0, 14.0)
    bed = r.choice([10.0, 12.0, 12.0, 15.0, 20.0, 22.5, 25.0])
    toe, thread = r.random() < 0.5, MEDIUM if handled else SMALL
    spec = LowBodySpec(
        alloy=IRON, length=length, width=width, sole_thickness=sole, cheek_thickness=cheek, cheek_height=height,
        mouth_from_toe=max(46.0, length * r.uniform(0.27, 0.34)), mouth_opening=r.uniform(0.05, 1.0),
        mouth_side_clearance=r.uniform(0.4, 1.0), feather=r.uniform(0.8, 1.4),
        toe_piece={"opening_most": r.uniform(1.5, 4.0)} if toe else None,
        rail_height=sole + r.uniform(1.5, 2.4) * cheek, grip_hollows=r.random() < 0.5,
        corner_radius=r.choice([0.0, 2.0, None]), root_radius=r.choice([None, 2.0, 0.9 * cheek]),
    )  # fmt: skip
    front = ramp_to(spec, bed) / cos(radians(bed))
    if r.random() < 0.5:
        start = front + r.uniform(14.0, 24.0)
        bridge = (start, start + r.uniform(16.0, 24.0))
        stud, stud_boss = stud_in_land((bridge[0] + bridge[1]) / 2, bed, thread), None
    else:
        at = max(front + 17.0, (sole + 5.0) / sin(radians(bed))) + r.uniform(0.0, 6.0)
        bridge = (at + r.uniform(18.0, 26.0), at + r.uniform(38.0, 50.0))
        stud, stud_boss = stud_in_boss(at, bed, thread)
    aft = (bridge[1] + 12.0) * cos(radians(bed))
    heel = length - spec.mouth_from_toe
    knob = -0.55 * spec.mouth_from_toe - 2.0
    raw = r.uniform(2.0, 3.2)
    parting = r.choice([-raw, -raw, 0.0, sole / 2])
    cast = CastAllowances(
        r.uniform(0.9, 1.4), -min(-raw, parting), r.uniform(1.6, 3.0), r.uniform(1.6, 3.2), r.uniform(1.6, 2.6),
        r.uniform(1.5, 2.4), r.uniform(1.0, 2.5), r.uniform(1.0, 2.5), r.uniform(0.8, 1.2), parting,
    )  # fmt: skip
    deep = r.uniform(5.0, 9.0)
    return low_body(
        spec,
        Seats(
            bed_angle=bed, blade_width=width - 2 * cheek - 2 * r.uniform(1.4, 3.0) - height * tan(radians(2.0)),
            bridge=bridge, stud=stud, stud_boss=stud_boss,
            bores=(BedBore(deep, 5.0, bridge[1] - 6.0, bridge[1] + 14.0),) if r.random() < 0.5 else (),
            grooves=(BedGroove(bridge[1] - 12.0, bridge[1] + 4.0, 2.5, 2.5),) if r.random() < 0.3 else (),
            wheel_well=WheelWell(aft, aft + 12.0, 7.0, 4.0) if r.random() < 0.3 else None,
            knob_boss=round_boss(knob, 18.0 if handled else 15.0, sole + 4.0, thread),
            tote_boss=round_boss(0.75 * heel, 16.0, sole + 5.0, lean=10.0) if handled else None,
            toe_way=toe_way(spec, thread) if toe else None,
            ribs=((0.9 * heel, 4.5, sole + 0.8 * cheek),) if handled and r.random() < 0.6 else (),
        ),
        replace(cast, required=min(cast.required, cast.pad, cast.side, cast.end, cast.boss, cast.sole)),
    )  # fmt: skip
