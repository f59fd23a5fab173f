"""Side outlines of the frog: as machined, as cast at the parting plane, and the side pockets."""

from __future__ import annotations

from math import cos, dist, hypot, radians, sin, tan

from parts.frog.size import FrogSize
from shared.errors import GeometryError
from shared.profile import Line, Point, Profile

SPOT_DIAMETER = 11.0  # spot face round the depth post
CORNER = 2.0  # least radius of an outside corner of the casting
STEP_CORNER = 1.2  # the same at the step of the foot, and at most where a machined face ends at a cast one

# sides of FrogSize.outline() in order, and whether each is machined all over
SIDES = ("low seat", "step", "high seat", "aft wall", "rear face", "underside", "top end", "bed")
MACHINED = frozenset({"low seat", "step", "high seat", "bed"})


def crown(size: FrogSize) -> float:
    """Return how much the draft adds at the parting plane over the frog's sides [mm]."""
    return size.half_width * tan(radians(size.draft))


def cast_offset(size: FrogSize, side: str) -> float:
    """Return how far a side of the casting stands outside the finished outline at the parting plane [mm].

    A machined side has its full stock at the frog's sides and the draft's crown besides. A side left as cast has its
    nominal place at the parting plane. The rear face is spot-faced round the post only, and has its stock there.
    """
    if side in MACHINED:
        return size.stock + crown(size)
    if side == "rear face":
        return size.stock + SPOT_DIAMETER / 2 * tan(radians(size.draft))
    return 0.0


def raw_floor(size: FrogSize) -> float:
    """Return the height of the pockets' floors as cast, at the frog's sides [mm].

    The cutter of the opening over each hold-down screw takes the stock off where the washer lies.
    """
    return size.high_z + size.floor + size.stock


def mixed_corner(size: FrogSize) -> float:
    """Return the radius [mm] at the frog's sides where a machined face ends at one left as cast.

    The round eats into the stock at the very edge of the machined face, and must leave the required allowance.
    """
    return max(0.3, min(STEP_CORNER, size.stock - size.required - 0.05))


def finished_outline(size: FrogSize) -> Profile:
    """Return the finished side outline (x, z) [mm] with sharp corners, on the middle plane."""
    return Profile.polygon(size.outline(), name="frog outline")


def casting_corners(size: FrogSize, y: float = 0.0) -> list[Point]:
    """Return the casting's corners (x, z) without their radii, in the order of `FrogSize.outline` [mm].

    Args:
        size: the frog.
        y: distance from the parting plane [mm].
    """
    corners, drawn = size.outline(), y * tan(radians(size.draft))
    sides = [Line(p, q) for p, q in zip(corners, [*corners[1:], corners[0]], strict=True)]
    moved = [_moved(s, cast_offset(size, name) - drawn) for s, name in zip(sides, SIDES, strict=True)]
    return [_meet(a, b) for a, b in zip([moved[-1], *moved[:-1]], moved, strict=True)]


def casting_outline(size: FrogSize) -> Profile:
    """Return the casting's side outline (x, z) [mm] at the parting plane y = 0, with its corner radii.

    Raises:
        GeometryError: a radius does not fit.
    """
    points = casting_corners(size)
    round_, root = CORNER + crown(size), size.root_radius
    step = STEP_CORNER + crown(size)
    inner = min(root, 0.98 * (size.high_z - size.low_z) - step)
    if inner < 0.5:
        raise GeometryError("frog", "casting outline", "no room for radii at the foot's step", left_mm=inner)
    # the foot's corner is sharp: its radius must not come through the stock
    half = radians(size.bed_angle / 2)
    foot = min(round_, 0.6 * size.stock / (1 - sin(half)) + crown(size))
    end = dist(points[6], points[7]) * 0.45
    mixed = mixed_corner(size) + crown(size)
    radii = [foot, step, inner, mixed, round_, root, min(round_, end), min(mixed, end)]
    return Profile.polygon(points, radii, "frog casting outline")


def hollow_x(
    *,
    bed_angle: float,
    blade_thickness: float,
    bed_plate: float,
    rear_at: float,
    stock: float,
    root: float,
    draft: float,
    y: float,
) -> float:
    """Return x [mm] of the foremost place of the cast hollow between rear face and underside, at a width y [mm].

    The hollow is a round of the root radius between the rear face's stock and the underside, all of them moved by the
    draft away from the parting plane.

    Args:
        bed_angle: bed to sole [deg].
        blade_thickness: of the steel [mm].
        bed_plate: thickness of the bed plate behind the rear face at the parting plane [mm].
        rear_at: s of the rear face [mm].
        stock: on the rear face [mm].
        root: inside radius at the parting plane [mm].
        draft: along the draw [deg].
        y: distance from the parting plane [mm].
    """
    b, t = radians(bed_angle), tan(radians(draft))
    across = (blade_thickness + bed_plate + root) * sin(b)
    along = (rear_at + stock + SPOT_DIAMETER / 2 * t + root) * cos(b)
    return across + along - root - y * t


