"""Each design rule of arithmetic passes a shipped plane and can fail: past each of its limits, by spec or by size.

A rule whose limit were taken away would pass everything; here it would be seen.
"""

import pytest

from parts.handle.grain import grain_finding
from parts.handle.wood import species
from tests.rule_samples import (
    EDITS,
    KINDS,
    SIZES,
    SPECS,
    UNREACHED,
    before,
    broken,
    edited,
    kind_of,
    plane,
    shipped,
    verdicts,
)

WORSE = {"passed": 0, "warning": 1, "failed": 2}


@pytest.mark.parametrize("sample", [*EDITS, *SIZES], ids=str)
def test_a_rule_fails_past_its_limit(sample):
    assert before(sample.spec)[sample.code] == "passed"
    assert verdicts(broken(sample))[sample.code] == sample.verdict


@pytest.mark.parametrize("sample", [e for e in EDITS if e.further], ids=str)
def test_what_breaks_a_rule_breaks_it_further_on(sample):
    (key,) = sample.keys
    further = verdicts(plane(edited(sample.spec, {key: sample.further})))[sample.code]
    assert WORSE[further] >= WORSE[sample.verdict]


@pytest.mark.parametrize(("slope", "verdict"), [(0.0, "passed"), (7.0, "warning"), (20.0, "failed")])
def test_short_grain_fails_by_its_slope(slope, verdict):
    # H22: the design never lays the grain so steep
    assert grain_finding(species("black-cherry"), slope, "the grip").verdict == verdict


@pytest.mark.parametrize("kind", KINDS)
def test_every_rule_of_a_kind_is_broken_here(kind):
    edits = {e.code for e in EDITS if kind_of(e.spec) == kind}
    sizes = {s.code for s in SIZES if kind_of(s.spec) == kind}
    codes = {code for name in KINDS[kind] for code in before(name)}
    assert codes == edits | UNREACHED[kind].keys()
    assert not edits & UNREACHED[kind].keys()
    assert sizes | {"H22"} >= UNREACHED[kind].keys()


def test_every_shipped_plane_is_looked_at():
    assert {p.stem for p in SPECS.glob("*.toml")} - {"shop"} == {name for names in KINDS.values() for name in names}
    assert {name: shipped(name).spec.plane.kind for names in KINDS.values() for name in names} == {
        name: kind for kind, names in KINDS.items() for name in names
    }
