"""One piece more on a board than laying one after another finds; invented shapes."""

from __future__ import annotations

import itertools

import pytest
from shapely.geometry import Polygon, box

from parts.handle.cutplan.nest import Room, State, nest
from parts.handle.cutplan.rowshape import Gaps, RowShape, mirrored, row_shape
from parts.handle.cutplan.squeeze import squeezed

L = [(0.0, 0.0), (60.0, 0.0), (60.0, 15.0), (20.0, 15.0), (20.0, 50.0), (0.0, 50.0)]
WEDGE = [(0.0, 0.0), (70.0, 0.0), (20.0, 40.0)]
T = [(0.0, 0.0), (60.0, 0.0), (60.0, 15.0), (40.0, 15.0), (40.0, 50.0), (20.0, 50.0), (20.0, 15.0), (0.0, 15.0)]
GROW = 0.5


def shapes_of(points: list[tuple[float, float]]) -> list[RowShape]:
    upright = row_shape(0, points, 0.0, False, GROW, 1.0)
    return [upright, mirrored(upright, True, True, 180.0, False)]


def room_of(shapes: list[RowShape], wide: int, long: float) -> Room:
    return Room(shapes, Gaps(shapes), wide, long)


def polygons(room: Room, state: State) -> list[Polygon]:
    return [
        Polygon([(px + x, py + r * room.row_mm) for px, py in room.shapes[s].points]).buffer(GROW, quad_segs=2)
        for s, x, r in state.spots
    ]


@pytest.mark.parametrize(
    ("points", "wide", "long"), [(L, 100, 240.0), (L, 140, 240.0), (WEDGE, 60, 340.0), (T, 100, 300.0)]
)
def test_one_piece_more_fits_without_overlap(points: list[tuple[float, float]], wide: int, long: float) -> None:
    shapes = shapes_of(points)
    room = room_of(shapes, wide, long)
    laid = len(nest(room, 4, 100, 0.3))
    begin = nest(room_of(shapes, wide, long + 80.0), 4, laid + 1, 0.3)[-1]
    assert begin.end > long
    found = squeezed(room, begin.spots, 600)
    assert found is not None and len(found.spots) == laid + 1
    pieces = polygons(room, found)
    board = box(0, 0, long, wide).buffer(1e-6)
    assert all(board.contains(p) for p in pieces)
    assert max(a.intersection(b).area for a, b in itertools.combinations(pieces, 2)) < 1e-3
    again = squeezed(room, begin.spots, 600)
    assert again is not None and again.spots == found.spots


def test_moves_are_counted_and_what_cannot_be_is_not_found() -> None:
    shapes = shapes_of(L)
    room = room_of(shapes, 100, 240.0)
    begin = nest(room_of(shapes, 100, 1000.0), 2, 16, 0.3)[-1]
    # sixteen have more face than the board
    assert 16 * Polygon(L).area > 240 * 100
    assert squeezed(room, begin.spots, 200) is None
    assert squeezed(room, begin.spots, 0) is None
