"""Blank and grain drawn on the side views: the blank holds the outline with its allowance, the fibres run true."""

import math

import pytest
from shapely.geometry import LineString, Polygon

from parts.handle.blank_view import knob_blank_view, tote_blank_view
from parts.handle.blanks import WoodPractice, knob_blank, tote_blank
from parts.handle.outline import tote_side
from parts.handle.size import knob_size, tote_size
from parts.handle.spec import HandleSpec

PRACTICE = WoodPractice()
SIZES = {"foot_plane_z": 7.0, "rod_diameter": 6.35, "nut_diameter": 12.0, "boss_diameter": 15.0, "boss_height": 3.0}
TOTE = tote_size(HandleSpec(species="black-cherry"), **SIZES)
KNOB = knob_size(HandleSpec(species="black-cherry"), **SIZES)


def corners(view):
    return Polygon([line.start for line in view.blank])


def tote_view(grain):
    return tote_blank_view(TOTE, tote_blank(tote_side(TOTE, 0.05).polyline(0.05), 30.0, grain, PRACTICE), grain)


@pytest.mark.parametrize("grain", [-30.0, 0.0, 60.0, 90.0, 107.4, 120.0])
def test_the_blank_stands_an_allowance_round_the_outline(grain):
    view = tote_view(grain)
    part = Polygon(view.outline.polyline(0.02))
    assert corners(view).contains(part)
    for side in view.blank:  # each side of the rectangle is as far off as the shop leaves
        assert LineString([side.start, side.end]).distance(part) == pytest.approx(
            PRACTICE.bandsaw_allowance_mm, abs=0.1
        )


@pytest.mark.parametrize("grain", [-30.0, 0.0, 107.4])
def test_fibres_run_along_the_grain_inside_the_outline(grain):
    view = tote_view(grain)
    part = Polygon(view.outline.polyline(0.02))
    assert len(view.fibres) >= 10
    assert all(part.contains(LineString([f.start, f.end])) for f in view.fibres)
    for line in (*view.fibres, view.arrow[0]):
        dx, dy = line.end[0] - line.start[0], line.end[1] - line.start[1]
        assert (math.degrees(math.atan2(dy, dx)) - grain) % 180 == pytest.approx(0, abs=1e-6) or (
            math.degrees(math.atan2(dy, dx)) - grain
        ) % 180 == pytest.approx(180, abs=1e-6)


@pytest.mark.parametrize("grain", [-30.0, 0.0, 90.0, 107.4, 200.0])
def test_arrow_and_words_stand_clear_of_the_blank_and_read_from_below_or_the_right(grain):
    view = tote_view(grain)
    box = corners(view)
    for line in view.arrow:
        assert LineString([line.start, line.end]).distance(box) > 0.5
    for note in view.notes:
        assert -90 < note.angle <= 90
        up = math.radians(note.angle + 90)
        middle = (note.at[0] + math.cos(up) * note.height / 2, note.at[1] + math.sin(up) * note.height / 2)
        assert not box.contains(Polygon([note.at, middle, (note.at[0] + 0.01, note.at[1])]))


def test_the_knob_is_turned_along_the_grain():
    blank = knob_blank(KNOB.diameter, KNOB.height, PRACTICE)
    view = knob_blank_view(KNOB, blank)
    x0, z0, x1, z1 = corners(view).bounds
    assert (x1 - x0, z1 - z0) == pytest.approx((blank.width_mm, blank.length_mm))
    assert (z0, z1) == pytest.approx((-PRACTICE.knob_end_allowance_mm, KNOB.height + PRACTICE.knob_end_allowance_mm))
    assert all(f.start[0] == pytest.approx(f.end[0]) for f in view.fibres)
    assert any(f"{blank.length_mm:.1f}" in n.text for n in view.notes)
