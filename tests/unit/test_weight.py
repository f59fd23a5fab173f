"""Weight and balance by arithmetic, the rule that judges them, and the family that stands side by side."""

from pathlib import Path

import pytest

from parts.plane.design import design
from parts.plane.family import member
from parts.plane.numbers import plane_numbers
from parts.plane.rules.weighing import usual_mass, weighed
from parts.plane.shop import load_shop
from parts.plane.side import shapes
from parts.plane.spec import load_spec
from parts.plane.weight import Lump, Weight, outline_area, weight

SPECS = Path(__file__).parents[2] / "specs"
SHOP = load_shop(SPECS / "shop.toml")

# mass [kg] and balance aft of the edge [mm] of the models of the demo planes, measured once by the kernel
BY_MODEL = {
    "heron": (2.6244, 55.79),
    "linnet": (2.4028, 54.63),
    "crane": (4.2282, 75.02),
    "heron-metric": (2.6897, 53.34),
}


def plane(name):
    return design(load_spec(SPECS / f"{name}.toml"), SHOP)


@pytest.mark.parametrize("name", BY_MODEL)
def test_the_estimate_comes_near_the_models(name):
    w, (mass, balance) = weight(plane(name)), BY_MODEL[name]
    assert w.mass == pytest.approx(mass, rel=0.03)
    assert w.balance == pytest.approx(balance, abs=3.0)


def test_bronze_is_weighed_as_if_of_iron():
    w = weight(plane("linnet"))
    assert w.as_iron < w.mass
    assert weight(plane("heron")).as_iron == pytest.approx(weight(plane("heron")).mass)


@pytest.mark.parametrize(
    ("length", "low", "high"), [(245, 1.6, 2.3), (355, 2.2, 3.0), (560, 3.3, 4.3), (300, 1.9, 2.65)]
)
def test_usual_masses(length, low, high):
    # smoother, jack, jointer: masses to expect in iron, common practice, no source; between them a line
    assert usual_mass(length) == pytest.approx((low, high))


def test_a_plane_that_dives_or_weighs_too_much_is_told_what_to_change():
    d = plane("heron")
    ahead, heavy = Weight((Lump("all", 2.6, -20.0),)), Weight((Lump("all", 5.0, 50.0),))
    found = {f.code: f for f in weighed(d, ahead)}
    assert (found["W01"].verdict, found["W02"].verdict) == ("passed", "warning")
    assert "lower body.mouth_from_toe by about 51/64 in" in found["W02"].change
    found = {f.code: f for f in weighed(d, heavy)}
    assert found["W01"].verdict == "warning"
    assert "thin body.sole_thickness" in found["W01"].change
    assert weighed(d, None) == []


def test_area_and_centroid_of_an_outline():
    assert outline_area([(0, 0), (4, 0), (4, 2), (0, 2)]) == pytest.approx((8.0, 2.0))


@pytest.mark.parametrize("name", ["heron", "wren", "wren-long"])
def test_a_member_says_the_same_in_text_and_numbers(name):
    d = plane(name)
    m = member(d, plane_numbers(d))
    assert m.values["length_mm"] == pytest.approx(d.body.length)
    assert m.said["grip on the tote"] == "none" if d.tote is None else m.values["grip_mm"] == d.tote.grip
    assert m.values["mass_estimate_kg"] > 0
    assert f"{m.values['mass_estimate_kg']:.2f} kg" in m.said["mass, estimated"]


@pytest.mark.parametrize("name", ["heron", "crane", "wren", "wren-long"])
def test_the_side_view_holds_together(name):
    d = plane(name)
    found = {s.name: s.corners for s in shapes(d)}
    xs, zs = [x for x, _ in found["body"]], [z for _, z in found["body"]]
    assert (min(xs), max(xs)) == pytest.approx((d.body.toe_x, d.body.heel_x))
    assert min(zs) == pytest.approx(0.0)
    assert max(zs) == pytest.approx(d.body.cheek_height, abs=0.1)
    # the blade's edge stands where every plane has its origin, and the handles on the plate
    assert (0.0, 0.0) in found["blade"]
    assert min(z for _, z in found["knob"]) == pytest.approx(d.knob.foot_plane_z)
    assert ("tote" in found) == (d.tote is not None)
