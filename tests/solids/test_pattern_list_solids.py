"""Every row of the pattern maker's list, measured on the solid that is cast: nothing on the list that is not there."""

from __future__ import annotations

import pytest

from parts.body.low_angle.machined_faces import boss_names as low_names
from parts.body.low_angle.size import LowBodySize
from parts.body.machined_faces import boss_names
from parts.body.ribs import boss_roundings, bosses_of, ribs_of
from parts.body.size import BodySize, Trough
from tests.cut_measures import Cut, Sizes, casting_rows, compare, extents, has_radius, plane

pytestmark = pytest.mark.kernel


def trough_sizes(b: Trough, solid: object, long: Cut) -> tuple[Sizes, float]:
    """What every body has; and x of the toe end at the parting."""
    (x0, x1), (y0, y1), (low, _) = extents(solid)
    c = Cut(solid, "heel", (b.arch_peak, 0.0, 0.0))
    high, rail = b.cheek_height, (b.heel_x + b.arch_to) / 2
    inner, outer = c.wall(b.width / 2 - b.cheek, high), c.wall(b.width / 2, high)
    aft = Cut(solid, "heel", (rail, 0.0, 0.0))
    return {
        "length over all": x1 - x0,
        "width over the cheeks": y1 - y0,
        "width inside, between the cheeks' tops": 2 * inner,
        "cheek height above the sole face": c.level(b.width / 2, high) - low,
        "rail height above the sole face": aft.level(b.width / 2, b.rail_height) - low,
        "sole thickness": long.level(b.toe_x + 6.0, b.sole) - low,
        "cheek thickness at its top": outer - inner,
        "corners in plan, radius at the parting": Cut(solid, "top", (0.0, 0.0, b.cast.parting_z + 1e-4)).arcs[0].radius,
        "inside radius, cheek to sole": has_radius(solid, b.root_radius),
        "radius of the other edges": has_radius(solid, b.cast.edge_radius),
    }, x0


def standing_sizes(b: Trough, solid: object, long: Cut, names: dict[float, str]) -> Sizes:
    """Bosses and ribs: place, sizes, height."""
    found: Sizes = {}
    (x0, _), _, (low, _) = extents(solid)

    def place(name: str, middle: float) -> None:
        found[f"toe end to {name}"] = middle - x0

    for boss in bosses_of(b):
        name, top = names[boss.x], long.level(boss.x, boss.z_top + 2.0)
        one, two = long.walls(boss.x, b.sole)
        place(name, (one + two) / 2)
        found[f"{name}, diameter at the plate"] = two - one
        one, two = long.walls(boss.x, top)
        found[f"{name}, diameter at its raw top"] = two - one
        found[f"{name}, top above the sole face"] = top - low
        found[f"{name}, radius at its foot"] = has_radius(solid, boss_roundings(b, boss)[0])
    ribs = ribs_of(b)
    for i, rib in enumerate(ribs):
        name = "rib" if len(ribs) == 1 else f"rib {i + 1}"
        one, two = long.walls(rib.x, b.sole)
        cross = Cut(solid, "heel", (rib.x, 0.0, 0.0))
        left, right = cross.walls(0.0, b.sole)
        place(name, (one + two) / 2)
        found[f"{name}, thickness"] = two - one
        found[f"{name}, length"] = right - left
        found[f"{name}, top above the sole face"] = long.level(rib.x, rib.z) - low
        found[f"{name}, radius at its foot"] = has_radius(solid, rib.root)
    return found


def bench_sizes(b: BodySize, solid: object, long: Cut, x0: float) -> Sizes:
    """Pads and key."""
    low = extents(solid)[2][0]
    beside = Cut(solid, "front", (0.0, 13.0, 0.0))
    mid = (b.high_pad.x0 + b.high_pad.x1) / 2
    raw_low = beside.level((b.low_pad.x0 + b.low_pad.x1) / 2, b.low_pad.z + 2.0)
    raw = beside.level(mid, b.high_pad.z + 2.0)
    step, aft = beside.wall(b.high_pad.x0 - 2.0, b.high_pad.z), beside.wall(b.high_pad.x1, b.high_pad.z)
    cross = Cut(solid, "heel", (mid, 0.0, 0.0))
    one, two = long.walls(mid, raw)
    left, right = cross.walls(0.0, raw)
    return {
        "low frog pad above the sole face": raw_low - low,
        "high frog pad above the sole face": raw - low,
        "toe end to the low pad's fore side, at the plate": beside.wall(b.low_pad.x0 - 1.0, b.sole) - x0,
        "toe end to the step, at the finished high pad": step - x0,
        "high frog pad along, at its finished top": aft - step,
        "radius at the pads' feet": has_radius(solid, b.root_radius + 0.6),
        "toe end to the key's fore end, at the raw pad": one - x0,
        "key, length at the raw pad": two - one,
        "key, width at the raw pad": right - left,
        "key, raw top above the raw high pad": long.level(mid, raw + b.key_height) - raw,
    }


def low_sizes(b: LowBodySize, solid: object, long: Cut, x0: float) -> Sizes:
    """Land, bridge, block."""
    low = extents(solid)[2][0]
    places = {"the front land's aft side": b.ramp_to, "the bridge's fore side": b.bridge.x0,
              "the bridge's aft side": b.bridge.x1}  # fmt: skip
    found: Sizes = {"radius at the feet of land and bridge": has_radius(solid, b.root_radius + 1.2)}
    for name, x in places.items():
        found[f"toe end to {name}, at the finished bed"] = long.wall(x, b.bed_z(x)) - x0
        found[f"bed at {name}, above the sole face"] = long.level(x, b.bed_z(x) + 2.0) - low
    middle = (b.bridge.x0 + b.bridge.x1) / 2
    one, two = long.walls(middle, b.sole)
    found["bridge along the body, at the plate"] = two - one
    if b.toe_way is not None:
        at = b.toe_way.boss_x
        one, two = long.walls(at, b.sole)
        cross = Cut(solid, "heel", ((one + two) / 2, 0.0, 0.0))
        left, right = cross.walls(0.0, b.sole)
        found["toe end to the bridge block's middle"] = (one + two) / 2 - x0
        found["bridge block, length at the plate"] = two - one
        found["bridge block, width at the plate"] = right - left
        found["bridge block, top above the sole face"] = long.level(at, b.toe_way.block_z + 2.0) - low
    return found


@pytest.mark.parametrize("spec", ["linnet", "heron", "heron-metric", "crane", "wren", "wren-long"])
def test_every_row_of_the_body_is_on_its_casting(spec: str) -> None:
    d, m = plane(spec)
    b, solid = d.body, m.body_casting
    long = Cut(solid, "front", (0.0, 0.0, 0.0))
    found, x0 = trough_sizes(b, solid, long)
    if isinstance(b, BodySize):
        found |= bench_sizes(b, solid, long, x0) | standing_sizes(b, solid, long, boss_names(b))
    else:
        found |= low_sizes(b, solid, long, x0) | standing_sizes(b, solid, long, low_names(b))
    compare(casting_rows(d, "body"), found)
