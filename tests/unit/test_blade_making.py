"""Bars, blanks, life, chipbreaker spring and the blade's and bedding's lists of numbers."""

import math
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from parts.blade.life import sharpenings, usable_length
from parts.blade.numbers import bedding_numbers, blade_numbers
from parts.blade.stock import bars_to_buy, blank
from parts.chipbreaker.spring import E_MPA, chipbreaker_numbers, spring
from shared.errors import InputError, RequestError
from shared.mouth_stack import mouth_stack
from shared.pairs import Pair, of_class

BLADE = {"orientation": "bevel-down", "bed": 45.0, "steel": "A2", "width": 50.8, "thickness": 3.175, "bevel": 25.0}


def test_blank_grows_into_the_finished_size_with_its_stock() -> None:
    b = blank("A2", 50.8, 190.5, 3.175, stock_per_side=0.2)
    for before, finished in zip(b.before_hardening, b.finished, strict=True):
        assert before * 1.001 - 0.4 == pytest.approx(finished)
    assert b.ground_bar == (pytest.approx(57.15), pytest.approx(3.96875))
    assert b.hot_rolled_bar is not None
    assert b.hot_rolled_bar[1] > b.before_hardening[2]
    with pytest.raises(RequestError, match="no ground bar"):
        blank("A2", 110, 190, 3)


def brute_force(pieces: list[int], bars: list[int], kerf: int) -> int:
    """Return the least length bought by trying every way to fill bins; tiny orders only."""
    best = sum(pieces) * 10
    for count in range(1, len(pieces) + 1):
        for chosen in product(bars, repeat=count):
            if sum(chosen) >= best:
                continue
            for place in product(range(count), repeat=len(pieces)):
                left = [c + kerf for c in chosen]
                for p, k in zip(pieces, place, strict=True):
                    left[k] -= p + kerf
                if min(left) >= 0:
                    best = min(best, sum(chosen))
                    break
    return best


@pytest.mark.parametrize(
    ("pieces", "kerf"), [([40, 40, 30, 30], 0), ([40, 40, 30, 30], 2), ([60, 50, 50], 1), ([33, 33, 33, 20, 20], 0)]
)
def test_bars_are_the_least_by_brute_force(pieces, kerf) -> None:
    order = bars_to_buy({float(p): pieces.count(p) for p in pieces}, [100.0, 70.0], float(kerf))
    assert order.optimal
    assert order.bought == brute_force(pieces, [100, 70], kerf)


@settings(max_examples=10, deadline=None)
@given(st.dictionaries(st.floats(150, 260), st.integers(1, 40), min_size=1, max_size=4), st.floats(0, 4))
def test_bar_plan_gives_every_piece_and_fits(pieces, kerf) -> None:
    order = bars_to_buy(pieces, [914.4, 1828.8], kerf)
    made: dict[float, int] = {}
    for cut in order.cuts:
        used = sum(x * n for x, n in cut.pieces) + kerf * (sum(n for _, n in cut.pieces) - 1)
        assert used <= cut.bar + 1e-6
        for x, n in cut.pieces:
            made[x] = made.get(x, 0) + n * cut.times
    assert all(made.get(x, 0) >= n for x, n in pieces.items())
    assert order.optimal
    assert order.bought >= sum(x * n for x, n in pieces.items())


def test_exact_fit_with_kerf() -> None:
    """Four pieces of 200 and three cuts of 2 fill 806 exactly; a hair less does not."""
    assert bars_to_buy({200.0: 4}, [806.0], 2.0).bars == 1
    assert bars_to_buy({200.0: 4}, [805.9], 2.0).bars == 2


def test_bars_refusals() -> None:
    with pytest.raises(RequestError, match="longer than the longest bar"):
        bars_to_buy({1000.0: 1}, [900.0], 2)
    with pytest.raises(InputError):
        bars_to_buy({}, [900.0], 2)


def test_life() -> None:
    assert usable_length(45, 3.175, 25) == pytest.approx(45 - 3.175 / math.tan(math.radians(25)))
    assert sharpenings(38.19, 0.12) == 318
    assert sharpenings(0.3, 0.1) == 3
    with pytest.raises(InputError, match="bevel's"):
        usable_length(6, 3.175, 25)


def test_spring_by_hand() -> None:
    """w 50, t 2, L 40, d 0.5: 205000*50*8*0.5/(4*64000) = 160.2 N; stress 1.5*205000*2*0.5/1600 = 192 MPa."""
    s = spring(50, 2, 40, 0.5)
    assert s.screw_force == pytest.approx(160.156, rel=1e-4)
    assert s.stress == pytest.approx(192.19, rel=1e-3)
    assert not s.takes_a_set
    # a cap straight over the edge reaches it whole; at the seat, not at all
    assert spring(50, 2, 40, 0.5, cap_force=100, cap_from_seat=40).cap_share == pytest.approx(100)
    assert spring(50, 2, 40, 0.5, cap_force=100, cap_from_seat=0).cap_share == 0


def test_spring_closes_just_at_its_closing_deflection() -> None:
    need = spring(50, 2, 40, 0.0).closing_deflection
    assert spring(50, 2, 40, need).closes
    assert not spring(50, 2, 40, 0.98 * need).closes
    # the beam across: a uniform load q bends w by 5 q w^4/(384 E I)
    s = spring(50, 2, 40, need, edge_error=0.03)
    inertia = 40 / 3 * 8 / 12
    assert 5 * s.closing_force * 50**4 / (384 * E_MPA * inertia) == pytest.approx(0.03)


