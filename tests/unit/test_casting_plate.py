"""Match plate and gating: what must hold for every lay-out."""

import itertools
import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from shapely.affinity import rotate, translate
from shapely.geometry import Point, Polygon, box
from shapely.ops import unary_union

from shared.casting.alloy import alloy
from shared.casting.gating import choke_area, cope_lift, effective_head, gating_areas, sprue_top_area
from shared.casting.match_plate import Flask, Impression, MatchPlate, Practice, lay_out
from shared.casting.plate_gating import ingate_offsets
from shared.casting.plate_shapes import Circle, Rect, choose_flask, disc_strip, sand_margins
from shared.errors import InputError, RequestError
from shared.record import replace

SHELF = tuple(
    Flask(f"{n}", 25.4 * a, 25.4 * b, 25.4 * d, 25.4 * d)
    for n, a, b, d in (("S", 12, 10, 4), ("M", 18, 14, 5), ("L", 28, 18, 6), ("XL", 50, 30, 9))
)
JACK = Impression("jack", 362.0, 68.0, 48.0, 9.0, 2.2, 5.0, 3.4)
IRON, BRONZE = alloy("ductile-iron-65-45-12"), alloy("manganese-bronze-c86500")


def _shape(a: Rect | Circle) -> object:
    return Point(a.x, a.y).buffer(a.diameter / 2, 64) if isinstance(a, Circle) else box(*a.bounds)


impressions = st.builds(
    Impression,
    name=st.just("part"),
    length_mm=st.floats(60, 580),
    width_mm=st.floats(40, 85),
    cope_mm=st.floats(8, 55),
    drag_mm=st.floats(3, 15),
    mass_kg=st.floats(0.2, 4.5),
    section_mm=st.floats(4, 9),
    hot_modulus_mm=st.floats(2.5, 7),
)


@example(Impression("part", 60.0, 40.0, 8.0, 9.0, 0.25, 8.0, 3.0), IRON, 3)  # opposite gates lap into each other
@settings(deadline=None, max_examples=30)
@given(impressions, st.sampled_from([IRON, BRONZE, alloy("silicon-bronze-c87300")]), st.integers(1, 4))
def test_every_plate(item: Impression, metal: object, count: int) -> None:
    plate = lay_out(item, metal, Practice(SHELF, impressions=count))  # type: ignore[arg-type]
    assert len(plate.impressions) == count
    _nothing_overlaps_and_sand_is_kept(plate)
    _everything_in_the_flask(plate)
    _areas_and_masses_agree(plate, metal)


def _nothing_overlaps_and_sand_is_kept(plate: MatchPlate) -> None:
    shapes = [_shape(i) for i in plate.impressions]
    for a, b in itertools.combinations(shapes, 2):
        assert a.distance(b) >= plate.margins["between"] - 1e-6  # type: ignore[attr-defined]
    for s in shapes:
        assert s.distance(_shape(plate.sprue)) >= 30.0 - 1.0  # type: ignore[attr-defined]
        for r in plate.runners:
            assert s.distance(_shape(r)) >= 20.0 - 1e-6  # type: ignore[attr-defined]
        for c in plate.risers:
            assert s.distance(_shape(c)) >= 8.0 - 1e-2  # type: ignore[attr-defined]
    for a, b in itertools.combinations(plate.risers, 2):
        assert math.hypot(a.x - b.x, a.y - b.y) > a.diameter
    # every casting is joined to the runner by its ingates, through a riser where there is one
    assert len(plate.necks) == len(plate.risers)
    for i in plate.ingates:
        assert min(_shape(i).distance(_shape(r)) for r in plate.runners) < 1e-6  # type: ignore[attr-defined]
        joined = plate.risers or plate.impressions
        assert min(_shape(i).distance(_shape(j)) for j in joined) < 0.05  # type: ignore[attr-defined]


