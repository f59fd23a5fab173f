"""A low-angle plane in the kernel: lever cap and depth wheel by themselves, and the whole block plane."""

from __future__ import annotations

import itertools
from math import cos, radians, sin, tan
from pathlib import Path

import cadquery as cq
import pytest

from parts.blade import solid as blade
from parts.blade.size import BladeSize
from parts.low_angle.proof import TOLERANCE_MM3, stock_points
from parts.low_angle.setting import Setting, furthest_out, lateral_limit
from parts.low_angle.solid import adjuster_parts, moved_with_blade
from parts.plane.low_angle.design import LowAngleDesign
from parts.plane.low_angle.models import ON_TOE_PIECE, Models
from parts.plane.low_angle.solid_checks import settings
from parts.plane.shop import load_shop
from parts.plane.weight import weight
from shared.cad.cast_proof import least_draft, least_stock, outside_casting
from shared.cad.slope import off_bed
from shared.cad.solids import common_volume, extrude
from shared.profile import Profile
from tests.cut_measures import extents
from tests.planes import designed, made

pytestmark = pytest.mark.kernel

SPECS = Path(__file__).parents[2] / "specs"
SHOP = load_shop(SPECS / "shop.toml")


def plane(name: str) -> LowAngleDesign:
    found = designed(name)
    assert isinstance(found, LowAngleDesign)
    return found


@pytest.fixture(scope="module")
def wren() -> LowAngleDesign:
    return plane("wren")


@pytest.fixture(scope="module")
def models(wren: LowAngleDesign) -> Models:
    found = made("wren")
    assert isinstance(found, Models)
    return found


# ---- blade ------------------------------------------------------------------------------------------------------


def test_blade_lies_flat_with_its_bevel_up(wren: LowAngleDesign, models: Models) -> None:
    flat = cq.Solid(models.blade.rotate((0, 0, 0), (0, 1, 0), 12.0).wrapped)
    assert extents(flat)[2] == pytest.approx((0.0, wren.blade.thickness), abs=1e-6)
    box = flat.BoundingBox()
    assert (box.xmin, box.xmax) == pytest.approx((0.0, wren.blade.length), abs=1e-3)
    # the edge itself is at the origin, and the steel over it thickens by the bevel
    beside = cq.Vertex.makeVertex(2.0, 10.0, 2.0 * sin(radians(25)) / cos(radians(25)))
    assert flat.distance(beside) < 1e-6
    slots = [f for f in flat.Faces() if f.geomType() == "PLANE" and abs(f.normalAt().x) > 0.99 and f.Area() < 40]
    assert len(slots) == 2 * len(wren.blade.cross_slots)


def test_back_bevel_keeps_the_edge_on_the_sole(wren: LowAngleDesign) -> None:
    keys = dict(vars(wren.blade), back_bevel=5.0, micro_bevel=33.0, micro_width=0.5)
    box = blade.solid(BladeSize(**keys), 12.0).BoundingBox()
    assert box.zmin == pytest.approx(0.0, abs=1e-6)


# ---- lever cap --------------------------------------------------------------------------------------------------


def test_cap_draws_and_has_its_stock(wren: LowAngleDesign, models: Models) -> None:
    size, casting = wren.lever_cap, models.lever_cap_casting
    finished = off_bed(dict(models.lever_cap)["lever cap"], 12.0)
    assert least_draft(casting, "z", size.underside_q) >= size.outside_draft - 0.01
    assert outside_casting(finished, casting) < TOLERANCE_MM3
    for face, (point, out) in stock_points(size).items():
        assert least_stock(casting, point, out) >= size.stock - 1e-3, face
    # the nose bears across the whole land, and only there
    bearing = [f for f in finished.Faces() if f.geomType() == "PLANE" and abs(f.Center().z - size.blade_top) < 1e-6]
    assert len(bearing) == 1
    assert bearing[0].BoundingBox().ylen == pytest.approx(size.width, abs=1.0)


def test_clamp_and_wheel_meet_only_where_they_should(models: Models) -> None:
    steel = models.blade
    solids = dict([*models.lever_cap, *models.adjuster, ("blade", steel)])
    for (a, sa), (b, sb) in itertools.combinations(solids.items(), 2):
        assert common_volume(sa, sb) <= TOLERANCE_MM3, (a, b)
    # nose and foot touch the blade: a hair nearer and they are in it
    down = cq.Vector(sin(radians(12)), 0.0, -cos(radians(12))) * 0.01
    for name in ("lever cap", "clamp foot"):
        assert common_volume(solids[name].translate(down), steel) > 0.1, name
    # the flange stands in its slot with half the play on each side
    up = cq.Vector(cos(radians(12)), 0.0, sin(radians(12)))
    for way in (1.0, -1.0):
        wheel = solids["depth wheel"]
        assert common_volume(wheel.translate(up * (way * 0.12)), steel) <= TOLERANCE_MM3
        assert common_volume(wheel.translate(up * (way * 0.14)), steel) > TOLERANCE_MM3


