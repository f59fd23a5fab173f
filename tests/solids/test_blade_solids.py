"""The blade in the kernel against plain arithmetic: volume, angles, edge, seat."""

from __future__ import annotations

from math import acos, cos, degrees, pi, radians, sin, tan

import cadquery as cq
import pytest
from shapely.geometry import Polygon

from parts.blade.bedding import BACK_BEVEL_WIDTH_MM
from parts.blade.bevel import bevel_shape
from parts.blade.outline import edge_camber, outline
from parts.blade.size import BladeSize
from parts.blade.solid import solid
from shared.cad.slope import Slope
from shared.record import replace

pytestmark = pytest.mark.kernel

PLAIN = BladeSize(
    width=50.8, length=190.5, thickness=3.175, bevel=25.0, micro_bevel=None, micro_width=0.0, back_bevel=0.0, skew=0.0,
    camber_at_work=0.0, slot_width=11.0, slot_low=45.0, slot_high=160.5, slot_eye=15.9, corner_radius=11.2, arris=0.0,
)  # fmt: skip
HONED = replace(PLAIN, micro_bevel=30.0, micro_width=0.5, arris=0.3)


def _normals_at_the_edge(blade: cq.Solid, near: float) -> list[cq.Vector]:
    """Normals of the large faces that come within `near` of the middle of the edge."""
    probe = cq.Vertex.makeVertex(0.0, 0.0, 0.0)
    faces = [f for f in blade.Faces() if f.distance(probe) < near and f.Area() > 10.0]
    return [f.normalAt(f.positionAt(*[sum(b) / 2 for b in (f._uvBounds()[:2], f._uvBounds()[2:])])) for f in faces]


def _angles(blade: cq.Solid, bed: float, near: float) -> list[float]:
    face = cq.Vector(*Slope(bed, 0.0).outward)
    return sorted(degrees(acos(max(-1.0, min(1.0, -n.dot(face))))) for n in _normals_at_the_edge(blade, near))


def test_outline_area_against_shapely_and_by_hand() -> None:
    flat = outline(PLAIN, 45.0)
    for profile in (flat.outside, flat.slot):
        assert Polygon(profile.polyline(1e-4)).area == pytest.approx(profile.area, rel=2e-5)
    # the outside lies between the rectangle to the shoulders and the full one
    shoulder = 190.5 - 0.05 * 50.8
    assert 50.8 * shoulder - 2 * 11.2**2 < flat.outside.area < 50.8 * 190.5
    # slot: straight part, half circle on top, eye; the neck's small blends and the eye's overlap within 2 mm2
    neck = 45 + 15.9 / 2 + (7.95**2 - 5.5**2) ** 0.5
    straight = 11 * (160.5 - 5.5 - neck) + pi * 5.5**2 / 2
    cap = 7.95**2 * acos((neck - 52.95) / 7.95) - (neck - 52.95) * 5.5
    assert flat.slot.area == pytest.approx(straight + pi * 7.95**2 - cap, abs=2.0)


@pytest.mark.parametrize(("thickness", "bevel"), [(3.175, 25.0), (4.8, 30.0)])
def test_volume_is_flat_less_the_bevels_wedge(thickness: float, bevel: float) -> None:
    size = replace(PLAIN, thickness=thickness, bevel=bevel)
    flat = outline(size, 45.0)
    wedge = size.width * thickness**2 / (2 * tan(radians(bevel)))
    expected = (flat.outside.area - flat.slot.area) * thickness - wedge
    assert solid(size, 45.0).Volume() == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize("bed", [40.0, 58.0])
def test_seated_edge_face_and_bevels(bed: float) -> None:
    blade = solid(HONED, bed)
    lowest = min(blade.Vertices(), key=lambda v: v.Z)
    edge = (lowest.X, lowest.Z)
    assert edge == pytest.approx((0.0, 0.0), abs=1e-6)
    # the honed facet at the edge, then the ground one half a millimetre back, and the face itself (180 deg from itself)
    assert _angles(blade, bed, 0.6) == pytest.approx([25.0, 30.0, 180.0], abs=1e-5)
    # heel of the ground bevel, from the published-rule arithmetic of parts.blade.bevel
    shape = bevel_shape(HONED.thickness, 25.0, 30.0, 0.5)
    heel = Slope(bed, HONED.thickness).point(shape.heel_from_edge)
    assert min((cq.Vector(v.X, 0, v.Z) - cq.Vector(*heel)).Length for v in blade.Vertices()) < 0.6


def test_arrises_are_eased_and_the_edge_is_not() -> None:
    sharp = replace(HONED, arris=0.0)
    lost = solid(sharp, 45.0).Volume() - solid(HONED, 45.0).Volume()
    flat = outline(HONED, 45.0)
    around = flat.outside.perimeter - HONED.width + flat.slot.perimeter
    # 0.3 x 0.3 / 2 off every arris of both faces, less the bevel's length on the lower one
    assert lost == pytest.approx(2 * around * 0.045, rel=0.03)
    edge = [e for e in solid(HONED, 45.0).Edges() if abs(e.Center().z) < 1e-6 and abs(e.Center().x) < 1e-6]
    assert len(edge) == 1
    assert edge[0].Length() == pytest.approx(HONED.width - 2 * HONED.arris, abs=1e-6)


def test_skewed_edge_keeps_its_bevel_square_to_the_edge() -> None:
    size = replace(HONED, skew=20.0)
    blade = solid(size, 45.0)
    face = cq.Vector(*Slope(45.0, 0.0).outward)
    edge = cq.Vector(*Slope(45.0, 0.0).up) * sin(radians(20)) + cq.Vector(0, cos(radians(20)), 0)
    honed = next(n for n in _normals_at_the_edge(blade, 0.01) if n.dot(face) < -0.1 and n.dot(face) > -0.9)
    assert abs(honed.dot(edge)) < 1e-9
    assert degrees(acos(-honed.dot(face))) == pytest.approx(30.0, abs=1e-5)


def test_cambered_edge_stands_back_at_its_ends() -> None:
    size = replace(HONED, arris=0.0, camber_at_work=0.2)
    assert edge_camber(size, 45.0) == pytest.approx(0.2 / sin(radians(45)))
    blade = solid(size, 45.0)
    ends = sorted(blade.Vertices(), key=lambda v: v.Z)[:2]
    # the ends of the edge lie the depth at the work above its middle, which touches the sole plane
    assert [v.Z for v in ends] == pytest.approx([0.2, 0.2], abs=1e-5)
    assert sorted(v.Y for v in ends) == pytest.approx([-25.4, 25.4], abs=1e-6)
    assert blade.BoundingBox().zmin == pytest.approx(0.0, abs=1e-4)
    assert edge_camber(replace(size, camber_at_work=0.03), 45.0) == 0.0


def test_back_bevel_lowers_the_edge_into_the_thickness() -> None:
    size = replace(HONED, back_bevel=15.0, arris=0.0)
    blade = solid(size, 45.0)
    lowest = min(blade.Vertices(), key=lambda v: v.Z)
    drop = BACK_BEVEL_WIDTH_MM * sin(radians(15.0))
    edge = (lowest.X, lowest.Z)
    assert edge == pytest.approx((drop / sin(radians(45.0)), 0.0), abs=1e-6)
    small = [f for f in blade.Faces() if abs(f.Area() - BACK_BEVEL_WIDTH_MM * size.width) < 1e-3]
    face = cq.Vector(*Slope(45.0, 0.0).outward)
    assert [round(degrees(acos(f.normalAt().dot(face))), 4) for f in small] == [15.0]