def _everything_in_the_flask(plate: MatchPlate) -> None:
    f = plate.flask
    for r in (*plate.impressions, *plate.runners):
        x0, y0, x1, y1 = r.bounds
        assert max(-x0, x1) <= f.length / 2 - plate.margins["flask_wall"] + 1e-6
        assert max(-y0, y1) <= f.width / 2 - plate.margins["flask_wall"] + 1e-6
    assert (
        f.cope
        >= max([plate.impression.cope_mm, *(c.height_mm for c in plate.risers)]) + plate.margins["cope_top"] - 1e-6
    )
    assert f.drag >= plate.impression.drag_mm + plate.margins["drag_bottom"] - 1e-6
    for pin in plate.pins:
        assert abs(pin.x) - pin.diameter / 2 > f.length / 2
        assert abs(pin.x) + pin.diameter / 2 < plate.plate.dx / 2


def _areas_and_masses_agree(plate: MatchPlate, metal: object) -> None:
    rho = metal.density_kg_m3 / 1e9  # type: ignore[attr-defined]
    assert plate.gating_mass_kg == pytest.approx(_sliced_gating(plate) * rho, rel=2e-3)
    assert plate.poured_mass_kg > plate.castings_mass_kg
    assert 0 < plate.yield_share < 1
    choke = choke_area(
        plate.poured_mass_kg,
        metal.liquid_density_kg_m3,  # type: ignore[attr-defined]
        plate.effective_head_mm,
        plate.pouring_time_s,
        0.65,
    )
    assert plate.areas.choke_mm2 == pytest.approx(choke, rel=1e-6)
    section = sum(i.dx * (i.cope_mm + i.drag_mm) for i in plate.ingates)
    assert section == pytest.approx(plate.areas.ingate_mm2)
    assert sum(r.dy * r.cope_mm for r in plate.runners) == pytest.approx(plate.areas.runner_mm2)
    assert (plate.sprue.end_diameter or 0.0) > plate.sprue.diameter


def _sliced_gating(plate: MatchPlate) -> float:
    """Return the metal of the gating [mm³] from level slices, each the union of what stands in it."""
    rects = (*plate.runners, *plate.ingates, *plate.necks)
    levels = {0.0, plate.base.height_mm, plate.sprue.foot_mm, plate.sprue.foot_mm + plate.sprue.height_mm}
    levels |= {-plate.well.height_mm, *(r.cope_mm for r in rects), *(-r.drag_mm for r in rects)}
    edges = sorted(levels)
    total = 0.0
    for low, high in itertools.pairwise(edges):
        thick, z = high - low, (low + high) / 2
        there = [box(*r.bounds) for r in rects if -r.drag_mm < z < r.cope_mm]
        if 0 < z < plate.base.height_mm:
            there.append(_shape(plate.base))
        if -plate.well.height_mm < z < 0:
            there.append(_shape(plate.well))
        kept = unary_union(there) if there else box(0, 0, 0, 0)
        taken = [_outline(plate, i) for i in plate.impressions]
        if z > 0:
            taken += [_shape(c) for c in plate.risers]
        total += thick * kept.difference(unary_union(taken)).area
    a, b = plate.sprue.diameter / 2, (plate.sprue.end_diameter or 0.0) / 2
    return total + math.pi * plate.sprue.height_mm / 3 * (a * a + a * b + b * b)


def _outline(plate: MatchPlate, place: Rect) -> Polygon:
    """Return the outline of one casting on its plate: its rectangle, less what its edge lies in from the side."""
    item = plate.impression
    half, low, high = item.length_mm / 2, -item.width_mm / 2, item.width_mm / 2
    near = [(x, low + depth) for x, depth in item.edge] or [(-half, low), (half, low)]
    turned = rotate(Polygon([(-half, high), *near, (half, high)]), place.turned_deg, origin=(0, 0))
    return translate(turned, place.x, place.y)


