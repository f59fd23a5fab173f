"""Every row of the pattern maker's lists of frog, lever cap and cam lever, measured on the solids that are cast."""

from __future__ import annotations

from math import cos, dist, hypot, radians, sin, tan

import pytest

from parts.plane.moulding import cast_solid
from shared.cad.sampling import Rays
from shared.segments import Line
from tests.cut_measures import Cut, Sizes, casting_rows, compare, extents, has_radius, plane

pytestmark = pytest.mark.kernel


def slanted(lines: list[Line], near: tuple[float, float], angle: float) -> tuple[float, float, float]:
    """Return (a, b, c) of a x + b z = c: the line nearest to a point that runs at an angle [deg]."""
    n = (-sin(radians(angle)), cos(radians(angle)))
    found = [s for s in lines if abs(n[0] * s.direction()[0] + n[1] * s.direction()[1]) < 1e-3]
    s = min(found, key=lambda s: min(dist(near, s.start), dist(near, s.end), s.distance(near)))
    return (*n, n[0] * s.start[0] + n[1] * s.start[1])


def meet(a: tuple[float, float, float], b: tuple[float, float, float]) -> tuple[float, float]:
    d = a[0] * b[1] - a[1] * b[0]
    return (a[2] * b[1] - b[2] * a[1]) / d, (a[0] * b[2] - b[0] * a[2]) / d


@pytest.mark.parametrize("spec", ["linnet", "heron-metric", "crane"])
def test_every_row_of_the_frog_is_on_its_casting(spec: str) -> None:
    d, m = plane(spec)
    f, solid = d.mechanism.frog, m.frog_casting
    bed, o = f.bed_angle, f.outline()
    c = Cut(solid, "front", (0.0, 0.0, 0.0))
    angles = (0.0, 90.0, 0.0, 90.0, bed - 90.0, bed, bed - 90.0, bed)
    middles = [((p[0] + q[0]) / 2, (p[1] + q[1]) / 2) for p, q in zip(o, [*o[1:], o[0]], strict=True)]
    sides = [slanted(c.lines, at, angle) for at, angle in zip(middles, angles, strict=True)]
    k = [meet(a, b) for a, b in zip([sides[-1], *sides[:-1]], sides, strict=True)]
    up = (cos(radians(bed)), sin(radians(bed)))
    found = {
        "foot, bed's foot to aft wall": k[3][0] - k[0][0],
        "height over the low seat, to the bed's top corner": k[7][1] - k[0][1],
        "bed plate thickness": dist(k[6], k[7]),
        "bed length up the slope": dist(k[0], k[7]),
        "low seat to high seat": k[2][1] - k[0][1],
        "step, from the bed's foot": k[1][0] - k[0][0],
        "rear face, up the slope from the bed's foot": (k[5][0] - k[0][0]) * up[0] + (k[5][1] - k[0][1]) * up[1],
        "aft wall, high seat to rear face": k[4][1] - k[3][1],
        "hollow between rear face and bed plate, radius": c.arc(f.root_radius).radius,
        "width across": extents(solid)[1][1] - extents(solid)[1][0],
    }
    # a pocket's walls at two widths, carried on to the web
    near, far = f.web_half + 4.0, f.half_width - 2.0
    walls = [pocket_walls(f, solid, y) for y in (near, far)]
    for name in walls[0]:
        slope = (walls[1][name] - walls[0][name]) / (far - near)
        found[f"pocket: {name}"] = walls[0][name] - slope * (near - f.web_half)
    ends = [s.start for s in Cut(solid, "front", (0.0, near, 0.0)).hole_lines]
    x, z = (sum(e[i] for e in ends) / len(ends) for i in (0, 1))
    deep = Rays(solid).reach((x, -60.0, z), (0.0, 1.0, 0.0))
    assert deep is not None
    found["middle web"] = 2 * (60.0 - deep)
    compare(casting_rows(d, "frog"), found)


def pocket_walls(f: object, solid: object, y: float) -> Sizes:
    """Wall thickness round a frog's side pocket at a width [mm]: between the nearest two lines of each direction."""
    c = Cut(solid, "front", (0.0, y, 0.0))
    o, bed = f.outline(), f.bed_angle  # type: ignore[attr-defined]
    ways = {"wall under the bed": (0.5 * (o[7][0] + o[0][0]), 0.5 * (o[7][1] + o[0][1]), bed),
            "floor over the high seat": (0.5 * (o[2][0] + o[3][0]), o[2][1], 0.0),
            "wall to the rear face": (0.5 * (o[4][0] + o[5][0]), 0.5 * (o[4][1] + o[5][1]), bed - 90.0),
            "wall to the aft wall": (o[3][0], o[3][1] + 4.0, 90.0)}  # fmt: skip
    found = {}
    for name, (x, z, angle) in ways.items():
        n = (-sin(radians(angle)), cos(radians(angle)))
        outer = slanted(c.lines, (x, z), angle)[2]
        inner = [n[0] * s.start[0] + n[1] * s.start[1] for s in c.hole_lines
                 if abs(n[0] * s.direction()[0] + n[1] * s.direction()[1]) < 1e-3]  # fmt: skip
        if inner:  # where the corners' rounds meet there is no straight wall
            found[name] = min(abs(v - outer) for v in inner)
    return found


@pytest.mark.parametrize("spec", ["linnet", "heron-metric", "crane"])
def test_every_row_of_cap_and_lever_is_on_their_castings(spec: str) -> None:
    d, m = plane(spec)
    z = d.mechanism.lever_cap
    compare(casting_rows(d, "lever cap"), cap_sizes(z, cast_solid(m, "lever cap").casting))
    compare(casting_rows(d, "cam lever"), lever_sizes(z, cast_solid(m, "cam lever").casting))


