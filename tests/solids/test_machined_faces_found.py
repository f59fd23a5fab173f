"""Milled faces of bodies of unusual size are told from the raw metal about them; invented sizes."""

from __future__ import annotations

import pytest

from parts.body.machined_faces import machined_faces
from parts.body.proof import prove
from parts.plane.casting_marks import body_marks
from parts.plane.design import design
from parts.plane.models import models_of
from parts.plane.shop import load_shop
from parts.plane.spec import spec_of
from shared.cad.mesh import tessellate
from shared.casting.stock import measure_stock
from shared.specfile import parse_text
from tests.random_specs import random_spec

pytestmark = pytest.mark.kernel


@pytest.mark.parametrize(
    ("number", "name"),
    [
        (77, "high pad"),  # 4.5 deg of draft: its aft end lies farther aft where it is milled
        (179, "key top"),  # the pads' raw ends beside the cheeks stand as high as the key
    ],
)
def test_a_milled_face_has_its_stock(number: int, name: str) -> None:
    d = design(spec_of(parse_text(f"bench {number}", random_spec("bench", number))), load_shop(None))
    models = models_of(d, settle=lambda made: made)
    proof = prove(d.body, models.body_casting, models.body)
    assert next(f for f in proof.stock if f.name == name).least >= d.body.cast.required - 1e-3
    marks = body_marks(d.body, machined_faces(d.body), {}, (), models.body)
    plane = next(p for p in marks.machined if p.name == name)
    measured = measure_stock(tessellate(models.body), tessellate(models.body_casting), plane)
    assert measured is not None and measured.least >= plane.asked - 1e-3
