"""Limits said once, play at them, and metal under every tapped hole: by hand and for every demo plane."""

from __future__ import annotations

from functools import lru_cache
from math import cos, radians, sin
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from parts.blade.bedding_numbers import set_deviations
from parts.body.room import FLOOR_LEFT, hole_depth, hole_floor
from parts.body.size import TappedHole
from parts.plane.checks import check_design
from parts.plane.design import design
from parts.plane.numbers import plane_numbers
from parts.plane.rules import metal
from parts.plane.shop import load_shop
from parts.plane.spec import load_spec
from shared.drawing.dimtext import length, limits
from shared.drawing.fit_text import gauged, play_text
from shared.pairs import Pair, of_class, of_limits, of_thread
from shared.threads import thread

SPECS = Path(__file__).parents[2] / "specs"
BENCH, LOW = ("heron", "linnet", "crane", "heron-metric"), ("wren", "wren-long")


@lru_cache
def plane(name: str):
    return design(load_spec(SPECS / f"{name}.toml"), load_shop(None))


@lru_cache
def numbers(name: str):
    return plane_numbers(plane(name))


@lru_cache
def findings(name: str):
    return {f.code: f for f in check_design(plane(name))}


def features(name: str) -> dict[str, set[tuple[float, ...]]]:
    """Return every limit pair that the fits give each hole and pin."""
    found: dict[str, set[tuple[float, ...]]] = {}
    for row in numbers(name)["bedding"].value("pin_fits"):
        for side in ("hole", "pin"):
            if f"{side}_limits_mm" in row:
                found.setdefault(row[side], set()).add(tuple(row[f"{side}_limits_mm"]))
    return found


@pytest.mark.parametrize("name", BENCH + LOW)
def test_every_hole_and_pin_has_one_pair_of_limits(name: str) -> None:
    assert all(len(limit) == 1 for limit in features(name).values())


@pytest.mark.parametrize("name", BENCH)
def test_what_runs_on_a_pressed_pin_has_the_play(name: str) -> None:
    # 4 mm m6: +4 to +12 um. H7: 0 to +12 um (ISO 286). Free holes as their sheets: 4.10 +0.03, the cam lever's +0.05
    found = features(name)
    for pin in ("yoke pin", "lateral lever pin", "lateral roller pin"):
        assert found[pin] == {(4.004, 4.012)}
    for hole in ("frog's hole, yoke pin", "frog's hole, lateral lever pin", "lateral lever's hole, roller pin"):
        assert found[hole] == {(4.0, 4.012)}
    for hole in ("yoke's hole", "lateral lever's pivot hole", "lateral roller's hole"):
        assert found[hole] == {(4.1, 4.13)}
    assert found["cam lever's hole"] == {(4.1, 4.15)}
    assert found["pivot rivet"] == {(3.97, 4.0)}
    play = {r["name"]: r["clearance_mm"] for r in numbers(name)["bedding"].value("pin_fits")}
    assert play["yoke on its pin"] == [0.088, 0.126]
    assert play["cam lever on its rivet"] == [0.1, 0.18]
    # the slot is 7.0 mm (M6: 6.6 mm) wide, over the screw's own thread
    screw = plane(name).mechanism.holddown.thread
    slot = plane(name).mechanism.frog.holddown_slot[1]
    (least,) = play["hold-down screws in the frog's slots, across"]
    assert least == pytest.approx(slot - screw.major)


@pytest.mark.parametrize("name", LOW)
def test_fits_of_a_low_angle_plane(name: str) -> None:
    found, d = features(name), plane(name)
    assert found["clamp foot's hole"] == {(3.3, 3.35)}
    assert found["clamp screw's tip"] == {(3.15, 3.2)}
    major = d.lever_cap.stud.thread.major
    assert found["keyhole's slot, across"] == {(round(major + 0.5, 6), round(major + 0.6, 6))}
    n, across = numbers(name)["bedding"], 2 * d.body.mouth_half_width
    low, high = n.value("mouth_across_low_mm"), n.value("mouth_across_high_mm")
    assert low == pytest.approx(across)
    if d.body.toe_way is not None:
        assert found["mouth and toe piece's pocket"] == {(round(low, 6), round(high, 6))}
        assert high - low == pytest.approx(0.02)
    else:
        # H11 of 50 to 80 mm: 190 um (ISO 286)
        assert high - low == pytest.approx(0.19)
    # h11 of the blade's width: 160 um for 30 to 50 mm, 190 um beyond
    blade = 0.16 if d.blade.width <= 50.0 else 0.19
    least, most = n.value("side_clearance_min_mm"), n.value("side_clearance_max_mm")
    assert most - least == pytest.approx((high - low + blade) / 2)


