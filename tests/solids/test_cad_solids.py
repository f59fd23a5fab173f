"""Solids from outlines against closed formulas and shapely; every way to get a bad one is refused."""

from __future__ import annotations

import math

import cadquery as cq
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from OCP.ShapeFix import ShapeFix_ShapeTolerance
from OCP.TopAbs import TopAbs_ShapeEnum
from shapely.geometry import Polygon

from shared.cad.edges import chamfer_named, fillet_named
from shared.cad.mesh import tessellate
from shared.cad.mirrored import mirror_y, whole_of
from shared.cad.solids import (
    Frame,
    common_volume,
    extrude,
    extrude_both,
    extrude_in,
    looseness,
    mass_properties,
    one_valid_solid,
    pick_edges,
    revolve,
    taper_extrude,
    true_box,
    within,
)
from shared.errors import GeometryError
from shared.profile import Pen, Profile

pytestmark = pytest.mark.kernel


def arch(length: float = 200.0, rise: float = 30.0) -> Profile:
    side = Pen.at(0, 0, "arch").line_to(length, 0).line_to(length, 20, corner=8)
    return side.arc_to((length / 2, 20 + rise), (0, 20), corner=8).close(start_corner=3)


@settings(max_examples=15, deadline=None)
@given(length=st.floats(60, 500), rise=st.floats(3, 12), turn=st.floats(0, 360), axis=st.sampled_from("xyz"))
def test_extruded_volume_and_centre_agree_with_shapely(length: float, rise: float, turn: float, axis: str) -> None:
    outline = arch(length, rise).rotated(turn)
    hole = Profile.circle((length / 2, 12.0), 3.0).rotated(turn)
    solid = extrude(outline, axis, -2.0, 5.0, holes=[hole])
    ring = Polygon(outline.polyline(1e-5), [hole.polyline(1e-5)])
    assert solid.Volume() == pytest.approx(7.0 * ring.area, rel=1e-5)
    assert solid.Volume() == pytest.approx(7.0 * (outline.area - hole.area), rel=1e-10)
    c = solid.Center()
    middle = {"x": (1.5, None, None), "y": (None, 1.5, None), "z": (None, None, 1.5)}[axis]
    flat = [v for v, m in zip((c.x, c.y, c.z), middle, strict=True) if m is None]
    assert flat == pytest.approx([ring.centroid.x, ring.centroid.y], abs=1e-3)


@pytest.mark.parametrize("axis", ["x", "y", "z"])
def test_tapered_solid_has_the_volume_of_its_shrinking_outline(axis: str) -> None:
    outline, slope = arch(), math.tan(math.radians(2.0))
    solid = taper_extrude(outline, axis, 10.0, 2.0, up=10.0, down=6.0)

    def half(h: float) -> float:  # the area is a quadratic in the height, so Simpson's rule is exact
        a, m, z = (outline.offset(-slope * k * h).area for k in (0, 0.5, 1))
        return h / 6 * (a + 4 * m + z)

    assert solid.Volume() == pytest.approx(half(10.0) + half(6.0), rel=1e-9)
    box = solid.BoundingBox()
    assert (getattr(box, axis + "min"), getattr(box, axis + "max")) == pytest.approx((4.0, 20.0), abs=1e-6)
    # every side wall, flat or conical, leans by exactly the draft
    for face in solid.Faces():
        n = face.normalAt()
        lean = math.degrees(math.asin(abs(getattr(n, axis))))
        assert lean == pytest.approx(2.0, abs=1e-6) or lean == pytest.approx(90.0, abs=1e-4)


def test_revolved_ring_follows_pappus() -> None:
    section = Profile.circle((20.0, 0.0), 3.0)
    ring = revolve(section, (1.0, 2.0, 3.0), (0.6, 0.0, 0.8))
    assert ring.Volume() == pytest.approx(2 * math.pi * 20 * math.pi * 9, rel=1e-9)
    assert ring.Center().toTuple() == pytest.approx((1, 2, 3), abs=1e-6)
    cone = revolve(Profile.polygon([(0, 0), (5, 0), (0, 12)]), axis=(1.0, 0.0, 0.0))
    assert cone.Volume() == pytest.approx(math.pi * 25 * 12 / 3, rel=1e-9)
    assert cone.Center().x == pytest.approx(3.0)
    with pytest.raises(GeometryError, match="crosses the axis"):
        revolve(Profile.circle((1.0, 0.0), 3.0))


def test_extrude_in_a_leaning_frame() -> None:
    lean = Frame((1.0, 0.0, 0.0), (math.cos(0.5), 0.0, math.sin(0.5)), (0.0, 1.0, 0.0))
    bar = extrude_in(Profile.rectangle(0, -5, 100, 5), lean, lean.normal, 4.0)
    assert bar.Volume() == pytest.approx(4000.0)
    assert bar.BoundingBox().zmax == pytest.approx(100 * math.sin(0.5) + 4 * math.cos(0.5), abs=1e-6)


