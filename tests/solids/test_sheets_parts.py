"""The sheets of blade, chipbreaker, lever cap, small parts and whole plane: clean, true to the models, sound DXF."""

from functools import cache
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from parts.body.low_angle.block import throat
from parts.chipbreaker.outline import bevel_top
from parts.plane.numbers import plane_numbers
from parts.plane.run import Run
from parts.plane.sheets.assembly import ASSEMBLY_SHEETS
from parts.plane.sheets.assembly_list import items
from parts.plane.sheets.assembly_views import from_above, on_middle
from parts.plane.sheets.blade import BLADE_SHEETS
from parts.plane.sheets.chipbreaker import CHIPBREAKER_SHEETS
from parts.plane.sheets.lever_cap import LEVER_CAP_SHEETS
from parts.plane.sheets.low_parts import LOW_PARTS_SHEETS, tip_before
from parts.plane.sheets.shapes import bed_view, swapped, turned, turned_section
from parts.plane.sheets.small_parts import SMALL_PARTS_SHEETS
from shared.cad.facets import facets
from shared.cad.project import project
from shared.drawing.annotations import Balloon, DetailMark, Linear
from shared.drawing.overlap import assert_clean
from shared.drawing.primitives import Line
from shared.profile import Profile
from tests.cut_measures import extents
from tests.planes import designed, made

pytestmark = pytest.mark.kernel
SPECS = Path(__file__).parents[2] / "specs"
HERON = [*BLADE_SHEETS, *CHIPBREAKER_SHEETS, *LEVER_CAP_SHEETS, *SMALL_PARTS_SHEETS]
WREN = [*BLADE_SHEETS, *LOW_PARTS_SHEETS, *ASSEMBLY_SHEETS]
EACH = [("heron", e) for e in HERON] + [("wren", e) for e in WREN]
EACH += [("wren-long", e) for e in WREN if e.stem == "blade"]  # camber and a micro-bevel on a bevel-up blade


@cache
def run_of(name):
    d = designed(name)
    return Run(d, made(name), Path("unused"), "", None, [], plane_numbers(d))


@cache
def sheet(name, stem):
    run = run_of(name)
    entry = next(e for n, e in EACH if n == name and e.stem == stem)
    return entry.make(run, entry)


def stated(plan, view):
    """Return the values of the straight dimensions of a view."""
    return [n.value for v in plan.views if v.name == view for n in v.notes if isinstance(n, Linear)]


@pytest.mark.parametrize(("name", "entry"), EACH, ids=[f"{n}-{e.stem}" for n, e in EACH])
def test_sheet_is_clean_and_its_dxf_sound(name, entry, tmp_path):
    plan = sheet(name, entry.stem)
    assert_clean(plan)
    assert not plan.layout().remarks
    assert len(plan.layout().pages) == 1
    # read back and audited: raises on an error or a fix
    (path,) = plan.save(dxf=tmp_path / "sheet.dxf", verify=True)
    assert path.stat().st_size > 10_000


def drawn(solid, view):
    """Return how far a solid reaches in a view, exactly."""
    u0, v0, u1, v1 = project(solid, view, hidden=False).bounds
    return u1 - u0, v1 - v0


def span(solid, view):
    """Return how far a solid reaches in a view, by the corners of its triangles, which lie on its surface."""
    at = facets(solid).vertices @ np.array([view.right, view.up]).T
    return tuple(at.max(axis=0) - at.min(axis=0))


@pytest.mark.parametrize("name", ["heron", "wren"])
def test_blade_measures_what_its_sheet_says(name):
    run = run_of(name)
    long, thick = drawn(run.models.blade, bed_view(run, "side"))
    _, wide = drawn(run.models.blade, bed_view(run, "face"))
    plan = sheet(name, "blade")
    assert max(stated(plan, "flat")) == pytest.approx(long, abs=1e-3)
    assert any(v == pytest.approx(wide, abs=1e-3) for v in stated(plan, "flat"))
    assert stated(plan, "thickness") == [pytest.approx(thick, abs=1e-3)]


def test_chipbreaker_measures_what_its_sheet_says():
    run = run_of("heron")
    long, high = drawn(run.models.chipbreaker, bed_view(run, "side"))
    plan = sheet("heron", "chipbreaker")
    assert max(stated(plan, "plan")) == pytest.approx(long, abs=1e-3)
    assert max(v for v in stated(plan, "A-A") if v < 10) == pytest.approx(high, abs=1e-3)