def test_chipbreaker_list_warns_where_it_cannot_close() -> None:
    numbers = chipbreaker_numbers(
        face_angle=45, edge_angle=45, setback=0.15, width=50, thickness=3, reach=60, deflection=0.01
    )
    assert numbers.value("closes") is False
    assert numbers.value("chip_meets_angle_deg") == 90
    assert numbers.value("equivalent_cutting_angle_deg") == pytest.approx(57.5)


def test_blade_list_has_every_key_of_the_interface() -> None:
    n = blade_numbers(**BLADE, length=190.5, hardness=62, slot_from_edge=45, camber_at_work=0.05, wheel_diameter=200)
    wanted = (
        "cutting_angle_deg clearance_angle_deg wedge_angle_deg cutting_angle_section_deg cutting_angle_velocity_deg "
        "cutting_angle_chip_flow_deg bevel_length_mm hollow_depth_mm camber_on_blade_mm camber_radius_mm "
        "temper_temperature_c usable_length_mm hollow_edge_angle_deg"
    )
    for key in wanted.split():
        assert isinstance(n.value(key), int | float), key
    assert n.value("camber_on_blade_mm") == pytest.approx(0.05 / math.sin(math.radians(45)))
    assert n.value("temper_temperature_c") == pytest.approx((300 - 32) / 1.8)


def test_straight_edge_and_flat_grind_in_the_list() -> None:
    n = blade_numbers(**BLADE, length=190.5, hardness=62, slot_from_edge=45)
    assert n.value("camber_on_blade_mm") == 0
    assert n.value("camber_radius_mm") == "straight"
    assert n.value("hollow_depth_mm") == 0
    assert n.value("hollow_edge_angle_deg") == 25


@pytest.mark.parametrize("steel", ["A2", "O1", "D2", "M2", "W1", "52100"])
def test_every_steel_has_a_list(steel) -> None:
    hard = 60 if steel == "D2" else 62
    n = blade_numbers(**{**BLADE, "steel": steel}, length=190.5, hardness=hard, slot_from_edge=45)
    assert n.value("expected_low_hrc") < n.value("hardness_hrc") < n.value("expected_high_hrc")
    assert all(x.source and x.formula and x.meaning for x in n)


def bedding(**more):
    given_values = {
        **BLADE,
        "bed_low_height": 6.35,
        "bed_top_height": 60.0,
        "mouth_opening": 0.38,
        "side_clearance": 0.6,
        "pivot_from_edge": 110.0,
        "adjuster_lead": 0.8,
        **more,
    }
    return bedding_numbers(**given_values)


def test_bedding_list() -> None:
    pair = Pair("pin", of_class("hole", 5.0, "H7"), of_class("pin", 5.0, "g6"))
    n = bedding(mouth_low=0.1, mouth_high=1.5, pins=[pair])
    assert n.value("bed_foot_from_edge_mm") == pytest.approx(3.175 * math.sqrt(2))
    assert n.value("support_height_mm") == 6.35
    assert n["support_height_mm"].decided_by == "lower end of the bed"
    u = (6.35 + 3.175 * math.sqrt(0.5)) / math.sqrt(0.5)
    assert n.value("unsupported_length_mm") == pytest.approx(u)
    assert n.value("edge_deflection_um_per_100n") == pytest.approx(1e5 * 4 * u**3 / (190e3 * 50.8 * 3.175**3))
    effects = [c["effect_mm"] for c in n.value("mouth_contributions")]
    assert n.value("mouth_opening_worst_mm") == pytest.approx(sum(effects))
    assert n.value("mouth_opening_rss_mm") == pytest.approx(math.hypot(*effects))
    assert n.value("pin_fits")[0]["clearance_mm"] == [0.004, 0.024]
    assert n.value("mouth_travel_mm") > 1.4


def test_a_high_heel_decides_the_support() -> None:
    n = bedding(bed_low_height=0.5)
    assert n["support_height_mm"].decided_by == "heel of the bevel"
    assert n.value("support_height_mm") == n.value("bevel_heel_height_mm")


def test_bevel_up_bedding() -> None:
    n = bedding(orientation="bevel-up", bed=12.0, bed_low_height=0.8, bed_top_height=20.0)
    assert n.value("bed_foot_from_edge_mm") == 0
    assert n.value("unsupported_length_mm") == pytest.approx(0.8 / math.sin(math.radians(12)))
    assert n.value("mouth_change_per_mm_thicker_mm") == 0
    assert "mouth_closing_thickness_mm" not in n


@settings(max_examples=40, deadline=None)
@given(st.floats(12, 60), st.floats(0, 5), st.floats(0, 10), st.floats(-0.2, 0.2))
def test_mouth_sensitivity_to_the_bed_angle(bed, steel, height, turn) -> None:
    """Against the edge's place reckoned anew at the turned angle."""

    def edge_x(angle: float) -> float:
        b = math.radians(angle)
        return -height / math.tan(b) - steel / math.sin(b)

    stack = mouth_stack(
        bed,
        steel_under_edge=steel,
        thickness_matters=True,
        bed_position_tol=0,
        bed_angle_tol=abs(turn),
        thickness_tol=0,
        front_tol=0,
        datum_height=height,
    )
    moved = abs(edge_x(bed + turn) - edge_x(bed - turn)) / 2
    assert stack.worst == pytest.approx(moved, rel=2e-3, abs=1e-9)
    assert stack.rss == pytest.approx(stack.worst)