def cap_sizes(z: object, solid: object) -> Sizes:
    u, low = z.underside_q, z.nose_q - z.nose_stock  # type: ignore[attr-defined]
    middle, plan = Cut(solid, "front", (0.0, 0.0, 0.0)), Cut(solid, "top", (0.0, 0.0, u + 1e-4))
    ear_y = (z.slot_half + z.tail_width / 2) / 2
    ear, at_pivot = Cut(solid, "front", (0.0, ear_y, 0.0)), Cut(solid, "heel", (z.pivot_at, 0.0, 0.0))
    round_ = ear.arc(z.ear_radius)
    top = round_.centre[1] + round_.radius
    fore, _ = middle.walls((z.land[0] + z.land[1]) / 2, low)
    aft = middle.wall(z.land[1], low)
    slot, behind = at_pivot.walls(0.0, top), Cut(solid, "heel", (z.tail - 2.5, 0.0, 0.0))
    nose = Cut(solid, "heel", (z.land[1] + 1.0, 0.0, 0.0))
    window = middle.walls((z.window[0] + z.window[1]) / 2, top)
    return {
        "length, nose front to tail": plan.bounds[2] - plan.bounds[0],
        "width at the nose": nose.bounds[2] - nose.bounds[0],
        "width over the ears, at the parting": 2 * plan.level(z.pivot_at, z.tail_width / 2),
        "tail to the middle of the ears' round": plan.bounds[2] - round_.centre[0],
        "radius of the ears' round": round_.radius,
        "plate under the screw's head": middle.level(z.screw_at, u + 6.0) - u,
        "nose land below the underside": u - middle.bounds[1],
        "land's length at its raw face": aft - fore,
        "top of the ears above the underside": top - u,
        "lever slot between the ears, at their top": slot[1] - slot[0],
        "floor of the slot (stop) above the underside": behind.level(0.0, z.stop_q + 1.0) - u,
        "cam window along, at the ears' top": window[1] - window[0],
        "radius of the rim": has_radius(solid, 1.6),
        "radius in the nose's root": middle.arc(3.0).radius,
    }


def lever_sizes(z: object, solid: object) -> Sizes:
    side = Cut(solid, "front", (0.0, 0.0, 0.0))
    grown = z.nose_stock + z.lever_width / 2 * tan(radians(z.outside_draft))
    hub, cam = side.arc(z.hub_radius + grown), side.arc(z.cam_radius + grown)
    across, paddle = (Cut(solid, "heel", (x, 0.0, 0.0)) for x in (z.pivot_at, z.pivot_at + z.lever_length - 14.0))
    tip = z.pivot_at + z.lever_length
    long = [a for a in side.arcs if a.radius > 18.0]
    ends = sorted(heights(a, tip) for a in long)
    stop = side.level(z.tail, z.stop_q - grown)
    return {
        "length, cam to tip, shut": side.bounds[2] - (cam.centre[0] - cam.radius),
        "width of hub and cam": across.bounds[2] - across.bounds[0],
        "width of the paddle": paddle.bounds[2] - paddle.bounds[0],
        "cam diameter": 2 * cam.radius,
        "hub diameter over the top": 2 * hub.radius,
        "cam's centre from the pivot's": hypot(cam.centre[0] - hub.centre[0], cam.centre[1] - hub.centre[1]),
        "stop face to hub's top": hub.centre[1] + hub.radius - stop,
        "tip thickness, at the parting": ends[-1] - ends[0],
        "tip's underside above the stop face": ends[0] - stop,
        "radius of the paddle's rim": has_radius(solid, 1.4),
    }


def heights(arc: object, x: float) -> float:
    """Height of a flat arc, carried on to x [mm]; both arcs of the lever are hollow upward."""
    (cx, cz), r = arc.centre, arc.radius  # type: ignore[attr-defined]
    return cz - (r**2 - (x - cx) ** 2) ** 0.5


@pytest.mark.parametrize("spec", ["wren", "wren-long"])
def test_every_row_of_the_low_cap_is_on_its_casting(spec: str) -> None:
    d, m = plane(spec)
    z, solid = d.lever_cap, cast_solid(m, "lever cap").casting
    u = z.underside_q
    middle, plan = Cut(solid, "front", (0.0, 0.0, 0.0)), Cut(solid, "top", (0.0, 0.0, u + 1e-4))
    nose = Cut(solid, "heel", (z.land[1] + 1.5, 0.0, 0.0))
    tail = Cut(solid, "heel", (z.clamp.at, 0.0, 0.0))
    crown = max((a for a in middle.arcs), key=lambda a: a.radius)

    def top(s: float) -> float:
        return crown.centre[1] + (crown.radius**2 - (s - crown.centre[0]) ** 2) ** 0.5

    found = {
        "length over all": plan.bounds[2] - plan.bounds[0],
        "width at the nose": nose.bounds[2] - nose.bounds[0],
        "width at the clamp, at the parting": tail.bounds[2] - tail.bounds[0],
        "plate at the clamp": top(z.clamp.at) - u,
        "plate over the land's aft end": top(z.land[1]) - u,
        "nose land below the underside": u - middle.bounds[1],
        "nose front to the clamp": z.clamp.at - plan.bounds[0],
        "radius of the rim": has_radius(solid, 1.8),
        "radius in the nose's root": middle.arc(3.0).radius,
    }
    compare(casting_rows(d, "lever cap"), found)