def test_a_pair_as_row_and_text() -> None:
    pair = Pair("pin in hole", of_class("hole", 5.0, "H7"), of_class("pin", 5.0, "g6"))
    row = pair.row()
    assert row["clearance_mm"] == [0.004, 0.024]
    assert gauged(row, "pin", "mm") == ("pin", "5.000 [0.1969] g6", "4.988 to 4.996 [0.1965 to 0.1967]")
    assert play_text(row["clearance_mm"], "inch") == "play 0.0002 to 0.0009 [0.004 to 0.024]"
    press = Pair("pressed", of_class("hole", 4.0, "H7"), of_class("pin", 4.0, "m6"))
    assert play_text(press.play, "mm") == "play −0.012 to 0.008 [−0.0005 to 0.0003]"
    screw = Pair("screw", of_limits("slot", 7.0, (0.09, 0.0)), of_thread("screw", 6.0, "M6")).row()
    assert screw["clearance_mm"] == [1.0]
    assert gauged(screw, "pin", "mm") == ("screw", "M6", "")
    assert play_text(screw["clearance_mm"], "mm") == "play at least 1.000 [0.0394]"


@pytest.mark.parametrize(
    ("value", "off"), [(4.0, (0.012, 0.004)), (4.1, (0.03, 0.0)), (50.8, (0.0, -0.19)), (0.381, (0.05, -0.05))]
)
def test_limits_are_what_the_dimension_shows(value: float, off: tuple[float, float]) -> None:
    for unit in ("inch", "mm"):
        shown = length(value, unit, off).shown  # "0.1575 +0.0004/+0.0002 [4.000 ...]"
        size, _, deviations = shown.partition(" [")[0].partition(" ")
        upper, lower = (float(x.replace("−", "-")) for x in deviations.split("/"))
        nominal, span = limits(value, off, unit)
        assert nominal.startswith(size)
        assert [float(x) for x in span.partition(" [")[0].split(" to ")] == pytest.approx(
            [float(size) + lower, float(size) + upper]
        )


@given(st.floats(0.02, 3.0))
def test_a_mouth_that_is_set_never_passes_shut(opening: float) -> None:
    upper, lower = set_deviations(opening)
    assert upper == 0.05
    assert opening + lower >= opening / 2
    assert lower >= -0.05


# ---- tapped holes ---------------------------------------------------------------------------------------------------


def tapped(name: str) -> list[TappedHole]:
    b = plane(name).body
    way = getattr(b, "toe_way", None)
    holes = [boss.hole for boss in b.bosses] if hasattr(b, "bosses") else []
    return [*holes, *getattr(b, "holddown", ()), *([] if way is None else [way.stud])]


@pytest.mark.parametrize("name", BENCH + LOW)
def test_the_floor_left_is_left_under_the_low_corner_too(name: str) -> None:
    holes = tapped(name)
    assert holes
    assert all(hole_floor(h) >= FLOOR_LEFT - 1e-9 for h in holes)
    if plane(name).tote is not None:
        assert any(h.lean for h in holes)
    assert findings(name)["B01"].verdict == "passed"


@given(st.floats(9.0, 20.0), st.floats(3.0, 8.0), st.floats(0.0, 30.0))
def test_a_leaning_hole_by_its_low_corner(top: float, drill: float, lean: float) -> None:
    depth = hole_depth(top, drill, lean)
    # the middle of the flat bottom, then half the drill down its slope
    corner = top - depth * cos(radians(lean)) - drill / 2 * sin(radians(lean))
    assert corner == pytest.approx(2.5)


def test_the_check_of_the_floor_sees_the_low_corner() -> None:
    d = plane("heron")
    rod = thread("medium", "inch")
    h = d.body.tote_boss.hole
    # deep enough for the axis alone: its low corner is half a millimetre nearer the sole
    deep = TappedHole(h.x, h.y, h.z_top, h.tap_drill, h.thread, (h.z_top - 2.5) / cos(radians(h.lean)), h.lean)
    found = {f.code: f for f in metal.body(d, [(deep, rod)])}
    assert found["B01"].verdict == "failed"
    assert found["B01"].value.endswith("(1.97 mm)")


# ---- one figure a question ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", BENCH + LOW)
def test_checks_and_numbers_agree(name: str) -> None:
    give = numbers(name)["bedding"].value("edge_deflection_um_per_100n")
    assert findings(name)["F02"].value == f"{give:.1f} µm"
    turn = numbers(name)["bedding"].value("lateral_adjust_deg")
    assert findings(name)["A02"].value.startswith(f"±{turn:.2f} deg")


def test_the_lateral_levers_pin_as_it_is_made() -> None:
    # recess 2.9 and hole 4.5 deep, 0.1 play under the blade
    rows = {r["name"]: r for r in numbers("heron")["hardware"].value("parts")}
    assert rows["lateral lever pin"]["length_mm"] == pytest.approx(7.3)
