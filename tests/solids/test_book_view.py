"""What the book's 3-D view is made from: exact normals, sharp edges, turning axes, stages, the way apart."""

import math
from types import SimpleNamespace

import cadquery as cq
import numpy as np
import pytest

from parts.plane.book_view import shapes
from parts.plane.models import Piece
from shared.cad import palette
from shared.cad.axis import turning_axis
from shared.cad.facets import facets

pytestmark = pytest.mark.kernel


def volume(surface):
    a, b, c = (surface.vertices[surface.triangles[:, i]] for i in range(3))
    return float(np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6)


def bored_plate():
    return cq.Workplane().box(40, 30, 10).faces(">Z").workplane().hole(12).val()


def test_facets_have_the_surface_s_own_normals():
    surface = facets(bored_plate(), 0.02, 0.1)
    a, b, c = (surface.vertices[surface.triangles[:, i]] for i in range(3))
    flat = np.cross(b - a, c - a)
    # every triangle looks the way its corners' normals do: outward
    for i in range(3):
        assert ((flat * surface.normals[surface.triangles[:, i]]).sum(axis=1) > 0).all()
    assert volume(surface) == pytest.approx(40 * 30 * 10 - math.pi * 36 * 10, rel=1e-3)
    bore = np.isclose(np.hypot(*surface.vertices[:, :2].T), 6) & np.isclose(surface.normals[:, 2], 0)
    inward = -surface.vertices[bore, :2] / 6
    np.testing.assert_allclose(surface.normals[bore, :2], inward, atol=1e-6)
    assert np.isin(np.round(np.abs(surface.normals[~bore]), 9), (0.0, 1.0)).all()


def test_lines_stand_at_sharp_edges_only():
    surface = facets(bored_plate(), 0.02, 0.1)
    ends = surface.vertices[surface.edges]
    length = np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1).sum()
    assert length == pytest.approx(8 * 35 + 4 * 10 + 2 * 2 * math.pi * 6, rel=2e-3)
    # a tangent rounding has no line along it: only its two ends have
    eased = facets(cq.Workplane().box(40, 30, 10).edges("|Z").fillet(8).val(), 0.02, 0.1)
    ends = eased.vertices[eased.edges]
    assert (np.abs(ends[:, 1, 2] - ends[:, 0, 2]) < 1e-9).all()


def test_moved_and_reversed_solids_keep_their_outside():
    placed = bored_plate().moved(cq.Location((5, 6, 7), (0, 1, 0), 30))
    assert volume(facets(placed)) == pytest.approx(volume(facets(bored_plate())), rel=1e-6)
    assert volume(facets(placed.mirror("XY"))) == pytest.approx(volume(facets(bored_plate())), rel=1e-3)


def slotted_screw(axis):
    screw = cq.Workplane().circle(3).extrude(20).faces(">Z").workplane().circle(6).extrude(4)
    slotted = screw.cut(cq.Workplane().box(20, 1.5, 3).translate((0, 0, 24)))
    plane = cq.Plane((0, 0, 0), xDir=(0, 1, 0), normal=axis)
    return slotted.val().moved(cq.Location(plane))


@pytest.mark.parametrize("axis", [(0, 0, 1), (0.6, 0, 0.8), (1, 0, 0)])
def test_a_slotted_screw_has_its_axis(axis):
    assert abs(np.dot(turning_axis(slotted_screw(axis)), axis)) == pytest.approx(1.0)


def test_a_box_and_a_bored_plate_are_not_turned():
    assert turning_axis(cq.Workplane().box(3, 3, 20).val()) is None
    assert turning_axis(bored_plate()) is None


class FakeModels:
    """A plane of a kind without frog, chipbreaker or tote: body, blade flat on it, a knob and a screw."""

    def __init__(self):
        body = cq.Workplane().box(200, 60, 20).translate((0, 0, 10)).val()
        self.cast = cq.Workplane().box(206, 66, 26).translate((0, 0, 10)).val()
        blade = cq.Workplane().box(100, 40, 3).translate((50, 0, 21.5)).val()
        knob = cq.Workplane().circle(12).extrude(40).translate((-70, 0, 20)).val()
        screw = cq.Workplane().circle(3).extrude(30).translate((-70, 0, 12)).val()
        made = (("body", "body", body), ("blade", "blade", blade), ("knob", "handle", knob), ("rod", "hardware", screw))
        self.pieces = [Piece(name, part, solid, 7800.0, palette.IRON) for name, part, solid in made]

    def staged(self):
        return {"body": {"casting": self.cast}, "toe piece": {"casting": self.cast, "pattern": self.cast}}

    def measured(self, piece):
        return piece.solid.Volume(), piece.solid.Volume() * piece.density * 1e-9, (0.0, 0.0, 0.0)


def test_shapes_of_any_kind_of_plane():
    models = FakeModels()
    found = {s.name: s for s in shapes(models, 12.0, models.staged())}
    assert list(found["body"].stages) == ["finished", "casting"]
    assert list(found["toe piece"].stages) == ["casting", "pattern"]  # no finished piece bears that name
    assert found["body"].away == (0.0, 0.0, 0.0)
    for name in ("blade", "knob", "rod"):
        assert found[name].away[2] > 5.0, name
    # the rod leaves the knob upward, along its own axis
    assert found["rod"].away[2] > found["knob"].away[2] + 5.0
    assert found["rod"].away[:2] == pytest.approx((0.0, 0.0), abs=1e-9)
    assert found["blade"].size == pytest.approx((100.0, 40.0, 3.0))
    assert found["body"].mass_kg == pytest.approx(0.2 * 0.06 * 0.02 * 7800)
    again = {s.name: s.away for s in shapes(models, 12.0, models.staged())}
    assert again == {name: s.away for name, s in found.items()}


def test_an_empty_assembly_gives_no_shape():
    assert shapes(SimpleNamespace(pieces=[], measured=None), 45.0, {}) == ()
