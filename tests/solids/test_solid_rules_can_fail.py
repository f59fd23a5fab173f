"""Each rule of the models passes a sound model and fails a spoilt one, on the smallest plane."""

from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace

import cadquery as cq
import pytest

from parts.body.low_angle.proof import prove
from parts.body.proof import Undercut
from parts.plane.bench import solid_checks as bench
from parts.plane.casting_findings import casting_findings
from parts.plane.casting_proof import casting_proof
from parts.plane.design import design
from parts.plane.low_angle import solid_checks as low
from parts.plane.rules import solids
from parts.plane.shop import load_shop
from parts.plane.solid_checks import valid_solids
from parts.plane.spec import load_spec
from tests.planes import designed, made

pytestmark = pytest.mark.kernel
SPECS = Path(__file__).parents[2] / "specs"


@pytest.fixture(scope="module")
def wren():
    return designed("wren")


@pytest.fixture(scope="module")
def models(wren):
    return made("wren")


@pytest.fixture(scope="module")
def proof(wren, models):
    return prove(wren.body, models.body_casting, models.body)


@pytest.fixture(scope="module")
def cap(models):
    return casting_proof(models, "lever cap")


def spoilt(models, **solids_by_name):
    """Return what a rule asks of models, some solids put in their place."""
    names = ("body", "body_casting", "body_pattern", "lever_cap_casting")
    return SimpleNamespace(**{n: solids_by_name.get(n) or getattr(models, n) for n in names})


def verdicts(found):
    return {f.code: f.verdict for f in found}


def test_a_solid_turned_inside_out_is_no_solid():
    box = cq.Solid.makeBox(1, 1, 1)
    inverted = cq.Solid(box.wrapped.Reversed())
    assert inverted.Volume() < 0
    piece = SimpleNamespace(name="blade", solid=box)
    assert valid_solids(SimpleNamespace(pieces=[piece])).verdict == "passed"
    found = valid_solids(SimpleNamespace(pieces=[piece, SimpleNamespace(name="body", solid=inverted)]))
    assert found.verdict == "failed"
    assert "not: body" in found.value


def test_the_body_as_built_passes(wren, proof):
    assert verdicts(solids.body(wren, proof)) == {"S02": "passed", "S03": "passed", "S04": "passed"}


def test_metal_outside_the_casting_and_a_face_without_stock_fail(wren, proof):
    outside = replace(proof, uncovered_mm3=1.0)
    assert verdicts(solids.body(wren, outside)) == {"S02": "failed", "S03": "passed", "S04": "passed"}
    bare = replace(proof.stock[0], least=wren.body.cast.required - 0.1)
    found = solids.body(wren, replace(proof, stock=(*proof.stock[1:], bare)))
    assert verdicts(found) == {"S02": "passed", "S03": "failed", "S04": "passed"}
    assert bare.name in found[1].value


def test_a_wall_without_draft_and_an_undercut_fail(wren, proof):
    steep = replace(proof.drafts[0], least=proof.drafts[0].asked - 1.0)
    for doctored in (
        replace(proof, drafts=(steep, *proof.drafts[1:])),
        replace(proof, undercuts=(Undercut((0.0, 0.0, 10.0), -1.0, "wall leans over"),)),
    ):
        assert verdicts(solids.body(wren, doctored)) == {"S02": "passed", "S03": "passed", "S04": "failed"}


def test_a_pattern_with_the_contraction_left_out_or_twice_fails(wren, models):
    assert solids.pattern(wren, models).verdict == "passed"
    twice = models.body_pattern.scale(1 + wren.contraction.x)
    for pattern in (models.body_casting, twice):
        assert solids.pattern(wren, spoilt(models, body_pattern=pattern)).verdict == "failed"


def test_a_cap_casting_that_lies_askew_fails(wren, models):
    assert verdicts(low._cap(wren, models)) == {"S05": "passed", "S06": "passed"}
    turned = models.lever_cap_casting.rotate(cq.Vector(0, 0, 0), cq.Vector(1, 0, 0), 3)
    assert verdicts(low._cap(wren, spoilt(models, lever_cap_casting=turned))) == {"S05": "failed", "S06": "failed"}


