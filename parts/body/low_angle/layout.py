"""Proportion rules of the low-angle body: what a spec leaves out. Common practice, no source, unless said.

The plane's composition says where stud, bridge and adjuster stand (`Seats`); `low_body` resolves the rest.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin, tan

from parts.body import layout as rules
from parts.body.low_angle.floor import rim_need, rim_room
from parts.body.low_angle.size import (
    THROAT,
    BedBore,
    BedGroove,
    Bridge,
    GripHollow,
    LowBodySize,
    ToeWay,
    WheelWell,
)
from parts.body.low_angle.spec import LowBodySpec
from parts.body.room import FLOOR_LEFT, hole_depth
from parts.body.size import Boss, CastAllowances, TappedHole
from shared.errors import GeometryError
from shared.record import replace
from shared.threads import Thread

FRONT_LAND = 24.0  # length along the bed that the front land has at least [mm]
ABOVE_PLATE = 1.0  # the bed stands this far above the plate where the front land ends, so that the relief is real [mm]
ARCH_PEAK = 0.4  # of the way from the edge to the bridge's end; up to 0.66 where the bridge asks for it
RIM_SPARE = 0.2  # more than the least room between the bridge's roundings and the rim's [mm]
LEDGE = 0.55  # height of the toe way's ledges, of the plate's thickness
BLOCK_ROOF = 4.0  # metal over the toe piece's boss [mm]
BLOCK_WALL = 3.5  # metal round it [mm]
TOE_LAND = 7.0  # solid sole ahead of the toe piece [mm]
PIECE_AHEAD = 12.0  # plate of the toe piece ahead of its boss [mm]
HOLLOW_DEPTH = 1.2  # of the grip hollows [mm]
HOLLOW_LEFT = 2.6  # cheek left behind a grip hollow [mm]


@dataclass(frozen=True, kw_only=True)
class Seats:
    """What blade, lever cap, adjuster and handles ask of the body [mm, deg]."""

    bed_angle: float
    blade_width: float
    bridge: tuple[float, float]  # s from, to: distance up the bed of the aft land's ends
    stud: TappedHole  # from `stud_in_land` or `stud_in_boss`
    stud_boss: Boss | None = None
    bores: tuple[BedBore, ...] = ()
    grooves: tuple[BedGroove, ...] = ()
    wheel_well: WheelWell | None = None
    knob_boss: Boss | None = None
    tote_boss: Boss | None = None
    toe_boss: Boss | None = None
    toe_way: ToeWay | None = None
    land_to: float = 0.0  # s up to which the front land must reach at least, for a stud that stands in it
    arch_to: float | None = None  # x where the cheek has fallen to the heel rail; default: near the heel, or the tote
    ribs: tuple[tuple[float, float, float], ...] = ()


def ramp_to(spec: LowBodySpec, bed_angle: float) -> float:
    """Return x where the front land ends [mm]: long enough, and clear of the plate's top at a bed angle [deg]."""
    b = radians(bed_angle)
    return max(spec.feather / tan(b) + FRONT_LAND * cos(b), (spec.sole_thickness + ABOVE_PLATE) / tan(b))


def stud_in_land(s: float, bed_angle: float, thread: Thread) -> TappedHole:
    """Return the stud's tapped hole in a land, square to the bed, as deep as the metal left above the sole lets it be.

    Args:
        s: distance up the bed [mm].
        bed_angle: bed to sole [deg].
        thread: of the stud.
    """
    b = radians(bed_angle)
    z = s * sin(b)
    depth = hole_depth(z, thread.tap_drill, bed_angle)
    return TappedHole(s * cos(b), 0.0, z, thread.tap_drill, thread.name, depth, bed_angle)


def stud_in_boss(s: float, bed_angle: float, thread: Thread, clear: float = 0.4) -> tuple[TappedHole, Boss]:
    """Return the stud's tapped hole and a round boss of its own with a level top below the bed plane.

    Args:
        s: distance up the bed where the stud's axis meets the bed plane [mm].
        bed_angle: bed to sole [deg].
        thread: of the stud.
        clear: from the boss's toe-side edge up to the bed plane [mm].
    """
    b, radius = radians(bed_angle), 1.1 * thread.major
    x, z = s * cos(b), s * sin(b)
    # the axis falls back toward the heel below the bed plane; the boss stands about where it leaves the level top
    drop = (radius * sin(b) + clear) / (cos(b) + sin(b) * tan(b))
    top_x, top_z = x + drop * tan(b), z - drop
    depth = hole_depth(top_z, thread.tap_drill, bed_angle)
    hole = TappedHole(top_x, 0.0, top_z, thread.tap_drill, thread.name, depth, bed_angle)
    return hole, Boss(top_x, 2 * radius, top_z, hole, turned=False)