def test_mass_mirror_and_shared_volume() -> None:
    slab = extrude(Profile.rectangle(0, 0, 100, 50), "z", 0, 10)
    volume, mass, centre = mass_properties(slab, 7100.0)
    assert (volume, mass) == pytest.approx((50000.0, 0.355))
    assert centre == pytest.approx((50, 25, 5))
    image = mirror_y(slab)
    assert image.Center().toTuple() == pytest.approx((50, -25, 5))
    assert common_volume(slab, image) == 0.0
    assert common_volume(slab, slab.moved(cq.Location((0, 30, 0)))) == pytest.approx(100 * 20 * 10)
    assert common_volume(slab, slab.moved(cq.Location((200, 0, 0)))) == 0.0
    assert extrude_both(Profile.rectangle(0, 0, 1, 1), "y", 6).Center().y == pytest.approx(0.0)


def test_a_half_glued_to_its_mirror_image_is_what_a_full_join_gives() -> None:
    half = extrude(arch(), "z", 0, 9).moved(cq.Location((0, 0, 0)))
    half = one_valid_solid(half.intersect(cq.Solid.makeBox(90, 40, 9, cq.Vector(20, 0, 0))), "half", "cut")
    whole, joined = whole_of(half, "half"), half.fuse(mirror_y(half))
    assert whole.Volume() == pytest.approx(2 * half.Volume(), rel=1e-12) == joined.Volume()
    assert len(whole.Faces()) == len(joined.Faces()) == 2 * (len(half.Faces()) - 1)
    with pytest.raises(GeometryError, match="both halves"):
        whole_of(one_valid_solid(half.translate(cq.Vector(0, 5, 0)), "half", "apart"), "half")


def test_named_fillet_and_chamfer_take_off_what_they_must() -> None:
    block = extrude(Profile.rectangle(0, 0, 60, 30), "z", 0, 20)
    edge = pick_edges(block, within((0, 0, 20), (60, 0, 20)), 1, "block", "rim")
    rounded = fillet_named(block, "block", "rim", edge, 4.0)
    assert block.Volume() - rounded.Volume() == pytest.approx(60 * 16 * (1 - math.pi / 4), rel=1e-9)
    broken = chamfer_named(block, "block", "rim", edge, 2.0)
    assert block.Volume() - broken.Volume() == pytest.approx(60 * 2.0, rel=1e-9)


def test_bad_requests_name_part_and_step() -> None:
    block = extrude(Profile.rectangle(0, 0, 60, 30), "z", 0, 20)
    edge = pick_edges(block, within((0, 0, 20), (60, 0, 20)), 1, "block", "rim")
    with pytest.raises(GeometryError, match=r"block: step 'rim'.*edge 3 mm away"):
        fillet_named(block, "block", "rim", edge, 2.9, neighbours=[3.0])
    with pytest.raises(GeometryError, match=r"needs 6.2 mm between the walls, has 6 mm"):
        fillet_named(block, "block", "rim", edge, 3.0, gaps=[6.0])
    with pytest.raises(GeometryError, match="no edge matched"):
        chamfer_named(block, "block", "rim", [], 1.0)
    with pytest.raises(GeometryError, match="could not round contour"):
        fillet_named(block, "block", "rim", edge, 25.0)
    with pytest.raises(GeometryError, match="expected = 2, found = 1"):
        pick_edges(block, within((0, 0, 20), (60, 0, 20)), 2, "block", "rim")
    two = cq.Compound.makeCompound([block, block.moved(cq.Location((100, 0, 0)))])
    with pytest.raises(GeometryError, match="solids = 2"):
        one_valid_solid(two, "block", "union")
    with pytest.raises(GeometryError, match="solids = 0"):
        one_valid_solid(block.Faces()[0], "block", "cut")
    with pytest.raises(GeometryError, match="inside out"):
        one_valid_solid(cq.Solid(block.wrapped.Reversed()), "block", "turned inside out")


def test_a_solid_held_together_by_wide_tolerances_is_refused():
    box = cq.Workplane().box(10, 10, 10).val()
    assert looseness(box) < 1e-6
    one_valid_solid(box, "body", "rounding")
    ShapeFix_ShapeTolerance().SetTolerance(box.wrapped, 0.05, TopAbs_ShapeEnum.TopAbs_VERTEX)
    assert looseness(box) == pytest.approx(0.05)
    assert box.isValid()
    with pytest.raises(GeometryError, match=r"'rounding' could not be built: faces do not meet, gap_mm = 0\.05"):
        one_valid_solid(box, "body", "rounding")


def test_a_box_is_the_same_once_its_solid_has_been_meshed():
    ball = cq.Workplane().sphere(10.0).val()
    before = true_box(ball)
    tessellate(ball, 1.0, 0.8)
    after = true_box(ball)
    assert (after.xmin, after.xmax, after.zmax) == (before.xmin, before.xmax, before.zmax)
    assert after.xmax == pytest.approx(10.0, abs=1e-4)
    # which the kernel's usual box is not
    assert abs(ball.BoundingBox().xmax - 10.0) > 1e-3 or abs(ball.BoundingBox().zmax - 10.0) > 1e-3
