"""What arithmetic says of patterns and castings that still serve, against the models."""

from pathlib import Path

import pytest

from parts.body.casting import casting
from parts.plane.design import design
from parts.plane.reuse import reuse
from parts.plane.shop import load_shop
from parts.plane.solid_reuse import NOTHING, outside_old_casting
from parts.plane.spec import spec_of
from shared.specfile import parse_text

pytestmark = pytest.mark.kernel
HERON = (Path(__file__).parents[2] / "specs" / "heron.toml").read_text()
SHOP = load_shop(None)


def plane(*pairs):
    text = HERON
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new, 1)
    return design(spec_of(parse_text("heron", text)), SHOP)


def test_a_body_that_arithmetic_lets_be_reworked_lies_inside_the_old_casting():
    old, new = plane(), plane(("length = 14\n", 'length = "13-15/16 in"\n'))
    body = next(r for r in reuse(old, new) if r.stock.part == "body")
    assert body.stock.yes
    assert outside_old_casting(old, new, ["body"])["body"] < NOTHING


def test_what_is_called_milled_leaves_the_casting_as_it_is():
    old, new = plane(), plane(("mouth_opening = 0.015", "mouth_opening = 0.03\nmouth_front_angle = 70"))
    body = next(r for r in reuse(old, new) if r.stock.part == "body")
    assert body.same_casting
    assert casting(new.body).Volume() == pytest.approx(casting(old.body).Volume(), rel=1e-9)