def test_a_toe_piece_that_binds_fails(wren, models):
    assert verdicts(low._toe_piece(wren, models)) == {"S08": "passed"}
    sunk = models.body.translate(cq.Vector(0, 0.5, 0))
    assert verdicts(low._toe_piece(wren, spoilt(models, body=sunk))) == {"S08": "failed"}


def test_a_blade_in_the_body_fails(models):
    good = {"body": models.body, "blade": models.blade}
    sunk = {**good, "blade": models.blade.translate(cq.Vector(0, 0, -1.0))}
    first, second = solids.interference("low-angle", [("as set", good), ("sunk", sunk)], lambda i, pair: True)
    assert (first.code, first.verdict, first.change) == ("S10", "passed", "")
    assert (second.code, second.verdict) == ("S11", "failed")
    assert "body and blade share" in second.value
    assert "narrow blade.width" in second.change


def test_a_casting_proof_fails_by_each_measure(cap):
    sound = verdicts(casting_findings([cap]))
    assert {sound["S21"], sound["S23"], sound["S24"]} == {"passed"}
    metal, least = cap.case.alloy, cap.walls.least[0]

    def walled(wall):
        walls = replace(cap.walls, diameter=cap.walls.diameter * wall / least)
        return verdicts(casting_findings([replace(cap, walls=walls)]))["S21"]

    assert walled(0.9 * metal.minimum_wall_mm) == "failed"
    assert walled(metal.minimum_wall_mm + 0.1) == "warning"
    assert verdicts(casting_findings([replace(cap, draw=replace(cap.draw, least_deg=-1.0))]))["S23"] == "failed"
    assert verdicts(casting_findings([replace(cap, draw=replace(cap.draw, trapped_mm3=1e4))]))["S23"] == "failed"
    bare = replace(cap.stock[0], least=cap.stock[0].asked - 1.0)
    assert verdicts(casting_findings([replace(cap, stock=(bare, *cap.stock[1:]))]))["S24"] == "failed"
    assert verdicts(casting_findings([replace(cap, bare_mm3=0.1 * cap.volume_mm3)]))["S24"] == "failed"
    assert verdicts(casting_findings([replace(cap, stock=cap.stock[1:])]))["S24"] == "warning"


def test_a_hot_spot_cut_off_from_the_rest_is_warned_of(cap):
    last = replace(cap.spots[0], cut_off_s=0.0)
    cut_off = replace(last, cut_off_s=0.5 * last.seconds, pool_mm3=5e4, liquid_mm3=4e4, path_modulus_mm=1.0)
    assert verdicts(casting_findings([replace(cap, spots=(last,))]))["S22"] == "passed"
    assert verdicts(casting_findings([replace(cap, spots=(last, cut_off))]))["S22"] == "warning"


@pytest.mark.parametrize(
    ("measured", "frog", "draft"),
    [
        ({}, "passed", "passed"),
        ({"uncovered_mm3": 0.1}, "failed", "passed"),
        ({"stock_missing_mm3": {"bed": 2.0}}, "failed", "passed"),
        ({"least_draft_deg": 1.0}, "passed", "failed"),
    ],
)
def test_a_frog_fails_by_each_measure(monkeypatch, measured, frog, draft):
    d = design(load_spec(SPECS / "heron.toml"), load_shop(SPECS / "shop.toml"))
    sound = {"uncovered_mm3": 0.0, "stock_missing_mm3": {"bed": 0.0}, "least_draft_deg": d.mechanism.frog.draft}
    # the measures themselves are proved on real frogs elsewhere; here it is the rule that judges them
    monkeypatch.setattr(bench, "prove_frog", lambda size, made: SimpleNamespace(**(sound | measured)))
    found = bench._frog(d, SimpleNamespace(frog_casting=None, frog=None))
    assert verdicts(found) == {"S05": frog, "S06": draft}
