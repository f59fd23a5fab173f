"""Match plates as solids and drawings: nothing overlaps, metal and sand are as the pour plan counts them."""

from __future__ import annotations

import itertools
from collections import Counter
from functools import lru_cache
from pathlib import Path

import cadquery as cq
import ezdxf
import pytest
from ezdxf import bbox

from parts.plane.design import Design, design
from parts.plane.models import PlaneModels, models_of
from parts.plane.moulding import cast_solid, foundry_part
from parts.plane.pour import match_plate
from parts.plane.shop import load_shop
from parts.plane.spec import LoadedSpec, load_spec
from shared.cad.cast_solid import CastSolid, scaled
from shared.cad.match_plate import gating_volume, plate_solids
from shared.cad.mesh import Mesh, tessellate
from shared.cad.plate_drawing import write_plate
from shared.cad.solids import common_volume, one_valid_solid, taper_extrude
from shared.cad.step import NamedSolid, read_step, write_step
from shared.casting.alloy import alloy
from shared.casting.contraction import Contraction
from shared.casting.match_plate import MatchPlate
from shared.errors import RequestError
from shared.profile import Profile
from tests.planes import designed
from tests.planes import made as plane_made

pytestmark = pytest.mark.kernel
SPECS = Path(__file__).parents[2] / "specs"
# moduli of the hot spots as the freezing calculation gives them for this plane, rounded [mm]
HOT = {"body": 6.7, "frog": 5.7, "lever cap": 2.9, "cam lever": 2.6}
THICK = 9.525
# draft on the walls that gates run up to, and of the channels themselves, is not in the plan's volumes
GATING_SLACK = 0.02
CLEAR = 2.5  # mm past a neck's end, where the draft of the casting's side is passed


@lru_cache
def heron(parting: float | None = None) -> Design:
    if parting is None:
        return designed("heron")
    loaded = load_spec(SPECS / "heron.toml")
    spec = loaded.spec
    spec = spec.model_copy(update={"body": spec.body.model_copy(update={"parting_height": parting})})
    return design(LoadedSpec(spec, loaded.source), load_shop(SPECS / "shop.toml"))


@lru_cache
def models(parting: float | None = None) -> PlaneModels:
    return plane_made("heron") if parting is None else models_of(heron(parting))


@lru_cache
def made(name: str, parting: float | None = None) -> tuple[CastSolid, MatchPlate, list[NamedSolid]]:
    part = cast_solid(models(parting), name)
    layout = match_plate(foundry_part(part, HOT[name]), heron(parting).shop)
    return part, layout, plate_solids(layout, part, THICK)


def reach(mesh: Mesh) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Return least and greatest x, y, z; far sooner than the kernel's tight box."""
    return tuple(mesh.vertices.min(axis=0)), tuple(mesh.vertices.max(axis=0))


def placed(solids: list[NamedSolid]) -> list[tuple[str, cq.Solid]]:
    return [(f"{s.name} {i}", solid) for s in solids for i, solid in enumerate(s.placed(), 1)]


@pytest.mark.parametrize("name", HOT)
def test_extent_by_arithmetic_is_the_solid_s(name: str) -> None:
    part = cast_solid(models(), name)
    low, high = reach(tessellate(part.pattern_on_plate))
    length, width, cope, drag = part.size
    fx, fy, fz = part.plate_factors
    # a corner of the mesh need not stand where a round is outermost
    assert low == pytest.approx((-length / 2 * fx, -width / 2 * fy, -drag * fz), abs=0.02)
    assert high == pytest.approx((length / 2 * fx, width / 2 * fy, cope * fz), abs=0.02)


@pytest.mark.parametrize("name", HOT)
def test_halves_are_the_whole_pattern(name: str) -> None:
    part, layout, solids = made(name)
    halves = [s for s in solids if s.name.endswith("impression")]
    assert all(len(s.placements) == layout.count == 2 for s in halves)
    assert sum(s.solid.Volume() for s in halves) == pytest.approx(part.pattern.Volume(), rel=1e-6)
    sides = {s.name.split()[-2] for s in halves}
    assert sides == ({"cope"} if name == "body" else {"cope", "drag"})
    for s in halves:
        low, high = reach(tessellate(s.solid, 0.3, 0.5))
        assert (low[2] if "cope" in s.name else -high[2]) > -1e-4