def toe_way(spec: LowBodySpec, thread: Thread, boss_x: float | None = None) -> ToeWay:
    """Return the toe piece's way.

    Args:
        spec: the body section; it must ask for a toe piece.
        thread: of the stud that locks it.
        boss_x: where boss and stud stand with the mouth at its nominal opening [mm]; default: as far aft as the
            bridge block may stand.

    Raises:
        ValueError: the spec asks for no toe piece.
    """
    piece = spec.toe_piece
    if piece is None:
        raise ValueError("the spec asks for no toe piece")
    sole, most = spec.sole_thickness, max(piece.opening_most, spec.mouth_opening)
    ledge = LEDGE * sole if piece.thickness is None else piece.thickness
    radius = thread.major / 2 + 3.8
    roof = FLOOR_LEFT + thread.major + thread.pitch + 0.25
    block = roof + BLOCK_ROOF
    reach = radius + BLOCK_WALL + 0.05 * (block - sole) + rules.root_radius(spec)
    throat = most + THROAT + sole / tan(radians(rules.mouth_front_angle(spec)))
    if boss_x is None:
        boss_x = -(throat + 1.0 + reach + spec.mouth_opening + 0.4)
    toe_end = max(-spec.mouth_from_toe + TOE_LAND, boss_x - radius - PIECE_AHEAD - most)
    top = roof - 0.25
    stud = TappedHole(boss_x, 0.0, top, thread.tap_drill, thread.name, hole_depth(top, thread.tap_drill))
    return ToeWay(0.0, most, toe_end, 3.0, ledge, boss_x, radius, roof, block, BLOCK_WALL, stud, thread.clearance_hole)


def grip_hollow(spec: LowBodySpec, draft_inside: float, middle: float) -> GripHollow | None:
    """Return the hollows for thumb and finger about x = middle [mm], or None when the cheeks are too thin or low.

    Args:
        spec: the body section.
        draft_inside: of the cheeks' insides [deg]; it thins them toward their tops.
        middle: x of the hollow's middle [mm].
    """
    height = min(16.0, 0.58 * (spec.cheek_height - 2.0))
    z = spec.cheek_height - 4.0 - height / 2
    lean = (z - (spec.sole_thickness + spec.cheek_height) / 2) * tan(radians(draft_inside))
    depth = min(HOLLOW_DEPTH, spec.cheek_thickness - lean - HOLLOW_LEFT)
    if depth < 0.5 or height < 8.0:
        return None
    return GripHollow(middle, z, min(40.0, 0.27 * spec.length), height, depth)


def low_body(spec: LowBodySpec, seats: Seats, cast: CastAllowances) -> LowBodySize:
    """Return the resolved body.

    Args:
        spec: the body section.
        seats: what the other parts ask of it.
        cast: stock, draft and radii; `pad` is the stock on the bed, `boss` that on bosses.
    """
    b = radians(seats.bed_angle)
    toe_x, heel_x = -spec.mouth_from_toe, spec.length - spec.mouth_from_toe
    bridge = Bridge(seats.bridge[0] * cos(b), seats.bridge[1] * cos(b))
    tote = seats.tote_boss
    if seats.arch_to is not None:
        arch_to = seats.arch_to
    elif tote is None:
        arch_to = heel_x - max(5.0, 0.04 * spec.length)
    else:
        arch_to = min(heel_x - 12.0, tote.x + 0.35 * (heel_x - tote.x))
    wanted = tote is None if spec.grip_hollows is None else spec.grip_hollows
    size = LowBodySize(
        length=spec.length,
        width=spec.width,
        sole=spec.sole_thickness,
        cheek=spec.cheek_thickness,
        cheek_height=spec.cheek_height,
        rail_height=rules.rail_height(spec),
        root_radius=rules.root_radius(spec),
        corner_radius=rules.corner_radius(spec),
        toe_x=toe_x,
        heel_x=heel_x,
        arch_from=toe_x + max(6.0, 0.16 * spec.mouth_from_toe),
        arch_peak=ARCH_PEAK * bridge.x1,
        arch_to=arch_to,
        bed_angle=seats.bed_angle,
        mouth_opening=spec.mouth_opening,
        mouth_half_width=seats.blade_width / 2 + rules.mouth_side_clearance(spec),
        mouth_front_angle=rules.mouth_front_angle(spec),
        ribs=seats.ribs,
        cast=cast,
        feather=spec.feather,
        ramp_to=max(ramp_to(spec, seats.bed_angle), seats.land_to * cos(b)),
        bridge=bridge,
        stud=seats.stud,
        stud_boss=seats.stud_boss,
        bores=seats.bores,
        grooves=seats.grooves,
        wheel_well=seats.wheel_well,
        knob_boss=None if seats.toe_way else seats.knob_boss,
        tote_boss=tote,
        toe_boss=seats.toe_boss,
        grip=None,
        toe_way=seats.toe_way,
    )
    size = _with_peak(size)
    return replace(size, grip=grip_hollow(spec, cast.draft_inside, size.arch_peak)) if wanted else size


def _with_peak(size: LowBodySize) -> LowBodySize:
    """Return the body with the cheeks' peak as far ahead as leaves the rim its room above the bridge."""
    for step in range(14):
        moved = replace(size, arch_peak=(ARCH_PEAK + 0.02 * step) * size.bridge.x1)
        try:
            rooms = [room for _, _, room in rim_room(moved)]
        except GeometryError:
            continue  # no smooth arch has its peak there; the limits say so of the last resort
        if min(rooms) >= rim_need(moved) + RIM_SPARE:
            return moved
    return size