@pytest.mark.parametrize("travel", [-4.0, 4.0])
def test_wheel_takes_the_blade_along(wren: LowAngleDesign, models: Models, travel: float) -> None:
    bed, set_to = 12.0, Setting(blade_travel=travel)
    steel = moved_with_blade(models.blade, bed, wren.lateral.pivot_at, set_to)
    parts = dict(adjuster_parts(wren.adjuster, bed, set_to))
    assert common_volume(steel, parts["depth wheel"]) <= TOLERANCE_MM3
    assert common_volume(parts["depth post"], parts["depth wheel"]) <= TOLERANCE_MM3
    assert extents(steel)[2][0] == pytest.approx(travel * sin(radians(bed)), abs=1e-6)


def test_blade_turns_as_far_as_said(wren: LowAngleDesign, models: Models) -> None:
    bed, steel, wheel = 12.0, models.blade, dict(models.adjuster)["depth wheel"]
    turned = moved_with_blade(steel, bed, wren.lateral.pivot_at, Setting(lateral=wren.lateral.degrees))
    assert common_volume(turned, wheel) <= TOLERANCE_MM3
    too_far = moved_with_blade(steel, bed, wren.lateral.pivot_at, Setting(lateral=wren.lateral.degrees + 4.0))
    assert common_volume(too_far, wheel) > TOLERANCE_MM3


def test_turned_edge_stops_at_the_front_of_a_narrow_mouth(wren: LowAngleDesign, models: Models) -> None:
    """The leading corner of a turned edge meets the mouth's front long before the blade's sides meet anything."""
    bed, opening, half = 12.0, 0.2, wren.blade.width / 2
    limit = lateral_limit(
        mouth_side=0.8, bed_to=73.0, stud_at=wren.stations.stud_at, stud_room=2.0, cheek_at=90.0, cheek_room=3.0,
        edge_half=half, out_most=furthest_out(opening, bed, bed + wren.blade.honed_bevel), adjuster=wren.adjuster,
    )  # fmt: skip
    assert limit.degrees < 0.95 * wren.lateral.degrees
    lean = wren.body.sole / tan(radians(wren.body.mouth_front_angle))
    wall = Profile.polygon([(-opening, 0.0), (-opening - lean, 6.0), (-20.0, 6.0), (-20.0, 0.0)], name="mouth's front")
    front = extrude(wall, "y", -half - 5, half + 5)

    def shared(share: float) -> float:
        turn = Setting(lateral=share * limit.degrees)
        return common_volume(moved_with_blade(models.blade, bed, limit.pivot_at, turn), front)

    # what a corner a few hundredths too far shares is small
    assert shared(0.99) < 1e-7
    assert shared(1.2) > 1e-4


# ---- the whole block plane --------------------------------------------------------------------------------------


def test_nothing_interferes_at_the_ends_that_matter(wren: LowAngleDesign, models: Models) -> None:
    """What moves against what stands: the whole matrix of pairs is the business of `check --solids`."""
    everything = settings(wren)
    moving = {"blade", "depth wheel", "toe piece", *ON_TOE_PIECE}
    pairs = {
        "blade drawn back": (("blade", "body"), ("blade", "lever-cap stud")),
        "blade pushed out, mouth at its widest": (
            ("blade", "toe piece"),
            ("depth wheel", "body"),
            ("toe piece", "body"),
        ),
        "blade turned to the left": (("blade", "body"), ("blade", "lever-cap stud")),
    }
    for name, looked_at in pairs.items():
        at = models.at(everything[name])
        assert moving <= set(at)
        for a, b in looked_at:
            assert common_volume(at[a], at[b]) <= TOLERANCE_MM3, (name, a, b)


def test_blade_past_the_mouth_hits_it(wren: LowAngleDesign, models: Models) -> None:
    """The limit of the way out is real: a little farther and the bevel is in the toe piece."""
    beyond = Setting(blade_travel=-1.05 * wren.out_most, opening=wren.widest_mouth)
    at = models.at(beyond)
    assert common_volume(at["blade"], at["toe piece"]) > TOLERANCE_MM3


def test_weight_by_arithmetic_is_near(wren: LowAngleDesign, models: Models) -> None:
    mass, centre = models.mass_and_centre()
    said = weight(wren)
    assert said.mass == pytest.approx(mass, rel=0.03)
    assert said.balance == pytest.approx(centre[0], abs=3.0)
    assert abs(centre[1]) < 0.05
