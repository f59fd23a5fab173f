"""The sheets of blade, chipbreaker, lever cap, small parts and whole plane: clean, true to the models, sound DXF."""

import re
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from parts.blade.stock import grinding_order
from parts.plane.design import design
from parts.plane.models import models_of
from parts.plane.numbers import plane_numbers
from parts.plane.run import Run
from parts.plane.sheets import blade
from parts.plane.sheets.assembly import ASSEMBLY_SHEETS
from parts.plane.sheets.assembly_list import items
from parts.plane.sheets.blade import BLADE_SHEETS
from parts.plane.sheets.chipbreaker import CHIPBREAKER_SHEETS
from parts.plane.sheets.lever_cap import LEVER_CAP_SHEETS
from parts.plane.sheets.low_parts import LOW_PARTS_SHEETS
from parts.plane.sheets.shapes import bed_view, swapped, turned, turned_section
from parts.plane.sheets.small_parts import SMALL_PARTS_SHEETS
from parts.plane.shop import load_shop
from parts.plane.spec import load_spec
from shared.cad.facets import facets
from shared.cad.project import project
from shared.drawing.annotations import Balloon, Linear
from shared.drawing.overlap import assert_clean
from shared.drawing.primitives import Line
from shared.profile import Profile

pytestmark = pytest.mark.kernel
SPECS = Path(__file__).parents[2] / "specs"
HERON = [*BLADE_SHEETS, *CHIPBREAKER_SHEETS, *LEVER_CAP_SHEETS, *SMALL_PARTS_SHEETS]
WREN = [*BLADE_SHEETS, *LOW_PARTS_SHEETS, *ASSEMBLY_SHEETS]
EACH = [("heron", e) for e in HERON] + [("wren", e) for e in WREN]


@cache
def run_of(name):
    d = design(load_spec(SPECS / f"{name}.toml"), load_shop(None))
    return Run(d, models_of(d, settle=lambda made: made), Path("unused"), "", None, [], plane_numbers(d))


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
    box = {p.name: p.solid.BoundingBox() for p in run.models.pieces_of("hardware")}
    knob = box["knob rod"]
    assert max(stated(plan, "knob rod")) == pytest.approx(knob.zmax - knob.zmin, abs=1e-3)
    hold = box["frog hold-down screw right"]
    length, head = sorted(stated(plan, "frog hold-down screw"))[-1], run.design.hardware.holddown.head_height
    assert length + head == pytest.approx(hold.zmax - hold.zmin, abs=1e-3)


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
    box = run.models.body.BoundingBox()
    assert max(section) == pytest.approx(box.xmax - box.xmin, abs=1e-3)
    assert run.design.body.mouth_opening in stated(plan, "B")


def test_finishes_of_the_blade_agree_with_the_order_of_work_on_its_card():
    for orientation, name in (("bevel-down", "face"), ("bevel-up", "flat")):
        order = {what: finish for what, finish, _ in grinding_order(orientation)}
        face = order[f"grind the {name}"]
        assert re.findall(r"[\d.]+", face) == [f"{v:g}" for v in (blade.FACE_RA, blade.FACE_FLAT, blade.FACE_FIRST)]
        back = order["grind the back" if orientation == "bevel-down" else "grind the upper side"]
        assert re.findall(r"[\d.]+", back) == [f"{blade.BACK_RA:g}", f"{blade.BACK_PARALLEL[orientation]:g}"]
        assert f"{blade.BEVEL_RA[orientation]:g} um" in order["grind the bevel"]
        assert f"{blade.EDGE_RA:g} um" in order["hone"]


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
