"""A low-angle plane by arithmetic: stations, forces, adjusters, numbers, refusals."""

from __future__ import annotations

import re
from math import atan, cos, hypot, pi, radians, sin, tan
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from parts.blade.bevel import bevel_shape
from parts.body.low_angle.limits import lacks
from parts.low_angle import forces
from parts.low_angle.setting import furthest_out, lateral_limit
from parts.plane.checks import check_design
from parts.plane.design import design
from parts.plane.low_angle import mechanism, stations
from parts.plane.low_angle.design import LowAngleDesign
from parts.plane.numbers import plane_numbers
from parts.plane.shop import load_shop
from parts.plane.spec import load_spec
from shared.errors import InputError
from shared.findings import Finding
from shared.threads import METRIC, UNIFIED
from shared.units import LENGTH, parse

SPECS = Path(__file__).parents[2] / "specs"
SHOP = load_shop(SPECS / "shop.toml")


def plane(name: str, folder: Path | None = None, *changes: tuple[str, str]) -> LowAngleDesign:
    """Return a demo plane, some of its lines changed."""
    text = (SPECS / f"{name}.toml").read_text()
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    path = SPECS / f"{name}.toml"
    if folder is not None:
        path = folder / "plane.toml"
        path.write_text(text)
    found = design(load_spec(path), SHOP)
    assert isinstance(found, LowAngleDesign)
    return found


@pytest.fixture(scope="module")
def wren() -> LowAngleDesign:
    return plane("wren")


@pytest.fixture(scope="module")
def wren_long() -> LowAngleDesign:
    return plane("wren-long")


# ---- published and hand-worked cases ----------------------------------------------------------------------------


def test_angles_of_a_plane_as_published(wren_long: LowAngleDesign) -> None:
    """Case angles-bu-12-33 (sharpening guides): bed 12, honed 33 bevel up cuts at 45, clears 12, wedge 33 deg."""
    blade = plane_numbers(wren_long)["blade"]
    said = [blade.value(f"{k}_angle_deg") for k in ("cutting", "clearance", "wedge")]
    assert said == pytest.approx([45.0, 12.0, 33.0])


def test_camber_on_a_low_bed(wren_long: LowAngleDesign) -> None:
    """rpwoodwork.com 2009: at 12 deg the blade needs nearly five times the depth at the work."""
    blade = plane_numbers(wren_long)["blade"]
    assert blade.value("camber_on_blade_mm") == pytest.approx(0.003 * 25.4 / sin(radians(12)))
    assert 4.7 < blade.value("camber_on_blade_mm") / (0.003 * 25.4) < 4.9


def test_mouth_stack_by_hand(wren: LowAngleDesign) -> None:
    """Bed place 0.1, front wall 0.1, bed angle 0.1 deg at 0.8 mm height: 0.8 / sin² 12 deg · 0.1 deg = 0.0323 mm."""
    bedding = plane_numbers(wren)["bedding"]
    assert bedding.value("mouth_opening_worst_mm") == pytest.approx(0.2323, abs=2e-4)
    assert bedding.value("mouth_opening_rss_mm") == pytest.approx(hypot(0.1, 0.1, 0.0323), abs=2e-4)
    assert bedding.value("mouth_change_per_mm_thicker_mm") == 0
    assert all("thickness" not in c["name"] for c in bedding.value("mouth_contributions"))


def test_thread_arm_by_hand() -> None:
    """M6: d2 = 5.35, lead angle 3.40 deg, friction 0.15 / cos 30 deg = 9.83 deg: 2.675 · tan 13.23 deg = 0.629 mm."""
    assert forces.thread_arm(METRIC["medium"]) == pytest.approx(0.629, abs=1e-3)


def test_stress_areas() -> None:
    """ISO 898-1 (from memory): M5 14.2 mm², M6 20.1 mm²."""
    assert forces.stress_area(METRIC["small"]) == pytest.approx(14.2, abs=0.05)
    assert forces.stress_area(METRIC["medium"]) == pytest.approx(20.1, abs=0.05)


def test_stress_areas_of_unified_threads() -> None:
    """ASME B1.1 (from memory): No. 10-24 UNC 0.0175 in², 1/4-20 UNC 0.0318 in²."""
    assert forces.stress_area(UNIFIED["small"]) / 25.4**2 == pytest.approx(0.0175, abs=5e-5)
    assert forces.stress_area(UNIFIED["medium"]) / 25.4**2 == pytest.approx(0.0318, abs=5e-5)


