"""Outlines: area, corners, offsets against shapely (an independent polygon library) and against closed formulas."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Point as ShapelyPoint
from shapely.geometry import Polygon

from shared.errors import GeometryError
from shared.profile import Arc, Line, Pen, Profile

sizes = st.floats(20.0, 300.0)


def arch(length: float, rail: float, rise: float, corner: float) -> Profile:
    top = ((length / 2, rail + rise), (0.0, rail))
    return (
        Pen.at(0, 0, "arch").line_to(length, 0).line_to(length, rail, corner=corner).arc_to(*top, corner=corner)
    ).close()


@settings(max_examples=40, deadline=None)
@given(length=sizes, rail=st.floats(15, 40), rise=st.floats(2, 9), corner=st.floats(0.5, 5), turn=st.floats(-180, 180))
def test_area_centre_and_offset_agree_with_shapely(
    length: float, rail: float, rise: float, corner: float, turn: float
) -> None:
    outline = arch(length, rail, rise, corner).rotated(turn, (3.0, -4.0)).moved(7.0, 1.0)
    ring = Polygon(outline.polyline(1e-5))
    assert outline.area == pytest.approx(ring.area, rel=1e-5)
    assert outline.centroid == pytest.approx((ring.centroid.x, ring.centroid.y), abs=1e-2)
    assert outline.perimeter == pytest.approx(ring.length, rel=1e-5)
    assert outline.bounds == pytest.approx(ring.bounds, abs=1e-4)
    shrunk = ring.buffer(-0.4, join_style="mitre")
    assert outline.offset(-0.4).area == pytest.approx(shrunk.area, rel=1e-5)


@given(x=st.floats(-20, 220), y=st.floats(-20, 70))
def test_inside_and_distance_agree_with_shapely(x: float, y: float) -> None:
    outline = arch(200, 20, 30, 8)
    ring, spot = Polygon(outline.polyline(1e-5)), ShapelyPoint(x, y)
    assert outline.distance((x, y)) == pytest.approx(ring.exterior.distance(spot), abs=1e-4)
    if outline.distance((x, y)) > 1e-3:
        assert outline.contains((x, y)) == ring.contains(spot)


def test_rounded_rectangle_has_the_closed_formula_area_and_tangent_arcs() -> None:
    r = 3.0
    plate = Profile.rectangle(0, 0, 40, 25, r)
    assert plate.area == pytest.approx(40 * 25 - (4 - math.pi) * r * r, rel=1e-12)
    assert plate.perimeter == pytest.approx(2 * (40 + 25) - 8 * r + 2 * math.pi * r, rel=1e-12)
    pieces = plate.segments
    for a, b in zip(pieces, pieces[1:] + pieces[:1], strict=True):
        assert a.direction(at_end=True) == pytest.approx(b.direction(), abs=1e-9)


def test_corner_between_line_and_arc_is_tangent_to_both() -> None:
    outline = arch(200, 20, 30, 8)
    eights = [s for s in outline if isinstance(s, Arc) and abs(s.radius - 8) < 1e-9]
    assert len(eights) == 2
    for a, b in zip(outline.segments, outline.segments[1:], strict=False):
        if a in eights or b in eights:
            assert a.direction(at_end=True) == pytest.approx(b.direction(), abs=1e-9)


def test_mirror_keeps_area_and_runs_counter_clockwise() -> None:
    outline = Pen.at(0, 0).line_to(30, 0).line_to(10, 20, corner=2).close()
    image = outline.mirrored(0, 5.0)
    assert image.area == pytest.approx(outline.area, rel=1e-12)
    assert image.bounds == pytest.approx((-20.0, 0.0, 10.0, outline.bounds[3]))
    assert sum(s.moments()[0] for s in image) > 0


def test_slot_circle_and_crossings() -> None:
    slot = Profile.slot((0, 0), (30, 0), 8)
    assert slot.area == pytest.approx(30 * 8 + math.pi * 16, rel=1e-12)
    assert slot.crossings(0, 15.0) == pytest.approx([-4.0, 4.0])
    assert slot.crossings(1, 0.0) == pytest.approx([-4.0, 34.0])
    circle = Profile.circle((2, 3), 5)
    assert circle.area == pytest.approx(25 * math.pi, rel=1e-12)
    assert circle.centroid == pytest.approx((2, 3))
    assert circle.crossings(1, 9.0) == []


def test_arc_pens() -> None:
    half = Pen.at(5, 0).line_to(5, 10).tangent_arc_to(-5, 10).line_to(-5, 0).close()
    assert half.area == pytest.approx(100 + math.pi * 12.5, rel=1e-12)
    bulge = Pen.at(0, 0).radius_arc_to(10, 0, 5.0, left=True).close()
    assert bulge.area == pytest.approx(math.pi * 12.5, rel=1e-12)
    assert bulge.bounds[1] == pytest.approx(-5.0)
    pie = Pen.at(4, 0).arc_about((0, 0), 90.0).line_to(0, 0).close()
    assert pie.area == pytest.approx(4 * math.pi, rel=1e-12)
    straight = Pen.at(0, 0).line_to(5, 0).tangent_arc_to(9, 0)
    assert isinstance(straight.segments[-1], Line)


@pytest.mark.parametrize(
    ("draw", "word"),
    [
        (lambda: Profile.rectangle(0, 0, 10, 10, 5.5), "overlap"),
        (lambda: Profile.rectangle(0, 0, 10, 10, 11), "does not fit"),
        (lambda: Profile.polygon([(0, 0), (1, 0), (2, 0)]), "no area"),
        (lambda: Profile((Line((0, 0), (1, 0)), Line((1, 1), (0, 0)))), "do not join"),
        (lambda: Pen.at(0, 0).radius_arc_to(10, 0, 4.0, left=True), "less than half"),
        (lambda: Profile.rectangle(0, 0, 10, 10, 1.0).offset(-1.5), "shrink to nothing"),
        (lambda: Profile.rectangle(0, 0, 10, 6).offset(-3.5), "shrink to nothing"),
    ],
)
def test_what_cannot_be_drawn_is_refused_with_its_reason(draw, word: str) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(GeometryError, match=word):
        draw()