def test_lever_cap_and_adjusters_measure_what_their_sheets_say():
    run = run_of("heron")
    solids = {p.name: p.solid for part in ("lever_cap", "hardware") for p in run.models.pieces_of(part)}
    side, face, end = (bed_view(run, w) for w in ("side", "face", "end"))
    cap = stated(sheet("heron", "lever-cap-cap"), "top")
    assert max(cap) == pytest.approx(span(solids["lever cap cap"], side)[0], abs=0.02)  # less the eased edge
    lever = stated(sheet("heron", "cam-lever"), "top")
    assert max(lever) == pytest.approx(span(solids["lever cap lever"], face)[1], abs=1e-3)
    wheel = stated(sheet("heron", "depth-adjuster"), "wheel")
    assert max(wheel) == pytest.approx(span(solids["depth wheel"], end)[0], abs=0.1)  # its flutes take off a little
    yoke = stated(sheet("heron", "depth-adjuster"), "yoke side")
    tip_to_fork = span(solids["yoke"], side)[1]
    assert sum(yoke) < tip_to_fork < sum(yoke) + 6.0  # from round to round
    for name, view in (("depth post", "depth post"), ("yoke pin", "yoke pin")):
        way = side if name == "depth post" else end
        length = max(stated(sheet("heron", "depth-adjuster"), view))
        assert length == pytest.approx(span(solids[name], way)[0], abs=1e-3)


def test_screws_and_rods_measure_what_their_sheet_says():
    run, plan = run_of("heron"), sheet("heron", "screws-rods")
    # by its corners: a box round a solid that has been meshed is a little too large
    tall = {p.name: extents(p.solid)[2] for p in run.models.pieces_of("hardware")}
    low, high = tall["knob rod"]
    assert max(stated(plan, "knob rod")) == pytest.approx(high - low, abs=1e-3)
    low, high = tall["frog hold-down screw right"]
    length, head = sorted(stated(plan, "frog hold-down screw"))[-1], run.design.hardware.holddown.head_height
    assert length + head == pytest.approx(high - low, abs=1e-3)


def test_low_cap_and_adjuster_measure_what_their_sheets_say():
    run = run_of("wren")
    side = bed_view(run, "side")
    solids = {p.name: p.solid for part in ("lever_cap", "adjuster") for p in run.models.pieces_of(part)}
    cap = stated(sheet("wren", "lever-cap"), "top")
    assert max(cap) == pytest.approx(span(solids["lever cap"], side)[0], abs=0.02)
    assert max(stated(sheet("wren", "depth-adjuster"), "wheel")) == pytest.approx(
        span(solids["depth wheel"], side)[0], abs=1e-3
    )
    clamp = stated(sheet("wren", "clamp-stud"), "clamp screw")
    assert any(v == pytest.approx(span(solids["clamp screw"], bed_view(run, "end"))[0], abs=0.1) for v in clamp)


def test_assembly_lists_every_solid_once_and_points_at_it():
    run, plan = run_of("wren"), sheet("wren", "assembly")
    found = items(run)
    listed = [n for i in found for n in i.pieces]
    assert sorted(listed) == sorted(p.name for p in run.models.pieces)
    balloons = [n.text for v in plan.views for n in v.notes if isinstance(n, Balloon)]
    assert sorted(balloons, key=int) == [str(i.number) for i in found]
    mass = sum(run.models.measured(p)[1] for p in run.models.pieces)
    assert plan.title.mass_kg == pytest.approx(mass)
    section = stated(plan, "A-A")
    along = [v.X for v in run.models.body.Vertices()]
    assert max(section) == pytest.approx(max(along) - min(along), abs=1e-3)
    assert run.design.body.mouth_opening in stated(plan, "B")


def ends(lines):
    """Return both ends of every line, as an array of points."""
    return np.array([p for s in lines if isinstance(s, Line) for p in (s.start, s.end)])


def test_from_above_a_nearer_part_hides_what_is_under_it():
    run = run_of("wren")
    seen, body = from_above(run).lines, run.design.body
    # of the toe piece only the lip in the mouth: the rest lies under the floor
    assert ends(seen["toe piece"])[:, 0].min() > throat(body, body.sole) - 0.1
    # the knob's nut with its slot stands in the knob's bore, the clamp's foot under the cap
    assert seen["knob rod nut"] and "clamp foot" not in seen
    # the wheel's knob stands over the body's heel end, its sleeve under the blade
    lines = [s for s in seen["body"] if isinstance(s, Line)]
    heel = [s for s in lines if abs(s.start[0] - body.heel_x) < 1e-3 and abs(s.end[0] - body.heel_x) < 1e-3]
    assert heel
    assert all(min(abs(s.start[1]), abs(s.end[1])) > 4.0 for s in heel)
    tail = run.models.blade.BoundingBox().xmax
    sleeve = [p for p in ends(seen["depth wheel"]) if p[0] < tail - 1.0]
    assert all(abs(y) < 7.0 for _, y in sleeve)
    # mouth and bed are seen ahead of and beside the blade
    assert any(abs(p[0] - throat(body, body.sole)) < 0.1 for p in ends(seen["body"]))