def test_cap_is_in_balance(wren: LowAngleDesign) -> None:
    cap, got = wren.lever_cap, forces.cap_forces(wren.lever_cap)
    assert got.stud == pytest.approx(got.nose + got.clamp)
    # moments about the edge
    pressing = got.nose * cap.nose_at + got.clamp * cap.clamp.at
    assert pressing == pytest.approx(got.stud * cap.stud.at)


# ---- numbers of the two demo planes -----------------------------------------------------------------------------

KEYS = {
    "blade": "cutting_angle_deg clearance_angle_deg wedge_angle_deg cutting_angle_section_deg bevel_length_mm "
    "hollow_depth_mm camber_on_blade_mm camber_radius_mm temper_temperature_c usable_length_mm",
    "bedding": "bed_foot_from_edge_mm bevel_heel_height_mm support_height_mm unsupported_length_mm "
    "edge_deflection_um_per_100n depth_per_projection mouth_opening_mm mouth_opening_worst_mm mouth_opening_rss_mm "
    "lateral_adjust_deg",
    "body": "feather_mm bed_from_mm "
    "pattern_length_mm pattern_width_mm contraction thermal_bow_um_per_k required_machining_allowance_mm",
    "handle": "knob_blank_side_mm knob_blank_length_mm",
    "lever_cap": "nose_force_n clamp_force_n",
    "adjuster": "depth_per_turn_mm life_mm",
    "hardware": "parts",
    "plane": "knob_from_edge_mm",
}


@pytest.mark.parametrize("name", ["wren", "wren-long"])
def test_promised_numbers(name: str) -> None:
    found = plane_numbers(plane(name))
    for part, keys in KEYS.items():
        assert set(keys.split()) <= set(found[part].as_json()), part
    assert ("tote_blank_length_mm" in found["handle"]) == (name == "wren-long")
    for part in found.values():
        assert all(n.meaning and n.formula and n.source for n in part)


def test_the_nut_of_a_locking_knob_is_glued(wren: LowAngleDesign, wren_long: LowAngleDesign) -> None:
    for d in (wren, wren_long):
        n = plane_numbers(d)
        rod = next(r for r in n["hardware"].value("parts") if r["name"] == "knob rod")
        assert ("glued" in rod.get("fixing", "")) == ("toe_piece" in n) == (d.body.toe_way is not None)


def test_feather_stands_once(wren: LowAngleDesign) -> None:
    n = plane_numbers(wren)
    assert [part for part in n if "feather_mm" in n[part].as_json()] == ["body"]
    assert n["body"].value("feather_mm") == wren.body.feather


def test_support_and_life(wren: LowAngleDesign) -> None:
    n = plane_numbers(wren)
    bedding = n["bedding"]
    assert bedding.value("bed_foot_from_edge_mm") == 0  # the flat lies on the bed, which runs through the edge
    assert bedding.value("unsupported_length_mm") == pytest.approx(0.8 / sin(radians(12)))
    both = wren.body.front_land + wren.body.aft_land
    assert bedding.value("contact_length_mm") == pytest.approx(both)
    # the steel is as thin as the bevel leaves it where the bed begins
    u = bedding.value("unsupported_length_mm")
    t = u * tan(radians(25))
    give = 1e5 * 4 * u**3 / (190000 * wren.blade.width * t**3)
    assert bedding.value("edge_deflection_um_per_100n") == pytest.approx(give)
    assert n["blade"].value("usable_length_mm") == wren.adjuster.life == 16


@pytest.mark.parametrize(("name", "tote"), [("wren", False), ("wren-long", True)])
def test_demo_planes_pass_every_check(name: str, tote: bool) -> None:
    d = plane(name)
    assert [f.code for f in check_design(d) if f.verdict != "passed"] == []
    assert (d.tote is not None) == tote


def test_no_code_stands_twice(wren_long: LowAngleDesign) -> None:
    codes = [f.code for f in check_design(wren_long)]
    assert len(codes) == len(set(codes))


# ---- stations ---------------------------------------------------------------------------------------------------


