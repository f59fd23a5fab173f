"""The chipbreaker in the kernel: one valid solid all over its range, seated where its outline says."""

from __future__ import annotations

import math

import cadquery as cq
import pytest

from parts.chipbreaker import outline
from parts.chipbreaker.size import chipbreaker_size
from parts.chipbreaker.solid import chipbreaker_flat, chipbreaker_solid
from parts.chipbreaker.spec import ChipbreakerSpec
from shared.cad.solids import common_volume

pytestmark = pytest.mark.kernel


def size(thickness=3.175, setback=0.4, edge_angle=45.0, gap=0.5, hump_at=16.0, width=50.8):
    spec = ChipbreakerSpec(thickness=thickness, setback=setback, edge_angle=edge_angle, gap=gap)
    return chipbreaker_size(
        spec,
        blade_width=width,
        hump_at=hump_at,
        screw_at=115.0,
        screw_thread_major=7.94,
        screw_tap_drill=6.5,
        cap_screw_at=51.0,
        cap_screw_opening=(15.4, 11.4),
        yoke_at=74.0,
        yoke_window=(4.8, 8.0),
    )


@pytest.mark.parametrize(
    "z",
    [
        size(1.5, 0.05, 80, 0.2, 13.0, 44),
        size(1.5, 3.0, 25, 1.5, 13.0, 66),
        size(5.0, 3.0, 25, 1.5, 13.0, 44),
        size(5.0, 0.05, 80, 0.2, 18.0, 66),
        size(5.0, 1.0, 50, 1.5, 27.0, 60),
        size(2.0, 0.3, 35, 0.8, 20.0, 50),
    ],
    ids=lambda z: f"t{z.thickness:g}-e{z.edge_angle:g}-g{z.gap:g}-s{z.setback:g}-w{z.width:g}",
)
def test_one_valid_solid_over_the_range(z):
    made = chipbreaker_flat(z)
    box = made.BoundingBox()
    assert (box.xmin, box.xmax) == pytest.approx((z.setback, z.end), abs=1e-4)
    assert (box.zmin, box.zmax) == pytest.approx((0.0, z.hump_top), abs=1e-4)
    assert box.ymax - box.ymin == pytest.approx(z.width, abs=1e-4)


@pytest.fixture(scope="module")
def made():
    return chipbreaker_flat(size())


def test_volume_from_the_outlines(made):
    """Section by width, less openings and corners, by plane geometry; arrises and countersinks are under 0.6 %."""
    z = size()
    holes = sum(hole.area for hole in outline.openings(z).values())
    corners = 2 * (1 - math.pi / 4) * z.corner_radius**2
    expected = outline.section(z).area * z.width - z.thickness * (holes + corners)
    assert made.Volume() == pytest.approx(expected, rel=6e-3)
    assert made.Volume() < expected


def test_touches_the_blade_and_nothing_more(made):
    z = size()
    slab = cq.Solid.makeBox(180, 60, 4, cq.Vector(0, -30, -4))
    assert common_volume(made, slab) < 1e-6
    assert made.distance(slab) == pytest.approx(0.0, abs=1e-7)
    between = cq.Solid.makeBox(z.seat_from - z.setback - 6, 60, 0.02, cq.Vector(z.setback + 3, -30, 0.0))
    assert common_volume(made, between) < 1e-6
    assert made.distance(between) > 0.0


def test_placed_on_the_bed(made):
    b, z = math.radians(50.0), size()
    placed = chipbreaker_solid(z, 50.0)
    assert placed.Volume() == pytest.approx(made.Volume(), rel=1e-9)
    c, d = made.Center(), placed.Center()
    assert d.x == pytest.approx(c.x * math.cos(b) - c.z * math.sin(b), abs=1e-6)
    assert d.z == pytest.approx(c.x * math.sin(b) + c.z * math.cos(b), abs=1e-6)
    assert d.y == pytest.approx(c.y, abs=1e-6)