@settings(deadline=None, max_examples=15)
@given(impressions, st.sampled_from([IRON, BRONZE]), st.integers(1, 3), st.floats(0.0, 0.3), st.floats(0.0, 0.3))
def test_a_curved_side_is_reached_by_its_gates(
    item: Impression, metal: object, count: int, fore: float, aft: float
) -> None:
    """The side that faces the runner slants from either end to a point nearer the runner, off the middle."""
    depth, length = item.width_mm, item.length_mm
    edge = ((-length / 2, fore * depth), (0.1 * length, 0.0), (length / 2, aft * depth))
    item = replace(item, edge=edge)
    plate = lay_out(item, metal, Practice(SHELF, impressions=count))  # type: ignore[arg-type]
    rho = metal.density_kg_m3 / 1e9  # type: ignore[attr-defined]
    assert plate.gating_mass_kg == pytest.approx(_sliced_gating(plate) * rho, rel=5e-3)
    for last in plate.necks or plate.ingates:
        into = box(*last.bounds)
        hit = [c for c in (_outline(plate, i) for i in plate.impressions) if c.distance(into) < 1e-6]
        assert len(hit) == 1
        # the whole width of the gate ends in the casting: past its end nothing of the gate is left open
        far = max(hit[0].exterior.coords, key=lambda p: abs(p[1] - plate.sprue.y))[1]
        x0, y0, x1, y1 = last.bounds
        end = y1 if far > plate.sprue.y else y0
        strip = box(x0 + 1e-6, min(end, far), x1 - 1e-6, max(end, far))
        assert hit[0].intersection(strip).area == pytest.approx(strip.area, rel=1e-6, abs=1e-6)


def test_metal_flows_from_piece_to_piece() -> None:
    """Ingates in the drag lap under runner and riser, or the cope's metal would meet them in a line only."""
    drag = replace(JACK, cope_mm=1.0, drag_mm=40.0)
    for metal in (IRON, BRONZE):
        plate = lay_out(drag, metal, Practice(SHELF))
        assert all(i.drag_mm > 0.0 and i.cope_mm == 0.0 for i in plate.ingates)
        for i in plate.ingates:
            under = sum(box(*i.bounds).intersection(box(*r.bounds)).area for r in plate.runners)
            assert under >= i.dx * i.drag_mm - 1e-6  # as much opening as the ingate has section
        for n, c in zip(plate.necks, plate.risers, strict=True):
            assert box(*n.bounds).intersection(_shape(c)).area >= n.dx * 5.0  # type: ignore[arg-type]


@given(st.floats(1, 60), st.floats(0.01, 2))
def test_disc_strip(radius: float, share: float) -> None:
    half = share * radius
    strip = box(-2 * radius, -half, 2 * radius, half)
    assert disc_strip(radius, half) == pytest.approx(Point(0, 0).buffer(radius, 256).intersection(strip).area, rel=1e-4)


def test_two_impressions_face_each_other_across_the_runner() -> None:
    plate = lay_out(JACK, IRON, Practice(SHELF))
    first, second = plate.impressions
    assert (first.x, first.y) == pytest.approx((second.x, -second.y))
    assert (first.turned_deg, second.turned_deg) == (0.0, 180.0)
    assert len(plate.runners) == 2 and len(plate.ingates) == 4
    assert plate.flask.name == "M"
    assert not plate.risers


def test_bronze_is_calm_and_fed_by_risers_in_its_ingates() -> None:
    plate = lay_out(JACK, BRONZE, Practice(SHELF))
    assert plate.ingate_velocity_m_s < 0.5 < lay_out(JACK, IRON, Practice(SHELF)).ingate_velocity_m_s
    assert len(plate.risers) == 4
    assert plate.yield_share < lay_out(JACK, IRON, Practice(SHELF)).yield_share


def test_a_plate_too_large_says_how_much_and_which_flask_fits() -> None:
    with pytest.raises(RequestError, match=r"too large for flask S: length 117\.\d mm short.*next flask that fits: M"):
        lay_out(JACK, IRON, Practice(SHELF, flask="S"))
    with pytest.raises(RequestError, match="no flask on the shelf fits; nearest is S"):
        lay_out(JACK, IRON, Practice(SHELF[:1]))
    with pytest.raises(InputError, match="one of S, M, L, XL"):
        lay_out(JACK, IRON, Practice(SHELF, flask="Q"))


def test_flask_choice_is_the_smallest_that_fits() -> None:
    assert choose_flask((300.0, 250.0, 90.0, 90.0), SHELF, None, "x").name == "S"
    assert choose_flask((300.0, 250.0, 110.0, 90.0), SHELF, None, "x").name == "M"