def solved(bed: float, t: float, bevel: float, sole: float, system: str, pitch: float, life: float):
    return stations.low_stations(
        bed_angle=bed, thickness=t, bevel=bevel, micro_bevel=None, micro_width=0.5, blade_length=150.0, sole=sole,
        front_land=24.0, root_radius=2.8, system=system, pitch=pitch, life=life,
    )  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(
    st.floats(10, 25), st.floats(2.5, 5), st.floats(20, 60), st.floats(4.5, 10), st.sampled_from(["inch", "mm"]),
    st.floats(3.5, 6), st.floats(8, 40),
)  # fmt: skip
def test_everything_along_the_bed_has_its_room(bed, t, bevel, sole, system, pitch, life) -> None:
    at = solved(bed, t, bevel, sole, system, pitch, life)
    b, small = radians(bed), at.threads["small"]
    a = mechanism.adjuster(t, at)
    # nose on flat steel, however the blade is drawn back
    assert at.nose_at - 0.6 > bevel_shape(t, bevel).heel_from_edge + a.travel
    # order along the bed
    assert at.nose_at < at.stud_at < at.land_to < at.bridge[0] < at.clamp_at < at.bridge[1] < a.at - a.travel
    # a full diameter of thread over the floor, at the hole's lowest corner
    depth = (at.stud_at * sin(b) - small.tap_drill / 2 * sin(b) - 2.5) / cos(b)
    assert depth - small.pitch > small.major
    # wheel clear of bridge and plate with the blade pushed right out, of the blade always
    low = a.at - a.travel - a.flange_thickness / 2
    assert low - at.bridge[1] > 0.4
    x, z = low * cos(b), low * sin(b) - (a.axis_h + a.flange_radius) * cos(b)
    assert z - sole > 0.5 and x > 0
    assert a.sleeve_radius < a.axis_h and a.flange_radius - a.axis_h < t
    # every state of wear leaves some travel, and the row lasts as long as asked, to a pitch
    assert a.least_travel_left == pytest.approx(a.travel - pitch / 2)
    assert abs(a.life - max(life, pitch)) <= pitch / 2 + 1e-9
    assert a.bore_to >= a.post_to + a.travel


@settings(max_examples=40, deadline=None)
@given(st.floats(0.3, 2), st.floats(0.5, 4), st.floats(0.1, 6), st.floats(70, 140), st.floats(0.1, 4))
def test_turned_blade_stays_within_its_bounds(
    mouth: float, stud_room: float, cheek: float, cheek_at: float, out: float
) -> None:
    a = mechanism.adjuster(3.2, solved(12, 3.2, 25, 5.6, "mm", 4, 16))
    got = lateral_limit(mouth_side=mouth, bed_to=73.0, stud_at=42.0, stud_room=stud_room, cheek_at=cheek_at,
                        cheek_room=cheek, edge_half=25.0, out_most=out, adjuster=a)  # fmt: skip

    def aside(s: float) -> float:
        return abs((s - got.pivot_at) * tan(radians(got.degrees)))

    slack = 1e-9
    assert aside(0) <= mouth + slack and aside(73.0) <= mouth + slack
    assert aside(42.0) <= stud_room + slack and aside(cheek_at) <= cheek + slack
    assert aside(a.at) <= (a.slot_length - a.chord) / 2 + slack
    assert radians(got.degrees) <= atan((a.slot_width - a.flange_thickness) / a.chord) + slack
    # the edge's leading corner, turned about the pivot, comes no farther down the bed than the mouth's front lets it
    turn = radians(got.degrees)
    assert 25.0 * sin(turn) - got.pivot_at * (1 - cos(turn)) <= out + slack
    assert got.decided_by


def test_leading_corner_of_a_turned_edge_by_hand() -> None:
    """Half an edge of 27 mm and 0.283 mm of way to the mouth's front: asin(0.283 / 27) = 0.6006 deg."""
    a = mechanism.adjuster(3.2, solved(12, 3.2, 25, 5.6, "mm", 4, 16))
    got = lateral_limit(mouth_side=0.8, bed_to=73.0, stud_at=42.0, stud_room=2.0, cheek_at=90.0, cheek_room=3.0,
                        edge_half=27.0, out_most=0.283, adjuster=a)  # fmt: skip
    assert got.degrees == pytest.approx(0.6006, abs=1e-4)
    assert "mouth's front" in got.decided_by


@settings(max_examples=40, deadline=None)
@given(st.floats(0.1, 3), st.floats(10, 25), st.floats(20, 60))
def test_blade_meets_the_mouth_where_it_is_said(opening: float, bed: float, bevel: float) -> None:
    """The bevel's line through the edge, pushed out, crosses the sole at the mouth's front."""
    p, b, face = furthest_out(opening, bed, bed + bevel), radians(bed), radians(bed + bevel)
    edge = (-p * cos(b), -p * sin(b))
    assert edge[0] - edge[1] / tan(face) == pytest.approx(-opening)


def test_depth_per_turn(wren: LowAngleDesign) -> None:
    """A 32-thread screw moves the blade 25.4/32 mm a turn, and the edge down sin 12 deg of that: 0.165 mm."""
    n = plane_numbers(wren)
    assert n["adjuster"].value("depth_per_turn_mm") == pytest.approx(25.4 / 32 * sin(pi / 15))
    assert n["bedding"].value("depth_per_turn_mm") == pytest.approx(n["adjuster"].value("depth_per_turn_mm"))