def test_in_the_section_what_stands_beyond_the_cut_is_seen():
    run = run_of("wren")
    drawn, body = on_middle(run), run.design.body
    low, high = body.sole, body.rail_height
    for x in (body.toe_x, body.heel_x):
        lines = [s for s in drawn.beyond["body"] if isinstance(s, Line)]
        tops = [max(s.start[1], s.end[1]) for s in lines if max(abs(s.start[0] - x), abs(s.end[0] - x)) < 0.1]
        assert tops and low < max(tops) <= high
    slot = ends(drawn.beyond["blade"])
    cut = [f.outer.bounds for f in drawn.faces["blade"]]
    gap = [(a[2], b[0]) for a, b in pairwise(cut)]
    assert gap and all(any(x0 - 0.5 < x < x1 + 0.5 for x, _ in slot) for x0, x1 in gap)


def test_assembly_states_the_height_over_all():
    top = max(float(facets(p.solid).vertices[:, 2].max()) for p in run_of("wren").models.pieces)
    notes = [n for v in sheet("wren", "assembly").views for n in v.notes if isinstance(n, Linear)]
    (over_all,) = [n for n in notes if "overall height" in n.text.shown]
    assert top - 1e-6 <= over_all.value <= top + 0.1  # triangles stay within 0.08 mm under the surface


def test_turned_parts_from_their_half_section():
    half = Profile.polygon([(1, 0), (4, 0), (4, 2), (2, 2), (2, 9), (1, 9)], name="bush")
    assert swapped(half).bounds == pytest.approx((0, 1, 9, 4))
    seen = turned(half)
    across = sorted((p.start[0], abs(p.start[1])) for p in seen if isinstance(p, Line) and p.start[0] == p.end[0])
    # three faces that are seen across, and nothing of the bore
    assert {(0.0, 4.0), (2.0, 4.0), (9.0, 2.0)} <= {(u, v) for u, v in across}
    assert all(v > 1.5 or u in (0.0, 9.0) for u, v in across)
    lines, faces = turned_section(half)
    assert sum(f.area for f in faces) == pytest.approx(2 * half.area)
    assert Line((0.0, -1.0), (0.0, 1.0)) in lines


def said(plan, view):
    """Return every text of a view's leaders and round dimensions, as one string."""
    rows = [r for v in plan.views if v.name == view for n in v.notes for r in getattr(n, "rows", ())]
    return " | ".join(r.text if isinstance(r.text, str) else r.text.shown for r in rows if hasattr(r, "text"))


def test_detail_b_states_the_honed_width_without_a_back_bevel():
    size = run_of("heron").design.blade
    assert size.micro_bevel is not None and not size.back_bevel
    plan = sheet("heron", "blade")
    assert f"width {size.micro_width / 25.4:.3f}" in said(plan, "B")
    # the place of detail B is ringed on detail A
    detail = next(v for v in plan.views if v.name == "A")
    assert any(isinstance(n, DetailMark) and n.letter == "B" for n in detail.notes)


def test_the_chipbreakers_curves_stand_in_numbers():
    size = run_of("heron").design.mechanism.chipbreaker
    plan = sheet("heron", "chipbreaker")
    # two points of the arc and its level end: (run^2 + rise^2) / (2 rise), by hand
    s, q = bevel_top(size)
    rise = size.hump_top - q
    radius = ((size.hump_at - s) ** 2 + rise**2) / (2 * rise)
    assert f"R {radius / 25.4:.2f}" in said(plan, "A-A")
    assert "level at the hump" in said(plan, "B")


def test_the_yoke_can_be_made_from_its_sheet():
    d = run_of("heron").design.hardware.depth
    plan = sheet("heron", "depth-adjuster")
    values = stated(plan, "yoke")
    # shoulders below the pivot, and the whole length from the tip to the foot of the fork
    assert any(v == pytest.approx(d.post_h - d.wheel_diameter / 2 + 0.2 - d.pivot_h) for v in values)
    tip = -(run_of("heron").design.blade.thickness + d.pivot_h)
    assert any(v == pytest.approx(d.tip_q - (tip - d.lower_arm - d.yoke_thickness / 2)) for v in values)
    assert "shank" in said(plan, "yoke side")


def test_the_low_wheel_is_tapped_to_where_the_post_goes():
    size = run_of("wren").design.adjuster
    plan = sheet("wren", "depth-adjuster")
    start = size.at - size.flange_thickness / 2
    full = size.bore_to - start - size.thread.pitch
    # the post's end at the far end of its travel is still inside full thread
    assert size.post_to + size.travel - start < full + size.thread.pitch
    assert f"{full / 25.4:.3f}" in said(plan, "wheel") and "bored clear" not in said(plan, "wheel")


def test_the_clamps_tip_has_the_metal_of_its_riveted_cone():
    size = run_of("wren").design.lever_cap
    tip, long = size.clamp.tip_diameter / 2, tip_before(size)
    riveted = size.clamp.foot_thickness - 0.3
    cone = riveted / 2  # as high as the straight part, by 45 deg
    volume = np.pi * tip**2 * (riveted - cone) + np.pi * cone / 3 * (tip**2 + tip * (tip + cone) + (tip + cone) ** 2)
    assert np.pi * tip**2 * long == pytest.approx(volume)
