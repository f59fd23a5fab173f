"""What of one solid lies outside another, also where the kernel's cut of the two is false."""

import cadquery as cq
import pytest

from shared.cad import cover

pytestmark = pytest.mark.kernel


def block(x, y, z, at=(0.0, 0.0, 0.0)):
    return cq.Solid.makeBox(x, y, z, cq.Vector(*at))


class Stranger(cq.Solid):
    """A solid whose cut comes back whole, as the kernel's does now and then where many faces are shared."""

    def cut(self, *others, tol=None):
        return cq.Solid(self.wrapped)


def strange(solid):
    return Stranger(solid.wrapped)


def test_a_solid_within_another_is_covered():
    assert cover.outside(block(10, 10, 10, (1, 1, 1)), block(12, 12, 12)) == cover.Outside(pytest.approx(0.0, abs=1e-9))


@pytest.mark.parametrize("rise", [0.001, 0.1, 2.0, 50.0])
def test_what_stands_out_is_found_also_where_it_is_a_sliver(rise):
    found = cover.outside(block(10, 10, 10, (0, 0, 2 + rise)), block(10, 10, 12))
    assert found == cover.Outside(pytest.approx(100 * min(rise, 10.0), rel=1e-6))


def test_a_false_cut_is_not_believed():
    assert cover.outside(strange(block(10, 10, 10)), block(12, 10, 10)) == cover.Outside(0.0, by_rays=True)


def test_after_a_false_cut_what_truly_stands_out_is_still_found():
    found = cover.outside(strange(block(10, 10, 10, (0, 0, 4))), block(10, 10, 10))
    assert found == cover.Outside(pytest.approx(400.0, rel=0.05), by_rays=True)