# ---- refusals and failed checks ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("change", "key", "word"),
    [
        (("length = 4.125", "length = 3.75"), "blade.length", "cross slots"),
        (("bevel = 25", "bevel = 25\nskew = 15"), "blade.skew", "skewed bed"),
        (("bevel = 25", "bevel = 25\nmicro_bevel = 22"), "blade.micro_bevel", "more than blade.bevel"),
        (("angle = 12", "angle = 25"), "bed.angle", ""),
        (("width = 1.375", "width = 1.6"), "blade.width", "cheeks"),
        (("mouth_from_toe = 1.625", "mouth_from_toe = 3.5"), "body.mouth_from_toe", "half"),
    ],
)
def test_refusals_name_the_key(tmp_path: Path, change: tuple[str, str], key: str, word: str) -> None:
    changes = [change]
    if key == "bed.angle":
        changes, key, word = [change, ("bevel = 25", "bevel = 58\nmicro_bevel = 65")], "blade.micro_bevel", "cutting"
    with pytest.raises(InputError) as err:
        plane("wren", tmp_path, *changes)
    fault = next(f for f in err.value.faults if f.key == key)
    assert word in f"{fault.allowed} {fault.hint}"


def failed(d: LowAngleDesign, code: str) -> Finding:
    found = next(f for f in check_design(d) if f.code == code)
    assert found.verdict != "passed"
    assert found.change and found.value and found.limit and found.source
    return found


@pytest.mark.parametrize(
    ("name", "change", "code", "key"),
    [
        ("wren-long", ("mouth_opening = 0.020", "mouth_opening = 0.010"), "A06", "body.mouth_opening"),
        ("wren", ("hardness = ", "back_bevel = 6\nhardness = "), "E01", "blade.back_bevel"),
        ("wren", ('opening_most = "3/32 in"', 'opening_most = "1.2 mm"'), "M05", "body.toe_piece.opening_most"),
        ("wren", ("[handle]", "[adjuster]\nlife = 0.35\n[handle]"), "A04", "adjuster.life"),
        ("wren", ("[handle]", "[adjuster]\nslot_pitch = 0.23\nlife = 0.46\n[handle]"), "A01", "adjuster.slot_pitch"),
        ("wren", ("width = 1.875", "width = 2.3"), "H06", "body.width"),
        ("wren-long", ("length = 13.5", "length = 10"), "H01", "body.length"),
    ],
)
def test_failed_checks_say_what_to_change(tmp_path: Path, name: str, change: tuple[str, str], code: str, key: str):
    assert key in failed(plane(name, tmp_path, change), code).change


WEAK_CAP = '[lever_cap]\nalloy = "silicon-bronze-c87300"\nknob_diameter = 0.6\n'


@pytest.mark.parametrize(
    ("code", "break_it", "key", "mend"),
    [
        # half the edge is 25.4 mm: 0.0048 in of mouth let it turn asin(0.155 / 25.4) = 0.35 deg
        ("A02", ("mouth_opening = 0.020", "mouth_opening = 0.0048"), "body.mouth_opening", 1),
        ("F09", ("[handle]", WEAK_CAP + "[handle]"), "lever_cap.knob_diameter", -1),
        ("B06", ("cheek_height = ", "cheek_height = 0.9 #"), "body.cheek_height", 1),
    ],
)
def test_what_a_check_says_mends_it(tmp_path: Path, code: str, break_it: tuple[str, str], key: str, mend: int) -> None:
    name = "wren" if code == "F09" else "wren-long"
    change = failed(plane(name, tmp_path, break_it), code).change
    amount = re.search(rf"{re.escape(key)} by (?:about )?([0-9./-]+ (?:mm|in))", change)
    assert amount, change
    new = break_it[1]
    said = re.search(r"[0-9.]+(?=( #|\n\[|$))", new)
    assert said
    mended = f"{float(said[0]) + mend * parse(amount[1], LENGTH) / 25.4:.5f}"
    d = plane(name, tmp_path, (break_it[0], new.replace(said[0], mended)))
    assert next(f for f in check_design(d) if f.code == code).verdict == "passed"


def test_every_reason_why_a_body_has_no_room_is_said(tmp_path: Path) -> None:
    d = plane("wren", tmp_path, ("cheek_height = ", "corner_radius = 0.6\ncheek_height = 0.9 #"))
    found, reasons = failed(d, "B06"), lacks(d.body)
    assert len(reasons) > 1
    assert all(lack.reason in found.value for lack in reasons)
    assert {"body.corner_radius", "body.cheek_height"} <= set(re.findall(r"body\.\w+", found.change))
    assert "bridge" not in found.change