def test_sand_margins_by_mass() -> None:
    """Chinese Foundry Handbook vol. 5 (memory): 30 mm between castings up to 5 kg, 40 to 10, 50 to 25."""
    assert [sand_margins(m)["between"] for m in (5.0, 5.1, 25.0)] == [30.0, 40.0, 50.0]
    with pytest.raises(RequestError, match="heavier"):
        sand_margins(25.1)


def test_impressions_that_no_casting_has() -> None:
    with pytest.raises(InputError) as err:
        Impression("x", -1.0, 10.0, 0.0, 0.0, 0.0, 5.0, 3.0)
    assert len(err.value.faults) == 3
    with pytest.raises(InputError):
        lay_out(JACK, IRON, Practice(SHELF, impressions=0))


@given(st.floats(60, 300), st.floats(5, 55), st.floats(0, 1))
def test_effective_head_lies_between_its_limits(h: float, c: float, share: float) -> None:
    head = effective_head(h, share * c, c)
    assert h - c / 2 - 1e-9 <= head <= h


def test_gating_input_that_cannot_be() -> None:
    with pytest.raises(RequestError, match="higher cope"):
        effective_head(40.0, 45.0, 50.0)
    with pytest.raises(InputError):
        effective_head(100.0, 60.0, 50.0)
    with pytest.raises(InputError):
        choke_area(2.5, 6900.0, 100.0, 4.0, 1.2)
    with pytest.raises(InputError) as err:
        choke_area(0.0, -1.0, 100.0, 4.0)
    assert len(err.value.faults) == 2
    with pytest.raises(InputError, match="least part is the ingate"):
        gating_areas(100.0, (1.0, 2.88, 4.8), "ingate")


def test_ratio_and_lift() -> None:
    areas = gating_areas(100.0, (1.33, 2.67, 1.0), "ingate")
    assert (areas.sprue_base_mm2, areas.runner_mm2, areas.ingate_mm2) == pytest.approx((133.0, 267.0, 100.0))
    assert areas.pressurised
    # 0.1 m of iron of 7000 kg/m³ over 0.1 m²: 70 kg
    assert cope_lift(7000.0, 100.0, 1e5) == pytest.approx(70 * 9.80665)
    assert sprue_top_area(100.0, 160.0, 160.0) == pytest.approx(100.0)


@settings(deadline=None, max_examples=15)
@given(impressions, st.sampled_from([IRON, BRONZE]), st.floats(0.1, 0.9), st.floats(0.02, 0.2))
def test_no_neck_stands_over_the_wall_it_runs_into(item: Impression, metal: object, low: float, share: float) -> None:
    """The side is high about the middle and low at both ends, as a body's cheeks are."""
    top, length = max(item.cope_mm, item.drag_mm), item.length_mm
    heights = ((-length / 2, low), (-share * length, 1.0), (share * length, 1.0), (length / 2, low))
    item = replace(item, wall=tuple((x, h * top) for x, h in heights))
    plate = lay_out(item, metal, Practice(SHELF))  # type: ignore[arg-type]
    for neck in plate.necks:
        body = min(plate.impressions, key=lambda i: math.hypot(i.x - neck.x, i.y - neck.y))
        along = (neck.x - body.x) * (-1 if body.turned_deg else 1)
        assert max(neck.cope_mm, neck.drag_mm) <= item.wall_at(along, neck.dx) + 1e-9


def test_ingates_move_in_to_where_the_wall_is_high() -> None:
    high = replace(JACK, wall=((-181.0, 40.0), (181.0, 40.0)))
    arched = replace(
        JACK, wall=((-181.0, 12.0), (-100.0, 12.0), (-60.0, 48.0), (60.0, 48.0), (100.0, 12.0), (181.0, 12.0))
    )
    assert ingate_offsets(high) == ingate_offsets(JACK) == (-90.5, 90.5)
    left, right = ingate_offsets(arched)
    assert -90.5 < left < -45.0 and 45.0 < right < 90.5
    assert arched.wall_at(right, 40.0) > arched.wall_at(90.5, 40.0) + 10.0
