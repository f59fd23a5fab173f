"""Views by hidden-line removal: known parts give known lines, arcs and circles, in model coordinates."""

from __future__ import annotations

import math
from collections import Counter

import pytest

from shared.cad.project import VIEWS, View, project, section_view
from shared.cad.solids import extrude, revolve, taper_extrude
from shared.drawing.primitives import Arc, Ellipse, Line, Primitive
from shared.errors import GeometryError
from shared.profile import Pen, Profile

pytestmark = pytest.mark.kernel


def kinds(primitives: tuple[Primitive, ...]) -> Counter[str]:
    return Counter(type(p).__name__ for p in primitives)


@pytest.fixture(scope="module")
def cheek():  # type: ignore[no-untyped-def]
    side = Pen.at(0, 0).line_to(200, 0).line_to(200, 20, corner=8).arc_to((100, 50), (0, 20), corner=8).close()
    return extrude(side, "y", 1, 5, holes=[Profile.circle((60, 20), 5)])


def test_front_view_is_the_outline_itself(cheek) -> None:  # type: ignore[no-untyped-def]
    view = project(cheek, "front")
    assert view.hidden == ()
    assert kinds(view.visible) == {"Line": 3, "Arc": 4}
    arcs = sorted(a.radius for a in view.visible if isinstance(a, Arc))
    # chord 200, rise 30: radius by the sagitta formula
    assert arcs == pytest.approx([5.0, 8.0, 8.0, 100**2 / 60 + 15], abs=1e-6)
    hole = next(a for a in view.visible if isinstance(a, Arc) and a.full)
    assert hole.centre == pytest.approx((60.0, 20.0), abs=1e-6)
    assert view.bounds == pytest.approx((0, 0, 200, 50), abs=1e-6)


def test_principal_views_stand_in_third_angle(cheek) -> None:  # type: ignore[no-untyped-def]
    wanted = {
        "front": (0, 0, 200, 50), "rear": (-200, 0, 0, 50), "top": (0, 1, 200, 5),
        "sole": (0, -5, 200, -1), "heel": (1, 0, 5, 50), "toe": (-5, 0, -1, 50),
    }  # fmt: skip
    for name, box in wanted.items():
        assert project(cheek, name, hidden=False).bounds == pytest.approx(box, abs=1e-6), name
    sight = {"front": (0, -1, 0), "top": (0, 0, 1), "heel": (1, 0, 0)}
    for name, toward in sight.items():
        assert VIEWS[name].toward == pytest.approx(toward)


def test_hidden_hole_shows_in_the_top_view_once_and_only_below_the_surface(cheek) -> None:  # type: ignore[no-untyped-def]
    hidden = project(cheek, "top").hidden
    assert [s for s in hidden if isinstance(s, Line)] == [
        Line(pytest.approx((55.0, 1.0)), pytest.approx((55.0, 5.0))),  # type: ignore[arg-type]
        Line(pytest.approx((65.0, 1.0)), pytest.approx((65.0, 5.0))),  # type: ignore[arg-type]
    ]
    assert len(hidden) == 2


def test_silhouettes_of_round_bodies_are_lines_and_circles() -> None:
    knob = revolve(Pen.at(0, 0).line_to(18, 0).arc_to((12, 20), (18, 40)).line_to(0, 40).close())
    front = project(knob, "front")
    assert kinds(front.visible) == {"Line": 2, "Arc": 2}
    waist = [a.radius for a in front.visible if isinstance(a, Arc)]
    assert waist == pytest.approx([(20**2 + 6**2) / 12] * 2, abs=1e-4)
    top = project(knob, "top")
    assert [(a.radius, a.full) for a in top.visible if isinstance(a, Arc)] == [(pytest.approx(18.0), True)]


def test_leaning_circle_is_an_ellipse_of_the_right_ratio() -> None:
    disc = extrude(Profile.circle((0, 0), 10), "z", 0, 1)
    view = project(disc, View.along((0.0, math.cos(math.radians(30)), -math.sin(math.radians(30)))), hidden=False)
    shapes = [p for p in view.visible if isinstance(p, Ellipse)]
    assert shapes
    for e in shapes:
        assert e.ratio == pytest.approx(math.sin(math.radians(30)), abs=1e-5)
        assert math.hypot(*e.major) == pytest.approx(10.0, abs=1e-4)


def test_section_area_is_that_of_the_formula() -> None:
    block = taper_extrude(Profile.rectangle(-20, -15, 20, 15, 5), "z", 0, 2, up=20)
    block = block.cut(extrude(Profile.circle((0, 0), 6), "z", 0, 20)).Solids()[0]
    cut = section_view(block, "front", (0.0, 3.0, 0.0))
    half_hole = math.sqrt(36 - 9)
    wall = 20 - 20 * math.tan(math.radians(2)) / 2 - half_hole
    assert [f.area for f in cut.faces] == pytest.approx([20 * wall] * 2, rel=1e-6)
    assert cut.projection.bounds == pytest.approx((-20, 0, 20, 20), abs=1e-6)
    flat = section_view(block, "top", (0.0, 0.0, 10.0))
    outer = flat.faces[0].outer
    assert flat.faces[0].area == pytest.approx(
        Profile.rectangle(-20, -15, 20, 15, 5).offset(-10 * math.tan(math.radians(2))).area - math.pi * 36, rel=1e-6
    )
    assert sum(isinstance(s, Arc) for s in outer) == 4
    with pytest.raises(GeometryError, match="does not cut"):
        section_view(block, "front", (0.0, 40.0, 0.0))


def test_order_is_stable(cheek) -> None:  # type: ignore[no-untyped-def]
    assert project(cheek, "heel") == project(cheek.copy(), "heel")