@pytest.mark.parametrize("name", HOT)
def test_pieces_are_valid_and_share_no_metal_but_touch_the_next(name: str) -> None:
    _, layout, solids = made(name)
    pieces = placed(solids)
    assert all(s.solid.isValid() for s in solids)
    for (first, a), (second, b) in itertools.combinations(pieces, 2):
        if first.endswith("1") or second.endswith("1"):  # a pair of second copies is a pair of first ones, turned
            assert common_volume(a, b) < 0.01, (first, second)
    by_name = {s.name: s for s in solids}
    runners = [s.solid for s in solids if s.name.startswith("runner")]
    patterns = [p for n, p in pieces if "cope impression" in n]
    for i in range(1, len(layout.ingates) // 2 + 1):
        gate = by_name[f"ingate {i}"].placed()[0]
        assert min(gate.distance(r) for r in runners) < 1e-4
        if layout.risers:
            riser, neck = by_name[f"riser pad {i}"].placed()[0], by_name[f"riser neck {i}"].placed()[0]
            assert gate.distance(riser) < 1e-4
            assert neck.distance(riser) < 1e-4
            gate = neck
        assert gate.distance(patterns[0]) < 1e-4


@pytest.mark.parametrize("name", HOT)
def test_metal_agrees_with_the_pour_plan(name: str) -> None:
    part, layout, solids = made(name)
    rho = part.alloy.density_kg_m3 / 1e9
    gating, risers = gating_volume(layout, solids)
    assert gating * rho == pytest.approx(layout.gating_mass_kg, rel=GATING_SLACK)
    assert risers * rho == pytest.approx(layout.riser_mass_kg, rel=1e-6)
    castings = layout.count * part.casting.Volume() * rho
    assert layout.castings_mass_kg == pytest.approx(castings, rel=1e-6)


@pytest.mark.parametrize("name", HOT)
def test_sand_is_kept_to_the_flask_and_between_impressions(name: str) -> None:
    _, layout, solids = made(name)
    f, sand = layout.flask, layout.margins
    for s in solids:
        if s.name in ("match plate", "pin bush"):
            continue
        mesh = tessellate(s.solid, 0.3, 0.5)
        for low, high in (reach(mesh.moved(p)) for p in s.placements):
            wall = sand["runner_to_wall"] - 1.5  # the foot of a drafted runner is wider than computed
            assert max(-low[0], high[0]) <= f.length / 2 - wall, s.name
            assert max(-low[1], high[1]) <= f.width / 2 - wall, s.name
            if "sprue pin" not in s.name:
                assert high[2] <= f.cope - sand["cope_top"] + 1e-4, s.name
            assert low[2] >= -THICK - f.drag + sand["drag_bottom"] - 1e-4, s.name
    cope = next(s for s in solids if "cope impression" in s.name)
    # one stands on either side of the runner
    mesh = tessellate(cope.solid, 0.3, 0.5)
    below, above = sorted((reach(mesh.moved(p)) for p in cope.placements), key=lambda r: r[0][1])
    assert above[0][1] - below[1][1] >= sand["between"]


@pytest.mark.parametrize("name", HOT)
def test_drawing_shows_every_foot_in_true_lines_and_arcs(name: str, tmp_path: Path) -> None:
    _, layout, solids = made(name)
    path = tmp_path / "plate.dxf"
    write_plate(path, layout, solids, THICK, ["plate"], "inch", verify=True)
    space = ezdxf.readfile(path).modelspace()
    kinds = Counter(e.dxftype() for e in space)
    assert not {"LWPOLYLINE", "POLYLINE"} & set(kinds)
    assert kinds["SPLINE"] == 0
    circles = list(space.query('CIRCLE[layer=="OUTLINE"]'))
    pins = {(round(p.x, 3), round(p.y, 3)) for p in layout.pins}
    assert {(round(c.dxf.center.x, 3), round(c.dxf.center.y, 3)) for c in circles} == pins
    assert {round(2 * c.dxf.radius, 3) for c in circles} >= {round(layout.pins[0].diameter, 3)}
    feet = bbox.extents(space.query('*[layer=="COPE"]'))
    bounds = [i.bounds for i in layout.impressions]
    assert (feet.extmin.x, feet.extmin.y) == pytest.approx([min(b[k] for b in bounds) for k in (0, 1)], abs=2e-3)
    assert (feet.extmax.x, feet.extmax.y) == pytest.approx([max(b[k] for b in bounds) for k in (2, 3)], abs=2e-3)
    assert len(space.query('CIRCLE[layer=="RISER"]')) == len(layout.risers)
    assert bool(space.query('*[layer=="DRAG"]')) == (name != "body")
    plate = layout.plate
    wide = [e for e in space.query('LINE[layer=="OUTLINE"]') if e.dxf.start.y == e.dxf.end.y]
    assert {round(abs(e.dxf.end.x - e.dxf.start.x), 3) for e in wide} == {round(plate.dx, 3)}


def test_step_names_every_piece(tmp_path: Path) -> None:
    _, _, solids = made("frog")
    path = tmp_path / "plate.step"
    write_step(path, solids, product="frog match plate", verify=True)
    shape, names = read_step(path)
    assert {"match plate", "pin bush", "frog cope impression", "frog drag impression", "runner", "ingate 1",
            "sprue base", "sprue well", "riser pad 1", "riser neck 1", "frog match plate"} <= set(names)  # fmt: skip
    assert len(shape.Solids()) == len(placed(solids))


def test_the_spec_moves_the_parting_plane() -> None:
    part, layout, solids = made("body", 3.0)
    cope, drag = layout.impression.cope_mm, layout.impression.drag_mm
    c = heron().body.cast.sole
    assert (cope, drag) == pytest.approx(((52.3875 - 3.0) * 1.01, (3.0 + c) * 1.01), abs=1e-6)
    halves = {s.name: s.solid.Volume() for s in solids if s.name.endswith("impression")}
    assert set(halves) == {"body cope impression", "body drag impression"}
    assert sum(halves.values()) == pytest.approx(part.pattern.Volume(), rel=1e-6)
    gating, _ = gating_volume(layout, solids)
    assert gating * part.alloy.density_kg_m3 / 1e9 == pytest.approx(layout.gating_mass_kg, rel=GATING_SLACK)


def test_a_stepped_parting_is_refused_with_what_to_change() -> None:
    """A trough whose floor lies below the parting plane: the cope's sand would have to hang down into it."""
    outside = taper_extrude(Profile.rectangle(-50, -20, 50, 20), "z", 9.0, 1.5, up=10.0, down=12.0)
    trough = outside.cut(cq.Solid.makeBox(94, 34, 30, cq.Vector(-47, -17, 3)))
    metal = alloy("ductile-iron-65-45-12")
    part = scaled("body", metal, Contraction.uniform(0.01), one_valid_solid(trough, "trough", "hollow"), draw="z",
                  parting=9.0, section=3.0, heaviest=3.0)  # fmt: skip
    with pytest.raises(RequestError, match=r"drag half does not draw from a flat match plate.*body\.parting_height"):
        assert part.halves


@pytest.mark.parametrize("name", HOT)
def test_a_neck_meets_metal_over_its_whole_end(name: str) -> None:
    part, layout, _ = made(name)
    place, up = layout.impressions[0], 1.0 if part.size[2] >= part.size[3] else -1.0
    shell = part.pattern_on_plate
    for neck in (n for n in layout.necks if abs(n.y - place.y) == min(abs(m.y - place.y) for m in layout.necks)):
        # a slice of the neck just past its end, with the pattern's draft cleared
        x0, _, x1, y1 = neck.bounds
        tall = max(neck.cope_mm, neck.drag_mm)
        end = (y1 if neck.y < place.y else neck.bounds[1]) - place.y
        side = 1.0 if neck.y < place.y else -1.0
        turned = -1.0 if place.turned_deg else 1.0
        slab = cq.Solid.makeBox(x1 - x0, 0.5, tall).moved(
            cq.Location(
                cq.Vector(
                    turned * (neck.x - place.x) - (x1 - x0) / 2,
                    turned * (end + side * CLEAR) - 0.25,
                    0.0 if up > 0 else -tall,
                )
            )
        )
        assert common_volume(shell, slab) > 0.99 * slab.Volume()