def opening_to_hollow(size: FrogSize) -> float:
    """Return the metal between a hold-down screw's opening and the hollow below the bed plate [mm]."""
    front = hollow_x(
        bed_angle=size.bed_angle, blade_thickness=size.blade_thickness, bed_plate=size.bed_plate,
        rear_at=size.rear_at, stock=size.stock, root=size.root_radius, draft=size.draft, y=size.holddown_y,
    )  # fmt: skip
    return front - (size.holddown_at + size.access[0] / 2)


def yoke_pin_wall(size: FrogSize) -> float:
    """Return the metal between the yoke's pin hole and the cast underside [mm], at the side: the draft thins it."""
    return size.bed_plate - crown(size) - size.yoke_pivot_h - size.yoke_pin / 2


def pocket_outline(size: FrogSize) -> Profile | None:
    """Return the mouth of each side pocket (x, z) [mm], at the frog's side; None when no room is left for one.

    Walls are at their least here: the draft thickens them toward the web. The corners are round with the root
    radius and the draft's share, so that they still are where the pocket is narrowest.
    """
    b = radians(size.bed_angle)
    inside = size.half_width - size.web_half
    radius = size.root_radius + inside * tan(radians(size.draft))
    up, inward = (cos(b), sin(b)), (sin(b), -cos(b))
    thin_aft = crown(size)  # the aft wall is thinner at the sides by its own draft
    limits = [  # (outward normal, distance): inside where normal . p <= distance
        ((-inward[0], -inward[1]), -(size.blade_thickness + size.bed_wall)),
        ((0.0, -1.0), -(raw_floor(size))),
        (up, size.rear_at - size.rear_wall),
        ((1.0, 0.0), size.aft - thin_aft - size.rear_wall),
        ((-1.0, 0.0), -(size.high_from + 1.0)),
    ]
    x0, z0 = size.bed_point(0.0)
    box = [(x0 - 300, z0 - 300), (x0 + 300, z0 - 300), (x0 + 300, z0 + 300), (x0 - 300, z0 + 300)]
    core = box
    for normal, distance in limits:
        core = _clipped(core, normal, distance - radius)
    core = _merged(core, 0.2)
    if len(core) < 3 or abs(_area(core)) < 1.0:
        return None
    return _rounded_out(core, radius)


def _moved(side: Line, outward: float) -> Line:
    d = side.direction()
    n = (d[1] * outward, -d[0] * outward)
    return Line((side.start[0] + n[0], side.start[1] + n[1]), (side.end[0] + n[0], side.end[1] + n[1]))


def _meet(a: Line, b: Line) -> Point:
    p, d, q, e = a.start, a.direction(), b.start, b.direction()
    t = ((q[0] - p[0]) * e[1] - (q[1] - p[1]) * e[0]) / (d[0] * e[1] - d[1] * e[0])
    return p[0] + t * d[0], p[1] + t * d[1]


def _clipped(points: list[Point], normal: Point, distance: float) -> list[Point]:
    """Return a convex polygon cut off where normal . p > distance."""
    out: list[Point] = []
    for p, q in zip(points, [*points[1:], *points[:1]], strict=True):
        over_p = normal[0] * p[0] + normal[1] * p[1] - distance
        over_q = normal[0] * q[0] + normal[1] * q[1] - distance
        if over_p <= 0:
            out.append(p)
        if (over_p < 0 < over_q) or (over_q < 0 < over_p):
            t = over_p / (over_p - over_q)
            out.append((p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])))
    return out


def _merged(points: list[Point], near: float) -> list[Point]:
    out: list[Point] = []
    for p in points:
        if not out or dist(p, out[-1]) > near:
            out.append(p)
    return out[:-1] if len(out) > 1 and dist(out[0], out[-1]) <= near else out


def _area(points: list[Point]) -> float:
    pairs = zip(points, [*points[1:], *points[:1]], strict=True)
    return sum(p[0] * q[1] - q[0] * p[1] for p, q in pairs) / 2


def _rounded_out(core: list[Point], radius: float) -> Profile:
    """Return a convex polygon grown by a radius, with that radius at every corner."""
    corners = []
    for before, p, after in zip([core[-1], *core[:-1]], core, [*core[1:], core[0]], strict=True):
        a, b = Line(before, p).direction(), Line(p, after).direction()
        n = (a[1] + b[1], -a[0] - b[0])
        reach = 2 * radius / hypot(*n) ** 2
        corners.append((p[0] + n[0] * reach, p[1] + n[1] * reach))
    return Profile.polygon(corners, radius, "frog pocket")
